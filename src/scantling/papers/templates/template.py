"""Full-size templates: the outline and the joints of a face, to lay on the wood."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from scantling.papers.drawing import (
    Circle,
    Fill,
    Hatch,
    Item,
    Line,
    Point,
    Polygon,
    Stroke,
    Text,
    Weight,
    Window,
    bounds,
)
from scantling.papers.marking.face_view import FaceView, mark_outline

__all__ = ["Template", "face_template", "turned"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """A full-size drawing.

    Parameters
    ----------
    name
        What it is for.
    note
        How to lay it on the wood.
    width_mm, height_mm
        Size; items lie within it. [mm]
    items
        In its own coordinates, y down. [mm]
    """

    name: str
    note: str
    width_mm: float
    height_mm: float
    items: tuple[Item, ...]


def face_template(view: FaceView, *, name: str, note: str, from_mm: float, to_mm: float) -> Template:
    """The stretch of a face between two distances from the reference end, full size.

    Parameters
    ----------
    view
        The face.
    name, note
        As of :class:`Template`.
    from_mm, to_mm
        Along the part. [mm]

    Returns
    -------
    Template
        Outline, joints with their center lines, and the line it is cut off at.
    """
    box = bounds(view.outline)
    width, height = to_mm - from_mm, box.height

    def at(point: Point) -> Point:
        return (point[0] - from_mm, box.high - point[1])

    inner: list[Item] = [Polygon(tuple(at(p) for p in view.outline), Stroke.VISIBLE)]
    for mark in view.marks:
        reaches = bounds(mark_outline(mark))
        if reaches.right < from_mm or reaches.left > to_mm:
            continue
        points = tuple(at(p) for p in mark_outline(mark))
        inner.append(Polygon(points, Stroke.HIDDEN if mark.hidden else Stroke.VISIBLE, Fill.NONE))
        cx, cy = at((mark.x_mm, mark.y_mm))
        reach = mark.length_mm / 2.0 + 4.0
        turn = math.radians(-mark.turn_deg)
        ux, uy = math.cos(turn), math.sin(turn)
        inner.append(
            Line((cx - reach * ux, cy - reach * uy), (cx + reach * ux, cy + reach * uy), Stroke.CENTER)
        )
        short = mark.width_mm / 2.0 + 4.0
        inner.append(
            Line((cx + short * uy, cy - short * ux), (cx - short * uy, cy + short * ux), Stroke.CENTER)
        )
        inner.append(Text((cx + 1.2, cy - 1.2), mark.tag, 3.2, weight=Weight.BOLD))
    window = Window(tuple(inner), (0.0, 0.0), (-1.0, -1.0, width + 1.0, height + 1.0))
    items: list[Item] = [window]
    for x, end in ((0.0, from_mm > box.left + 0.01), (width, to_mm < box.right - 0.01)):
        if end:
            items.append(Line((x, -1.0), (x, height + 1.0), Stroke.CUT))
    return Template(name=name, note=note, width_mm=width, height_mm=height, items=tuple(items))


def turned(template: Template, *, wide_mm: float, high_mm: float) -> Template:
    """The template stood on end where only that makes it fit.

    Parameters
    ----------
    template
        The template.
    wide_mm, high_mm
        Room for it. [mm]

    Returns
    -------
    Template
        Turned a quarter clockwise, or as it was.
    """
    fits = template.width_mm <= wide_mm and template.height_mm <= high_mm
    if fits or template.width_mm > high_mm or template.height_mm > wide_mm:
        return template
    items = tuple(_turn_item(item, template.height_mm) for item in template.items)
    return replace(template, width_mm=template.height_mm, height_mm=template.width_mm, items=items)


def _turn_item(item: Item, height: float) -> Item:
    def turn(p: Point) -> Point:
        return (height - p[1], p[0])

    match item:
        case Line():
            return replace(item, start=turn(item.start), end=turn(item.end))
        case Polygon() | Hatch():
            return replace(item, points=tuple(turn(p) for p in item.points))
        case Circle():
            return replace(item, center=turn(item.center))
        case Text():
            return replace(item, at=turn(item.at), turn_deg=item.turn_deg + 90.0)
        case Window():
            left, top, right, bottom = item.opening
            inner = tuple(_turn_item(i, height) for i in item.items)
            return Window(
                inner, (-item.shift[1], item.shift[0]), (height - bottom, left, height - top, right)
            )
        case _:
            raise TypeError(
                f"template item: must be lines, outlines, circles or text, got {type(item).__name__}"
            )
