"""Sight line: the line on a face along which a leaning hole is bored, and the way the bit leans over it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.piece.convex import face_direction
from scantling.piece.geometry import Vec, dot, scale
from scantling.piece.model import Direction, Part

__all__ = ["SightLine", "sight_line"]

_SQUARE_DEG = 0.05
"""Less lean than this is square to the face: no bevel is set to it. [deg]"""
_ALONG_DEG = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class SightLine:
    """Where a leaning bit is sighted from.

    Parameters
    ----------
    angle_deg
        Between the line and the grain of the part, 0..90; on an end, between it and the width. [deg]
    toward
        Where the top of the bit leans as it stands on the face: along the grain first, then across;
        empty for a hole square to its face.
    """

    angle_deg: float
    toward: tuple[Direction, ...]


def sight_line(part: Part, *, into: Vec, normal: Vec | None, on_end: bool = False) -> SightLine:
    """The sight line of a hole.

    A hole that leans ``a`` in the grain's direction and ``b`` across it, each seen square from the side,
    has its sight line ``atan(tan b / tan a)`` off the grain.

    Parameters
    ----------
    part
        The part bored.
    into
        The way the bit goes, unit length, world.
    normal
        Out of the face bored; None on a round part, where the hole leans only along the grain.
    on_end
        Whether the face is an end.

    References
    ----------
    Solid geometry: the foot of a line in space, laid into the face.
    """
    out = scale(into, -1.0)
    frame = part.frame
    ways = (frame.width, frame.thickness) if on_end else (frame.grain, _across(part, normal))
    along, across = (dot(out, way) for way in ways)
    if normal is None:
        across = 0.0
    if math.degrees(math.asin(min(1.0, math.hypot(along, across)))) < _SQUARE_DEG:
        return SightLine(angle_deg=0.0, toward=())
    angle = math.degrees(math.atan2(abs(across), abs(along)))
    toward: list[Direction] = []
    if angle < 90.0 - _ALONG_DEG:
        toward.append(face_direction(scale(ways[0], math.copysign(1.0, along))))
    if angle > _ALONG_DEG:
        toward.append(face_direction(scale(ways[1], math.copysign(1.0, across))))
    return SightLine(angle_deg=angle, toward=tuple(toward))


def _across(part: Part, normal: Vec | None) -> Vec:
    """The part's own way across its grain that lies in the face."""
    frame = part.frame
    if normal is None:
        return frame.width
    return min(frame.width, frame.thickness, key=lambda way: abs(dot(way, normal)))
