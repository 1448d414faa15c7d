"""The best pattern of every board of a rack for given worths."""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.stock.pricing.pricedboard import PricedBoard
from scantling.stock.pricing.pricing import Family, clean_tables, make_families
from scantling.stock.pricing.readout import best_pattern
from scantling.stock.question.axis import Rounding
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem
from scantling.stock.question.shapes import Duals

__all__ = ["Pricer"]

Floats = NDArray[np.float64]
TINY = 1e-9
"""By how much a pattern must be worth more than a known one. [money]"""


@dataclass(slots=True)
class Pricer:
    """Families of boards, and the boards of each with their places."""

    problem: Problem
    families: list[Family]
    boards: list[list[PricedBoard]]

    @classmethod
    def of(
        cls,
        problem: Problem,
        *,
        rounding: Rounding,
        cap: int,
        sums_cap: int = 2000,
        rows_cap: int | None = None,
    ) -> Pricer:
        """Find all positions once; caps bound time and memory, see :mod:`scantling.stock.question.axis`."""
        families = make_families(problem, rounding=rounding, cap=sums_cap, rows_cap=rows_cap)
        boards = [
            [PricedBoard.of(s, problem.stocks[s], family, cap=cap, rows_cap=rows_cap) for s in family.stocks]
            for family in families
        ]
        for members in boards:
            for board in members:
                board.freeze()
        return cls(problem=problem, families=families, boards=boards)

    @property
    def exact(self) -> bool:
        """Whether no position was left out, so that bound and best pattern agree."""
        return all(_exact(b) for boards in self.boards for b in boards)

    def exact_boards(self) -> frozenset[int]:
        """Numbers of the boards no position of which was left out."""
        return frozenset(b.index for boards in self.boards for b in boards if _exact(b))

    def ceilings(self, duals: Duals) -> Floats:
        """What each board would be worth without its defects: never less than its worth. [money]"""
        worths = np.zeros(len(self.problem.stocks))
        for family, boards in zip(self.families, self.boards, strict=True):
            tables = clean_tables(family, duals)
            for board in boards:
                worths[board.index] = board.ceiling(tables)
        return worths

    def price(
        self,
        duals: Duals,
        *,
        patterns: bool,
        only: Set[int] | None = None,
        costs: Sequence[float] | None = None,
        counts: Sequence[int] | None = None,
        floors: Floats | None = None,
    ) -> tuple[Floats, dict[int, Pattern]]:
        """Greatest worth of each board, and the patterns that reach it.

        A board that would not be worth its cost even without defects is given that worth, not its own.

        Parameters
        ----------
        duals
            What each blank is worth.
        patterns
            Whether to read the patterns back of boards worth more than they cost; where sizes are rounded
            down for a bound, only of those with no position left out.
        only
            Numbers of the boards to price; None for all.
        costs
            What each board costs; None takes the prices. [money]
        counts
            How often each kind, then each panel, is wanted; None for as often as the problem does.
        floors
            What a pattern of each board is known to be worth: only better ones are looked for, which is
            quicker. A board that has none is given its floor. [money]
        """
        worths = np.zeros(len(self.problem.stocks))
        costs = [s.cost for s in self.problem.stocks] if costs is None else costs
        found: dict[int, Pattern] = {}
        for family, boards in zip(self.families, self.boards, strict=True):
            members = [b for b in boards if only is None or b.index in only]
            if not members:
                continue
            tables = clean_tables(family, duals, counts)
            for board in members:
                worths[board.index] = board.ceiling(tables)
                if worths[board.index] <= costs[board.index]:
                    continue
                floor = -np.inf if floors is None else max(float(floors[board.index]), costs[board.index])
                worth = board.worth(duals, tables, floor=floor + TINY)
                worths[board.index] = max(worth.whole[-1], floor + TINY)
                better = worth.whole[-1] > max(costs[board.index], floor)
                if patterns and better and _readable(board):
                    found[board.index] = best_pattern(self.problem, board, worth, clean=tables, duals=duals)
        return worths, found


def _exact(board: PricedBoard) -> bool:
    family = board.family
    return family.lengths.exact and family.rows.exact and board.along.exact and board.rows.exact


def _readable(board: PricedBoard) -> bool:
    """Whether what the tables hold can be cut."""
    return board.family.rounding is Rounding.CUTTABLE or _exact(board)
