"""One plate, each part wanted a given number of times: the most valuable layout by edge-to-edge cuts, proven.

References
----------
.. [1] Christofides, Whitlock, "An algorithm for two-dimensional cutting problems", Operations Research 25
   (1977) 30-44: the problem.
.. [2] Lodi, Monaci, "Integer linear programming models for 2-staged two-dimensional knapsack problems",
   Mathematical Programming 94 (2003) 257-278: the same in two stages with a last trim.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from time import monotonic
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.plate import Plate
from scantling.stock.plates.platebounds import Grid, Shape
from scantling.stock.plates.plateprices import SCALE, Prices, best_prices
from scantling.stock.plates.stages import AnyStages, Found, TwoStages

__all__ = ["LimitedPart", "LimitedResult", "Stages", "best_limited_cutting"]

Ints = NDArray[np.int64]
FIRST_GAP = 0.0005
"""Share of the bound below it where the first search looks; each next one looks twice as far."""
NO_CAP = 10**9
FIRST_CAP = 4
PROOF_SHARE = 0.35
"""Share of the time left that one search without a cap may take."""


class Stages(Enum):
    """How often the saw may turn."""

    ANY = "any"
    RIP_FIRST = "rip first"
    """Strips along the length, then parts off the strips, then each part trimmed to its width."""
    CROSSCUT_FIRST = "crosscut first"
    """Strips across, then parts off the strips, then each part trimmed to its length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitedPart:
    """A part that may be cut at most so many times; whole units."""

    length: int
    width: int
    value: int
    copies: int
    turns: bool = False
    """Whether it may lie a quarter turned."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitedResult:
    """The best layout found and a bound no layout exceeds; equal where the layout is proven best."""

    value: int
    bound: int
    placed: tuple[tuple[int, int, int, int, int], ...]
    """Rectangles (x, y, length, width, part)."""
    found_s: float
    """When the layout was found, on the clock given, from the start."""

    @property
    def proven(self) -> bool:
        """Whether no layout is better."""
        return self.value >= self.bound


class _Way(Protocol):
    """What a set of allowed cuts offers."""

    def relaxed(self, worth: Ints) -> tuple[int, Ints]:
        """The most a layout without limits is worth, and its counts."""
        ...

    def first(self) -> Found:
        """A layout in a moment, or none."""
        ...

    def search(
        self, prices: Prices, *, need: int, cap: int, until: float, clock: Callable[[], float]
    ) -> Found:
        """The best layout worth at least ``need``."""
        ...


def best_limited_cutting(
    plate: Plate,
    parts: Sequence[LimitedPart],
    *,
    stages: Stages = Stages.ANY,
    seconds: float = 10.0,
    clock: Callable[[], float] = monotonic,
) -> LimitedResult:
    """The most valuable parts from one plate, at most as many of each as are wanted.

    Searches close to the bound first, then twice as far below it, and so on: a search that leaves nothing out
    and finds nothing lowers the bound, one that finds a layout proves it.

    Parameters
    ----------
    plate
        Without defects; its kerf is heeded.
    parts
        Sizes, values and limits.
    stages
        Allowed cuts.
    seconds, clock
        How long to search.

    Raises
    ------
    ValueError
        The plate has defects: layouts of a board with defects are those of
        :func:`scantling.stock.solving.solve`.

    Examples
    --------
    >>> part = LimitedPart(length=4, width=3, value=12, copies=3)
    >>> best_limited_cutting(Plate(length=10, width=6), [part]).value
    36
    """
    if plate.defects:
        raise ValueError("parts in limited numbers are laid out on plates without defects only")
    if stages is Stages.CROSSCUT_FIRST:
        return _turned(plate, parts, seconds=seconds, clock=clock)
    started = clock()
    kerf = plate.kerf
    shapes = [Shape(part=n, long=p.length + kerf, wide=p.width + kerf) for n, p in enumerate(parts)]
    shapes += [
        Shape(part=n, long=p.width + kerf, wide=p.length + kerf)
        for n, p in enumerate(parts)
        if p.turns and p.length != p.width
    ]
    grid = Grid.of(plate.length + kerf, plate.width + kerf, shapes)
    values = np.array([p.value for p in parts], dtype=np.int64)
    copies = np.array([p.copies for p in parts], dtype=np.int64)
    way: _Way = (AnyStages if stages is Stages.ANY else TwoStages)(grid, values, copies)
    prices = best_prices(way.relaxed, values, copies, late=lambda: clock() > started + seconds)
    found, bound, at = _deepen(way, prices, until=started + seconds, clock=clock)
    placed = tuple(
        (x, y, grid.shapes[n].long - kerf, grid.shapes[n].wide - kerf, grid.shapes[n].part)
        for x, y, n in found.placed
    )
    return LimitedResult(
        value=max(found.value, 0), bound=bound, placed=placed, found_s=max(0.0, at - started)
    )


def _deepen(
    way: _Way, prices: Prices, *, until: float, clock: Callable[[], float]
) -> tuple[Found, int, float]:
    """The best layout, the bound, and when the layout was found."""
    top = bound = prices.bound // SCALE
    best, at = way.first(), clock()
    share, cap = FIRST_GAP, NO_CAP
    while best.value < bound and (left := until - clock()) > 0:
        need = max(best.value + 1, int(top - share * top))
        limit = clock() + (left * PROOF_SHARE if cap == NO_CAP else left)
        found = way.search(prices, need=need, cap=cap, until=limit, clock=clock)
        if found.value > best.value:
            best, at = found, clock()
        if found.whole:
            bound = min(bound, max(best.value, need - 1))
        else:
            cap = FIRST_CAP if cap == NO_CAP else 2 * cap
        share *= 2
    return best, bound, at


def _turned(
    plate: Plate, parts: Sequence[LimitedPart], *, seconds: float, clock: Callable[[], float]
) -> LimitedResult:
    """Crosscut first is rip first on the plate lying the other way."""
    result = best_limited_cutting(
        Plate(length=plate.width, width=plate.length, kerf=plate.kerf),
        [replace(p, length=p.width, width=p.length) for p in parts],
        stages=Stages.RIP_FIRST,
        seconds=seconds,
        clock=clock,
    )
    return replace(result, placed=tuple(sorted((y, x, w, h, n) for x, y, h, w, n in result.placed)))
