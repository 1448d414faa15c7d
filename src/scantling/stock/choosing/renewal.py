"""Plans made better a few boards at a time: what they hold is priced anew and chosen anew.

References
----------
.. [1] Shaw, "Using constraint programming and local search methods to solve vehicle routing problems",
   Principles and Practice of Constraint Programming (1998) 417-431: a part of a plan is freed and solved
   again.
.. [2] Dueck, "New optimization heuristics: the great deluge algorithm and the record-to-record travel",
   Journal of Computational Physics 104 (1993) 86-92: a plan little worse than the best is gone on from.
"""

from __future__ import annotations

from collections.abc import Set
from dataclasses import dataclass, field, replace
from random import Random

import numpy as np
from numpy.typing import NDArray

from scantling.stock.choosing.columns import Generator, is_split
from scantling.stock.choosing.rest import Pool, Rest, RestAnswer
from scantling.stock.handrules.fill import Demand
from scantling.stock.handrules.refill import kept, refilled
from scantling.stock.handrules.search import Plan, allowed_order, plan_of
from scantling.stock.handrules.wanting import demand_left
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem
from scantling.stock.question.shapes import Duals

__all__ = ["Renewal"]

Free = NDArray[np.bool_]
EPSILON = 1e-6
WORSE = 0.006
"""Share of its cost by which a plan may be worse than the best and still be gone on from."""
MOST_COLUMNS = 200
"""Patterns to choose from."""
PATIENCE = 30
"""Attempts in vain before going back to the best plan, with more boards freed."""


