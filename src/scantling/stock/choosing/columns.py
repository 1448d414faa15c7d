"""Column generation: patterns priced by the worths the master problem implies, until none can help."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import dataclass, field
from random import Random

import numpy as np
from numpy.typing import NDArray

from scantling.stock.choosing.master import Column, Master, column_of
from scantling.stock.choosing.rest import Pool
from scantling.stock.handrules.fill import Demand
from scantling.stock.handrules.refill import kept
from scantling.stock.handrules.search import Plan, plan_of
from scantling.stock.pricing.pricer import Pricer
from scantling.stock.pricing.quickpricer import QuickPricer
from scantling.stock.question.axis import Rounding
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem
from scantling.stock.question.shapes import Duals

__all__ = ["Generator", "PricedFor", "few_sizes", "is_split", "plan_of_columns"]

Floats = NDArray[np.float64]
PricedFor = tuple[Duals, Floats, set[int]]
"""Worths all boards were priced for, what they gave at most, and which of them exactly."""
EPSILON = 1e-7
ENOUGH = 0.0005
"""Share of its value by which the linear program may lie above the bound and count as solved."""
FINE, FINE_SUMS = 1200, 8000
"""Positions along a board and lengths of clear stretches on racks of few sizes: mostly all there are. Where
some are left out, by 2 mm on eight boards of twenty, the bound may lie 3 % lower."""
SMALL_RACK = 16
MOST_KINDS = 25
"""With more kinds the exact pricing of a board takes long."""
MOST_POSITIONS = 480
"""Along a board, for the bound."""


def few_sizes(problem: Problem) -> bool:
    """Whether all boards can be priced for the bound at once, with hardly any position left out."""
    return not problem.panels and len(problem.kinds) <= MOST_KINDS and len(problem.stocks) <= 80


def is_split(problem: Problem, patterns: list[Pattern]) -> bool:
    """Whether blanks that must share a board do not."""
    if not problem.groups:
        return False
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
    return any(len(boards) > 1 for boards in homes.values())


def plan_of_columns(problem: Problem, columns: Iterable[Column]) -> Plan | None:
    """A plan from one pattern a board: every blank once, panels no wider than asked.

    Returns None where blanks that must share a board would not.
    """
    demand = Demand.of(problem)
    patterns = [kept(c.pattern, problem, demand) for c in sorted(columns, key=lambda c: -c.cost)]
    patterns = [p for p in patterns if p.segments]
    if is_split(problem, patterns):
        return None
    return plan_of(problem, patterns, demand)


@dataclass(slots=True)
class Generator:
    """Column generation on one problem, step by step.

    Quick steps come first: they bring good patterns of every board. The other steps price boards by the best
    pattern of all: on a rack of few sizes all of them and for the bound at once, else some in turn, and all
    for the bound once a whole turn has brought nothing new.
    """

    problem: Problem
    master: Master
    quick: QuickPricer
    cap: int
    """Positions along a board where it is priced for patterns that can be cut."""
    bound_cap: int
    """Positions along a board where sizes are rounded down."""
    bound: float = field(default=float("-inf"))
    converged: bool = False
    turn: int = 0
    barren: int = 0
    exact: Pricer | None = None
    """Made when it is first wanted."""
    for_bound: Pricer | None = None
    """Prices with sizes rounded down, made when it is first wanted."""
    pool: Pool = field(init=False)
    """The patterns as one table."""
    priced: list[PricedFor] = field(default_factory=list)
    """All pricings of all boards."""

    def __post_init__(self) -> None:
        self.pool = Pool(self.problem, self.master.columns)

    @classmethod
    def of(cls, problem: Problem, *, cap: int | None = None, quick_cap: int = 60) -> Generator:
        """Set up the master problem and the positions of quick pricing.

        Parameters
        ----------
        problem
            The question.
        cap, quick_cap
            Positions along a board where it is priced for what can be cut, and quickly. Many of the first
            only pay on small racks: good patterns need few.
        """
        cap = cap or (120 if len(problem.stocks) <= SMALL_RACK else 60)
        quick = QuickPricer.of(problem, cap=quick_cap)
        bound_cap = FINE if few_sizes(problem) else 120
        return cls(problem=problem, master=Master.of(problem), quick=quick, cap=cap, bound_cap=bound_cap)

    @property
    def pricer(self) -> Pricer:
        """Prices boards by the best pattern that can be cut."""
        if self.exact is None:
            self.exact = Pricer.of(self.problem, rounding=Rounding.CUTTABLE, cap=self.cap)
        return self.exact

    @property
    def bounder(self) -> Pricer:
        """Prices boards by what no pattern is worth more than."""
        if self.for_bound is None:
            sums = FINE_SUMS if few_sizes(self.problem) else 2000
            self.for_bound = Pricer.of(
                self.problem, rounding=Rounding.BOUND, cap=self.bound_cap, sums_cap=sums
            )
        return self.for_bound

    @property
    def bounds_exactly(self) -> bool:
        """Whether :meth:`best_patterns` tells worths that no pattern exceeds."""
        return few_sizes(self.problem)

    @property
    def sharp(self) -> bool:
        """Whether exact pricing finds more than quick pricing, and is not too dear: no great many sizes."""
        marked = any(s.defects or s.top_left != s.top_right for s in self.problem.stocks)
        return marked and len(self.problem.kinds) <= MOST_KINDS

    def start(self) -> None:
        """First columns for every board: worths by area, at the mean price of the rack and a usual yield."""
        stocks = self.problem.stocks
        rate = sum(s.cost for s in stocks) / max(1, sum(s.area for s in stocks)) / 0.7
        duals = Duals(
            kinds=np.array([rate * k.area for k in self.problem.kinds]),
            widths=np.array([rate * n.length for n in self.problem.panels]),
            strips=np.zeros(len(self.problem.panels)),
        )
        for stock, (_, pattern) in self.quick.price(duals).items():
            self.take(stock, pattern)

    def quick_run(self, steps: int) -> Iterator[None]:
        """Quick steps until they bring nothing new, one at a time."""
        for _ in range(steps):
            _, duals = self.master.solve()
            found = self.quick.price(duals).items()
            fresh = [self._take(stock, worth, pattern) for stock, (worth, pattern) in found]
            yield
            if not any(fresh):
                return

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
        if few_sizes(self.problem):
            self._whole_step()
            return
        _, duals = self.master.solve()
        batch = self._batch()
        worths, patterns = self.pricer.price(duals, patterns=True, only=batch)
        if len(batch) == len(worths) and self.pricer.exact:
            self._tell(duals, worths)
        fresh = sum(self._take(stock, worths[stock], pattern) for stock, pattern in patterns.items())
        self.barren = 0 if fresh else self.barren + len(batch)
        if self.barren >= len(worths):
            self.converged = True
            self.prove()

    def _whole_step(self) -> None:
        """All boards at once, for the bound as well."""
        value, duals = self.master.solve()
        worths, patterns = self.best_patterns(duals)
        self._tell(duals, worths)
        fresh = [self._take(stock, worths[stock], pattern) for stock, pattern in patterns.items()]
        self.converged = not any(fresh) or value - self.bound <= ENOUGH * abs(value)

    def best_patterns(
        self,
        duals: Duals,
        *,
        only: Set[int] | None = None,
        costs: Sequence[float] | None = None,
        counts: Sequence[int] | None = None,
    ) -> tuple[Floats, dict[int, Pattern]]:
        """What no pattern of each board is worth more than, and the best ones that can be cut.

        ``only``, ``costs`` and ``counts`` as in :meth:`~scantling.stock.pricing.pricer.Pricer.price`.
        """
        if not few_sizes(self.problem):
            return self.pricer.price(duals, patterns=True, only=only, costs=costs, counts=counts)
        worths, patterns = self.bounder.price(
            duals, patterns=True, only=only, costs=costs, counts=counts, floors=self.floors(duals, counts)
        )
        costs = [s.cost for s in self.problem.stocks] if costs is None else costs
        worth_it = {b for b in range(len(costs)) if worths[b] > costs[b]} - set(patterns)
        if rough := worth_it & (set(range(len(costs))) if only is None else set(only)):
            _, more = self.pricer.price(duals, patterns=True, only=rough, costs=costs, counts=counts)
            patterns |= more
        return worths, patterns

    def floors(self, duals: Duals, counts: Sequence[int] | None = None) -> Floats | None:
        """What the best known pattern of each board is worth; None where panels are wanted. [money]"""
        if self.problem.panels:
            return None
        self.pool.sync()
        wanted = [len(k.blanks) for k in self.problem.kinds] if counts is None else counts
        floors = np.zeros(len(self.problem.stocks))
        given = np.minimum(self.pool.yields, np.array(wanted, dtype=float)) @ duals.kinds
        np.maximum.at(floors, self.pool.stocks, given)
        return floors

    def _tell(self, duals: Duals, worths: Floats) -> None:
        """Take in a pricing of all boards: the bound it gives, and its worths for covers."""
        dear = {b for b, s in enumerate(self.problem.stocks) if worths[b] > s.cost + 1e-6}
        self.bound = max(self.bound, self.master.lagrangian_bound(duals, worths))
        self.priced.append((duals, worths, dear))

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
        at_once = turn == 1 or few_sizes(self.problem)
        return not at_once and not self.converged and (number == turn or number % (2 * turn) == 0)

    def prove(self) -> None:
        """The bound: price every board, sizes rounded down where positions were left out."""
        pricer = self.pricer if self.pricer.exact else self.bounder
        _, duals = self.master.solve()
        worths, _ = pricer.price(duals, patterns=False)
        self._tell(duals, worths)

    def sharpen(self) -> bool:
        """Prove the bound with twice as many positions; False where that is of no use or too many."""
        if self.for_bound is None or self.for_bound.exact or self.bound_cap >= MOST_POSITIONS:
            return False
        self.bound_cap, self.for_bound = 2 * self.bound_cap, None
        self.prove()
        return True

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
