"""Reading a shop profile from its file, with every fault at its line."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from scantling.errors import Fault, FileFaults, InputError
from scantling.reading import Document, did_you_mean, faults_for, parse_document, read_document, validate
from scantling.shop.glues import shipped_glues
from scantling.shop.profile import Shop
from scantling.shop.surfacing import shipped_finishes
from scantling.shop.yard import nominals
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
    return _checked(read_document(path))


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
    return _checked(parse_document(text, file=file))


def _checked(document: Document) -> Shop:
    shop = validate(document, Shop)
    faults = [
        *_name_faults(document, ("glue",), shop.glue, [g.name for g in (*shipped_glues(), *shop.glues)]),
        *_name_faults(
            document, ("finish",), shop.finish, [f.name for f in (*shipped_finishes(), *shop.finishes)]
        ),
    ]
    for number, name in enumerate(shop.yard.names):
        faults += _name_faults(document, ("yard", "names", number), name, [n.name for n in nominals()])
    for species in shop.rates.timber:
        try:
            find_species(species)
        except InputError as error:
            faults += faults_for(document, ("rates", "timber", species), error)
    if faults:
        raise FileFaults(faults)
    return shop


def _name_faults(document: Document, path: tuple[str | int, ...], name: str, known: list[str]) -> list[Fault]:
    if name in known:
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
