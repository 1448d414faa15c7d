"""Filling one board by hand rules: crosscut to the length of a lead blank, rip, fill up what is left.

Every rule keeps to what can be cut: crosscuts through the whole width first, then rips through the whole
segment, then crosscuts of the strips, then a last rip where a blank is narrower than its strip.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from scantling.stock.boards.looks import spoils
from scantling.stock.question.pattern import Pattern, Segment, Spot, Strip
from scantling.stock.question.problem import Kind, PanelNeed, Problem, Stock
from scantling.stock.question.shapes import distinct_sides

__all__ = ["Demand", "Entry", "fill_board"]

Entry = tuple[int, int, int, int]
"""What may be laid: kind, length, least width, side; sizes in units."""


@dataclass(slots=True)
class Demand:
    """What is still wanted: blanks of each kind, and width and strips of each panel."""

    counts: list[int]
    widths: list[int]
    strips: list[int]

    @classmethod
    def of(cls, problem: Problem) -> Demand:
        """All of a problem's needs."""
        return cls(
            counts=[len(kind.blanks) for kind in problem.kinds],
            widths=[need.total for need in problem.panels],
            strips=[need.most for need in problem.panels],
        )

    def copy(self) -> Demand:
        """A copy to spend."""
        return Demand(counts=list(self.counts), widths=list(self.widths), strips=list(self.strips))

    @property
    def met(self) -> bool:
        """Whether nothing is missing."""
        return not any(self.counts) and not any(self.widths)


