"""The search on one independent part of a rack: hand rules, then patterns priced by worth, then repairs.

Every step is one round; what a step does depends on the problem, the seed and the steps before it alone.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Iterator
from collections.abc import Generator as Steps
from dataclasses import dataclass, field
from enum import StrEnum
from random import Random
from typing import TYPE_CHECKING, cast

from scantling.stock.bounds.bound import CostBound, area_bound, next_price_sum
from scantling.stock.handrules.search import Candidate, Plan, build_plan, first_candidates, improve
from scantling.stock.question.problem import Problem
from scantling.stock.solving.balance import FIRST_SHARE, SHARE, Balance
from scantling.stock.solving.doing import Doing

if TYPE_CHECKING:
    from scantling.stock.bounds.boardsets import BoardSets
    from scantling.stock.bounds.gridbound import GridState
    from scantling.stock.choosing.columns import Generator

__all__ = ["Engine", "Method"]

EPSILON = 1e-6
BOARDS_A_ROUND = 500
"""Boards priced quickly in one round."""
MANY_BOARDS = 40
"""With more boards and a limit in seconds the first layout goes by worth."""
NEW_COLUMNS = 400
"""New patterns that make another choice among all of them worth while."""


class Method(StrEnum):
    """How hard to search."""

    QUICK = "quick"
    THOROUGH = "thorough"
    PAIRED = "paired"
    """As thorough, the bound and better layouts side by side (:mod:`scantling.stock.solving.paired`)."""


def _ended(steps: Steps[None, None, Plan | None]) -> Plan | None:
    """What comes of some steps, made one after the other."""
    while True:
        try:
            next(steps)
        except StopIteration as end:
            return cast("Plan | None", end.value)


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
    sets: BoardSets | None = None
    """Which boards to cut, once the linear program is solved."""
    grid: GridState | None = None
    """How far the bound from a grid has come: there long before the exact one where there are many sizes."""
    priced: int = 0
    """Exact steps made for the bound."""

    def __post_init__(self) -> None:
        self.bound = area_bound(self.problem)
        self.current = next(first_candidates(self.problem))
        self.best = self.current_plan = build_plan(self.problem, self.current)

    @property
    def doing(self) -> Doing:
        """What the search is at."""
        return Doing.BOTH

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
        from scantling.stock.choosing.columns import Generator

        generator = Generator.of(self.problem)
        generator.start()
        for candidate in first_candidates(self.problem):
            generator.learn(build_plan(self.problem, candidate))
        if self.patience_s is not None and len(self.problem.stocks) > MANY_BOARDS and not self.problem.groups:
            yield from self._by_worth(generator)
        generator.learn(self.best)
        priced = 0
        for _ in generator.quick_run(60 if self.patience_s is not None else 20):
            priced += len(self.problem.stocks)
            if priced > BOARDS_A_ROUND:
                priced = 0
                yield
        if not self.complete:
            self._choose(generator, nodes=20)
        yield from self._refine(generator)

    def _by_worth(self, generator: Generator) -> Iterator[None]:
        """Board after board by what each gives for its price: better than hand rules where there are many."""
        from scantling.stock.handrules.byworth import laid_by_worth

        for plan in laid_by_worth(self.problem, generator.quick):
            if plan is not None:
                generator.learn(plan)
                self.offer(plan)
            yield

    @property
    def _choice_s(self) -> float | None:
        """Time one choice of patterns may take, which is by the clock on the wall. [s]

        Where the caller counts otherwise, the number of nodes alone limits it.
        """
        return self.patience_s if self.patience_s is None or self.clock is time.monotonic else math.inf

    @property
    def complete(self) -> bool:
        """Whether the best plan leaves nothing out."""
        return self.best.missing.met

    def _choose(self, generator: Generator, *, nodes: int) -> None:
        self.offer(generator.choose(nodes=nodes, seconds=self._choice_s, complete=self.complete))

    def _raise_bound(self, value: float) -> None:
        """Take in a proven value; a complete layout costs a sum of board prices, so the next such counts."""
        costs = [s.cost for s in self.problem.stocks]
        short = value > sum(costs) + EPSILON
        if not short:
            value = next_price_sum(costs, value)
        if value > self.bound.cost:
            self.bound = CostBound(cost=value, short=short)

    def _refine(self, generator: Generator) -> Iterator[None]:
        """Steps for the bound and for better plans in turn, for as long as the caller likes."""
        balance = Balance(None if self.patience_s is None else self.clock)
        bounding, bettering = self.bounding(generator), self.bettering(generator)
        number = 0
        while not self.proven:
            balance.share = SHARE if self.sets is not None else FIRST_SHARE
            if balance.proving_is_due:
                number += 1
                with balance.proving:
                    ended = next(bounding, self) is self
                if ended:
                    balance.proved()
            elif not self.complete:
                self._stir(generator, number)
            else:
                with balance.bettering:
                    next(bettering)
            if balance.round_is_over:
                yield
        yield

    def bounding(self, generator: Generator) -> Iterator[None]:
        """Exact steps until none helps; then sets of boards, and finer positions for the bound."""
        if self.grid_first:
            yield from self._on_grid()
        while not generator.converged:
            self.priced += 1
            generator.step()
            if generator.proof_due(self.priced):
                generator.prove()
            self._raise_bound(generator.bound)
            yield
        if not self.complete:
            return
        yield from self._choose_boards(generator)
        while self.patience_s is not None:
            begun = self.clock()
            if not generator.sharpen():
                return
            self._raise_bound(generator.bound)
            if 4.0 * (self.clock() - begun) > self.patience_s:
                return
            yield

    @property
    def grid_first(self) -> bool:
        """Whether the bound comes from a grid first: by the clock, on many boards and of many sizes."""
        from scantling.stock.choosing.columns import few_sizes

        many = len(self.problem.stocks) > MANY_BOARDS and not few_sizes(self.problem)
        return self.patience_s is not None and many and not self.problem.panels

    def _on_grid(self) -> Iterator[None]:
        """The bound with every size rounded down to a grid."""
        from scantling.stock.bounds.gridbound import GridState, GridTask, grid_worked

        self.grid = self.grid or GridState()
        while not self.grid.ended:
            self.take_grid(grid_worked(GridTask(problem=self.problem, state=self.grid, clock=self.clock)))
            yield

    def take_grid(self, state: GridState) -> None:
        """Take in how far the bound from a grid has come."""
        self.grid = state
        self._raise_bound(min(state.bound, self.best.cost))

    def bettering(self, generator: Generator, *, begun: bool = False, finely: bool = False) -> Iterator[None]:
        """Better plans, one attempt after the other; now and then a choice among all patterns.

        Parameters
        ----------
        generator
            Prices, and keeps the patterns.
        begun
            Whether the patterns are those of a search that has made its first choice among them.
        finely
            Whether to yield within a long attempt as well.
        """
        from scantling.stock.choosing.renewal import Renewal
        from scantling.stock.solving.setfilling import SetFilling

        renewal = Renewal(generator=generator, rng=self.rng, best=self.best, patience_s=self._choice_s)
        known, filling, number = len(generator.master.columns), None, 0
        if not begun:
            known = 0
            renewal.widen(steps=4 if self.patience_s is not None else 2)
        while True:
            renewal.take(self.best)
            number += 1
            if filling is None and self.sets is not None:
                filling = SetFilling(renewal=renewal, sets=self.sets, judges=not finely)
            if filling is not None and not filling.done and number % 2:
                attempt = filling.attempt()
                self.offer((yield from attempt) if finely else _ended(attempt))
            elif len(generator.master.columns) > known + NEW_COLUMNS:
                known = len(generator.master.columns)
                self.offer(renewal.whole(nodes=20))
            else:
                self.offer(renewal.attempt())
            yield

    def _stir(self, generator: Generator, number: int) -> None:
        """Look for a plan that leaves nothing out."""
        generator.stir(self.rng)
        if number % 4 == 0 or generator.converged:
            self._choose(generator, nodes=50)
        for _ in range(20):
            self._shuffle_once()

    def _choose_boards(self, generator: Generator) -> Iterator[None]:
        """Rule out sets of boards, the cheapest first, one a time."""
        from scantling.stock.bounds.boardsets import BoardSets

        if self.sets is None:
            self.sets = BoardSets.of(generator)
        sets = self.sets
        while not sets.settled and not self.proven:
            sets.step()
            self._raise_bound(min(sets.bound, self.best.cost))
            yield
