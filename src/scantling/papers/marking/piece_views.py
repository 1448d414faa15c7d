"""The whole piece: three views with their sizes, and pictures with numbered parts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from scantling.papers.drawing import (
    STANDARD_SCALES,
    Anchor,
    Box,
    Item,
    Point,
    Segments,
    Sheet,
    Side,
    Span,
    Stroke,
    Text,
    View,
    Weight,
    bounds,
    draw_balloon,
    draw_stack,
    needs_room_mm,
    stack_depth_mm,
)
from scantling.units import leading

__all__ = [
    "Balloon",
    "PiecePicture",
    "PieceView",
    "PieceViews",
    "ViewSize",
    "draw_picture",
    "draw_views",
    "line_pairs",
]

Pairs = tuple[tuple[Point, Point], ...]
_GAP = 12.0
_WORTH = 1.2
"""How much larger the views must come out for a chain to be told in one unit. [1]"""
_PITCH = 8.6
"""From balloon to balloon in a column. [mm]"""


def line_pairs(lines: Iterable[Sequence[Sequence[float]]]) -> Pairs:
    """Lines of a projection as plain pairs, rounded to a thousandth so that drawings repeat exactly.

    Parameters
    ----------
    lines
        Two points a line, as an array gives them. [mm] shape (n, 2, 2)

    Returns
    -------
    tuple
        Pairs of points. [mm]
    """
    return tuple(
        ((round(float(a[0]), 3), round(float(a[1]), 3)), (round(float(b[0]), 3), round(float(b[1]), 3)))
        for a, b in lines
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ViewSize:
    """A size along one side of a view, in the view's own millimeters. [mm]"""

    side: Side
    low_mm: float
    high_mm: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceView:
    """One view, x to the right and y up, in the piece's millimeters."""

    title: str
    visible: Pairs
    hidden: Pairs = ()
    sizes: tuple[ViewSize, ...] = ()

    @property
    def box(self) -> Box:
        """Rectangle around it. [mm]"""
        return bounds(point for line in (*self.visible, *self.hidden) for point in line)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceViews:
    """Plan above the front, the right side to its right (third angle)."""

    front: PieceView
    plan: PieceView
    side: PieceView


@dataclass(frozen=True, slots=True, kw_only=True)
class Balloon:
    """A part's number and a point of the part in the picture. [mm]"""

    text: str
    x_mm: float
    y_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecePicture:
    """A slanting picture of the piece, whole or taken apart."""

    title: str
    visible: Pairs
    hidden: Pairs = ()
    balloons: tuple[Balloon, ...] = ()


def _spans(view: PieceView, place: View, side: Side) -> list[Span]:
    chosen = [s for s in view.sizes if s.side is side]
    if side in (Side.LEFT, Side.RIGHT):
        return [
            Span(low=place.at(0, s.low_mm)[1], high=place.at(0, s.high_mm)[1], text=s.text) for s in chosen
        ]
    return [Span(low=place.at(s.low_mm, 0)[0], high=place.at(s.high_mm, 0)[0], text=s.text) for s in chosen]


def _depth(view: PieceView, side: Side, per: float) -> float:
    place = View(corner=(0.0, 0.0), box=view.box, per=per)
    upright = side in (Side.LEFT, Side.RIGHT)
    return stack_depth_mm(_spans(view, place, side), upright=upright)


def _past(view: PieceView, per: float) -> float:
    """How far a figure over or under a view stands out at its right, where it does not fit its size. [mm]"""
    place = View(corner=(0.0, 0.0), box=view.box, per=per)
    spans = (*_spans(view, place, Side.ABOVE), *_spans(view, place, Side.BELOW))
    outside = [
        max(s.low, s.high) + needs_room_mm(s.text) + 1.6 - place.right
        for s in spans
        if abs(s.high - s.low) < needs_room_mm(s.text)
    ]
    return max(outside, default=0.0)


def _lines(visible: Pairs, hidden: Pairs, place: View) -> list[Item]:
    items: list[Item] = []
    for pairs, stroke in ((hidden, Stroke.HIDDEN), (visible, Stroke.VISIBLE)):
        if pairs:
            items.append(Segments(tuple((place.at(*a), place.at(*b)) for a, b in pairs), stroke))
    return items


def _draw_view(view: PieceView, place: View) -> list[Item]:
    items = _lines(view.visible, view.hidden, place)
    edges = {Side.LEFT: place.left, Side.RIGHT: place.right, Side.ABOVE: place.top, Side.BELOW: place.bottom}
    for side, edge in edges.items():
        items += draw_stack(_spans(view, place, side), side=side, edge_mm=edge)
    return items


def _margins(views: PieceViews, per: float) -> tuple[float, float, float, float, float]:
    """Room for sizes and titles: left, between front and side, above, between plan and front, below. [mm]"""
    front, plan, side = views.front, views.plan, views.side

    def most(where: Side, *chosen: PieceView) -> float:
        return max(_depth(view, where, per) for view in chosen)

    return (
        max(most(Side.LEFT, front, plan), 2.0),
        most(Side.RIGHT, front, plan) + _GAP + most(Side.LEFT, side),
        8.0 + most(Side.ABOVE, plan),
        most(Side.BELOW, plan) + 10.0 + most(Side.ABOVE, front, side),
        most(Side.BELOW, front, side) + 4.0,
    )


