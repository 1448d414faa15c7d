"""How many board feet to ask for when there is no rack: drawn racks, and how often an amount falls short."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import InputError
from scantling.plan.cache import Cache
from scantling.shop.profile.yard import BoardScatter
from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.cutting import Cutting
from scantling.stock.boards.grades import FAS, Grade
from scantling.stock.buying.measure import Purchase, nominal_for
from scantling.stock.buying.oneboard import one_board
from scantling.stock.buying.simulate import ShortfallQuestion, shortfall_curve
from scantling.units import MM_PER_FOOT, MM_PER_INCH

__all__ = ["CHANCE", "Shortfall", "grade_of", "plan_shortfalls"]

DRAWS = 100
"""Racks drawn for each wood and thickness."""
CHANCE = 0.05
"""Chance to fall short that is accepted. [1]"""
LITTLE = 3.0
"""Where so many times the blanks are asked for, a board of their own size is told beside it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortfall:
    """One wood and thickness.

    Parameters
    ----------
    species, quarters
        The wood and its nominal thickness. [1/4 in]
    grade
        Of the boards drawn, and how they scatter, in words.
    points
        Corners of the curve: board feet, and the chance that so much is not enough. [board ft], [1]
    ask_board_feet
        Falls short no more often than :data:`CHANCE`. [board ft]
    half_board_feet
        Falls short half of the time. [board ft]
    net_board_feet, yield_board_feet
        The blanks themselves, and what the shop's yield makes of them. [board ft]
    draws
        Racks drawn.
    one_board_mm
        Where at most a third of what is asked for is wanted: length and width of a sound board that holds it
        all. [mm]
    """

    species: str
    quarters: float
    grade: str
    points: tuple[tuple[float, float], ...]
    ask_board_feet: float
    half_board_feet: float
    net_board_feet: float
    yield_board_feet: float
    draws: int = DRAWS
    one_board_mm: tuple[float, float] | None = None


def plan_shortfalls(
    purchases: tuple[Purchase, ...],
    blanks: tuple[Blank, ...],
    panels: tuple[FreeWidthPanel, ...],
    *,
    grade: Grade,
    cutting: Cutting,
    cache: Cache,
) -> tuple[Shortfall, ...]:
    """The curve of each wood and thickness; left out where no rack of the grade would ever do.

    Parameters
    ----------
    purchases
        What is to be bought.
    blanks, panels
        What it is for.
    grade
        How the yard's boards scatter.
    cutting
        Kerfs and edges.
    cache
        Keeps the curves, which depend on the needs alone.
    """
    found = []
    for purchase in purchases:
        key = (purchase.species, purchase.quarters)
        question = ShortfallQuestion(
            blanks=tuple(b for b in blanks if (b.species, nominal_for(b)) == key),
            panels=tuple(p for p in panels if (p.species, nominal_for(p)) == key),
            grade=grade,
            quarters=purchase.quarters,
            cutting=cutting,
        )
        answer = cache.answer("shortfall", (question, DRAWS), lambda: _asked(question, purchase))  # noqa: B023
        if answer is not None:
            found.append(answer)
    return tuple(found)


def grade_of(scatter: BoardScatter) -> Grade:
    """The grade a shop's yard sells."""
    inch, foot = float(MM_PER_INCH), float(MM_PER_FOOT)
    return Grade(
        name=scatter.name,
        least_width_in=scatter.narrowest_mm / inch,
        usual_width_in=scatter.usual_mm / inch,
        greatest_width_in=scatter.widest_mm / inch,
        lengths_ft=(round(scatter.shortest_mm / foot), round(scatter.longest_mm / foot)),
        defects=(scatter.fewest_marks, scatter.most_marks),
        price=FAS.price,
    )


def _asked(question: ShortfallQuestion, purchase: Purchase) -> Shortfall | None:
    try:
        curve = shortfall_curve(question, draws=DRAWS)
    except InputError:
        return None
    ask = curve.buy_board_feet(CHANCE)
    return Shortfall(
        species=purchase.species,
        quarters=purchase.quarters,
        grade=grade_words(question.grade),
        points=curve.points,
        ask_board_feet=ask,
        half_board_feet=curve.buy_board_feet(0.5),
        net_board_feet=purchase.net_board_feet,
        yield_board_feet=purchase.buy_board_feet,
        one_board_mm=one_board(question) if LITTLE * purchase.net_board_feet <= ask else None,
    )


def grade_words(grade: Grade) -> str:
    """How boards of a grade are taken to scatter."""
    lengths, marks = grade.lengths_ft, grade.defects
    return (
        f"{grade.name} boards, {lengths[0]} to {lengths[1]} ft long (every foot as likely), "
        f"{grade.least_width_in:g} to {grade.greatest_width_in:g} in wide (mostly about "
        f"{grade.usual_width_in:g} in), {marks[0]} to {marks[1]} marks a board, 20 mm off each end"
    )
