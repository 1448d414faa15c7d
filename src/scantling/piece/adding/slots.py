"""What is asked of a maker about a new part: one field of a form each, with what stands in it."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["AXES", "PLACES", "RUNS", "Choice", "Slot"]

AXES = ("x", "y", "z")
PLACES = ("To the right of the middle", "Behind the middle", "Above the floor")
"""What a coordinate says, by axis."""
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
