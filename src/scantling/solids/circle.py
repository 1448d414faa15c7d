"""Circles drawn with corners, of the same area as the true ones.

A polygon with its corners on a circle is too small: 48 corners lose 0.29 % of the area, and every hole
and turned tenon its share of wood. Moving the corners out gives the area back exactly.
"""

from __future__ import annotations

import math

__all__ = ["SEGMENTS", "arc_points", "circle_radius", "slot_outline"]

SEGMENTS = 48
"""Corners to a full circle; a multiple of four."""
_STRAIGHT_MM = 0.02
"""Most by which a side of an arc may stand off it: a wide arc wants more than a hole does. [mm]"""


def circle_radius(radius: float) -> float:
    """Radius at which the corners give the polygon the area of the circle. [same as given]"""
    step = 2.0 * math.pi / SEGMENTS
    return radius * math.sqrt(step / math.sin(step))


def slot_outline(length_mm: float, width_mm: float) -> list[tuple[float, float]]:
    """Outline of a slot with round ends, anticlockwise about its middle, with the area of the true one.

    The straight sides keep their distance; only the inner corners of the two arcs move out. With
    ``n`` steps of ``delta`` to a half circle of radius ``r`` and inner corners at ``q``, twice the area
    of the half polygon is ``sin(delta) (2 r q + (n - 2) q^2)``, set equal to ``pi r^2``.

    Parameters
    ----------
    length_mm
        Over the round ends, along the first axis. [mm] >= width
    width_mm
        Across. [mm]

    Returns
    -------
    list[tuple[float, float]]
        Corners. [mm]
    """
    r = width_mm / 2.0
    half = length_mm / 2.0 - r
    if half <= 1e-9:
        q = circle_radius(r)
        return [_at(q, 2.0 * math.pi * k / SEGMENTS) for k in range(SEGMENTS)]
    n = SEGMENTS // 2
    delta = math.pi / n
    area = math.pi / math.sin(delta)
    q = r * (math.sqrt(1.0 + (n - 2) * area) - 1.0) / (n - 2)
    arc = [_at(r if k in (0, n) else q, -math.pi / 2.0 + k * delta) for k in range(n + 1)]
    return [(half + x, y) for x, y in arc] + [(-half - x, -y) for x, y in arc]


def arc_points(
    first: tuple[float, float], through: tuple[float, float], last: tuple[float, float]
) -> list[tuple[float, float]]:
    """Corners of an arc through three points, its ends kept, with the area of the true one over its chord.

    With ``n`` steps of ``delta`` and inner corners at ``q``, twice the area of the sector of radius ``r`` is
    ``sin(delta) (2 r q + (n - 2) q^2)``, set equal to ``r^2 n delta``.

    Parameters
    ----------
    first, through, last
        [mm]

    Returns
    -------
    list[tuple[float, float]]
        From the first point to the last. [mm]
    """
    x, y = _center(first, through, last)
    r = math.hypot(first[0] - x, first[1] - y)
    begin = math.atan2(first[1] - y, first[0] - x)
    turn = (math.atan2(last[1] - y, last[0] - x) - begin) % (2.0 * math.pi)
    halfway = (math.atan2(through[1] - y, through[0] - x) - begin) % (2.0 * math.pi)
    if halfway > turn:
        turn -= 2.0 * math.pi
    n = max(
        8,
        math.ceil(SEGMENTS * abs(turn) / (2.0 * math.pi)),
        math.ceil(abs(turn) / math.sqrt(2.0 * _STRAIGHT_MM / r)),
    )
    delta = abs(turn) / n
    area = abs(turn) / math.sin(delta)
    q = r * (math.sqrt(1.0 + (n - 2) * area) - 1.0) / (n - 2)
    inner = [_at(q, begin + turn * k / n) for k in range(1, n)]
    return [first, *((x + a, y + b) for a, b in inner), last]


def _center(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> tuple[float, float]:
    """Center of the circle through three points. [mm]"""
    ax, ay, bx, by = a[0] - c[0], a[1] - c[1], b[0] - c[0], b[1] - c[1]
    twice = 2.0 * (ax * by - ay * bx)
    one, other = ax * ax + ay * ay, bx * bx + by * by
    return c[0] + (by * one - ay * other) / twice, c[1] + (ax * other - bx * one) / twice


def _at(radius: float, angle: float) -> tuple[float, float]:
    return radius * math.cos(angle), radius * math.sin(angle)
