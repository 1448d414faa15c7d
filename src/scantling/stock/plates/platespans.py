"""The spans one way that cuts of a plate need tell apart, and where each of them may be cut.

A layout is worth no less if all left of a cut is pushed left and all right of it pushed right: the cut may
then go to the last place up to the right side's edge at which the left side can end.
Parts end at sums of sizes from the span's start or from behind a defect, and begin, from the right, at sums
of sizes back from its end or from a defect: all other cuts are left out.
What holds no defect counts by its size alone.

References
----------
.. [1] Herz, "Recursive computational procedure for two-dimensional stock cutting", IBM Journal of Research
   and Development 16 (1972) 462-469: cuts at sums of sizes suffice.
.. [2] Scheithauer, Terno, "The G4-heuristic for the pallet loading problem", Journal of the Operational
   Research Society 47 (1996) 511-522: of these, the ones that also serve what is pushed to the other end.
.. [3] Afsharian, Niknejad, Wäscher, "A heuristic, dynamic programming-based approach for a two-dimensional
   cutting problem with defects", OR Spectrum 36 (2014) 971-999: sums from behind defects.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

__all__ = ["Ints", "Level", "Marks", "Span", "Spans", "positions", "sums_of"]

Ints = NDArray[np.int64]
Marks = NDArray[np.bool_]
Places = NDArray[np.intp]


def sums_of(sizes: Sequence[int], end: int) -> Marks:
    """For every whole number up to the end, whether it is a sum of sizes, 0 being one."""
    marks = np.zeros(end + 1, dtype=bool)
    marks[0] = True
    for number in range(end):
        if marks[number]:
            marks[[number + size for size in sizes if number + size <= end]] = True
    return marks


def positions(sizes: Sequence[int], end: int) -> list[int]:
    """Every sum of sizes up to an end, and the end."""
    marks = sums_of(sizes, end)
    marks[end] = True
    return [int(p) for p in np.flatnonzero(marks)]


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """From where to where; a span without a defect begins at 0 and stands for all of its size."""

    start: int
    end: int
    clean: bool

    @property
    def size(self) -> int:
        """Its length."""
        return self.end - self.start


@dataclass(frozen=True, slots=True)
class Level:
    """Spans ``first`` to ``last`` (excluded), which are cut only into spans of earlier levels."""

    first: int
    last: int
    low: Places
    """Places of the lower parts of all cuts, span by span."""
    high: Places
    begin: Places
    """Where each span's cuts begin in ``low``."""


@dataclass(frozen=True, slots=True)
class Spans:
    """All spans that come of cutting one, each behind those it is cut into; the whole is the last."""

    spans: list[Span]
    cuts: list[Ints]
    """For each span rows of places and starts: lower part, upper part, and where from the span's start they
    begin."""
    depths: list[int]
    """For each span, how often it can be cut, one part after the other; they rise."""
    begin: int
    """Where the whole begins on the plate."""

    @classmethod
    def of(cls, end: int, sums: Marks, defects: Sequence[tuple[int, int]]) -> Spans:
        """Spans of a plate one way.

        Parameters
        ----------
        end
            Length of the plate, kerf included.
        sums
            For every whole number up to the end, whether parts side by side can be that long, kerf included.
        defects
            (low, high): no part may begin below the high and end above the low of one.
        """
        return _Finder(end, sums, tuple(defects)).all()

    def levels(self) -> list[Level]:
        """The spans that can be cut, in the order in which their values can be told."""
        levels = []
        for depth in range(1, self.depths[-1] + 1):
            first, last = bisect_left(self.depths, depth), bisect_left(self.depths, depth + 1)
            cuts = np.concatenate(self.cuts[first:last]).astype(np.intp)
            counts = np.array([0] + [len(c) for c in self.cuts[first : last - 1]], dtype=np.intp)
            levels.append(Level(first, last, cuts[:, 0].copy(), cuts[:, 1].copy(), np.cumsum(counts)))
        return levels


