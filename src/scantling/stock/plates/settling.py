"""The cheapest choice among all fills there are: a linear program, then sheets that cost little more.

How many pieces of each supply are taken is a *tally*. Tallies are gone through from the cheapest that the
linear program allows. The linear program with no more pieces than a tally says what the parts are worth;
where its pieces together cannot be worth what all parts are, nothing is made of it, nor of any other tally
that falls short by the same worths: a *cover*. What is left is asked in whole numbers, which is quick, for
only fills that cost hardly more than their parts are worth there can be in it.

References
----------
.. [1] Dantzig, Fulkerson, Johnson, "Solution of a large-scale traveling-salesman problem", Journal of the
   Operations Research Society of America 2 (1954) 393-410: what costs too much at the prices of a linear
   program is left out.
.. [2] Benders, "Partitioning procedures for solving mixed-variables programming problems", Numerische
   Mathematik 4 (1962) 238-252: what a linear program says of the numbers it was given.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.fills import Every, Fill, FillMaster, Supply

__all__ = ["Cover", "Known", "Settled", "settle", "tallies"]

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
WORTH_SCALE = 10**9
"""Whole parts of the dearest supply's cost in which worths are counted, so that bounds are exact."""
AT_ONCE = 400
"""So many fills are added to the linear program together."""
FIRST_SHARE = 0.005
"""How far above the linear program tallies are looked at first, as a share of its cost."""
MOST_TALLIES = 200_000
SURE = 1e-7


@dataclass(frozen=True, slots=True)
class Cover:
    """What one piece of each supply can be worth at most, and what all parts are: what any choice reaches."""

    most: Ints
    need: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known before a search."""

    below: float = 1e15
    """Only what costs less is looked for."""
    at_least: int = 0
    """Nothing costs less."""
    covers: tuple[Cover, ...] = ()


@dataclass(frozen=True, slots=True)
class Settled:
    """The linear program's bound, a cheaper choice if one was found, and whether the search ended."""

    relaxed: Fraction
    chosen: tuple[Fill, ...] | None
    ended: bool
    """Nothing is cheaper than the choice, or than the mark if there is none."""
    least: int
    """What no choice costs less than."""
    covers: tuple[Cover, ...]
    """All that are known now."""


