"""Board feet: the trade's measure of rough hardwood."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.units import MM3_PER_BOARD_FOOT, board_feet, surface_measure_ft2


@pytest.mark.parametrize(
    ("quarters", "inches", "feet", "expected"),
    [(8, 7.5, 9, 11.25), (4, 12, 1, 1.0), (5, 6, 8, 5.0), (3, 12, 1, 1.0), (6, 8, 10, 10.0)],
)
def test_board_feet_are_inches_times_inches_times_feet_over_twelve(
    quarters: float, inches: float, feet: float, expected: float
) -> None:
    """Worked by hand; stock thinner than 4/4 counts as 4/4."""
    found = board_feet(quarters=quarters, width_mm=inches * 25.4, length_mm=feet * 304.8)
    assert found == pytest.approx(expected, rel=1e-12)


@given(st.integers(4, 16), st.floats(50, 500), st.floats(300, 5000))
def test_board_feet_are_the_nominal_volume(quarters: int, width: float, length: float) -> None:
    """A board foot is 144 cubic inches."""
    volume = quarters / 4 * 25.4 * width * length
    found = board_feet(quarters=quarters, width_mm=width, length_mm=length)
    assert found == pytest.approx(volume / MM3_PER_BOARD_FOOT, rel=1e-12)


@pytest.mark.parametrize(
    ("inches", "feet", "expected"), [(8.5, 10, 7), (6, 9, 5), (6, 8, 4), (8, 12.9, 8), (7, 6, 4)]
)
def test_surface_measure_counts_whole_feet_and_rounds_to_the_whole(
    inches: float, feet: float, expected: int
) -> None:
    """Worked by hand: a part of a foot in length is dropped, half a square foot goes up."""
    assert surface_measure_ft2(width_mm=inches * 25.4, length_mm=feet * 304.8) == expected
