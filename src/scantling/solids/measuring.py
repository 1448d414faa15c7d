"""Distance and angle between two straight edges of the piece."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, degrees

from scantling.piece.geometry import Vec, add, dot, norm, scale, sub

__all__ = ["Edge", "EdgeGap", "between_edges"]

_PARALLEL = 1e-5
"""Sine below which two edges count as parallel: 0.01 mm over a meter. [1]"""

Edge = tuple[Vec, Vec]
"""The two ends of a straight edge. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeGap:
    """What lies between two edges.

    Parameters
    ----------
    distance_mm
        Between the edges, square to both where they are parallel; else the shortest between them. [mm]
    start, end
        Where it is measured, on the first edge and on the second. [mm]
    angle_deg
        Between their directions, 0 to 90. [deg]
    """

    distance_mm: float
    start: Vec
    end: Vec
    angle_deg: float

    @property
    def parallel(self) -> bool:
        """Whether the edges run the same way."""
        return self.angle_deg < degrees(_PARALLEL)

    @property
    def steps_mm(self) -> Vec:
        """How far along, back and up the second place is from the first, none below zero. [mm]"""
        along, back, up = sub(self.end, self.start)
        return (abs(along), abs(back), abs(up))


def between_edges(first: Edge, second: Edge) -> EdgeGap:
    """Distance and angle between two edges.

    Parameters
    ----------
    first, second
        Edges longer than nothing. [mm]

    References
    ----------
    .. [1] C. Ericson, *Real-Time Collision Detection*, Morgan Kaufmann 2005, section 5.1.9: closest points of
       two segments.

    Examples
    --------
    >>> rail = ((0.0, 0.0, 0.0), (500.0, 0.0, 0.0))
    >>> shelf = ((600.0, 30.0, 40.0), (900.0, 30.0, 40.0))
    >>> between_edges(rail, shelf).distance_mm
    50.0
    """
    one, other = sub(first[1], first[0]), sub(second[1], second[0])
    from_other = sub(first[0], second[0])
    a, b, e = dot(one, one), dot(one, other), dot(other, other)
    c, f = dot(one, from_other), dot(other, from_other)
    cosine = min(1.0, abs(b) / (a * e) ** 0.5)
    across = a * e - b * b
    if across <= (_PARALLEL**2) * a * e:
        return _between_parallels(first, second)
    s = min(max((b * f - c * e) / across, 0.0), 1.0)
    t = (b * s + f) / e
    if not 0.0 <= t <= 1.0:
        t = min(max(t, 0.0), 1.0)
        s = min(max((b * t - c) / a, 0.0), 1.0)
    start, end = add(first[0], scale(one, s)), add(second[0], scale(other, t))
    return EdgeGap(distance_mm=norm(sub(end, start)), start=start, end=end, angle_deg=degrees(acos(cosine)))


def _between_parallels(first: Edge, second: Edge) -> EdgeGap:
    """Square across, at the middle of where they run beside each other, or where they come nearest."""
    one = sub(first[1], first[0])
    reach = dot(one, one)
    low, high = sorted(dot(sub(end, first[0]), one) / reach for end in second)
    begin, stop = max(0.0, low), min(1.0, high)
    at = (begin + stop) / 2.0 if begin <= stop else min(max(low, 0.0), 1.0)
    start = add(first[0], scale(one, at))
    other = sub(second[1], second[0])
    share = dot(sub(start, second[0]), other) / dot(other, other)
    end = add(second[0], scale(other, share))
    return EdgeGap(distance_mm=norm(sub(end, start)), start=start, end=end, angle_deg=0.0)
