"""Where ways to cut a piece of stock come from, for :func:`scantling.stock.plates.demand.meet_demand`."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from scantling.stock.plates.fills import Every, Fill, Supply

__all__ = ["Source"]

Ints = NDArray[np.int64]


class Source(ABC):
    """Fills priced by worth; whatever else a kind of stock can tell is nothing until it says so."""

    __slots__ = ()

    def quick(self, worth: Ints, limits: Ints) -> list[tuple[int, Fill]]:
        """For each supply a good fill and its worth, soon."""
        return []

    @abstractmethod
    def best(self, worth: Ints, limits: Ints, seconds: float) -> list[tuple[int, Fill]]:
        """For each supply what none of its fills is worth more than, and a good fill, in about that time."""

    def whole(
        self, supplies: Sequence[Supply], wanted: Ints, enough: Callable[[int], bool], seed: int = 0
    ) -> Iterator[tuple[Fill, ...]]:
        """All parts at once by hand rules, each answer cheaper than the last, until that is enough."""
        return iter(())

    def every(self, supplies: Sequence[Supply], wanted: Ints, late: Callable[[], bool]) -> Every | None:
        """Fills that no choice needs others than, if they can be listed before it is late."""
        return None

    def bulky(
        self, supplies: Sequence[Supply], wanted: Ints, late: Callable[[], bool]
    ) -> Iterator[tuple[Every, Ints]]:
        """Easier questions, each harder than the last: no choice that meets all costs less than theirs."""
        return iter(())

    def ordered(
        self, supplies: Sequence[Supply], wanted: Ints, below: int, late: Callable[[], bool]
    ) -> Iterator[tuple[Fill, ...]]:
        """All parts at once below a cost by their order, each answer cheaper than the last."""
        return iter(())

    def on_one(
        self, supplies: Sequence[Supply], wanted: Ints, below: int, late: Callable[[], bool]
    ) -> Iterator[tuple[Fill, ...]]:
        """All parts at once on one piece of stock below a cost, each answer cheaper than the last."""
        return iter(())
