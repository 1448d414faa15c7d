"""Boxes built from parts, two at a time, for plates on which every part may be cut a given number of times.

A box is two smaller ones side by side or one on the other, so edge-to-edge cuts part it. It is kept while
what it is worth and what the rest of the plate could still yield come to more than the best layout found.

References
----------
.. [1] Wang, "Two algorithms for constrained two-dimensional cutting stock problems", Operations Research 31
   (1983) 573-586: building boxes, kept by a limit on waste.
.. [2] Viswanathan, Bagchi, "Best-first search methods for constrained two-dimensional cutting stock
   problems", Operations Research 41 (1993) 768-776: kept by what is left around them.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.lots import Counter, Lot
from scantling.stock.plates.platebounds import Grid

__all__ = ["Boxes"]

Ints = NDArray[np.int64]
CHUNK = 400_000


@dataclass(slots=True)
class Boxes:
    """All boxes kept, grouped by size; the smallest areas are finished first."""

    grid: Grid
    counter: Counter
    around: Ints
    """By size, the most the rest of the plate yields at prices, and the worth of all limits."""
    plain: Ints
    """The same without prices, in units of value: on crowded plates it is the sharper of the two."""
    cap: int
    """Most boxes kept of one size."""
    need: int
    """A box is kept if it may come to at least this."""
    step: int
    """Units of worth in one unit of value."""
    ways: tuple[int, ...]
    """0 for side by side, 1 for one on the other."""
    clock: Callable[[], float]
    until: float
    whole: bool = True
    """Whether no box was left out for the cap or the time, which makes the search a proof."""
    best: int = -1
    best_box: int = -1
    count: int = 0
    all: Lot = field(init=False)
    groups: Ints = field(init=False)
    """A row a size: place along, place across, length, width, first box, number, greatest worth."""
    sizes: int = 0
    pending: dict[tuple[int, int], list[Lot]] = field(default_factory=dict)
    heap: list[tuple[int, int, int]] = field(default_factory=list)
    seen: dict[bytes, list[int]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.all = Lot.room(4096, len(self.counter.slack))
        self.groups = np.zeros((1024, 7), dtype=np.int64)

    def run(self, seeds: Sequence[tuple[int, int]], lot: Lot) -> None:
        """Build from seeds up: the place along and across of each, and the rows that describe them."""
        for number, (i, j) in enumerate(seeds):
            self._offer(i, j, lot.take(np.array([number])))
        while self.heap:
            if self.clock() > self.until:
                self.whole = False
                return
            _, i, j = heapq.heappop(self.heap)
            self._finish(i, j)

    def _offer(self, i: int, j: int, lot: Lot) -> None:
        waiting = self.pending.get((i, j))
        if waiting is None:
            self.pending[i, j] = [lot]
            heapq.heappush(self.heap, (int(self.grid.xs.at[i] * self.grid.ys.at[j]), i, j))
        else:
            waiting.append(lot)

    def _finish(self, i: int, j: int) -> None:
        lots = self.pending.pop((i, j))
        lot = Lot.join(lots) if len(lots) > 1 else lots[0]
        good = (lot.worth + self.around[i, j] >= self.need) & (
            (lot.value + self.plain[i, j]) * self.step >= self.need
        )
        lot = lot.take(np.flatnonzero(good))
        if not len(lot.worth):
            return
        keys = [lot.words[:, w] for w in range(lot.words.shape[1])]
        lot = lot.take(np.lexsort((*keys, -lot.value, -lot.worth)))
        if len(lot.worth) > 1:
            fresh = np.ones(len(lot.worth), dtype=bool)
            fresh[1:] = (lot.words[1:] != lot.words[:-1]).any(axis=1)
            lot = lot.take(np.flatnonzero(fresh))
        lot = self._undominated(i, j, lot)
        if len(lot.worth) > self.cap:
            self.whole = False
            lot = lot.take(np.arange(self.cap))
        if len(lot.worth):
            self._keep(i, j, lot)
            self._grow(self.sizes - 1)

    def _undominated(self, i: int, j: int, lot: Lot) -> Lot:
        """Without those whose parts also fit a box that is no larger either way."""
        rows, place = [], i * len(self.grid.ys.at) + j
        across = len(self.grid.ys.at)
        for row in range(len(lot.worth)):
            known = self.seen.setdefault(lot.words[row].tobytes(), [])
            if not any(k // across <= i and k % across <= j for k in known):
                known.append(place)
                rows.append(row)
        return lot if len(rows) == len(lot.worth) else lot.take(np.array(rows, dtype=np.int64))

    def _keep(self, i: int, j: int, lot: Lot) -> None:
        size = len(lot.worth)
        while self.count + size > len(self.all.worth):
            more = Lot.room(2 * len(self.all.worth), len(self.counter.slack))
            more.put(0, self.all)
            self.all = more
        self.all.put(self.count, lot)
        top = int(np.argmax(lot.value))
        if lot.value[top] > self.best:
            self.best, self.best_box = int(lot.value[top]), self.count + top
            self.need = max(self.need, (self.best + 1) * self.step)
        if self.sizes == len(self.groups):
            self.groups = np.concatenate([self.groups, np.zeros_like(self.groups)])
        long, wide = self.grid.xs.at[i], self.grid.ys.at[j]
        self.groups[self.sizes] = (i, j, long, wide, self.count, size, lot.worth[0])
        self.sizes += 1
        self.count += size

    def _grow(self, group: int) -> None:
        """Join the boxes of one size to all boxes there are."""
        rows = self.groups[: self.sizes]
        _, _, long, wide, first, number, best = self.groups[group]
        for way in self.ways:
            across = (rows[:, 2] + long, np.maximum(rows[:, 3], wide))
            if way:
                across = (np.maximum(rows[:, 2], long), rows[:, 3] + wide)
            fit = np.flatnonzero((across[0] <= self.grid.xs.at[-1]) & (across[1] <= self.grid.ys.at[-1]))
            i = self.grid.xs.floor[across[0][fit]]
            j = self.grid.ys.floor[across[1][fit]]
            need = self.need - self.around[i, j]
            good = rows[fit, 6] + best >= need
            if good.any():
                fit, i, j, need = fit[good], i[good], j[good], need[good]
                self._pair(first, number, rows[fit], (i * len(self.grid.ys.at) + j, need, way))

    def _pair(self, first: int, number: int, rows: Ints, result: tuple[Ints, Ints, int]) -> None:
        place, need, way = result
        sizes = rows[:, 5]
        ends = np.cumsum(sizes)
        member = np.arange(int(ends[-1])) + np.repeat(rows[:, 4] - (ends - sizes), sizes)
        place, need = np.repeat(place, sizes), np.repeat(need, sizes)
        short = need - self.all.worth[member]
        step = max(1, CHUNK // len(member))
        for start in range(first, first + number, step):
            mine = np.arange(start, min(start + step, first + number))
            if self.clock() > self.until:
                self.whole = False
                return
            a, b = np.nonzero(self.all.worth[mine][:, None] >= short[None, :])
            if len(a):
                self._join(mine[a], member[b], place[b], way)

    def _join(self, mine: Ints, other: Ints, place: Ints, way: int) -> None:
        words = self.all.words[mine] + self.all.words[other]
        good = (((words + self.counter.slack) & self.counter.spare) == 0).all(axis=1)
        total = self.all.value[mine] + self.all.value[other] + self.plain.ravel()[place]
        good = np.flatnonzero(good & (total * self.step >= self.need))
        if not len(good):
            return
        mine, other, place = mine[good], other[good], place[good]
        made = np.stack([mine, other, np.full(len(mine), way)], axis=1)
        lot = Lot(
            self.all.worth[mine] + self.all.worth[other],
            self.all.value[mine] + self.all.value[other],
            words[good],
            made,
        )
        order = np.argsort(place, kind="stable")
        place = place[order]
        cuts = np.flatnonzero(np.diff(place)) + 1
        across = len(self.grid.ys.at)
        for rows in np.split(order, cuts):
            i, j = divmod(int(place[0]), across)
            self._offer(i, j, lot.take(rows))
            place = place[len(rows) :]

    def read(self, box: int) -> list[tuple[int, int, int]]:
        """A box as (x, y, number of the seed), its corner at 0, 0."""
        found: list[tuple[int, int, int]] = []
        first = self.groups[: self.sizes, 4]
        todo = [(box, 0, 0)]
        while todo:
            box, x, y = todo.pop()
            left, right, way = (int(n) for n in self.all.made[box])
            if right < 0:
                found.append((x, y, left))
                continue
            group = self.groups[int(np.searchsorted(first, left, side="right")) - 1]
            todo.append((left, x, y))
            todo.append((right, x, y + int(group[3])) if way else (right, x + int(group[2]), y))
        return sorted(found)
