"""One part on the bench: the faces that carry joints, marked out from the reference end and the face mark."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from scantling.papers.drawing import (
    AngleDimension,
    Fill,
    Item,
    Line,
    Point,
    Polygon,
    Segments,
    Sheet,
    Side,
    Span,
    Stroke,
    Text,
    View,
    Weight,
    backing,
    bounds,
    draw_angle,
    draw_face_mark,
    draw_grain_arrow,
    draw_stack,
    fit_scale,
    stack_depth_mm,
    text_width_mm,
)

__all__ = [
    "Distance",
    "EndAngle",
    "FaceMark",
    "FaceView",
    "MarkedOut",
    "MarkedShape",
    "PartDrawing",
    "draw_part",
    "mark_outline",
]

_LEFT, _RIGHT, _HEAD = 14.0, 16.0, 7.0
_GAP = 7.0


class FaceMark(StrEnum):
    """Which pencil mark the face carries."""

    FACE = "face"
    EDGE = "edge"
    NONE = "none"


class MarkedShape(StrEnum):
    """Outline of a thing marked out."""

    ROUND_ENDED = "round-ended"
    SQUARE = "square"
    HOLE = "hole"


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedOut:
    """A mortise, groove, hole or notch on a face.

    Parameters
    ----------
    tag
        Letter that names it in the list beside the drawing.
    x_mm, y_mm
        Centre, along from the reference end and up from the lower edge of the view. [mm]
    length_mm, width_mm
        Long direction and across it. [mm]
    turn_deg
        Of the long direction, anticlockwise from the grain. [deg]
    hidden
        Whether it is on the far side.
    from_end, from_edge
        The two distances as shown; empty leaves one out.
    """

    tag: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    shape: MarkedShape = MarkedShape.ROUND_ENDED
    turn_deg: float = 0.0
    hidden: bool = False
    from_end: str = ""
    from_edge: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """A distance along the part (or across it), with the figure shown. [mm]"""

    low_mm: float
    high_mm: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EndAngle:
    """An angle at a corner of the view.

    Parameters
    ----------
    x_mm, y_mm
        The corner. [mm]
    from_deg, to_deg
        Directions of the two legs, anticlockwise from the grain as seen. [deg]
    """

    x_mm: float
    y_mm: float
    from_deg: float
    to_deg: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceView:
    """One face, the reference end at the left, y up from the lower edge.

    Parameters
    ----------
    title
        Which face, in words.
    outline
        Closed outline. [mm]
    visible, hidden
        Further edges. [mm]
    lengths
        Distances drawn below, reference end first.
    widths
        Distances across, drawn at the right.
    measured_from_top
        Whether the reference edge is the upper one.
    """

    title: str
    outline: tuple[Point, ...]
    visible: tuple[tuple[Point, Point], ...] = ()
    hidden: tuple[tuple[Point, Point], ...] = ()
    marks: tuple[MarkedOut, ...] = ()
    lengths: tuple[Distance, ...] = ()
    widths: tuple[Distance, ...] = ()
    angles: tuple[EndAngle, ...] = ()
    mark: FaceMark = FaceMark.NONE
    measured_from_top: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDrawing:
    """All faces of one part that are worked."""

    name: str
    views: tuple[FaceView, ...]


def mark_outline(mark: MarkedOut) -> tuple[Point, ...]:
    """Outline of a thing marked out, in the coordinates of its view.

    Parameters
    ----------
    mark
        The mark.

    Returns
    -------
    tuple of Point
        Closed outline; round ends are chords of 7.5 degrees. [mm]
    """
    half, across = mark.length_mm / 2.0, mark.width_mm / 2.0
    if mark.shape is MarkedShape.SQUARE:
        local: list[Point] = [(-half, -across), (half, -across), (half, across), (-half, across)]
    else:
        straight = 0.0 if mark.shape is MarkedShape.HOLE else max(half - across, 0.0)
        turns = [math.radians(-90.0 + 7.5 * i) for i in range(25)]
        right = [(straight + across * math.cos(t), across * math.sin(t)) for t in turns]
        local = right + [(-x, -y) for x, y in right]
    cos, sin = math.cos(math.radians(mark.turn_deg)), math.sin(math.radians(mark.turn_deg))
    return tuple((mark.x_mm + x * cos - y * sin, mark.y_mm + x * sin + y * cos) for x, y in local)


def _unique(spans: Iterable[Span]) -> list[Span]:
    seen: dict[tuple[int, int, str], Span] = {}
    for span in spans:
        seen.setdefault((round(span.low * 20), round(span.high * 20), span.text), span)
    return list(seen.values())


def _above(view: FaceView, place: View) -> list[Span]:
    start = place.at(0.0, 0.0)[0]
    return _unique(
        Span(low=start, high=place.at(m.x_mm, 0.0)[0], text=m.from_end) for m in view.marks if m.from_end
    )


def _below(view: FaceView, place: View) -> list[Span]:
    return _unique(
        Span(low=place.at(d.low_mm, 0.0)[0], high=place.at(d.high_mm, 0.0)[0], text=d.text)
        for d in view.lengths
    )


def _across(view: FaceView, place: View) -> list[Span]:
    edge = place.box.high if view.measured_from_top else place.box.low
    spans = [
        Span(low=place.at(0.0, edge)[1], high=place.at(0.0, m.y_mm)[1], text=m.from_edge)
        for m in view.marks
        if m.from_edge
    ]
    spans += [
        Span(low=place.at(0.0, d.low_mm)[1], high=place.at(0.0, d.high_mm)[1], text=d.text)
        for d in view.widths
    ]
    return _unique(spans)


def _marks(view: FaceView, place: View) -> list[Item]:
    items: list[Item] = []
    tags: list[Item] = []
    for mark in view.marks:
        points = tuple(place.at(x, y) for x, y in mark_outline(mark))
        fill = Fill.NONE if mark.hidden else Fill.SHADE
        items.append(Polygon(points, Stroke.HIDDEN if mark.hidden else Stroke.VISIBLE, fill))
        cx, cy = place.at(mark.x_mm, mark.y_mm)
        reach = mark.width_mm / place.per / 2.0 + 1.4
        items.append(Line((cx, cy - reach), (cx, cy + reach), Stroke.FINE))
        long_half = max(abs(x - cx) for x, _ in points)
        items.append(Line((cx - long_half - 1.4, cy), (cx + long_half + 1.4, cy), Stroke.FINE))
        tag = Text((cx + long_half + 1.0, cy - 0.9), mark.tag, 3.0, weight=Weight.BOLD)
        tags += [backing(tag, margin_mm=0.2), tag]
    return [*items, *tags]


def _angles(view: FaceView, place: View) -> list[Item]:
    items: list[Item] = []
    for angle in view.angles:
        items += draw_angle(
            AngleDimension(
                centre=place.at(angle.x_mm, angle.y_mm),
                radius_mm=9.0,
                from_deg=-angle.from_deg,
                to_deg=-angle.to_deg,
                text=angle.text,
            )
        )
    return items


def _pencil(view: FaceView, place: View) -> list[Item]:
    """Grain arrow and face mark, in the middle stretch of the face that carries no joint."""
    middle = (place.left + place.right) / 2.0
    height = place.bottom - place.top
    items: list[Item] = []
    free = _free_middle(view, place) or middle
    if height > 4.0:
        items += draw_grain_arrow(
            (free + 10.0, place.top + height / 2.0), min(24.0, (place.right - place.left) / 5.0)
        )
    if view.mark is not FaceMark.NONE:
        size = min(6.0, max(3.0, height * 0.7))
        foot = place.top + size + 0.4 if view.measured_from_top else place.bottom - 0.4
        items += draw_face_mark((free - 8.0, foot), size, edge=view.mark is FaceMark.EDGE)
    return items


def _free_middle(view: FaceView, place: View) -> float | None:
    """Middle of the widest stretch between marks. [mm on paper]"""
    taken = sorted(
        (
            place.at(m.x_mm - m.length_mm / 2.0, 0.0)[0] - 2.0,
            place.at(m.x_mm + m.length_mm / 2.0, 0.0)[0] + 6.0,
        )
        for m in view.marks
    )
    edges, reach = [], place.left
    for low, high in taken:
        edges.append((low - reach, (low + reach) / 2.0))
        reach = max(reach, high)
    edges.append((place.right - reach, (place.right + reach) / 2.0))
    return max(edges)[1]


def _draw_view(view: FaceView, place: View) -> list[Item]:
    outline = tuple(place.at(x, y) for x, y in view.outline)
    items: list[Item] = [Polygon(outline, Stroke.OUTLINE, Fill.PAPER)]
    for lines, stroke in ((view.hidden, Stroke.HIDDEN), (view.visible, Stroke.VISIBLE)):
        if lines:
            items.append(Segments(tuple((place.at(*a), place.at(*b)) for a, b in lines), stroke))
    items += _pencil(view, place)
    items += _marks(view, place)
    items += draw_stack(_above(view, place), side=Side.ABOVE, edge_mm=place.top)
    items += draw_stack(_below(view, place), side=Side.BELOW, edge_mm=place.bottom)
    items += draw_stack(_across(view, place), side=Side.RIGHT, edge_mm=place.right)
    return [*items, *_angles(view, place)]


def draw_part(part: PartDrawing, *, room_mm: float, height_mm: float = 230.0) -> Sheet:
    """Draw a part's faces under one another, at one standard scale.

    Parameters
    ----------
    part
        The faces.
    room_mm
        Width of the drawing. [mm]
    height_mm
        Height it may take. [mm]

    Returns
    -------
    Sheet
        As high as it needs to be.
    """
    boxes = [bounds(v.outline) for v in part.views]
    fixed = len(boxes) * (_HEAD + _GAP + 20.0)
    needs = [(b.width, room_mm - _LEFT - _RIGHT) for b in boxes]
    needs.append((sum(b.height for b in boxes), max(height_mm - fixed, 40.0)))
    per = fit_scale(needs)
    items: list[Item] = []
    y = 0.0
    for view, box in zip(part.views, boxes, strict=True):
        probe = View(corner=(_LEFT, 0.0), box=box, per=per)
        top = y + _HEAD + max(stack_depth_mm(_above(view, probe)), 2.0)
        place = View(corner=(_LEFT, top + box.height / per), box=box, per=per)
        items.append(Text((0.0, y + 4.0), view.title, 3.6, weight=Weight.BOLD))
        width = text_width_mm(view.title, 3.6, weight=Weight.BOLD)
        items.append(Text((width + 3.0, y + 4.0), f"1:{per:g}", 3.0, soft=True))
        items += _draw_view(view, place)
        y = place.bottom + max(stack_depth_mm(_below(view, place)), 2.0) + _GAP
    return Sheet(width_mm=room_mm, height_mm=y, items=tuple(items), title=part.name)