@dataclass(slots=True)
class Renewal:
    """Local search over complete plans with the patterns of a generator."""

    generator: Generator
    rng: Random
    best: Plan
    """Best plan known; complete."""
    patience_s: float | None = None
    """Time one choice of patterns may take; None leaves it to the number of nodes. [s]"""
    pool: Pool = field(init=False)
    current: Plan = field(init=False)
    size: int = 3
    vain: int = 0

    def __post_init__(self) -> None:
        self.pool = self.generator.pool
        self.current = self.best

    @property
    def problem(self) -> Problem:
        """The question."""
        return self.generator.problem

    def take(self, plan: Plan) -> None:
        """Go on from a better plan found elsewhere."""
        if plan.rank < self.best.rank:
            self.best = self.current = plan

    def attempt(self) -> Plan | None:
        """Free some boards and lay out anew what they held; the plan where it is the best so far."""
        patterns = self.current.patterns
        if not patterns:
            return None
        freed = self._freed(min(self.size, len(patterns)))
        rest = [p for n, p in enumerate(patterns) if n not in freed]
        free = np.ones(len(self.problem.stocks), dtype=bool)
        free[[p.stock for p in rest]] = False
        limit = self.current.cost - EPSILON
        if self.rng.random() < 0.4:
            free[patterns[self.rng.choice(freed)].stock] = False
            limit = self.best.cost * (1.0 + WORSE)
        plan = self._solved(rest, free, below=limit)
        self.vain += 1
        if plan is not None and plan.cost < limit:
            self.current = plan
        if plan is not None and plan.rank < self.best.rank:
            self.best, self.vain = plan, 0
            return plan
        if self.vain >= PATIENCE:
            self.current, self.vain = self.best, 0
            self.size = self.size + 1 if self.size < min(7, len(self.best.patterns)) else 2
        return None

    def _freed(self, count: int) -> list[int]:
        """Numbers of boards to free: at random, the emptier ones more often."""
        patterns = self.current.patterns
        stocks = self.problem.stocks
        waste = [1.0 - p.area / max(1, stocks[p.stock].area) for p in patterns]
        keys = [self.rng.random() ** (1.0 / (0.1 + w)) for w in waste]
        return sorted(range(len(patterns)), key=lambda n: -keys[n])[:count]

    def widen(self, *, steps: int) -> None:
        """More patterns for all that is wanted, no blank in one more often than it is."""
        free = np.ones(len(self.problem.stocks), dtype=bool)
        self.priced(Demand.of(self.problem), free, below=float("inf"), steps=steps)

    def shake(self, boards: frozenset[int]) -> None:
        """More patterns of some boards, for worths a little off those that all of them say."""
        free = np.zeros(len(self.problem.stocks), dtype=bool)
        free[list(boards)] = True
        demand = Demand.of(self.problem)
        duals = Rest.of(self.pool, demand, free).solve().duals
        luck = [self.rng.uniform(0.7, 1.3) for _ in duals.kinds]
        shaken = replace(duals, kinds=duals.kinds * np.array(luck))
        self._price(shaken, demand, boards)

    def whole(self, *, nodes: int) -> Plan | None:
        """A better plan among all the patterns known."""
        free = np.ones(len(self.problem.stocks), dtype=bool)
        rest = Rest.of(self.pool, Demand.of(self.problem), free)
        answer = rest.solve()
        return self.chosen(rest, answer, [], below=self.best.cost - EPSILON, nodes=nodes)

    def _solved(self, settled: list[Pattern], free: Free, *, below: float) -> Plan | None:
        """The best plan found that has some patterns settled, for less than a cost."""
        cost = sum(self.problem.stocks[p.stock].cost for p in settled)
        demand = demand_left(self.problem, settled)
        found = self.priced(demand, free, below=below - cost, steps=3)
        if found is None:
            return None
        return self.chosen(*found, settled, below=below - cost, nodes=60)

    def priced(
        self, demand: Demand, free: Free, *, below: float, steps: int
    ) -> tuple[Rest, RestAnswer] | None:
        """New patterns for what is left; None where even parts of boards would cost too much."""
        boards = frozenset(np.flatnonzero(free).tolist())
        for step in range(steps):
            rest = Rest.of(self.pool, demand, free)
            answer = rest.solve()
            if step == steps - 1:
                break
            fresh = self._price(answer.duals, demand, boards)
            if not fresh or step == steps - 2:
                used = rest.columns[answer.shares > EPSILON]
                fresh += self._price_exactly(answer.duals, demand, set(self.pool.stocks[used].tolist()))
            if not fresh:
                break
        return None if answer.value >= below else (rest, answer)

    def _price(self, duals: Duals, demand: Demand, boards: frozenset[int]) -> int:
        """Price some boards for some of the needs; how many patterns were new."""
        generator = self.generator
        counts = [*demand.counts, *demand.strips]
        fresh = 0
        for stock, (worth, pattern) in generator.quick.price(duals, only=boards, counts=counts).items():
            if worth - self.problem.stocks[stock].cost > EPSILON:
                fresh += generator.take(stock, self._refilled(pattern, demand.copy()))
        return fresh

    def _price_exactly(self, duals: Duals, demand: Demand, boards: Set[int]) -> int:
        """The same for a few boards, by the best pattern of all."""
        generator = self.generator
        if not generator.sharp:
            return 0
        counts = [*demand.counts, *demand.strips]
        worths, patterns = generator.pricer.price(
            duals, patterns=True, only=boards, counts=counts, floors=generator.floors(duals, counts)
        )
        return sum(
            generator.take(stock, self._refilled(pattern, demand.copy()))
            for stock, pattern in patterns.items()
            if worths[stock] - self.problem.stocks[stock].cost > EPSILON
        )

    def _refilled(self, pattern: Pattern, demand: Demand) -> Pattern:
        """A pattern brought down to a demand and filled up, which is spent."""
        base = len(self.problem.kinds)
        order = allowed_order(self.problem, pattern.stock, demand)
        key = {
            k: -(self.problem.kinds[k].area if k < base else self.problem.panels[k - base].length)
            * self.rng.uniform(0.8, 1.25)
            for k, _ in order
        }
        order.sort(key=lambda pair: key[pair[0]])
        return refilled(pattern, self.problem, demand, order)

    def chosen(
        self, rest: Rest, answer: RestAnswer, settled: list[Pattern], *, below: float, nodes: int
    ) -> Plan | None:
        """The best whole patterns for what is left, with those settled."""
        columns = rest.choose(answer, below=below, nodes=nodes, seconds=self.patience_s, most=MOST_COLUMNS)
        if not columns:
            return None
        demand = demand_left(self.problem, settled)
        chosen = [kept(c.pattern, self.problem, demand) for c in sorted(columns, key=lambda c: -c.cost)]
        return self.plan([*settled, *(p for p in chosen if p.segments)])

    def plan(self, patterns: list[Pattern]) -> Plan | None:
        """A plan of patterns; None where it leaves something out or breaks a wish for one board."""
        demand = demand_left(self.problem, patterns)
        if not demand.met or is_split(self.problem, patterns):
            return None
        return plan_of(self.problem, patterns, demand)
