"""A new part as a maker says it, filled up with what is usual where nothing was said, as an entry.

Every way of placing is one the piece file has: from point to point, about a middle, between two faces that
trim its ends, and on a face, from which its middle or its first end is counted.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from scantling.errors import InputError
from scantling.piece.adding.slots import RUNS, Choice, Slot
from scantling.piece.adding.terms import listed
from scantling.piece.adding.ways import LAID, Placing, between, by_middle, by_points, on_face
from scantling.piece.adding.written_places import WrittenPlaces
from scantling.piece.model import Part, PartKind, Piece
from scantling.reading.nodes import source_of
from scantling.wood.sheets import all_sheets

__all__ = ["Asked", "Filled", "Way", "filled_up", "usual_wood"]


class Way(StrEnum):
    """How it is told where a part stands."""

    BETWEEN = "between"
    ON = "on"
    POINTS = "points"
    MIDDLE = "middle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is said of a new part.

    Parameters
    ----------
    kind, species
        What it is, and of what.
    way
        How it is told where it stands.
    at
        The part it is near; empty for none.
    typed
        What was written or chosen, by the name of its slot; the rest is filled up.
    """

    kind: PartKind
    species: str
    way: Way
    at: str = ""
    typed: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """A new part with every slot filled, and the entry of the piece file it makes.

    Parameters
    ----------
    slots
        In the order they are asked in.
    entry
        Fields as they are to be written, each on one line.
    told_at
        The slot at which a fault of a field of the entry is told, by the field's name (``section[1]``).
    """

    slots: tuple[Slot, ...]
    entry: tuple[tuple[str, str], ...]
    told_at: Mapping[str, str]


_USUAL_MM: dict[PartKind, tuple[float, float]] = {
    PartKind.STICK: (40.0, 20.0),
    PartKind.PANEL: (300.0, 20.0),
    PartKind.LAMINATION: (60.0, 60.0),
    PartKind.SHEET: (300.0, 6.0),
}
"""Width and thickness where the piece has no part of the kind (to begin from; invented). [mm]"""
_USUAL_IN: dict[PartKind, tuple[str, str]] = {
    PartKind.STICK: ("1 1/2 in", "3/4 in"),
    PartKind.PANEL: ("12 in", "3/4 in"),
    PartKind.LAMINATION: ("2 1/2 in", "2 1/2 in"),
    PartKind.SHEET: ("12 in", "1/4 in"),
}
"""The same in a file in inches."""
_USUAL_WOOD = "red oak"
"""Of a part of wood in a piece of sheets alone (to begin from; invented)."""
_WAYS = {Way.BETWEEN: between, Way.ON: on_face, Way.POINTS: by_points, Way.MIDDLE: by_middle}


def filled_up(asked: Asked, piece: Piece, places: WrittenPlaces) -> Filled:
    """A new part with what is usual where nothing was said.

    Parameters
    ----------
    asked
        What is said of it.
    piece
        The piece it is to be a part of.
    places
        Where the parts of the piece lie.

    Raises
    ------
    InputError
        ``no_such_choice``, ``no_face``: what was chosen is not, or is no more, in the piece.
    """
    near = piece.parts.get(asked.at) or next(iter(piece.parts.values()))
    usual = _section(asked.kind, near, piece, places)
    width, thickness = (
        asked.typed.get(name, "").strip() or text
        for name, text in zip(("width", "thickness"), usual, strict=True)
    )
    placing = Placing(
        piece=piece,
        places=places,
        near=near,
        typed=asked.typed,
        flat=asked.kind in _FLAT,
        section=(width, thickness),
    )
    placed = _WAYS[asked.way](placing)
    toward = _toward(asked, placed.free, placed.laid)
    slots = (
        *placed.slots,
        Slot(name="width", label="Width", text=width, group="Size"),
        Slot(name="thickness", label="Thickness", text=thickness, group="Size"),
        *placed.sizes,
        toward,
    )
    entry = (
        ("kind", asked.kind.value),
        ("species", source_of(asked.species, text=True)),
        *placed.written(toward.text),
        ("section", listed((width, thickness))),
        ("width_toward", toward.text),
        *placed.trim,
        ("show", "all"),
    )
    told_at = {
        "section[1]": "width",
        "section[2]": "thickness",
        "section": "width",
        "species": "species",
        "width_toward": "width_toward",
        **placed.told_at,
    }
    return Filled(slots=slots, entry=entry, told_at=told_at)


def usual_wood(piece: Piece, *, at: str, kind: PartKind) -> str:
    """The wood of a new part, or its sheet, where none is said. By name.

    Parameters
    ----------
    piece
        The piece it is to be a part of.
    at
        The part it is near, whose wood it takes; where there is none, or only one of the two is of a sheet,
        that of the first part in the piece that is like it.
    kind
        What the new part is.
    """
    of_sheet = kind is PartKind.SHEET
    near = [piece.parts[at]] if at in piece.parts else []
    for part in (*near, *piece.parts.values()):
        if (part.kind is PartKind.SHEET) is of_sheet:
            return part.species
    return all_sheets()[0].name if of_sheet else _USUAL_WOOD


_FLAT = frozenset({PartKind.PANEL, PartKind.SHEET})


def _section(kind: PartKind, near: Part, piece: Piece, places: WrittenPlaces) -> tuple[str, str]:
    """Width and thickness as the part near has them, or the first of its kind; else a beginning."""
    for part in (near, *piece.parts.values()):
        if part.kind is kind and (written := places.section(part)) is not None:
            return written
    if piece.units == "in":
        return _USUAL_IN[kind]
    width, thickness = _USUAL_MM[kind]
    return places.figure(width), places.figure(thickness)


def _toward(asked: Asked, free: tuple[int, ...], laid: int) -> Slot:
    """Which way its width is laid: along an axis that is not its grain's."""
    choices = tuple(Choice(value=RUNS[axis], label=LAID[axis]) for axis in free)
    text = asked.typed.get("width_toward", "")
    if text and text not in RUNS:
        raise InputError(
            code="no_such_choice",
            field="width_toward",
            value=text[:40],
            rule=f"must be one of {', '.join(choice.value for choice in choices)}",
        )
    if text not in {choice.value for choice in choices}:
        text = RUNS[laid]
    return Slot(name="width_toward", label="Its width lies", text=text, choices=choices, group="Size")
