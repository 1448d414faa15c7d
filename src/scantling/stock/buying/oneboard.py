"""The one board that would do: where little is wanted, a short board or an offcut of that size is enough."""

from __future__ import annotations

import math

from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.boards.board import Board
from scantling.stock.buying.simulate import ShortfallQuestion
from scantling.stock.handrules.search import Plan, build_plan, first_candidates
from scantling.stock.question.problem import UNITS_PER_MM, build_problem
from scantling.units import MM_PER_FOOT, MM_PER_INCH

__all__ = ["one_board"]

STEP_MM = 10.0
"""Sizes told are whole multiples of this. [mm]"""
HARDLY_MORE = 1.05
END_MM = 20.0
"""Taken off each end for checks, as of the boards that are drawn. [mm]"""


def one_board(question: ShortfallQuestion) -> tuple[float, float] | None:
    """Length and width of the smallest sound board found that holds all needs; None where no width does. [mm]

    Widths up to the grade's greatest are tried in steps, each laid out by hand rules on a board as long as
    everything end to end: what is used of its length counts. Of boards with hardly more face than the least
    the shortest is told, for short boards are left over most often (common practice); none is longer than the
    grade's.
    """
    needs: tuple[Blank | FreeWidthPanel, ...] = (*question.blanks, *question.panels)
    longest = sum(b.length_mm for b in question.blanks)
    longest += sum(p.length_mm * p.greatest_count for p in question.panels)
    longest += END_MM * (2 + len(needs))
    widest = question.grade.greatest_width_in * float(MM_PER_INCH)
    found: list[tuple[float, float, float]] = []
    for steps in range(1, math.floor(widest / STEP_MM) + 1):
        width = steps * STEP_MM
        used = _used_mm(question, length_mm=longest, width_mm=width, species=needs[0].species)
        if used is not None:
            length = math.ceil((used + END_MM) / STEP_MM) * STEP_MM
            found.append((length * width, length, width))
    longest_sold = question.grade.lengths_ft[1] * float(MM_PER_FOOT)
    found = [one for one in found if one[1] <= longest_sold]
    if not found:
        return None
    least = min(found)[0]
    length, width = min((length, width) for face, length, width in found if face <= HARDLY_MORE * least)
    return length, width


def _used_mm(question: ShortfallQuestion, *, length_mm: float, width_mm: float, species: str) -> float | None:
    """How far along a board of some width everything reaches; None where it does not fit. [mm]"""
    board = Board(
        name="1",
        species=species,
        width_mm=width_mm,
        length_mm=length_mm,
        quarters=question.quarters,
        left_trim_mm=END_MM,
        right_trim_mm=END_MM,
    )
    problem = build_problem((board,), question.blanks, question.panels, cutting=question.cutting)
    plans = [build_plan(problem, candidate) for candidate in first_candidates(problem)]
    ends = [_end(plan) for plan in plans if plan.missing.met]
    return min(ends) / UNITS_PER_MM if ends else None


def _end(plan: Plan) -> int:
    return max(segment.x + segment.length for pattern in plan.patterns for segment in pattern.segments)
