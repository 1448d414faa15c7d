"""Hatch lines of an outline, reckoned by us: patterns of viewers and printers differ, lines do not."""

from __future__ import annotations

import math

from scantling.papers.drawing.items import Hatch, Point, Segments

__all__ = ["hatch_lines"]


def _crossings(points: list[Point], level: float) -> list[float]:
    found: list[float] = []
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        if (y0 <= level) != (y1 <= level):
            found.append(x0 + (level - y0) * (x1 - x0) / (y1 - y0))
    return sorted(found)


def hatch_lines(hatch: Hatch) -> Segments:
    """Clip a family of parallel lines to an outline (even-odd rule).

    Parameters
    ----------
    hatch
        Outline, pitch and angle.

    Returns
    -------
    Segments
        The pieces inside.
    """
    turn = math.radians(hatch.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    turned = [(x * cos + y * sin, -x * sin + y * cos) for x, y in hatch.points]
    low, high = min(y for _, y in turned), max(y for _, y in turned)
    lines: list[tuple[Point, Point]] = []
    for step in range(math.ceil(low / hatch.pitch_mm), math.floor(high / hatch.pitch_mm) + 1):
        level = step * hatch.pitch_mm
        cuts = _crossings(turned, level)
        for a, b in zip(cuts[::2], cuts[1::2], strict=False):
            lines.append(
                (
                    (a * cos - level * sin, a * sin + level * cos),
                    (b * cos - level * sin, b * sin + level * cos),
                )
            )
    return Segments(tuple(lines), hatch.stroke)
