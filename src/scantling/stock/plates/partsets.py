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
from dataclasses import dataclass, field, replace
from itertools import product
from math import exp, lgamma

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.lots import Counter

__all__ = ["PartSets", "SetDemand"]

Ints = NDArray[np.int64]
Sizes = NDArray[np.int32]
Marks = NDArray[np.bool_]
Box = tuple[int, int]
NOT_A_ROW, NOT_A_STACK = 1, 2
TURNED_WAYS = np.array([0, NOT_A_STACK, NOT_A_ROW, NOT_A_ROW | NOT_A_STACK], dtype=np.uint8)
PAIRS = 1_000_000
"""So many pairs of boxes are looked at together."""
MOST_OF_A_NUMBER = 400_000
"""More boxes with one number of parts end the listing."""
WAITING = 1_500_000
"""So many boxes may wait to be compared with others of their set."""


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
class _Boxes:
    """Boxes side by side as arrays: the set each holds, its size, and the ways it can be put together."""

    words: Ints
    long: Sizes
    wide: Sizes
    ways: NDArray[np.uint8]

    @classmethod
    def of(cls, rows: Sequence[tuple[int, int, int, int]]) -> _Boxes:
        """A row a box."""
        words, long, wide, ways = np.array(rows, dtype=np.int64).reshape(-1, 4).T
        return cls(words, long.astype(np.int32), wide.astype(np.int32), ways.astype(np.uint8))

    @classmethod
    def join(cls, lots: Sequence[_Boxes]) -> _Boxes:
        """All of several."""
        return cls(
            np.concatenate([lot.words for lot in lots]),
            np.concatenate([lot.long for lot in lots]),
            np.concatenate([lot.wide for lot in lots]),
            np.concatenate([lot.ways for lot in lots]),
        )

    def take(self, rows: Ints | Marks) -> _Boxes:
        """Some of them."""
        return _Boxes(self.words[rows], self.long[rows], self.wide[rows], self.ways[rows])

    def turned(self) -> _Boxes:
        """Length and width swapped; rows are stacks then."""
        return _Boxes(self.words, self.wide, self.long, TURNED_WAYS[self.ways])

    def least(self) -> _Boxes:
        """Sorted by set and length, without boxes that another box of the set is within."""
        sizes = self.long.astype(np.int64) << 32 | self.wide
        order = np.lexsort((sizes, self.words))
        boxes, sizes = self.take(order), sizes[order]
        new = np.ones(len(sizes), dtype=bool)
        new[1:] = (np.diff(boxes.words) != 0) | (np.diff(sizes) != 0)
        first = np.flatnonzero(new)
        if len(first) < len(new):
            ways = np.bitwise_or.reduceat(boxes.ways, first)
            boxes = boxes.take(first)
            boxes = replace(boxes, ways=ways)
        while True:
            within = np.zeros(len(boxes.words), dtype=bool)
            within[1:] = (np.diff(boxes.words) == 0) & (np.diff(boxes.wide) >= 0)
            if not within.any():
                return boxes
            boxes = boxes.take(~within)


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
    layers: list[_Boxes] = field(init=False)

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
        self.layers = [_Boxes.of([]), self._alone()]

    @property
    def able(self) -> bool:
        """Whether the counts fit a word."""
        return bool(self.counter.one.shape[1] == 1)

    def _alone(self) -> _Boxes:
        """Single parts."""
        rows = []
        for number, (long, wide) in enumerate(self.asked.parts):
            for a, b in {(long, wide), (wide, long)} if self.asked.turns else {(long, wide)}:
                if self.asked.wanted[number] and a < self.room.shape[0] and b < self.room.shape[1]:
                    rows.append((int(self.counter.one[number, 0]), a, b, NOT_A_ROW | NOT_A_STACK))
        found = _Boxes.of(rows)
        return found.take(self.room[found.long, found.wide]).least()

    def grow(self, late: Callable[[], bool]) -> bool:
        """List all sets; False where the time was not enough, or they are too many."""
        if not self.able:
            return False
        while len(self.layers[-1].words):
            found: list[_Boxes] = []
            for lot in self._next():
                found.append(lot)
                if sum(len(lot.words) for lot in found[1:]) > WAITING:
                    found = [_Boxes.join(found).least()]
                if late() or len(found[0].words) > MOST_OF_A_NUMBER:
                    return False
            self.layers.append(_Boxes.join(found).least() if found else self.layers[0])
        return True

    def _next(self) -> Iterator[_Boxes]:
        """Boxes with one part more than the last."""
        parts = len(self.layers)
        for first in range(1, parts):
            yield from self._pairs(self.layers[first], self.layers[parts - first])

    def _pairs(self, first: _Boxes, second: _Boxes) -> Iterator[_Boxes]:
        """Rows, then stacks, of a box and another."""
        yield from self._rows(first, second, self.room)
        for lot in self._rows(first.turned(), second.turned(), self.room.T):
            yield lot.turned()

    def _rows(self, first: _Boxes, second: _Boxes, room: Marks) -> Iterator[_Boxes]:
        first = first.take((first.ways & NOT_A_ROW) > 0)
        first = first.take(np.argsort(first.long, kind="stable"))
        second = second.take(np.argsort(second.long, kind="stable"))
        low, others = first.words & -first.words, second.words & -second.words
        start, end = 0, room.shape[0] - 1
        while start < len(first.words):
            count = int(np.searchsorted(second.long, end - first.long[start], side="right"))
            if not count:
                return
            mine = slice(start, start + max(1, PAIRS // count))
            start = mine.stop
            apart = self._apart(first.words[mine, None], second.words[None, :count])
            apart &= low[mine, None] < others[None, :count] if self.single else True
            a, b = np.nonzero(apart)
            a += mine.start
            long = first.long[a] + second.long[b]
            wide = np.maximum(first.wide[a], second.wide[b])
            fits = np.flatnonzero(room[np.minimum(long, end), wide] & (long <= end))
            words = first.words[a[fits]] + second.words[b[fits]]
            ways = np.full(len(words), NOT_A_STACK, dtype=np.uint8)
            yield _Boxes(words, long[fits], wide[fits], ways)

    def _apart(self, first: Ints, second: Ints) -> Marks:
        """Whether no part is in two sets more often than it is wanted."""
        if self.single:
            return np.asarray((first & second) == 0)
        return np.asarray(((first + second + self.counter.slack[0]) & self.counter.spare[0]) == 0)

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
        above, kept = (none, none), [(none, none)]
        for layer in reversed(self.layers):
            boxes = layer.take(cheapest[layer.long, layer.wide] < len(costs))
            held = cheapest[boxes.long, boxes.wide]
            order = np.lexsort((price[held], boxes.words))
            words, first = np.unique(boxes.words[order], return_index=True)
            held = held[order][first]
            more = np.zeros(len(words), dtype=bool)
            for one in self.counter.one[:, 0] if len(above[0]) else ():
                if late():
                    return None
                at = np.minimum(np.searchsorted(above[0], words + one), len(above[0]) - 1)
                larger = self._apart(words, one) & (above[0][at] == words + one)
                more |= larger & (price[above[1][at]] <= price[held])
            kept.append((words[~more], held[~more]))
            above = (words, held)
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
