"""Forms: piece files with documented parameters that come with the program."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from scantling.errors import InputError

__all__ = ["DEMO", "Form", "demo_files", "examples_folder", "find_form", "forms"]

DEMO = "reading_table.yaml"
"""The piece the demo plans."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A shipped piece file."""

    name: str
    title: str
    about: str
    path: Path

    @property
    def text(self) -> str:
        """The file as it is."""
        return self.path.read_text(encoding="utf-8")


def examples_folder() -> Path:
    """Where the shipped pieces, shops, racks and rooms lie: in the package, or beside a source checkout."""
    packed = Path(str(files("scantling"))) / "examples"
    return packed if packed.is_dir() else Path(str(files("scantling"))).parents[1] / "examples"


def forms() -> tuple[Form, ...]:
    """Every form, by name."""
    from scantling.reading import read_document

    found = []
    for path in sorted(examples_folder().glob("*.yaml")):
        document = read_document(path)
        title, about = document.get(("title",)), document.get(("about",))
        found.append(
            Form(
                name=path.stem.replace("_", "-"), title=str(title), about=str(about or "").strip(), path=path
            )
        )
    return tuple(found)


def find_form(name: str) -> Form:
    """A form by name.

    Raises
    ------
    InputError
        ``unknown_form``.
    """
    from scantling.reading import did_you_mean

    listed = {form.name: form for form in forms()}
    wanted = name.replace("_", "-").removesuffix(".yaml")
    if wanted not in listed:
        raise InputError(
            code="unknown_form",
            field="form",
            value=name.strip() or "nothing",
            rule=f"must be a file, or one of the forms {', '.join(listed)}",
            remedy=did_you_mean(wanted, listed, otherwise="Give the path of a piece file, with its .yaml."),
        )
    return listed[wanted]


def demo_files() -> dict[str, Path]:
    """The files of the demo: piece, shop, rack, room."""
    folder = examples_folder()
    return {
        "piece": folder / DEMO,
        "shop": folder / "shops" / "reading-table.yaml",
        "rack": folder / "racks" / "reading-table.csv",
        "room": folder / "rooms" / "high-plains-house.yaml",
    }
