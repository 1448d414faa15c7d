"""All parts on a few sheets: orders of the parts, each cut as well as edge-to-edge cuts can in that order.

Parts in an order are shared out run by run: every run is one part, or two shorter runs side by side or one
on the other. For each length a table tells the least width of a run, and the other way round, so one order
stands for every nesting of cuts that keeps it, and what it lacks to fit some sheets is found at once. Orders
change a little at a time and are kept by that lack; the two sides of a cut may swap places for nothing.

References
----------
.. [1] Stockmeyer, "Optimal orientations of cells in slicing floorplan designs", Information and Control 57
   (1983) 91-101: the curve of least widths of two boxes joined.
.. [2] Beasley, "Route first-cluster second methods for vehicle routing", Omega 11 (1983) 403-408: an order
   first, then the best way to part it into runs.
.. [3] Kirkpatrick, Gelatt, Vecchi, "Optimization by simulated annealing", Science 220 (1983) 671-680.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import product
from math import prod
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.packing import PackedSheet, Packing, SheetDemand

__all__ = ["order_parts"]

Ints = NDArray[np.int64]
Curves = list[NDArray[Any]]
"""By number of parts less one: of each order and each first part, a curve."""
SIDE_BY_SIDE = 16
"""Orders changed at the same time."""
STEPS = 600
"""Changes of each of them before all are drawn anew."""
SEARCHES = 60
WINNERS = 60
"""After so many changes the best quarter takes the place of the worst."""
WARM, COLD = 1.0, 0.25
"""Lack that is accepted with a chance of 1 in e, first and last, as strips one unit wide of a mean sheet."""
BEYOND = 1.12
"""How far past the sheets' sides runs are looked at, so that a lack is seen before a fit."""
MOST_UNITS = 500
"""Units along the longest side; larger sheets are looked at in coarser ones."""
MOST_PARTS = 80
MOST_CHOICES = 100
"""More choices of sheets that could be cheaper are not looked at."""
NOTHING = 10**8


@dataclass(slots=True)
class _Table:
    """The curves of every run of some orders, and what each run lacks to fit each kind of sheet."""

    wide: Curves
    """By length, the least width."""
    long: Curves
    """By width, the least length."""
    lack: list[Ints]
    """By kind of sheet: of each order, first part and number of parts less one."""


