"""Drawing sight lines: the line a bevel is set on, with an arrow the way the bit leans."""

from __future__ import annotations

import math

from scantling.papers.drawing import (
    AngleDimension,
    Fill,
    Item,
    Line,
    Point,
    Polygon,
    Stroke,
    Text,
    View,
    backing,
    draw_angle,
    text_width_mm,
)
from scantling.papers.marking.face_view import FaceView

__all__ = ["draw_sights"]

_BEHIND, _AHEAD, _ARC = 3.0, 11.0, 6.5
"""Of the line, beyond the hole; and of the arc of its angle. [mm on paper]"""
_HEAD_LONG, _HEAD_WIDE, _LETTER = 2.2, 0.8, 2.8
_LEVEL_DEG = 25.0


def draw_sights(view: FaceView, place: View) -> list[Item]:
    """The sight line of every leaning hole; its angles once where several are alike.

    Parameters
    ----------
    view
        The face.
    place
        Where it lies on the paper.
    """
    items: list[Item] = []
    told: set[tuple[str, str]] = set()
    for mark in view.marks:
        sight = mark.sight
        if sight is None:
            continue
        center, radius = place.at(mark.x_mm, mark.y_mm), mark.width_mm / place.per / 2.0
        items += _arrow(center, radius, sight.turn_deg)
        if (sight.off, sight.lean) in told:
            continue
        told.add((sight.off, sight.lean))
        if sight.off:
            items += _angle(center, radius, sight.turn_deg, sight.off)
        items += _lean(center, radius, sight.turn_deg + 180.0, sight.lean)
    return items


def _along(center: Point, turn_deg: float, far: float, aside: float = 0.0) -> Point:
    """A point of the line, so far from the hole the way the bit leans, and so far to its left."""
    cos, sin = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return (center[0] + far * cos - aside * sin, center[1] - far * sin - aside * cos)


def _arrow(center: Point, radius: float, turn_deg: float) -> list[Item]:
    tip = radius + _AHEAD
    head = (
        _along(center, turn_deg, tip),
        _along(center, turn_deg, tip - _HEAD_LONG, _HEAD_WIDE),
        _along(center, turn_deg, tip - _HEAD_LONG, -_HEAD_WIDE),
    )
    line = Line(_along(center, turn_deg, -radius - _BEHIND), head[0], Stroke.CENTER)
    return [line, Polygon(head, Stroke.NONE, Fill.INK)]


def _angle(center: Point, radius: float, turn_deg: float, text: str) -> tuple[Item, ...]:
    """The angle between the line and the length, on the side the bit leans to."""
    turn = turn_deg % 360.0
    base = 0.0 if turn < 90.0 else (180.0 if turn < 270.0 else 360.0)
    low, high = sorted((-turn, -base))
    return draw_angle(
        AngleDimension(center=center, radius_mm=radius + _ARC, from_deg=low, to_deg=high, text=text)
    )


def _lean(center: Point, radius: float, turn_deg: float, lean: str) -> list[Item]:
    """How far the bit leans, behind the hole, where a splayed leg leaves room; clear of the mark's letter."""
    level = abs((turn_deg + 180.0) % 360.0 - 180.0) < _LEVEL_DEG
    tip = _along(center, turn_deg, radius + _BEHIND + (_LETTER if level else 0.0))
    text = f"leans {lean}"
    half = text_width_mm(text, _LETTER) / 2.0
    cos, sin = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    at = (tip[0] + (half + 0.8) * cos - half, tip[1] - 2.2 * sin + 0.35 * _LETTER)
    words = Text(at, text, _LETTER)
    return [backing(words, margin_mm=0.3), words]