@dataclass(slots=True)
class Filler:
    problem: Problem
    stock: Stock
    index: int
    demand: Demand
    order: Sequence[tuple[int, bool]]
    """Kinds (then panels) in the order they are tried, each with whether it is turned."""
    entries: list[Entry] = field(init=False)
    """All that may come from this board, in that order, wanted or no longer."""
    base: int = field(init=False)
    """Kinds of blanks: the numbers from here on are panels."""

    def __post_init__(self) -> None:
        self.base = len(self.problem.kinds)
        known: dict[tuple[int, ...], tuple[int, ...]] = {}
        self.entries = []
        for kind, turned in self.order:
            length, width = self.size(kind, turned)
            wanted = self.needs(kind).sides
            if wanted not in known:
                known[wanted] = distinct_sides(wanted, self.stock)
            self.entries += [(kind, length, width, side) for side in known[wanted]]

    def needs(self, kind: int) -> Kind | PanelNeed:
        return self.problem.kinds[kind] if kind < self.base else self.problem.panels[kind - self.base]

    def size(self, kind: int, turned: bool) -> tuple[int, int]:
        if kind >= self.base:
            need = self.problem.panels[kind - self.base]
            return need.length, need.least
        item = self.problem.kinds[kind]
        return (item.width, item.length) if turned else (item.length, item.width)

    def wanted(self, kind: int) -> bool:
        if kind < self.base:
            return self.demand.counts[kind] > 0
        panel = kind - self.base
        return self.demand.widths[panel] > 0 and self.demand.strips[panel] > 0

    def candidates(self, *, most: float = math.inf) -> list[Entry]:
        """What is still wanted of those no wider than that."""
        counts, base = self.demand.counts, self.base
        return [
            entry
            for entry in self.entries
            if entry[2] <= most and (counts[entry[0]] > 0 if entry[0] < base else self.wanted(entry[0]))
        ]

    def blocker(self, x: int, y: int, length: int, width: int, side: int) -> int | None:
        """Right end of a defect under a rectangle, or None where it is clear."""
        for dx0, dy0, dx1, dy1, bits in self.stock.defects:
            if x < dx1 and x + length > dx0 and spoils(bits, side) and y < dy1 and y + width > dy0:
                return dx1
        return None

    def slide(self, x: int, y: int, size: tuple[int, int], side: int, end: int) -> int | None:
        """First place at or right of x where a rectangle lies clear, left of ``end``."""
        length, width = size
        while x + length <= end:
            if y + width > self.stock.top(x, x + length):
                return None
            blocked = self.blocker(x, y, length, width, side)
            if blocked is None:
                return x
            x = blocked
        return None

    def widen(self, kind: int, x: int, y: int, top: int, side: int) -> int:
        """Widest strip a panel may take here; 0 where none is allowed."""
        need = self.problem.panels[kind - len(self.problem.kinds)]
        missing = self.demand.widths[kind - len(self.problem.kinds)]
        top = min(top, self.stock.top(x, x + need.length))
        for dx0, dy0, dx1, _, bits in self.stock.defects:
            if x < dx1 and x + need.length > dx0 and spoils(bits, side) and dy0 >= y:
                top = min(top, dy0)
        room = min(top - y, need.greatest)
        if room < need.least:
            return 0
        if missing + need.loss <= room:
            return max(missing + need.loss, need.least)
        rest = missing - (room - need.loss)
        short = need.least - need.loss - rest
        if short > 0:
            return room - short if room - short >= need.least else 0
        return room

    def take(self, kind: int, width: int) -> None:
        base = len(self.problem.kinds)
        if kind < base:
            self.demand.counts[kind] -= 1
            return
        need = self.problem.panels[kind - base]
        self.demand.widths[kind - base] = max(0, self.demand.widths[kind - base] - (width - need.loss))
        self.demand.strips[kind - base] -= 1

    def place(self, entry: Entry, x: int, y: int, *, end: int, top: int) -> Spot | None:
        """Put one blank of a kind at the first clear place of a strip, and spend it."""
        kind, length, width, side = entry
        if y + width > top:
            return None
        at = self.slide(x, y, (length, width), side, end)
        if at is None:
            return None
        if kind >= self.base:
            width = self.widen(kind, at, y, top, side)
            if width == 0:
                return None
        self.take(kind, width)
        return Spot(kind=kind, x=at, y=y, length=length, width=width)

    def first_spot(self, entries: Sequence[Entry], x: int, y: int, *, end: int, top: int) -> Spot | None:
        """The first candidate that fits."""
        long, wide = end - x, top - y
        for entry in entries:
            if entry[1] <= long and entry[2] <= wide and self.wanted(entry[0]):
                spot = self.place(entry, x, y, end=end, top=top)
                if spot is not None:
                    return spot
        return None

    def fill_strip(self, strip: Strip, x: int, end: int) -> None:
        """Fill up a strip behind its first blank."""
        top = strip.y + strip.width
        entries = self.candidates(most=strip.width)
        while True:
            spot = self.first_spot(entries, x, strip.y, end=end, top=top)
            if spot is None:
                return
            strip.spots.append(spot)
            x = spot.x + spot.length + self.problem.cross

    def levels(self, x: int, end: int, y: int) -> list[int]:
        """Heights at which a strip may begin: here, or above a defect of this stretch."""
        above = {d[3] for d in self.stock.defects if d[0] < end and d[2] > x and d[3] > y}
        return [y, *sorted(above)]

    def fill_segment(self, segment: Segment, y: int) -> None:
        """Rip a segment into strips from height y upwards."""
        x, end = segment.x, segment.x + segment.length
        first = max(x, self.stock.x0)
        last = min(end, self.stock.x1)
        top = max(self.stock.top_left, self.stock.top_right)
        while True:
            strip = self.next_strip(first, last, y=y, top=top)
            if strip is None:
                return
            segment.strips.append(strip)
            self.fill_strip(strip, strip.spots[0].x + strip.spots[0].length + self.problem.cross, last)
            y = strip.y + strip.width + self.problem.rip

    def next_strip(self, x: int, end: int, *, y: int, top: int) -> Strip | None:
        entries = self.candidates(most=top - y)
        for level in self.levels(x, end, y):
            spot = self.first_spot(entries, x, level, end=end, top=top)
            if spot is not None:
                return Strip(y=spot.y, width=spot.width, spots=[spot])
        return None

    def next_segment(self, x: int) -> Segment | None:
        """The next crosscut length, led by the first kind that fits."""
        top = max(self.stock.top_left, self.stock.top_right)
        entries = self.candidates(most=top - self.stock.y0)
        starts = [x, *sorted(d[2] for d in self.stock.defects if d[2] > x)]
        for start in starts:
            longest = self.stock.x1 - start
            for entry in entries:
                spot = self.lead(entry, start) if entry[1] <= longest else None
                if spot is not None:
                    return self.begin(start, entry[1], spot)
        return None

    def lead(self, entry: tuple[int, int, int, int], start: int) -> Spot | None:
        """The first blank of a segment as long as it is, as low as it lies clear."""
        end = start + entry[1]
        top = max(self.stock.top_left, self.stock.top_right)
        for level in self.levels(start, end, self.stock.y0):
            spot = self.place(entry, start, level, end=end, top=top)
            if spot is not None:
                return spot
        return None

    def begin(self, x: int, length: int, spot: Spot) -> Segment:
        segment = Segment(x=x, length=length)
        if spot.y > self.stock.y0 + self.problem.rip:
            below = Strip(y=self.stock.y0, width=spot.y - self.problem.rip - self.stock.y0)
            self.fill_below(segment, below)
        segment.strips.append(Strip(y=spot.y, width=spot.width, spots=[spot]))
        self.fill_segment(segment, spot.y + spot.width + self.problem.rip)
        return segment

    def fill_below(self, segment: Segment, room: Strip) -> None:
        """Use the width under a lead blank that had to move up past a defect."""
        spot = self.first_spot(
            self.candidates(most=room.width),
            segment.x,
            room.y,
            end=segment.x + segment.length,
            top=room.y + room.width,
        )
        if spot is not None:
            strip = Strip(y=spot.y, width=spot.width, spots=[spot])
            segment.strips.append(strip)
            start = spot.x + spot.length + self.problem.cross
            self.fill_strip(strip, start, segment.x + segment.length)


def fill_board(problem: Problem, index: int, *, demand: Demand, order: Sequence[tuple[int, bool]]) -> Pattern:
    """Fill one board with what is still wanted, and spend it from ``demand``.

    Parameters
    ----------
    problem
        The question.
    index
        Number of the board.
    demand
        What is wanted; changed.
    order
        Kinds (then panels) allowed on this board in the order they are tried, each with whether it is turned.
    """
    stock = problem.stocks[index]
    filler = Filler(problem=problem, stock=stock, index=index, demand=demand, order=order)
    pattern = Pattern(stock=index)
    if stock.rip_first:
        segment = Segment(x=0, length=round(stock.board.length_mm * 1000))
        filler.fill_segment(segment, stock.y0)
        if segment.strips:
            pattern.segments.append(segment)
        return pattern
    x = stock.x0
    while True:
        segment_or_none = filler.next_segment(x)
        if segment_or_none is None:
            return pattern
        pattern.segments.append(segment_or_none)
        x = segment_or_none.x + segment_or_none.length + problem.cross
