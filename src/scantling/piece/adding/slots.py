"""What is asked of a maker about a new part: one field of a form each, with what stands in it."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import Fault

__all__ = ["AXES", "MIRRORS", "PLACES", "RUNS", "Choice", "Slot", "size_fault"]

AXES = ("x", "y", "z")
MIRRORS = ("left-right", "front-back")
"""What a copy is mirrored by, by axis."""
PLACES = ("To the right of the middle", "Behind the middle", "Above the floor")
"""What a coordinate says, by axis."""
_SIZES = frozenset({"width", "thickness", "length"})
RUNS = ("right", "back", "top")
"""Directions along the axes, as the piece file names them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One of several that may be chosen."""

    value: str
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One field.

    Parameters
    ----------
    name
        What it goes by.
    label
        What it is called.
    text
        What stands in it: as typed, or what is usual here.
    choices
        What may be chosen; empty where a length is typed.
    group
        What it belongs to, where several say one thing.
    """

    name: str
    label: str
    text: str
    choices: tuple[Choice, ...] = ()
    group: str = ""


def size_fault(slot: Slot, mm: float) -> Fault | None:
    """What is wrong with a size of a part that came to so much; a place may be anything. [mm]"""
    if slot.name not in _SIZES or mm > 0.0:
        return None
    return Fault(
        code="size_not_positive",
        field=slot.name,
        value=slot.text,
        rule="must be more than 0",
        remedy="Look at the expression it comes from.",
    )
