"""Strips of panels that would lose only a sliver keep it: the panel is trimmed after it is glued."""

from __future__ import annotations

from dataclasses import replace

from scantling.stock.question.pattern import Pattern, Segment, Spot, Strip
from scantling.stock.question.problem import UNITS_PER_MM, Problem, Stock

__all__ = ["SLIVER_MM", "with_slivers_left_on"]

SLIVER_MM = 25.0
"""A rip that takes less than this off one edge leaves a stick nobody keeps and no push block holds
(common practice). [mm]"""


def with_slivers_left_on(problem: Problem, pattern: Pattern) -> Pattern:
    """The pattern with strips of free width as wide as the ripping they lie in, where little is between.

    Parameters
    ----------
    problem
        What is cut from what.
    pattern
        One board; it stays as it was.

    Returns
    -------
    Pattern
        The same cells, some of them wider; none wider than its panel takes, than the board is sound, or than
        leaves a stick worth keeping.
    """
    stock = problem.stocks[pattern.stock]
    segments = [
        Segment(
            x=segment.x,
            length=segment.length,
            strips=[
                Strip(y=s.y, width=s.width, spots=[_widened(problem, stock, s, spot) for spot in s.spots])
                for s in segment.strips
            ],
        )
        for segment in pattern.segments
    ]
    return Pattern(stock=pattern.stock, segments=segments)


def _widened(problem: Problem, stock: Stock, strip: Strip, spot: Spot) -> Spot:
    panel = spot.kind - len(problem.kinds)
    more = strip.width - spot.width
    if panel < 0 or more <= 0 or more > SLIVER_MM * UNITS_PER_MM or spot.y != strip.y:
        return spot
    end, top = spot.x + spot.length, strip.y + strip.width
    spoiled = any(
        x0 < end and x1 > spot.x and y0 < top and y1 > spot.y + spot.width
        for x0, y0, x1, y1, _ in stock.defects
    )
    if spoiled or strip.width > problem.panels[panel].greatest or top > stock.top(spot.x, end):
        return spot
    return replace(spot, width=strip.width)
