"""Every set of parts that one sheet can yield by edge-to-edge cuts, where they are few enough to list.

Sets grow part by part: a set lies in a box of two smaller ones side by side, or one on the other. Of each
set only the boxes are kept that no other box of it is within, and a row or stack is put together in one order
alone: first the box with the part of the lowest number.

References
----------
.. [1] Wang, "Two algorithms for constrained two-dimensional cutting stock problems", Operations Research 31
   (1983) 573-586: boxes of two smaller ones.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product
from math import exp, lgamma

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.lots import Counter
from scantling.stock.plates.partloops import (
    NONE,
    Side,
    cheapest_of_sets,
    covered_by_more,
    join_pairs,
    places_anew,
)

__all__ = ["Boxes", "PartSets", "SetDemand"]

Ints = NDArray[np.int64]
Sizes = NDArray[np.int32]
Marks = NDArray[np.bool_]
Box = tuple[int, int]
NOT_A_ROW, NOT_A_STACK = 1, 2
TURNED_WAYS = np.array([0, NOT_A_STACK, NOT_A_ROW, NOT_A_ROW | NOT_A_STACK], dtype=np.uint8)
MOST_OF_A_NUMBER = 2_000_000
"""More boxes with one number of parts end the listing."""
FIRST_ROOM = 1024
"""Boxes there is room for at first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetDemand:
    """Sheets and parts, kerf included in both, how many of each part, and whether they may be turned."""

    sheets: Sequence[Box]
    parts: Sequence[Box]
    wanted: Sequence[int]
    turns: bool = False

    @property
    def about(self) -> float:
        """How many sets there are of no more parts than fill the largest sheet on average, roughly."""
        count = sum(self.wanted)
        area = sum(a * b * n for (a, b), n in zip(self.parts, self.wanted, strict=True))
        some = count * max(a * b for a, b in self.sheets) / max(area, 1)
        shrinks = some / (count - some + 1) if some <= count else 1.0
        if shrinks >= 1.0:
            return 2.0**count
        largest = exp(lgamma(count + 1) - lgamma(some + 1) - lgamma(count - some + 1))
        return min(2.0**count, largest / (1.0 - shrinks))


@dataclass(frozen=True, slots=True)
class Boxes:
    """Boxes side by side as arrays: the set each holds, its size, and the ways it can be put together."""

    words: Ints
    long: Sizes
    wide: Sizes
    ways: NDArray[np.uint8]

    @classmethod
    def of(cls, rows: Sequence[tuple[int, int, int, int]]) -> Boxes:
        """A row a box."""
        words, long, wide, ways = np.array(rows, dtype=np.int64).reshape(-1, 4).T
        return cls(words, long.astype(np.int32), wide.astype(np.int32), ways.astype(np.uint8))

    def take(self, rows: Ints | Marks) -> Boxes:
        """Some of them."""
        return Boxes(self.words[rows], self.long[rows], self.wide[rows], self.ways[rows])

    def turned(self) -> Boxes:
        """Length and width swapped; rows are stacks then."""
        return Boxes(self.words, self.wide, self.long, TURNED_WAYS[self.ways])

    def sides(self) -> tuple[Side, Side]:
        """As the loops take them, shortest first: those that may begin a row, and all."""
        rows = self.take(np.argsort(self.long, kind="stable"))
        first = rows.take((rows.ways & NOT_A_ROW) > 0)
        return (first.words, first.long, first.wide), (rows.words, rows.long, rows.wide)


