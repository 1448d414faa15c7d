"""Choosing one pattern a board at least price: the master problem, as a linear and as an integer program.

References
----------
.. [1] Gilmore, Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9
   (1961) 849-859. Boards of several sizes and prices, each there once, are rows of their own.
.. [2] Huangfu, Hall, "Parallelizing the dual revised simplex method", Mathematical Programming Computation 10
   (2018) 119-142: the solver used.
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem
from scantling.stock.question.shapes import Duals
from scantling.stock.question.trouble import cuts_of

__all__ = ["Column", "Master", "column_of", "lagrangian_bound"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
PANEL_SCALE = 1000.0
"""Panel rows count millimeters, not units."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A pattern with what it yields: blanks by kind, width [mm] and strips by panel."""

    stock: int
    cost: float
    pattern: Pattern
    kinds: tuple[int, ...]
    widths: tuple[float, ...]
    strips: tuple[int, ...]

    @property
    def key(self) -> tuple[object, ...]:
        """Columns alike in all that counts share it."""
        return (self.stock, round(self.cost, 6), self.kinds, self.widths, self.strips)


def quiet_solver() -> Any:
    """An empty model. Its core class: the public one greets on standard output, where only results belong."""
    from highspy import _core

    model = _core._Highs()  # noqa: SLF001
    model.setOptionValue("output_flag", False)
    model.setOptionValue("threads", 1)
    return model


def column_of(problem: Problem, pattern: Pattern) -> Column:
    """Count what a pattern yields."""
    base = len(problem.kinds)
    kinds = [0] * base
    widths = [0.0] * len(problem.panels)
    strips = [0] * len(problem.panels)
    for spot in pattern.spots():
        if spot.kind < base:
            kinds[spot.kind] += 1
        else:
            panel = spot.kind - base
            widths[panel] += (spot.width - problem.panels[panel].loss) / PANEL_SCALE
            strips[panel] += 1
    return Column(
        stock=pattern.stock,
        cost=problem.stocks[pattern.stock].cost + problem.cut_cost * cuts_of(pattern),
        pattern=pattern,
        kinds=tuple(kinds),
        widths=tuple(widths),
        strips=tuple(strips),
    )