@dataclass(slots=True)
class _Orders:
    """One question being answered."""

    asked: SheetDemand
    rng: np.random.Generator
    below: int
    """Only what costs less is looked for."""
    choices: list[tuple[int, ...]] = field(init=False)
    """How many sheets of each kind hold the material and cost less; none where there are too many."""
    kinds: tuple[int, ...] = field(init=False)
    """The kinds of sheet in any of them."""
    unit: int = field(init=False)
    parts: tuple[int, ...] = field(init=False)
    """Number of the part of every copy wanted."""
    sheets: tuple[tuple[int, int], ...] = field(init=False)
    """Of these kinds, in units, rounded down; parts are rounded up."""
    ends: tuple[int, int] = field(init=False)
    least_wide: NDArray[Any] = field(init=False)
    """Of each copy, by length."""
    least_long: NDArray[Any] = field(init=False)

    def __post_init__(self) -> None:
        self.parts = tuple(n for n, often in enumerate(self.asked.wanted) for _ in range(often))
        found = self._choices()
        self.kinds = tuple(k for k in range(len(self.asked.sizes)) if any(c[k] for c in found))
        self.choices = [tuple(c[k] for k in self.kinds) for c in found]
        sizes = [self.asked.sizes[k] for k in self.kinds] or [(1, 1)]
        self.unit = -(-max(max(s) for s in sizes) // MOST_UNITS)
        self.sheets = tuple((a // self.unit, b // self.unit) for a, b in sizes)
        self.ends = (
            int(BEYOND * max(a for a, _ in self.sheets)),
            int(BEYOND * max(b for _, b in self.sheets)),
        )
        # sums of two must not run over
        kind = np.uint8 if max(self.ends) < 126 else np.int16
        self.least_wide = np.full((len(self.parts), self.ends[0] + 1), self.ends[1] + 1, dtype=kind)
        self.least_long = np.full((len(self.parts), self.ends[1] + 1), self.ends[0] + 1, dtype=kind)
        for copy, number in enumerate(self.parts):
            for long, wide in self.poses(number):
                if long > self.ends[0] or wide > self.ends[1]:
                    continue
                np.minimum(self.least_wide[copy, long:], wide, out=self.least_wide[copy, long:])
                np.minimum(self.least_long[copy, wide:], long, out=self.least_long[copy, wide:])

    def poses(self, number: int) -> list[tuple[int, int]]:
        """Length and width of a part in units, as it lies and turned."""
        long, wide = (-(-side // self.unit) for side in self.asked.parts[number])
        return [(long, wide), (wide, long)] if self.asked.turns else [(long, wide)]

    def _choices(self) -> list[tuple[int, ...]]:
        area = sum(self.asked.parts[n][0] * self.asked.parts[n][1] for n in self.parts)
        areas = [a * b for a, b in self.asked.sizes]
        most = [
            min((self.below - 1) // cost, len(self.parts) if limit is None else limit)
            for cost, limit in zip(self.asked.costs, self.asked.limits, strict=True)
        ]
        if prod(m + 1 for m in most) > MOST_CHOICES**2:
            return []
        found = [
            some
            for some in product(*(range(m + 1) for m in most))
            if sum(n * c for n, c in zip(some, self.asked.costs, strict=True)) < self.below
            and sum(n * a for n, a in zip(some, areas, strict=True)) >= area
        ]
        return found if len(found) <= MOST_CHOICES else []

    def table(self, orders: Ints, most: int) -> _Table:
        """The curves of all runs of at most so many parts."""
        wide, long = [self.least_wide[orders]], [self.least_long[orders]]
        lack = [self._lack(kind, wide[0])[:, :, None] for kind in range(len(self.sheets))]
        count = orders.shape[1]
        for parts in range(2, most + 1):
            starts = count - parts + 1
            stacked = np.full((len(orders), starts, self.ends[0] + 1), self.ends[1] + 1, wide[0].dtype)
            in_row = np.full((len(orders), starts, self.ends[1] + 1), self.ends[0] + 1, wide[0].dtype)
            for first in range(1, parts):
                then, after = parts - first - 1, slice(first, first + starts)
                np.minimum(stacked, wide[first - 1][:, :starts] + wide[then][:, after], out=stacked)
                np.minimum(in_row, long[first - 1][:, :starts] + long[then][:, after], out=in_row)
            wide.append(np.minimum(stacked, _other_way(in_row, self.ends[0])))
            long.append(np.minimum(in_row, _other_way(stacked, self.ends[1])))
            new = [self._lack(kind, wide[-1]) for kind in range(len(self.sheets))]
            if min(n.min() for n in new) >= NOTHING:
                break
            for kind, lacks in enumerate(new):
                rows = np.full((len(orders), count, 1), NOTHING, dtype=np.int64)
                rows[:, :starts, 0] = lacks
                lack[kind] = np.concatenate([lack[kind], rows], axis=2)
        return _Table(wide, long, lack)

    def _lack(self, kind: int, wide: NDArray[Any]) -> Ints:
        """The least area by which runs reach past a sheet."""
        end, top = self.sheets[kind]
        widths = wide[..., end:].astype(np.int64)
        over = np.maximum(widths - top, 0) * end + np.arange(widths.shape[-1]) * top
        over[widths > self.ends[1]] = NOTHING
        least: Ints = over.min(axis=-1)
        return least


def _other_way(curves: NDArray[Any], end: int) -> NDArray[Any]:
    """Of curves that fall, for each value up to an end, the first place at which they are not above it."""
    flat = curves.reshape(-1, curves.shape[-1])
    values = np.arange(len(flat))[:, None] * (end + 2) + np.minimum(flat, end + 1)
    often = np.bincount(values.ravel(), minlength=len(flat) * (end + 2)).reshape(-1, end + 2)
    above = np.cumsum(often[:, :0:-1], axis=1)[:, ::-1]
    return above.astype(curves.dtype).reshape(*curves.shape[:-1], end + 1)


@dataclass(slots=True)
class _Shares:
    """Orders parted into runs for a choice of sheets, so that they lack least."""

    choices: list[tuple[int, ...]]
    shape: tuple[int, ...] = field(init=False)
    """One more than the most sheets of each kind."""
    steps: tuple[int, ...] = field(init=False)
    """How far apart states lie that differ by one sheet of a kind."""
    ends: Ints = field(init=False)

    def __post_init__(self) -> None:
        self.shape = tuple(max(c[k] for c in self.choices) + 1 for k in range(len(self.choices[0])))
        self.steps = tuple(prod(self.shape[k + 1 :]) for k in range(len(self.shape)))
        self.ends = np.array([sum(n * s for n, s in zip(c, self.steps, strict=True)) for c in self.choices])

    def least(self, table: _Table) -> Ints:
        """By order, number of parts from the first and state of the sheets used, the least lack."""
        orders, count, most = table.lack[0].shape
        found = np.full((orders, count + 1, prod(self.shape)), NOTHING, dtype=np.int64)
        found[:, 0, 0] = 0
        free = np.array(list(product(*(range(n) for n in self.shape))))
        for upto in range(1, count + 1):
            parts = np.arange(1, min(upto, most) + 1)
            for kind, step in enumerate(self.steps):
                from_ = np.flatnonzero(free[:, kind] < self.shape[kind] - 1)
                if not len(from_):
                    continue
                lack = table.lack[kind][:, upto - parts, parts - 1]
                best = (found[:, upto - parts][:, :, from_] + lack[:, :, None]).min(axis=1)
                found[:, upto, from_ + step] = np.minimum(found[:, upto, from_ + step], best)
        return np.minimum(found, NOTHING)

    def runs(self, table: _Table, found: Ints, order: int) -> list[tuple[int, int, int]]:
        """The runs of one order that lack least: kind of sheet, first part, number of parts."""
        upto = found.shape[1] - 1
        state = int(self.ends[np.argmin(found[order, upto, self.ends])])
        runs = []
        while upto:
            for (kind, step), parts in product(enumerate(self.steps), range(1, upto + 1)):
                left = (state // step) % self.shape[kind]
                if not left or parts > table.lack[kind].shape[2]:
                    continue
                lack = table.lack[kind][order, upto - parts, parts - 1]
                if found[order, upto - parts, state - step] + lack == found[order, upto, state]:
                    runs.append((kind, upto - parts, parts))
                    upto, state = upto - parts, state - step
                    break
            else:
                raise AssertionError("a lack is the sum of those of its runs")
        return runs


@dataclass(frozen=True, slots=True)
class _Box:
    """A run in a box: its first part and number of parts, length and width, left and bottom."""

    start: int
    parts: int
    long: int
    wide: int
    x: int = 0
    y: int = 0


def _cut(table: _Table, order: int, box: _Box) -> tuple[_Box, _Box]:
    """The two boxes that one cut leaves of a box of several parts."""
    start, parts, long, wide, x, y = box.start, box.parts, box.long, box.wide, box.x, box.y
    for first in range(1, parts):
        then, rest = start + first, parts - first
        a, b = int(table.wide[first - 1][order, start, long]), int(table.wide[rest - 1][order, then, long])
        if a + b <= wide:
            return _Box(start, first, long, a, x, y), _Box(then, rest, long, b, x, y + a)
        a, b = int(table.long[first - 1][order, start, wide]), int(table.long[rest - 1][order, then, wide])
        if a + b <= long:
            return _Box(start, first, a, wide, x, y), _Box(then, rest, b, wide, x + a, y)
    raise AssertionError("a run of several parts is two runs")


def _nested(table: _Table, order: int, whole: _Box) -> Iterator[tuple[_Box, tuple[_Box, ...]]]:
    """Every box of a run, the outer ones first, and the two it is cut into; none for a part."""
    todo = [whole]
    while todo:
        box = todo.pop()
        inner = _cut(table, order, box) if box.parts > 1 else ()
        todo.extend(inner)
        yield box, inner


@dataclass(slots=True)
class _Search:
    """Orders on their way to a packing cheaper than a cost."""

    orders: _Orders
    shares: _Shares
    late: Callable[[], bool]

    def run(self) -> Packing | None:
        """A packing, or nothing when the steps are over or it is late."""
        rng, count = self.orders.rng, len(self.orders.parts)
        now = np.array([rng.permutation(count) for _ in range(SIDE_BY_SIDE)])
        lack = np.full(SIDE_BY_SIDE, 2 * NOTHING, dtype=np.int64)
        strip = float(np.mean([max(s) for s in self.orders.sheets]))
        for step in range(STEPS):
            if self.late():
                return None
            tried = np.array([self._changed(order) for order in now]) if step else now.copy()
            table = self.orders.table(tried, count)
            found = self.shares.least(table)
            new = found[:, count, self.shares.ends].min(axis=1)
            if not new.min():
                return self._packing(tried, table, found, int(new.argmin()))
            warmth = strip * WARM * (COLD / WARM) ** (step / STEPS)
            more = np.minimum(new - lack, NOTHING)
            kept = (more <= 0) | (rng.random(SIDE_BY_SIDE) < np.exp(-np.maximum(more, 0) / warmth))
            for order in np.flatnonzero(kept & (new < NOTHING)):
                tried[order] = self._mirrored(tried[order], table, found, int(order))
            now[kept], lack[kept] = tried[kept], new[kept]
            if step % WINNERS == WINNERS - 1:
                ranked, some = np.argsort(lack, kind="stable"), SIDE_BY_SIDE // 4
                now[ranked[-some:]], lack[ranked[-some:]] = now[ranked[:some]], lack[ranked[:some]]
        return None

    def _changed(self, order: Ints) -> Ints:
        """Two parts swapped, one moved, or a run moved."""
        rng, count, draw = self.orders.rng, len(order), self.orders.rng.random()
        a, b = rng.integers(0, count, 2)
        new = order.copy()
        if draw < 0.5:
            new[a], new[b] = new[b], new[a]
            return new
        end = a + 1 if draw < 0.8 else int(rng.integers(a, count)) + 1
        rest = np.concatenate([order[:a], order[end:]])
        place = min(int(b), len(rest))
        return np.concatenate([rest[:place], order[a:end], rest[place:]])

    def _boxes(self, table: _Table, found: Ints, order: int) -> list[tuple[int, _Box]]:
        """The kind of sheet and the box of every run that an order is parted into."""
        boxes = []
        for kind, start, parts in self.shares.runs(table, found, order):
            end, top = self.orders.sheets[kind]
            widths = table.wide[parts - 1][order, start, end:].astype(np.int64)
            over = np.maximum(widths - top, 0) * end + np.arange(len(widths)) * top
            over[widths > self.orders.ends[1]] = NOTHING
            at = int(over.argmin())
            boxes.append((kind, _Box(start, parts, end + at, int(widths[at]))))
        return boxes

    def _mirrored(self, parts: Ints, table: _Table, found: Ints, order: int) -> Ints:
        """Another order with the same cuts: what lies on their two sides swapped or not, sheets shuffled."""
        rng = self.orders.rng
        boxes = [box for _, box in self._boxes(table, found, order)]
        new = parts.copy()
        for whole in boxes:
            for box, inner in reversed(list(_nested(table, order, whole))):
                if inner and rng.random() < 0.5:
                    run, there = slice(box.start, box.start + box.parts), inner[0].parts
                    new[run] = np.concatenate([new[run][there:], new[run][:there]])
        runs = [new[b.start : b.start + b.parts] for b in boxes]
        return np.concatenate([runs[n] for n in rng.permutation(len(runs))])

    def _packing(self, orders: Ints, table: _Table, found: Ints, order: int) -> Packing:
        """The sheets of an order that lacks nothing."""
        asked, unit, sheets = self.orders.asked, self.orders.unit, []
        for kind, whole in self._boxes(table, found, order):
            sheet = PackedSheet(self.orders.kinds[kind], [])
            for box, inner in _nested(table, order, whole):
                if not inner:
                    number = self.orders.parts[int(orders[order, box.start])]
                    sides = asked.parts[number]
                    long, wide = self.orders.poses(number)[0]
                    sides = sides if long <= box.long and wide <= box.wide else sides[::-1]
                    sheet.placed.append((box.x * unit, box.y * unit, *sides, number))
                    sheet.covered += sides[0] * sides[1]
            sheets.append(sheet)
        return Packing(sum(asked.costs[s.kind] for s in sheets), tuple(sheets))


def order_parts(
    asked: SheetDemand, *, below: int, late: Callable[[], bool], seed: int = 0
) -> Iterator[Packing]:
    """Packings, each cheaper than the one before; none where many sheets or many parts are wanted.

    Parameters
    ----------
    asked
        The question.
    below
        Only what costs less is looked for.
    late
        True ends the search; asked before every step.
    seed
        Of what is drawn.
    """
    if sum(asked.wanted) > MOST_PARTS:
        return
    rng = np.random.default_rng(seed)
    orders = _Orders(asked, rng, below)
    for _ in range(SEARCHES):
        if not orders.choices or late():
            return
        packing = _Search(orders, _Shares(orders.choices), late).run()
        if packing is not None:
            yield packing
            orders = _Orders(asked, rng, packing.cost)
