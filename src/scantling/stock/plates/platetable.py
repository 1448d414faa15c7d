"""What every rectangle that cuts of a plate can leave is worth, and the layout behind the whole's worth.

References
----------
.. [1] Gilmore, Gomory, "The theory and computation of knapsack functions", Operations Research 14 (1966)
   1045-1074: the worth of a rectangle is that of one part, or of two rectangles it is cut into.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.platespans import Spans

__all__ = ["Placed", "Singles", "Table"]

Worths = NDArray[np.signedinteger[Any]]
Placed = tuple[int, int, int, int, int]
"""Left, bottom, length, width, number of the part."""


class Singles(Protocol):
    """What one part alone is worth on a rectangle."""

    def raise_to(self, row: Worths, place: int) -> None:
        """Raise the worths of one span along, by its place, with every span across to those of one part."""
        ...

    def single(self, corner: tuple[int, int], size: tuple[int, int], worth: int) -> Placed:
        """Where a part of this worth lies on a rectangle."""
        ...


@dataclass(frozen=True, slots=True)
class Table:
    """The greatest worth of each span along (rows) with each span across (columns)."""

    along: Spans
    across: Spans
    worth: Worths

    @classmethod
    def of(cls, along: Spans, across: Spans, singles: Singles, *, most: float) -> Table:
        """Fill a table; ``most`` is what no worth exceeds."""
        kind = np.int32 if most < 2**31 else np.int64
        worth: Worths = np.zeros((len(along.spans), len(across.spans)), dtype=kind)
        levels = across.levels()
        joined = np.empty(len(across.spans), dtype=kind)
        for place, (row, cuts) in enumerate(zip(worth, along.cuts, strict=True)):
            singles.raise_to(row, place)
            for low, high in cuts[:, :2].tolist():
                np.add(worth[low], worth[high], out=joined)
                np.maximum(row, joined, out=row)
            for level in levels:
                stacks = np.maximum.reduceat(row[level.low] + row[level.high], level.begin)
                mine = row[level.first : level.last]
                np.maximum(mine, stacks, out=mine)
        return cls(along, across, worth)

    @property
    def whole(self) -> int:
        """Worth of the plate."""
        return int(self.worth[-1, -1])

    def read(self, singles: Singles) -> tuple[Placed, ...]:
        """Parts that reach the worth of the plate."""
        placed = []
        a, b = (len(spans.spans) - 1 for spans in (self.along, self.across))
        todo = [(a, b, self.along.begin, self.across.begin)]
        while todo:
            a, b, x, y = todo.pop()
            worth = int(self.worth[a, b])
            if worth == 0:
                continue
            mine = self.along.cuts[a]
            found = np.flatnonzero(self.worth[mine[:, 0], b] + self.worth[mine[:, 1], b] == worth)
            if len(found):
                low, high, before, behind = mine[found[0]].tolist()
                todo += [(low, b, x + before, y), (high, b, x + behind, y)]
                continue
            mine = self.across.cuts[b]
            found = np.flatnonzero(self.worth[a, mine[:, 0]] + self.worth[a, mine[:, 1]] == worth)
            if len(found):
                low, high, before, behind = mine[found[0]].tolist()
                todo += [(a, low, x, y + before), (a, high, x, y + behind)]
                continue
            size = (self.along.spans[a].size, self.across.spans[b].size)
            placed.append(singles.single((x, y), size, worth))
        return tuple(sorted(placed))