@dataclass(slots=True)
class Master:
    """The linear program, grown column by column."""

    problem: Problem
    columns: list[Column] = field(default_factory=list)
    model: Any = None
    first_column: int = 0
    known: set[tuple[object, ...]] = field(default_factory=set)
    sunk: Set[int] = frozenset()
    """Boards decided on, which cost nothing more."""
    row: Ints = field(default_factory=lambda: np.zeros(0, dtype=np.int64))
    """Row of each kind: one of its own, or that of its class."""
    weight: Floats = field(default_factory=lambda: np.zeros(0))
    """What a blank of each kind counts in its row."""

    @property
    def needs(self) -> int:
        """Rows of kinds or their classes."""
        return int(self.row.max(initial=-1)) + 1

    @classmethod
    def of(cls, problem: Problem, classes: Ints | None = None, weight: Floats | None = None) -> Master:
        """Rows for kinds, panel widths, panel strips and boards; a penalty column for whatever is missing.

        Parameters
        ----------
        problem
            The question.
        classes, weight
            The class of each kind and what a blank counts in it: only the sums over classes must then be met,
            and worths within a class go by weight. None gives each kind a row of its own.
        """
        import highspy

        count = len(problem.kinds)
        row = np.arange(count) if classes is None else classes
        weight = np.ones(count) if weight is None else weight
        master = cls(problem=problem, model=quiet_solver(), row=row, weight=weight)
        model, infinity = master.model, highspy.kHighsInf
        none = np.array([], dtype=np.int32), np.array([], dtype=np.float64)
        wanted = weight * np.array([len(kind.blanks) for kind in problem.kinds], dtype=float)
        for need in np.bincount(row, weights=wanted, minlength=master.needs).tolist():
            model.addRow(need, infinity, 0, *none)
        for need in problem.panels:
            model.addRow(need.total / PANEL_SCALE, infinity, 0, *none)
        for need in problem.panels:
            model.addRow(-infinity, float(need.most), 0, *none)
        for _ in problem.stocks:
            model.addRow(-infinity, 1.0, 0, *none)
        dearest = np.zeros(master.needs)
        np.maximum.at(dearest, row, np.array([kind.penalty for kind in problem.kinds]) / weight)
        penalties = dearest.tolist()
        penalties += [need.penalty / (need.total / PANEL_SCALE) for need in problem.panels]
        for number, penalty in enumerate(penalties):
            only = np.array([number], dtype=np.int32), np.array([1.0], dtype=np.float64)
            model.addCol(penalty, 0.0, infinity, 1, *only)
        master.first_column = len(penalties)
        return master

    def add(self, column: Column) -> bool:
        """Take in a column; False where one like it is there already."""
        if column.key in self.known:
            return False
        self.known.add(column.key)
        kinds, panels = self.needs, len(self.problem.panels)
        entries: dict[int, float] = {}
        for kind, number in enumerate(column.kinds):
            if number:
                row = int(self.row[kind])
                entries[row] = entries.get(row, 0.0) + number * float(self.weight[kind])
        entries |= {kinds + p: w for p, w in enumerate(column.widths) if w}
        entries |= {kinds + panels + p: float(n) for p, n in enumerate(column.strips) if n}
        entries[kinds + 2 * panels + column.stock] = 1.0
        rows = np.array(list(entries), dtype=np.int32)
        values = np.array(list(entries.values()), dtype=np.float64)
        cost = 0.0 if column.stock in self.sunk else column.cost
        self.model.addCol(cost, 0.0, 1.0, len(rows), rows, values)
        self.columns.append(column)
        return True

    def solve(self) -> tuple[float, Duals]:
        """Value of the linear program, and the worths of blanks it implies. [money]"""
        self.model.run()
        dual = np.array(self.model.getSolution().row_dual)
        kinds, panels = self.needs, len(self.problem.panels)
        duals = Duals(
            kinds=np.maximum(dual[:kinds], 0.0)[self.row] * self.weight,
            widths=np.maximum(dual[kinds : kinds + panels], 0.0) / PANEL_SCALE,
            strips=np.maximum(-dual[kinds + panels : kinds + 2 * panels], 0.0),
        )
        return float(self.model.getInfo().objective_function_value), duals

    def lagrangian_bound(
        self,
        duals: Duals,
        worths: Floats,
        *,
        costs: Sequence[float] | None = None,
        only: Set[int] | None = None,
    ) -> float:
        """As :func:`lagrangian_bound`, for this problem."""
        return lagrangian_bound(self.problem, duals, worths, costs=costs, only=only)

    def decide(self, cut: Set[int], left: Set[int]) -> None:
        """Fix boards: what is cut costs nothing more, what is left yields nothing."""
        row = self.needs + 2 * len(self.problem.panels)
        infinity = -1e30
        for board in range(len(self.problem.stocks)):
            self.model.changeRowBounds(row + board, infinity, 0.0 if board in left else 1.0)
        for number, column in enumerate(self.columns):
            if (column.stock in cut) != (column.stock in self.sunk):
                cost = 0.0 if column.stock in cut else column.cost
                self.model.changeColCost(self.first_column + number, cost)
        self.sunk = cut

    def shares(self) -> list[float]:
        """How much of each board the linear program cuts. [1]"""
        values = self.model.getSolution().col_value
        shares = [0.0] * len(self.problem.stocks)
        for number, column in enumerate(self.columns):
            if self.first_column + number < len(values):
                shares[column.stock] += values[self.first_column + number]
        return shares

    def used(self) -> list[Column]:
        """Columns the linear program cuts any of."""
        values = self.model.getSolution().col_value
        return [c for n, c in enumerate(self.columns) if values[self.first_column + n] > 1e-6]

    def choose(
        self, *, nodes: int, seconds: float | None, complete: bool, only: Set[int] | None = None
    ) -> list[Column]:
        """Best whole patterns among the columns: one a board.

        Parameters
        ----------
        nodes
            Branching nodes at most.
        seconds
            Time at most; None for no such limit. [s]
        complete
            Whether every blank must be there; then nothing may come back.
        only
            Boards that may be cut; None for all.
        """
        import highspy

        model = quiet_solver()
        model.passModel(self.model.getLp())
        for row in range(self.first_column):
            if complete:
                model.changeColBounds(row, 0.0, 0.0)
            elif row < len(self.problem.kinds):
                model.changeColIntegrality(row, highspy.HighsVarType.kInteger)
            else:
                need = self.problem.panels[row - len(self.problem.kinds)]
                least = max(0, need.least - need.loss) / PANEL_SCALE
                model.changeColIntegrality(row, highspy.HighsVarType.kSemiContinuous)
                model.changeColBounds(row, least, max(least, need.total / PANEL_SCALE))
        for number in range(len(self.columns)):
            model.changeColIntegrality(self.first_column + number, highspy.HighsVarType.kInteger)
            if only is not None and self.columns[number].stock not in only:
                model.changeColBounds(self.first_column + number, 0.0, 0.0)
        model.setOptionValue("mip_max_nodes", nodes)
        if seconds is not None:
            model.setOptionValue("time_limit", seconds)
        model.run()
        if model.getInfo().primal_solution_status != highspy.kSolutionStatusFeasible:
            return []
        values = model.getSolution().col_value
        return [c for n, c in enumerate(self.columns) if values[self.first_column + n] > 0.5]


def lagrangian_bound(
    problem: Problem,
    duals: Duals,
    worths: Floats,
    *,
    costs: Sequence[float] | None = None,
    only: Set[int] | None = None,
) -> float:
    """What no layout undercuts, from worths no pattern exceeds. [money]

    ``costs`` and ``only`` as in :meth:`~scantling.stock.pricing.pricer.Pricer.price`.
    """
    value = sum(len(k.blanks) * v for k, v in zip(problem.kinds, duals.kinds, strict=True))
    value += sum(n.total * v for n, v in zip(problem.panels, duals.widths, strict=True))
    value -= sum(n.most * v for n, v in zip(problem.panels, duals.strips, strict=True))
    price = [s.cost for s in problem.stocks] if costs is None else costs
    active = range(len(price)) if only is None else sorted(only)
    return float(value - sum(max(0.0, float(worths[b]) - price[b]) for b in active))
