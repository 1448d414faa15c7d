"""How far parts reach, as expressions of the piece file: what is placed by it follows when sizes change."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.piece.adding.standing import extent_of
from scantling.piece.adding.terms import halved, minus, plus, times
from scantling.piece.adding.written_places import WrittenPlaces, is_straight
from scantling.piece.model import Direction, Part

__all__ = ["middle_of", "middle_shared", "sides_of", "span_of"]

_SAME_MM = 0.02
_WAYS = (
    (Direction.LEFT, Direction.RIGHT),
    (Direction.FRONT, Direction.BACK),
    (Direction.BOTTOM, Direction.TOP),
)
"""The two directions along each axis, the one of lesser coordinates first."""


def sides_of(places: WrittenPlaces, parts: Sequence[Part], axis: int) -> tuple[str, str]:
    """Least and greatest coordinate of parts along an axis; a figure where no straight face lies there."""
    extent = extent_of(parts, axis)
    low, high = (_side(places, parts, way, mm) for way, mm in zip(_WAYS[axis], extent, strict=True))
    return low, high


def middle_of(places: WrittenPlaces, parts: Sequence[Part], axis: int) -> str:
    """The middle of what parts take up along an axis; that of one of them, where one is in the middle."""
    middle = sum(extent_of(parts, axis)) / 2.0
    for part in parts:
        extent = extent_of((part,), axis)
        if extent == extent_of(parts, axis):
            return places.middle(part, axis)
    low, high = sides_of(places, parts, axis)
    return places.checked(halved(plus(low, high)), middle)


def middle_shared(places: WrittenPlaces, parts: tuple[Part, Part], axis: int) -> str:
    """The middle of where two parts lie beside each other, which they must."""
    ends = [extent_of((part,), axis) for part in parts]
    middle = (max(low for low, _ in ends) + min(high for _, high in ends)) / 2.0
    for part, extent in zip(parts, ends, strict=True):
        if abs(sum(extent) / 2.0 - middle) < _SAME_MM:
            return places.middle(part, axis)
    inner = max(parts, key=lambda part: extent_of((part,), axis)[0])
    outer = min(parts, key=lambda part: extent_of((part,), axis)[1])
    low, high = sides_of(places, (inner,), axis)[0], sides_of(places, (outer,), axis)[1]
    return places.checked(halved(plus(low, high)), middle)


def span_of(places: WrittenPlaces, parts: Sequence[Part], axis: int) -> str:
    """What parts take up along an axis."""
    low, high = extent_of(parts, axis)
    for part in parts:
        if extent_of((part,), axis) == (low, high) and (size := places.size(part, axis)) is not None:
            return places.checked(size, high - low)
    first, last = sides_of(places, parts, axis)
    even = abs(low + high) < _SAME_MM
    return places.checked(times(2, last) if even else minus(last, first), high - low)


def _side(places: WrittenPlaces, parts: Sequence[Part], way: Direction, mm: float) -> str:
    axis = next(k for k in range(3) if way.vector[k])
    lying = [part for part in parts if mm in extent_of((part,), axis) and is_straight(part, way)]
    figure = places.figure(mm)
    words = (places.face(part, way) for part in lying)
    return next((found for found in words if found != figure), figure)
