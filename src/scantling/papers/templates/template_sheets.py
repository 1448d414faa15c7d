"""Templates on paper: one sheet where they fit, tiled with register marks where they do not.

Every sheet carries bars of 200 mm and 8 in up its side and of 150 mm and 6 in along its foot: a printer that
scales does so without saying.
"""

from __future__ import annotations

import math
from itertools import product

from scantling.papers.drawing import (
    Anchor,
    Circle,
    Item,
    Line,
    Point,
    Sheet,
    Stroke,
    Text,
    Weight,
    Window,
    text_width_mm,
)
from scantling.papers.packet.blocks import Paper
from scantling.papers.templates.template import Template, turned
from scantling.units import MM_PER_INCH

__all__ = ["template_sheets"]

_EDGE = 10.0
_SIDE = 20.0
_FOOT = 24.0
_HEAD = 8.0
_LAP = 10.0
_SPACE = 6.0
_OVER, _UNDER = 9.0, 11.0
"""Room over a band for what it is called, and under it for its marks. [mm]"""
_INCH = float(MM_PER_INCH)


def _bar(
    start: Point, *, length_mm: float, step_mm: float, label: str, upright: bool, flip: bool
) -> list[Item]:
    """A bar with a tick at every step and a firm line at both ends; ``start`` is its zero."""
    x, y = start
    sign = -1.0 if flip else 1.0
    items: list[Item] = []

    def put(along: float, across: float) -> Point:
        return (x + sign * across, y - along) if upright else (x + along, y + sign * across)

    items.append(Line(put(0.0, 0.0), put(length_mm, 0.0), Stroke.VISIBLE))
    count = round(length_mm / step_mm)
    for i in range(count + 1):
        high = 4.5 if i in (0, count) else (3.0 if i % 5 == 0 else 1.8)
        items.append(
            Line(
                put(i * step_mm, 0.0),
                put(i * step_mm, high),
                Stroke.VISIBLE if i in (0, count) else Stroke.FINE,
            )
        )
    middle = put(
        length_mm / 2.0, 4.6 if upright and flip else (6.8 if upright else (6.6 if not flip else 4.2))
    )
    items.append(Text(middle, label, 3.2, Anchor.MIDDLE, -90.0 if upright else 0.0, Weight.BOLD))
    return items


def _furniture(paper: Paper, title: str, count: str) -> list[Item]:
    """Bars, title and what to check, on every sheet."""
    width, height = paper.size_mm
    foot = height - _EDGE - 13.0
    side = _EDGE + 9.0
    items: list[Item] = []
    base = height - _EDGE - _FOOT - 2.0
    items += _bar((side - 0.6, base), length_mm=200.0, step_mm=10.0, label="200 mm", upright=True, flip=True)
    items += _bar(
        (side + 0.6, base),
        length_mm=8 * _INCH,
        step_mm=_INCH / 2,
        label="8 in",
        upright=True,
        flip=False,
    )
    items += _bar(
        (_EDGE + _SIDE, foot - 0.6), length_mm=150.0, step_mm=10.0, label="150 mm", upright=False, flip=True
    )
    items += _bar(
        (_EDGE + _SIDE, foot + 0.6),
        length_mm=6 * _INCH,
        step_mm=_INCH / 2,
        label="6 in",
        upright=False,
        flip=False,
    )
    words = "Print at 100 %, no fitting to the page; lay a rule on the bars before you trust this sheet."
    items.append(Text((_EDGE + _SIDE, height - _EDGE - 0.8), words, 3.0))
    items.append(Text((_EDGE, _EDGE + 3.0), title, 4.2, weight=Weight.BOLD))
    items.append(Text((width - _EDGE, _EDGE + 3.0), count, 3.4, Anchor.END))
    return items


def _field(paper: Paper) -> tuple[float, float, float, float]:
    width, height = paper.size_mm
    return (_EDGE + _SIDE, _EDGE + _HEAD, width - _EDGE, height - _EDGE - _FOOT)


def _register(at: Point) -> list[Item]:
    x, y = at
    return [
        Circle(at, 2.2, Stroke.FINE),
        Line((x - 4.0, y), (x + 4.0, y), Stroke.FINE),
        Line((x, y - 4.0), (x, y + 4.0), Stroke.FINE),
    ]


