"""Prices for scarce parts: what one more copy of a part is worth to a plate, and the bound that follows.

References
----------
.. [1] Gilmore, Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13
   (1965) 94-120. The prices are the duals of the limits on copies over all layouts without limits.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.stock.choosing.master import quiet_solver
from scantling.stock.plates.platebounds import Grid

__all__ = ["SCALE", "Prices", "best_prices", "read_counts"]

Ints = NDArray[np.int64]
SCALE = 720
"""Whole parts of a unit of value, so that bounds are sums of whole numbers and exact."""


@dataclass(frozen=True, slots=True)
class Prices:
    """Prices of parts and the bound they prove, both in units over ``SCALE``."""

    price: Ints
    bound: int


def read_counts(grid: Grid, table: Ints, values: Ints) -> Ints:
    """How often each part is in a layout that reaches the table's last value."""
    counts = np.zeros(len(values), dtype=np.int64)
    todo = [(len(grid.xs.at) - 1, len(grid.ys.at) - 1)]
    while todo:
        i, j = todo.pop()
        value = table[i, j]
        if value <= 0:
            continue
        while i and table[i - 1, j] == value:
            i -= 1
        while j and table[i, j - 1] == value:
            j -= 1
        along = np.flatnonzero(table[1:i, j] + table[grid.xs.rest[i, 1:i], j] == value)
        if len(along):
            k = int(along[0]) + 1
            todo += [(k, j), (int(grid.xs.rest[i, k]), j)]
            continue
        across = np.flatnonzero(table[i, 1:j] + table[i, grid.ys.rest[j, 1:j]] == value)
        if len(across):
            k = int(across[0]) + 1
            todo += [(i, k), (i, int(grid.ys.rest[j, k]))]
            continue
        size = (int(grid.xs.at[i]), int(grid.ys.at[j]))
        fits = (s.part for s in grid.shapes if s.long <= size[0] and s.wide <= size[1])
        counts[next(p for p in fits if values[p] == value)] += 1
    return counts


def best_prices(
    layout: Callable[[Ints], tuple[int, Ints]],
    values: Ints,
    copies: Ints,
    *,
    rounds: int = 200,
    late: Callable[[], bool] = lambda: False,
) -> Prices:
    """Prices of parts with the least bound: layouts without limits are added until none is worth more.

    Parameters
    ----------
    layout
        For the worth of each part, the most a layout without limits is worth and its counts of parts.
    values, copies
        Value and limit of each part.
    rounds
        Most layouts added. The bound is that of the best prices met, so it is proven whenever they end.
    late
        True ends them after the first layout.
    """
    model = quiet_solver()
    parts = len(values)
    model.changeObjectiveSense(_maximize())
    for limit in (*copies.tolist(), 1):
        model.addRow(-model.getInfinity(), float(limit), 0, [], [])
    price = np.zeros(parts, dtype=np.int64)
    best = Prices(price, 2**60)
    for number in range(rounds):
        # half way between the last duals and the best prices met: the duals alone swing widely
        trial = (price + best.price) // 2 if number % 2 else price
        most, counts = layout(values * SCALE - trial)
        bound = most + int((trial * copies).sum())
        if bound < best.bound:
            best = Prices(trial, bound)
        ids = np.append(np.flatnonzero(counts), parts).astype(np.int32)
        value = float((counts * values).sum())
        model.addCol(value, 0.0, model.getInfinity(), len(ids), ids, np.append(counts[ids[:-1]], 1.0))
        model.run()
        if late() or best.bound <= model.getInfo().objective_function_value * SCALE + parts:
            break
        duals = np.abs(np.array(model.getSolution().row_dual))
        price = np.rint(duals[:parts] * SCALE).astype(np.int64)
    return best


def _maximize() -> object:
    from highspy import _core

    return _core.ObjSense.kMaximize
