"""Boxes of parts as rows of a table: worth, value, counts packed in words, and what each is made of."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["Counter", "Lot"]

Ints = NDArray[np.int64]
WORD_BITS = 62


@dataclass(frozen=True, slots=True)
class Counter:
    """Counts of parts packed in words, one spare bit a part, so that one sum adds and one mask compares."""

    one: Ints
    """Words of one copy of each part."""
    slack: Ints
    """Added to counts, it raises the spare bit of every part above its limit."""
    spare: Ints

    @classmethod
    def of(cls, copies: Ints) -> Counter:
        """Room for each part's limit."""
        places: list[tuple[int, int, int]] = []
        word = used = 0
        for limit in copies.tolist():
            bits = int(limit).bit_length() + 1
            if used + bits > WORD_BITS:
                word, used = word + 1, 0
            places.append((word, used, bits))
            used += bits
        one = np.zeros((len(places), word + 1), dtype=np.int64)
        slack, spare = np.zeros(word + 1, dtype=np.int64), np.zeros(word + 1, dtype=np.int64)
        for part, (w, low, bits) in enumerate(places):
            one[part, w] = 1 << low
            slack[w] += ((1 << (bits - 1)) - 1 - int(copies[part])) << low
            spare[w] += 1 << (low + bits - 1)
        return cls(one, slack, spare)


@dataclass(frozen=True, slots=True)
class Lot:
    """Boxes, a row each: worth at prices, value, packed counts, and what each is made of."""

    worth: Ints
    value: Ints
    words: Ints
    made: Ints
    """Two boxes and 0 if they lie side by side, 1 if one lies on the other; or a seed, -1, -1."""

    def take(self, rows: Ints) -> Lot:
        """Some of them."""
        return Lot(self.worth[rows], self.value[rows], self.words[rows], self.made[rows])

    @classmethod
    def join(cls, lots: list[Lot]) -> Lot:
        """All of several lots."""
        return cls(
            np.concatenate([lot.worth for lot in lots]),
            np.concatenate([lot.value for lot in lots]),
            np.concatenate([lot.words for lot in lots]),
            np.concatenate([lot.made for lot in lots]),
        )

    @classmethod
    def room(cls, size: int, words: int) -> Lot:
        """An empty table to be filled."""
        zeros = np.zeros
        return cls(
            zeros(size, np.int64),
            zeros(size, np.int64),
            zeros((size, words), np.int64),
            zeros((size, 3), np.int64),
        )

    def put(self, start: int, lot: Lot) -> None:
        """Fill rows."""
        rows = slice(start, start + len(lot.worth))
        self.worth[rows], self.value[rows] = lot.worth, lot.value
        self.words[rows], self.made[rows] = lot.words, lot.made
