"""The inner loops of searching by order, compiled: curves of runs, orders shared out, cut and changed.

Orders, runs and sheets as in :mod:`scantling.stock.plates.orders`. A run is told by its first and last place.
Draws are handed in, and sums are whole numbers: the answers are the same to the last digit.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.stock.question.compiling import compiled

__all__ = ["DRAWS", "NOTHING", "anneal", "boxes_of", "curves_of", "shared_out"]

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
Curve = NDArray[Any]
"""Small whole numbers, by length or by width."""
Tables = tuple[Curve, Curve, Ints]
"""Of runs by first and last place: the least width by length, the least length by width, and what they lack,
by kind of sheet first."""
NOTHING = 10**8
"""The lack of what is past looking at."""
DRAWS = 5
"""Of each change: what it is, two places, the end of the run, whether it is kept; the rest are for swaps."""
SWAPPED, MOVED = 0.5, 0.8
"""Up to which draw two parts are swapped, and one part moved; above it a run is moved."""
MIRRORED = 0.5


@compiled
def lack_of(curve: Curve, long: int, wide: int) -> tuple[int, int]:
    """The least area by which a run reaches past a sheet, and at which length."""
    least, at, none = NOTHING, long, len(curve) - 1
    for length in range(long, none):
        if curve[length] < none:
            over = max(0, int(curve[length]) - wide) * long + (length - long) * wide
            if over < least:
                least, at = over, length
    return least, at


@compiled
def join_halves(curves: Curve, first: int, last: int, least: Curve) -> None:
    """The least of all sums of the curves of the two halves of a run."""
    none = len(least) - 1
    for place in range(len(least)):
        least[place] = none
    for cut in range(first, last):
        for place in range(len(least)):
            # narrow numbers throughout, so that many are worked on at once
            both = least.dtype.type(curves[first, cut, place] + curves[cut + 1, last, place])
            least[place] = both if both < least[place] else least[place]


@compiled
def join_ways(along: Curve, across: Curve, ends: tuple[int, int], curve: Curve) -> None:
    """The lesser of a curve and of another told the other way round; past the ends there is nothing."""
    none = len(curve) - 1
    for place in range(none + 1):
        curve[place] = none
    for place in range(ends[1], -1, -1):
        curve[across[place]] = place
    least = none
    for place in range(ends[0] + 1):
        least = min(least, int(curve[place]), int(along[place]))
        curve[place] = least if least <= ends[1] else none
    for place in range(ends[0] + 1, none + 1):
        curve[place] = none


@compiled
def curve_of(
    run: tuple[int, int],
    copy: int,
    alone: tuple[Curve, Curve],
    ends: Ints,
    tables: Tables,
    room: tuple[Curve, Curve],
) -> None:
    """The curves of one run from those of its shorter ones, or of its only part, the number of a copy."""
    wide, long, _ = tables
    (first, last), (stacked, in_row) = run, room
    if first == last:
        wide[first, first, :] = alone[0][copy]
        long[first, first, :] = alone[1][copy]
        return
    join_halves(wide, first, last, stacked)
    join_halves(long, first, last, in_row)
    join_ways(stacked, in_row, (ends[0], ends[1]), wide[first, last])
    join_ways(in_row, stacked, (ends[1], ends[0]), long[first, last])


@compiled
def lacks_of(curve: Curve, sheets: Ints, lack: Ints) -> None:
    """What a run lacks to fit each kind of sheet."""
    for kind in range(len(sheets)):
        lack[kind] = lack_of(curve, sheets[kind, 0], sheets[kind, 1])[0]


@compiled
def curves_of(
    before: Ints, order: Ints, alone: tuple[Curve, Curve], sheets: Ints, ends: Ints, tables: Tables
) -> None:
    """The curves of all runs, and what each lacks to fit each kind of sheet.

    Parameters
    ----------
    before, order
        Numbers of the copies, as they were when the tables were filled last (-1: they were not), and now.
    alone
        Of each copy the least width by length, and the least length by width. The last place of a curve is
        not looked at, and its number stands for what is too large.
    sheets, ends
        Length and width of each kind; past which length and width nothing is looked at.
    tables
        To be filled: the least width of a run (first, last, length), its least length (first, last, width),
        and what it lacks (kind, first, last).
    """
    wide, _, lack = tables
    count, upto = len(order), len(order)
    room = np.empty(wide.shape[2], wide.dtype), np.empty(wide.shape[2], wide.dtype)
    for first in range(count - 1, -1, -1):
        new = False
        for last in range(first, upto):
            new = new or order[last] != before[last]
            if new:
                curve_of((first, last), order[first], alone, ends, tables, room)
                lacks_of(wide[first, last], sheets, lack[:, first, last])
            if lack[:, first, last].min() >= NOTHING:
                # no longer run of the same parts fits either, nor one that begins before
                upto = last
                break
        lack[:, first, upto:] = NOTHING


@compiled
def taken_back(order: Ints, tried: Ints, tables: Tables, kept: Tables) -> None:
    """The tables of an order as they were kept, where those of another one were filled in."""
    for first in range(len(order)):
        new = False
        for last in range(first, len(order)):
            new = new or order[last] != tried[last]
            if kept[2][:, first, last].min() >= NOTHING:
                break
            if new:
                tables[0][first, last, :] = kept[0][first, last]
                tables[1][first, last, :] = kept[1][first, last]
    tables[2][:] = kept[2]


@compiled
def share_on(first: int, state: int, lack: Ints, steps: Ints, more: NDArray[np.bool_], found: Ints) -> None:
    """Take every run from a place on to one more sheet of every kind."""
    before = found[first, state]
    for kind in range(len(steps)):
        last, to = first, state + steps[kind]
        while more[kind, state] and last < lack.shape[1] and lack[kind, first, last] < NOTHING:
            found[last + 1, to] = min(found[last + 1, to], before + lack[kind, first, last])
            last += 1


@compiled
def shared_out(lack: Ints, steps: Ints, more: NDArray[np.bool_]) -> Ints:
    """By number of parts from the first and state of the sheets used, the least lack.

    ``steps`` tells how far states lie apart that differ by one sheet of a kind, ``more`` whether a state
    takes one more of a kind (kind, state).
    """
    count, states = lack.shape[1], more.shape[1]
    found = np.full((count + 1, states), NOTHING)
    found[0, 0] = 0
    for first in range(count):
        for state in range(states):
            if found[first, state] < NOTHING:
                share_on(first, state, lack, steps, more, found)
    return found


@compiled
def run_before(lack: Ints, found: Ints, upto: int, state: int, sharing: tuple[Ints, Ints]) -> tuple[int, int]:
    """Kind of sheet and first place of the last run before a place; -1 for the kind if there is none."""
    steps, digits = sharing
    for kind in range(len(steps)):
        if (state // steps[kind]) % digits[kind] == 0:
            continue
        for first in range(upto - 1, -1, -1):
            short = lack[kind, first, upto - 1]
            if short < NOTHING and found[first, state - steps[kind]] + short == found[upto, state]:
                return kind, first
    return -1, upto


@compiled
def cut_of(
    wide: Curve, long: Curve, run: tuple[int, int], size: tuple[int, int]
) -> tuple[int, bool, int, int]:
    """Last place of the first half of a run in a box, whether the halves are stacked, and what each takes."""
    first, last = run
    length, width = size
    for cut in range(first, last):
        a, b = int(wide[first, cut, length]), int(wide[cut + 1, last, length])
        if a + b <= width:
            return cut, True, a, b
        a, b = int(long[first, cut, width]), int(long[cut + 1, last, width])
        if a + b <= length:
            return cut, False, a, b
    return last, False, 0, 0


@compiled
def boxes_of(tables: Tables, sheets: Ints, found: Ints, state: int, sharing: tuple[Ints, Ints]) -> Ints:
    """The boxes of the sheets, outer before inner, of an order shared out; none if it cannot be.

    A row each: kind of sheet, first place, last place, last place of its first half (itself if it is not
    cut), length, width, left, bottom, whether it is a whole sheet's.
    """
    wide, long, lack = tables
    count = lack.shape[1]
    rows = np.zeros((2 * count, 9), np.int64)
    filled, upto = 0, count
    while upto:
        kind, first = run_before(lack, found, upto, state, sharing)
        if kind < 0:
            return rows[:0]
        end = lack_of(wide[first, upto - 1], sheets[kind, 0], sheets[kind, 1])[1]
        over = int(wide[first, upto - 1, end])
        rows[filled] = np.array((kind, first, upto - 1, 0, end, over, 0, 0, 1))
        filled += 1
        state, upto = state - sharing[0][kind], first
    at = 0
    while at < filled:
        kind, first, last = rows[at, 0], rows[at, 1], rows[at, 2]
        length, width, x, y = rows[at, 4], rows[at, 5], rows[at, 6], rows[at, 7]
        cut, stacked, a, b = cut_of(wide, long, (first, last), (length, width))
        rows[at, 3] = cut
        if cut < last and stacked:
            rows[filled] = np.array((kind, first, cut, 0, length, a, x, y, 0))
            rows[filled + 1] = np.array((kind, cut + 1, last, 0, length, b, x, y + a, 0))
        elif cut < last:
            rows[filled] = np.array((kind, first, cut, 0, a, width, x, y, 0))
            rows[filled + 1] = np.array((kind, cut + 1, last, 0, b, width, x + a, y, 0))
        filled += 2 * int(cut < last)
        at += 1
    return rows[:filled]


@compiled
def changed(order: Ints, draws: Floats) -> Ints:
    """Two parts swapped, one moved, or a run moved."""
    count = len(order)
    a, b = int(draws[1] * count), int(draws[2] * count)
    new = order.copy()
    if draws[0] < SWAPPED:
        new[a], new[b] = order[b], order[a]
        return new
    end = a + 1 if draws[0] < MOVED else a + 1 + int(draws[3] * (count - a))
    place = min(b, count - (end - a))
    rest = np.concatenate((order[:a], order[end:]))
    new[:place] = rest[:place]
    new[place : place + end - a] = order[a:end]
    new[place + end - a :] = rest[place:]
    return new


@compiled
def mirrored(order: Ints, boxes: Ints, draws: Floats) -> Ints:
    """Another order with the same cuts: what lies on their two sides swapped or not, sheets shuffled."""
    new, count = order.copy(), len(order)
    for at in range(len(boxes) - 1, -1, -1):
        first, last, cut = boxes[at, 1], boxes[at, 2], boxes[at, 3]
        if cut < last and draws[first] < MIRRORED:
            new[first : last + 1] = np.concatenate((new[cut + 1 : last + 1], new[first : cut + 1]))
    sheets = int(boxes[:, 8].sum())
    ranked = np.argsort(draws[count : count + sheets])
    there, shuffled = 0, new.copy()
    for at in ranked:
        first, last = boxes[at, 1], boxes[at, 2]
        shuffled[there : there + last + 1 - first] = new[first : last + 1]
        there += last + 1 - first
    return shuffled


@compiled
def anneal(
    order: Ints,
    lack: int,
    ways: tuple[tuple[Curve, Curve], Ints, Ints, tuple[Ints, Ints], NDArray[np.bool_], Ints],
    tables: tuple[Tables, Tables],
    warmths: Floats,
    draws: Floats,
) -> int:
    """Change an order a little at a time and keep what lacks no more, or by chance a little more.

    Parameters
    ----------
    order
        Changed in place.
    lack
        Of the order; :data:`NOTHING` or more if it is not known: it is then looked at before it is changed.
    ways
        Curves alone, sheets, ends, steps and digits of the states, whether a state takes one more sheet of a
        kind, and the states that are choices of sheets.
    tables
        Room for those of the order tried and of the last one kept.
    warmths, draws
        Of each change.

    Returns
    -------
    int
        What the order lacks now. With 0 the first tables are those of the order.
    """
    alone, sheets, ends, sharing, more, states = ways
    trial, kept = tables
    count = len(order)
    curves_of(np.full(count, -1), order, alone, sheets, ends, trial)
    for of_trial, of_kept in ((trial[0], kept[0]), (trial[1], kept[1])):
        of_kept[:] = of_trial
    kept[2][:] = trial[2]
    for step in range(len(warmths)):
        tried = changed(order, draws[step]) if lack < NOTHING or step else order.copy()
        curves_of(order, tried, alone, sheets, ends, trial)
        found = shared_out(trial[2], sharing[0], more)
        state = states[0]
        for other in states:
            if found[count, other] < found[count, state]:
                state = other
        new = found[count, state]
        if new == 0:
            order[:] = tried
            return 0
        if new < NOTHING and (new <= lack or draws[step, 4] < np.exp((lack - new) / warmths[step])):
            other = mirrored(tried, boxes_of(trial, sheets, found, state, sharing), draws[step, DRAWS:])
            curves_of(tried, other, alone, sheets, ends, trial)
            for of_trial, of_kept in ((trial[0], kept[0]), (trial[1], kept[1])):
                of_kept[:] = of_trial
            kept[2][:] = trial[2]
            order[:], lack = other, new
        else:
            taken_back(order, tried, trial, kept)
    return lack
