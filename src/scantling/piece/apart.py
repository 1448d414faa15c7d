"""How far two parts stand apart: the shortest straight line between their bodies before joinery."""

from __future__ import annotations

from functools import lru_cache
from itertools import product

from scantling.piece.convex import Body, Face, body_of
from scantling.piece.geometry import Vec, add, cross, dot, norm, scale, sub
from scantling.piece.model import Part

__all__ = ["apart_mm"]

_INSIDE_MM = 1e-9


@lru_cache(maxsize=4096)
def apart_mm(first: Part, second: Part) -> float:
    """Shortest distance between two parts; 0 where they touch. [mm]

    Both are convex, so the line runs from a corner of one square to a face of the other, or between two
    edges. Parts that pass through each other are for :func:`scantling.piece.contact.overlap`.

    Parameters
    ----------
    first, second
        Parts in place.
    """
    one, other = body_of(first), body_of(second)
    gaps = [_edge_gap_mm(a, b) for a, b in product(_edges(one), _edges(other))]
    for body, corners in ((one, set(other.corners)), (other, set(one.corners))):
        gaps += [gap for face in body.faces for corner in corners if (gap := _over(face, corner)) is not None]
    return min(gaps)


def _over(face: Face, corner: Vec) -> float | None:
    """Height of a corner over a face it stands square above; None where it stands beside it. [mm]"""
    height = face.plane.distance(corner)
    if height < 0.0:
        return None
    for here, there in zip(face.corners, (*face.corners[1:], face.corners[0]), strict=True):
        if dot(cross(sub(there, here), sub(corner, here)), face.normal) < -_INSIDE_MM:
            return None
    return height


def _edges(body: Body) -> list[tuple[Vec, Vec]]:
    """Every edge of a body once."""
    found: dict[tuple[Vec, Vec], tuple[Vec, Vec]] = {}
    for face in body.faces:
        for here, there in zip(face.corners, (*face.corners[1:], face.corners[0]), strict=True):
            found.setdefault((min(here, there), max(here, there)), (here, there))
    return list(found.values())


def _edge_gap_mm(one: tuple[Vec, Vec], other: tuple[Vec, Vec]) -> float:
    """Shortest distance between two edges. [mm]"""
    (p, p_end), (q, q_end) = one, other
    d, e, r = sub(p_end, p), sub(q_end, q), sub(p, q)
    a, b, c = dot(d, d), dot(d, e), dot(e, e)
    f, g = dot(d, r), dot(e, r)
    square = a * c - b * b
    s = _within((b * g - c * f) / square) if square > 1e-9 * a * c else 0.0
    t = (b * s + g) / c
    if not 0.0 <= t <= 1.0:
        t = _within(t)
        s = _within((b * t - f) / a)
    return norm(sub(add(p, scale(d, s)), add(q, scale(e, t))))


def _within(share: float) -> float:
    return min(1.0, max(0.0, share))
