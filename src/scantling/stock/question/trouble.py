"""What a pattern asks beside its board: the cuts to make, and the offcut it leaves."""

from __future__ import annotations

from scantling.stock.question.pattern import Pattern, Segment
from scantling.stock.question.problem import Problem, Stock

__all__ = ["cuts_of", "extra_cost", "offcut_of"]


def cuts_of(pattern: Pattern) -> int:
    """Cuts a pattern takes at most: one behind every segment, strip and blank, and one edge a segment."""
    return sum(
        2 + len(segment.strips) + sum(len(strip.spots) for strip in segment.strips)
        for segment in pattern.segments
    )


def offcut_of(pattern: Pattern, stock: Stock, problem: Problem) -> int:
    """Face of the largest piece a pattern leaves that is worth keeping. [units2]"""
    width = min(stock.top_left, stock.top_right) - stock.y0
    rests = [_above(segment, width + stock.y0, problem) for segment in pattern.segments]
    if not stock.rip_first:
        end = max((s.x + s.length for s in pattern.segments), default=stock.x0)
        rests.append((stock.x1 - end - problem.cross, width))
    keep = problem.keep
    return max((a * b for a, b in rests if a >= keep[0] and b >= keep[1]), default=0)


def _above(segment: Segment, top: int, problem: Problem) -> tuple[int, int]:
    """What is left above the last strip of a segment."""
    highest = max((s.y + s.width for s in segment.strips), default=0)
    return segment.length, top - highest - problem.rip


def extra_cost(problem: Problem, patterns: list[Pattern]) -> float:
    """What cuts and a missing offcut add to the price of the boards. [money]"""
    if not problem.cut_cost and not problem.offcut_worth:
        return 0.0
    cost = problem.cut_cost * sum(cuts_of(p) for p in patterns)
    if problem.offcut_worth:
        largest = max((offcut_of(p, problem.stocks[p.stock], problem) for p in patterns), default=0)
        cost += problem.offcut_worth * max(0, problem.largest_face - largest)
    return cost