def tallies(costs: Ints, start: int, end: int) -> Ints | None:
    """All tallies that cost at least ``start`` and less than ``end``, cheapest first; None if too many."""
    rows, spent = np.zeros((1, len(costs)), dtype=np.int64), np.zeros(1, dtype=np.int64)
    ranked = np.argsort(-costs, kind="stable").tolist()
    for supply in ranked:
        cost = int(costs[supply])
        most, least = (end - 1 - spent) // cost, np.zeros_like(spent)
        if supply == ranked[-1]:
            least = np.maximum(0, -((spent - start) // cost))
        often = np.maximum(0, most - least + 1)
        if int(often.sum()) > MOST_TALLIES:
            return None
        at = np.repeat(np.arange(len(rows)), often)
        count = np.arange(len(at)) - np.repeat(np.cumsum(often) - often, often) + least[at]
        rows, spent = rows[at], spent[at] + count * cost
        rows[:, supply] = count
    return rows[np.lexsort((*rows.T, spent))]


@dataclass(slots=True)
class _Settler:
    """One question being answered."""

    supplies: Sequence[Supply]
    wanted: Ints
    every: Every
    late: Callable[[], bool]
    covers: list[Cover]
    costs: Ints = field(init=False)
    """Of each fill."""
    prices: Ints = field(init=False)
    """Of each supply."""
    many: int = field(init=False)
    """More pieces of a supply than any choice takes."""
    master: FillMaster = field(init=False)

    def __post_init__(self) -> None:
        self.prices = np.array([s.cost for s in self.supplies], dtype=np.int64)
        self.costs = self.prices[self.every.kinds]
        self.many = int(self.wanted.sum()) + 1
        limited = [replace(s, limit=self.many) for s in self.supplies]
        self.master = FillMaster(limited, self.wanted, self.every.counts.max(axis=0))

    def relax(self, tally: Ints | None) -> tuple[Floats, Floats, float]:
        """Worths of the parts, what one more of a supply saves, and the cost of the linear program.

        Fills that pay are added, best first. Without a tally any number of each supply may be taken.
        """
        none = np.zeros(len(self.supplies), dtype=np.int64)
        self.master.ask(self.wanted, none if tally is None else self.many - tally)
        while True:
            _, worth, saved, value = self.master.solve()
            over = self.over(worth, saved)
            paying = np.flatnonzero(over < -SURE * self.costs)
            if not len(paying) or self.late():
                return worth, saved, value
            best = paying[np.argsort(over[paying], kind="stable")[:AT_ONCE]]
            new = [self.master.add(self.fill(n)) for n in best]
            if not any(new):
                return worth, saved, value

    def over(self, worth: Floats, saved: Floats) -> Floats:
        """By how much fills cost more than they are worth."""
        over: Floats = self.costs + saved[self.every.kinds] - self.every.counts @ worth
        return over

    def fill(self, number: int | np.integer[Any]) -> Fill:
        """One of all fills."""
        return Fill(int(self.every.kinds[number]), self.every.counts[int(number)])

    def cover(self, worth: Floats) -> Cover:
        """What worths, in whole numbers, say of all tallies."""
        whole = np.floor(worth / int(self.prices.max()) * WORTH_SCALE).astype(np.int64)
        most = np.zeros(len(self.supplies), dtype=np.int64)
        np.maximum.at(most, self.every.kinds, self.every.counts @ whole)
        return Cover(most, sum(int(w) * int(n) for w, n in zip(whole, self.wanted, strict=True)))

    def bound(self, worth: Floats) -> Fraction:
        """The sum of the worths, scaled down until no fill is worth more than it costs, in whole numbers."""
        cover, share = self.cover(worth), Fraction(1)
        dearest = int(self.prices.max())
        for cost, most in zip(self.prices.tolist(), cover.most.tolist(), strict=True):
            if most > 0:
                share = min(share, Fraction(cost * WORTH_SCALE, dearest * most))
        return share * Fraction(cover.need * dearest, WORTH_SCALE)

    def cheapest(self, some: Ints, end: int) -> tuple[tuple[Fill, ...] | None, int]:
        """Fills for all parts out of the first tally that yields them, and what none costs less than."""
        while len(some):
            tally, cost = some[0], int(some[0] @ self.prices)
            if self.late():
                return None, cost
            found, ended = self.whole(tally, cost)
            if found is not None or not ended:
                return found, cost
            some = some[1:]
            for cover in self.covers:
                some = some[some @ cover.most >= cover.need]
        return None, end

    def whole(self, tally: Ints, cost: int) -> tuple[tuple[Fill, ...] | None, bool]:
        """Fills for all parts out of the pieces of a tally, and whether the search ended."""
        worth, saved, value = self.relax(tally)
        cover = self.cover(worth)
        if int(tally @ cover.most) < cover.need:
            self.covers.append(cover)
            return None, True
        return self.by_prices(self.over(worth, saved) - cost + value, self.many - tally, cost + 1)

    def by_prices(self, over: Floats, used: Ints, below: int) -> tuple[tuple[Fill, ...] | None, bool]:
        """Whole numbers of the fills that are not too dear, and whether the search ended."""
        among = np.flatnonzero(over <= SURE * below)
        numbers = [self.master.place_of(self.fill(n)) for n in among]
        found = self.master.whole(self.wanted, used, late=self.late, below=below, among=numbers)
        if found.taken is None:
            return None, found.ended
        fills = (self.master.fills[n] for n in found.taken)
        return tuple(self.every.laid(f.counts, f.supply) for f in fills), found.ended


def settle(
    supplies: Sequence[Supply],
    wanted: Ints,
    every: Every,
    *,
    known: Known,
    late: Callable[[], bool],
) -> Settled:
    """The cheapest choice below a mark.

    Parameters
    ----------
    supplies, wanted
        What there is to cut, any number of each, and how many of each part.
    every
        All fills.
    known
        Only what costs less than its mark is looked for, and nothing below its bound.
    late
        True ends the search.
    """
    settler = _Settler(supplies, wanted, every, late, list(known.covers))
    worth, saved, value = settler.relax(None)
    relaxed = settler.bound(worth)
    least, room = max(known.at_least, ceil(relaxed * (1 - Fraction(1, 10**9)))), FIRST_SHARE * value
    chosen, ended = None, True
    while chosen is None and ended and least < known.below:
        end = int(min(known.below, max(least + 1, ceil(value + room))))
        some = tallies(settler.prices, least, end)
        if some is None:
            over, none = settler.over(worth, saved) - end + value, np.zeros_like(settler.prices)
            chosen, ended = settler.by_prices(over, none, end)
            least = end if ended and chosen is None else least
        else:
            chosen, least = settler.cheapest(some, end)
            ended = chosen is not None or least == end
        room *= 2
    return Settled(relaxed, chosen, ended, least, tuple(settler.covers))
