"""Ways to cut sheets of several sizes, for :func:`scantling.stock.plates.demand.meet_demand`."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from time import monotonic

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.fills import Every, Fill, Supply
from scantling.stock.plates.limited import LimitedPart, Stages, best_limited_cutting
from scantling.stock.plates.orders import order_parts
from scantling.stock.plates.packing import Packing, SheetDemand, pack_sheets
from scantling.stock.plates.partsets import PartSets, SetDemand
from scantling.stock.plates.plate import Plate
from scantling.stock.plates.platebounds import Grid, Shape
from scantling.stock.plates.source import Source
from scantling.stock.plates.stages import TwoStages
from scantling.stock.plates.tightsets import MOST_COPIES, TightSets

__all__ = ["SheetSource", "StripSource"]

Ints = NDArray[np.int64]
MOST_SETS = 500_000
"""Sets of parts are listed if there are about so many."""
LEAST_BULKY, BULKIER = 2000.0, 4.0
"""About so many sets of the largest parts are listed first, and so many times as many the next time."""
FIRST_SHARE, LOOSER = 1.0, 1.25
"""Share of the waste that falls to a box by its number of parts at first, and how it grows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetSource(Source):
    """Sheets cut in any number of stages, no part more often than it is still wanted.

    A sheet's search tells its bound and its layout at once, so there is no quick one.
    """

    sheets: Sequence[tuple[int, int]]
    parts: Sequence[tuple[int, int]]
    turns: bool
    kerf: int = 0
    seconds: float = 1.0
    """Longest search of one sheet; its bound holds whether or not it came to an end."""
    clock: Callable[[], float] = monotonic

    def best(self, worth: Ints, limits: Ints, seconds: float) -> list[tuple[int, Fill]]:
        """For each sheet what none of its layouts is worth more than, and a good one."""
        offers, until = [], self.clock() + seconds
        wanted = [n for n in range(len(worth)) if worth[n] > 0 and limits[n] > 0]
        parts = [
            LimitedPart(
                length=self.parts[n][0],
                width=self.parts[n][1],
                value=int(worth[n]),
                copies=int(limits[n]),
                turns=self.turns,
            )
            for n in wanted
        ]
        for number, (length, width) in enumerate(self.sheets):
            plate = Plate(length=length, width=width, kerf=self.kerf)
            each = min(self.seconds, (until - self.clock()) / (len(self.sheets) - number))
            result = best_limited_cutting(plate, parts, stages=Stages.ANY, seconds=each, clock=self.clock)
            placed = tuple((x, y, long, wide, wanted[n]) for x, y, long, wide, n in result.placed)
            offers.append((result.bound, _fill(number, placed, len(worth))))
        return offers

    def whole(
        self, supplies: Sequence[Supply], wanted: Ints, enough: Callable[[int], bool], seed: int = 0
    ) -> Iterator[tuple[Fill, ...]]:
        """Hand rules, a few sheets emptied and filled anew (:mod:`scantling.stock.plates.packing`)."""
        for packing in pack_sheets(self._asked(supplies, wanted), enough=enough, seed=seed):
            yield self._fills(packing)

    def ordered(
        self, supplies: Sequence[Supply], wanted: Ints, below: int, late: Callable[[], bool]
    ) -> Iterator[tuple[Fill, ...]]:
        """Orders of the parts, each cut as well as it can be (:mod:`scantling.stock.plates.orders`)."""
        for packing in order_parts(self._asked(supplies, wanted), below=below, late=late):
            yield self._fills(packing)

    def on_one(
        self, supplies: Sequence[Supply], wanted: Ints, below: int, late: Callable[[], bool]
    ) -> Iterator[tuple[Fill, ...]]:
        """Boxes that waste little, until one holds all parts (:mod:`scantling.stock.plates.tightsets`)."""
        asked, k = self._asked(supplies, wanted), self.kerf
        copies = [n for n, often in enumerate(asked.wanted) for _ in range(often)]
        if not 2 <= len(copies) <= MOST_COPIES:
            return
        parts = [asked.parts[n] for n in copies]
        kinds = [n for n, s in enumerate(supplies) if s.cost < below and s.limit != 0]
        sheets = [
            (n, TightSets(asked.sizes[n], parts, self.turns, late))
            for n in sorted(kinds, key=lambda n: supplies[n].cost)
        ]
        sheets, share = [(n, sets) for n, sets in sheets if sets.spare >= 0], FIRST_SHARE
        while sheets and not late():
            for number, sets in sheets.copy():
                found = sets.laid(share)
                if found is not None:
                    placed = tuple((x, y, a - k, b - k, copies[n]) for x, y, a, b, n in found)
                    yield (_fill(number, placed, len(self.parts)),)
                    below = supplies[number].cost
                    break
                if sets.over or sets.exact(share):
                    sheets.remove((number, sets))
            sheets, share = [s for s in sheets if supplies[s[0]].cost < below], share * LOOSER

    def _asked(self, supplies: Sequence[Supply], wanted: Ints) -> SheetDemand:
        k = self.kerf
        return SheetDemand(
            sizes=[(a + k, b + k) for a, b in self.sheets],
            costs=[s.cost for s in supplies],
            limits=[s.limit for s in supplies],
            parts=[(a + k, b + k) for a, b in self.parts],
            wanted=wanted.tolist(),
            turns=self.turns,
        )

    def _fills(self, packing: Packing) -> tuple[Fill, ...]:
        k = self.kerf
        return tuple(
            _fill(
                sheet.kind,
                tuple((x, y, long - k, wide - k, n) for x, y, long, wide, n in sheet.placed),
                len(self.parts),
            )
            for sheet in packing.sheets
        )

    def every(self, supplies: Sequence[Supply], wanted: Ints, late: Callable[[], bool]) -> Every | None:
        """Every set of parts a sheet yields, if they look few (:mod:`scantling.stock.plates.partsets`)."""
        k = self.kerf
        asked = SetDemand(
            sheets=[(a + k, b + k) for a, b in self.sheets],
            parts=[(a + k, b + k) for a, b in self.parts],
            wanted=wanted.tolist(),
            turns=self.turns,
        )
        if any(s.limit is not None for s in supplies) or asked.about > MOST_SETS:
            return None
        sets = PartSets(asked)
        largest = sets.largest([s.cost for s in supplies], late=late) if sets.grow(late) else None
        if largest is None:
            return None
        counts, kinds = largest

        def laid(row: Ints, kind: int) -> Fill:
            placed = sets.laid(row, asked.sheets[kind])
            return Fill(kind, row, tuple((x, y, long - k, wide - k, n) for x, y, long, wide, n in placed))

        return Every(counts, kinds, laid)

    def bulky(
        self, supplies: Sequence[Supply], wanted: Ints, late: Callable[[], bool]
    ) -> Iterator[tuple[Every, Ints]]:
        """Sets of the largest parts alone, and how many of each are wanted: more parts each time.

        Behind the parts stands the area of the sheet, of which all parts together want theirs: what a choice
        of sheets must be able to hold, so it costs no more than one that holds all parts in their places.
        """
        if any(s.limit is not None for s in supplies):
            return
        k = self.kerf
        sheets, parts = ([(a + k, b + k) for a, b in sizes] for sizes in (self.sheets, self.parts))
        areas = np.array([a * b for a, b in parts], dtype=np.int64)
        sizes = np.array([a * b for a, b in sheets], dtype=np.int64)
        ranked = [n for n in np.argsort(-areas, kind="stable").tolist() if wanted[n]]
        least, before = LEAST_BULKY, 0
        while before < len(ranked) and not late():
            some: list[int] = []
            for number in ranked:
                asked = SetDemand(
                    sheets=sheets,
                    parts=[parts[n] for n in [*some, number]],
                    wanted=[int(wanted[n]) for n in [*some, number]],
                    turns=self.turns,
                )
                if len(some) > before and asked.about > least:
                    break
                some.append(number)
            asked = SetDemand(
                sheets=sheets,
                parts=[parts[n] for n in some],
                wanted=[int(wanted[n]) for n in some],
                turns=self.turns,
            )
            sets = PartSets(asked)
            if not sets.grow(late):
                return
            rows = [sets.largest([1] * len(sheets), kinds=[n], late=late) for n in range(len(sheets))]
            found = [row for row in rows if row is not None]
            if len(found) < len(rows):
                return
            # a sheet that holds none of the largest parts still holds others
            bare = [(np.zeros((1, len(some)), dtype=np.int64), np.array([n])) for n in range(len(sheets))]
            found = [row if len(row[1]) else bare[n] for n, row in enumerate(found)]
            kinds = np.concatenate([held for _, held in found])
            counts = np.concatenate([count for count, _ in found])
            every = Every(np.column_stack([counts, sizes[kinds]]), kinds, _unlaid)
            yield every, np.append(wanted[some], int((areas * wanted).sum()))
            before, least = len(some), least * BULKIER


