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

from scantling.stock.pricing.loops import fills_by_height, ripped, stages_of_fill, worth_more
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
    stages: dict[int, Floats] = field(default_factory=dict)
    """Worth of a strip of one height after each shape was taken in, for reading back."""

    def stages_of(self, family: Family, height: int) -> Floats:
        """Worth by length of strips of a height, before the first shape and after each."""
        if height not in self.stages:
            self.stages[height] = stages_of_fill(self.values[height], family.sources, np.array(self.counts))
        return self.stages[height]


def usable_width(stock: Stock) -> int:
    """Greatest usable width with one kerf. [units]"""
    return max(stock.top_left, stock.top_right) - stock.y0


def make_strips(shapes: tuple[Shape, ...], rows: Axis, *, rip: int, rounding: Rounding) -> tuple[Ints, Ints]:
    """Heights of strips, and the strips as (first row, number of the height, next row)."""
    widths = np.array(
        sorted({s.width for s in shapes} | {s.greatest for s in shapes if s.panel >= 0}), dtype=np.int64
    )
    to = rows.reach(rows.at + widths[:, None] + rip, rounding)
    width, first = np.nonzero(to < len(rows.at))
    strips = np.column_stack([first, widths[width], to[width, first]])
    panels = [s for s in shapes if s.panel >= 0]
    if panels:
        limits = (min(s.width for s in panels), max(s.greatest for s in panels))
        strips = np.concatenate([strips, _free_strips(rows, rip, rounding, limits=limits)])
    heights, strips[:, 1] = np.unique(strips[:, 1], return_inverse=True)
    strips = strips[np.lexsort(strips.T[::-1])]
    twice = (strips[1:] == strips[:-1]).all(axis=1)
    return heights, np.ascontiguousarray(strips[np.append(True, ~twice)[: len(strips)]])


def _free_strips(rows: Axis, rip: int, rounding: Rounding, *, limits: tuple[int, int]) -> Ints:
    """A strip of any width within limits between every two rows."""
    height = rows.latest(rounding)[None, :] - rows.at[:, None] - rip
    first, to = np.nonzero(np.triu((height >= limits[0]) & (height <= limits[1]), 1))
    return np.column_stack([first, height[first, to], to])


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
    fill = fills_by_height(np.ascontiguousarray(values), family.sources, np.array(wanted, dtype=np.int64))
    rip = ripped(family.strips, worth_more(fill), len(family.rows.at), fill)
    return CleanTables(fill=fill, rip=rip, values=values, counts=wanted)
