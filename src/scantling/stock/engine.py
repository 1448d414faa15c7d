"""The search on one independent part of a rack: hand rules, then patterns priced by worth, then repairs.

Every step is one round; what a step does depends on the problem, the seed and the steps before it alone.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from random import Random
from typing import TYPE_CHECKING

from scantling.stock.bound import CostBound, area_bound, next_price_sum
from scantling.stock.fill import Demand
from scantling.stock.pattern import Pattern
from scantling.stock.problem import Problem
from scantling.stock.search import Candidate, Plan, build_plan, first_candidates, improve, plan_of
from scantling.stock.subproblem import restrict

if TYPE_CHECKING:
    from scantling.stock.columns import Generator

__all__ = ["Engine", "Method"]

EPSILON = 1e-6


class Method(StrEnum):
    """How hard to search."""

    QUICK = "quick"
    THOROUGH = "thorough"


@dataclass(slots=True)
class Engine:
    """State of the search on one problem."""

    problem: Problem
    rng: Random
    method: Method
    patience_s: float | None = None
    """Time one choice of patterns may take; None leaves it to the number of nodes. [s]"""
    clock: Callable[[], float] = time.monotonic
    best: Plan = field(init=False)
    bound: CostBound = field(init=False)
    current: Candidate = field(init=False)
    current_plan: Plan = field(init=False)

    def __post_init__(self) -> None:
        self.bound = area_bound(self.problem)
        self.current = next(first_candidates(self.problem))
        self.best = self.current_plan = build_plan(self.problem, self.current)

    @property
    def proven(self) -> bool:
        """Whether nothing better exists."""
        return self.best.cost - self.bound.cost <= EPSILON * max(1.0, self.best.cost)

    def offer(self, plan: Plan | None) -> bool:
        """Keep a plan if it is better."""
        if plan is not None and plan.rank < self.best.rank:
            self.best = plan
            return True
        return False

    def rounds(self) -> Iterator[None]:
        """One round a time, for as long as the caller likes or until the best plan is proven."""
        if not self.problem.stocks:
            self.bound = CostBound(cost=self.best.cost, short=True)
            yield
            return
        for candidate in first_candidates(self.problem):
            if self.offer(build_plan(self.problem, candidate)):
                self.current = candidate
        self.current_plan = self.best
        for _ in range(30):
            self._shuffle_once()
        yield
        if self.proven:
            return
        if self.method is Method.QUICK:
            yield from self._shuffle()
            return
        yield from self._generate()

    def _shuffle(self) -> Iterator[None]:
        """Hand rules in other orders."""
        while not self.proven:
            self._shuffle_once()
            yield

    def _shuffle_once(self) -> None:
        candidate = improve(self.current, self.rng)
        plan = build_plan(self.problem, candidate)
        if plan.rank <= self.current_plan.rank:
            self.current, self.current_plan = candidate, plan
            self.offer(plan)

    def _generate(self) -> Iterator[None]:
        """Column generation on the whole, then repairs of a few boards at a time."""
        from scantling.stock.columns import Generator

        generator = Generator.of(self.problem)
        generator.start()
        for candidate in first_candidates(self.problem):
            generator.learn(build_plan(self.problem, candidate))
        generator.learn(self.best)
        if self.patience_s is None:
            self._choose(generator, nodes=10)
        due = self._choice_due()
        for number, _ in enumerate(generator.run(200), start=1):
            if generator.proof_due(number):
                generator.prove()
            self._raise_bound(generator.bound)
            if generator.converged:
                self._choose(generator, nodes=200)
            elif due(number):
                self._choose(generator, nodes=20)
            yield
            if self.proven:
                return
        yield from self._repair(generator)

    def _choice_due(self) -> Callable[[int], bool]:
        """When whole patterns are chosen before the prices have settled, given the number of the step.

        Where only rounds count, after every second turn through the boards. Where time counts, a choice may
        take longer than all the steps it interrupts, and the bound waits for them: so only once most of the
        time the steps may take is gone.
        """
        if self.patience_s is None:
            turn = 2 * -(-len(self.problem.stocks) // 12)
            return lambda number: number % turn == 0
        last, wait = self.clock(), 2.5 * self.patience_s

        def due(_number: int) -> bool:
            nonlocal last
            if self.clock() - last < wait:
                return False
            last = self.clock()
            return True

        return due

    @property
    def complete(self) -> bool:
        """Whether the best plan leaves nothing out."""
        return self.best.missing.met

    def _choose(self, generator: Generator, *, nodes: int) -> None:
        seconds = None if self.patience_s is None else self.patience_s
        self.offer(generator.choose(nodes=nodes, seconds=seconds, complete=self.complete))

    def _raise_bound(self, value: float) -> None:
        """Take in a proven value; a complete layout costs a sum of board prices, so the next such counts."""
        costs = [s.cost for s in self.problem.stocks]
        short = value > sum(costs) + EPSILON
        if not short:
            value = next_price_sum(costs, value)
        if value > self.bound.cost:
            self.bound = CostBound(cost=value, short=short)

    def _repair(self, generator: Generator) -> Iterator[None]:
        """Free a few boards and what lies on them, and lay that out anew; now and then choose over again."""
        number = 0
        tree = self._branch(generator)
        while not self.proven:
            number += 1
            for _ in range(4):
                next(tree, None)
            if self.proven:
                yield
                return
            if number % 2:
                generator.stir(self.rng)
            else:
                plan = self._renew(size=2 + number // 2 % 4)
                self.offer(plan)
                if plan is not None:
                    generator.learn(plan)
            if number % 8 == 0:
                self._choose(generator, nodes=100)
            yield

    def _branch(self, generator: Generator) -> Iterator[None]:
        """Branch over the boards of a small rack, one node a time; raises the bound and offers layouts."""
        from scantling.stock.branching import MOST_BOARDS, BoardTree

        if not self.complete or len(self.problem.stocks) > MOST_BOARDS or not generator.pricer.exact:
            return
        tree = BoardTree(generator)
        while tree.open and tree.open[0].bound < self.best.cost - EPSILON:
            boards = next(tree.explore(self.best.cost), None)
            if boards:
                seconds = self.patience_s
                self.offer(generator.choose(nodes=20, seconds=seconds, complete=True, only=boards))
            value = tree.bound(self.best.cost)
            if value > self.bound.cost:
                self.bound = CostBound(cost=value, short=False)
            yield
        value = tree.bound(self.best.cost)
        self.bound = CostBound(cost=max(value, self.bound.cost), short=False)

    def _renew(self, *, size: int) -> Plan | None:
        """Lay out anew what a few of the boards hold."""
        from scantling.stock.columns import Generator

        problem, rng = self.problem, self.rng
        freed = rng.sample(range(len(self.best.patterns)), min(size, len(self.best.patterns)))
        kept = [p for n, p in enumerate(self.best.patterns) if n not in freed]
        used = {p.stock for p in kept}
        old = [self.best.patterns[n].stock for n in freed]
        others = [s for s in range(len(problem.stocks)) if s not in used and s not in old]
        rng.shuffle(others)
        demand = demand_left(problem, kept)
        part = restrict(problem, sorted(old + others[: 3 + size]), demand)
        inner = Generator.of(part.problem, cap=160)
        inner.start()
        for candidate in first_candidates(part.problem):
            inner.learn(build_plan(part.problem, candidate))
        for _ in inner.run(15):
            pass
        found = inner.choose(nodes=60, seconds=self.patience_s, complete=self.complete)
        if found is None:
            return None
        patterns = kept + [part.lift(p) for p in found.patterns]
        return plan_of(problem, patterns, demand_left(problem, patterns))


def demand_left(problem: Problem, patterns: list[Pattern]) -> Demand:
    """What patterns leave wanting."""
    demand = Demand.of(problem)
    base = len(problem.kinds)
    for pattern in patterns:
        for spot in pattern.spots():
            if spot.kind < base:
                demand.counts[spot.kind] -= 1
            else:
                panel = spot.kind - base
                width = spot.width - problem.panels[panel].loss
                demand.widths[panel] = max(0, demand.widths[panel] - width)
                demand.strips[panel] -= 1
    return demand
