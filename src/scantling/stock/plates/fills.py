"""Which stock to take, and how often to cut it which way, so that all parts are there: the master problem.

References
----------
.. [1] Gilmore, Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9
   (1961) 849-859.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.stock.choosing.master import quiet_solver

__all__ = ["Every", "Fill", "FillMaster", "Supply", "Whole", "stop_when"]

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """Stock of one size: what a piece costs, how much it holds, how many there are (None: any number)."""

    cost: int
    size: int
    limit: int | None = None


@dataclass(frozen=True, slots=True)
class Fill:
    """One way to cut a piece of stock: how many of each part, and where they lie, if that is known."""

    supply: int
    counts: Ints
    placed: tuple[tuple[int, int, int, int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Every:
    """Fills, a row each, among which is a cheapest choice of all there are; any number of each supply."""

    counts: Ints
    """How many of each part."""
    kinds: Ints
    """Number of the supply."""
    laid: Callable[[Ints, int], Fill]
    """Where the parts of one lie."""


@dataclass(frozen=True, slots=True)
class Whole:
    """Whole numbers of fills: which are taken, and whether the search ended."""

    taken: list[int] | None
    ended: bool


def stop_when(model: Any, late: Callable[[], bool]) -> None:
    """Let a solver ask whether it is late; its own limit is by the clock on the wall alone."""
    from highspy import cb

    def asked(_kind: object, _message: str, _out: object, answer: Any, _data: object) -> None:
        if late():
            answer.user_interrupt = True

    model.setCallback(asked, None)
    for moment in ("kCallbackMipInterrupt", "kCallbackSimplexInterrupt"):
        model.startCallback(getattr(cb.HighsCallbackType, moment))


@dataclass(slots=True)
class FillMaster:
    """The linear program over all fills found: parts are rows to be covered, supplies rows to be kept to."""

    supplies: Sequence[Supply]
    wanted: Ints
    most: Ints | None = None
    """The most of each part in one fill, where that may be hundreds, as of an area."""
    fills: list[Fill] = field(default_factory=list)
    model: Any = field(init=False)
    known: dict[tuple[int, bytes], int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.model = quiet_solver()
        infinite = self.model.getInfinity()
        for number in self.wanted.tolist():
            self.model.addRow(float(number), infinite, 0, [], [])
        for supply in self.supplies:
            most = infinite if supply.limit is None else float(supply.limit)
            self.model.addRow(-infinite, most, 0, [], [])
        most = np.ones(len(self.wanted))
        if self.most is not None:
            most = np.maximum(most, self.most / 20.0)
        missing = 20.0 * max(s.cost for s in self.supplies) / most
        for part in range(len(self.wanted)):
            self.model.addCol(
                float(missing[part]), 0.0, infinite, 1, np.array([part], np.int32), np.array([1.0])
            )

    def place_of(self, fill: Fill) -> int:
        """The number of a fill, which is added if it is new."""
        self.add(fill)
        return self.known[fill.supply, fill.counts.tobytes()]

    def add(self, fill: Fill) -> bool:
        """Offer a fill; False if it is known."""
        key = (fill.supply, fill.counts.tobytes())
        if key in self.known:
            return False
        self.known[key] = len(self.fills)
        self.fills.append(fill)
        ids = np.flatnonzero(fill.counts)
        rows = np.append(ids, len(self.wanted) + fill.supply).astype(np.int32)
        values = np.append(fill.counts[ids], 1).astype(np.float64)
        cost = float(self.supplies[fill.supply].cost)
        self.model.addCol(cost, 0.0, self.model.getInfinity(), len(rows), rows, values)
        return True

    def ask(self, wanted: Ints, used: Ints) -> None:
        """Cover these numbers instead, with so many pieces of each supply used up."""
        infinite = self.model.getInfinity()
        for part, number in enumerate(wanted.tolist()):
            self.model.changeRowBounds(part, float(max(0, number)), infinite)
        for row, (supply, gone) in enumerate(zip(self.supplies, used.tolist(), strict=True)):
            if supply.limit is not None:
                self.model.changeRowBounds(len(self.wanted) + row, -infinite, float(supply.limit - gone))

    def solve(self) -> tuple[Floats, Floats, Floats, float]:
        """How often each fill is taken, what a part is worth, what one more of a supply saves, the cost."""
        self.model.run()
        solution = self.model.getSolution()
        duals = np.array(solution.row_dual)
        parts = len(self.wanted)
        return (
            np.array(solution.col_value)[parts:],
            np.maximum(0.0, duals[:parts]),
            np.maximum(0.0, -duals[parts:]),
            float(self.model.getInfo().objective_function_value),
        )

    def whole(
        self,
        wanted: Ints,
        used: Ints,
        *,
        late: Callable[[], bool],
        below: float,
        among: Sequence[int] | None = None,
    ) -> Whole:
        """Whole numbers of fills at least cost below a mark, until that is found or it is late."""
        from highspy import _core

        if late():
            return Whole(None, ended=False)
        model = quiet_solver()
        stop_when(model, late)
        model.setOptionValue("mip_rel_gap", 0.0)
        infinite = model.getInfinity()
        for number in wanted.tolist():
            model.addRow(float(max(0, number)), infinite, 0, [], [])
        for supply, gone in zip(self.supplies, used.tolist(), strict=True):
            most = infinite if supply.limit is None else float(supply.limit - gone)
            model.addRow(-infinite, most, 0, [], [])
        chosen = range(len(self.fills)) if among is None else among
        for column, number in enumerate(chosen):
            fill = self.fills[number]
            ids = np.flatnonzero(fill.counts)
            rows = np.append(ids, len(self.wanted) + fill.supply).astype(np.int32)
            values = np.append(fill.counts[ids], 1).astype(np.float64)
            model.addCol(float(self.supplies[fill.supply].cost), 0.0, infinite, len(rows), rows, values)
            model.changeColIntegrality(column, _core.HighsVarType.kInteger)
        all_ids = np.arange(len(chosen), dtype=np.int32)
        costs = np.array([float(self.supplies[self.fills[n].supply].cost) for n in chosen])
        model.addRow(-infinite, below - 0.5, len(all_ids), all_ids, costs)
        model.run()
        ended = model.getModelStatus() in (
            _core.HighsModelStatus.kOptimal,
            _core.HighsModelStatus.kInfeasible,
        )
        if model.getInfo().primal_solution_status != _core.SolutionStatus.kSolutionStatusFeasible:
            return Whole(None, ended)
        counts = np.rint(np.array(model.getSolution().col_value)).astype(np.int64)
        taken = [n for n, count in zip(chosen, counts.tolist(), strict=True) for _ in range(count)]
        return Whole(taken, ended)
