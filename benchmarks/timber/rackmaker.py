"""Random racks and parts lists, made from the grade rules: the same seed gives the same rack.

Boards are those of :mod:`scantling.stock.boards.grades`, which says what is the rules' and what is
assumed; parts are sets of one to eight blanks, long and narrow more often than not.
"""

from __future__ import annotations

from random import Random

from scantling.stock import Blank, Cutting, LayoutRequest
from scantling.stock.boards.grades import FAS, NO_1_COMMON, draw_board


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
        draw_board(
            rng,
            NO_1_COMMON if rng.random() < share_common else FAS,
            name=f"B{n + 1}",
            species="cherry",
            quarters=5.0,
        )
        for n in range(boards)
    )
    return LayoutRequest(boards=rack, blanks=random_blanks(rng, blanks), cutting=Cutting())
