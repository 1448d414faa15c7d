"""Search over the order of boards and of blanks: every order gives one layout, better orders are kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from typing import TypeVar

from scantling.stock.handrules.fill import Demand, fill_board
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem
from scantling.stock.question.trouble import extra_cost

__all__ = ["Candidate", "Plan", "allowed_order", "build_plan", "first_candidates", "improve", "plan_of"]

T = TypeVar("T")
Order = tuple[tuple[int, bool], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One way to go through the boards."""

    boards: tuple[int, ...]
    order: Order


@dataclass(slots=True)
class Plan:
    """Patterns of the boards that are cut, and what they leave wanting."""

    patterns: list[Pattern]
    missing: Demand
    cost: float
    """Price of the boards cut, what else counts, and penalty of what is missing. [money]"""
    area_left: int
    """Usable area of the cut boards that is no blank; breaks ties. [units2]"""

    @property
    def rank(self) -> tuple[float, int]:
        """Smaller is better."""
        return (round(self.cost, 6), self.area_left)


def _allowed(problem: Problem, index: int, order: Order) -> list[tuple[int, bool]]:
    base = len(problem.kinds)
    return [
        (kind, turned)
        for kind, turned in order
        if index in (problem.kinds[kind].boards if kind < base else problem.panels[kind - base].boards)
    ]


def allowed_order(problem: Problem, index: int, demand: Demand) -> list[tuple[int, bool]]:
    """Kinds (then panels) wanted that a board may give, each with whether it is turned."""
    base = len(problem.kinds)
    found: list[tuple[int, bool]] = []
    for k, count in enumerate(demand.counts):
        kind = problem.kinds[k]
        if count and index in kind.boards:
            found += [(k, False), (k, True)] if kind.turnable and kind.length != kind.width else [(k, False)]
    for p, width in enumerate(demand.widths):
        if width and demand.strips[p] and index in problem.panels[p].boards:
            found.append((base + p, False))
    return found


def _wish(problem: Problem, kind: int) -> str:
    base = len(problem.kinds)
    return problem.kinds[kind].same_board if kind < base else problem.panels[kind - base].panel.same_board


def _group_left(problem: Problem, group: str, demand: Demand) -> bool:
    base = len(problem.kinds)
    return any(
        demand.counts[k] if k < base else demand.widths[k - base]
        for k in range(base + len(problem.panels))
        if _wish(problem, k) == group
    )


def _fill_with_groups(problem: Problem, index: int, demand: Demand, order: list[tuple[int, bool]]) -> Pattern:
    """Fill a board; blanks that must share a board are laid all together or not at all."""
    groups = [g for g in problem.groups if any(_wish(problem, k) == g for k, _ in order)]
    banned: set[str] = set()
    while True:
        trial = demand.copy()
        usable = [(k, t) for k, t in order if _wish(problem, k) not in banned]
        pattern = fill_board(problem, index, demand=trial, order=usable)
        split = [
            g
            for g in groups
            if g not in banned and _group_left(problem, g, demand) and _group_left(problem, g, trial)
        ]
        if not split:
            demand.counts, demand.widths, demand.strips = trial.counts, trial.widths, trial.strips
            return pattern
        banned.update(split)


def build_plan(problem: Problem, candidate: Candidate) -> Plan:
    """Lay out the boards one after the other in a candidate's order."""
    demand = Demand.of(problem)
    patterns: list[Pattern] = []
    for index in candidate.boards:
        if demand.met:
            break
        order = _allowed(problem, index, candidate.order)
        if not order:
            continue
        fill = _fill_with_groups if problem.groups else _fill
        pattern = fill(problem, index, demand, order)
        if pattern.segments:
            patterns.append(pattern)
    return plan_of(problem, patterns, demand)


def plan_of(problem: Problem, patterns: list[Pattern], demand: Demand) -> Plan:
    """Reckon what patterns cost, with a penalty for what they leave wanting.

    A panel that lacks any width lacks a whole strip, and is charged for the least one.
    """
    cost = sum(problem.stocks[p.stock].cost for p in patterns)
    left = sum(problem.stocks[p.stock].area - p.area for p in patterns)
    for kind, count in zip(problem.kinds, demand.counts, strict=True):
        cost += kind.penalty * count
    for need, width in zip(problem.panels, demand.widths, strict=True):
        if width > 0:
            cost += need.penalty * max(width, need.least - need.loss) / need.total
    cost += extra_cost(problem, patterns)
    return Plan(patterns=patterns, missing=demand, cost=cost, area_left=left)


def _fill(problem: Problem, index: int, demand: Demand, order: list[tuple[int, bool]]) -> Pattern:
    return fill_board(problem, index, demand=demand, order=order)


def first_candidates(problem: Problem) -> Iterator[Candidate]:
    """Orders a maker would try first: long, wide or large blanks first, on cheap or large boards first."""
    base = len(problem.kinds)
    sizes: list[tuple[int, int, int, bool]] = []
    for k, kind in enumerate(problem.kinds):
        sizes.append((kind.length, kind.width, k, False))
        if kind.turnable and kind.length != kind.width:
            sizes.append((kind.width, kind.length, k, True))
    sizes += [(n.length, n.greatest, base + p, False) for p, n in enumerate(problem.panels)]
    by_length = sorted(sizes, key=lambda s: (-s[0], -s[1], s[2], s[3]))
    by_width = sorted(sizes, key=lambda s: (-s[1], -s[0], s[2], s[3]))
    by_area = sorted(sizes, key=lambda s: (-s[0] * s[1], s[2], s[3]))
    stocks = range(len(problem.stocks))
    rate = sorted(stocks, key=lambda i: (problem.stocks[i].cost / max(1, problem.stocks[i].area), i))
    small = sorted(stocks, key=lambda i: (problem.stocks[i].area, i))
    for boards in (rate, small, small[::-1]):
        for sorted_sizes in (by_length, by_area, by_width):
            yield Candidate(boards=tuple(boards), order=tuple((s[2], s[3]) for s in sorted_sizes))


def _moved(items: tuple[T, ...], rng: Random) -> tuple[T, ...]:
    if len(items) < 2:
        return items
    changed = list(items)
    item = changed.pop(rng.randrange(len(changed)))
    changed.insert(rng.randrange(len(changed) + 1), item)
    return tuple(changed)


def improve(candidate: Candidate, rng: Random) -> Candidate:
    """A neighbour: a board or one to three blanks tried earlier or later."""
    boards, order = candidate.boards, candidate.order
    if rng.random() < 0.4:
        boards = _moved(boards, rng)
    if boards == candidate.boards or rng.random() < 0.6:
        for _ in range(rng.choice((1, 1, 2, 3))):
            order = _moved(order, rng)
    return Candidate(boards=boards, order=order)
