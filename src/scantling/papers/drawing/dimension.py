"""Dimensions, resolved into lines and lettering: one style for every drawing.

The dimension line is thin, ends in a short slanting stroke, and carries its figure above it, read from
below or from the right. A figure that does not fit between the strokes stands outside, on a longer line. Of a
figure in both units the one that leads stands above the line, the other below it, in square brackets and
smaller: at a glance one reads one unit. Square, for round ones mark a size told for information (ISO 129-1).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from scantling.papers.drawing.ink import Stroke
from scantling.papers.drawing.items import Anchor, Arc, Item, Line, Point, Text
from scantling.papers.drawing.lettering import backing, text_box, text_width_mm
from scantling.units import leading, other_unit

__all__ = [
    "AngleDimension",
    "DimensionAxis",
    "LinearDimension",
    "draw_angle",
    "draw_dimension",
    "is_double",
    "needs_room_mm",
]

LETTER_MM = 3.2
_GAP = 1.2
_BEYOND = 1.6
_TICK = 1.3
_CLEAR = 0.9
_SMALLER, _BELOW = 0.85, 1.05
"""Size of the figure under the line over that above it, and how far under it stands, over its own size."""


class DimensionAxis(StrEnum):
    """Along what a distance is measured."""

    HORIZONTAL = "horizontal"
    VERTICAL = "vertical"
    ALIGNED = "aligned"


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearDimension:
    """A distance between two points.

    Parameters
    ----------
    start, end
        The points measured. [mm]
    text
        The figure shown.
    offset_mm
        Where the dimension line lies: below or right of the farther point when positive, above or left of it
        when negative. Of an aligned one: on the right hand going from start to end when positive. [mm]
    axis
        What is measured.
    size_mm
        Size of the lettering. [mm]
    """

    start: Point
    end: Point
    text: str
    offset_mm: float
    axis: DimensionAxis = DimensionAxis.HORIZONTAL
    size_mm: float = LETTER_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleDimension:
    """An angle about a point; angles as of :class:`Arc`. [mm, deg]"""

    center: Point
    radius_mm: float
    from_deg: float
    to_deg: float
    text: str
    size_mm: float = LETTER_MM


def needs_room_mm(text: str, size_mm: float = LETTER_MM) -> float:
    """Distance between strokes below which a figure stands outside. [mm]"""
    return _width(text, size_mm) + 2.0 * _CLEAR


def is_double(text: str) -> bool:
    """Whether a figure is told in both units."""
    return bool(other_unit(text))


def _width(text: str, size_mm: float) -> float:
    """How far a figure runs along its line, in the wider of its units. [mm]"""
    below = text_width_mm(other_unit(text), _SMALLER * size_mm)
    return max(text_width_mm(leading(text), size_mm), below)


def _figure(d: LinearDimension, middle: Point, turn: float) -> list[Text]:
    """The figure over the line, and under it what it is in the other unit."""
    across = (math.sin(turn), -math.cos(turn))  # away from the line, as read

    def beside(off: float) -> Point:
        return (middle[0] + off * across[0], middle[1] + off * across[1])

    told = [Text(beside(0.3 * d.size_mm), leading(d.text), d.size_mm, Anchor.MIDDLE, math.degrees(turn))]
    if other := other_unit(d.text):
        small = _SMALLER * d.size_mm
        told.append(Text(beside(-_BELOW * small), other, small, Anchor.MIDDLE, math.degrees(turn)))
    return told


def _feet(d: LinearDimension) -> tuple[Point, Point]:
    (x0, y0), (x1, y1) = d.start, d.end
    if d.axis is DimensionAxis.HORIZONTAL:
        y = (max(y0, y1) if d.offset_mm >= 0.0 else min(y0, y1)) + d.offset_mm
        return (x0, y), (x1, y)
    if d.axis is DimensionAxis.VERTICAL:
        x = (max(x0, x1) if d.offset_mm >= 0.0 else min(x0, x1)) + d.offset_mm
        return (x, y0), (x, y1)
    length = math.dist(d.start, d.end) or 1.0
    nx, ny = -(y1 - y0) / length * d.offset_mm, (x1 - x0) / length * d.offset_mm
    return (x0 + nx, y0 + ny), (x1 + nx, y1 + ny)


def _extension(point: Point, foot: Point) -> list[Item]:
    length = math.dist(point, foot)
    if length <= _GAP:
        return []
    ux, uy = (foot[0] - point[0]) / length, (foot[1] - point[1]) / length
    start = (point[0] + ux * _GAP, point[1] + uy * _GAP)
    return [Line(start, (foot[0] + ux * _BEYOND, foot[1] + uy * _BEYOND), Stroke.DIMENSION)]


def _reading(start: Point, end: Point) -> tuple[Point, Point]:
    """The two feet in reading order: from the left, or from below."""
    angle = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    return (start, end) if -90.0 - 1e-9 <= angle < 90.0 - 1e-9 else (end, start)


def draw_dimension(d: LinearDimension) -> tuple[Item, ...]:
    """Resolve a linear dimension.

    Parameters
    ----------
    d
        The dimension.

    Returns
    -------
    tuple of Item
        Extension lines, dimension line, strokes and figure.
    """
    foot0, foot1 = _feet(d)
    items: list[Item] = [*_extension(d.start, foot0), *_extension(d.end, foot1)]
    first, last = _reading(foot0, foot1)
    span = math.dist(first, last)
    turn = math.atan2(last[1] - first[1], last[0] - first[0]) if span > 1e-9 else 0.0
    ux, uy = math.cos(turn), math.sin(turn)
    width = _width(d.text, d.size_mm)
    inside = span >= needs_room_mm(d.text, d.size_mm)
    tail = 0.0 if inside else 1.6 + width + _CLEAR
    along = span / 2.0 if inside else span + 1.6 + width / 2.0
    items.append(
        Line(
            first if inside else (first[0] - 1.6 * ux, first[1] - 1.6 * uy),
            (last[0] + tail * ux, last[1] + tail * uy),
            Stroke.DIMENSION,
        )
    )
    slant = turn - math.pi / 4.0
    sx, sy = _TICK * math.cos(slant), _TICK * math.sin(slant)
    items += [Line((x - sx, y - sy), (x + sx, y + sy), Stroke.VISIBLE) for x, y in (first, last)]
    items += _figure(d, (first[0] + along * ux, first[1] + along * uy), turn)
    return tuple(items)


_LEADER_MM = 3.0


def draw_angle(d: AngleDimension, *, figure_at: Point | None = None) -> tuple[Item, ...]:
    """Resolve an angle: an arc between two strokes, with its figure outside.

    Parameters
    ----------
    d
        The angle.
    figure_at
        Middle of the figure, with a leader where that is not beside the arc; None is beside it. [mm]

    Returns
    -------
    tuple of Item
        Arc, strokes, figure on bare paper.
    """
    (cx, cy), r = d.center, d.radius_mm
    items: list[Item] = [Arc(d.center, r, d.from_deg, d.to_deg, Stroke.DIMENSION)]
    for angle in (math.radians(d.from_deg), math.radians(d.to_deg)):
        x, y = cx + r * math.cos(angle), cy + r * math.sin(angle)
        slant = angle + math.pi / 4.0
        sx, sy = _TICK * math.cos(slant), _TICK * math.sin(slant)
        items.append(Line((x - sx, y - sy), (x + sx, y + sy), Stroke.VISIBLE))
    middle = math.radians((d.from_deg + d.to_deg) / 2.0)
    half = text_width_mm(d.text, d.size_mm) / 2.0
    reach = r + 1.2 + half * abs(math.cos(middle)) + 0.35 * d.size_mm * abs(math.sin(middle))
    at = (cx + reach * math.cos(middle), cy + reach * math.sin(middle) + 0.35 * d.size_mm)
    if figure_at is not None:
        at = (figure_at[0], figure_at[1] + 0.35 * d.size_mm)
    figure = Text(at, d.text, d.size_mm, Anchor.MIDDLE)
    on_arc = (cx + r * math.cos(middle), cy + r * math.sin(middle))
    left, top, right, bottom = text_box(figure)
    near = (min(max(on_arc[0], left), right), min(max(on_arc[1], top), bottom))
    if math.dist(near, on_arc) > _LEADER_MM:
        items.append(Line(on_arc, near, Stroke.DIMENSION))
    return (*items, backing(figure, margin_mm=0.3), figure)
