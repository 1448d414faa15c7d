"""All parts from stock of several sizes at least cost: fills priced by worth, a proven bound, whole numbers.

References
----------
.. [1] Gilmore, Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9
   (1961) 849-859.
.. [2] Farley, "A note on bounding a class of linear programming problems, including cutting stock problems",
   Operations Research 38 (1990) 922-923: a bound before the last column is found.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import reduce
from math import ceil, gcd
from random import Random
from time import monotonic

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.fills import Every, Fill, FillMaster, Supply
from scantling.stock.plates.settling import Cover, Known, Settled, settle
from scantling.stock.plates.source import Source
from scantling.stock.plates.supplies import next_sum

__all__ = ["DemandResult", "meet_demand"]

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
WORTH_SCALE = 10**9
"""Whole parts of the dearest supply's cost in which worths are counted, so that bounds are exact."""
SURE = 1e-7
MOST_ROUNDS = 5000
SOON_SHARE, HAND_SHARE = 0.04, 0.2
"""Share of the time hand rules may take at first, and again where sets of parts did not settle it."""
EVERY_SHARE = 0.75
"""Share of the time after which the listing of all fills is given up."""
RELAX_SHARE = 0.7
"""Share of the time the linear program may take."""
IDLE_DIVES = 100
"""So many dives without a cheaper choice end the search."""
MIP_SHARE = 0.15
"""Share of the time one choice of whole fills may take."""
BULKY_SHARE, ONE_SHARE, ORDER_SHARE = 0.25, 0.15, 0.7
"""Share of the time left for sets of the largest parts, for one choice of these, and for orders of parts."""
ALL_ON_ONE_SHARE = 0.75
"""Share of the time left for all parts on one piece of stock, where that could be cheaper."""
MANY_ON_ONE = 8.0
"""So many parts on a sheet, of the dearest choice known, make orders worth more than fills one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DemandResult:
    """Fills that make all parts, their cost, and what no choice costs less than."""

    cost: int | None
    """None if no choice was found."""
    bound: int
    relaxed: float
    """Bound of the linear program before rounding up; 0 where the material alone was bound enough."""
    fills: tuple[Fill, ...]
    found_s: float

    @property
    def proven(self) -> bool:
        """Whether no choice is cheaper."""
        return self.cost is not None and self.cost <= self.bound


@dataclass(slots=True)
class _Planner:
    """One question being answered."""

    supplies: Sequence[Supply]
    wanted: Ints
    source: Source
    clock: Callable[[], float]
    until: float
    master: FillMaster = field(init=False)
    mip_s: float = field(init=False)
    """How long one choice of whole fills may take."""
    dearest: int = field(init=False)
    best: list[int] | None = None
    cost: int | None = None
    found_at: float = 0.0
    covers: tuple[Cover, ...] = ()
    """What all choices must keep to."""

    def __post_init__(self) -> None:
        self.master = FillMaster(self.supplies, self.wanted)
        self.mip_s = MIP_SHARE * self.left()
        self.dearest = max(s.cost for s in self.supplies)

    def relax(
        self, wanted: Ints, used: Ints, *, until: float, proof: bool = False
    ) -> tuple[Floats, Fraction]:
        """The linear program over all fills: how often each is taken, and a bound if the time was enough.

        Worths half way between the last and those of the best bound are priced in turn with the last ones,
        which alone swing widely. The end comes as soon as bound and value lie below the same sum of costs.
        """
        self.master.ask(wanted, used)
        bound, center, priced = Fraction(0), None, False
        for number in range(MOST_ROUNDS):
            taken, part, supply, value = self.master.solve()
            late = self.clock() > until
            closed = self._rounded(bound) >= value - SURE * value
            if closed or (late and (priced or not proof)):
                break
            duals = np.floor(np.append(part, supply) / self.dearest * WORTH_SCALE).astype(np.int64)
            trial = duals if center is None or number % 2 else (duals + center) // 2
            worth, saved = trial[: len(part)], trial[len(part) :]
            if not late and self._take(self.source.quick(worth, wanted), duals):
                continue
            offers, priced = self.source.best(worth, wanted, self.left()), True
            new = self._farley(offers, worth, saved, wanted)
            if new > bound:
                bound, center = new, trial
            if not self._take(offers, duals) and trial is duals:
                break
        return taken, bound

    def _rounded(self, bound: Fraction) -> int:
        step = reduce(gcd, (s.cost for s in self.supplies))
        return ceil(bound / step - Fraction(1, 10**7)) * step

    def _take(self, offers: list[tuple[int, Fill]], duals: Ints) -> bool:
        """Add fills worth more than they cost at the last worths."""
        new, parts = False, len(self.wanted)
        for _, fill in offers:
            worth = int((fill.counts * duals[:parts]).sum()) - int(duals[parts + fill.supply])
            if worth > (self.supplies[fill.supply].cost * WORTH_SCALE // self.dearest) * (1 + SURE):
                new |= self.master.add(fill)
        return new

    def _farley(self, offers: list[tuple[int, Fill]], worth: Ints, saved: Ints, wanted: Ints) -> Fraction:
        """Worths scaled down until no fill is worth more than it costs prove their sum."""
        share = Fraction(1)
        for most, fill in offers:
            cost = Fraction(self.supplies[fill.supply].cost * WORTH_SCALE, self.dearest)
            if most - int(saved[fill.supply]) > cost:
                share = min(share, cost / (most - int(saved[fill.supply])))
        total = sum(int(w) * int(n) for w, n in zip(worth, wanted, strict=True))
        total -= sum(
            int(g) * s.limit for g, s in zip(saved, self.supplies, strict=True) if s.limit is not None
        )
        return share * Fraction(total * self.dearest, WORTH_SCALE)

    def keep(self, chosen: list[int] | None) -> None:
        """Keep the cheapest choice."""
        if chosen is None:
            return
        cost = sum(self.supplies[self.master.fills[n].supply].cost for n in chosen)
        if self.cost is None or cost < self.cost:
            self.best, self.cost, self.found_at = chosen, cost, self.clock()

    def left(self) -> float:
        """How much time there is."""
        return max(0.0, self.until - self.clock())

    def late(self, share: float = 1.0) -> Callable[[], bool]:
        """Whether a share of the time there is now is over."""
        until = self.until - (1.0 - share) * self.left()
        return lambda: self.clock() > until

    def choose(self, wanted: Ints, used: Ints, seconds: float) -> list[int] | None:
        """Whole numbers of the fills known, cheaper than the best; None once the time is over."""
        below = 1e15 if self.cost is None else float(self.cost)
        until = min(self.clock() + seconds, self.until)
        return self.master.whole(wanted, used, late=lambda: self.clock() > until, below=below).taken

    def by_hand(self, bound: int, share: float, seed: int) -> None:
        """All parts at once by hand rules, for a share of the time."""
        late = self.late(share)
        for fills in self.source.whole(
            self.supplies, self.wanted, lambda cost: 0 < cost <= bound or late(), seed=seed
        ):
            self.keep([self.master.place_of(fill) for fill in fills])

    def settle(self, every: Every, wanted: Ints, bound: int, late: Callable[[], bool]) -> Settled:
        """The cheapest choice among fills, below the cheapest known."""
        below = 1e15 if self.cost is None else float(self.cost)
        known = Known(below=below, at_least=bound, covers=self.covers)
        settled = settle(self.supplies, wanted, every, known=known, late=late)
        self.covers = settled.covers
        return settled

    def settle_all(self, every: Every, bound: int) -> tuple[Fraction, int]:
        """The cheapest choice among all fills: the linear program's bound, and what none costs less than."""
        settled = self.settle(every, self.wanted, bound, self.late())
        if settled.chosen is not None:
            self.keep([self.master.place_of(fill) for fill in settled.chosen])
        return settled.relaxed, max(bound, settled.least)

    def bulky(self, bound: int) -> int:
        """What no choice costs less than, by sets of the largest parts, as far as the time reaches."""
        late = self.late(BULKY_SHARE)
        for every, wanted in self.source.bulky(self.supplies, self.wanted, late):
            bound = max(bound, self.settle(every, wanted, bound, self.late(ONE_SHARE)).least)
            if late() or not self.open(bound):
                break
        return bound

    def on_one(self, bound: int) -> None:
        """All parts at once on one piece of stock that costs less than the cheapest choice."""
        if self.cost is None:
            return
        late = self.late(ALL_ON_ONE_SHARE)
        self.keep_all(self.source.on_one(self.supplies, self.wanted, self.cost, late), bound)

    def order(self, bound: int) -> None:
        """All parts at once by their order, where many lie on one sheet."""
        if self.cost is None or self.best is None:
            return
        if int(self.wanted.sum()) < MANY_ON_ONE * len(self.best):
            return
        late = self.late(ORDER_SHARE)
        self.keep_all(self.source.ordered(self.supplies, self.wanted, self.cost, late), bound)

    def keep_all(self, choices: Iterable[Sequence[Fill]], bound: int) -> None:
        """Choices as they are found, until one is known to be the cheapest."""
        for fills in choices:
            self.keep([self.master.place_of(fill) for fill in fills])
            if not self.open(bound):
                return

    def greedy(self, volumes: Ints) -> None:
        """One piece of stock after the other, each filled with the most material for its cost."""
        wanted, used = self.wanted.copy(), np.zeros(len(self.supplies), dtype=np.int64)
        chosen: list[int] = []
        while wanted.max() > 0 and self.clock() < self.until:
            free = [
                fill
                for _, fill in self.source.best(volumes, np.maximum(wanted, 0), self.left())
                if fill.counts.any() and self._left(fill.supply, used)
            ]
            if not free:
                return
            fill = max(free, key=lambda f: float((f.counts * volumes).sum()) / self.supplies[f.supply].cost)
            number = self.master.place_of(fill)
            # as often as nothing is cut that is not wanted
            often = int((wanted[fill.counts > 0] // fill.counts[fill.counts > 0]).min())
            for _ in range(max(1, often)):
                if not self._left(fill.supply, used):
                    break
                chosen.append(number)
                wanted = wanted - fill.counts
                used[fill.supply] += 1
        if wanted.max() <= 0:
            self.keep(chosen)

    def _left(self, supply: int, used: Ints) -> bool:
        limit = self.supplies[supply].limit
        return limit is None or int(used[supply]) < limit

    def dive(self, rng: Random) -> None:
        """Fix fills the linear program takes wholly, or one it takes in part, and price the rest anew."""
        wanted, used = self.wanted.copy(), np.zeros(len(self.supplies), dtype=np.int64)
        chosen: list[int] = []
        while wanted.max() > 0 and self.clock() < self.until:
            taken = self.relax(wanted, used, until=self.until)[0]
            if not len(taken) or taken.max() < SURE:
                return
            counts = np.floor(taken + SURE).astype(np.int64)
            if not counts.any():
                near = np.flatnonzero(taken > max(0.0, taken.max() - rng.random() * 0.3))
                counts[int(rng.choice(near.tolist()))] = 1
            fixed = np.repeat(np.arange(len(counts)), counts).tolist()
            for fill in (self.master.fills[number] for number in fixed):
                # a fill that would cut nothing still wanted is left out
                if np.minimum(fill.counts, np.maximum(wanted, 0)).any():
                    chosen.append(self.master.place_of(fill))
                    wanted = wanted - fill.counts
                    used[fill.supply] += 1
        if wanted.max() <= 0:
            self.keep(chosen)

    def open(self, bound: int) -> bool:
        """Whether something cheaper may be found."""
        return self.cost is None or self.cost > bound

    def price(
        self, bound_of: Callable[[Fraction], int], bound: int, volumes: Sequence[int]
    ) -> tuple[Fraction, int]:
        """Fills priced one by one, whole numbers of them; the linear program's bound, and that rounded up."""
        none = np.zeros(len(self.supplies), dtype=np.int64)
        self.greedy(np.array(volumes, dtype=np.int64))
        if not self.open(bound):
            return Fraction(0), bound
        relax_until = self.until - (1.0 - RELAX_SHARE) * self.left()
        _, relaxed = self.relax(self.wanted, none, until=relax_until, proof=True)
        bound = max(bound, bound_of(relaxed))
        if self.open(bound):
            self.keep(self.choose(self.wanted, none, self.mip_s))
        rng, idle = Random(0), 0
        while self.open(bound) and self.clock() < self.until and idle < IDLE_DIVES:
            before = (self.cost, len(self.master.fills))
            self.dive(rng)
            if not self.open(bound):
                break
            if len(self.master.fills) > before[1]:
                self.keep(self.choose(self.wanted, none, self.mip_s))
            idle = 0 if self.cost != before[0] else idle + 1
        return relaxed, bound

    def result(self, bound: int, relaxed: Fraction, started: float) -> DemandResult:
        """The answer."""
        return DemandResult(
            cost=self.cost,
            bound=bound,
            relaxed=float(relaxed),
            fills=tuple(self.master.fills[n] for n in self.best or ()),
            found_s=max(0.0, self.found_at - started),
        )


def meet_demand(
    supplies: Sequence[Supply],
    wanted: Sequence[int],
    source: Source,
    *,
    volumes: Sequence[int],
    seconds: float = 10.0,
    clock: Callable[[], float] = monotonic,
) -> DemandResult:
    """All parts wanted from stock of several sizes, at least cost.

    Parameters
    ----------
    supplies
        What there is to cut.
    wanted
        How many of each part.
    source
        Where the ways to cut a piece of stock come from.
    volumes
        How much of a supply's size each part takes.
    seconds, clock
        How long to search.
    """
    started = clock()
    plan = _Planner(supplies, np.array(wanted, dtype=np.int64), source, clock, started + seconds)
    material = sum(v * n for v, n in zip(volumes, wanted, strict=True))

    def bound_of(relaxed: Fraction) -> int:
        return next_sum(supplies, at_least=relaxed, material=material, late=plan.late())

    relaxed = Fraction(0)
    bound = bound_of(relaxed)
    plan.by_hand(bound, SOON_SHARE, seed=0)
    if plan.open(bound):
        bound = plan.bulky(bound)
    if plan.open(bound):
        every = source.every(supplies, plan.wanted, plan.late(EVERY_SHARE))
        if every is not None:
            relaxed, bound = plan.settle_all(every, bound)
            return plan.result(bound, relaxed, started)
    if plan.open(bound):
        plan.on_one(bound)
    if plan.open(bound):
        plan.by_hand(bound, HAND_SHARE, seed=1)
    if plan.open(bound):
        plan.order(bound)
    if plan.open(bound):
        relaxed, bound = plan.price(bound_of, bound, volumes)
    return plan.result(bound, relaxed, started)
