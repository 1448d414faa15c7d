"""How many board feet to ask for: racks of a grade drawn at random, and how often each amount falls short."""

from __future__ import annotations

from concurrent.futures import Executor
from dataclasses import dataclass, field
from functools import partial
from random import Random

from scantling.errors import InputError
from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.cutting import Cutting
from scantling.stock.boards.board import Board
from scantling.stock.boards.grades import Grade, draw_board
from scantling.stock.handrules.search import build_plan, first_candidates
from scantling.stock.question.problem import build_problem

__all__ = ["ShortfallCurve", "ShortfallQuestion", "board_feet_needed", "shortfall_curve"]

MOST_BOARDS = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortfallQuestion:
    """What is asked of a grade.

    Parameters
    ----------
    blanks, panels
        Needs of one species and nominal thickness.
    grade
        How the boards usually come.
    quarters
        Nominal thickness to draw. [1/4 in]
    cutting
        Kerfs and edges.
    """

    blanks: tuple[Blank, ...]
    grade: Grade
    quarters: float
    panels: tuple[FreeWidthPanel, ...] = ()
    cutting: Cutting = field(default_factory=Cutting)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortfallCurve:
    """Board feet that sufficed in each drawn rack, in rising order. [board ft]"""

    needed_board_feet: tuple[float, ...]

    def chance_short(self, board_feet: float) -> float:
        """Share of drawn racks for which so much would not have been enough. [1]"""
        return sum(n > board_feet for n in self.needed_board_feet) / len(self.needed_board_feet)

    def buy_board_feet(self, chance: float = 0.05) -> float:
        """Least amount drawn that falls short no more often than a chance. [board ft]"""
        return next(n for n in self.needed_board_feet if self.chance_short(n) <= chance)

    @property
    def points(self) -> tuple[tuple[float, float], ...]:
        """Corners of the curve: (board feet, chance to fall short)."""
        steps = sorted(set(self.needed_board_feet))
        return tuple((n, self.chance_short(n)) for n in steps)


def _covers(question: ShortfallQuestion, boards: tuple[Board, ...]) -> bool:
    """Whether hand rules find room for everything; boards too small by their area alone are not tried."""
    problem = build_problem(boards, question.blanks, question.panels, cutting=question.cutting)
    wanted = sum(k.area * len(k.blanks) for k in problem.kinds) + sum(
        p.total * p.length for p in problem.panels
    )
    if wanted > sum(s.area for s in problem.stocks):
        return False
    return any(build_plan(problem, candidate).missing.met for candidate in first_candidates(problem))


def board_feet_needed(seed: int, question: ShortfallQuestion) -> float:
    """Board feet of the first boards of a drawn rack that cover everything, by hand rules. [board ft]

    Boards are taken as they come, none is turned away; the search is quick, so the figure errs upwards.

    Raises
    ------
    InputError
        ``grade_cannot``: not even a very large rack would do.
    """
    rng = Random(f"grade {seed}")
    species = question.blanks[0].species if question.blanks else question.panels[0].species
    rack: list[Board] = []

    def first(count: int) -> tuple[Board, ...]:
        while len(rack) < count:
            name = f"{len(rack) + 1}"
            rack.append(
                draw_board(rng, question.grade, name=name, species=species, quarters=question.quarters)
            )
        return tuple(rack[:count])

    low, high = 0, 1
    while not _covers(question, first(high)):
        low, high = high, high * 2
        if high > MOST_BOARDS:
            raise InputError(
                code="grade_cannot",
                field="grade",
                value=question.grade.name,
                rule=f"must cover the blanks with at most {MOST_BOARDS} boards",
                remedy="Ask for a better grade or longer boards, or glue up the largest blanks.",
            )
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if _covers(question, first(middle)) else (middle, high)
    return sum(b.board_feet for b in first(high))


def shortfall_curve(
    question: ShortfallQuestion, *, draws: int = 100, seed: int = 1, executor: Executor | None = None
) -> ShortfallCurve:
    """Draw racks and see how much each needed.

    Parameters
    ----------
    question
        Needs and grade.
    draws
        Number of racks.
    seed
        The same seed gives the same curve, with any executor.
    executor
        Where the draws run; None for this process.
    """
    seeds = [seed * 1_000_003 + n for n in range(draws)]
    run = partial(board_feet_needed, question=question)
    needed = list(executor.map(run, seeds) if executor else map(run, seeds))
    return ShortfallCurve(needed_board_feet=tuple(sorted(needed)))