@dataclass(slots=True, kw_only=True)
class StripSource(Source):
    """Sheets cut in two stages with a last trim, strips along; for parts wanted many times over.

    The linear program is better at once than hand rules, the sets of so many parts are too many, and orders
    of parts are for cuts of any number of stages. The best layout takes no longer than a quick one.
    """

    sheets: Sequence[tuple[int, int]]
    parts: Sequence[tuple[int, int]]
    turns: bool
    kerf: int = 0
    ways: list[TwoStages] = field(init=False)

    def __post_init__(self) -> None:
        k = self.kerf
        shapes = [Shape(part=n, long=a + k, wide=b + k) for n, (a, b) in enumerate(self.parts)]
        if self.turns:
            shapes += [Shape(part=n, long=b + k, wide=a + k) for n, (a, b) in enumerate(self.parts) if a != b]
        nothing = np.zeros(len(self.parts), dtype=np.int64)
        self.ways = [TwoStages(Grid.of(a + k, b + k, shapes), nothing, nothing) for a, b in self.sheets]

    def best(self, worth: Ints, limits: Ints, seconds: float) -> list[tuple[int, Fill]]:
        """For each sheet the most it yields without limits, and a layout that does."""
        offers, k = [], self.kerf
        for number, way in enumerate(self.ways):
            most, found = way.layout(np.where(limits > 0, worth, 0))
            shapes = way.grid.shapes
            placed = tuple(
                (x, y, shapes[n].long - k, shapes[n].wide - k, shapes[n].part) for x, y, n in found
            )
            offers.append((most, _fill(number, placed, len(worth))))
        return offers


def _unlaid(counts: Ints, kind: int) -> Fill:
    return Fill(kind, counts)


def _fill(number: int, placed: tuple[tuple[int, int, int, int, int], ...], parts: int) -> Fill:
    counts = np.bincount(np.array([n for *_, n in placed], dtype=np.int64), minlength=parts)
    return Fill(number, counts.astype(np.int64), placed)
