"""The inner loops of pricing, compiled: each is a dynamic program over tables, told in plain loops.

They are compiled when they are first called, which takes some seconds once, and kept beside the code or in
the user's cache folder. Sums are taken in a fixed order: the answers are the same to the last digit.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scantling.stock.question.compiling import compiled

__all__ = [
    "fills_by_height",
    "fills_by_place",
    "ripped",
    "ripped_by_place",
    "row_of_fill",
    "stages_of_fill",
    "strips_chosen",
    "taken_along",
    "upto",
    "worth_more",
]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]
BLOCK = 64
"""Columns of a table worked on at once, so that all its rows of them stay in the nearest memory."""


@compiled
def upto(segments: Floats) -> Floats:
    """Worth of a board up to each position, from the worth of every stretch (to, from)."""
    count = len(segments)
    whole = np.zeros(count)
    for to in range(1, count):
        best = whole[to - 1]
        for start in range(to):
            best = max(best, whole[start] + segments[to, start])
        whole[to] = best
    return whole


@compiled
def taken_along(row: Floats, stretches: Ints) -> float:
    """Worth of a whole board from the worth of a stretch by its length, and of every stretch its length."""
    count = len(stretches)
    whole = np.zeros(count)
    for to in range(1, count):
        best = whole[to - 1]
        for start in range(to):
            best = max(best, whole[start] + row[stretches[to, start]])
        whole[to] = best
    return float(whole[-1])


@compiled
def fills_by_height(values: Floats, sources: Ints, counts: Ints) -> Floats:
    """Worth of a strip of each height and length, no shape more often than it is wanted.

    Parameters
    ----------
    values
        Worth of each shape in a strip of each height: shape (heights, shapes). [money]
    sources
        Where a shape that ends at a length began, below 0 where it cannot: shape (shapes, lengths).
    counts
        How often each shape may be used.
    """
    heights, shapes = values.shape
    lengths = sources.shape[1]
    table = np.zeros((heights, lengths))
    before = np.empty(lengths)
    for height in range(heights):
        row = table[height]
        same = height > 0
        for shape in range(shapes):
            same = same and values[height, shape] == values[height - 1, shape]
        if same:
            row[:] = table[height - 1]
            continue
        for shape in range(shapes):
            value = values[height, shape]
            if value <= 0.0 or counts[shape] < 1:
                continue
            source = sources[shape]
            before[:] = row
            for length in range(lengths):
                place, number = source[length], 1
                best = row[length]
                while place >= 0 and number <= counts[shape]:
                    best = max(best, before[place] + number * value)
                    place, number = source[place], number + 1
                row[length] = best
    return table


@compiled
def stages_of_fill(values: Floats, sources: Ints, counts: Ints) -> Floats:
    """Worth of a strip of one height before the first shape and after each: shape (shapes + 1, lengths)."""
    shapes, lengths = sources.shape
    stages = np.zeros((shapes + 1, lengths))
    for shape in range(shapes):
        value, source, before = values[shape], sources[shape], stages[shape]
        stages[shape + 1] = before
        if value <= 0.0 or counts[shape] < 1:
            continue
        for length in range(lengths):
            place, number = source[length], 1
            best = before[length]
            while place >= 0 and number <= counts[shape]:
                best = max(best, before[place] + number * value)
                place, number = source[place], number + 1
            stages[shape + 1, length] = best
    return stages


@compiled
def worth_more(fill: Floats) -> Flags:
    """Whether a strip of each height is anywhere worth more than one of the height below."""
    heights, lengths = fill.shape
    useful = np.zeros(heights, dtype=np.bool_)
    for height in range(heights):
        for length in range(lengths):
            least = 0.0 if height == 0 else fill[height - 1, length]
            if fill[height, length] > least:
                useful[height] = True
                break
    return useful


@compiled
def ripped(strips: Ints, useful: Flags, rows: int, fill: Floats) -> Floats:
    """Worth of a segment ripped into strips, by row and by whatever the second axis of ``fill`` counts.

    ``strips`` are (first row, number of the fill, next row) by first row; ``useful`` says by that number
    which to look at.
    """
    columns = fill.shape[1]
    table = np.zeros((rows, columns))
    for low in range(0, columns, BLOCK):
        high = min(columns, low + BLOCK)
        last = 0
        for strip in range(len(strips)):
            first, number, to = strips[strip, 0], strips[strip, 1], strips[strip, 2]
            if not useful[number]:
                continue
            while last < first:
                last += 1
                for column in range(low, high):
                    table[last, column] = max(table[last, column], table[last - 1, column])
            for column in range(low, high):
                table[to, column] = max(table[to, column], table[first, column] + fill[number, column])
        while last < rows - 1:
            last += 1
            for column in range(low, high):
                table[last, column] = max(table[last, column], table[last - 1, column])
    return table


@compiled
def ripped_by_place(
    strips: Ints, rows: int, fill: Floats, alike: Ints, clean: Floats, lengths: Ints
) -> Floats:
    """Worth of some stretches by row.

    ``strips`` are (first row, height, next row, number among the touched or -1) by first row. A touched one
    is worth ``fill`` by its like and the stretch, any other ``clean`` by its height and the stretch's length.
    """
    columns = len(lengths)
    table = np.zeros((rows, columns))
    for low in range(0, columns, BLOCK):
        high = min(columns, low + BLOCK)
        last = 0
        for strip in range(len(strips)):
            first, height, to, number = strips[strip]
            while last < first:
                last += 1
                for column in range(low, high):
                    table[last, column] = max(table[last, column], table[last - 1, column])
            if number < 0:
                for column in range(low, high):
                    worth = table[first, column] + clean[height, lengths[column]]
                    table[to, column] = max(table[to, column], worth)
            else:
                gain = fill[alike[number]]
                for column in range(low, high):
                    table[to, column] = max(table[to, column], table[first, column] + gain[column])
        while last < rows - 1:
            last += 1
            for column in range(low, high):
                table[last, column] = max(table[last, column], table[last - 1, column])
    return table


@compiled
def fills_by_place(leads: Ints, worths: Floats, order: Ints, pairs: Ints, begins: Ints) -> Floats:
    """Worth of some touched strips over some spoiled stretches: shape (strips, stretches).

    Parameters
    ----------
    leads
        Where a blank of each length leads to from each position; past the end where it has no room: shape
        (lengths, positions).
    worths
        The best worth of a blank of each length at each position in each strip: shape (lengths, positions,
        strips). [money]
    order
        Numbers of the stretches by where they begin.
    pairs
        The stretches as (to, from).
    begins
        Where stretches begin, rising.
    """
    lengths, _, strips = worths.shape
    found = np.full((strips, len(pairs)), -np.inf)
    count = 0
    for number in range(len(pairs)):
        count = max(count, pairs[number, 0] + 1)
    table = np.empty((count, BLOCK))
    for strip in range(strips):
        told = 0
        for low in range(0, len(begins), BLOCK):
            high = min(len(begins), low + BLOCK)
            wide, start = high - low, begins[low]
            table[start:] = -np.inf
            for column in range(wide):
                table[begins[low + column], column] = 0.0
            for here in range(start, count):
                if here > start:
                    for column in range(wide):
                        table[here, column] = max(table[here, column], table[here - 1, column])
                for length in range(lengths):
                    to, worth = leads[length, here], worths[length, here, strip]
                    if to < count and worth > -np.inf:
                        for column in range(wide):
                            table[to, column] = max(table[to, column], table[here, column] + worth)
            while told < len(order) and pairs[order[told], 1] <= begins[high - 1]:
                pair = order[told]
                column = np.searchsorted(begins, pairs[pair, 1]) - low
                found[strip, pair] = table[pairs[pair, 0], column]
                told += 1
    return found


@compiled
def row_of_fill(leads: Ints, worths: Floats, begin: int) -> Floats:
    """Worth of one touched strip from one position on, by position: ``worths`` (lengths, positions)."""
    count = leads.shape[1]
    best = np.full(count, -np.inf)
    best[begin:] = 0.0
    for here in range(begin, count):
        if here > begin:
            best[here] = max(best[here], best[here - 1])
        for length in range(len(leads)):
            to = leads[length, here]
            if to < count:
                best[to] = max(best[to], best[here] + worths[length, here])
    return best


@compiled
def strips_chosen(table: Floats, strips: Ints, gains: Floats, least: float) -> Ints:
    """Numbers of the strips that make up a segment, lowest first.

    ``table`` is its worth by row, ``gains`` that of the fills; ``strips`` as in :func:`ripped`. What is worth
    no more than ``least`` is left.
    """
    path = np.empty(len(table), dtype=np.int64)
    row, count = len(table) - 1, 0
    while True:
        while row > 0 and table[row - 1] >= table[row]:
            row -= 1
        if row == 0 or table[row] <= least:
            return path[:count][::-1].copy()
        best, chosen = -np.inf, -1
        for strip in range(len(strips)):
            if strips[strip, 2] == row:
                worth = table[strips[strip, 0]] + gains[strips[strip, 1]]
                if chosen < 0 or worth > best:
                    best, chosen = worth, strip
        path[count] = chosen
        count, row = count + 1, strips[chosen, 0]
