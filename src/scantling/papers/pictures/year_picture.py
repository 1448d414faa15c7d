"""The year in one picture: the room's air, the wood that follows it, and the joint with least to spare."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from scantling.papers.drawing import (
    Anchor,
    Circle,
    Fill,
    Hatch,
    Item,
    Line,
    Point,
    Polygon,
    Polyline,
    Sheet,
    Stroke,
    Text,
    Weight,
    backing,
    text_box,
    text_width_mm,
)

__all__ = ["YearLine", "YearLineStyle", "YearMark", "YearPanel", "YearPicture", "draw_year"]

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_FIRST_DAYS = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365)
_LEFT, _RIGHT, _PANEL_HEAD, _GAP = 13.0, 30.0, 6.0, 4.0


class YearLineStyle(StrEnum):
    """How a line is told from the others without color."""

    FIRM = "firm"
    PLAIN = "plain"
    DASHED = "dashed"
    DOTTED = "dotted"


_STROKES = {
    YearLineStyle.FIRM: Stroke.OUTLINE,
    YearLineStyle.PLAIN: Stroke.VISIBLE,
    YearLineStyle.DASHED: Stroke.HIDDEN,
    YearLineStyle.DOTTED: Stroke.CENTER,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class YearLine:
    """Values at even steps through the year, the first on 1 January; named at its right end."""

    name: str
    values: tuple[float, ...]
    style: YearLineStyle = YearLineStyle.PLAIN


@dataclass(frozen=True, slots=True, kw_only=True)
class YearMark:
    """A day worth naming: build day, the worst day.

    Parameters
    ----------
    day
        Day of the year, 1 January is 1. [d]
    """

    day: int
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class YearPanel:
    """One band of the picture with its own scale.

    Parameters
    ----------
    title
        What is shown, with its unit.
    low, high
        Ends of the scale.
    ticks
        Values ruled across and named.
    lines
        Curves.
    band
        Lower and upper values of a shaded band, at even steps; empty for none.
    limit
        A value not to be passed, hatched beyond; None for none. ``limit_name`` names it.
    limit_from_above
        Whether the values are to stay above it, so that it is hatched below; else on the nearer side.
    spot
        Day and text of the worst place on the first line; None for none.
    """

    title: str
    low: float
    high: float
    ticks: tuple[float, ...]
    lines: tuple[YearLine, ...] = ()
    band: tuple[tuple[float, float], ...] = ()
    limit: float | None = None
    limit_name: str = ""
    limit_from_above: bool = False
    spot: YearMark | None = None
    height_mm: float = 38.0


@dataclass(frozen=True, slots=True, kw_only=True)
class YearPicture:
    """All bands, under one row of months."""

    title: str
    panels: tuple[YearPanel, ...]
    marks: tuple[YearMark, ...] = ()


class _Scale:
    """Day and value to paper."""

    def __init__(self, panel: YearPanel, left: float, right: float, top: float) -> None:
        self._panel, self.left, self.right, self.top = panel, left, right, top
        self.bottom = top + panel.height_mm

    def x(self, day: float) -> float:
        return self.left + (self.right - self.left) * day / 365.0

    def y(self, value: float) -> float:
        clipped = min(max(value, self._panel.low), self._panel.high)
        share = (clipped - self._panel.low) / (self._panel.high - self._panel.low)
        return self.bottom - share * self._panel.height_mm

    def points(self, values: tuple[float, ...]) -> tuple[Point, ...]:
        step = 365.0 / max(len(values) - 1, 1)
        return tuple((self.x(i * step), self.y(v)) for i, v in enumerate(values))


def _number(value: float) -> str:
    return f"{value:g}"


def _grid(panel: YearPanel, scale: _Scale) -> list[Item]:
    title = Text((scale.left, scale.top - 2.0), panel.title, 3.2, weight=Weight.BOLD)
    items: list[Item] = [backing(title, margin_mm=0.5), title]
    for tick in panel.ticks:
        y = scale.y(tick)
        items.append(Line((scale.left, y), (scale.right, y), Stroke.FINE))
        items.append(Text((scale.left - 1.6, y + 1.0), _number(tick), 2.8, Anchor.END))
    for day in _FIRST_DAYS:
        x = scale.x(day)
        items.append(Line((x, scale.bottom), (x, scale.bottom + 1.2), Stroke.FINE))
    items.append(Line((scale.left, scale.bottom), (scale.right, scale.bottom), Stroke.VISIBLE))
    return items


def _labels(panel: YearPanel, scale: _Scale) -> list[Item]:
    """Names at the right ends of the lines, pushed apart where they would run together."""
    wanted = sorted((scale.points(line.values)[-1][1], line.name) for line in panel.lines if line.values)
    items: list[Item] = []
    last = scale.top - 10.0
    for y, name in wanted:
        at = max(y, last + 3.6)
        last = at
        items.append(Line((scale.right, y), (scale.right + 1.8, at), Stroke.FINE))
        items.append(Text((scale.right + 2.4, at + 1.0), name, 2.9))
    return items


def _limit(panel: YearPanel, scale: _Scale) -> list[Item]:
    if panel.limit is None:
        return []
    y = scale.y(panel.limit)
    nearer = panel.limit - panel.low < panel.high - panel.limit
    far = scale.bottom if panel.limit_from_above or nearer else scale.top
    box = ((scale.left, y), (scale.right, y), (scale.right, far), (scale.left, far))
    items: list[Item] = [Line((scale.left, y), (scale.right, y), Stroke.CUT)]
    if abs(far - y) > 0.5:
        items.insert(0, Hatch(box, 2.2))
    base = y - 1.2 if far >= y else y + 3.3
    early = panel.spot is not None and panel.spot.day < 183  # its leader goes up on the other side
    at, anchor = (scale.right - 1.6, Anchor.END) if early else (scale.left + 1.6, Anchor.START)
    label = Text((at, base), panel.limit_name, 2.9, anchor)
    return [*items, backing(label, margin_mm=0.6), label]


def _spot(panel: YearPanel, scale: _Scale) -> list[Item]:
    if panel.spot is None or not panel.lines:
        return []
    values = panel.lines[0].values
    index = round((panel.spot.day - 1) / 364.0 * (len(values) - 1))
    x, y = scale.x(panel.spot.day - 1), scale.y(values[index])
    label = Text((scale.right, scale.top - 2.0), panel.spot.text, 3.2, Anchor.END, weight=Weight.BOLD)
    left, _, right, _ = text_box(label)
    reach = min(max(x, left), right)
    return [
        Circle((x, y), 1.1, Stroke.NONE, Fill.INK),
        Polyline(((x, y), (x, scale.top - 0.6), (reach, scale.top - 0.6)), Stroke.DIMENSION),
        Line((left, scale.top - 0.6), (right, scale.top - 0.6), Stroke.DIMENSION),
        backing(label, margin_mm=0.5),
        label,
    ]


def _panel(panel: YearPanel, scale: _Scale) -> list[Item]:
    items: list[Item] = []
    if panel.band:
        low = scale.points(tuple(b[0] for b in panel.band))
        high = scale.points(tuple(b[1] for b in panel.band))
        items.append(Polygon((*low, *reversed(high)), Stroke.NONE, Fill.SHADE))
    items += _grid(panel, scale)
    items += _limit(panel, scale)
    items += [Polyline(scale.points(line.values), _STROKES[line.style]) for line in panel.lines]
    return [*items, *_labels(panel, scale), *_spot(panel, scale)]


def _days(picture: YearPicture, scale: _Scale, top: float) -> list[Item]:
    items: list[Item] = []
    for mark in picture.marks:
        x = scale.x(mark.day - 1)
        items.append(Line((x, top), (x, scale.bottom), Stroke.CENTER))
        near_end = x + text_width_mm(mark.text, 3.0) > scale.right + _RIGHT
        anchor = Anchor.END if near_end else Anchor.START
        items.append(Text((x + (-1.0 if near_end else 1.0), top + 1.0), mark.text, 3.0, anchor))
    for start, end, name in zip(_FIRST_DAYS, _FIRST_DAYS[1:], _MONTHS, strict=False):
        items.append(Text((scale.x((start + end) / 2.0), scale.bottom + 4.6), name, 3.0, Anchor.MIDDLE))
    return items


def draw_year(picture: YearPicture, *, room_mm: float) -> Sheet:
    """Draw the year.

    Parameters
    ----------
    picture
        Bands and days.
    room_mm
        Width of the drawing. [mm]

    Returns
    -------
    Sheet
        As high as it needs to be.
    """
    items: list[Item] = []
    top = 5.0 if picture.marks else 0.0
    first_top = top - 2.0
    scale = None
    for panel in picture.panels:
        scale = _Scale(panel, _LEFT, room_mm - _RIGHT, top + _PANEL_HEAD)
        items += _panel(panel, scale)
        top = scale.bottom + _GAP
    if scale is None:
        return Sheet(width_mm=room_mm, height_mm=1.0, items=(), title=picture.title)
    days = _days(picture, scale, first_top)
    return Sheet(width_mm=room_mm, height_mm=scale.bottom + 7.0, items=(*days, *items), title=picture.title)
