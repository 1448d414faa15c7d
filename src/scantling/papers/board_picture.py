"""A rough board as it lies on the trestles: parts chalked on it, flaws, cuts in order, what is left over."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from scantling.papers.drawing import (
    Anchor,
    Circle,
    Fill,
    Hatch,
    Item,
    Line,
    Point,
    Polygon,
    Sheet,
    Side,
    Span,
    Stroke,
    Text,
    Weight,
    backing,
    draw_grain_arrow,
    draw_stack,
    fit_scale,
    stack_depth_mm,
    text_box,
    text_width_mm,
)

__all__ = [
    "BoardCut",
    "BoardFlaw",
    "BoardOffcut",
    "BoardPart",
    "BoardPicture",
    "BoardScale",
    "board_scale",
    "draw_board",
]

_RING = 2.5
_SMALL_RING = 2.2
_APART = 0.6
"""Bare paper between two rings. [mm]"""
_HEAD = 7.0
_LEFT = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPart:
    """A part's blank on the board; ``size`` is chalked under its name. [mm]"""

    name: str
    size: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardFlaw:
    """A knot, a check, a stain: an area to keep clear of. [mm]"""

    kind: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardOffcut:
    """What is left; ``name`` is empty for waste. [mm]"""

    name: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardCut:
    """A cut; the rectangle is its kerf.

    Parameters
    ----------
    order
        Number in the order of work, from 1.
    crosswise
        Whether it runs across the grain.
    from_end
        Distance from the board's left end as shown, for a cut measured from it; empty otherwise.
    """

    order: int
    crosswise: bool
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    from_end: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPicture:
    """One board to draw.

    Parameters
    ----------
    name
        Chalked on it.
    about
        Species, thickness and size as shown.
    far_width_mm
        Width at the right end. [mm]
    """

    name: str
    about: str
    length_mm: float
    width_mm: float
    far_width_mm: float
    parts: tuple[BoardPart, ...]
    flaws: tuple[BoardFlaw, ...] = ()
    cuts: tuple[BoardCut, ...] = ()
    offcuts: tuple[BoardOffcut, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardScale:
    """Scale along and across the grain, 1 to n: long boards are drawn wider than they are, and say so."""

    along: float
    across: float

    @property
    def note(self) -> str:
        """How the scale is told."""
        if self.along == self.across:
            return f"lengths and widths 1:{self.along:g}"
        return f"lengths 1:{self.along:g}, widths 1:{self.across:g}"


def board_scale(boards: Iterable[BoardPicture], *, room_mm: float) -> BoardScale:
    """One scale for all boards of a packet, so that they can be compared.

    Parameters
    ----------
    boards
        The boards.
    room_mm
        Width of the drawing. [mm]

    Returns
    -------
    BoardScale
        The scale.
    """
    along = fit_scale((b.length_mm, room_mm - _LEFT - 8.0) for b in boards)
    across = along if along < 12.0 else along / 2.0
    return BoardScale(along=along, across=across)


class _Place:
    """Board millimeters to paper, at two scales."""

    def __init__(self, corner: Point, scale: BoardScale) -> None:
        self._corner, self._scale = corner, scale

    def at(self, x: float, y: float) -> Point:
        return (self._corner[0] + x / self._scale.along, self._corner[1] - y / self._scale.across)

    def box(self, x: float, y: float, length: float, width: float) -> tuple[Point, Point, Point, Point]:
        return (self.at(x, y), self.at(x + length, y), self.at(x + length, y + width), self.at(x, y + width))


def _fit(lines: tuple[str, ...], wide: float, high: float) -> tuple[float, float] | None:
    """Largest lettering, level or turned, in which all lines fit; None if none is legible."""
    for turn, room, stack in ((0.0, wide, high), (-90.0, high, wide)):
        for size in (3.6, 3.2, 2.8, 2.5):
            widest = max(text_width_mm(t, size, weight=Weight.BOLD) for t in lines)
            if widest <= room - 1.2 and len(lines) * size * 1.1 <= stack - 0.3:
                return size, turn
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ring:
    """The number of a cut, in a ring at the end of its line. [mm on paper]"""

    at: Point
    radius: float
    order: int

    def covers(self, box: tuple[float, float, float, float]) -> bool:
        """Whether it reaches into an upright rectangle: left, top, right, bottom."""
        left, top, right, bottom = box
        near = (min(max(self.at[0], left), right), min(max(self.at[1], top), bottom))
        return math.dist(near, self.at) < self.radius + 0.3


def _clear_of(box: tuple[Point, ...], rings: Iterable[_Ring]) -> tuple[float, float]:
    """Left and right end of what the rings at its ends leave of a box."""
    left, right, top, bottom = box[0][0], box[1][0], box[2][1], box[0][1]
    middle = (left + right) / 2.0
    for ring in rings:
        if not ring.covers((box[0][0], top, box[1][0], bottom)):
            continue
        if ring.at[0] > middle:
            right = min(right, ring.at[0] - ring.radius - 0.2)
        else:
            left = max(left, ring.at[0] + ring.radius + 0.2)
    return left, right


def _lettered(box: tuple[Point, ...], lines: tuple[str, ...], rings: list[_Ring]) -> list[Text] | None:
    """Lines in the middle of a box, or of what the rings leave of it; None where they do not fit."""
    high, cy = box[0][1] - box[2][1], (box[0][1] + box[2][1]) / 2.0
    for left, right in ((box[0][0], box[1][0]), _clear_of(box, rings)):
        found = _fit(lines, right - left, high)
        if found is None:
            continue
        size, turn = found
        cx = (left + right) / 2.0
        items: list[Text] = []
        for i, line in enumerate(lines):
            shift = (i - (len(lines) - 1) / 2.0) * size * 1.15 + 0.35 * size
            at = (cx, cy + shift) if turn == 0.0 else (cx + shift, cy)
            weight = Weight.BOLD if i == 0 else Weight.REGULAR
            items.append(Text(at, line, size, Anchor.MIDDLE, turn, weight))
        if not any(ring.covers(text_box(item)) for ring in rings for item in items):
            return items
    return None


def _parts(picture: BoardPicture, place: _Place, rings: list[_Ring]) -> tuple[list[Item], list[str]]:
    """Blanks with their names; what has no room in one stands in a key under the board."""
    items: list[Item] = []
    key: list[str] = []
    letters = iter("abcdefghijklmnopqrstuvwxyz" * len(picture.parts))
    for part in picture.parts:
        box = place.box(part.x_mm, part.y_mm, part.length_mm, part.width_mm)
        items.append(Polygon(box, Stroke.VISIBLE, Fill.PAPER))
        whole = ((part.name, part.size), (f"{part.name}  {part.size}",))
        words = next(filter(None, (_lettered(box, lines, rings) for lines in whole)), None)
        if words is None:
            words = _lettered(box, (part.name,), rings)
            letter = "" if words else next(letters)
            key.append(f"{letter} = {part.name} {part.size}" if letter else f"{part.name} {part.size}")
            left, right = _clear_of(box, rings)
            at = ((left + right) / 2.0, (box[0][1] + box[2][1]) / 2.0 + 1.0)
            words = words or [Text(at, letter, 3.0, Anchor.MIDDLE, weight=Weight.BOLD)]
        items += words
    return items, list(dict.fromkeys(key))


def _flaws(picture: BoardPicture, place: _Place) -> list[Item]:
    items: list[Item] = []
    for flaw in picture.flaws:
        (x0, y0), _, (x1, y1), _ = place.box(flaw.x_mm, flaw.y_mm, flaw.length_mm, flaw.width_mm)
        cx, cy = (x0 + x1) / 2.0, (y0 + y1) / 2.0
        rx, ry = max(0.6, (x1 - x0) / 2.0), max(0.6, (y0 - y1) / 2.0)
        streak = max(rx / ry, ry / rx) > 6.0  # a split or the pith, not a knot
        if streak:
            box = place.box(flaw.x_mm, flaw.y_mm, flaw.length_mm, flaw.width_mm)
            items += [Polygon(box, Stroke.FINE, Fill.SHADE), Hatch(box, 0.9, -45.0)]
        turns = [2.0 * math.pi * i / 24.0 for i in range(24)]
        for share, fill in () if streak else ((1.0, Fill.SHADE), (0.45, Fill.INK)):
            oval = tuple((cx + share * rx * math.cos(t), cy + share * ry * math.sin(t)) for t in turns)
            items.append(Polygon(oval, Stroke.VISIBLE, fill))
        size = 2.8
        end = place.at(picture.length_mm, 0.0)[0]
        fits = cx + rx + 0.8 + text_width_mm(flaw.kind, size) < end
        at = (cx + rx + 0.8 if fits else cx - rx - 0.8, cy + 0.35 * size)
        label = Text(at, flaw.kind, size, Anchor.START if fits else Anchor.END)
        items += [backing(label, margin_mm=0.3), label]
    return items


def _offcuts(picture: BoardPicture, place: _Place, rings: list[_Ring]) -> list[Item]:
    items: list[Item] = []
    for offcut in picture.offcuts:
        box = place.box(offcut.x_mm, offcut.y_mm, offcut.length_mm, offcut.width_mm)
        items.append(Hatch(box, 3.2 if offcut.name else 1.3, 45.0))
        items.append(Polygon(box, Stroke.FINE))
        left, right = _clear_of(box, rings)
        width = text_width_mm(offcut.name, 2.8)
        if offcut.name and right - left > width + 2.0 and box[0][1] - box[2][1] > 4.0:
            label = Text(
                ((left + right) / 2.0, (box[0][1] + box[2][1]) / 2.0 + 1.0), offcut.name, 2.8, Anchor.MIDDLE
            )
            items += [backing(label, margin_mm=0.6), label]
    return items


def _drawn(ring: _Ring) -> list[Item]:
    size, (x, y) = 1.12 * ring.radius, ring.at
    return [
        Circle(ring.at, ring.radius, Stroke.FINE if ring.radius < _RING else Stroke.VISIBLE, Fill.PAPER),
        Text((x, y + 0.36 * size), str(ring.order), size, Anchor.MIDDLE, weight=Weight.BOLD),
    ]


def _cuts(picture: BoardPicture, place: _Place) -> tuple[list[Item], list[_Ring]]:
    """Cut lines, which run a little beyond their piece, and a ring at the end of each."""
    lines: list[Item] = []
    rings: list[_Ring] = []
    for cut in picture.cuts:
        if cut.crosswise:
            x = cut.x_mm + cut.length_mm / 2.0
            foot, head = place.at(x, cut.y_mm), place.at(x, cut.y_mm + cut.width_mm)
            reach, step = (head[0], head[1] - 1.2), (0.0, -1.0)
        else:
            y = cut.y_mm + cut.width_mm / 2.0
            foot, head = place.at(cut.x_mm, y), place.at(cut.x_mm + cut.length_mm, y)
            reach, step = head, (-1.0, 0.0)
        lines.append(Line(foot, reach, Stroke.CUT))
        radius = _RING if cut.crosswise else _SMALL_RING
        at = (head[0], head[1] - 1.2 - radius) if cut.crosswise else (head[0] - 0.6 - radius, head[1])
        while any(math.dist(at, other.at) < radius + other.radius + _APART for other in rings):
            at = (at[0] + step[0] * 0.5, at[1] + step[1] * 0.5)
        rings.append(_Ring(at=at, radius=radius, order=cut.order))
    return lines, rings


def draw_board(picture: BoardPicture, *, room_mm: float, scale: BoardScale) -> Sheet:
    """Draw one board.

    Parameters
    ----------
    picture
        The board.
    room_mm
        Width of the drawing. [mm]
    scale
        Scale for all boards of the packet.

    Returns
    -------
    Sheet
        As high as it needs to be.
    """
    spans_at = sorted({(c.x_mm, c.from_end) for c in picture.cuts if c.from_end})
    zero = _LEFT
    spans = [Span(low=zero, high=zero + x / scale.along, text=t) for x, t in spans_at]
    tall = max(picture.width_mm, picture.far_width_mm) / scale.across
    bottom = 6.0 + _HEAD + 2.0 * _RING + tall
    place = _Place((zero, bottom), scale)
    outline = (
        place.at(0.0, 0.0),
        place.at(picture.length_mm, 0.0),
        place.at(picture.length_mm, picture.far_width_mm),
        place.at(0.0, picture.width_mm),
    )
    lines, rings = _cuts(picture, place)
    parts, key = _parts(picture, place, rings)
    items: list[Item] = [
        Text((0.0, 4.2), picture.name, 4.6, weight=Weight.BOLD),
        Text((text_width_mm(picture.name, 4.6, weight=Weight.BOLD) + 3.0, 4.2), picture.about, 3.4),
        *draw_grain_arrow((room_mm - 12.0, 3.2), 20.0),
        Polygon(outline, Stroke.NONE, Fill.TINT),
        *_offcuts(picture, place, rings),
        *parts,
        *_flaws(picture, place),
        Polygon(outline, Stroke.OUTLINE),
        *lines,
        *(item for ring in rings for item in _drawn(ring)),
        *draw_stack(spans, side=Side.BELOW, edge_mm=bottom),
    ]
    depth = stack_depth_mm(spans) or 2.0
    height = bottom + depth
    if key:
        height += 5.0
        items.append(Text((zero, height - 1.0), ",  ".join(key), 3.0))
    return Sheet(width_mm=room_mm, height_mm=height, items=tuple(items), title=f"Board {picture.name}")
