"""Cuts on a board: their lines, their numbers in rings, and the running sizes to chalk them from."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from scantling.papers.boards.picture import BoardCut, BoardPicture
from scantling.papers.boards.place import BoardPlace, Corners
from scantling.papers.drawing import (
    Anchor,
    Circle,
    Fill,
    Item,
    Line,
    Point,
    Polygon,
    Stroke,
    Text,
    Weight,
    backing,
    text_box,
    text_width_mm,
)

__all__ = ["RING_MM", "Tag", "clear_of", "cut_lines", "draw_running", "draw_tag", "running_depth_mm"]

RING_MM = 2.5
"""Radius of the ring of a crosscut. [mm]"""
_SMALL_RING = 2.1
_APART = 0.6
"""Bare paper between two rings. [mm]"""
_FIGURE = 2.6
"""Lettering of a size written on its rip. [mm]"""
_BEYOND = 1.2

_Extent = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """Number of a cut in a ring at the end of its line, running size on the line. [mm on paper]"""

    at: Point
    radius: float
    order: int
    figure: Text | None = None

    @property
    def reach(self) -> tuple[float, float]:
        """From where to where it takes the paper along the board. [mm]"""
        left = self.at[0] - self.radius
        if self.figure is not None:
            left = min(left, text_box(self.figure)[0])
        return left, self.at[0] + self.radius

    def covers(self, box: _Extent) -> bool:
        """Whether it reaches into an upright rectangle: left, top, right, bottom."""
        left, top, right, bottom = box
        near = (min(max(self.at[0], left), right), min(max(self.at[1], top), bottom))
        if math.dist(near, self.at) < self.radius + 0.3:
            return True
        return self.figure is not None and _meet(text_box(self.figure), box, 0.3)


def _meet(a: _Extent, b: _Extent, gap: float) -> bool:
    return a[0] < b[2] + gap and b[0] < a[2] + gap and a[1] < b[3] + gap and b[1] < a[3] + gap


def cut_lines(picture: BoardPicture, place: BoardPlace) -> tuple[list[Item], list[Tag]]:
    """Lines of the cuts, which run a little beyond their piece, and a tag at the end of each."""
    lines: list[Item] = []
    tags: list[Tag] = []
    for cut in picture.cuts:
        foot, head = _ends(cut, place)
        reach = (head[0], head[1] - _BEYOND) if cut.crosswise else head
        lines.append(Line(foot, reach, Stroke.CUT))
        tags.append(_placed(cut, (foot, head), tags))
    return lines, tags


def _ends(cut: BoardCut, place: BoardPlace) -> tuple[Point, Point]:
    if cut.crosswise:
        x = cut.x_mm + cut.length_mm / 2.0
        return place.at(x, cut.y_mm), place.at(x, cut.y_mm + cut.width_mm)
    y = cut.y_mm + cut.width_mm / 2.0
    return place.at(cut.x_mm, y), place.at(cut.x_mm + cut.length_mm, y)


def _placed(cut: BoardCut, ends: tuple[Point, Point], tags: Sequence[Tag]) -> Tag:
    """A tag beyond the head of a crosscut, or within the end of a rip, moved until it is clear of others."""
    foot, head = ends
    radius = RING_MM if cut.crosswise else _SMALL_RING
    at = (head[0], head[1] - _BEYOND - radius) if cut.crosswise else (head[0] - 0.6 - radius, head[1])
    step = (0.0, -0.5) if cut.crosswise else (-0.5, 0.0)
    room = 0.0 if cut.crosswise else head[0] - foot[0]
    for with_figure in (True, False):
        here = at
        for _ in range(400):
            found = _tagged(cut, here, radius, figure=with_figure)
            if not any(_crowd(found, other) for other in tags):
                break
            here = (here[0] + step[0], here[1] + step[1])
        if found.figure is None or (head[0] - found.reach[0] < 0.6 * room):
            break
    return found


def _tagged(cut: BoardCut, at: Point, radius: float, *, figure: bool) -> Tag:
    text = None
    if figure and cut.running and not cut.crosswise:
        text = Text((at[0] - radius - 0.5, at[1] + 0.35 * _FIGURE), cut.running, _FIGURE, Anchor.END)
    return Tag(at=at, radius=radius, order=cut.order, figure=text)


def _crowd(one: Tag, other: Tag) -> bool:
    if math.dist(one.at, other.at) < one.radius + other.radius + _APART:
        return True
    return (one.figure is not None and other.covers(text_box(one.figure))) or (
        other.figure is not None and one.covers(text_box(other.figure))
    )


def draw_tag(tag: Tag) -> list[Item]:
    """A ring with its number, and the running size on bare paper."""
    size, (x, y) = 1.12 * tag.radius, tag.at
    stroke = Stroke.FINE if tag.radius < RING_MM else Stroke.VISIBLE
    ring: list[Item] = [
        Circle(tag.at, tag.radius, stroke, Fill.PAPER),
        Text((x, y + 0.36 * size), str(tag.order), size, Anchor.MIDDLE, weight=Weight.BOLD),
    ]
    if tag.figure is None:
        return ring
    return [backing(tag.figure, margin_mm=0.4), tag.figure, *ring]


_LINE = 3.4
"""From the board to the line of running sizes. [mm]"""
_SIZE = 3.0
_ROW = 3.6
_SIDES = ((Anchor.MIDDLE, 0.5), (Anchor.START, 0.12), (Anchor.END, 0.88))
"""Where a figure stands by its line, and how much of it then lies left of the line."""


def _rows(marks: Sequence[tuple[float, str]], limit_mm: float) -> list[tuple[int, Anchor]]:
    """A row for each figure, and the side of its line it stands at, so that none runs into another or out."""
    ends: list[float] = []
    found: list[tuple[int, Anchor]] = []
    for x, text in marks:
        width = text_width_mm(text, _SIZE)
        options = (
            (row, anchor, x - share * width)
            for row in range(len(ends) + 1)
            for anchor, share in _SIDES
            if (x + (1.0 - share) * width <= limit_mm or anchor is Anchor.END)
            and (x - share * width >= 0.0 or anchor is Anchor.START)
        )
        row, anchor, left = next(
            (row, anchor, left) for row, anchor, left in options if row == len(ends) or left > ends[row] + 1.0
        )
        if row == len(ends):
            ends.append(left)
        ends[row] = left + width
        found.append((row, anchor))
    return found


def running_depth_mm(marks: Sequence[tuple[float, str]], *, limit_mm: float) -> float:
    """Room the running sizes take under a board, none of them past a limit on the right. [mm]"""
    if not marks:
        return 1.0
    return _LINE + 1.6 + _ROW * (1 + max(row for row, _ in _rows(marks, limit_mm)))


def draw_running(
    marks: Sequence[tuple[float, str]], *, zero_mm: float, edge_mm: float, limit_mm: float
) -> list[Item]:
    """Sizes that all run from one end, on one line (running dimensions as ISO 129-1 has them).

    Parameters
    ----------
    marks
        Paper coordinate along the board and figure, from the end on. [mm]
    zero_mm, edge_mm
        Where the end and the lower edge of the board lie. [mm]
    limit_mm
        How far right a figure may reach. [mm]

    Returns
    -------
    list of Item
        A ring at zero, the line, an arrowhead and a figure at each mark.
    """
    if not marks:
        return []
    y = edge_mm + _LINE
    items: list[Item] = [
        Line((zero_mm, edge_mm + 0.6), (zero_mm, y), Stroke.DIMENSION),
        Line((zero_mm, y), (marks[-1][0], y), Stroke.DIMENSION),
        Circle((zero_mm, y), 0.7, Stroke.DIMENSION, Fill.PAPER),
    ]
    figures: list[Text] = []
    before = zero_mm
    for (x, text), (row, anchor) in zip(marks, _rows(marks, limit_mm), strict=True):
        foot = y + 1.0 + _ROW * row
        items.append(Line((x, edge_mm + 0.6), (x, foot), Stroke.DIMENSION))
        head = min(1.6, max(x - before - 0.8, 0.3))
        items.append(Polygon(((x, y), (x - head, y - 0.4), (x - head, y + 0.4)), Stroke.NONE, Fill.INK))
        before = x
        shift = {Anchor.START: 0.12, Anchor.END: -0.12}.get(anchor, 0.0) * text_width_mm(text, _SIZE)
        figures.append(Text((x - shift, foot + 0.3 + 0.78 * _SIZE), text, _SIZE, anchor))
    return [*items, *(backing(figure, margin_mm=0.2) for figure in figures), *figures]


def clear_of(box: Corners, tags: Iterable[Tag]) -> tuple[float, float]:
    """Left and right end of what the tags at its ends leave of a box."""
    left, right, top, bottom = box[0][0], box[1][0], box[2][1], box[0][1]
    middle = (left + right) / 2.0
    for tag in tags:
        if not tag.covers((box[0][0], top, box[1][0], bottom)):
            continue
        if tag.at[0] > middle:
            right = min(right, tag.reach[0] - 0.2)
        else:
            left = max(left, tag.reach[1] + 0.2)
    return left, right
