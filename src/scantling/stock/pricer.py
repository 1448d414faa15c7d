"""The best pattern of every board of a rack for given worths."""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.stock.axis import Rounding
from scantling.stock.pattern import Pattern
from scantling.stock.pricedboard import PricedBoard
from scantling.stock.pricing import Family, clean_tables, make_families
from scantling.stock.problem import Problem
from scantling.stock.readout import best_pattern
from scantling.stock.shapes import Duals

__all__ = ["Pricer"]

Floats = NDArray[np.float64]


@dataclass(slots=True)
class Pricer:
    """Families of boards, and the boards of each with their places."""

    problem: Problem
    families: list[Family]
    boards: list[list[PricedBoard]]

    @classmethod
    def of(cls, problem: Problem, *, rounding: Rounding, cap: int, sums_cap: int = 2000) -> Pricer:
        """Find all positions once; the caps bound time and memory, see :mod:`scantling.stock.axis`."""
        families = make_families(problem, rounding=rounding, cap=sums_cap)
        boards = [
            [PricedBoard.of(s, problem.stocks[s], family, cap=cap) for s in family.stocks]
            for family in families
        ]
        for members in boards:
            for board in members:
                board.freeze()
        return cls(problem=problem, families=families, boards=boards)

    @property
    def exact(self) -> bool:
        """Whether no position was left out, so that bound and best pattern agree."""
        return all(f.lengths.exact and f.rows.exact for f in self.families) and all(
            b.along.exact and b.rows.exact for boards in self.boards for b in boards
        )

    def price(
        self,
        duals: Duals,
        *,
        patterns: bool,
        only: Set[int] | None = None,
        costs: Sequence[float] | None = None,
        counts: Sequence[int] | None = None,
    ) -> tuple[Floats, dict[int, Pattern]]:
        """Greatest worth of each board, and the patterns that reach it.

        A board that would not be worth its cost even without defects is given that worth, not its own.

        Parameters
        ----------
        duals
            What each blank is worth.
        patterns
            Whether to read the patterns back of boards worth more than they cost.
        only
            Numbers of the boards to price; None for all.
        costs
            What each board costs; None takes the prices. [money]
        counts
            How often each kind, then each panel, is wanted; None for as often as the problem does.
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
                worth = board.worth(duals, tables)
                worths[board.index] = worth.whole[-1]
                if patterns and worth.whole[-1] > costs[board.index]:
                    found[board.index] = best_pattern(self.problem, board, worth, clean=tables, duals=duals)
        return worths, found
