"""The rest of a plan: boards and needs not settled yet, as a small program over the patterns known so far.

References
----------
.. [1] Sadykov, Vanderbeck, Pessoa, Tahiri, Uchoa, "Primal heuristics for branch and price: the assets of
   diving methods", INFORMS Journal on Computing 31 (2019) 251-267: some patterns are settled, the rest is
   priced anew.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scantling.stock.choosing.master import PANEL_SCALE, Column, quiet_solver
from scantling.stock.handrules.fill import Demand
from scantling.stock.question.problem import Problem
from scantling.stock.question.shapes import Duals

__all__ = ["Pool", "Rest", "RestAnswer"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
NOTHING = -1e30


@dataclass(slots=True)
class Pool:
    """Columns side by side as one table: blanks by kind and millimeters by panel."""

    problem: Problem
    columns: Sequence[Column]
    """Grows at its end; :meth:`sync` takes in what is new."""
    yields: Floats = field(init=False)
    strips: Ints = field(init=False)
    stocks: Ints = field(init=False)
    costs: Floats = field(init=False)

    def __post_init__(self) -> None:
        kinds, panels = len(self.problem.kinds), len(self.problem.panels)
        self.yields = np.zeros((0, kinds + panels))
        self.strips = np.zeros((0, panels), dtype=np.int64)
        self.stocks = np.zeros(0, dtype=np.int64)
        self.costs = np.zeros(0)

    def sync(self) -> None:
        """Take in the columns that came since."""
        fresh = self.columns[len(self.stocks) :]
        if fresh:
            self.yields = np.vstack([self.yields, np.array([c.kinds + c.widths for c in fresh], dtype=float)])
            strips = np.array([c.strips for c in fresh], dtype=np.int64).reshape(len(fresh), -1)
            self.strips = np.vstack([self.strips, strips])
            self.stocks = np.append(self.stocks, [c.stock for c in fresh])
            self.costs = np.append(self.costs, [c.cost for c in fresh])


@dataclass(slots=True)
class RestAnswer:
    """What the linear program of a rest says."""

    value: float
    duals: Duals
    reduced: Floats
    """Reduced cost of each column of the program. [money]"""
    shares: Floats
    """How much of each column the program uses. [1]"""


@dataclass(slots=True)
class Rest:
    """The columns that help with what is left, no column counted for more than is wanted."""

    pool: Pool
    demand: Demand
    columns: Ints
    """Numbers of the columns in the pool."""
    wanted: Ints
    """Numbers of the needs left: kinds, then panels."""
    gains: Floats
    model: Any

    @classmethod
    def of(cls, pool: Pool, demand: Demand, free: NDArray[np.bool_]) -> Rest:
        """Set up the program for some boards.

        Parameters
        ----------
        pool
            The columns.
        demand
            What is wanted.
        free
            Whether each board may be cut.
        """
        pool.sync()
        needs = np.array([*demand.counts, *(w / PANEL_SCALE for w in demand.widths)], dtype=float)
        wanted = np.flatnonzero(needs > 0)
        columns = np.flatnonzero(free[pool.stocks])
        gains = np.minimum(pool.yields[np.ix_(columns, wanted)], needs[wanted])
        some = gains.any(axis=1)
        columns, gains = columns[some], gains[some]
        rest = cls(pool=pool, demand=demand, columns=columns, wanted=wanted, gains=gains, model=None)
        rest.model = rest._program(needs[wanted])
        return rest

    def _program(self, needs: Floats) -> Any:
        """Columns, then one penalty column a need; rows of needs, then of panel strips, then of boards."""
        import highspy

        pool, problem, count = self.pool, self.pool.problem, len(self.columns)
        boards, board = np.unique(pool.stocks[self.columns], return_inverse=True)
        strips = pool.strips[self.columns]
        rows, panels = len(needs), strips.shape[1]
        penalties = [k.penalty for k in problem.kinds]
        penalties += [n.penalty / (n.total / PANEL_SCALE) for n in problem.panels]
        matrix = np.hstack([self.gains, strips])
        at, row = np.nonzero(matrix)
        lengths = np.bincount(at, minlength=count) + 1
        starts = np.concatenate([[0], np.cumsum(lengths)])
        index, value = np.empty(starts[-1]), np.ones(starts[-1])
        index[np.arange(len(at)) + at], value[np.arange(len(at)) + at] = row, matrix[at, row]
        index[starts[1:] - 1] = rows + panels + board
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = count + rows, rows + panels + len(boards)
        model.col_cost_ = np.concatenate([pool.costs[self.columns], np.array(penalties)[self.wanted]])
        model.col_lower_ = np.zeros(count + rows)
        model.col_upper_ = np.concatenate([np.ones(count), np.full(rows, -NOTHING)])
        model.row_lower_ = np.concatenate([needs, np.full(panels + len(boards), NOTHING)])
        most = [*map(float, self.demand.strips), *np.ones(len(boards))]
        model.row_upper_ = np.concatenate([np.full(rows, -NOTHING), most])
        model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
        model.a_matrix_.start_ = np.concatenate([starts, starts[-1] + 1 + np.arange(rows)]).astype(np.int32)
        model.a_matrix_.index_ = np.concatenate([index, np.arange(rows)]).astype(np.int32)
        model.a_matrix_.value_ = np.concatenate([value, np.ones(rows)])
        solver = quiet_solver()
        solver.passModel(model)
        return solver

    def solve(self) -> RestAnswer:
        """The linear program: its value, worths of the needs, and reduced costs."""
        self.model.run()
        found = self.model.getSolution()
        problem, count, rows = self.pool.problem, len(self.columns), len(self.wanted)
        kinds, panels = len(problem.kinds), len(problem.panels)
        dual = np.zeros(kinds + panels)
        dual[self.wanted] = np.maximum(np.array(found.row_dual)[:rows], 0.0)
        return RestAnswer(
            value=float(self.model.getInfo().objective_function_value),
            duals=Duals(
                kinds=dual[:kinds],
                widths=dual[kinds:] / PANEL_SCALE,
                strips=np.maximum(-np.array(found.row_dual)[rows : rows + panels], 0.0),
            ),
            reduced=np.array(found.col_dual)[:count],
            shares=np.array(found.col_value)[:count],
        )

    def choose(
        self, answer: RestAnswer, *, below: float, nodes: int, seconds: float | None, most: int = 2000
    ) -> list[Column]:
        """Best whole patterns that leave nothing out, for less than a sum; none where none was found.

        Columns whose reduced cost alone would lift the sum to the limit are passed over.

        Parameters
        ----------
        answer
            What :meth:`solve` said.
        below
            The sum. [money]
        nodes
            Branching nodes at most.
        seconds
            Time at most; None for no such limit. [s]
        most
            Columns at most, those of least reduced cost.
        """
        import highspy

        count, rows = len(self.columns), len(self.wanted)
        model = quiet_solver()
        model.passModel(self.model.getLp())
        limit = below - answer.value
        if count > most:
            limit = min(limit, float(np.partition(answer.reduced, most)[most]))
        out = np.flatnonzero(answer.reduced >= limit)
        out = np.append(out, count + np.arange(rows)).astype(np.int32)
        model.changeColsBounds(len(out), out, np.zeros(len(out)), np.zeros(len(out)))
        whole = np.full(count, int(highspy.HighsVarType.kInteger), dtype=np.uint8)
        model.changeColsIntegrality(count, np.arange(count, dtype=np.int32), whole)
        model.setOptionValue("mip_max_nodes", nodes)
        model.setOptionValue("objective_bound", below)
        if seconds is not None:
            model.setOptionValue("time_limit", seconds)
        model.run()
        if model.getInfo().primal_solution_status != highspy.kSolutionStatusFeasible:
            return []
        values = np.array(model.getSolution().col_value)[:count]
        return [self.pool.columns[n] for n in self.columns[values > 0.5]]