def _scale(views: PieceViews, *, room_mm: float, height_mm: float) -> float:
    """The largest standard scale at which views and sizes have room; the smallest where none has."""
    front, plan, side = views.front, views.plan, views.side
    for per in STANDARD_SCALES:
        left, between, above, middle, below = _margins(views, per)
        right = max(_depth(side, Side.RIGHT, per), _past(side, per), 2.0)
        wide = left + between + right + (front.box.width + side.box.width) / per
        high = above + middle + below + (plan.box.height + front.box.height) / per
        if wide <= room_mm and high <= height_mm:
            break
    return per


def _plainer(views: PieceViews) -> PieceViews:
    """The same with the sizes at the right of the front, a chain of many, in the unit that leads alone."""
    sizes = (replace(s, text=leading(s.text)) if s.side is Side.RIGHT else s for s in views.front.sizes)
    return replace(views, front=replace(views.front, sizes=tuple(sizes)))


def draw_views(views: PieceViews, *, room_mm: float, height_mm: float) -> Sheet:
    """Draw plan, front and side at one standard scale, with their sizes.

    Parameters
    ----------
    views
        The three views.
    room_mm
        Width of the drawing. [mm]
    height_mm
        Height it may take. [mm]

    Returns
    -------
    Sheet
        As high as it needs to be.
    """
    per = _scale(views, room_mm=room_mm, height_mm=height_mm)
    plainer = _plainer(views)
    note = "third-angle views"
    if plainer != views and _scale(plainer, room_mm=room_mm, height_mm=height_mm) < per / _WORTH:
        views, per = plainer, _scale(plainer, room_mm=room_mm, height_mm=height_mm)
        note += ", chains of sizes in one unit"
    front, plan, side = views.front, views.plan, views.side
    left, between, above, middle, below = _margins(views, per)
    plan_at = View(corner=(left, above + plan.box.height / per), box=plan.box, per=per)
    base = plan_at.bottom + middle + front.box.height / per
    front_at = View(corner=(left, base), box=front.box, per=per)
    side_at = View(corner=(front_at.right + between, base), box=side.box, per=per)
    items: list[Item] = []
    for view, place in ((plan, plan_at), (front, front_at), (side, side_at)):
        items += _draw_view(view, place)
        title_y = place.top - _depth(view, Side.ABOVE, per) - 2.5
        items.append(Text((place.left, title_y), view.title, 3.6, weight=Weight.BOLD))
    items.append(Text((room_mm, 4.0), f"1:{per:g}, {note}", 3.0, Anchor.END, soft=True))
    return Sheet(width_mm=room_mm, height_mm=base + below, items=tuple(items), title="Views of the piece")


def _columns(balloons: tuple[Balloon, ...], place: View, *, foot_mm: float) -> list[tuple[Point, Point, str]]:
    """Balloons in two columns beside the picture, in the order of height so that few leaders cross."""
    points = sorted(((place.at(b.x_mm, b.y_mm), b.text) for b in balloons), key=lambda p: p[0])
    middle = (place.left + place.right) / 2.0
    half = (len(points) + 1) // 2
    while half < len(points) and points[half][0][0] < middle and half < len(points) - half + 2:
        half += 1
    placed: list[tuple[Point, Point, str]] = []
    for side, x in ((points[:half], place.left - 9.0), (points[half:], place.right + 9.0)):
        group = sorted(side, key=lambda p: p[0][1])
        for y, (point, text) in zip(_spread([p[0][1] for p in group], foot_mm), group, strict=True):
            placed.append(((x, y), point, text))
    return placed


def _spread(wanted: Sequence[float], foot_mm: float) -> list[float]:
    """Heights as wanted, moved so that balloons stand a pitch apart and none lower than the foot. [mm]"""
    ys = list(wanted)
    for i in range(1, len(ys)):
        ys[i] = max(ys[i], ys[i - 1] + _PITCH)
    for i in range(len(ys) - 1, -1, -1):
        ys[i] = min(ys[i], foot_mm if i == len(ys) - 1 else ys[i + 1] - _PITCH)
    return ys


def draw_picture(picture: PiecePicture, *, room_mm: float, height_mm: float) -> Sheet:
    """Draw a slanting picture as large as its room allows, with balloons at its sides.

    Parameters
    ----------
    picture
        The picture.
    room_mm, height_mm
        Room for it. [mm]

    Returns
    -------
    Sheet
        As high as it needs to be.
    """
    box = bounds(point for line in (*picture.visible, *picture.hidden) for point in line)
    margin = 14.0 if picture.balloons else 1.0
    edge = 5.0 if picture.balloons else 1.0
    per = max(box.width / (room_mm - 2.0 * margin), box.height / (height_mm - 2.0 * edge), 1e-6)
    left = (room_mm - box.width / per) / 2.0
    tall = (len(picture.balloons) // 2 + 2) * _PITCH  # the left column may be one longer than half
    height = max(box.height / per + 2.0 * edge, tall if picture.balloons else 0.0)
    place = View(corner=(left, (height + box.height / per) / 2.0), box=box, per=per)
    items = _lines(picture.visible, picture.hidden, place)
    for at, point, text in _columns(picture.balloons, place, foot_mm=height - edge):
        items += draw_balloon(at, point, text)
    return Sheet(width_mm=room_mm, height_mm=height, items=tuple(items), title=picture.title)
