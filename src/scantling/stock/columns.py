"""Column generation: patterns priced by the worths the master problem implies, until none can help."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Set
from copy import deepcopy
from dataclasses import dataclass, field
from random import Random

import numpy as np

from scantling.stock.axis import Rounding
from scantling.stock.fill import Demand
from scantling.stock.master import Column, Master, column_of
from scantling.stock.pattern import Pattern, Spot
from scantling.stock.pricer import Pricer
from scantling.stock.problem import Problem
from scantling.stock.search import Plan, plan_of
from scantling.stock.shapes import Duals

__all__ = ["Generator", "plan_of_columns"]

EPSILON = 1e-7


def _still_wanted(spot: Spot, problem: Problem, demand: Demand) -> bool:
    """Whether a spot is still wanted; spends it, and narrows a panel strip to what the panel lacks."""
    base = len(problem.kinds)
    if spot.kind < base:
        demand.counts[spot.kind] -= 1
        return demand.counts[spot.kind] >= 0
    panel = spot.kind - base
    need = problem.panels[panel]
    if demand.widths[panel] <= 0 or demand.strips[panel] <= 0:
        return False
    spot.width = max(need.least, min(spot.width, demand.widths[panel] + need.loss))
    demand.widths[panel] = max(0, demand.widths[panel] - (spot.width - need.loss))
    demand.strips[panel] -= 1
    return True


def _keep(pattern: Pattern, problem: Problem, demand: Demand) -> Pattern:
    """The pattern without blanks that are already there, panel strips no wider than still needed."""
    for segment in pattern.segments:
        for strip in segment.strips:
            strip.spots = [spot for spot in strip.spots if _still_wanted(spot, problem, demand)]
            strip.width = max((s.y + s.width for s in strip.spots), default=strip.y) - strip.y
        segment.strips = [s for s in segment.strips if s.spots]
    pattern.segments = [s for s in pattern.segments if s.strips]
    return pattern


def _split_wishes(problem: Problem, patterns: list[Pattern]) -> set[str]:
    """Wishes for one board that these patterns do not grant."""
    homes: dict[str, set[int]] = {}
    base = len(problem.kinds)
    for pattern in patterns:
        for spot in pattern.spots():
            wish = (
                problem.kinds[spot.kind].same_board
                if spot.kind < base
                else problem.panels[spot.kind - base].panel.same_board
            )
            if wish:
                homes.setdefault(wish, set()).add(pattern.stock)
    return {wish for wish, boards in homes.items() if len(boards) > 1}


def plan_of_columns(problem: Problem, columns: Iterable[Column]) -> Plan | None:
    """A plan from one pattern a board: every blank once, panels no wider than asked.

    Returns None where blanks that must share a board would not.
    """
    demand = Demand.of(problem)
    patterns = [_keep(deepcopy(c.pattern), problem, demand) for c in sorted(columns, key=lambda c: -c.cost)]
    demand.counts = [max(0, count) for count in demand.counts]
    patterns = [p for p in patterns if p.segments]
    if problem.groups and _split_wishes(problem, patterns):
        return None
    return plan_of(problem, patterns, demand)


@dataclass(slots=True)
class Generator:
    """Column generation on one problem, step by step.

    Each step prices some of the boards in turn; once a whole turn has brought nothing new, all are priced for
    the bound.
    """

    problem: Problem
    master: Master
    pricer: Pricer
    cap: int
    bound: float = field(default=float("-inf"))
    converged: bool = False
    turn: int = 0
    barren: int = 0
    for_bound: Pricer | None = None
    """Prices with sizes rounded down, made when it is first wanted."""

    @classmethod
    def of(cls, problem: Problem, *, cap: int = 120) -> Generator:
        """Set up the master problem and the positions."""
        pricer = Pricer.of(problem, rounding=Rounding.CUTTABLE, cap=cap)
        return cls(problem=problem, master=Master.of(problem), pricer=pricer, cap=cap)

    def start(self) -> None:
        """First columns for every board: worths by area, at the mean price of the rack and a usual yield."""
        stocks = self.problem.stocks
        rate = sum(s.cost for s in stocks) / max(1, sum(s.area for s in stocks)) / 0.7
        duals = Duals(
            kinds=np.array([rate * k.area for k in self.problem.kinds]),
            widths=np.array([rate * n.length for n in self.problem.panels]),
            strips=np.zeros(len(self.problem.panels)),
        )
        _, patterns = self.pricer.price(duals, patterns=True)
        for pattern in patterns.values():
            self.master.add(column_of(self.problem, pattern))

    def learn(self, plan: Plan) -> None:
        """Take in the patterns of a plan."""
        for pattern in plan.patterns:
            self.master.add(column_of(self.problem, pattern))

    def _batch(self) -> frozenset[int]:
        """The next boards to price: a dozen, or a quarter of the rack."""
        count = len(self.problem.stocks)
        size = min(count, max(12, count // 4))
        batch = frozenset((self.turn + n) % count for n in range(size))
        self.turn = (self.turn + size) % count
        return batch

    def step(self) -> None:
        """One round: worths from the master, best patterns of some boards for them."""
        _, duals = self.master.solve()
        batch = self._batch()
        worths, patterns = self.pricer.price(duals, patterns=True, only=batch)
        if len(batch) == len(worths) and self.pricer.exact:
            self.bound = max(self.bound, self.master.lagrangian_bound(duals, worths))
        fresh = sum(self._take(stock, worths[stock], pattern) for stock, pattern in patterns.items())
        self.barren = 0 if fresh else self.barren + len(batch)
        if self.barren >= len(worths):
            self.converged = True
            self.prove()

    def _take(self, stock: int, worth: float, pattern: Pattern) -> bool:
        if worth - self.problem.stocks[stock].cost <= EPSILON:
            return False
        return self.take(stock, pattern)

    def take(self, stock: int, pattern: Pattern) -> bool:
        """Take in a pattern of a board; False where one like it is there."""
        assert pattern.stock == stock, "a pattern knows its board"
        return self.master.add(column_of(self.problem, pattern))

    def proof_due(self, number: int) -> bool:
        """Whether to prove a bound after a step, before nothing helps any more.

        Worths are near their last value after one or two turns through the boards, and so is the bound.
        Boards priced all at once give one at every step.
        """
        turn = -(-len(self.problem.stocks) // 12)
        return turn > 1 and not self.converged and (number == turn or number % (2 * turn) == 0)

    def prove(self) -> None:
        """The bound: price every board, sizes rounded down where positions were left out."""
        pricer = self.pricer
        if not pricer.exact:
            if self.for_bound is None:
                self.for_bound = Pricer.of(self.problem, rounding=Rounding.BOUND, cap=self.cap)
            pricer = self.for_bound
        _, duals = self.master.solve()
        worths, _ = pricer.price(duals, patterns=False)
        self.bound = max(self.bound, self.master.lagrangian_bound(duals, worths))

    def stir(self, rng: Random) -> None:
        """More patterns of some boards, for worths a little off those of the master."""
        _, duals = self.master.solve()
        shaken = Duals(
            kinds=duals.kinds * np.array([rng.uniform(0.75, 1.2) for _ in duals.kinds]),
            widths=duals.widths * np.array([rng.uniform(0.75, 1.2) for _ in duals.widths]),
            strips=duals.strips,
        )
        _, patterns = self.pricer.price(shaken, patterns=True, only=self._batch())
        for pattern in patterns.values():
            self.master.add(column_of(self.problem, pattern))

    def choose(
        self, *, nodes: int, seconds: float | None, complete: bool, only: Set[int] | None = None
    ) -> Plan | None:
        """The best plan whole patterns give; ``complete`` allows none that leaves a blank out."""
        chosen = self.master.choose(nodes=nodes, seconds=seconds, complete=complete, only=only)
        return plan_of_columns(self.problem, chosen) if chosen else None

    def run(self, steps: int) -> Iterator[None]:
        """Steps until nothing helps, one at a time."""
        for _ in range(steps):
            if self.converged:
                return
            self.step()
            yield
