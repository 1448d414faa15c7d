"""Reading the best pattern back out of the tables of worths."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scantling.stock.boards.looks import spoils
from scantling.stock.pricing.loops import strips_chosen
from scantling.stock.pricing.pricedboard import BoardWorth, PricedBoard, clear_spans
from scantling.stock.pricing.pricing import CleanTables, Family
from scantling.stock.question.pattern import Pattern, Segment, Spot, Strip
from scantling.stock.question.problem import Problem, Stock
from scantling.stock.question.shapes import Duals

__all__ = ["EPSILON", "best_pattern", "clean_segment", "clean_spots", "steps_back", "tidied"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
EPSILON = 1e-9


def steps_back(worth: Floats, end: int) -> int:
    """Last position at which the worth was reached."""
    while end > 0 and worth[end - 1] >= worth[end]:
        end -= 1
    return end


def _strip_path(worth: Floats, end: int, *, options: list[tuple[int, Ints, Floats]]) -> list[tuple[int, int]]:
    """Blanks of a strip as (position, option), from tables of worth by position.

    ``options`` are (name of the option, position each start leads to, worth at each start).
    """
    path: list[tuple[int, int]] = []
    while True:
        end = steps_back(worth, end)
        if end == 0 or worth[end] <= EPSILON or not np.isfinite(worth[end]):
            return path[::-1]
        _, start, name = max(
            (found for option in options if (found := _best_start(worth, end, option)) is not None),
            key=lambda found: found[0],
        )
        path.append((start, name))
        end = start


def _best_start(worth: Floats, end: int, option: tuple[int, Ints, Floats]) -> tuple[float, int, int] | None:
    """Best worth, start and name of an option that leads to a position; None where it does not."""
    name, to, gain = option
    starts = np.flatnonzero(to[:end] == end)
    if not len(starts):
        return None
    total = worth[starts] + gain[starts]
    at = int(np.argmax(total))
    return float(total[at]), int(starts[at]), name


def clean_spots(
    family: Family, clean: CleanTables, height: int, end: int, *, origin: tuple[int, int]
) -> list[Spot]:
    """Spots of a strip that meets no defect, up to a length (as an index)."""
    tall, at = int(family.heights[height]), family.lengths.at
    stages = clean.stages_of(family, height)
    spots: list[Spot] = []
    for s in reversed(range(len(family.shapes))):
        shape, value = family.shapes[s], clean.values[height, s]
        width = shape.width if shape.panel < 0 else min(tall, shape.greatest)
        rest, number = end, 0
        while number < clean.counts[s] and stages[s][end] + EPSILON < stages[s + 1][end]:
            rest, number = int(family.sources[s, rest]), number + 1
            if stages[s][rest] + number * value >= stages[s + 1][end] - EPSILON:
                break
        for _ in range(number):
            end = int(family.sources[s, end])
            x, y = origin[0] + int(at[end]), origin[1]
            spots.append(Spot(kind=shape.kind, x=x, y=y, length=shape.length, width=width))
    return spots[::-1]


def tidied(segment: Segment, spots_by_strip: list[list[Spot]]) -> Segment:
    """Close strips and segment around what they hold."""
    for spots in spots_by_strip:
        if spots:
            low = min(s.y for s in spots)
            high = max(s.y + s.width for s in spots)
            segment.strips.append(Strip(y=low, width=high - low, spots=spots))
    ends = [s.x + s.length for strip in segment.strips for s in strip.spots]
    segment.length = max(ends, default=segment.x) - segment.x
    return segment


def clean_segment(
    family: Family,
    clean: CleanTables,
    row: int,
    length: int,
    *,
    origin: tuple[int, int],
) -> Segment:
    """A segment of a given length (as an index) that meets no defect."""
    groups = []
    chosen = strips_chosen(clean.rip[: row + 1, length], family.strips, clean.fill[:, length], EPSILON)
    for number in chosen.tolist():
        first, height, _ = (int(v) for v in family.strips[number])
        place = (origin[0], origin[1] + int(family.rows.at[first]))
        groups.append(clean_spots(family, clean, height, length, origin=place))
    return tidied(Segment(x=origin[0], length=0), groups)


def _finish(pattern: Pattern, stock: Stock) -> Pattern:
    pattern.segments = [s for s in reversed(pattern.segments) if s.strips]
    if stock.rip_first:
        for segment in pattern.segments:
            segment.x, segment.length = 0, round(stock.board.length_mm * 1000)
    return pattern


def _place_in(board: PricedBoard, shape: int, x: int, *, low: int, high: int) -> tuple[int, int]:
    """Lowest height and width of a shape at a place in a strip between two heights, defects left out."""
    stock, item = board.stock, board.family.shapes[shape]
    bad = [d for d in stock.defects if spoils(d[4], item.side) and x < d[2] and x + item.length > d[0]]
    top = min(high, stock.top(x, x + item.length) - stock.y0)
    rooms = [(max(low, a), min(top, b)) for a, b in clear_spans(bad, stock.y0)]
    if item.panel < 0:
        bottom = next(a for a, b in rooms if b - a >= item.width)
        return bottom, item.width
    bottom, upper = max(rooms, key=lambda room: (room[1] - room[0], -room[0]))
    return bottom, min(upper - bottom, item.greatest)


def _fill_touched(board: PricedBoard, strip: Ints, pair: tuple[int, int], *, duals: Duals) -> list[Spot]:
    """Spots of a strip that meets a defect."""
    end, begin = pair
    number = int(strip[3])
    low, high = (int(v) for v in board.touched[number])
    at = board.along.at
    options = []
    for column, (length, _, members) in enumerate(board.columns):
        to = board.along.reach(at + length + board.family.cross, board.family.rounding)
        for s in members:
            gain = board.gains(column, board.family.shapes[s], number, duals)
            options.append((s, to, gain))
    worth = board.row_of_worth(duals, number, begin)
    spots = []
    for start, s in _strip_path(worth, end, options=options):
        x = int(at[start]) + board.stock.x0
        y, width = _place_in(board, s, x, low=low, high=high)
        shape = board.family.shapes[s]
        spots.append(Spot(kind=shape.kind, x=x, y=y + board.stock.y0, length=shape.length, width=width))
    return spots


def _spoiled_segment(
    board: PricedBoard,
    found: BoardWorth,
    pair: tuple[int, int],
    *,
    clean: CleanTables,
    duals: Duals,
) -> Segment:
    number = int(np.flatnonzero((found.pairs == pair).all(axis=1))[0])
    stretch = int(board.stretches[pair])
    first, height, to, touched = board.strips.T
    gains = clean.fill[height, stretch]
    meets = touched >= 0
    gains[meets] = found.fill[board.alike[touched[meets]], number]
    strips = np.column_stack([first, np.arange(len(first)), to])
    x = board.stock.x0 + int(board.along.at[pair[1]])
    groups = []
    for chosen in strips_chosen(found.rip[:, number], strips, gains, EPSILON).tolist():
        strip = board.strips[chosen]
        if strip[3] < 0:
            place = (x, board.stock.y0 + int(board.rows.at[strip[0]]))
            groups.append(clean_spots(board.family, clean, int(strip[1]), stretch, origin=place))
        else:
            groups.append(_fill_touched(board, strip, pair, duals=duals))
    return tidied(Segment(x=x, length=0), groups)


def best_pattern(
    problem: Problem, board: PricedBoard, found: BoardWorth, *, clean: CleanTables, duals: Duals
) -> Pattern:
    """The best pattern of a board that is worked out by place."""
    family = board.family
    spoiled = np.zeros(found.segments.shape, dtype=bool)
    spoiled[board.pairs[:, 0], board.pairs[:, 1]] = True
    row = int(family.rows.below(np.array([board.rows.at[-1]]))[0])
    pattern = Pattern(stock=board.index)
    end = len(board.along.at) - 1
    while True:
        end = steps_back(found.whole, end)
        if end == 0:
            break
        start = int(np.argmax(found.whole[:end] + found.segments[end, :end]))
        if spoiled[end, start]:
            segment = _spoiled_segment(board, found, (end, start), clean=clean, duals=duals)
        else:
            length = int(board.stretches[end, start])
            origin = (board.stock.x0 + int(board.along.at[start]), board.stock.y0)
            segment = clean_segment(family, clean, row, length, origin=origin)
        pattern.segments.append(segment)
        end = start
    return _finish(_turned(pattern, problem.stocks[board.index], board.stock), problem.stocks[board.index])


def _turned(pattern: Pattern, stock: Stock, seen: Stock) -> Pattern:
    """Turn a pattern of a mirrored board back."""
    if seen is stock:
        return pattern
    whole = seen.x1 + stock.x0
    for segment in pattern.segments:
        segment.x = whole - segment.x - segment.length
        for strip in segment.strips:
            strip.spots.reverse()
            for spot in strip.spots:
                spot.x = whole - spot.x - spot.length
    pattern.segments.reverse()
    return pattern
