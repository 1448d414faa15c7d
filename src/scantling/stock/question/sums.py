"""Sums of sizes up to an end, compiled: racks of many sizes have hundreds of thousands of them to look at."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scantling.stock.question.compiling import compiled

__all__ = ["bounded_sums", "thinned"]

Ints = NDArray[np.int64]


@compiled
def one_more(found: Ints, fresh: Ints, step: int, end: int) -> tuple[Ints, Ints]:
    """Sums with some of them, ``fresh``, plus a step up to an end; and which of these are new."""
    both = np.empty(len(found) + len(fresh), dtype=np.int64)
    new = np.empty(len(fresh), dtype=np.int64)
    there = added = old = 0
    for before in fresh:
        place = before + step
        if place > end:
            break
        while old < len(found) and found[old] < place:
            both[there] = found[old]
            there, old = there + 1, old + 1
        if old == len(found) or found[old] > place:
            both[there] = new[added] = place
            there, added = there + 1, added + 1
    while old < len(found):
        both[there] = found[old]
        there, old = there + 1, old + 1
    return both[:there], new[:added]


@compiled
def bounded_sums(starts: Ints, steps: Ints, counts: Ints, end: int, most: int) -> Ints:
    """All starts plus steps up to an end, none taken more often than its count; none if they are too many.

    Parameters
    ----------
    starts
        Rising, from 0 to ``end``, each once.
    steps, counts
        Sizes above 0, and how often each may be taken. Short ones first: where there are too many sums, that
        is soon known.
    end
        The greatest sum that counts.
    most
        More are too many.

    Returns
    -------
    array
        Rising; empty where there are more than ``most``.
    """
    found = starts.copy()
    for number in range(len(steps)):
        fresh = found
        for _ in range(counts[number]):
            found, fresh = one_more(found, fresh, steps[number], end)
            if len(fresh) == 0:
                break
            if len(found) > most:
                return np.empty(0, dtype=np.int64)
    return found


@compiled
def thinned(positions: Ints, step: int, most: int) -> Ints:
    """The first of some rising positions, then each time the next more than a step on; ``most`` at most."""
    kept = np.empty(min(most, len(positions)), dtype=np.int64)
    here = count = 0
    while here < len(positions) and count < len(kept):
        kept[count] = positions[here]
        here = np.searchsorted(positions, positions[here] + step, side="right")
        count += 1
    return kept[:count]
