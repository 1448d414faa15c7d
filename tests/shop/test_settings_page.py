"""The page of settings is what the profile knows today."""

from __future__ import annotations

import ast
import os
from collections.abc import Iterator
from enum import Enum
from pathlib import Path
from typing import Any, get_args

from pydantic import BaseModel

from scantling.reading import QuantityField
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.section import ProfileSection

PAGE = Path(__file__).parents[2] / "docs" / "shop-settings.md"
NOTHING_YET = "Nothing is computed from it yet."
_INTERNAL = {"length": "mm", "angle": "°", "percent": "%", "temperature": "°C", "time": "min"}
_INTERNAL |= {"mass": "kg", "force": "N"}


def section_in(annotation: Any) -> type[BaseModel] | None:
    """The section a field holds, alone or in a list or a mapping."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for inner in get_args(annotation) if (found := section_in(inner))), None)


def shown(value: Any, marks: list[Any]) -> str:
    """A default as a maker writes it."""
    quantity = next((mark for mark in marks if isinstance(mark, QuantityField)), None)
    if value is None:
        return "none"
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, tuple):
        return "none named" if not value else ", ".join(shown(one, []) for one in value)
    if isinstance(value, float):
        return f"{value:g} {_INTERNAL[quantity.dimension.value]}" if quantity else f"{value:g}"
    return str(value)


def rows(model: type[BaseModel], at: str) -> Iterator[str]:
    """A row for every setting of a section, and of the sections in it."""
    for name, info in model.model_fields.items():
        key = f"{at}{info.alias or name}"
        about = " ".join((info.description or "").split()).replace("|", "/")
        inner = section_in(info.annotation)
        if inner is not None:
            many = get_args(info.annotation)[:1] == (inner,) and Ellipsis in get_args(info.annotation)
            yield from rows(inner, f"{key}[]." if many else f"{key}.")
        else:
            default = (
                "must be given"
                if info.is_required()
                else shown(info.get_default(call_default_factory=True), info.metadata)
            )
            yield f"| `{key}` | {default} | {about} |"


def page() -> str:
    """The page as it should be."""
    return "\n".join(
        [
            "# Settings of a shop profile",
            "",
            "Made from the profile's model; `SCANTLING_WRITE_DOCS=1 pytest tests/shop/test_settings_page.py`",
            "writes it anew. A bare number is in the unit shown (a length in the file's `units`); a text may",
            "carry any other: `13 in`, `68 F`, `900 lbf`, `24 h`.",
            "",
            "| setting | default | what it is, or where the default comes from |",
            "|---|---|---|",
            *rows(Shop, ""),
            "",
        ]
    )


def test_the_page_lists_every_setting_with_its_default() -> None:
    """docs/shop-settings.md is what the code says."""
    if os.environ.get("SCANTLING_WRITE_DOCS"):
        PAGE.write_text(page(), encoding="utf-8")
    assert PAGE.read_text(encoding="utf-8") == page()


def read_outside_the_profile() -> set[str]:
    """Attributes that some code reads, that of the profile itself left out."""
    code = PAGE.parents[1] / "src" / "scantling"
    own = code / "shop" / "profile"
    files = [file for file in code.rglob("*.py") if own not in file.parents]
    files += [own / "profile.py", own / "yard.py", own / "glues.py", own / "clamps.py"]  # what these work out
    trees = (ast.parse(file.read_text(encoding="utf-8")) for file in files)
    return {node.attr for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Attribute)}


def sections(kind: type[ProfileSection] = ProfileSection) -> Iterator[type[ProfileSection]]:
    """Every section of a profile, and of what is in one."""
    for each in kind.__subclasses__():
        yield each
        yield from sections(each)


def test_a_setting_that_nothing_reads_says_so() -> None:
    """Who gives it is told that no figure follows from it; where one does, the word goes."""
    read = read_outside_the_profile()
    idle = {name for each in sections() for name in each.model_fields if name not in read}
    told = {
        name
        for each in sections()
        for name, info in each.model_fields.items()
        if (info.description or "").endswith(NOTHING_YET)
    }
    assert idle - told == {"accuracy"}, "a section, each of whose settings says so"
    assert told - idle <= {
        "thickness_mm",
        "length_mm",
        "door_width_mm",
        "door_height_mm",
        "ceiling_mm",
        "throat_mm",
    }


def test_every_default_of_a_quantity_says_where_it_comes_from() -> None:
    """No length, angle, time or force is given without a word about it."""
    silent = [
        row
        for row in rows(Shop, "")
        if row.endswith("|  |") and any(u in row for u in (" mm |", "° |", " N |"))
    ]
    assert silent == []
