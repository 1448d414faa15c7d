"""Laying everything out on a given set of boards: pattern after pattern is settled, the rest priced anew.

Sets of boards come from :mod:`scantling.stock.bounds.boardsets`, those first that can give a little more than
is needed: such a set is easier to fill. Where none of them is cheaper than the best plan, less is asked for.

References
----------
.. [1] Sadykov, Vanderbeck, Pessoa, Tahiri, Uchoa, "Primal heuristics for branch and price: the assets of
   diving methods", INFORMS Journal on Computing 31 (2019) 251-267.
"""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from scantling.stock.bounds.boardsets import BoardSets, cheapest_set
from scantling.stock.choosing.renewal import Renewal
from scantling.stock.choosing.rest import Rest, RestAnswer
from scantling.stock.handrules.refill import kept
from scantling.stock.handrules.search import Plan
from scantling.stock.handrules.wanting import demand_left
from scantling.stock.question.pattern import Pattern

__all__ = ["Dive", "SetFilling"]

EPSILON = 1e-6
FIRST_EXCESS = 0.03
"""Share of what is needed that the first sets can give on top of it."""
LESS = 0.005
FEW_BOARDS, SOME_BOARDS = 3, 6
"""So many boards are chosen for at once, not one after the other; and so many in a first attempt."""
TRIED = 4
"""Patterns tried one instead of the other."""
SHAKES = 4
"""Times more patterns are looked for when all sets have been tried once; twice as many the next time."""
NODES = 10
"""Linear programs solved for one set at first; twice as many each time all sets were tried."""


@dataclass(slots=True)
class Dive:
    """A search for a plan that cuts none but some boards, for less than a sum.

    Parameters
    ----------
    renewal
        Prices and chooses, and keeps the patterns.
    below
        The sum. [money]
    nodes
        Linear programs that may still be solved.
    shakes
        How often patterns are priced for worths a little off before.
    """

    renewal: Renewal
    below: float
    nodes: int
    shakes: int = 0

    def into(self, boards: frozenset[int]) -> Generator[None, None, Plan | None]:
        """The first plan found; None where none was. Yields after every linear program."""
        free = np.zeros(len(self.renewal.problem.stocks), dtype=bool)
        free[list(boards)] = True
        for _ in range(self.shakes):
            self.renewal.shake(boards)
            yield
        return (yield from self._on([], free))

    def _on(self, settled: list[Pattern], free: NDArray[np.bool_]) -> Generator[None, None, Plan | None]:
        """The first plan found that has some patterns settled and cuts the others from what is free."""
        renewal, problem = self.renewal, self.renewal.problem
        demand = demand_left(problem, settled)
        if demand.met:
            return renewal.plan(settled)
        if not free.any():
            return None
        self.nodes -= 1
        left = self.below - sum(problem.stocks[p.stock].cost for p in settled)
        found = renewal.priced(demand, free, below=left, steps=4)
        yield
        if found is None:
            return None
        rest, answer = found
        used = np.unique(rest.pool.stocks[rest.columns[answer.shares > EPSILON]])
        if min(int(free.sum()), len(used)) <= (FEW_BOARDS if settled else SOME_BOARDS):
            plan = renewal.chosen(rest, answer, settled, below=left, nodes=60)
            if plan is not None or free.sum() < FEW_BOARDS:
                return plan
        for pattern in self._candidates(rest, answer, settled):
            if self.nodes <= 0:
                return None
            others = free.copy()
            others[pattern.stock] = False
            plan = yield from self._on([*settled, pattern], others)
            if plan is not None:
                return plan
        return None

    def _candidates(self, rest: Rest, answer: RestAnswer, settled: list[Pattern]) -> list[Pattern]:
        """Patterns to settle next: those the linear program cuts most of, with some chance."""
        problem, rng = self.renewal.problem, self.renewal.rng
        luck = answer.shares * np.array([rng.uniform(0.5, 1.0) for _ in answer.shares])
        some = [n for n in np.argsort(-luck)[:TRIED].tolist() if answer.shares[n] > EPSILON]
        demand = demand_left(problem, settled)
        return [kept(rest.pool.columns[rest.columns[n]].pattern, problem, demand.copy()) for n in some]


@dataclass(slots=True)
class SetFilling:
    """Attempts at sets of boards cheaper than the best plan."""

    renewal: Renewal
    sets: BoardSets
    excess: float = FIRST_EXCESS
    passed: list[frozenset[int]] = field(default_factory=list)
    """Sets tried in vain since all sets were tried last."""
    turn: int = 0
    """How often all sets cheaper than the best plan were tried."""
    judges: bool = True
    """Whether a set is first asked if it could hold everything in parts: exact, and slow for large boards.
    Where another half raises the bound by the clock, that one asks."""
    done: bool = False
    """Whether there is no such set."""

    def attempt(self) -> Generator[None, None, Plan | None]:
        """Look at the next set; the plan where it is the best so far. Yields now and then."""
        best = self.renewal.best.cost - EPSILON
        boards = self._next(best)
        if boards is None or (self.judges and self.sets.judge(boards) is False):
            return None
        nodes, shakes = NODES << min(self.turn, 8), SHAKES * self.turn
        yield
        dive = Dive(renewal=self.renewal, below=best, nodes=nodes, shakes=shakes)
        plan = yield from dive.into(boards)
        if plan is None:
            self.passed.append(boards)
        return plan

    def _next(self, best: float) -> frozenset[int] | None:
        """The next set cheaper than the best plan; None where all have been tried."""
        while True:
            value, boards = cheapest_set(
                self.sets.costs, self.sets.covers, excess=self.excess, passed=self.passed
            )
            if boards is not None and value < best:
                return boards
            if self.excess <= 0.0:
                self.done = not self.passed
                self.passed.clear()
                self.excess, self.turn = FIRST_EXCESS, self.turn + 1
                return None
            self.excess = max(0.0, self.excess - LESS)