@dataclass(slots=True)
class _Finder:
    """One way of a plate. A span goes by one number: its size if it holds no defect, else start and end."""

    end: int
    sums: Marks
    defects: tuple[tuple[int, int], ...]
    last_sum: Ints = field(init=False)
    """For every whole number, the greatest sum up to it."""
    ends: dict[int, Ints] = field(default_factory=dict)
    begins: dict[int, Ints] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.last_sum = np.maximum.accumulate(np.where(self.sums, np.arange(self.end + 1), 0))

    def all(self) -> Spans:
        """Every span that comes of cutting the whole."""
        whole, begin = self._narrowed(0, self.end)
        found: dict[int, Ints] = {}
        todo = {whole}
        while todo:
            number = todo.pop()
            span = self._span(number)
            found[number] = self._clean_cuts(span.size) if span.clean else self._cuts(span)
            todo.update(set(found[number][:, :2].ravel().tolist()) - found.keys())
        return self._in_order(found, begin)

    def _span(self, number: int) -> Span:
        start, end = divmod(number, self.end + 1)
        return Span(max(start - 1, 0), end, clean=start == 0)

    def _narrowed(self, start: int, end: int) -> tuple[int, int]:
        """The least span worth as much, as far as parts pushed to either end reach, and where it begins."""
        while any(start < high and end > low for low, high in self.defects):
            last = int(self._ends(start)[end])
            if last == start:
                return 0, start
            # the start by the new end: both by the old ones at once can leave too little
            first = int(self._begins(last)[start])
            if (first, last) == (start, end):
                return (start + 1) * (self.end + 1) + end, start
            start, end = first, last
        return int(self.last_sum[end - start]), start

    def _ends(self, start: int) -> Ints:
        """For every place, the last one up to it where parts pushed to the start may end; or the start."""
        if start not in self.ends:
            marks = np.zeros(self.end + 1, dtype=bool)
            for source in (start, *(high for _, high in self.defects if start < high < self.end)):
                marks[source + 1 :] |= self.sums[1 : self.end - source + 1]
            self.ends[start] = np.maximum.accumulate(np.where(marks, np.arange(self.end + 1), start))
        return self.ends[start]

    def _begins(self, end: int) -> Ints:
        """For every place, the first one from it where parts pushed to the end may begin; or the end."""
        if end not in self.begins:
            marks = np.zeros(end + 1, dtype=bool)
            for source in (end, *(low for low, _ in self.defects if 0 < low < end)):
                marks[:source] |= self.sums[source:0:-1]
            places = np.where(marks, np.arange(end + 1), end)
            self.begins[end] = np.minimum.accumulate(places[::-1])[::-1]
        return self.begins[end]

    def _cuts(self, span: Span) -> Ints:
        """Cuts of a span with a defect, each at the last end of parts up to a beginning of parts."""
        places = np.unique(self._ends(span.start)[np.unique(self._begins(span.end)[span.start :])])
        rows = []
        for place in places[(places > span.start) & (places < span.end)].tolist():
            low, low_at = self._narrowed(span.start, place)
            high, high_at = self._narrowed(place, span.end)
            rows.append((low, high, low_at - span.start, high_at - span.start))
        return np.array(rows, dtype=np.int64).reshape(-1, 4)

    def _clean_cuts(self, size: int) -> Ints:
        """Cuts of a span without a defect; of its two parts either may come first."""
        places = np.unique(self.last_sum[size - np.flatnonzero(self.sums[: size + 1])])
        rests = self.last_sum[size - places]
        both = (places > 0) & (rests > 0)
        pairs = np.unique(np.minimum(places, rests)[both] * (size + 1) + np.maximum(places, rests)[both])
        low, high = np.divmod(pairs, size + 1)
        return np.column_stack((low, high, np.zeros_like(low), low))

    def _in_order(self, found: dict[int, Ints], begin: int) -> Spans:
        """Spans by how often they can be cut."""
        spans = {number: self._span(number) for number in found}
        depth: dict[int, int] = {}
        for number in sorted(found, key=lambda n: spans[n].size):
            parts = np.unique(found[number][:, :2]).tolist()
            depth[number] = max((1 + depth[part] for part in parts), default=0)
        order = sorted(found, key=lambda n: (depth[n], spans[n].size, n))
        places = np.argsort(order)
        numbers = np.array(order)[places]
        cuts = []
        for number in order:
            rows = found[number]
            rows[:, :2] = places[np.searchsorted(numbers, rows[:, :2])]
            cuts.append(rows)
        return Spans([spans[n] for n in order], cuts, [depth[n] for n in order], begin)
