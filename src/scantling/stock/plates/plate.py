"""One plate, edge-to-edge cuts in any number of stages: exact, by dynamic programming over sub-rectangles.

For sheet goods and slabs, where the saw may turn as often as it likes, and as a yardstick for the staged
search.
With a kerf, every part and the plate are taken one kerf larger both ways; the layouts stay the same.
Only the rectangles are looked at that cuts at the places of :mod:`scantling.stock.plates.platespans` can
leave.

References
----------
.. [1] Christofides, Whitlock, "An algorithm for two-dimensional cutting problems", Operations Research 25
   (1977) 30-44: cuts need only be made at sums of part sizes.
.. [2] Afsharian, Niknejad, Wäscher, "A heuristic, dynamic programming-based approach for a two-dimensional
   cutting problem with defects", OR Spectrum 36 (2014) 971-999: the same with starts behind defects.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from scantling.stock.plates.platespans import Ints, Marks, Span, Spans, sums_of
from scantling.stock.plates.platetable import Placed, Table, Worths

__all__ = ["FreeStrip", "Plate", "PlatePart", "PlateResult", "best_cutting", "best_free_strips"]

Touched = frozenset[int]
"""Numbers of defects."""
NOTHING: Touched = frozenset()
NO_END = 2**62


@dataclass(frozen=True, slots=True, kw_only=True)
class PlatePart:
    """A part that may be cut any number of times; whole units."""

    length: int
    width: int
    value: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeStrip:
    """Strips of one length and any width from the least up; a unit of width is worth one."""

    length: int
    least_width: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """A plate with defects (x, y, length, width) that no part may touch; the saw may. Whole units."""

    length: int
    width: int
    defects: tuple[tuple[int, int, int, int], ...] = ()
    kerf: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateResult:
    """The greatest value, proven, and rectangles (x, y, length, width, part) that reach it."""

    value: int
    placed: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class _Side:
    """Defects one way, for things one kerf larger than they are: low edges one kerf on, high edges."""

    edges: tuple[tuple[int, int], ...]

    @classmethod
    def along(cls, plate: Plate) -> _Side:
        """Of the length."""
        return cls(tuple((x + plate.kerf, x + long) for x, _, long, _ in plate.defects))

    @classmethod
    def across(cls, plate: Plate) -> _Side:
        """Of the width."""
        return cls(tuple((y + plate.kerf, y + wide) for _, y, _, wide in plate.defects))

    def touched(self, start: int, size: int) -> Touched:
        """Defects that a thing meets."""
        return frozenset(n for n, (low, high) in enumerate(self.edges) if start < high and start + size > low)

    def starts(self, start: int, end: int, size: int) -> list[int]:
        """Where a thing pushed down a stretch can come to lie: at its start or behind a defect."""
        behind = {high for _, high in self.edges if start < high and high + size <= end}
        return [start, *sorted(behind)] if start + size <= end else []

    def meetings(self, spans: Sequence[Span], size: int) -> _Meetings:
        """What a thing somewhere in each span may meet: nothing alone if it can be."""
        start = np.array([s.start for s in spans])[:, None]
        end = np.array([s.end for s in spans])[:, None]
        clean = np.array([s.clean for s in spans])[:, None]
        low, high = np.array(self.edges, dtype=np.int64).reshape(-1, 2).T
        here = ~clean & (start < high) & (start + size > low)
        behind = ~clean & (start < high) & (high + size <= end)
        kinds, kind = np.unique(np.hstack([start + size <= end, here, behind]), axis=0, return_inverse=True)
        count = len(self.edges)
        later = [self.touched(high, size) for _, high in self.edges]
        sets = []
        for fits, *marks in kinds.tolist():
            found = {frozenset(np.flatnonzero(marks[:count]).tolist())} if fits else set()
            found |= {later[n] for n in np.flatnonzero(marks[count:]).tolist()}
            sets.append({NOTHING} if NOTHING in found else found)
        return _Meetings(sets, kind.ravel())


@dataclass(frozen=True, slots=True)
class _Meetings:
    """For each of many spans, which sets of defects a thing in it may meet."""

    sets: list[set[Touched]]
    kind: Ints
    """Place in ``sets`` for each span."""

    def clear_of(self, touched: Touched) -> Marks:
        """Whether a thing in each span can be clear of some defects."""
        return np.array([any(s.isdisjoint(touched) for s in mine) for mine in self.sets])[self.kind]


@dataclass(slots=True)
class _PartSingles:
    """Single parts on rectangles of a plate."""

    plate: Plate
    parts: Sequence[PlatePart]
    along: list[_Meetings]
    """For each part."""
    across: list[_Meetings]
    worths: dict[tuple[int, Touched], Ints] = field(default_factory=dict)

    @classmethod
    def of(cls, plate: Plate, parts: Sequence[PlatePart], along: Spans, across: Spans) -> _PartSingles:
        """Parts on the rectangles of a table."""
        kerf = plate.kerf
        return cls(
            plate,
            parts,
            [_Side.along(plate).meetings(along.spans, p.length + kerf) for p in parts],
            [_Side.across(plate).meetings(across.spans, p.width + kerf) for p in parts],
        )

    def raise_to(self, row: Worths, place: int) -> None:
        """Raise the worths of one span along to what one part is worth there."""
        for number, meetings in enumerate(self.along):
            for touched in meetings.sets[meetings.kind[place]]:
                np.maximum(row, self._worth(number, touched), out=row, casting="same_kind")

    def _worth(self, number: int, touched: Touched) -> Ints:
        """Worth of a part in every span across where it must be clear of some defects."""
        key = (number, touched)
        if key not in self.worths:
            self.worths[key] = np.where(self.across[number].clear_of(touched), self.parts[number].value, 0)
        return self.worths[key]

    def single(self, corner: tuple[int, int], size: tuple[int, int], worth: int) -> Placed:
        """Where a part of this worth lies on a rectangle."""
        along, across, kerf = _Side.along(self.plate), _Side.across(self.plate), self.plate.kerf
        return next(
            (x, y, part.length, part.width, number)
            for number, part in enumerate(self.parts)
            if part.value == worth
            for x in along.starts(corner[0], corner[0] + size[0], part.length + kerf)
            for y in across.starts(corner[1], corner[1] + size[1], part.width + kerf)
            if along.touched(x, part.length + kerf).isdisjoint(across.touched(y, part.width + kerf))
        )


@dataclass(slots=True)
class _StripSingles:
    """Single strips on rectangles of a plate, as wide as they are clear."""

    plate: Plate
    strip: FreeStrip
    along: _Meetings
    across: Sequence[Span]
    worths: dict[Touched, Ints] = field(default_factory=dict)

    def raise_to(self, row: Worths, place: int) -> None:
        """Raise the worths of one span along to the width of one strip there."""
        for touched in self.along.sets[self.along.kind[place]]:
            if touched not in self.worths:
                self.worths[touched] = self._widest(touched)
            np.maximum(row, self.worths[touched], out=row, casting="same_kind")

    def _widest(self, touched: Touched) -> Ints:
        """The widest strip in every span across that is clear of some defects."""
        start, end = (np.array(ends) for ends in zip(*((s.start, s.end) for s in self.across), strict=True))
        clean = np.array([s.clean for s in self.across])
        best, edges = np.zeros(len(start), dtype=np.int64), _Side.across(self.plate).edges
        for low, high in [*sorted(edges[n] for n in touched), (NO_END, NO_END)]:
            width = np.where(clean, end, np.minimum(end, low)) - start - self.plate.kerf
            np.maximum(best, width, out=best, where=width >= self.strip.least_width)
            start = np.where(clean, start, np.maximum(start, high))
        return best

    def single(self, corner: tuple[int, int], size: tuple[int, int], worth: int) -> Placed:
        """Where a strip of this width lies on a rectangle."""
        along, across, kerf = _Side.along(self.plate), _Side.across(self.plate), self.plate.kerf
        return next(
            (x, y, self.strip.length, worth, 0)
            for x in along.starts(corner[0], corner[0] + size[0], self.strip.length + kerf)
            for y in across.starts(corner[1], corner[1] + size[1], worth + kerf)
            if along.touched(x, self.strip.length + kerf).isdisjoint(across.touched(y, worth + kerf))
        )


def best_cutting(plate: Plate, parts: Sequence[PlatePart]) -> PlateResult:
    """The most valuable parts from one plate, any number of each, proven.

    Memory is four bytes for each rectangle that cuts can leave, counted by the spans it has both ways; time
    grows with the spans one way and the cuts of those the other way.

    Examples
    --------
    >>> best_cutting(Plate(length=10, width=6), [PlatePart(length=4, width=3, value=12)]).value
    48
    >>> best_cutting(
    ...     Plate(length=10, width=6, defects=((3, 1, 1, 1),)), [PlatePart(length=4, width=3, value=12)]
    ... ).value
    36
    """
    kerf = plate.kerf
    long, wide = plate.length + kerf, plate.width + kerf
    along = Spans.of(long, sums_of([p.length + kerf for p in parts], long), _Side.along(plate).edges)
    across = Spans.of(wide, sums_of([p.width + kerf for p in parts], wide), _Side.across(plate).edges)
    if len(along.spans) <= len(across.spans):
        return _best_of_parts(plate, parts, along, across)
    # stacks are built anew for every row, so rows are the way with fewer spans
    turned = _best_of_parts(
        Plate(
            length=plate.width,
            width=plate.length,
            defects=tuple((y, x, b, a) for x, y, a, b in plate.defects),
            kerf=kerf,
        ),
        [replace(p, length=p.width, width=p.length) for p in parts],
        across,
        along,
    )
    return replace(turned, placed=tuple(sorted((y, x, b, a, n) for x, y, a, b, n in turned.placed)))


def _best_of_parts(plate: Plate, parts: Sequence[PlatePart], along: Spans, across: Spans) -> PlateResult:
    kerf = plate.kerf
    area = (plate.length + kerf) * (plate.width + kerf)
    densest = max((p.value / ((p.length + kerf) * (p.width + kerf)) for p in parts), default=0.0)
    singles = _PartSingles.of(plate, parts, along, across)
    table = Table.of(along, across, singles, most=area * densest + 1)
    return PlateResult(value=table.whole, placed=table.read(singles))


def best_free_strips(plate: Plate, strip: FreeStrip) -> PlateResult:
    """The greatest total width of clear strips of one length, proven.

    Examples
    --------
    >>> plate = Plate(length=20, width=10, defects=((3, 4, 2, 2),))
    >>> best_free_strips(plate, FreeStrip(length=10, least_width=3)).value
    18
    """
    kerf = plate.kerf
    long, wide = plate.length + kerf, plate.width + kerf
    along = Spans.of(long, sums_of([strip.length + kerf], long), _Side.along(plate).edges)
    widths = np.arange(wide + 1)
    across = Spans.of(wide, (widths == 0) | (widths >= strip.least_width + kerf), _Side.across(plate).edges)
    meetings = _Side.along(plate).meetings(along.spans, strip.length + kerf)
    singles = _StripSingles(plate, strip, meetings, across.spans)
    table = Table.of(along, across, singles, most=long * wide)
    return PlateResult(value=table.whole, placed=table.read(singles))
