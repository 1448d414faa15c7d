"""The wood or sheet each part is made of, looked up before anything is placed."""

from __future__ import annotations

from scantling.errors import Fault, InputError
from scantling.piece.files.remains import block
from scantling.piece.model import PartKind
from scantling.reading import Document, faults_for
from scantling.wood.sheets import find_sheet
from scantling.wood.species import find_species

__all__ = ["materials"]

_STAND_IN_WOOD, _STAND_IN_SHEET = "red oak", "plywood"
"""What a part of an unknown material is placed as, so that its other faults are told too."""


def materials(document: Document) -> tuple[dict[str, str], list[Fault]]:
    """Full name of every entry's material, and the faults of those there is none of.

    An entry that has no readable ``kind`` may name either a wood or a sheet.
    """
    names: dict[str, str] = {}
    faults: list[Fault] = []
    for entry in block(document, "parts"):
        raw = block(document, "parts", entry)
        written, kind = raw.get("species"), raw.get("kind")
        names[entry] = _STAND_IN_SHEET if kind == PartKind.SHEET else _STAND_IN_WOOD
        if not isinstance(written, str):
            continue
        try:
            names[entry] = _found(written, kind)
        except InputError as error:
            faults.extend(faults_for(document, ("parts", entry, "species"), error))
    return names, faults


def _found(written: str, kind: object) -> str:
    if kind == PartKind.SHEET:
        return find_sheet(written).name
    try:
        return find_species(written).name
    except InputError:
        if isinstance(kind, str) and kind in set(PartKind):
            raise
    return find_sheet(written).name
