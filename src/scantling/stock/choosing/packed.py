"""Patterns as a few arrays: what is sent between processes instead of thousands of small objects."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.stock.choosing.master import Column
from scantling.stock.question.pattern import Pattern, Segment, Spot, Strip

__all__ = ["PackedColumns"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PackedColumns:
    """Columns side by side.

    ``stocks`` and ``costs`` by column, ``kinds``, ``widths`` and ``strips`` by (column, need). ``places``
    holds every pattern as numbers one behind the other; None where only what the columns yield is wanted.
    """

    stocks: Ints
    costs: Floats
    kinds: NDArray[np.integer[Any]]
    widths: Floats
    strips: NDArray[np.int32]
    places: NDArray[np.int32] | None

    @classmethod
    def of(cls, columns: Sequence[Column], *, places: bool) -> PackedColumns:
        """Pack columns, with the places of their blanks or without."""
        count = len(columns)
        kinds = np.array([c.kinds for c in columns], dtype=np.int64).reshape(count, -1 if count else 0)
        numbers: list[int] = []
        for column in columns if places else ():
            _pack(column.pattern, numbers)
        return cls(
            stocks=np.array([c.stock for c in columns], dtype=np.int64),
            costs=np.array([c.cost for c in columns]),
            kinds=kinds.astype(np.min_scalar_type(kinds.max(initial=0))),
            widths=np.array([c.widths for c in columns]).reshape(count, -1 if count else 0),
            strips=np.array([c.strips for c in columns], dtype=np.int32).reshape(count, -1 if count else 0),
            places=np.array(numbers, dtype=np.int32) if places else None,
        )

    def columns(self) -> list[Column]:
        """The columns, in their order; their patterns are bare where no places are known."""
        numbers = iter(() if self.places is None else self.places.tolist())
        rows = zip(
            self.stocks.tolist(),
            self.costs.tolist(),
            self.kinds.tolist(),
            self.widths.tolist(),
            self.strips.tolist(),
            strict=True,
        )
        return [
            Column(
                stock=stock,
                cost=cost,
                pattern=Pattern(stock=stock, segments=[] if self.places is None else _unpacked(numbers)),
                kinds=tuple(kinds),
                widths=tuple(widths),
                strips=tuple(strips),
            )
            for stock, cost, kinds, widths, strips in rows
        ]


def _pack(pattern: Pattern, numbers: list[int]) -> None:
    numbers.append(len(pattern.segments))
    for segment in pattern.segments:
        numbers += (segment.x, segment.length, len(segment.strips))
        for strip in segment.strips:
            numbers += (strip.y, strip.width, len(strip.spots))
            for spot in strip.spots:
                numbers += (spot.kind, spot.x, spot.y, spot.length, spot.width)


def _unpacked(numbers: Iterator[int]) -> list[Segment]:
    take = numbers.__next__
    return [
        Segment(
            x=take(),
            length=take(),
            strips=[
                Strip(
                    y=take(),
                    width=take(),
                    spots=[Spot(take(), take(), take(), take(), take()) for _ in range(take())],
                )
                for _ in range(take())
            ],
        )
        for _ in range(take())
    ]