@dataclass(slots=True)
class _Growing:
    """Boxes with one number of parts as they are found; of each set none that another one is within."""

    room: Marks
    rules: tuple[int, int]
    """Slack and spare bits of counts; 0 for sets of single parts."""
    table: tuple[Ints, Sizes, Sizes, NDArray[np.uint8], Sizes] = field(init=False)
    places: Sizes = field(init=False)
    filled: int = 0

    def __post_init__(self) -> None:
        sides = np.zeros(FIRST_ROOM, dtype=np.int32)
        self.table = (sides.astype(np.int64), sides, sides.copy(), sides.astype(np.uint8), sides.copy())
        self.places = np.full(2 * FIRST_ROOM, NONE, dtype=np.int32)

    def join(self, first: Side, second: Side, *, stacked: bool, late: Callable[[], bool]) -> bool:
        """Take in all pairs of boxes side by side, or one on the other; False where it got late."""
        way, done = NOT_A_ROW if stacked else NOT_A_STACK, 0
        while done < len(first[0]):
            if len(self.table[0]) < self.filled + len(second[0]):
                self._more_room(len(second[0]))
            rules = np.array([done, self.filled, way, int(stacked), *self.rules], dtype=np.int64)
            done, self.filled = join_pairs(first, second, self.room, rules, self.places, self.table).tolist()
            if late() or self.filled > MOST_OF_A_NUMBER:
                return False
        return True

    def _more_room(self, often: int) -> None:
        """Twice the room, and what so many boxes more want."""
        size = 2 * len(self.table[0]) + often
        words, long, wide, ways, after = self.table
        self.table = (
            np.resize(words, size),
            np.resize(long, size),
            np.resize(wide, size),
            np.resize(ways, size),
            np.resize(after, size),
        )
        self.places = np.full(1 << (2 * size - 1).bit_length(), NONE, dtype=np.int32)
        places_anew(self.places, self.table, self.filled)

    def boxes(self) -> Boxes:
        """All that are kept, sorted by set."""
        words, long, wide, ways, _ = self.table
        kept = np.flatnonzero(ways[: self.filled])
        kept = kept[np.argsort(words[kept], kind="stable")]
        return Boxes(words[kept], long[kept], wide[kept], ways[kept])


