"""Surface measure and board feet, beside the examples hardwood trade bodies print."""

from __future__ import annotations

import pytest

from scantling.stock import Board
from tests.published.value import Published

SOURCE = "American Hardwood Export Council, Grading sawn lumber: Measurement (by the NHLA rules)"


def board(width_in: float, length_ft: float, quarters: float) -> Board:
    """A board as it would stand in a rack."""
    return Board(
        name="A", species="red oak", quarters=quarters, width_mm=width_in * 25.4, length_mm=length_ft * 304.8
    )


def test_the_printed_example_of_surface_measure_and_board_feet() -> None:
    """A board 2 in x 6 1/4 in x 8 ft: 4 1/6, so 4 ft2 of surface measure, and 8 board feet."""
    found = board(6.25, 8, 8)
    where = "Example of SM and BF"
    why = "printed as whole numbers, which the rule rounds to"
    Published(value=4, absolute=0.01, source=SOURCE, where=where, why=why).check(found.surface_measure_ft2)
    Published(value=8, absolute=0.01, source=SOURCE, where=where, why=why).check(found.tally_board_feet)
    assert found.board_feet == pytest.approx(25 / 3), "measured, not tallied"


@pytest.mark.parametrize(("width_in", "length_ft", "printed"), [(6.5, 8, 4), (8, 12, 8), (10, 13, 11)])
def test_printed_surface_measures(width_in: float, length_ft: float, printed: int) -> None:
    """4 1/3, 8 and 10 10/12 ft2 are tallied as 4, 8 and 11."""
    Published(
        value=printed,
        absolute=0.01,
        source="a lumber importer's page on measurement by the NHLA rules",
        where="examples of determining S.M.",
        why="printed as whole numbers, which the rule rounds to",
    ).check(board(width_in, length_ft, 4).surface_measure_ft2)
