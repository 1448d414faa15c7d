"""What is drawn already, as boxes: whether words have a place free of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scantling.papers.drawing import Circle, Item, Line, Point, Polygon, Segments, Text, text_box

__all__ = ["Box", "boxes_of", "meet", "strikes"]

Box = tuple[float, float, float, float]
"""Left, top, right, bottom. [mm on paper]"""
_CLEAR_MM = 0.4


def boxes_of(items: Iterable[Item]) -> Iterator[Box]:
    """What is covered by lettering, lines and outlines."""
    for item in items:
        if isinstance(item, Text):
            yield text_box(item)
        elif isinstance(item, Line):
            yield _around((item.start, item.end))
        elif isinstance(item, Segments):
            yield from (_around(line) for line in item.lines)
        elif isinstance(item, Polygon):
            yield _around(item.points)
        elif isinstance(item, Circle):
            (x, y), r = item.center, item.radius_mm
            yield (x - r, y - r, x + r, y + r)


def meet(one: Box, other: Box) -> bool:
    """Whether two boxes overlap or nearly touch."""
    return (
        one[0] < other[2] + _CLEAR_MM
        and other[0] < one[2] + _CLEAR_MM
        and one[1] < other[3] + _CLEAR_MM
        and other[1] < one[3] + _CLEAR_MM
    )


def strikes(drawn: Iterable[Item], words: Sequence[Box]) -> bool:
    """Whether a line of what is to be drawn, a leader most of all, runs through words that are there."""
    lines = [item for item in drawn if isinstance(item, Line)]
    points = [
        (a[0] + (b[0] - a[0]) * i / 24.0, a[1] + (b[1] - a[1]) * i / 24.0)
        for a, b in ((line.start, line.end) for line in lines)
        for i in range(25)
    ]
    return any(left < x < right and top < y < bottom for x, y in points for left, top, right, bottom in words)


def _around(points: Sequence[Point]) -> Box:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))
