"""Fewer points for the same line (Douglas and Peucker 1973)."""

from __future__ import annotations

import math

from scantling.papers.drawing.items import Point

__all__ = ["simplified"]


def simplified(points: tuple[Point, ...], *, within_mm: float) -> tuple[Point, ...]:
    """A line without the points that lie near the chord of those that are kept.

    Parameters
    ----------
    points
        A broken line. [mm]
    within_mm
        Farthest a point left out may lie from the line. [mm]

    Returns
    -------
    tuple
        Some of the points, the two ends among them.

    References
    ----------
    D. H. Douglas and T. K. Peucker, "Algorithms for the reduction of the number of points required to
    represent a digitized line or its caricature", Cartographica 10 (2), 1973.

    Examples
    --------
    >>> simplified(((0.0, 0.0), (1.0, 0.01), (2.0, 0.0)), within_mm=0.05)
    ((0.0, 0.0), (2.0, 0.0))
    """
    kept = [True, *(False for _ in points[1:-1]), True][: len(points)]
    spans = [(0, len(points) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        far, at = max((_off(points[i], points[first], points[last]), i) for i in range(first + 1, last))
        if far > within_mm:
            kept[at] = True
            spans += [(first, at), (at, last)]
    return tuple(point for point, keep in zip(points, kept, strict=True) if keep)


def _off(point: Point, start: Point, end: Point) -> float:
    """Distance of a point from the line between two others."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = math.hypot(dx, dy)
    if length < 1e-12:
        return math.dist(point, start)
    return abs(dx * (point[1] - start[1]) - dy * (point[0] - start[0])) / length