def _tiles(template: Template, paper: Paper) -> list[list[Item]]:
    left, top, right, bottom = _field(paper)
    wide, high = right - left, bottom - top
    across = max(1, math.ceil((template.width_mm - _LAP) / (wide - _LAP)))
    if 2.0 * _band_mm(template) + _SPACE <= high:
        return _bands(template, across, (left, top, right, bottom))
    down = max(1, math.ceil((template.height_mm - _LAP) / (high - _LAP)))
    pages: list[list[Item]] = []
    for row, column in product(range(down), range(across)):
        shift = (left - column * (wide - _LAP), top + 6.0 - row * (high - _LAP))
        name = f"{template.name}, piece {'ABCDEFGHIJ'[row % 10]}{column + 1}"
        borders = (column > 0, column < across - 1, row > 0, row < down - 1)
        pages.append(
            [
                Window(template.items, shift, (left, top, right, bottom)),
                Text((left + _LAP, top + 4.0), name, 3.4, weight=Weight.BOLD),
                *_borders((left, top, right, bottom), borders),
            ]
        )
    return pages


def _band_mm(template: Template) -> float:
    return _OVER + template.height_mm + _UNDER


def _bands(template: Template, across: int, field: tuple[float, float, float, float]) -> list[list[Item]]:
    """The pieces of a long low template, as many of them under each other as a sheet takes."""
    left, top, right, bottom = field
    high, wide = _band_mm(template), right - left
    per_sheet = int((bottom - top + _SPACE) // (high + _SPACE))
    pages: list[list[Item]] = []
    for column in range(across):
        if column % per_sheet == 0:
            pages.append([])
        start = top + (column % per_sheet) * (high + _SPACE)
        opening = (left, start, right, start + high)
        pages[-1] += [
            Window(template.items, (left - column * (wide - _LAP), start + _OVER), opening),
            Text((left + _LAP, start + 4.0), f"{template.name}, piece {column + 1}", 3.4, weight=Weight.BOLD),
            *([] if column else [Text((left + _LAP, start + 8.0), template.note, 2.9)]),
        ]
        for x, wanted in ((left + _LAP / 2.0, column > 0), (right - _LAP / 2.0, column < across - 1)):
            if wanted:
                pages[-1].append(Line((x, start), (x, start + high), Stroke.CENTER))
                pages[-1] += _register((x, start + 4.5)) + _register((x, start + high - 4.5))
    return pages


def _borders(field: tuple[float, float, float, float], there: tuple[bool, bool, bool, bool]) -> list[Item]:
    """Lines to cut at and marks to lay over each other, on the sides that have a neighbour."""
    left, top, right, bottom = field
    items: list[Item] = []
    half = _LAP / 2.0
    for x, wanted in ((left + half, there[0]), (right - half, there[1])):
        if wanted:
            items.append(Line((x, top), (x, bottom), Stroke.CENTER))
            items += _register((x, top + 14.0)) + _register((x, bottom - 8.0))
    for y, wanted in ((top + half, there[2]), (bottom - half, there[3])):
        if wanted:
            items.append(Line((left, y), (right, y), Stroke.CENTER))
            items += _register((left + 20.0, y)) + _register((right - 20.0, y))
    return items


def template_sheets(templates: tuple[Template, ...], *, paper: Paper, title: str) -> tuple[Sheet, ...]:
    """Lay templates out at full size, as few sheets as a simple packing gives.

    Parameters
    ----------
    templates
        The templates.
    paper
        Paper to print on.
    title
        Over every sheet.

    Returns
    -------
    tuple of Sheet
        Sheets of the size of the paper.
    """
    left, top, right, bottom = _field(paper)
    pages: list[list[Item]] = []
    shelf: list[Item] = []
    x, y, row = left, top, 0.0
    tiled: list[list[Item]] = []
    ordered = [turned(t, wide_mm=right - left - 2.0, high_mm=bottom - top - 12.0) for t in templates]
    for template in sorted(ordered, key=lambda t: -t.height_mm):
        wide, high = template.width_mm + 2.0, template.height_mm + 12.0
        if wide > right - left or high > bottom - top:
            tiled += _tiles(template, paper)
            continue
        label = max(text_width_mm(template.name, 3.4), text_width_mm(template.note, 2.9))
        if x + max(wide, label) > right and x > left:
            x, y, row = left, y + row + _SPACE, 0.0
        if y + high > bottom:
            pages.append(shelf)
            shelf, x, y, row = [], left, top, 0.0
        shelf.append(Text((x, y + 3.6), template.name, 3.4, weight=Weight.BOLD))
        shelf.append(Text((x, y + 7.6), template.note, 2.9))
        frame = (x, y + 8.4, x + wide + 1.0, y + high + 1.0)
        shelf.append(Window(template.items, (x + 1.0, y + 10.0), frame))
        x, row = x + max(wide, label) + _SPACE, max(row, high)
    if shelf:
        pages.append(shelf)
    pages += tiled
    width, height = paper.size_mm
    return tuple(
        Sheet(
            width_mm=width,
            height_mm=height,
            items=(*items, *_furniture(paper, title, f"full size, {i + 1} of {len(pages)}")),
            title=f"{title}, full size, sheet {i + 1}",
        )
        for i, items in enumerate(pages)
    )
