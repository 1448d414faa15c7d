"""All parts on one sheet: every set of them that lies in a box with little waste, until a box holds all.

What a box wastes, the sheet wastes too: no box may waste more than the sheet's area less that of all parts.
First boxes are held to a share of that which grows with their parts, then to greater shares. With all boxes
that waste no more than the sheet may, the answer is exact: either a layout, or none by edge-to-edge cuts.

References
----------
.. [1] Wang, "Two algorithms for constrained two-dimensional cutting stock problems", Operations Research 31
   (1983) 573-586: boxes of two smaller ones, and a limit to what they waste that is let grow.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from math import comb

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.partloops import NONE, Table
from scantling.stock.plates.partsets import Boxes, PartSets, SetDemand
from scantling.stock.plates.tightloops import FULL, join_tight, places_of_sets

__all__ = ["MOST_COPIES", "TightSets"]

Ints = NDArray[np.int64]
Small = NDArray[np.int32]
Placed = tuple[tuple[int, int, int, int, int], ...]
MOST_COPIES = 62
"""Parts that a word tells apart."""
MOST_BOXES = 4_000_000
"""More boxes with one number of parts end a listing."""
FIRST_ROOM = 1024
LOOKED_UP = 40
"""Looking a set up takes as long as so many pairs."""
PAIRS = 20_000_000
"""About so many pairs are gone through before it is asked whether it is late."""


@dataclass(slots=True)
class TightSets:
    """One sheet that is to hold all parts, one of each.

    Parameters
    ----------
    sheet, parts
        Length and width, kerf included in both; at most :data:`MOST_COPIES` parts.
    turns
        Whether parts may be turned.
    late
        True ends a listing.
    """

    sheet: tuple[int, int]
    parts: list[tuple[int, int]]
    turns: bool
    late: Callable[[], bool]
    sets: PartSets = field(init=False)
    areas: Ints = field(init=False)
    spare: int = field(init=False)
    """The area of the sheet less that of all parts."""
    over: bool = False
    """Whether there were more boxes than are listed."""

    def __post_init__(self) -> None:
        wanted = [1] * len(self.parts)
        asked = SetDemand(sheets=[self.sheet], parts=self.parts, wanted=wanted, turns=self.turns)
        self.sets = PartSets(asked)
        self.areas = np.array([a * b for a, b in self.parts], dtype=np.int64)
        self.spare = self.sheet[0] * self.sheet[1] - int(self.areas.sum())

    def most(self, share: float, number: int) -> int:
        """What a box of a number of parts may waste, at a share of what falls to it by its number."""
        if number == len(self.parts):
            return self.spare
        return min(self.spare, int(share * self.spare * (number - 1) / (len(self.parts) - 1)))

    def exact(self, share: float) -> bool:
        """Whether no box is held to less waste than the sheet, so that an answer is the last word."""
        return self.spare < 0 or self.most(share, 2) >= self.spare

    def laid(self, share: float) -> Placed | None:
        """Left, bottom, length, width and number of each part; None where nothing is found, or it is late."""
        if self.spare < 0:
            return None
        self.sets.layers = self.sets.layers[:2]
        for number in range(2, len(self.parts) + 1):
            boxes = self._layer(number, self.most(share, number))
            if boxes is None:
                return None
            self.sets.layers.append(boxes)
        if not len(self.sets.layers[-1].words):
            return None
        return self.sets.laid(np.ones(len(self.parts), dtype=np.int64), self.sheet)

    def _layer(self, number: int, most: int) -> Boxes | None:
        """All boxes of so many parts that waste no more."""
        room = max(FIRST_ROOM, 4 * len(self.sets.layers[-1].words))
        while room <= MOST_BOXES:
            sides = np.zeros(room, dtype=np.int32)
            table = (
                np.zeros(room, dtype=np.int64),
                sides,
                sides.copy(),
                np.zeros(room, dtype=np.uint8),
                sides.copy(),
            )
            places = np.full(1 << (2 * room - 1).bit_length(), NONE, dtype=np.int32)
            filled = self._fill(number, most, places, table)
            if filled is None:
                return None
            if filled != FULL:
                words, long, wide, ways, _ = table
                kept = np.flatnonzero(ways[:filled])
                kept = kept[np.argsort(words[kept], kind="stable")]
                return Boxes(words[kept], long[kept], wide[kept], ways[kept])
            room *= 4
        self.over = True
        return None

    def _fill(self, number: int, most: int, places: Small, table: Table) -> int | None:
        """How many boxes a table was filled with; None where it is late."""
        filled, count = 0, len(self.parts)
        for some in range(1, number // 2 + 1):
            first, second = self._side(number - some), self._side(some)
            looked_up = comb(count - number + some, some)
            homes = np.zeros(0, dtype=np.int32)
            each = len(second[0])
            if LOOKED_UP * looked_up < each:
                homes = np.full(1 << (2 * each).bit_length(), NONE, dtype=np.int32)
                places_of_sets(second[0], homes)
                each = LOOKED_UP * looked_up
            lot = max(1, PAIRS // max(1, each))
            for start in range(0, len(first[0]), lot):
                if self.late():
                    return None
                upto = min(start + lot, len(first[0]))
                rules = np.array([*self.sheet, most, some, count, number, start, upto], dtype=np.int64)
                filled = join_tight(first, (second, homes), rules, places, table, filled)
                if filled == FULL:
                    return FULL
        return filled

    def _side(self, number: int) -> tuple[Ints, Small, Small, Ints]:
        boxes = self.sets.layers[number]
        area = np.zeros(len(boxes.words), dtype=np.int64)
        for part, one in enumerate(self.areas.tolist()):
            area += one * ((boxes.words >> part) & 1)
        return boxes.words, boxes.long, boxes.wide, area
