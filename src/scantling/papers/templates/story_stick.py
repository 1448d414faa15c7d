"""Story sticks: every mark along an edge at full size on a strip of paper, in lengths that fit the sheet.

Glued to a lath, a stick carries all places of a family of parts; nothing is measured twice.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from scantling.papers.drawing import (
    Anchor,
    Fill,
    Item,
    Line,
    Polygon,
    Stroke,
    Text,
    Weight,
    Window,
    bounds,
    text_width_mm,
)
from scantling.papers.marking.face_view import FaceView, mark_outline
from scantling.papers.templates.template import Template

__all__ = ["LAP_MM", "LONGEST_MM", "STRIP_MM", "StickMark", "StoryStick", "stick_of", "stick_templates"]

STRIP_MM = 30.0
"""Width of a strip. [mm]"""
_LANE_MM = 5.0
"""Along its right edge, for the name. [mm]"""
_EDGE_MM = STRIP_MM - _LANE_MM
LAP_MM = 12.0
"""How far one length reaches under the next. [mm]"""
LONGEST_MM = 210.0
"""Longest strip, which fits both papers. [mm]"""
_LEAST_MM = 1e-6
_CLEAR_MM = 4.6
"""Words stand at least so far from a lap line. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class StickMark:
    """One thing marked on the edge, from the reference end. [mm]

    Parameters
    ----------
    tag
        Its letter on the part's sheet.
    low_mm, high_mm
        Where it begins and ends.
    figure
        Distance of its middle as shown, from the end it is measured from.
    from_far
        Whether that is the far end.
    """

    tag: str
    low_mm: float
    high_mm: float
    figure: str
    from_far: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class StoryStick:
    """All marks along one face of a family of parts.

    Parameters
    ----------
    name
        Part and face.
    length_mm
        Of the part, long point to long point. [mm]
    start, end
        Names of the two ends.
    """

    name: str
    length_mm: float
    marks: tuple[StickMark, ...]
    start: str
    end: str


def stick_of(view: FaceView, *, name: str) -> StoryStick | None:
    """The stick of one face; None where nothing is marked along it.

    Parameters
    ----------
    view
        The face.
    name
        Of the part.
    """
    box = bounds(view.outline)
    marks = []
    for mark in view.marks:
        reach = bounds(mark_outline(mark))
        if mark.from_end and not mark.hidden:
            marks.append(
                StickMark(
                    tag=mark.tag,
                    low_mm=max(reach.left, box.left) - box.left,
                    high_mm=min(reach.right, box.right) - box.left,
                    figure=mark.from_end,
                    from_far=mark.from_far,
                )
            )
    if not marks:
        return None
    return StoryStick(
        name=f"{name}: {view.title[:1].lower()}{view.title[1:]}",
        length_mm=box.width,
        marks=tuple(sorted(marks, key=lambda m: (m.low_mm, m.tag))),
        start=view.left_name or "left end",
        end=view.right_name or "right end",
    )


def stick_templates(sticks: Iterable[StoryStick], *, longest_mm: float) -> tuple[Template, ...]:
    """Sticks in lengths that fit a sheet, each lapping the one before.

    Parameters
    ----------
    sticks
        The sticks.
    longest_mm
        Longest strip the sheet holds. [mm]

    Returns
    -------
    tuple of Template
        Upright strips, the reference end at the top.
    """
    made: list[Template] = []
    for at, stick in enumerate(sticks, start=1):
        count = max(1, math.ceil((stick.length_mm - LAP_MM) / (longest_mm - LAP_MM) - _LEAST_MM))
        step = longest_mm - LAP_MM
        for i in range(count):
            low = i * step
            high = min(low + longest_mm, stick.length_mm)
            made.append(_length(stick, (low, high), title=f"Stick {at}", number=i + 1, count=count))
    return tuple(made)


