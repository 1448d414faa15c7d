"""A first layout in a moment: parts one after the other, each into the free rectangle it leaves least of."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.platebounds import Grid, Shape

__all__ = ["quick_layout"]

Ints = NDArray[np.int64]
Placed = list[tuple[int, int, int]]
Rect = tuple[int, int, int, int]
ORDERS: tuple[Callable[[Shape, int], float], ...] = (
    lambda s, _: s.long * s.wide,
    lambda s, _: s.wide * 1e6 + s.long,
    lambda s, _: s.long * 1e6 + s.wide,
    lambda _, value: value,
    lambda s, value: value / (s.long * s.wide),
)


def quick_layout(grid: Grid, values: Ints, copies: Ints) -> tuple[int, Placed]:
    """The most valuable of a few layouts for edge-to-edge cuts: (x, y, number of the shape)."""
    best: tuple[int, Placed] = (0, [])
    for order, along in product(ORDERS, (False, True)):
        placed = _fill(grid, values, copies, order=order, along=along)
        value = sum(int(values[grid.shapes[n].part]) for *_, n in placed)
        if value > best[0]:
            best = (value, placed)
    return best


def _fill(
    grid: Grid, values: Ints, copies: Ints, *, order: Callable[[Shape, int], float], along: bool
) -> Placed:
    left = copies.copy()
    placed: Placed = []
    free: list[Rect] = [(0, 0, int(grid.xs.at[-1]), int(grid.ys.at[-1]))]
    ranked = sorted(
        range(len(grid.shapes)), key=lambda n: -order(grid.shapes[n], int(values[grid.shapes[n].part]))
    )
    for number in ranked:
        shape = grid.shapes[number]
        while left[shape.part] > 0 and values[shape.part] > 0:
            fits = [r for r in free if shape.long <= r[2] and shape.wide <= r[3]]
            if not fits:
                break
            room = min(fits, key=lambda r: min(r[2] - shape.long, r[3] - shape.wide))
            free.remove(room)
            free += _rest(room, shape, along=along)
            placed.append((room[0], room[1], number))
            left[shape.part] -= 1
    return placed


def _rest(room: Rect, shape: Shape, *, along: bool) -> list[Rect]:
    """What two cuts leave of a rectangle: the first along its longer or its shorter remainder."""
    x, y, long, wide = room
    right, above = long - shape.long, wide - shape.wide
    if (right > above) != along:
        rest = [(x + shape.long, y, right, wide), (x, y + shape.wide, shape.long, above)]
    else:
        rest = [(x + shape.long, y, right, shape.wide), (x, y + shape.wide, long, above)]
    return [r for r in rest if r[2] > 0 and r[3] > 0]
