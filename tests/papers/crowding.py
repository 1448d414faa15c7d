"""Words of a drawing that run into each other, off the sheet, or under a line, by the boxes of all drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import combinations, pairwise

from scantling.papers.drawing import (
    Circle,
    Fill,
    Item,
    Line,
    Point,
    Polygon,
    Polyline,
    Segments,
    Sheet,
    Stroke,
    Text,
    Window,
    bounds,
    text_box,
)

__all__ = ["crowded", "off_the_sheet", "struck"]

Box = tuple[float, float, float, float]
SLACK_MM = 0.2
"""Boxes hold the tallest letters there are; figures are a little lower. [mm]"""
_CALM = (Stroke.GRAIN, Stroke.NONE)
"""Lines that lettering may stand on."""


@dataclass(slots=True)
class _Drawn:
    """Words in sight, and the lines drawn so far that no filled shape has covered since."""

    words: list[tuple[str, Box]] = field(default_factory=list)
    struck: list[str] = field(default_factory=list)
    lines: list[tuple[Point, Point]] = field(default_factory=list)


def _moved(box: Box, by: Point) -> Box:
    return (box[0] + by[0], box[1] + by[1], box[2] + by[0], box[3] + by[1])


def _flat(
    items: tuple[Item, ...], by: Point = (0.0, 0.0), opening: Box | None = None
) -> Iterator[tuple[Item, Point, Box | None]]:
    for item in items:
        if isinstance(item, Window):
            yield from _flat(item.items, (by[0] + item.shift[0], by[1] + item.shift[1]), item.opening)
        else:
            yield item, by, opening


def _lines_of(item: Item, by: Point) -> list[tuple[Point, Point]]:
    if getattr(item, "stroke", Stroke.NONE) in _CALM:
        return []
    match item:
        case Line():
            found = [(item.start, item.end)]
        case Segments():
            found = list(item.lines)
        case Polyline():
            found = list(pairwise(item.points))
        case Polygon():
            found = list(pairwise((*item.points, item.points[0])))
        case _:
            return []
    return [((a[0] + by[0], a[1] + by[1]), (b[0] + by[0], b[1] + by[1])) for a, b in found]


def _clear_of(line: tuple[Point, Point], box: Box) -> bool:
    """Whether a line lies wholly to one side of a box, as most do: told by comparing, and so first."""
    (x0, y0), (x1, y1) = line
    left, top, right, bottom = box
    return (
        (x0 < left and x1 < left)
        or (x0 > right and x1 > right)
        or (y0 < top and y1 < top)
        or (y0 > bottom and y1 > bottom)
    )


def _crosses(line: tuple[Point, Point], box: Box) -> bool:
    """Whether a line has a piece inside a box (Liang and Barsky 1984)."""
    if _clear_of(line, box):
        return False
    (x0, y0), (x1, y1) = line
    low, high = 0.0, 1.0
    for start, way, least, most in ((x0, x1 - x0, box[0], box[2]), (y0, y1 - y0, box[1], box[3])):
        if abs(way) < 1e-12:
            if not least < start < most:
                return False
            continue
        a, b = sorted(((least - start) / way, (most - start) / way))
        low, high = max(low, a), min(high, b)
    return low < high - 1e-9


def _clipped(line: tuple[Point, Point], opening: Box | None) -> list[tuple[Point, Point]]:
    """What of a line is seen through an opening: all of it but what lies beside."""
    if opening is None:
        return [line]
    if not _crosses(line, opening):
        return []
    (x0, y0), (x1, y1) = line
    cuts = [0.0, 1.0]
    for outside in _beside(line, opening):
        for x, y in outside:
            along = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / ((x1 - x0) ** 2 + (y1 - y0) ** 2)
            cuts.append(min(max(along, 0.0), 1.0))
    seen = []
    for low, high in pairwise(sorted(set(cuts))):
        a, b = ((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share) for share in (low, high))
        if _crosses((a, b), opening):
            seen.append((a, b))
    return seen


def _shrunk(box: Box) -> Box:
    """The letters themselves: what descends and the slack left out."""
    return (box[0] + 0.3, box[1] + 0.3, box[2] - 0.3, box[3] - 0.6)


@lru_cache(maxsize=1)
def _drawn(sheet: Sheet) -> _Drawn:
    """What is drawn, once for the three questions that are asked of a sheet one after the other."""
    found = _Drawn()
    for item, by, opening in _flat(sheet.items):
        if isinstance(item, Text):
            box = _moved(text_box(item), by)
            middle = ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)
            if opening and not (
                opening[0] <= middle[0] <= opening[2] and opening[1] <= middle[1] <= opening[3]
            ):
                continue
            letters = _shrunk(box)
            if any(_crosses(line, letters) for line in found.lines):
                found.struck.append(item.text)
            found.words.append((item.text, box))
            continue
        if isinstance(item, Polygon | Circle) and item.fill is not Fill.NONE:
            _cover(found, _moved(_box_of(item), by))
        lines = [seen for line in _lines_of(item, by) for seen in _clipped(line, opening)]
        found.struck += [
            text
            for text, letters in ((text, _shrunk(box)) for text, box in found.words if lines)
            if any(_crosses(line, letters) for line in lines)
        ]
        found.lines += lines
    return found


def _box_of(item: Polygon | Circle) -> Box:
    if isinstance(item, Circle):
        (x, y), r = item.center, item.radius_mm
        return (x - r, y - r, x + r, y + r)
    box = bounds(item.points)
    return (box.left, box.low, box.right, box.high)


def _cover(found: _Drawn, box: Box) -> None:
    """Lines wholly under a filled shape are out of sight; of others, only what lies beside it is kept."""
    kept: list[tuple[Point, Point]] = []
    for line in found.lines:
        kept += _beside(line, box)
    found.lines = kept


def _beside(line: tuple[Point, Point], box: Box) -> list[tuple[Point, Point]]:
    if _clear_of(line, box):
        return [line]
    (x0, y0), (x1, y1) = line
    low, high = 0.0, 1.0
    for start, way, least, most in ((x0, x1 - x0, box[0], box[2]), (y0, y1 - y0, box[1], box[3])):
        if abs(way) < 1e-12:
            if not least <= start <= most:
                return [line]
            continue
        a, b = sorted(((least - start) / way, (most - start) / way))
        low, high = max(low, a), min(high, b)
    if low >= high:
        return [line]

    def at(share: float) -> Point:
        return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)

    left = [((x0, y0), at(low))] if low > 1e-9 else []
    right = [(at(high), (x1, y1))] if high < 1.0 - 1e-9 else []
    return left + right


def crowded(sheet: Sheet) -> list[tuple[str, str]]:
    """Pairs of words whose boxes share an area."""
    return [
        (one, other)
        for (one, a), (other, b) in combinations(_drawn(sheet).words, 2)
        if a[0] < b[2] - SLACK_MM
        and b[0] < a[2] - SLACK_MM
        and a[1] < b[3] - SLACK_MM
        and b[1] < a[3] - SLACK_MM
    ]


def off_the_sheet(sheet: Sheet) -> list[str]:
    """Words that reach over an edge of their drawing."""
    return [
        text
        for text, (left, top, right, bottom) in _drawn(sheet).words
        if left < -SLACK_MM
        or top < -SLACK_MM
        or right > sheet.width_mm + SLACK_MM
        or bottom > sheet.height_mm + SLACK_MM
    ]


def struck(sheet: Sheet) -> list[str]:
    """Words a line runs through, other than grain."""
    return _drawn(sheet).struck
