"""Numbered balloons, notes on a leader, and the bar that tells the scale."""

from __future__ import annotations

import math
from itertools import pairwise

from scantling.papers.drawing.ink import Fill, Stroke
from scantling.papers.drawing.items import Anchor, Circle, Item, Line, Point, Text, Weight

__all__ = [
    "BALLOON_RADIUS_MM",
    "draw_balloon",
    "draw_face_mark",
    "draw_grain_arrow",
]

BALLOON_RADIUS_MM = 3.3


def draw_balloon(at: Point, points_to: Point, text: str) -> tuple[Item, ...]:
    """A number in a ring, with a leader that ends in a dot on the thing numbered.

    Parameters
    ----------
    at
        Center of the ring. [mm]
    points_to
        End of the leader. [mm]
    text
        One to three characters.

    Returns
    -------
    tuple of Item
        Leader, dot, ring, number.
    """
    items: list[Item] = []
    far = math.dist(at, points_to)
    if far > BALLOON_RADIUS_MM + 0.5:
        share = BALLOON_RADIUS_MM / far
        edge = (at[0] + (points_to[0] - at[0]) * share, at[1] + (points_to[1] - at[1]) * share)
        items += [
            Line(edge, points_to, Stroke.DIMENSION),
            Circle(points_to, 0.55, Stroke.NONE, Fill.INK),
        ]
    size = 3.4 if len(text) < 3 else 2.9
    return (
        *items,
        Circle(at, BALLOON_RADIUS_MM, Stroke.VISIBLE, Fill.PAPER),
        Text((at[0], at[1] + 0.35 * size), text, size, Anchor.MIDDLE, weight=Weight.BOLD),
    )


def draw_grain_arrow(at: Point, length_mm: float, *, turn_deg: float = 0.0) -> tuple[Item, ...]:
    """A double-headed arrow along the grain, with a second, shorter line beside it.

    Parameters
    ----------
    at
        Its middle. [mm]
    length_mm
        From tip to tip. [mm]
    turn_deg
        Direction, clockwise from level. [deg]

    Returns
    -------
    tuple of Item
        Lines.
    """
    turn = math.radians(turn_deg)
    ux, uy = math.cos(turn), math.sin(turn)

    def place(along: float, across: float) -> Point:
        return (at[0] + along * ux - across * uy, at[1] + along * uy + across * ux)

    half, barb = length_mm / 2.0, min(2.0, length_mm / 5.0)
    return (
        Line(place(-half, 0.0), place(half, 0.0), Stroke.FINE),
        Line(place(-half, 0.0), place(-half + barb, -0.45 * barb), Stroke.FINE),
        Line(place(half, 0.0), place(half - barb, 0.45 * barb), Stroke.FINE),
        Line(place(-0.6 * half, 0.8), place(0.35 * half, 0.8), Stroke.FINE),
    )


def draw_face_mark(at: Point, size_mm: float, *, edge: bool = False) -> tuple[Item, ...]:
    """The pencil mark of a reference face (a looped tail), or of a reference edge (a V on its point).

    Parameters
    ----------
    at
        The point that touches the reference edge. [mm]
    size_mm
        Height. [mm]
    edge
        Whether the edge mark is wanted.

    Returns
    -------
    tuple of Item
        Lines.
    """
    x, y = at
    s = size_mm
    if edge:
        points: tuple[Point, ...] = ((x - 0.35 * s, y - s), (x, y), (x + 0.35 * s, y - s))
        return tuple(Line(a, b, Stroke.OUTLINE) for a, b in pairwise(points))
    loop = tuple(
        (x + s * (0.16 - 0.34 * math.sin(t) + 0.10 * t), y - s * (0.5 + 0.5 * math.cos(t)))
        for t in (math.pi * (-0.95 + 2.55 * i / 22.0) for i in range(23))
    )
    return tuple(Line(a, b, Stroke.VISIBLE) for a, b in pairwise(loop))
