"""What a rectangle of a plate can yield at most, and what the plate around it can: two tables over sizes.

Parts may be taken any number of times here, so both are bounds where copies are limited.

References
----------
.. [1] Christofides, Whitlock, "An algorithm for two-dimensional cutting problems", Operations Research 25
   (1977) 30-44: the table of what a rectangle yields.
.. [2] Viswanathan, Bagchi, "Best-first search methods for constrained two-dimensional cutting stock
   problems", Operations Research 41 (1993) 768-776: what is left around a rectangle once it is cut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.platespans import positions

__all__ = ["Axis", "Grid", "Shape", "inside", "outside"]

Ints = NDArray[np.int64]
NOTHING = -(2**60)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A part as it lies on the plate, kerf included; turned, it is another shape of the same part."""

    part: int
    long: int
    wide: int


@dataclass(frozen=True, slots=True)
class Axis:
    """Positions one way: sums of sizes up to the end, and the place of every whole number among them."""

    at: Ints
    floor: NDArray[np.int32]
    """For every whole number up to the end, the last position not above it."""
    rest: NDArray[np.int32]
    """For positions i and k <= i, the place of what is left of i beyond k."""

    @classmethod
    def of(cls, sizes: Sequence[int], end: int) -> Axis:
        """Sums of sizes from 0 to the end, and the end."""
        at = np.array(positions(sorted(set(sizes)), end), dtype=np.int64)
        floor = (np.searchsorted(at, np.arange(end + 1), side="right") - 1).astype(np.int32)
        rest = floor[np.maximum(at[:, None] - at[None, :], 0)]
        return cls(at, floor, rest)

    @property
    def half(self) -> Ints:
        """For each position, how many positions lie in its lower half, 0 not counted."""
        return np.searchsorted(self.at, self.at // 2, side="right") - 1


@dataclass(frozen=True, slots=True)
class Grid:
    """A plate's sensible sizes both ways, and the shapes cut from it."""

    xs: Axis
    ys: Axis
    shapes: tuple[Shape, ...]

    @classmethod
    def of(cls, length: int, width: int, shapes: Sequence[Shape]) -> Grid:
        """Sizes that sums of shapes make on a plate of this size, kerf included in all."""
        fitting = tuple(s for s in shapes if s.long <= length and s.wide <= width)
        return cls(
            Axis.of([s.long for s in fitting], length), Axis.of([s.wide for s in fitting], width), fitting
        )


def inside(grid: Grid, values: Ints) -> Ints:
    """The most a rectangle of each size yields at these values of the parts, no limit on copies."""
    xs, ys = grid.xs, grid.ys
    table = np.zeros((len(xs.at), len(ys.at)), dtype=np.int64)
    for shape in grid.shapes:
        value = values[shape.part]
        if value > 0:
            corner = table[
                int(np.searchsorted(xs.at, shape.long)) :, int(np.searchsorted(ys.at, shape.wide)) :
            ]
            np.maximum(corner, value, out=corner)
    half_x, half_y = xs.half, ys.half
    most = int(half_y[-1])
    # a stack's second half is at least as high as its first, so only lower halves are joined
    below = np.arange(1, most + 1)
    allowed = below[None, :] <= half_y[:, None]
    rest_y = ys.rest[:, 1 : most + 1]
    for i in range(1, len(xs.at)):
        row = np.maximum(table[i], table[i - 1])
        if half_x[i]:
            k = slice(1, int(half_x[i]) + 1)
            np.maximum(row, (table[k] + table[xs.rest[i, k]]).max(axis=0), out=row)
        while most and row[-1]:
            joined = np.where(allowed, row[None, 1 : most + 1] + row[rest_y], 0).max(axis=1)
            if np.all(joined <= row):
                break
            np.maximum(row, joined, out=row)
        table[i] = row
    return table


def outside(grid: Grid, within: Ints) -> Ints:
    """The most the rest of the plate yields when a rectangle of each size is cut from it."""
    xs, ys = grid.xs, grid.ys
    table = np.full(within.shape, NOTHING, dtype=np.int64)
    table[-1, -1] = 0
    above = np.tri(len(ys.at), dtype=bool)
    for i in range(len(xs.at) - 1, -1, -1):
        row = table[i]
        if i + 1 < len(xs.at):
            after = slice(i + 1, None)
            np.maximum(row, (table[after] + within[xs.rest[after, i]]).max(axis=0), out=row)
        beside = np.where(above, row[:, None] + within[i][ys.rest], NOTHING)
        np.maximum(row, beside.max(axis=0), out=row)
    return table
