"""One board priced quickly: strips beside a defect are read from the tables of the whole family.

A blank may not pass a defect that reaches into its strip, even where it is narrow enough to: such a strip is
worth what its clear stretches are worth, and those need no dynamic program of their own. What is found can be
cut; it is not always the best, so it proves no bound.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from scantling.stock.boards.looks import spoils
from scantling.stock.pricing.loops import ripped, strips_chosen, taken_along, upto
from scantling.stock.pricing.pricing import CleanTables, Family, make_strips, usable_width
from scantling.stock.pricing.readout import EPSILON, clean_segment, clean_spots, steps_back, tidied
from scantling.stock.question.axis import Axis, Rounding, make_parted_axis
from scantling.stock.question.pattern import Pattern, Segment, Spot
from scantling.stock.question.problem import Stock

__all__ = ["QuickBoard", "suits"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def suits(stock: Stock, family: Family) -> bool:
    """Whether a board is straight, crosscut first, and each of its defects stops every shape."""
    sides = {shape.side for shape in family.shapes}
    return (
        stock.top_left == stock.top_right
        and not stock.rip_first
        and all(spoils(d[4], side) for d in stock.defects for side in sides)
    )


@dataclass(slots=True)
class QuickWorth:
    """Worths by place: ``whole`` by position, ``segments`` by (to, from), ``rip`` and ``fill`` by pair."""

    whole: Floats
    segments: Floats
    rip: Floats
    fill: Floats


@dataclass(slots=True)
class QuickBoard:
    """A board that :func:`suits`, with everything about it that does not depend on worths."""

    index: int
    stock: Stock
    family: Family
    along: Axis = field(init=False)
    rows: Axis = field(init=False)
    strips: Ints = field(init=False)
    """(first row, family height, next row, number of its fill)."""
    fills: tuple[tuple[int, int], ...] = field(init=False)
    """(set of defects in the way, family height) of each fill."""
    groups: tuple[tuple[int, ...], ...] = field(init=False)
    """Defects in each set."""
    reads: tuple[tuple[Ints, ...], ...] = field(init=False)
    """For each set of defects, the length (as an index of the family) of each clear stretch by pair."""
    cuts: Ints = field(init=False)
    """(first row, number of its fill, next row) of each strip."""
    pairs: Ints = field(init=False)
    stretches: Ints = field(init=False)
    row: int = field(init=False)

    @classmethod
    def of(cls, index: int, stock: Stock, family: Family, *, cap: int, rows_cap: int) -> QuickBoard:
        """Work out positions and strips. Adds its strip heights to the family."""
        board = cls(index=index, stock=stock, family=family)
        board._place(cap, rows_cap)
        board._strips()
        return board

    def _place(self, cap: int, rows_cap: int) -> None:
        stock, family = self.stock, self.family
        lengths: dict[int, int] = {}
        widths: dict[int, int] = {}
        for shape in family.shapes:
            step = shape.length + family.cross
            lengths[step] = lengths.get(step, 0) + shape.count
            for width in {shape.width, shape.greatest} - {0}:
                widths[width + family.rip] = widths.get(width + family.rip, 0) + shape.count
        self.along = make_parted_axis(
            [d[2] - stock.x0 for d in stock.defects],
            [d[0] - stock.x0 + family.cross for d in stock.defects],
            steps=lengths,
            end=max(0, stock.x1 - stock.x0) + family.cross,
            cap=cap,
        )
        self.rows = make_parted_axis(
            [d[3] - stock.y0 for d in stock.defects],
            [d[1] - stock.y0 + family.rip for d in stock.defects],
            steps=widths,
            end=max(0, usable_width(stock)) + family.rip,
            cap=rows_cap,
        )

    def _strips(self) -> None:
        """Strips, grouped by height and by the defects that reach into them."""
        stock, family = self.stock, self.family
        heights, strips = make_strips(family.shapes, self.rows, rip=family.rip, rounding=Rounding.CUTTABLE)
        family.add_heights(heights)
        low = self.rows.at[strips[:, 0]]
        high = low + heights[strips[:, 1]]
        masks = np.zeros(len(strips), dtype=np.int64)
        for number, d in enumerate(stock.defects):
            meets = (low < d[3] - stock.y0) & (high > d[1] - stock.y0)
            masks |= meets.astype(np.int64) << number
        self.strips = np.column_stack([strips[:, 0], heights[strips[:, 1]], strips[:, 2], masks])
        at = self.along.at
        to, begin = np.tril_indices(len(at), -1)
        bad = np.zeros(len(to), dtype=bool)
        for d in stock.defects:
            bad |= (at[begin] < d[2] - stock.x0) & (at[to] - family.cross > d[0] - stock.x0)
        self.pairs = np.column_stack([to[bad], begin[bad]])

    def freeze(self) -> None:
        """Number heights and lengths by the family's tables, once the family has all its heights."""
        family, at = self.family, self.along.at
        self.strips[:, 1] = np.searchsorted(family.heights, self.strips[:, 1])
        masks = sorted(set(self.strips[:, 3].tolist()))
        numbers = {mask: n for n, mask in enumerate(masks)}
        sets = [numbers[m] for m in self.strips[:, 3].tolist()]
        kinds = sorted(set(zip(sets, self.strips[:, 1].tolist(), strict=True)))
        place = {kind: n for n, kind in enumerate(kinds)}
        self.strips[:, 3] = [place[k] for k in zip(sets, self.strips[:, 1].tolist(), strict=True)]
        self.fills = tuple(kinds)
        self.cuts = np.ascontiguousarray(self.strips[:, [0, 3, 2]])
        count = len(self.stock.defects)
        self.groups = tuple(tuple(n for n in range(count) if mask >> n & 1) for mask in masks)
        begin, end = at[self.pairs[:, 1]], at[self.pairs[:, 0]]
        self.reads = tuple(
            tuple(
                family.lengths.below(np.maximum(high - low, 0))
                for low, high in self._clear(defects, begin, end)
            )
            for defects in self.groups
        )
        stretch = np.maximum(at[:, None] - at[None, :], 0)
        self.stretches = family.lengths.below(stretch)
        self.row = int(family.rows.below(np.array([self.rows.at[-1]]))[0])

    def _clear(self, defects: tuple[int, ...], begin: Ints, end: Ints) -> list[tuple[Ints, Ints]]:
        """From where to where (with its kerf) the stretches between some defects are clear."""
        spans = []
        low = begin
        for d in sorted((self.stock.defects[n] for n in defects), key=lambda d: d[0]):
            left, right = d[0] - self.stock.x0 + self.family.cross, d[2] - self.stock.x0
            spans.append((low, np.minimum(end, left)))
            low = np.maximum(low, right)
        spans.append((low, end))
        return spans

    def ceiling(self, clean: CleanTables) -> float:
        """What the board would be worth without its defects."""
        return taken_along(clean.rip[self.row], self.stretches)

    def worth(self, clean: CleanTables) -> QuickWorth:
        """Best worth of this board, and the tables to read its pattern from."""
        segments = clean.rip[self.row][self.stretches]
        fill = np.zeros((len(self.fills), len(self.pairs)))
        rip = np.zeros((len(self.rows.at), len(self.pairs)))
        if len(self.pairs):
            for number, (group, height) in enumerate(self.fills):
                table = clean.fill[height]
                for lengths in self.reads[group]:
                    fill[number] += table[lengths]
            rip = ripped(self.cuts, np.any(fill > 0.0, axis=1), len(self.rows.at), fill)
            segments[self.pairs[:, 0], self.pairs[:, 1]] = rip[-1]
        return QuickWorth(whole=upto(segments), segments=segments, rip=rip, fill=fill)

    def best_pattern(self, found: QuickWorth, clean: CleanTables) -> Pattern:
        """Read the best pattern back out of the tables of worths."""
        pattern = Pattern(stock=self.index)
        end = steps_back(found.whole, len(self.along.at) - 1)
        while end > 0:
            start = int(np.argmax(found.whole[:end] + found.segments[end, :end]))
            origin = (self.stock.x0 + int(self.along.at[start]), self.stock.y0)
            pair = self._pair(end, start)
            if pair >= 0:
                pattern.segments.append(self._spoiled(found, pair, clean=clean, origin=origin))
            else:
                length = int(self.stretches[end, start])
                pattern.segments.append(clean_segment(self.family, clean, self.row, length, origin=origin))
            end = steps_back(found.whole, start)
        pattern.segments = [s for s in reversed(pattern.segments) if s.strips]
        return pattern

    def _pair(self, to: int, begin: int) -> int:
        """Number of a stretch among those that hold a defect; -1 where it holds none."""
        count = len(self.along.at)
        codes = self.pairs[:, 0] * count + self.pairs[:, 1]
        at = int(np.searchsorted(codes, to * count + begin))
        return at if at < len(codes) and codes[at] == to * count + begin else -1

    def _spoiled(
        self, found: QuickWorth, pair: int, *, clean: CleanTables, origin: tuple[int, int]
    ) -> Segment:
        """A stretch that holds a defect."""
        x, y = origin
        begin, end = self.along.at[self.pairs[pair, 1]], self.along.at[self.pairs[pair, 0]]
        groups = []
        for chosen in strips_chosen(found.rip[:, pair], self.cuts, found.fill[:, pair], EPSILON).tolist():
            first, height, _, fill = (int(v) for v in self.strips[chosen])
            group = self.fills[fill][0]
            spots: list[Spot] = []
            clear = self._clear(self.groups[group], np.array([begin]), np.array([end]))
            for (low, _), lengths in zip(clear, self.reads[group], strict=True):
                place = (self.stock.x0 + int(low[0]), y + int(self.rows.at[first]))
                spots += clean_spots(self.family, clean, height, int(lengths[pair]), origin=place)
            groups.append(spots)
        return tidied(Segment(x=x, length=0), groups)
