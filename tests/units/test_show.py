"""Showing lengths as a tape measure does, rounded in the safe direction."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.units import LengthStyle, Round, parse_length_mm, show_angle, show_length, show_number

STYLES = [
    *(LengthStyle(inch=True, denominator=n) for n in (2, 4, 8, 16, 32, 64)),
    *(LengthStyle(step_mm=step) for step in (1.0, 0.5, 0.25, 0.1, 0.01)),
]


@pytest.mark.parametrize(
    ("value_mm", "style", "shown"),
    [
        (730.25, LengthStyle(inch=True), "28 3/4 in"),
        (22.225, LengthStyle(inch=True), "7/8 in"),
        (25.4, LengthStyle(inch=True), "1 in"),
        (0.0, LengthStyle(inch=True), "0 in"),
        (-730.25, LengthStyle(inch=True), "-28 3/4 in"),
        (0.3, LengthStyle(inch=True), "0 in"),
        (25.4 * 15.97, LengthStyle(inch=True, denominator=16), "16 in"),
        (730.0, LengthStyle(), "730 mm"),
        (730.3, LengthStyle(), "730.5 mm"),
        (730.25, LengthStyle(), "730.5 mm"),
        (730.04, LengthStyle(step_mm=0.1), "730 mm"),
        (-0.2, LengthStyle(), "0 mm"),
    ],
)
def test_a_length_is_shown_to_the_step_of_its_style(value_mm: float, style: LengthStyle, shown: str) -> None:
    """Fractions in lowest terms; no trailing zeros; never minus nought."""
    assert show_length(value_mm, style) == shown
    assert show_length(value_mm, style, unit=False) == shown.removesuffix(" in").removesuffix(" mm")


@given(st.integers(-200_000, 200_000), st.sampled_from(STYLES), st.sampled_from(Round))
def test_a_length_on_the_step_is_shown_as_itself_whatever_the_direction(
    steps: int, style: LengthStyle, direction: Round
) -> None:
    """Showing and reading back is the identity on the steps."""
    value = steps * style.step
    shown = show_length(value, style, direction=direction)
    assert parse_length_mm(shown) == pytest.approx(value, abs=1e-6)


@given(st.floats(-9999, 9999), st.sampled_from(STYLES))
def test_rounding_goes_where_it_is_told_and_less_than_a_step(value_mm: float, style: LengthStyle) -> None:
    """Up is never less, down never more, nearest within half a step."""
    up = parse_length_mm(show_length(value_mm, style, direction=Round.UP))
    down = parse_length_mm(show_length(value_mm, style, direction=Round.DOWN))
    nearest = parse_length_mm(show_length(value_mm, style))
    slack = 2e-6 * style.step + 1e-9
    assert -slack <= up - value_mm < style.step + slack
    assert -slack <= value_mm - down < style.step + slack
    assert abs(nearest - value_mm) <= style.step / 2 + slack


def test_numbers_and_angles() -> None:
    """Trailing zeros go from numbers and stay on a saw's scale."""
    assert [show_number(v, digits=2) for v in (12.5, 12.0, 100.0, -0.001, 0.005)] == [
        "12.5",
        "12",
        "100",
        "0",
        "0.01",
    ]
    assert show_number(1200.0, digits=0) == "1200"
    assert [show_angle(v) for v in (6.97, -0.04, -0.06, 45.0)] == ["7.0°", "0.0°", "-0.1°", "45.0°"]
    assert [show_angle(v, digits=2) for v in (6.967, -0.001)] == ["6.97°", "0.00°"]
