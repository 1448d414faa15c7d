"""Bounds by area: no layout can need less wood than its blanks have."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from scantling.stock.question.problem import Problem, Stock

__all__ = ["CostBound", "area_bound", "next_price_sum"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CostBound:
    """What no layout can undercut.

    Parameters
    ----------
    cost
        Least price of boards plus penalties for what must be left out. [money]
    short
        Whether something must be left out.
    """

    cost: float
    short: bool


def next_price_sum(costs: list[float], value: float, *, most: int = 40_000) -> float:
    """Least sum of some of the costs that is not below a value; the value itself where there are too many.

    Examples
    --------
    >>> next_price_sum([40.0, 55.0, 70.0], 96.0)
    110.0
    """
    sums = np.zeros(1)
    for cost in costs:
        sums = np.unique(np.concatenate([sums, np.round(sums[sums < value] + cost, 9)]))
        if len(sums) > most:
            return value
    reached = int(np.searchsorted(sums, value - 1e-6))
    return float(sums[reached]) if reached < len(sums) else value


def _clear_area(problem: Problem, stock: Stock) -> int:
    """Most blank-and-kerf area a board can hold, every blank taken with one kerf on two sides."""
    top = max(stock.top_left, stock.top_right)
    if stock.top_left == stock.top_right:
        room = (stock.x1 - stock.x0 + problem.cross) * (top - stock.y0 + problem.rip)
    else:
        middle = (stock.top_left + stock.top_right) // 2 + abs(stock.top_left - stock.top_right)
        room = (stock.x1 - stock.x0 + problem.cross) * (min(middle, top) - stock.y0 + problem.rip)
    return max(0, room)


def area_bound(problem: Problem) -> CostBound:
    """Lower bound on cost by area alone.

    Each blank takes its own area and one kerf along two sides, each board grows by one kerf both ways: the
    layouts stay the same. Every class of needs is covered by the boards it accepts at the best price per
    area; a fraction of a board may be bought, so the sum is a bound.

    Returns
    -------
    CostBound
        Cost in money; ``short`` when the areas alone cannot meet.
    """
    areas: dict[frozenset[int], list[tuple[float, float]]] = {}
    for kind in problem.kinds:
        area = float((kind.length + problem.cross) * (kind.width + problem.rip))
        if kind.turnable:
            area = min(area, float((kind.length + problem.rip) * (kind.width + problem.cross)))
        areas.setdefault(kind.boards, []).append((area * len(kind.blanks), kind.penalty * len(kind.blanks)))
    for need in problem.panels:
        area = float((need.length + problem.cross) * need.total)
        areas.setdefault(need.boards, []).append((area, need.penalty))
    return _cover(problem, areas)


def _cover(problem: Problem, areas: dict[frozenset[int], list[tuple[float, float]]]) -> CostBound:
    cost = 0.0
    short = False
    for cluster in _clusters(list(areas)):
        boards = sorted(set().union(*cluster))
        needs = [need for boards_ok in cluster for need in areas[boards_ok]]
        want = sum(area for area, _ in needs)
        room = sorted(
            ((problem.stocks[i].cost, _clear_area(problem, problem.stocks[i])) for i in boards),
            key=lambda pair: pair[0] / max(pair[1], 1),
        )
        for price, area in room:
            used = min(want, area)
            if area > 0:
                cost += price * used / area
            want -= used
        if want > 1e-6:
            short = True
            cost += want * min(penalty / area for area, penalty in needs)
    return CostBound(cost=cost, short=short)


def _clusters(sets: list[frozenset[int]]) -> list[list[frozenset[int]]]:
    """Group needs that share a board, so that no board is counted twice."""
    groups: list[list[frozenset[int]]] = []
    for boards in sets:
        touching = [g for g in groups if any(boards & other for other in g)]
        groups = [g for g in groups if g not in touching]
        groups.append([boards, *(other for g in touching for other in g)])
    return groups
