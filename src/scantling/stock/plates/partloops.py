"""The inner loops of listing sets of parts, compiled: pairs of boxes, and the least boxes of each set.

Sets and boxes as in :mod:`scantling.stock.plates.partsets`.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.stock.question.compiling import compiled

__all__ = ["NONE", "cheapest_of_sets", "covered_by_more", "join_pairs", "places_anew"]

Ints = NDArray[np.int64]
Small = NDArray[np.int32]
Flags = NDArray[np.uint8]
Marks = NDArray[np.bool_]
Side = tuple[Ints, Small, Small]
"""Words, sides that are added, sides of which the larger counts."""
Table = tuple[Ints, Small, Small, Flags, Small]
"""Of boxes: word, length, width, the ways it is put together (0: kept no more), next one of the set."""
NONE = -1
PAIRS = 2**24
"""So many pairs are looked at in one call, or one box with all it can be paired with."""
MIX = np.uint64(0x9E3779B97F4A7C15)


@compiled
def home_of(word: Any, places: Small) -> int:
    """Where a set is looked for first; as many places as a power of two."""
    mixed = np.uint64(word) * MIX
    return int((mixed ^ (mixed >> np.uint64(29))) >> np.uint64(7)) & (len(places) - 1)


@compiled
def place_of(word: Any, places: Small, words: Ints) -> int:
    """The place of a set, or the free one where it belongs."""
    place = home_of(word, places)
    while places[place] != NONE and words[places[place]] != word:
        place = (place + 1) & (len(places) - 1)
    return place


@compiled
def places_anew(places: Small, table: Table, filled: int) -> None:
    """Fill a larger list of places from the boxes there are."""
    places[:] = NONE
    words, _, _, _, after = table
    for box in range(filled):
        place = place_of(words[box], places, words)
        after[box] = places[place]
        places[place] = box


@compiled
def put_down(box: tuple[Any, Any, Any], way: int, places: Small, table: Table, filled: int) -> int:
    """Keep a box unless one of its set is within it, and none that it is within; how many there are now."""
    word, long, wide = box
    words, longs, wides, ways, after = table
    place = place_of(word, places, words)
    at = places[place]
    while at != NONE:
        if ways[at] and longs[at] == long and wides[at] == wide:
            ways[at] |= np.uint8(way)
            return filled
        if ways[at] and longs[at] <= long and wides[at] <= wide:
            return filled
        if longs[at] >= long and wides[at] >= wide:
            ways[at] = 0
        at = after[at]
    words[filled], longs[filled], wides[filled], ways[filled] = word, long, wide, way
    after[filled] = places[place]
    places[place] = filled
    return filled + 1


@compiled
def join_pairs(first: Side, second: Side, room: Marks, rules: Ints, places: Small, table: Table) -> Ints:
    """Put boxes side by side, as long as there is room in the table, some millions of pairs at most.

    Parameters
    ----------
    first, second
        Sorted by the side that is added.
    room
        By length and width, whether a sheet holds it.
    rules
        The first box to go on from, how many boxes there are, the way that pairs are put together, whether
        length and width are swapped, and of counts the slack and the spare bits (0, 0: one of each part; the
        lowest part is then in the first box).
    places, table
        Where boxes are kept.

    Returns
    -------
    Ints
        The first box to go on from, how many boxes there are now.
    """
    start, filled, way, swapped, slack, spare = rules
    end = room.shape[1] - 1 if swapped else room.shape[0] - 1
    pairs = 0
    for one in range(start, len(first[0])):
        word, along, aside = first[0][one], int(first[1][one]), int(first[2][one])
        low = word & -word
        count = np.searchsorted(second[1], end - along, side="right")
        pairs += count
        if filled + count > len(table[0]) or pairs > max(PAIRS, count):
            return np.array((one, filled))
        for other in range(count):
            more = second[0][other]
            if spare and ((word + more + slack) & spare) != 0:
                continue
            if not spare and ((word & more) != 0 or low > (more & -more)):
                continue
            long, wide = along + int(second[1][other]), max(aside, int(second[2][other]))
            long, wide = (wide, long) if swapped else (long, wide)
            if room[long, wide]:
                filled = put_down((word + more, long, wide), way, places, table, filled)
    return np.array((len(first[0]), filled))


@compiled
def cheapest_of_sets(boxes: tuple[Ints, Small, Small], cheapest: Ints, price: Ints) -> tuple[Ints, Ints]:
    """Of boxes sorted by set: every set that a sheet holds, and the cheapest such sheet.

    ``cheapest`` is the number of that sheet by length and width; the last number, dearest, is none.
    """
    words, long, wide = boxes
    sets, held = np.empty(len(words), np.int64), np.empty(len(words), np.int64)
    filled = 0
    for box in range(len(words)):
        kind = cheapest[long[box], wide[box]]
        if kind == len(price) - 1:
            continue
        if filled and sets[filled - 1] == words[box]:
            if price[kind] < price[held[filled - 1]]:
                held[filled - 1] = kind
        else:
            sets[filled], held[filled] = words[box], kind
            filled += 1
    return sets[:filled], held[:filled]


@compiled
def covered_by_more(sets: tuple[Ints, Ints], larger: tuple[Ints, Ints], parts: tuple[Ints, Ints]) -> Marks:
    """Which sets are within one of a part more that costs no more.

    Parameters
    ----------
    sets, larger
        Their words, and their prices.
    parts
        Of each part the word of one, and the bits of its count.
    """
    words, prices = sets
    size = 2
    while size < 2 * len(words):
        size *= 2
    places = np.full(size, NONE, np.int32)
    for at in range(len(words)):
        places[place_of(words[at], places, words)] = at
    marks = np.zeros(len(words), np.bool_)
    for at in range(len(larger[0])):
        word = larger[0][at]
        for part in range(len(parts[0])):
            if not word & parts[1][part]:
                continue
            found = places[place_of(word - parts[0][part], places, words)]
            if found != NONE and larger[1][at] <= prices[found]:
                marks[found] = True
    return marks
