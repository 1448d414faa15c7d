"""Random racks and parts lists, made from the grade rules: the same seed gives the same rack.

Least board sizes and least yields are those of the hardwood grades (NHLA, *Rules for the Measurement and
Inspection of Hardwood and Cypress*: FAS 6 in x 8 ft, 83 1/3 % in clear cuttings; No. 1 Common 3 in x 4 ft,
66 2/3 %). How widths, lengths and defects scatter above those limits is ours: widths triangular, lengths in
whole feet, none to two defects on a FAS board and one to four on a No. 1 Common one.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from scantling.stock import Blank, Board, Cutting, Defect, DefectKind, LayoutRequest, Price, PriceBasis

INCH, FOOT = 25.4, 304.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """What boards of a grade look like."""

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
COMMON = Grade(
    name="No. 1 Common",
    least_width_in=3.0,
    usual_width_in=6.0,
    greatest_width_in=9.0,
    lengths_ft=(4, 10),
    defects=(1, 4),
    price=6.0,
)


def random_board(
    rng: Random, grade: Grade, *, name: str, species: str = "cherry", quarters: float = 5
) -> Board:
    """One board of a grade."""
    width = (
        round(rng.triangular(grade.least_width_in, grade.greatest_width_in, grade.usual_width_in) * 8)
        / 8
        * INCH
    )
    length = rng.randint(*grade.lengths_ft) * FOOT + rng.choice((0.0, 20.0, 35.0))
    defects = []
    for _ in range(rng.randint(*grade.defects)):
        long, wide = rng.uniform(20.0, 160.0), rng.uniform(12.0, min(70.0, width / 2))
        defects.append(
            Defect(
                kind=rng.choice((DefectKind.KNOT, DefectKind.CHECK, DefectKind.WANE)),
                x_mm=round(rng.uniform(0.0, length - long), 1),
                y_mm=round(rng.uniform(0.0, width - wide), 1),
                length_mm=round(long, 1),
                width_mm=round(wide, 1),
            )
        )
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


def random_blanks(rng: Random, number: int, *, species: str = "cherry") -> tuple[Blank, ...]:
    """Blanks as furniture has them: in sets of one to eight, long and narrow more often than not."""
    blanks: list[Blank] = []
    kind = 0
    while len(blanks) < number:
        kind += 1
        length = round(rng.triangular(250.0, 1500.0, 600.0))
        width = round(rng.triangular(40.0, 145.0, 70.0))
        copies = min(rng.choice((1, 2, 2, 2, 3, 4, 4, 6, 8)), number - len(blanks))
        blanks += [
            Blank(
                name=f"part {kind}.{copy + 1}",
                part=f"part {kind}",
                species=species,
                length_mm=float(length),
                width_mm=float(width),
                thickness_mm=27.0,
                quarters=(5.0,),
            )
            for copy in range(copies)
        ]
    return tuple(blanks)


def random_rack(seed: int, *, boards: int, blanks: int, share_common: float = 0.4) -> LayoutRequest:
    """A rack and a parts list.

    Parameters
    ----------
    seed
        The same seed gives the same request.
    boards, blanks
        How many of each.
    share_common
        Share of boards that are No. 1 Common instead of FAS. [1]
    """
    rng = Random(f"rack {seed} {boards} {blanks}")
    rack = tuple(
        random_board(rng, COMMON if rng.random() < share_common else FAS, name=f"B{n + 1}")
        for n in range(boards)
    )
    return LayoutRequest(boards=rack, blanks=random_blanks(rng, blanks), cutting=Cutting())