@dataclass(slots=True)
class PartSets:
    """All sets, by how many parts they hold.

    Parameters
    ----------
    asked
        The question. Counts of all parts must fit a word of 62 bits: one bit a part if one of each is
        wanted, else two or more.
    """

    asked: SetDemand
    counter: Counter = field(init=False)
    single: bool = field(init=False)
    """Whether one of each part is wanted."""
    room: Marks = field(init=False)
    """By length and width, whether a sheet holds it."""
    layers: list[Boxes] = field(init=False)

    def __post_init__(self) -> None:
        wanted = np.array(self.asked.wanted, dtype=np.int64)
        self.single = bool((wanted <= 1).all())
        self.counter = Counter.of(wanted)
        if self.single and len(wanted) <= 62:
            one = (np.int64(1) << np.arange(len(wanted), dtype=np.int64))[:, None]
            self.counter = Counter(one, np.zeros(1, np.int64), np.zeros(1, np.int64))
        ends = [max(s[way] for s in self.asked.sheets) for way in (0, 1)]
        self.room = np.zeros((ends[0] + 1, ends[1] + 1), dtype=bool)
        for long, wide in self.asked.sheets:
            self.room[: long + 1, : wide + 1] = True
        self.layers = [Boxes.of([]), self._alone()]

    @property
    def able(self) -> bool:
        """Whether the counts fit a word."""
        return bool(self.counter.one.shape[1] == 1)

    def _alone(self) -> Boxes:
        """Single parts."""
        rows = []
        for number, (long, wide) in enumerate(self.asked.parts):
            for a, b in {(long, wide), (wide, long)} if self.asked.turns else {(long, wide)}:
                if self.asked.wanted[number] and a < self.room.shape[0] and b < self.room.shape[1]:
                    rows.append((int(self.counter.one[number, 0]), a, b, NOT_A_ROW | NOT_A_STACK))
        found = Boxes.of(rows)
        return found.take(self.room[found.long, found.wide])

    def grow(self, late: Callable[[], bool]) -> bool:
        """List all sets; False where the time was not enough, or they are too many."""
        if not self.able:
            return False
        rules = (0, 0) if self.single else (int(self.counter.slack[0]), int(self.counter.spare[0]))
        sides: list[list[tuple[Side, Side]]] = [[]]
        while len(self.layers[-1].words):
            growing, parts = _Growing(self.room, rules), len(self.layers)
            sides.append([boxes.sides() for boxes in (self.layers[-1], self.layers[-1].turned())])
            for some, stacked in product(range(1, parts), (0, 1)):
                first, second = sides[some][stacked][0], sides[parts - some][stacked][1]
                if not growing.join(first, second, stacked=stacked == 1, late=late):
                    return False
            self.layers.append(growing.boxes())
        return True

    def largest(
        self,
        costs: Sequence[int],
        *,
        kinds: Sequence[int] | None = None,
        late: Callable[[], bool] = lambda: False,
    ) -> tuple[Ints, Ints] | None:
        """Counts of sets, a row each, and the cheapest sheet of each; none that one more part costs nothing.

        What is left covers all parts at no greater cost than all sets, any number of sheets of each kind.
        Only some kinds of sheet may be looked at; None where it gets late.
        """
        cheapest = np.full(self.room.shape, len(costs), dtype=np.int64)
        for kind in sorted(range(len(costs)) if kinds is None else kinds, key=lambda k: -costs[k]):
            long, wide = self.asked.sheets[kind]
            cheapest[: long + 1, : wide + 1] = kind
        price = np.array([*costs, 2**62], dtype=np.int64)
        none = np.zeros(0, dtype=np.int64)
        above, kept, one = (none, none), [(none, none)], self.counter.one[:, 0]
        parts = (one, np.append(one[1:], 2**62) - one)
        for layer in reversed(self.layers):
            if late():
                return None
            words, held = cheapest_of_sets((layer.words, layer.long, layer.wide), cheapest, price)
            alone = ~covered_by_more((words, price[held]), above, parts)
            kept.append((words[alone], held[alone]))
            above = (words, price[held])
        words, held = (np.concatenate(lots) for lots in zip(*kept, strict=True))
        return self.counts(words), held

    def counts(self, words: Ints) -> Ints:
        """How many of each part sets hold, a row each."""
        one = self.counter.one[:, 0]
        above: Ints = np.append(one[1:], 2**62)
        counts: Ints = words[:, None] % above // one
        return counts

    def laid(self, counts: Ints, sheet: Box) -> tuple[tuple[int, int, int, int, int], ...]:
        """Where the parts of a set lie on a sheet: left, bottom, length, width, number of the part."""
        word = int((counts * self.counter.one[:, 0]).sum())
        box = next(b for b in self._boxes(word, int(counts.sum())) if b[0] <= sheet[0] and b[1] <= sheet[1])
        return tuple(sorted(self._laid(word, box, (0, 0))))

    def _boxes(self, word: int, parts: int) -> list[Box]:
        layer = self.layers[parts]
        first, last = np.searchsorted(layer.words, (word, word + 1))
        return list(zip(layer.long[first:last].tolist(), layer.wide[first:last].tolist(), strict=True))

    def _laid(self, word: int, box: Box, at: Box) -> list[tuple[int, int, int, int, int]]:
        counts = self.counts(np.array([word]))[0]
        if counts.sum() == 1:
            return [(*at, *box, int(np.argmax(counts)))]
        for (low, a), (high, b) in self._splits(word, int(counts.sum())):
            if a[0] + b[0] <= box[0] and max(a[1], b[1]) <= box[1]:
                return self._laid(low, a, at) + self._laid(high, b, (at[0] + a[0], at[1]))
            if a[1] + b[1] <= box[1] and max(a[0], b[0]) <= box[0]:
                return self._laid(low, a, at) + self._laid(high, b, (at[0], at[1] + a[1]))
        raise AssertionError("a box of several parts is made of two")

    def _inside(self, words: Ints, word: int) -> Marks:
        """Which sets hold no part more often than one set does."""
        if self.single:
            return np.asarray((words & ~np.int64(word)) == 0)
        spare = self.counter.spare[0]
        return np.asarray((((word | spare) - words) & spare) == spare)

    def _splits(self, word: int, parts: int) -> Iterator[tuple[tuple[int, Box], tuple[int, Box]]]:
        """Every pair of boxes whose parts are those of a set."""
        for some in range(1, parts):
            words = np.unique(self.layers[some].words)
            for low in words[self._inside(words, word)].tolist():
                boxes = product(self._boxes(low, some), self._boxes(word - low, parts - some))
                yield from (((low, a), (word - low, b)) for a, b in boxes)
