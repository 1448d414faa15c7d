"""Good patterns of every board of a rack for given worths, many times quicker than the best ones."""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.stock.pricing.pricedboard import PricedBoard
from scantling.stock.pricing.pricing import CleanTables, Family, clean_tables, make_families
from scantling.stock.pricing.quickboard import QuickBoard, suits
from scantling.stock.pricing.readout import best_pattern
from scantling.stock.question.axis import Rounding
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem
from scantling.stock.question.shapes import Duals

__all__ = ["QuickPricer"]

Floats = NDArray[np.float64]


@dataclass(slots=True)
class QuickPricer:
    """Families of boards, and the boards of each with their places."""

    problem: Problem
    families: list[Family]
    boards: list[list[QuickBoard | PricedBoard]]

    @classmethod
    def of(cls, problem: Problem, *, cap: int, rows_cap: int = 40, sums_cap: int = 1000) -> QuickPricer:
        """Find all positions once.

        Parameters
        ----------
        problem
            The question.
        cap, rows_cap
            Positions along and across a board at most.
        sums_cap
            Lengths of clear stretches told apart at most.
        """
        families = make_families(problem, rounding=Rounding.CUTTABLE, cap=sums_cap)
        boards: list[list[QuickBoard | PricedBoard]] = []
        for family in families:
            members: list[QuickBoard | PricedBoard] = []
            for s in family.stocks:
                stock = problem.stocks[s]
                if suits(stock, family):
                    members.append(QuickBoard.of(s, stock, family, cap=cap, rows_cap=rows_cap))
                else:
                    members.append(PricedBoard.of(s, stock, family, cap=cap))
            boards.append(members)
        for family_boards in boards:
            for board in family_boards:
                board.freeze()
        return cls(problem=problem, families=families, boards=boards)

    def price(
        self,
        duals: Duals,
        *,
        only: Set[int] | None = None,
        counts: Sequence[int] | None = None,
        costs: Sequence[float] | None = None,
    ) -> dict[int, tuple[float, Pattern]]:
        """Worth and pattern of each board that is worth more than it costs.

        Parameters
        ----------
        duals
            What each blank is worth.
        only
            Numbers of the boards to price; None for all.
        counts
            How often each kind, then each panel, is wanted; None for as often as the problem does.
        costs
            What each board costs; None takes the prices. [money]
        """
        found: dict[int, tuple[float, Pattern]] = {}
        for family, boards in zip(self.families, self.boards, strict=True):
            members = [b for b in boards if only is None or b.index in only]
            if not members:
                continue
            tables = clean_tables(family, duals, counts)
            for board in members:
                cost = self.problem.stocks[board.index].cost if costs is None else costs[board.index]
                told = self._best(board, tables, duals, cost=cost)
                if told is not None:
                    found[board.index] = told
        return found

    def _best(
        self, board: QuickBoard | PricedBoard, tables: CleanTables, duals: Duals, *, cost: float
    ) -> tuple[float, Pattern] | None:
        if isinstance(board, QuickBoard):
            if board.ceiling(tables) <= cost:
                return None
            quick = board.worth(tables)
            value = float(quick.whole[-1])
            return (value, board.best_pattern(quick, tables)) if value > cost else None
        if board.ceiling(tables) <= cost:
            return None
        worth = board.worth(duals, tables)
        value = float(worth.whole[-1])
        if value <= cost:
            return None
        return value, best_pattern(self.problem, board, worth, clean=tables, duals=duals)
