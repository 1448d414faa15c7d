"""Reading a shop profile from its file, with every fault at its line."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from scantling.errors import Fault, FileFaults, InputError
from scantling.reading import Document, did_you_mean, faults_for, parse_on, read_on, validate
from scantling.shop.profile.glues import shipped_glues
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.surfacing import shipped_finishes
from scantling.shop.profile.yard import nominals
from scantling.wood.sheets import find_sheet
from scantling.wood.species import find_species

__all__ = ["default_shop", "parse_shop", "read_shop"]


@cache
def default_shop() -> Shop:
    """The profile used where none is given: a usual one-person shop."""
    return Shop()


def read_shop(path: str | Path) -> Shop:
    """The shop a YAML file describes.

    Parameters
    ----------
    path
        The file.

    Raises
    ------
    FileFaults
        Every fault of the file.
    """
    return _checked(read_on(path))


def parse_shop(text: str, *, file: str = "shop") -> Shop:
    """The shop a YAML text describes.

    Raises
    ------
    FileFaults
        Every fault of the text.

    Examples
    --------
    >>> parse_shop("machines: {planer: {max_width: 13 in}}").machines.planer.max_width_mm
    330.2
    """
    return _checked(parse_on(text, file=file))


def _checked(document: Document) -> Shop:
    """The shop, or every fault: names are looked up in the file itself, so as not to wait for the rest."""
    faults: list[Fault] = []
    shop = None
    try:
        shop = validate(document, Shop)
    except FileFaults as error:
        faults.extend(error.faults)
    faults += _unknown_names(document)
    if shop is None or faults:
        raise FileFaults(sorted(dict.fromkeys(faults), key=lambda fault: (fault.line, fault.column)))
    return shop


def _unknown_names(document: Document) -> list[Fault]:
    """Glues, finishes, thicknesses and woods the file names and nothing describes."""
    glues = [*_own_names(document, "glues"), *(glue.name for glue in shipped_glues())]
    finishes = [*_own_names(document, "finishes"), *(finish.name for finish in shipped_finishes())]
    faults = [
        *_name_faults(document, ("glue",), glues),
        *_name_faults(document, ("finish",), finishes),
    ]
    names = document.get(("yard", "names"))
    for number in range(len(names) if isinstance(names, list) else 0):
        faults += _name_faults(document, ("yard", "names", number), [n.name for n in nominals()])
    timber = document.get(("rates", "timber"))
    for species in timber if isinstance(timber, dict) else ():
        try:
            find_species(species)
        except InputError as error:
            faults += faults_for(document, ("rates", "timber", species), error)
    return faults + _sheet_faults(document, "rates") + _sheet_faults(document, "yard")


def _sheet_faults(document: Document, block: str) -> list[Fault]:
    """Sheet materials no table knows, in one block's list of sheets."""
    faults: list[Fault] = []
    sheets = document.get((block, "sheets"))
    for number, entry in enumerate(sheets if isinstance(sheets, list) else ()):
        material = entry.get("material") if isinstance(entry, dict) else None
        try:
            if isinstance(material, str):
                find_sheet(material)
        except InputError as error:
            faults += faults_for(document, (block, "sheets", number, "material"), error)
    return faults


def _own_names(document: Document, block: str) -> list[str]:
    """Names of what the file describes itself."""
    entries = document.get((block,))
    listed = entries if isinstance(entries, list) else []
    names = [entry.get("name") for entry in listed if isinstance(entry, dict)]
    return [name for name in names if isinstance(name, str)]


def _name_faults(document: Document, path: tuple[str | int, ...], known: list[str]) -> list[Fault]:
    name = document.get(path)
    if not isinstance(name, str) or not name or name in known:
        return []
    what = str(path[0]) if path[0] != "yard" else "thickness"
    hint = did_you_mean(name, known)
    return [
        document.fault(
            path,
            code=f"unknown_{what}",
            value=name,
            rule=f"must be one of {', '.join(known)}",
            remedy=hint or f"Use one of these names, or add the {what} to the profile.",
        )
    ]
