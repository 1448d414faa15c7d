"""Reduced positions: the only places along an edge where a cut can be worth making.

Pushed towards one end, every blank rests against that end, a defect or the kerf behind another blank, so
its place is a start plus a sum of blank sizes and kerfs. Where there are too many sums, some are left out:
rounding down to the ones kept then gives a bound, rounding up gives something that can be cut.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from scantling.stock.question.sums import bounded_sums, thinned

__all__ = ["Axis", "Rounding", "make_axis", "make_double_axis", "make_parted_axis"]

Ints = NDArray[np.int64]


class Rounding(StrEnum):
    """Which way sizes are rounded where positions were left out."""

    BOUND = "bound"
    CUTTABLE = "cuttable"


@dataclass(frozen=True, slots=True)
class Axis:
    """Positions in rising order.

    Every position left out lies at most ``slack`` above one that was kept; 0 where none is left out.
    """

    at: NDArray[np.int64]
    slack: int

    @property
    def exact(self) -> bool:
        """Whether no position is missing."""
        return self.slack == 0

    def reach(self, values: NDArray[np.int64], rounding: Rounding) -> NDArray[np.int64]:
        """Index of the position that a blank ending at a value leads to; the number of positions if none.

        Parameters
        ----------
        values
            Ends with their kerf. [units]
        rounding
            By the slack down for a bound, up for what can be cut.
        """
        slack = self.slack if rounding is Rounding.BOUND else 0
        found = np.searchsorted(self.at, values - slack, side="left")
        return np.where(values > self.at[-1], len(self.at), found)

    def latest(self, rounding: Rounding) -> NDArray[np.int64]:
        """The furthest a position may stand for: the position itself, or its slack more for a bound."""
        if rounding is Rounding.CUTTABLE:
            return self.at
        furthest: NDArray[np.int64] = np.minimum(self.at + self.slack, self.at[-1])
        return furthest

    def below(self, values: NDArray[np.int64]) -> NDArray[np.int64]:
        """Index of the last position not above a value."""
        return np.searchsorted(self.at, values, side="right") - 1


def _sums(starts: Iterable[int], steps: dict[int, int], end: int, *, most: int) -> Ints | None:
    """All starts plus bounded sums of steps up to an end, rising; None where there are more than ``most``."""
    useful = [(step, min(count, end // step)) for step, count in sorted(steps.items()) if 0 < step <= end]
    sizes = np.array(useful, dtype=np.int64).reshape(-1, 2)
    first = np.array(sorted({s for s in starts if 0 <= s <= end}), dtype=np.int64)
    if not len(first):
        return first
    found = bounded_sums(first, sizes[:, 0].copy(), sizes[:, 1].copy(), end, most)
    return found if len(found) else None


def _thinned(positions: Ints, must: Ints, step: int, *, most: int) -> Ints:
    """Positions of which every one left out lies at most a step above one kept; if too many, not all."""
    return np.unique(np.concatenate([must, thinned(positions, step, most + len(must) + 1)]))


def _axis(found: Ints | None, must: set[int], *, end: int, cap: int) -> Axis:
    """Positions as they are, or, where there are more than the cap, as few as lose least."""
    needed = np.array(sorted(must), dtype=np.int64)
    pool = np.arange(0, end + 1, 250) if found is None else np.union1d(found, needed)
    if found is not None and len(pool) <= cap:
        return Axis(at=pool, slack=0)
    grid = 0 if found is not None else 250
    low, high = 0, max(1, 4 * end // cap)
    while high - low > 20:
        middle = (low + high) // 2
        if len(_thinned(pool, needed, middle, most=cap)) <= cap:
            high = middle
        else:
            low = middle
    return Axis(at=_thinned(pool, needed, high, most=len(pool)), slack=high + grid)


def make_axis(
    starts: Iterable[int], *, steps: dict[int, int], end: int, keep: Iterable[int] = (), cap: int
) -> Axis:
    """Positions from 0 to an end, everything pushed towards 0.

    Parameters
    ----------
    starts
        Places where a row of blanks may begin, besides 0. [units]
    steps
        Sizes with their kerf, and how many there are of each. [units]
    end
        Last position; always kept. [units]
    keep
        More positions that must be there. [units]
    cap
        Number of positions above which some are left out.
    """
    must = {0, end, *(k for k in keep if 0 <= k <= end)}
    found = _sums({0, *starts}, steps, end, most=40 * cap)
    return _axis(found, must, end=end, cap=cap)


def make_parted_axis(
    starts: Iterable[int], ends: Iterable[int], *, steps: dict[int, int], end: int, cap: int
) -> Axis:
    """Positions from 0 to an end, blanks that begin left of a parting pushed left, the others pushed right.

    The parting is put where the fewest positions are left. See [1]_.

    Parameters
    ----------
    starts, ends
        Where a row of blanks may begin besides 0, and where one may end with its kerf besides ``end``.
    steps, end, cap
        As in :func:`make_axis`.

    References
    ----------
    .. [1] Côté, Iori, "The meet-in-the-middle principle for cutting and packing problems", INFORMS Journal
       on Computing 30 (2018) 646-661.
    """
    left = _sums({0, *starts}, steps, end, most=40 * cap)
    right = _sums({0, *(end - e for e in ends)}, steps, end, most=40 * cap)
    if left is None or right is None:
        return _axis(None, {0, end}, end=end, cap=cap)
    rising, falling = left, end - right[::-1]
    partings = np.linspace(0, end, 41).astype(np.int64)
    count = np.searchsorted(rising, partings) + len(falling) - np.searchsorted(falling, partings)
    parting = int(partings[int(np.argmin(count))])
    found = np.concatenate([rising[rising < parting], falling[falling >= parting]])
    return _axis(found, {0, end}, end=end, cap=cap)


def make_double_axis(
    starts: Iterable[int], ends: Iterable[int], *, steps: dict[int, int], end: int, cap: int
) -> Axis:
    """Positions from 0 to an end, blanks pushed either way: for strips of free width between the two."""
    left = _sums({0, *starts}, steps, end, most=40 * cap)
    right = _sums({0, *(end - e for e in ends)}, steps, end, most=40 * cap)
    if left is None or right is None:
        return _axis(None, {0, end}, end=end, cap=cap)
    return _axis(np.concatenate([left, end - right]), {0, end}, end=end, cap=cap)
