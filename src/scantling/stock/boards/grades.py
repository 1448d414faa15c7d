"""Boards as a grade usually comes: least sizes by the grading rules, the scatter above them stated here.

References
----------
.. [1] NHLA, *Rules for the Measurement and Inspection of Hardwood and Cypress*: FAS boards at least 6 in x
   8 ft, 83 1/3 % in clear cuttings; No. 1 Common at least 3 in x 4 ft, 66 2/3 %.

How widths, lengths and defects scatter above those limits is an assumption of ours, not of the rules: widths
triangular, lengths even over whole feet, none to two defects on a FAS board and one to four on a No. 1 Common
one. Put your own yard's figures in their place.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from scantling.stock.boards.board import Board, Defect, DefectKind, Price, PriceBasis
from scantling.units import MM_PER_FOOT, MM_PER_INCH

__all__ = ["FAS", "NO_1_COMMON", "Grade", "draw_board"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """What boards of a grade look like.

    Parameters
    ----------
    name
        As the yard says it.
    least_width_in, usual_width_in, greatest_width_in
        Corner and peak of the triangular distribution of widths. [in]
    lengths_ft
        Shortest and longest; every whole foot between is as likely. [ft]
    defects
        Fewest and most defects on a board.
    price
        Asked for a board foot. [money]
    """

    name: str
    least_width_in: float
    usual_width_in: float
    greatest_width_in: float
    lengths_ft: tuple[int, int]
    defects: tuple[int, int]
    price: float


FAS = Grade(
    name="FAS",
    least_width_in=6.0,
    usual_width_in=7.5,
    greatest_width_in=11.0,
    lengths_ft=(8, 12),
    defects=(0, 2),
    price=9.0,
)
NO_1_COMMON = Grade(
    name="No. 1 Common",
    least_width_in=3.0,
    usual_width_in=6.0,
    greatest_width_in=9.0,
    lengths_ft=(4, 10),
    defects=(1, 4),
    price=6.0,
)


def draw_board(rng: Random, grade: Grade, *, name: str, species: str, quarters: float) -> Board:
    """One board of a grade; widths to the eighth of an inch."""
    inch, foot = float(MM_PER_INCH), float(MM_PER_FOOT)
    eighths = round(rng.triangular(grade.least_width_in, grade.greatest_width_in, grade.usual_width_in) * 8)
    width = eighths / 8 * inch
    length = rng.randint(*grade.lengths_ft) * foot + rng.choice((0.0, 20.0, 35.0))
    defects = []
    for _ in range(rng.randint(*grade.defects)):
        long, wide = rng.uniform(20.0, 160.0), rng.uniform(12.0, min(70.0, width / 2))
        kind = rng.choice((DefectKind.KNOT, DefectKind.CHECK, DefectKind.WANE))
        x, y = round(rng.uniform(0.0, length - long), 1), round(rng.uniform(0.0, width - wide), 1)
        defects.append(Defect(kind=kind, x_mm=x, y_mm=y, length_mm=round(long, 1), width_mm=round(wide, 1)))
    return Board(
        name=name,
        species=species,
        quarters=quarters,
        width_mm=width,
        length_mm=length,
        left_trim_mm=20.0,
        right_trim_mm=20.0,
        defects=tuple(defects),
        price=Price(amount=grade.price, basis=PriceBasis.BOARD_FOOT),
        grade=grade.name,
    )