def _length(stick: StoryStick, span: tuple[float, float], *, title: str, number: int, count: int) -> Template:
    """One length of a stick, between two distances from the reference end."""
    low, high = span
    tall = high - low
    items: list[Item] = [
        Line((0.0, 0.0), (0.0, tall), Stroke.VISIBLE),
        Line((STRIP_MM, 0.0), (STRIP_MM, tall), Stroke.VISIBLE),
    ]
    for y, end, words in ((0.0, low <= _LEAST_MM, stick.start), (tall, number == count, stick.end)):
        if end:
            items.append(Line((0.0, y), (_EDGE_MM, y), Stroke.OUTLINE))
            down = 3.2 if y == 0.0 else -1.4
            items.append(Text((1.2, y + down), words, 2.6, weight=Weight.BOLD))
    if number < count:
        items += _lap(tall - LAP_MM / 2.0, number)
    if number > 1:
        items += _lap(LAP_MM / 2.0, number - 1)
    laps = [y for y, there in ((LAP_MM / 2.0, number > 1), (tall - LAP_MM / 2.0, number < count)) if there]
    for mark in stick.marks:
        items += _marked(mark, low, high, laps=laps)
    size = min(2.8, 2.8 * (tall - 2.0 * LAP_MM) / text_width_mm(stick.name, 2.8))
    items.append(Line((_EDGE_MM, 0.0), (_EDGE_MM, tall), Stroke.FINE))
    items.append(Text((STRIP_MM - 1.4, tall / 2.0), stick.name, size, Anchor.MIDDLE, -90.0))
    window = Window(tuple(items), (0.0, 0.0), (-0.5, -0.5, STRIP_MM + 0.5, tall + 0.5))
    return Template(
        name=title if count == 1 else f"{title}, {number} of {count}",
        note="",
        width_mm=STRIP_MM,
        height_mm=tall,
        items=(window,),
    )


def _lap(y: float, number: int) -> list[Item]:
    """The line two lengths are laid together at, with a triangle on each side and its number."""
    items: list[Item] = [Line((-0.5, y), (STRIP_MM + 0.5, y), Stroke.CENTER)]
    for x, way in ((0.0, 1.0), (_EDGE_MM, -1.0)):
        corners = ((x, y - 1.6), (x + way * 2.6, y), (x, y + 1.6))
        items.append(Polygon(corners, Stroke.FINE, Fill.INK))
    items.append(Text((_EDGE_MM / 2.0, y - 0.8), f"lap {number}", 2.4, Anchor.MIDDLE, soft=True))
    return items


def _marked(mark: StickMark, low: float, high: float, *, laps: list[float]) -> list[Item]:
    """Both ends of a mark across the strip, its middle as a tick, its letter and its figure clear of laps."""
    items: list[Item] = [
        Line((0.0, at - low), (0.62 * _EDGE_MM, at - low), Stroke.VISIBLE)
        for at in dict.fromkeys((mark.low_mm, mark.high_mm))
        if low - 0.5 <= at <= high + 0.5
    ]
    middle = (mark.low_mm + mark.high_mm) / 2.0
    if not low <= middle <= high:
        return items
    y = middle - low
    room = 0.33 * _EDGE_MM
    size = min(2.8, 2.8 * room / text_width_mm(mark.figure, 2.8))
    items.append(Line((0.0, y), (4.0, y), Stroke.FINE))
    near = next((lap for lap in laps if abs(y - lap) < _CLEAR_MM), None)
    if near is not None:
        y = near + (_CLEAR_MM if near < LAP_MM else -_CLEAR_MM)
    items.append(Text((4.8, y + 1.0), mark.tag, 3.0, weight=Weight.BOLD))
    items.append(Text((_EDGE_MM - 0.6, y + 0.35 * size), mark.figure, size, Anchor.END))
    return [*items, *_arrow(0.66 * _EDGE_MM - 1.6, y, up=not mark.from_far)]


def _arrow(x: float, y: float, *, up: bool) -> list[Item]:
    """Which end the figure runs from."""
    sign = -1.0 if up else 1.0
    tip = y + sign * 3.0
    return [
        Line((x, y - sign * 0.4), (x, tip), Stroke.DIMENSION),
        Line((x, tip), (x - 0.7, tip - sign * 1.2), Stroke.DIMENSION),
        Line((x, tip), (x + 0.7, tip - sign * 1.2), Stroke.DIMENSION),
    ]
