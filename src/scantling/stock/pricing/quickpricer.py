"""Good patterns of every board of a rack for given worths, many times quicker than the best ones."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence, Set
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from scantling.stock.pricing.pricedboard import BoardWorth, PricedBoard
from scantling.stock.pricing.pricing import CleanTables, Family, clean_tables, make_families
from scantling.stock.pricing.quickboard import QuickBoard, QuickWorth, suits
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
        asked = self._asked(duals, only=only, counts=counts)
        found: dict[int, tuple[float, Pattern]] = {}
        for board, tables in asked:
            cost = self.problem.stocks[board.index].cost if costs is None else costs[board.index]
            worth = _worth(board, tables, duals, cost=cost)
            if worth is not None:
                found[board.index] = (float(worth.whole[-1]), self._read(board, worth, tables, duals))
        return found

    def offers(
        self, duals: Duals, *, only: Set[int], counts: Sequence[int]
    ) -> dict[int, tuple[float, Callable[[], Pattern]]]:
        """As :meth:`price` where boards cost nothing; patterns are worked out once they are asked for."""
        found: dict[int, tuple[float, Callable[[], Pattern]]] = {}
        for board, tables in self._asked(duals, only=only, counts=counts):
            worth = _worth(board, tables, duals, cost=0.0)
            if worth is not None:
                found[board.index] = (float(worth.whole[-1]), partial(self._pattern, board, tables, duals))
        return found

    def _asked(
        self, duals: Duals, *, only: Set[int] | None, counts: Sequence[int] | None
    ) -> Iterator[tuple[QuickBoard | PricedBoard, CleanTables]]:
        """Boards with the tables of their family."""
        for family, boards in zip(self.families, self.boards, strict=True):
            members = [b for b in boards if only is None or b.index in only]
            if members:
                tables = clean_tables(family, duals, counts)
                yield from ((board, tables) for board in members)

    def _pattern(self, board: QuickBoard | PricedBoard, tables: CleanTables, duals: Duals) -> Pattern:
        """The best pattern of a board: its worths anew, which for many boards would fill the memory."""
        worth = _worth(board, tables, duals, cost=0.0)
        assert worth is not None, "it was worth something before"
        return self._read(board, worth, tables, duals)

    def _read(
        self,
        board: QuickBoard | PricedBoard,
        worth: QuickWorth | BoardWorth,
        tables: CleanTables,
        duals: Duals,
    ) -> Pattern:
        if isinstance(board, QuickBoard):
            assert isinstance(worth, QuickWorth)
            return board.best_pattern(worth, tables)
        assert isinstance(worth, BoardWorth)
        return best_pattern(self.problem, board, worth, clean=tables, duals=duals)


def _worth(
    board: QuickBoard | PricedBoard, tables: CleanTables, duals: Duals, *, cost: float
) -> QuickWorth | BoardWorth | None:
    """Worths of a board by place; None where it is worth no more than it costs."""
    if board.ceiling(tables) <= cost:
        return None
    worth = board.worth(tables) if isinstance(board, QuickBoard) else board.worth(duals, tables)
    return worth if float(worth.whole[-1]) > cost else None
