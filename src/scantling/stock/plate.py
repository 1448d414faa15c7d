"""One plate, edge-to-edge cuts in any number of stages: exact, by dynamic programming over sub-rectangles.

For sheet goods and slabs, where the saw may turn as often as it likes, and as a yardstick for the staged
search.
With a kerf, every part and the plate are taken one kerf larger both ways; the layouts stay the same.

References
----------
.. [1] Christofides, Whitlock, "An algorithm for two-dimensional cutting problems", Operations Research 25
   (1977) 30-44: cuts need only be made at sums of part sizes.
.. [2] Afsharian, Niknejad, Wäscher, "A heuristic, dynamic programming-based approach for a two-dimensional
   cutting problem with defects", OR Spectrum 36 (2014) 971-999: the same with starts behind defects.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = [
    "FreeStrip",
    "Plate",
    "PlatePart",
    "PlateResult",
    "best_clean_cutting",
    "best_cutting",
    "best_free_strips",
]

Ints = NDArray[np.int32]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlatePart:
    """A part that may be cut any number of times; whole units."""

    length: int
    width: int
    value: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeStrip:
    """Strips of one length and any width from the least up; a unit of width is worth one."""

    length: int
    least_width: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """A plate with defects (x, y, length, width) that no part may touch; the saw may. Whole units."""

    length: int
    width: int
    defects: tuple[tuple[int, int, int, int], ...] = ()
    kerf: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateResult:
    """The greatest value, proven, and rectangles (x, y, length, width, part) that reach it."""

    value: int
    placed: tuple[tuple[int, int, int, int, int], ...]


def positions(starts: Sequence[int], steps: Sequence[int], end: int) -> list[int]:
    """Every start plus sums of steps, up to an end."""
    marks = np.zeros(end + 1, dtype=bool)
    marks[[0, *(s for s in starts if 0 <= s <= end)]] = True
    for position in range(end):
        if marks[position]:
            marks[[position + step for step in steps if position + step <= end]] = True
    marks[end] = True
    return [int(p) for p in np.flatnonzero(marks)]


def _clear_of(plate: Plate, x: int, y: Ints, *, length: int, width: int) -> NDArray[np.bool_]:
    """Whether a part is clear of defects at one x and many y."""
    clear = np.ones(len(y), dtype=bool)
    for dx, dy, dl, dw in plate.defects:
        if x < dx + dl and x + length > dx:
            clear &= (y >= dy + dw) | (y + width <= dy)
    return clear


@dataclass(slots=True)
class _Program:
    """Table of the best value of every sub-rectangle: index (x from, x to, y from, y to)."""

    plate: Plate
    xs: list[int]
    ys: list[int]
    table: Ints

    @classmethod
    def of(cls, plate: Plate, xs: list[int], ys: list[int]) -> _Program:
        table = np.zeros((len(xs), len(xs), len(ys), len(ys)), dtype=np.int32)
        return cls(plate=plate, xs=xs, ys=ys, table=table)

    def lay_parts(self, parts: Sequence[PlatePart]) -> None:
        """Value of one part in the lower left corner of each sub-rectangle."""
        at_x, at_y = np.array(self.xs), np.array(self.ys, dtype=np.int32)
        kerf = self.plate.kerf
        for part in parts:
            first_y = np.searchsorted(at_y, at_y + part.width + kerf)
            for i, x in enumerate(self.xs):
                first_x = int(np.searchsorted(at_x, x + part.length + kerf))
                if first_x >= len(self.xs):
                    break
                clear = _clear_of(self.plate, x, at_y, length=part.length, width=part.width)
                for c in np.flatnonzero(clear & (first_y < len(self.ys))):
                    block = self.table[i, first_x:, c, first_y[c] :]
                    np.maximum(block, part.value, out=block)

    def lay_strips(self, strip: FreeStrip) -> None:
        """Value of one strip as wide as each sub-rectangle."""
        at_x, at_y = np.array(self.xs), np.array(self.ys, dtype=np.int32)
        for i, x in enumerate(self.xs):
            first_x = int(np.searchsorted(at_x, x + strip.length + self.plate.kerf))
            if first_x >= len(self.xs):
                break
            for c, y in enumerate(self.ys):
                top = self._first_defect_above(x, y, strip.length)
                widths = at_y[c:] - y - self.plate.kerf
                good = np.where((widths >= strip.least_width) & (y + widths <= top), widths, 0)
                block = self.table[i, first_x:, c, c:]
                np.maximum(block, good[None, :], out=block)

    def _first_defect_above(self, x: int, y: int, length: int) -> int:
        above = [
            dy for dx, dy, dl, dw in self.plate.defects if x < dx + dl and x + length > dx and dy + dw > y
        ]
        return min(above, default=self.ys[-1])

    def solve(self) -> None:
        """Fill the table, narrow sub-rectangles first."""
        count = len(self.xs)
        for span in range(1, count):
            first = np.arange(count - span)
            best = self.table[first, first + span]
            for part in range(1, span):
                np.maximum(
                    best, self.table[first, first + part] + self.table[first + part, first + span], out=best
                )
            self._rip(best)
            self.table[first, first + span] = best

    def _rip(self, best: Ints) -> None:
        """Cuts across y, low sub-rectangles first. ``best`` is (first x, y from, y to)."""
        count = len(self.ys)
        for span in range(2, count):
            low = np.arange(count - span)
            value = best[:, low, low + span]
            for part in range(1, span):
                np.maximum(value, best[:, low, low + part] + best[:, low + part, low + span], out=value)
            best[:, low, low + span] = value

    def read(
        self, parts: Sequence[PlatePart], strip: FreeStrip | None
    ) -> list[tuple[int, int, int, int, int]]:
        """Rectangles that reach the best value of the whole."""
        found: list[tuple[int, int, int, int, int]] = []
        todo = [(0, len(self.xs) - 1, 0, len(self.ys) - 1)]
        while todo:
            i, j, c, d = todo.pop()
            value = int(self.table[i, j, c, d])
            if value == 0:
                continue
            halves = self._split(i, j, c, d)
            if halves is None:
                found.append(self._single(i, j, c, d, parts=parts, strip=strip))
            else:
                todo += halves
        return sorted(found)

    def _split(self, i: int, j: int, c: int, d: int) -> list[tuple[int, int, int, int]] | None:
        value = int(self.table[i, j, c, d])
        along = self.table[i, i + 1 : j, c, d] + self.table[i + 1 : j, j, c, d]
        if len(along) and int(along.max()) == value:
            k = i + 1 + int(np.argmax(along))
            return [(i, k, c, d), (k, j, c, d)]
        across = self.table[i, j, c, c + 1 : d] + self.table[i, j, c + 1 : d, d]
        if len(across) and int(across.max()) == value:
            e = c + 1 + int(np.argmax(across))
            return [(i, j, c, e), (i, j, e, d)]
        return None

    def _single(
        self, i: int, j: int, c: int, d: int, *, parts: Sequence[PlatePart], strip: FreeStrip | None
    ) -> tuple[int, int, int, int, int]:
        x, y, kerf = self.xs[i], self.ys[c], self.plate.kerf
        long, wide = self.xs[j] - x - kerf, self.ys[d] - y - kerf
        value = int(self.table[i, j, c, d])
        if strip is not None:
            return (x, y, strip.length, value, 0)
        here = np.array([y], dtype=np.int32)
        number = next(
            n
            for n, p in enumerate(parts)
            if p.value == value
            and p.length <= long
            and p.width <= wide
            and _clear_of(self.plate, x, here, length=p.length, width=p.width)[0]
        )
        return (x, y, parts[number].length, parts[number].width, number)


def best_cutting(plate: Plate, parts: Sequence[PlatePart]) -> PlateResult:
    """The most valuable parts from one plate, any number of each, proven.

    Time grows with the cube of the number of positions one way and the square of those the other way.

    Examples
    --------
    >>> best_cutting(Plate(length=10, width=6), [PlatePart(length=4, width=3, value=12)]).value
    48
    """
    kerf = plate.kerf
    xs = positions(
        [d[0] + d[2] for d in plate.defects], [p.length + kerf for p in parts], plate.length + kerf
    )
    ys = positions([d[1] + d[3] for d in plate.defects], [p.width + kerf for p in parts], plate.width + kerf)
    program = _Program.of(plate, xs, ys)
    program.lay_parts(parts)
    program.solve()
    return PlateResult(value=int(program.table[0, -1, 0, -1]), placed=tuple(program.read(parts, None)))


def best_free_strips(plate: Plate, strip: FreeStrip) -> PlateResult:
    """The greatest total width of clear strips of one length, proven.

    Examples
    --------
    >>> plate = Plate(length=20, width=10, defects=((3, 4, 2, 2),))
    >>> best_free_strips(plate, FreeStrip(length=10, least_width=3)).value
    18
    """
    kerf = plate.kerf
    xs = positions([d[0] + d[2] for d in plate.defects], [strip.length + kerf], plate.length + kerf)
    program = _Program.of(plate, xs, list(range(plate.width + kerf + 1)))
    program.lay_strips(strip)
    program.solve()
    return PlateResult(value=int(program.table[0, -1, 0, -1]), placed=tuple(program.read((), strip)))


def best_clean_cutting(plate: Plate, parts: Sequence[PlatePart]) -> int:
    """The greatest value from one plate without defects, any number of each part, proven.

    The value of a rectangle then depends on its size alone, which makes the table a plane.

    Examples
    --------
    >>> best_clean_cutting(Plate(length=10, width=6), [PlatePart(length=4, width=3, value=12)])
    48
    """
    kerf = plate.kerf
    xs = np.array(positions((), [p.length + kerf for p in parts], plate.length + kerf))
    ys = np.array(positions((), [p.width + kerf for p in parts], plate.width + kerf))
    table = np.zeros((len(xs), len(ys)), dtype=np.int64)
    for part in parts:
        block = table[xs >= part.length + kerf][:, ys >= part.width + kerf]
        first = (int(np.argmax(xs >= part.length + kerf)), int(np.argmax(ys >= part.width + kerf)))
        if block.size:
            np.maximum(block, part.value, out=table[first[0] :, first[1] :])
    rest_y = [np.searchsorted(ys, ys[j] - ys[1:j], side="right") - 1 for j in range(len(ys))]
    for i in range(1, len(xs)):
        row = table[i]
        rest_x = np.searchsorted(xs, xs[i] - xs[1:i], side="right") - 1
        if len(rest_x):
            np.maximum(row, (table[1:i] + table[rest_x]).max(axis=0), out=row)
        for j in range(2, len(ys)):
            row[j] = max(row[j], int((row[1:j] + row[rest_y[j]]).max()))
    return int(table[-1, -1])
