"""The two ways of cutting a plate into limited parts: turning the saw as often as wished, or once.

Each has its bound without limits on copies and its search by boxes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.boxes import Boxes
from scantling.stock.plates.lots import Counter, Lot
from scantling.stock.plates.platebounds import Grid, inside, outside
from scantling.stock.plates.plateprices import SCALE, Prices, read_counts
from scantling.stock.plates.quickplate import quick_layout

__all__ = ["AnyStages", "Found", "TwoStages"]

Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Found:
    """A layout (x, y, number of the shape), its value, and whether nothing was left out in finding it."""

    value: int
    placed: tuple[tuple[int, int, int], ...]
    whole: bool


def _single_parts(
    grid: Grid, worth: Ints, values: Ints, counter: Counter
) -> tuple[list[tuple[int, int]], Lot]:
    """Every shape as a box: its place both ways, and its row."""
    part = np.array([s.part for s in grid.shapes], dtype=np.int64)
    places = [(int(grid.xs.floor[s.long]), int(grid.ys.floor[s.wide])) for s in grid.shapes]
    made = np.full((len(part), 3), -1, dtype=np.int64)
    made[:, 0] = np.arange(len(part))
    return places, Lot(worth[part], values[part], counter.one[part], made)


@dataclass(slots=True)
class AnyStages:
    """Cuts in any number of stages."""

    grid: Grid
    values: Ints
    copies: Ints
    plain: Ints = field(init=False)

    def __post_init__(self) -> None:
        self.plain = outside(self.grid, inside(self.grid, self.values))

    def relaxed(self, worth: Ints) -> tuple[int, Ints]:
        """The most a layout without limits is worth, and its counts."""
        table = inside(self.grid, worth)
        return int(table[-1, -1]), read_counts(self.grid, table, worth)

    def first(self) -> Found:
        """A layout in a moment."""
        value, placed = quick_layout(self.grid, self.values, self.copies)
        return Found(value, tuple(placed), whole=False)

    def search(
        self, prices: Prices, *, need: int, cap: int, until: float, clock: Callable[[], float]
    ) -> Found:
        """The best layout worth at least ``need``."""
        worth = self.values * SCALE - prices.price
        counter = Counter.of(self.copies)
        boxes = Boxes(
            grid=self.grid,
            counter=counter,
            around=outside(self.grid, inside(self.grid, worth)) + int((prices.price * self.copies).sum()),
            plain=self.plain,
            cap=cap,
            need=need * SCALE,
            step=SCALE,
            ways=(0, 1),
            clock=clock,
            until=until,
        )
        boxes.run(*_single_parts(self.grid, worth, self.values, counter))
        placed = boxes.read(boxes.best_box) if boxes.best_box >= 0 else []
        return Found(boxes.best, tuple(placed), boxes.whole)


@dataclass(slots=True)
class TwoStages:
    """Strips along the plate, then parts off them, each trimmed to its width."""

    grid: Grid
    values: Ints
    copies: Ints
    plain: tuple[Ints, Ints] = field(init=False)

    def __post_init__(self) -> None:
        self.plain = self._around(self.values)

    def _strips(self, worth: Ints) -> Ints:
        """By length and width of a strip, the most it yields.

        Shapes join the knapsack from the narrowest up, so that one line over the lengths serves all widths.
        """
        xs, ys = self.grid.xs, self.grid.ys
        table = np.zeros((len(xs.at), len(ys.at)), dtype=np.int64)
        line = np.zeros(len(xs.at), dtype=np.int64)
        shapes = [s for s in self.grid.shapes if worth[s.part] > 0 and s.wide <= ys.at[-1]]
        for shape in sorted(shapes, key=lambda s: s.wide):
            first = int(np.searchsorted(xs.at, shape.long))
            while first < len(line):
                # what lies before `first` is settled, and these lengths build on nothing else
                last = int(np.searchsorted(xs.at, xs.at[first] + shape.long))
                rest = line[xs.floor[xs.at[first:last] - shape.long]] + worth[shape.part]
                np.maximum(line[first:last], rest, out=line[first:last])
                first = last
            table[:, int(ys.floor[shape.wide]) :] = line[:, None]
        return table

    def _stack(self, strips: Ints) -> Ints:
        """By width of a plate, the most its strips yield."""
        ys = self.grid.ys
        table: Ints = strips[-1].copy()
        for j in range(1, len(ys.at)):
            table[j] = max(table[j], int((strips[-1, 1 : j + 1] + table[ys.rest[j, 1 : j + 1]]).max()))
        return table

    def _around(self, worth: Ints) -> tuple[Ints, Ints]:
        """The most the rest of the plate yields beside a part of a strip, and beside a whole strip."""
        xs, ys = self.grid.xs, self.grid.ys
        strips = self._strips(worth)
        stack = self._stack(strips)
        whole = stack[ys.rest[-1]]
        beside = strips[xs.rest[-1]] + whole[None, :]
        part = np.maximum.accumulate(beside[:, ::-1], axis=1)[:, ::-1]
        return part, np.broadcast_to(whole, part.shape).copy()

    def relaxed(self, worth: Ints) -> tuple[int, Ints]:
        """The most a layout without limits is worth, and its counts."""
        most, placed = self.layout(worth)
        counts = np.zeros(len(worth), dtype=np.int64)
        for _, _, number in placed:
            counts[self.grid.shapes[number].part] += 1
        return most, counts

    def layout(self, worth: Ints) -> tuple[int, list[tuple[int, int, int]]]:
        """The most a layout without limits is worth, and one that is, as (x, y, number of the shape)."""
        xs, ys = self.grid.xs, self.grid.ys
        strips = self._strips(worth)
        stack = self._stack(strips)
        placed: list[tuple[int, int, int]] = []
        j, y = len(ys.at) - 1, 0
        while stack[j] > 0:
            while stack[j - 1] == stack[j]:
                j -= 1
            k = 1 + int(np.argmax(strips[-1, 1 : j + 1] + stack[ys.rest[j, 1 : j + 1]]))
            i, x = len(xs.at) - 1, 0
            while strips[i, k] > 0:
                i, number = self._last_of(strips, worth, i, k)
                placed.append((x, y, number))
                x += self.grid.shapes[number].long
            y += int(ys.at[k])
            j = int(ys.rest[j, k])
        return int(stack[-1]), placed

    def _last_of(self, strips: Ints, worth: Ints, i: int, j: int) -> tuple[int, int]:
        xs, ys = self.grid.xs, self.grid.ys
        while strips[i - 1, j] == strips[i, j]:
            i -= 1
        for number, s in enumerate(self.grid.shapes):
            if s.long <= xs.at[i] and s.wide <= ys.at[j] and worth[s.part] > 0:
                rest = int(xs.floor[xs.at[i] - s.long])
                if strips[rest, j] + worth[s.part] == strips[i, j]:
                    return rest, number
        raise AssertionError("a strip's table holds a sum of parts")

    def first(self) -> Found:
        """No layout: the search is short."""
        return Found(0, (), whole=False)

    def search(
        self, prices: Prices, *, need: int, cap: int, until: float, clock: Callable[[], float]
    ) -> Found:
        """The best layout worth at least ``need``: all strips that may be in one, then stacks of them."""
        worth = self.values * SCALE - prices.price
        counter = Counter.of(self.copies)
        part, whole = (table + int((prices.price * self.copies).sum()) for table in self._around(worth))

        def boxes(way: int, around: Ints, plain: Ints, need: int) -> Boxes:
            return Boxes(
                grid=self.grid,
                counter=counter,
                around=around,
                plain=plain,
                cap=cap,
                need=need,
                step=SCALE,
                ways=(way,),
                clock=clock,
                until=until,
            )

        rows = boxes(0, part, self.plain[0], need * SCALE)
        rows.run(*_single_parts(self.grid, worth, self.values, counter))
        end = len(self.grid.xs.at) - 1
        seeds = [(end, int(j)) for j in np.repeat(rows.groups[: rows.sizes, 1], rows.groups[: rows.sizes, 5])]
        lot = rows.all.take(np.arange(rows.count))
        lot.made[:] = -1
        lot.made[:, 0] = np.arange(rows.count)
        stacks = boxes(1, whole, self.plain[1], need * SCALE)
        stacks.run(seeds, lot)
        placed = [
            (x, y, n)
            for _, y, strip in (stacks.read(stacks.best_box) if stacks.best_box >= 0 else [])
            for x, _, n in rows.read(strip)
        ]
        return Found(stacks.best, tuple(sorted(placed)), rows.whole and stacks.whole)
