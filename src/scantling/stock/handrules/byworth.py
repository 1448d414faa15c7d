"""A first layout of many boards: always that board next which gives most for its price.

What a board can give is its best pattern by quick pricing, its blanks counted by their faces, large ones a
little more, so that they are not left over for the end. As blanks are placed, no board can give more than
before: what was worked out earlier is a ceiling, and only the few boards that seem best are priced anew.

References
----------
.. [1] Minoux, "Accelerated greedy algorithms for maximizing submodular set functions", Optimization
   Techniques, Lecture Notes in Control and Information Sciences 7 (1978) 234-243: what was worked out
   before serves as a ceiling.
.. [2] Haessler, "A heuristic programming solution to a nonlinear cutting stock problem", Management Science
   17 (1971) B793-B802: patterns settled one after the other, those first that use what is hard to place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray

from scantling.stock.handrules.fill import Demand
from scantling.stock.handrules.refill import kept, refilled
from scantling.stock.handrules.search import Plan, allowed_order, plan_of
from scantling.stock.handrules.wanting import demand_left
from scantling.stock.pricing.quickpricer import QuickPricer
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem
from scantling.stock.question.shapes import Duals

__all__ = ["laid_by_worth", "worths_by_face"]

LARGE_FIRST = 0.1
"""A blank twice as large is worth so many powers of two more than twice as much: 1.0, 1.2 and 1.3 cost more
wood on racks of 80 and 160 boards."""
BATCH = 8
"""Boards priced anew at a time; on large racks one in so many."""
SHARE = 30
AS_GOOD, STILL = 0.97, 0.99
"""A board settled together with a better one gives so much of what that one does for its price; and no board
is settled that gives less than this share of what another might."""
WHOLE = 0.95
"""Share of its blanks that must still be wanted for a pattern to be settled together with a better one."""


def worths_by_face(problem: Problem) -> Duals:
    """What each need is worth: its face, in square meters, of large ones a little more."""
    faces = np.array(
        [k.area for k in problem.kinds] + [n.length * n.least for n in problem.panels], dtype=float
    )
    more = (faces / faces.mean()) ** LARGE_FIRST
    kinds, unit = len(problem.kinds), 1e-12
    lengths = np.array([n.length for n in problem.panels], dtype=float)
    return Duals(
        kinds=faces[:kinds] * more[:kinds] * unit,
        widths=lengths * more[kinds:] * unit,
        strips=np.zeros(len(problem.panels)),
    )


def laid_by_worth(problem: Problem, quick: QuickPricer) -> Iterator[Plan | None]:
    """A plan of the whole rack, in many steps: None until it is there.

    Parameters
    ----------
    problem
        The question.
    quick
        Prices its boards.
    """
    first = _First(problem, quick)
    while not first.demand.met and first.free.any():
        first.step()
        yield None
    yield plan_of(problem, first.patterns, demand_left(problem, first.patterns))


class _First:
    """How far the layout has come."""

    def __init__(self, problem: Problem, quick: QuickPricer) -> None:
        self._problem, self._quick, self._duals = problem, quick, worths_by_face(problem)
        self._costs = np.maximum([s.cost for s in problem.stocks], 1e-9)
        self._most = np.full(len(problem.stocks), np.inf)
        """What each board can give for its price, at most."""
        self.free: NDArray[np.bool_] = np.ones(len(problem.stocks), dtype=bool)
        self.demand = Demand.of(problem)
        self.patterns: list[Pattern] = []

    def step(self) -> None:
        """Price the boards that seem best anew, and settle those that are."""
        open_ = np.flatnonzero(self.free)
        order = open_[np.argsort(-self._most[open_], kind="stable")]
        count = len(order) if np.isinf(self._most[order[0]]) else max(BATCH, len(self._costs) // SHARE)
        found = self._priced(order[:count])
        others = float(self._most[order[count:]].max(initial=0.0))
        ranked = sorted(found, key=lambda b: (-self._most[b], b))
        fresh = 0
        for board in ranked:
            given = self._most[board]
            if given < STILL * others or (fresh and given < AS_GOOD * self._most[ranked[0]]):
                return
            fresh += self._settled(found[board](), alone=not fresh)

    def _priced(self, boards: NDArray[np.int64]) -> dict[int, Callable[[], Pattern]]:
        """The best pattern of each board that can give anything, to come; no others are free any more."""
        lacking = zip(self.demand.strips, self.demand.widths, strict=True)
        counts = [*self.demand.counts, *(strips if width > 0 else 0 for strips, width in lacking)]
        told = self._quick.offers(self._duals, only=frozenset(boards.tolist()), counts=counts)
        self.free[boards] = False
        for board, (worth, _) in told.items():
            self._most[board], self.free[board] = worth / self._costs[board], True
        return {board: pattern for board, (_, pattern) in told.items()}

    def _settled(self, pattern: Pattern, *, alone: bool) -> bool:
        """Settle a pattern, its gaps filled up by hand rules; not where too few of its blanks are wanted."""
        if not alone and kept(pattern, self._problem, self.demand.copy()).area < WHOLE * pattern.area:
            return False
        base = len(self._problem.kinds)
        worth = [*self._duals.kinds.tolist(), *self._duals.widths.tolist()]
        order = allowed_order(self._problem, pattern.stock, self.demand)
        order.sort(key=lambda pair: (pair[0] >= base, -worth[pair[0]]))
        self.free[pattern.stock] = False
        fresh = refilled(pattern, self._problem, self.demand, order)
        if fresh.segments:
            self.patterns.append(fresh)
        return bool(fresh.segments)
