"""One board priced: where it may be cut, and what its defects, taper and first cut mean for its worth.

Strips that meet a defect (or the sloping edge) are worked out by place; the others, and all clear stretches,
are taken from the tables of the whole family.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from scantling.stock.boards.looks import spoils
from scantling.stock.pricing.loops import fills_by_place, ripped_by_place, row_of_fill, upto
from scantling.stock.pricing.pricing import (
    CleanTables,
    Family,
    make_strips,
    most_rows,
    segment_lengths,
    usable_width,
)
from scantling.stock.question.axis import Axis, Rounding, make_axis, make_double_axis, make_parted_axis
from scantling.stock.question.problem import UNITS_PER_MM, Stock
from scantling.stock.question.shapes import Duals, Shape

__all__ = ["BoardWorth", "PricedBoard", "mirrored"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
ROUGH = 100
"""Positions of a board that tells which stretches are worth a closer look."""


def mirrored(stock: Stock) -> Stock:
    """The board seen with its wide end at the left, where it is tapered the other way."""
    if stock.top_right <= stock.top_left:
        return stock
    length = round(stock.board.length_mm * UNITS_PER_MM)
    defects = tuple((length - d[2], d[1], length - d[0], d[3], d[4]) for d in stock.defects)
    return replace(
        stock,
        x0=length - stock.x1,
        x1=length - stock.x0,
        top_left=stock.top_right,
        top_right=stock.top_left,
        defects=defects,
    )


@dataclass(slots=True)
class BoardWorth:
    """Worths by place.

    ``whole`` by position, ``segments`` by (to, from), ``pairs`` the spoiled stretches worked out as (to,
    from), ``rip`` by (rows, these stretches), ``fill`` by (models of touched strips, these stretches).
    """

    whole: Floats
    segments: Floats
    pairs: Ints
    rip: Floats
    fill: Floats


@dataclass(slots=True)
class PricedBoard:
    """A board, with everything about it that does not depend on worths."""

    index: int
    stock: Stock
    family: Family
    along: Axis = field(init=False)
    rows: Axis = field(init=False)
    strips: Ints = field(init=False)
    """(first row, family height, next row, number among the touched strips or -1)."""
    touched: Ints = field(init=False)
    """Low and high edge of every strip that meets a defect: shape (touched, 2), from the lower edge."""
    columns: tuple[tuple[int, int, tuple[int, ...]], ...] = field(init=False)
    """Length, side, and the shapes of each column."""
    numbers: tuple[int, ...] = field(init=False)
    """Of each column, which of the lengths it has."""
    leads: Ints = field(init=False)
    """Where a blank of each length leads to from each position: shape (lengths, positions)."""
    rooms: tuple[Ints, ...] = field(init=False)
    """Of each column, the room in each touched strip, see :func:`_room`: shape (positions, touched)."""
    alike: Ints = field(init=False)
    """For each touched strip, which of ``models`` lets the same shapes in at the same places."""
    models: Ints = field(init=False)
    """Touched strips that are worked out; all others are like one of them."""
    pairs: Ints = field(init=False)
    """Stretches that hold a defect: (to, from) by row."""
    stretches: Ints = field(init=False)
    """Length of every stretch as an index in the family's tables: shape (to, from)."""
    rough: PricedBoard | None = field(init=False, default=None)
    """The same with few positions, sizes rounded down: tells which stretches are part of nothing better."""
    measured: bool = field(init=False, default=False)
    """Whether ``rooms``, ``alike``, ``models`` and ``pairs`` are there."""

    @classmethod
    def of(
        cls, index: int, stock: Stock, family: Family, *, cap: int, rows_cap: int | None = None
    ) -> PricedBoard:
        """Work out positions, strips and gaps. Adds its strip heights to the family."""
        board = cls(index=index, stock=mirrored(stock), family=family)
        board._place(cap, rows_cap or most_rows(family.shapes))
        board._touch()
        bound = family.rounding is Rounding.BOUND and board.along.exact and not stock.rip_first
        if bound and stock.defects and len(board.along.at) > 2 * ROUGH:
            board.rough = cls.of(index, stock, family, cap=ROUGH, rows_cap=rows_cap)
        return board

    def _place(self, cap: int, rows_cap: int) -> None:
        stock, family = self.stock, self.family
        end = max(0, stock.x1 - stock.x0) + family.cross
        lengths: dict[int, int] = {}
        widths: dict[int, int] = {}
        for shape in family.shapes:
            step = shape.length + family.cross
            lengths[step] = lengths.get(step, 0) + shape.count
            for width in {shape.width, shape.greatest} - {0}:
                widths[width + family.rip] = widths.get(width + family.rip, 0) + shape.count
        starts = [d[2] - stock.x0 for d in stock.defects]
        ends = [d[0] - stock.x0 + family.cross for d in stock.defects]
        if stock.top_left == stock.top_right:
            self.along = make_parted_axis(starts, ends, steps=lengths, end=end, cap=cap)
        else:
            self.along = make_axis(starts, steps=lengths, end=end, cap=cap)
        top = max(0, usable_width(stock)) + family.rip
        lows = [d[3] - stock.y0 for d in stock.defects]
        highs = [d[1] - stock.y0 + family.rip for d in stock.defects]
        if any(s.panel >= 0 for s in family.shapes):
            self.rows = make_double_axis(lows, highs, steps=widths, end=top, cap=rows_cap)
        else:
            self.rows = make_axis(lows, steps=widths, end=top, cap=rows_cap)

    def _touch(self) -> None:
        """Find the strips that meet a defect, and the stretches."""
        stock, family = self.stock, self.family
        heights, strips = make_strips(family.shapes, self.rows, rip=family.rip, rounding=family.rounding)
        family.add_heights(heights)
        low = self.rows.at[strips[:, 0]]
        high = low + heights[strips[:, 1]]
        meets = high > min(stock.top_left, stock.top_right) - stock.y0
        for defect in stock.defects:
            meets |= (low < defect[3] - stock.y0) & (high > defect[1] - stock.y0)
        number = np.where(meets, np.cumsum(meets) - 1, -1)
        self.strips = np.column_stack([strips[:, 0], heights[strips[:, 1]], strips[:, 2], number])
        self.touched = np.column_stack([low[meets], high[meets]])
        by_column: dict[tuple[int, int], list[int]] = {}
        for s, shape in enumerate(family.shapes):
            by_column.setdefault((shape.length, shape.side), []).append(s)
        self.columns = tuple((k[0], k[1], tuple(v)) for k, v in sorted(by_column.items()))

    def _measure(self) -> None:
        """Find room and spoiled stretches: what takes longest, so only for boards that are priced at all."""
        if self.measured:
            return
        self.measured = True
        shapes = self.family.shapes
        self.rooms = tuple(
            _room(self._gaps(length, side), [shapes[s] for s in members])
            for length, side, members in self.columns
        )
        lengths = sorted({length for length, _, _ in self.columns})
        self.numbers = tuple(lengths.index(length) for length, _, _ in self.columns)
        ends = self.along.at + np.array(lengths, dtype=np.int64)[:, None] + self.family.cross
        self.leads = self.along.reach(ends, self.family.rounding)
        self._group()
        self.pairs = self._spoiled_pairs()

    def _group(self) -> None:
        """Find the touched strips that are worth the same whatever blanks are worth."""
        told = np.ascontiguousarray(np.concatenate(self.rooms).T)
        seen: dict[bytes, int] = {}
        self.alike = np.array([seen.setdefault(row.tobytes(), len(seen)) for row in told], dtype=np.int64)
        self.models = np.unique(self.alike, return_index=True)[1]

    def freeze(self) -> None:
        """Number heights and lengths by the family's tables, once the family has all its heights."""
        self.strips[:, 1] = np.searchsorted(self.family.heights, self.strips[:, 1])
        self.stretches = segment_lengths(self.along, self.family.lengths, self.family.rounding)
        if self.rough is not None:
            self.rough.freeze()

    def _gaps(self, length: int, side: int) -> Ints:
        """Greatest clear height in each touched strip for a blank of a length at each position."""
        stock = self.stock
        first = self.along.at + stock.x0
        last = self.along.latest(self.family.rounding) + stock.x0
        if stock.top_left == stock.top_right:
            tops = np.full(len(first), stock.top_left - stock.y0)
        else:
            tops = np.array([stock.top(int(x), int(x) + length) - stock.y0 for x in first], dtype=np.int64)
        bad = [d for d in stock.defects if spoils(d[4], side)]
        blocked = np.zeros((len(first), len(bad)), dtype=bool)
        for number, d in enumerate(bad):
            blocked[:, number] = (
                (first < d[2]) & (first + length > d[0]) & (last < d[2]) & (last + length > d[0])
            )
        gaps = np.zeros((len(first), len(self.touched)), dtype=np.int64)
        for mask in np.unique(blocked, axis=0):
            rows = np.flatnonzero((blocked == mask).all(axis=1))
            for low, high in clear_spans([d for d, hit in zip(bad, mask, strict=True) if hit], stock.y0):
                upper = np.minimum(np.minimum(self.touched[:, 1], high)[None, :], tops[rows, None])
                room = upper - np.maximum(self.touched[:, 0], low)[None, :]
                gaps[rows] = np.maximum(gaps[rows], room)
        return gaps

    def _spoiled_pairs(self) -> Ints:
        stock, at = self.stock, self.along.at
        count = len(at)
        to, begin = np.tril_indices(count, -1)
        if stock.rip_first:
            return np.array([[count - 1, 0]], dtype=np.int64)
        if stock.top_left != stock.top_right:
            return np.column_stack([to, begin])
        bad = np.zeros(len(to), dtype=bool)
        for d in stock.defects:
            bad |= (at[begin] < d[2] - stock.x0) & (at[to] - self.family.cross > d[0] - stock.x0)
        return np.column_stack([to[bad], begin[bad]])

    def gains(self, column: int, shape: Shape, strip: int, duals: Duals) -> Floats:
        """Worth of one shape of a column in a touched strip, by position. [money]"""
        room = self.rooms[column][:, strip]
        beside = [self.family.shapes[s] for s in self.columns[column][2]]
        if any(s.panel >= 0 for s in beside):
            return shape_worth(shape, room, duals)
        narrower = sum(s.width < shape.width for s in beside)
        return np.where(room > narrower, duals.kinds[shape.kind], -np.inf)

    def _worths(self, duals: Duals, strips: Ints) -> Floats:
        """The best worth of a blank of each length in some strips: shape (lengths, positions, strips)."""
        worths = np.full((len(self.leads), len(self.along.at), len(strips)), -np.inf)
        for room, number, (_, _, members) in zip(self.rooms, self.numbers, self.columns, strict=True):
            worth = _room_worth(room[:, strips], [self.family.shapes[s] for s in members], duals)
            np.maximum(worths[number], worth, out=worths[number])
        return worths

    def row_of_worth(self, duals: Duals, strip: int, begin: int) -> Floats:
        """Worth of one touched strip from one position on: shape (positions,)."""
        worths = np.ascontiguousarray(self._worths(duals, np.array([strip]))[:, :, 0])
        return row_of_fill(self.leads, worths, begin)

    def _all_fills(self, duals: Duals, pairs: Ints) -> Floats:
        """Worth of every model over some spoiled stretches, a few of them at a time to spare memory."""
        if not len(pairs) or not len(self.touched):
            return np.zeros((len(self.models), len(pairs)))
        order, begins = np.argsort(pairs[:, 1], kind="stable"), np.unique(pairs[:, 1])
        chunk = max(1, 1_000_000 // len(self.along.at))
        found = []
        for low in range(0, len(self.models), chunk):
            worths = self._worths(duals, self.models[low : low + chunk])
            found.append(fills_by_place(self.leads, worths, order, pairs, begins))
        return np.concatenate(found)

    def _bare(self, clean: CleanTables) -> Floats:
        """Worth of every stretch (to, from) as if there were no defects."""
        row = int(self.family.rows.below(np.array([self.rows.at[-1]]))[0])
        return np.asarray(clean.rip[row][self.stretches])

    def ceiling(self, clean: CleanTables) -> float:
        """What the board would be worth without its defects: never less than its worth."""
        segments = self._bare(clean)
        return float(segments[-1, 0] if self.stock.rip_first else upto(segments)[-1])

    def worth(self, duals: Duals, clean: CleanTables, *, floor: float = -np.inf) -> BoardWorth:
        """Best worth of this board, and the tables to read its pattern from.

        Parameters
        ----------
        duals, clean
            What each blank is worth, and what clear stretches are.
        floor
            Only patterns worth more are wanted: stretches that are part of none are passed over, and what is
            told is then the floor at most. [money]
        """
        self._measure()
        bare, pairs = self._bare(clean), self.pairs
        segments = np.full(bare.shape, -np.inf) if self.stock.rip_first else bare.copy()
        if np.isfinite(floor) and not self.stock.rip_first:
            pairs = pairs[_worth_with(bare, pairs) > floor]
            if self.rough is not None:
                pairs = self._promising(pairs, self.rough.worth(duals, clean, floor=floor), floor)
        segments[self.pairs[:, 0], self.pairs[:, 1]] = -np.inf
        fill = self._all_fills(duals, pairs)
        rip = self._rip(fill, clean, self.stretches[pairs[:, 0], pairs[:, 1]])
        segments[pairs[:, 0], pairs[:, 1]] = rip[-1]
        return BoardWorth(whole=upto(segments), segments=segments, pairs=pairs, rip=rip, fill=fill)

    def _promising(self, pairs: Ints, rough: BoardWorth, floor: float) -> Ints:
        """The stretches that may be part of a layout worth more than a floor, by the tables of ``rough``.

        Every layout has one like it there, each cut brought down to a position that was kept.
        """
        assert self.rough is not None
        there = self.rough.along.below(self.along.at)[pairs]
        short = there[:, 0] == there[:, 1]
        return np.asarray(pairs[short | (_worth_with(rough.segments, there) > floor)])

    def _rip(self, fill: Floats, clean: CleanTables, lengths: Ints) -> Floats:
        """Worth of stretches of some lengths (as indices of the family) by row."""
        return ripped_by_place(self.strips, len(self.rows.at), fill, self.alike, clean.fill, lengths)


def _worth_with(segments: Floats, pairs: Ints) -> Floats:
    """Worth of the best pattern that has each of some stretches (to, from)."""
    after = upto(np.ascontiguousarray(segments[::-1, ::-1].T))[::-1]
    whole = upto(segments)[pairs[:, 1]] + segments[pairs[:, 0], pairs[:, 1]] + after[pairs[:, 0]]
    return np.asarray(whole)


def _room(gap: Ints, shapes: list[Shape]) -> Ints:
    """Gaps told apart only as far as some shapes of one length can tell.

    How many of them fit, narrow ones first; where strips of a panel are among them, the gap itself, 0 where
    none fits.
    """
    if any(shape.panel >= 0 for shape in shapes):
        least, greatest = min(s.width for s in shapes), max(max(s.width, s.greatest) for s in shapes)
        return np.where(gap < least, 0, np.minimum(gap, greatest))
    widths = np.array(sorted(shape.width for shape in shapes))
    return np.searchsorted(widths, gap, side="right").astype(np.int16)


def _room_worth(room: Ints, shapes: list[Shape], duals: Duals) -> Floats:
    """Worth of the best of some shapes of one length, by the room for them. [money]"""
    if any(shape.panel >= 0 for shape in shapes):
        return np.asarray(np.max([shape_worth(shape, room, duals) for shape in shapes], axis=0))
    worths = [duals.kinds[s.kind] for s in sorted(shapes, key=lambda s: s.width)]
    return np.maximum.accumulate([-np.inf, *worths])[room]


def shape_worth(shape: Shape, gap: Ints, duals: Duals) -> Floats:
    """Worth of a shape in a gap of each height. [money]"""
    fits = gap >= shape.width
    if shape.panel < 0:
        return np.where(fits, duals.kinds[shape.kind], -np.inf)
    wide = np.minimum(gap, shape.greatest) - shape.loss
    return np.where(fits, wide * duals.widths[shape.panel] - duals.strips[shape.panel], -np.inf)


def clear_spans(defects: list[tuple[int, int, int, int, int]], y0: int) -> list[tuple[int, int]]:
    """Heights between defects, from the straightened edge up. [units]"""
    spans = []
    low = -(1 << 40)
    for d in sorted(defects, key=lambda d: d[1]):
        if d[1] - y0 > low:
            spans.append((low, d[1] - y0))
        low = max(low, d[3] - y0)
    spans.append((low, 1 << 40))
    return spans
