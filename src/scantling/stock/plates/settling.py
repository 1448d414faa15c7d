"""The cheapest choice among all fills there are: a linear program, then whole numbers a little above it.

A choice that costs at most so much more than the linear program holds no fill that alone exceeds the worth
of its parts by more than that: the whole-number search begins with the few such fills, and with twice as
much while there is none.

References
----------
.. [1] Dantzig, Fulkerson, Johnson, "Solution of a large-scale traveling-salesman problem", Journal of the
   Operations Research Society of America 2 (1954) 393-410: what costs too much at the prices of a linear
   program is left out.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.fills import Every, Fill, FillMaster, Supply

__all__ = ["Settled", "settle"]

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
WORTH_SCALE = 10**9
"""Whole parts of the dearest supply's cost in which worths are counted, so that bounds are exact."""
AT_ONCE = 400
"""So many fills are added to the linear program together."""
FIRST_SHARE = 0.005
"""How far above the linear program the first whole-number search looks, as a share of its cost."""
SURE = 1e-7


@dataclass(frozen=True, slots=True)
class Settled:
    """The linear program's bound, a cheaper choice if one was found, and whether the search ended."""

    relaxed: Fraction
    chosen: tuple[Fill, ...] | None
    ended: bool
    """Nothing is cheaper than the choice, or than the mark if there is none."""
    least: float
    """What no choice costs less than, as the whole-number search left it."""


def settle(
    supplies: Sequence[Supply],
    wanted: Ints,
    every: Every,
    *,
    below: float,
    late: Callable[[], bool],
) -> Settled:
    """The cheapest choice below a mark.

    Parameters
    ----------
    supplies, wanted
        What there is to cut, any number of each, and how many of each part.
    every
        All fills.
    below
        Only what costs less is looked for.
    late
        True ends the search.
    """
    costs = np.array([s.cost for s in supplies], dtype=np.int64)[every.kinds]
    master = FillMaster(supplies, wanted, every.counts.max(axis=0))
    worth, value = _relaxed(master, every, costs, late)
    relaxed = _bound(every, costs, worth, wanted)
    over = costs - every.counts @ worth
    room, least = FIRST_SHARE * value, 0.0
    while not late():
        mark = min(below, float(np.ceil(value + room)))
        among = np.flatnonzero(over <= mark - value + SURE * value)
        numbers = [master.place_of(Fill(int(every.kinds[n]), every.counts[n])) for n in among]
        none = np.zeros(len(supplies), dtype=np.int64)
        found = master.whole(wanted, none, late=late, below=mark, among=numbers)
        least = max(least, found.least)
        if found.taken is not None:
            fills = tuple(every.laid(master.fills[n].counts, master.fills[n].supply) for n in found.taken)
            return Settled(relaxed, fills, found.ended, least)
        if not found.ended or mark >= below:
            return Settled(relaxed, None, found.ended, least)
        room *= 2
    return Settled(relaxed, None, ended=False, least=least)


def _relaxed(master: FillMaster, every: Every, costs: Ints, late: Callable[[], bool]) -> tuple[Floats, float]:
    """Worths of the parts and the cost of the linear program; fills that pay are added, best first."""
    while True:
        _, worth, _, value = master.solve()
        over = costs - every.counts @ worth
        paying = np.flatnonzero(over < -SURE * costs)
        if not len(paying) or late():
            return worth, value
        best = paying[np.argsort(over[paying], kind="stable")[:AT_ONCE]]
        new = [master.add(Fill(int(every.kinds[n]), every.counts[n])) for n in best]
        if not any(new):
            return worth, value


def _bound(every: Every, costs: Ints, worth: Floats, wanted: Ints) -> Fraction:
    """The sum of the worths, scaled down until no fill is worth more than it costs, in whole numbers."""
    dearest = int(costs.max())
    whole = np.floor(worth / dearest * WORTH_SCALE).astype(np.int64)
    most = every.counts @ whole
    share = Fraction(1)
    for cost in np.unique(costs).tolist():
        top = int(most[costs == cost].max())
        if top > 0:
            share = min(share, Fraction(cost * WORTH_SCALE, dearest * top))
    total = sum(int(w) * int(n) for w, n in zip(whole, wanted, strict=True))
    return share * Fraction(total * dearest, WORTH_SCALE)
