"""The best pattern of every board for given worths of blanks: dynamic programs over reduced positions.

A board is crosscut into segments, a segment ripped into strips, a strip crosscut into blanks, each trimmed
to width. Three nested knapsacks follow: ``fill`` of a strip by its height and length, ``rip`` of a segment by
its length and the board's width, and the crosscuts of the board. Without defects the first two serve every
board of one kind at once; stretches that hold a defect are worked out by place (see ``pricedboard``).

References
----------
.. [1] Gilmore, Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13
   (1965) 94-120: staged knapsacks as the pricing step. The reduction to sums of sizes follows
   Christofides, Whitlock, "An algorithm for two-dimensional cutting problems", Operations Research 25 (1977)
   30-44.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from scantling.stock.question.axis import Axis, Rounding, make_axis
from scantling.stock.question.problem import Problem, Stock
from scantling.stock.question.shapes import Duals, Shape, shape_values, shapes_for

__all__ = ["CleanTables", "Family", "clean_tables", "make_families"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(slots=True)
class Family:
    """Boards that may give the same shapes, with the positions they share.

    ``lengths`` holds sums of lengths with kerf, ``rows`` sums of widths with kerf, ``heights`` every strip
    height, ``strips`` triples (row where it begins, number of its height, row it leads to).
    """

    shapes: tuple[Shape, ...]
    stocks: tuple[int, ...]
    lengths: Axis
    rows: Axis
    heights: Ints
    strips: Ints
    rounding: Rounding
    cross: int
    rip: int
    sources: Ints = field(init=False)
    """Where each shape that ends at a length began, as an index of ``lengths``; below 0 where it cannot."""

    def __post_init__(self) -> None:
        give = self.lengths.slack if self.rounding is Rounding.BOUND else 0
        at = self.lengths.at + give - self.cross
        self.sources = np.stack([self.lengths.below(at - shape.length) for shape in self.shapes])

    def add_heights(self, heights: Ints) -> None:
        """Take in strip heights of single boards."""
        raw = self.heights[self.strips[:, 1]]
        self.heights = np.union1d(self.heights, heights)
        self.strips[:, 1] = np.searchsorted(self.heights, raw)


def segment_lengths(axis: Axis, lengths: Axis, rounding: Rounding) -> Ints:
    """Index in ``lengths`` of the stretch from position j up to position i: shape (i, j)."""
    stretch = np.maximum(axis.latest(rounding)[:, None] - axis.at[None, :], 0)
    return lengths.below(stretch)


@dataclass(slots=True)
class CleanTables:
    """Worths without defects: of strips (heights, lengths) and of segments (rows, lengths)."""

    fill: Floats
    rip: Floats
    values: Floats
    counts: tuple[int, ...]
    stages: dict[int, list[Floats]] = field(default_factory=dict)
    """Worth of a strip of one height after each shape was taken in, for reading back."""

    def stages_of(self, family: Family, height: int) -> list[Floats]:
        """Worth by length of strips of a height, before the first shape and after each."""
        if height not in self.stages:
            table = np.zeros((1, len(family.lengths.at)))
            found = [table[0].copy()]
            for s in range(len(family.shapes)):
                value = self.values[height : height + 1, s]
                if value[0] > 0.0 and self.counts[s]:
                    _take_in(table, value, family.sources[s], self.counts[s])
                    found.append(table[0].copy())
                else:
                    found.append(found[-1])
            self.stages[height] = found
        return self.stages[height]


def usable_width(stock: Stock) -> int:
    """Greatest usable width with one kerf. [units]"""
    return max(stock.top_left, stock.top_right) - stock.y0


def make_strips(shapes: tuple[Shape, ...], rows: Axis, *, rip: int, rounding: Rounding) -> tuple[Ints, Ints]:
    """Heights of strips, and the strips as (first row, number of the height, next row)."""
    found: set[tuple[int, int, int]] = set()
    for width in sorted({s.width for s in shapes} | {s.greatest for s in shapes if s.panel >= 0}):
        to = rows.reach(rows.at + width + rip, rounding)
        found |= {(a, width, int(b)) for a, b in enumerate(to) if b < len(rows.at)}
    panels = [s for s in shapes if s.panel >= 0]
    if panels:
        limits = (min(s.width for s in panels), max(s.greatest for s in panels))
        found |= _free_strips(rows, rip, rounding, limits=limits)
    heights = sorted({h for _, h, _ in found})
    number = {h: n for n, h in enumerate(heights)}
    strips = np.array(sorted((a, number[h], b) for a, h, b in found), dtype=np.int64).reshape(-1, 3)
    return np.array(heights, dtype=np.int64), strips


def _free_strips(
    rows: Axis, rip: int, rounding: Rounding, *, limits: tuple[int, int]
) -> set[tuple[int, int, int]]:
    """A strip of any width within limits between every two rows."""
    height = rows.latest(rounding)[None, :] - rows.at[:, None] - rip
    first, to = np.nonzero(np.triu((height >= limits[0]) & (height <= limits[1]), 1))
    return {(int(a), int(height[a, b]), int(b)) for a, b in zip(first, to, strict=True)}


def most_rows(shapes: tuple[Shape, ...]) -> int:
    """Rows kept: fewer where panels ask for a strip of any width between every two of them."""
    return 50 if any(s.panel >= 0 for s in shapes) else 300


def make_families(
    problem: Problem, *, rounding: Rounding, cap: int = 1000, rows_cap: int | None = None
) -> list[Family]:
    """Group boards by what they may give, and find the positions of each group.

    Of rows there are ``rows_cap`` at most, else as many as :func:`most_rows` says; but where boards have many
    widths, which are all kept, as many more, so that the places between are not left out for them.
    """
    groups: dict[tuple[Shape, ...], list[int]] = {}
    for stock in range(len(problem.stocks)):
        shapes = shapes_for(problem, stock)
        if shapes:
            groups.setdefault(shapes, []).append(stock)
    families = []
    for shapes, stocks in groups.items():
        ends = [max(0, problem.stocks[s].x1 - problem.stocks[s].x0) + problem.cross for s in stocks]
        tops = [max(0, usable_width(problem.stocks[s])) + problem.rip for s in stocks]
        lengths: dict[int, int] = {}
        widths: dict[int, int] = {}
        for shape in shapes:
            step = shape.length + problem.cross
            lengths[step] = lengths.get(step, 0) + shape.count
            for width in {shape.width, shape.greatest} - {0}:
                widths[width + problem.rip] = widths.get(width + problem.rip, 0) + shape.count
        along = make_axis((), steps=lengths, end=max(ends), keep=ends, cap=cap)
        most = rows_cap or max(most_rows(shapes), 2 * len(set(tops)))
        across = make_axis((), steps=widths, end=max(tops), keep=tops, cap=most)
        heights, strips = make_strips(shapes, across, rip=problem.rip, rounding=rounding)
        families.append(
            Family(
                shapes=shapes,
                stocks=tuple(stocks),
                lengths=along,
                rows=across,
                heights=heights,
                strips=strips,
                rounding=rounding,
                cross=problem.cross,
                rip=problem.rip,
            )
        )
    return families


def fill_tables(family: Family, values: Floats, counts: Sequence[int]) -> Floats:
    """Worth of a strip of each height and each length, no shape more often than it is wanted.

    Blanks of a strip without defects may stand in any order, so one shape is taken in after the other.

    Parameters
    ----------
    family
        The shapes and their positions.
    values
        Worth of each shape in a strip of each height: shape (heights, shapes). [money]
    counts
        How often each shape may be used.
    """
    table = np.zeros((len(values), len(family.lengths.at)))
    for s in range(len(family.shapes)):
        _take_in(table, values[:, s], family.sources[s], counts[s])
    return table


def _take_in(table: Floats, value: Floats, source: Ints, count: int) -> None:
    """Take in a shape: as many as are wanted, one behind the other."""
    fits = np.flatnonzero(value > 0.0)
    if not len(fits) or count < 1:
        return
    wide = int(fits[0])
    before, place = table[wide:].copy(), source
    for number in range(1, count + 1):
        low = int(np.searchsorted(place, 0))
        if low == len(place):
            return
        gain = before[:, place[low:]] + number * value[wide:, None]
        np.maximum(table[wide:, low:], gain, out=table[wide:, low:])
        place = np.where(place >= 0, source[place], -1)


def rip_tables(strips: Ints, rows: int, fill: Floats) -> Floats:
    """Worth of a segment ripped into strips, by row and by whatever the second axis of ``fill`` counts.

    A strip worth no more than a narrower one is passed over.
    """
    table = np.zeros((rows, fill.shape[1]))
    useful = np.append(fill[:1].any(), (fill[1:] > fill[:-1]).any(axis=1))
    last = 0
    for first, height, to in strips[useful[strips[:, 1]]].tolist():
        while last < first:
            last += 1
            np.maximum(table[last], table[last - 1], out=table[last])
        np.maximum(table[to], table[first] + fill[height], out=table[to])
    for row in range(last + 1, rows):
        np.maximum(table[row], table[row - 1], out=table[row])
    return table


def clean_tables(family: Family, duals: Duals, counts: Sequence[int] | None = None) -> CleanTables:
    """Strips and segments without defects.

    Parameters
    ----------
    family
        The shapes and their positions.
    duals
        What each blank is worth.
    counts
        How often each kind is wanted; None for as often as the problem does.
    """
    wanted = tuple(s.count if counts is None else counts[s.kind] for s in family.shapes)
    values = shape_values(family.shapes, family.heights, duals)
    fill = fill_tables(family, values, wanted)
    rip = rip_tables(family.strips, len(family.rows.at), fill)
    return CleanTables(fill=fill, rip=rip, values=values, counts=wanted)
