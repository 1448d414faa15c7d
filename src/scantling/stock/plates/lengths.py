"""Parts of one width from stock of given lengths: what a length yields at most, exactly.

References
----------
.. [1] Gilmore, Gomory, "A linear programming approach to the cutting-stock problem, Part II", Operations
   Research 11 (1963) 863-888: the knapsack over lengths.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.fills import Fill
from scantling.stock.plates.source import Source

__all__ = ["LengthSource"]

Ints = NDArray[np.int64]
COARSE = 10_000
"""Positions along the longest stock in a quick search."""


@dataclass(frozen=True, slots=True)
class LengthSource(Source):
    """Fills of stock lengths, kerf included in all.

    One length after the other filled best, which the planner does itself, is as good as hand rules;
    the linear program is all but exact; and the order of parts on a length is all one.
    """

    stock: Sequence[int]
    parts: Sequence[int]

    def quick(self, worth: Ints, limits: Ints) -> list[tuple[int, Fill]]:
        """Good fills in less time: lengths on a coarse scale, parts rounded up and stock down."""
        unit = max(self.stock) // COARSE
        if unit < 2:
            return []
        coarse = LengthSource([s // unit for s in self.stock], [-(-p // unit) for p in self.parts])
        return coarse.best(worth, limits, 0.0)

    def best(self, worth: Ints, limits: Ints, seconds: float) -> list[tuple[int, Fill]]:
        """For each stock length the most it yields, proven, and a fill that does."""
        end = max(self.stock, default=0)
        table = np.zeros(end + 1, dtype=np.int64)
        steps: list[tuple[int, int, NDArray[np.bool_]]] = []
        for part in np.flatnonzero((worth > 0) & (limits > 0)).tolist():
            length, value = self.parts[part], int(worth[part])
            left, size = min(int(limits[part]), end // length), 1
            while left > 0:
                size = min(size, left)
                left -= size
                if size * length > end:
                    break
                moved = table[: end + 1 - size * length] + size * value
                better = moved > table[size * length :]
                np.maximum(table[size * length :], moved, out=table[size * length :])
                steps.append((part, size, better))
                size *= 2
        return [
            (int(table[long]), Fill(s, self._read(steps, long, len(worth))))
            for s, long in enumerate(self.stock)
        ]

    def _read(self, steps: list[tuple[int, int, NDArray[np.bool_]]], at: int, parts: int) -> Ints:
        counts = np.zeros(parts, dtype=np.int64)
        for part, size, better in reversed(steps):
            step = size * self.parts[part]
            if at >= step and better[at - step]:
                counts[part] += size
                at -= step
        return counts
