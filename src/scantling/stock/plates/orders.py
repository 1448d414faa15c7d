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

from scantling.stock.plates.orderloops import DRAWS, NOTHING, anneal, boxes_of, shared_out
from scantling.stock.plates.packing import PackedSheet, Packing, SheetDemand

__all__ = ["order_parts"]

Ints = NDArray[np.int64]
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
BLOCK = 32
"""Places of a curve worked on at once."""


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
    alone: tuple[NDArray[Any], NDArray[Any]] = field(init=False)
    """Of each copy the least width by length, and the least length by width."""

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
        # a number for what is too large, the places of a curve in full blocks, sums of two do not run over
        size = -(-(max(self.ends) + 2) // BLOCK) * BLOCK
        curves = np.full((len(self.parts), size), size - 1, dtype=np.uint8 if size <= 128 else np.int16)
        self.alone = curves, curves.copy()
        for copy, number in enumerate(self.parts):
            for long, wide in self.poses(number):
                if long <= self.ends[0] and wide <= self.ends[1]:
                    np.minimum(self.alone[0][copy, long:], wide, out=self.alone[0][copy, long:])
                    np.minimum(self.alone[1][copy, wide:], long, out=self.alone[1][copy, wide:])

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


@dataclass(slots=True)
class _Search:
    """Orders on their way to a packing cheaper than a cost."""

    orders: _Orders
    late: Callable[[], bool]
    ways: tuple[Any, ...] = field(init=False)
    """As the loops take them."""
    tables: tuple[Any, ...] = field(init=False)

    def __post_init__(self) -> None:
        orders, count = self.orders, len(self.orders.parts)
        digits = [max(c[k] for c in orders.choices) + 1 for k in range(len(orders.kinds))]
        steps = [prod(digits[k + 1 :]) for k in range(len(digits))]
        states = np.array(list(product(*(range(n) for n in digits))))
        self.ways = (
            orders.alone,
            np.array(orders.sheets, dtype=np.int64),
            np.array(orders.ends, dtype=np.int64),
            (np.array(steps, dtype=np.int64), np.array(digits, dtype=np.int64)),
            np.ascontiguousarray((states < np.array(digits) - 1).T),
            np.array(orders.choices, dtype=np.int64) @ np.array(steps, dtype=np.int64),
        )
        curves = np.zeros((count, count, orders.alone[0].shape[1]), dtype=orders.alone[0].dtype)
        lack = np.zeros((len(digits), count, count), dtype=np.int64)
        room = (curves, curves.copy(), lack)
        self.tables = (room, (curves.copy(), curves.copy(), lack.copy()))

    def run(self) -> Packing | None:
        """A packing, or nothing when the steps are over or it is late."""
        rng, count = self.orders.rng, len(self.orders.parts)
        now = [rng.permutation(count) for _ in range(SIDE_BY_SIDE)]
        lack = np.full(SIDE_BY_SIDE, 2 * NOTHING, dtype=np.int64)
        strip = float(np.mean([max(s) for s in self.orders.sheets]))
        for step in range(0, STEPS, WINNERS):
            warmths = strip * WARM * (COLD / WARM) ** (np.arange(step, step + WINNERS) / STEPS)
            for at, order in enumerate(now):
                if self.late():
                    return None
                draws = rng.random((WINNERS, DRAWS + 2 * count))
                lack[at] = anneal(order, int(lack[at]), self.ways, self.tables, warmths, draws)
                if not lack[at]:
                    return self._packing(order)
            ranked, some = np.argsort(lack, kind="stable"), SIDE_BY_SIDE // 4
            for worst, best in zip(ranked[-some:].tolist(), ranked[:some].tolist(), strict=True):
                now[worst], lack[worst] = now[best].copy(), lack[best]
        return None

    def _packing(self, order: Ints) -> Packing:
        """The sheets of an order that lacks nothing, whose tables are filled in."""
        asked, unit, table = self.orders.asked, self.orders.unit, self.tables[0]
        _, sheets, _, sharing, more, states = self.ways
        found = shared_out(table[2], sharing[0], more)
        state = int(states[np.argmin(found[len(order), states])])
        packed: dict[int, PackedSheet] = {}
        for row in boxes_of(table, sheets, found, state, sharing).tolist():
            kind, first, last, _, long, wide, x, y, whole = row
            if whole:
                packed[first] = PackedSheet(self.orders.kinds[kind], [])
            if first == last:
                sheet = packed[max(start for start in packed if start <= first)]
                number = self.orders.parts[int(order[first])]
                length, width = self.orders.poses(number)[0]
                sides = asked.parts[number]
                sides = sides if length <= long and width <= wide else sides[::-1]
                sheet.placed.append((x * unit, y * unit, *sides, number))
                sheet.covered += sides[0] * sides[1]
        found_sheets = tuple(packed.values())
        return Packing(sum(asked.costs[s.kind] for s in found_sheets), found_sheets)


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
        True ends the search; asked before some changes of each order.
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
        packing = _Search(orders, late).run()
        if packing is not None:
            yield packing
            orders = _Orders(asked, rng, packing.cost)
