"""Rows of dimensions along one side of a view, so that no figure runs into another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from scantling.papers.drawing.dimension import (
    LETTER_MM,
    DimensionAxis,
    LinearDimension,
    draw_dimension,
    is_double,
    needs_room_mm,
)
from scantling.papers.drawing.items import Item, Text
from scantling.papers.drawing.lettering import backing

__all__ = ["Side", "Span", "draw_stack", "stack_depth_mm", "stack_levels"]

FIRST_MM = 7.0
PITCH_MM = 6.0
_UNDER_MM = 3.2
"""More from row to row where figures stand under the lines too. [mm]"""


class Side(StrEnum):
    """On which side of the view the rows lie."""

    ABOVE = "above"
    BELOW = "below"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """One distance along the side.

    Parameters
    ----------
    low, high
        Paper coordinates along the side, x or y. [mm]
    text
        The figure.
    foot
        Paper coordinate across the side that the extension lines start from; None starts at the edge. [mm]
    """

    low: float
    high: float
    text: str
    foot: float | None = None


def _claimed(span: Span, size_mm: float, *, upright: bool) -> tuple[float, float]:
    low, high = sorted((span.low, span.high))
    room = needs_room_mm(span.text, size_mm)
    if high - low < room:
        spill = room + 1.6
        return (low - spill, high + 1.6) if upright else (low - 1.6, high + spill)
    return (low, high)


def stack_levels(
    spans: Sequence[Span], *, size_mm: float = LETTER_MM, upright: bool = False
) -> tuple[int, ...]:
    """Give every distance a row: short ones nearest the view, none over another.

    Parameters
    ----------
    spans
        The distances.
    size_mm
        Size of the lettering. [mm]
    upright
        Whether they run up the sheet, where a figure that stands outside stands above.

    Returns
    -------
    tuple of int
        Row of each, 0 nearest the view.
    """
    order = sorted(range(len(spans)), key=lambda i: (abs(spans[i].high - spans[i].low), spans[i].low))
    placed: list[tuple[float, float, int]] = []
    level = [0] * len(spans)
    for index in order:
        low, high = _claimed(spans[index], size_mm, upright=upright)
        level[index] = 1 + max(
            (row for a, b, row in placed if low < b - 1e-6 and high > a + 1e-6), default=-1
        )
        placed.append((low, high, level[index]))
    return tuple(level)


def stack_depth_mm(spans: Sequence[Span], *, size_mm: float = LETTER_MM, upright: bool = False) -> float:
    """Room the rows take beside the view. [mm]"""
    if not spans:
        return 0.0
    rows = max(stack_levels(spans, size_mm=size_mm, upright=upright))
    under = _UNDER_MM if _double(spans) else 0.0
    return FIRST_MM + (PITCH_MM + under) * rows + size_mm + under


def _double(spans: Sequence[Span]) -> bool:
    """Whether figures stand under the lines too."""
    return any(is_double(span.text) for span in spans)


def draw_stack(
    spans: Sequence[Span], *, side: Side, edge_mm: float, size_mm: float = LETTER_MM
) -> tuple[Item, ...]:
    """Draw rows of dimensions on one side.

    Parameters
    ----------
    spans
        The distances.
    side
        Side of the view.
    edge_mm
        Paper coordinate of that side of the view. [mm]
    size_mm
        Size of the lettering. [mm]

    Returns
    -------
    tuple of Item
        Resolved dimensions.
    """
    upright = side in (Side.LEFT, Side.RIGHT)
    sign = -1.0 if side in (Side.ABOVE, Side.LEFT) else 1.0
    pitch = PITCH_MM + (_UNDER_MM if _double(spans) else 0.0)
    lines: list[Item] = []
    figures: list[Text] = []
    for span, row in zip(spans, stack_levels(spans, size_mm=size_mm, upright=upright), strict=True):
        line = edge_mm + sign * (FIRST_MM + pitch * row)
        foot = edge_mm if span.foot is None else span.foot
        if upright:
            start, end, axis = (foot, span.low), (foot, span.high), DimensionAxis.VERTICAL
        else:
            start, end, axis = (span.low, foot), (span.high, foot), DimensionAxis.HORIZONTAL
        d = LinearDimension(
            start=start, end=end, text=span.text, offset_mm=line - foot, axis=axis, size_mm=size_mm
        )
        for item in draw_dimension(d):
            if isinstance(item, Text):
                figures.append(item)
            else:
                lines.append(item)
    return (*lines, *(backing(figure) for figure in figures), *figures)
