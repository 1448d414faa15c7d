"""Faces a new part may stand on or between, and which of them are the likely ones."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.piece.adding.written_places import axis_of, is_straight
from scantling.piece.convex import Face, body_of, named_face
from scantling.piece.geometry import Vec, dot
from scantling.piece.model import Direction, Part, Piece

__all__ = ["OPPOSITE", "extent_of", "faces_of", "facing", "likely_face", "shared_extent"]

OPPOSITE = {
    Direction.LEFT: Direction.RIGHT,
    Direction.RIGHT: Direction.LEFT,
    Direction.FRONT: Direction.BACK,
    Direction.BACK: Direction.FRONT,
    Direction.BOTTOM: Direction.TOP,
    Direction.TOP: Direction.BOTTOM,
}
_LEAST_MM = 1.0
"""Less room than this between two faces is none. [mm]"""
_WIDE = 0.5
"""A top this large beside the largest face of its part is what things are put on. [1] (judgement)"""
_LOOKS_THERE = 0.7
"""Cosine up to which a face counts as looking in a direction (45 deg). [1]"""


def extent_of(things: Iterable[Part], axis: int) -> tuple[float, float]:
    """Least and greatest coordinate of parts along an axis. [mm]"""
    ends = [body_of(part).extent(_along(axis)) for part in things]
    return min(low for low, _ in ends), max(high for _, high in ends)


def faces_of(part: Part, *, straight: bool) -> tuple[Direction, ...]:
    """The directions in which a part has a flat face; ``straight``, those that look exactly there."""
    return tuple(
        way
        for way in Direction
        if (is_straight(part, way) if straight else _looks(named_face(part, way), way))
    )


def likely_face(piece: Piece, part: Part, *, straight: bool) -> Direction | None:
    """The face something is most likely to stand on or against; None where there is none.

    Parameters
    ----------
    straight
        As :func:`faces_of`; of straight ones the top is taken where it is wide, else the one that looks
        toward the middle of the piece.
    """
    found = faces_of(part, straight=straight)
    areas = {way: face.area_mm2 for way in found if (face := named_face(part, way)) is not None}
    if not areas:
        return None
    largest = max(areas.values())
    if straight and areas.get(Direction.TOP, 0.0) >= _WIDE * largest:
        return Direction.TOP
    wide = [way for way in found if areas[way] >= largest * (1.0 - 1e-6)]
    middle = [sum(extent_of(piece.parts.values(), axis)) / 2.0 for axis in range(3)]

    def inward(way: Direction) -> float:
        axis, sign = axis_of(way)
        return sign * (middle[axis] - part.middle[axis])

    return max(wide, key=inward)


def facing(piece: Piece, part: Part, way: Direction) -> tuple[Part, Direction] | None:
    """The nearest face that looks back at a face of a part; None where nothing stands across from it.

    One that lies across from half of the part's face goes before the edge of something thin, as a panel in
    the back of a case, which is nearer.
    """
    own = named_face(part, way)
    assert own is not None, "a face that is there was asked for"
    axis, sign = axis_of(way)
    back = OPPOSITE[way]
    found: list[tuple[bool, float, Part]] = []
    for other in piece.parts.values():
        face = named_face(other, back)
        if other.name == part.name or not _looks(face, back):
            continue
        assert face is not None
        gap = sign * (face.center[axis] - own.center[axis])
        across = [k for k in range(3) if k != axis]
        shares = [_share(part, other, k) for k in across]
        if gap > _LEAST_MM and min(shares) > 0.0:
            found.append((min(shares) < _HALF, gap, other))
    nearest = min(found, key=lambda each: each[:2], default=None)
    return None if nearest is None else (nearest[2], back)


_HALF = 0.5


def _share(one: Part, other: Part, axis: int) -> float:
    """How much of one part lies beside the other along an axis. [1]"""
    shared = shared_extent(one, other, axis)
    low, high = body_of(one).extent(_along(axis))
    return 0.0 if shared is None else (shared[1] - shared[0]) / (high - low)


def shared_extent(one: Part, other: Part, axis: int) -> tuple[float, float] | None:
    """Where two parts lie beside each other along an axis; None where nowhere. [mm]"""
    (a, b), (c, d) = (body_of(part).extent(_along(axis)) for part in (one, other))
    low, high = max(a, c), min(b, d)
    return (low, high) if high - low > _LEAST_MM else None


def _along(axis: int) -> Vec:
    return (float(axis == 0), float(axis == 1), float(axis == 2))


def _looks(face: Face | None, way: Direction) -> bool:
    return face is not None and dot(face.normal, way.vector) > _LOOKS_THERE
