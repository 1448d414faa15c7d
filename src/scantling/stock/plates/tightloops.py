"""The inner loops of :mod:`scantling.stock.plates.tightsets`, compiled: boxes of two that waste little."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.partloops import NONE, Table, place_of, put_down
from scantling.stock.question.compiling import compiled

__all__ = ["join_tight", "places_of_sets"]

Ints = NDArray[np.int64]
Small = NDArray[np.int32]
Boxes = tuple[Ints, Small, Small, Ints]
"""Words, lengths and widths of boxes, sorted by word, and the area of the parts in each."""
Box = tuple[Any, Any, Any, Any]
"""Word, length, width, area of the parts."""
Kept = tuple[Ints, Small, Table, int]
"""Rules as :func:`join_tight` takes them, then where boxes are kept and how many are."""
FULL = -1
"""Told instead of how many boxes there are where the table has no room for more."""


@compiled
def places_of_sets(words: Ints, places: Small) -> None:
    """Where the first box of each set is, of words that are sorted."""
    places[:] = NONE
    for at in range(len(words)):
        if not at or words[at] != words[at - 1]:
            places[place_of(words[at], places, words)] = at


@compiled
def box_at(boxes: Boxes, at: int) -> Box:
    """Word, length, width and area of parts, all as wide numbers."""
    return boxes[0][at], np.int64(boxes[1][at]), np.int64(boxes[2][at]), boxes[3][at]


@compiled
def least_waste(one: Box, other: Box) -> int:
    """The lesser waste of two boxes side by side or one on the other."""
    row = (one[1] + other[1]) * max(one[2], other[2])
    stack = max(one[1], other[1]) * (one[2] + other[2])
    return int(min(row, stack) - one[3] - other[3])


@compiled
def put_both(one: Box, other: Box, kept: Kept) -> int:
    """Keep the two boxes side by side and one on the other where they fit and waste little."""
    rules, places, table, filled = kept
    area = one[3] + other[3]
    for stacked in range(2):
        long = max(one[1], other[1]) if stacked else one[1] + other[1]
        wide = one[2] + other[2] if stacked else max(one[2], other[2])
        if long <= rules[0] and wide <= rules[1] and long * wide - area <= rules[2]:
            if filled >= len(table[0]):
                return FULL
            filled = put_down((one[0] + other[0], long, wide), 1, places, table, filled)
    return filled


@compiled
def picked_next(picked: Ints, count: int) -> bool:
    """The next choice of places among so many, in place; False after the last."""
    some = len(picked)
    turn = some - 1
    while turn >= 0 and picked[turn] == count - some + turn:
        turn -= 1
    if turn < 0:
        return False
    picked[turn] += 1
    for after in range(turn + 1, some):
        picked[after] = picked[after - 1] + 1
    return True


@compiled
def join_set(one: Box, at: int, second: Boxes, kept: Kept) -> int:
    """Join a box with those of one set, from the first of them on."""
    rules, places, table, filled = kept
    word = second[0][at]
    while at < len(second[0]) and second[0][at] == word and filled != FULL:
        filled = put_both(one, box_at(second, at), (rules, places, table, filled))
        at += 1
    return filled


@compiled
def join_inside(one: Box, second: tuple[Boxes, Small], kept: Kept) -> int:
    """Join a box with those of every set of some of the parts that it lacks, each looked up."""
    rules, places, table, filled = kept
    boxes, homes = second
    some, count = rules[3], rules[4]
    missing = np.empty(count, np.int64)
    left = 0
    for part in range(count):
        if not (one[0] >> part) & 1:
            missing[left] = np.int64(1) << part
            left += 1
    picked = np.arange(some)
    more = some <= left
    while more and filled != FULL:
        word = np.int64(0)
        for at in picked:
            word += missing[at]
        at = homes[place_of(word, homes, boxes[0])]
        if at != NONE and (2 * some != rules[5] or one[0] < word):
            filled = join_set(one, at, boxes, (rules, places, table, filled))
        more = picked_next(picked, left)
    return filled


@compiled
def join_each(one: Box, second: Boxes, kept: Kept) -> int:
    """Join a box with all those of other parts, one after the other."""
    rules, places, table, filled = kept
    twice = 2 * rules[3] == rules[5]
    for at in range(len(second[0])):
        if one[0] & second[0][at] or (twice and one[0] >= second[0][at]):
            continue
        if least_waste(one, box_at(second, at)) > rules[2]:
            continue
        filled = put_both(one, box_at(second, at), (rules, places, table, filled))
        if filled == FULL:
            break
    return filled


@compiled
def join_tight(
    first: Boxes, second: tuple[Boxes, Small], rules: Ints, places: Small, table: Table, filled: int
) -> int:
    """Put pairs of boxes of different parts side by side and one on the other.

    Parameters
    ----------
    first, second
        Boxes of as many parts or more, and of as many or fewer with where their sets are: nowhere if all
        pairs are to be gone through.
    rules
        Length and width of the sheet, the most that a box may waste, parts of a second box, parts there are,
        parts of both together, from which to before which of the first boxes.
    places, table, filled
        Where boxes are kept, and how many are already.

    Returns
    -------
    int
        How many boxes are kept now; -1 where the table is full.
    """
    for row in range(rules[6], rules[7]):
        if len(second[1]):
            filled = join_inside(box_at(first, row), second, (rules, places, table, filled))
        else:
            filled = join_each(box_at(first, row), second[0], (rules, places, table, filled))
        if filled == FULL:
            break
    return filled
