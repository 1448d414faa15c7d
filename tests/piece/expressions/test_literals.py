"""Sizes inside expressions are read as a maker writes them, and never otherwise than meant."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.piece.expressions import ExpressionError, evaluate, parse
from scantling.units import Dimension, LengthStyle, parse_length_mm, show_length


def mm(text: str, unit: str = "mm") -> float:
    """Value of an expression without names."""
    return evaluate(parse(text), {}, default_unit=unit).value


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("28 3/4 in", 28.75),
        ("28-3/4 in", 28.75),
        ('28 3/4"', 28.75),
        ("28¾ in", 28.75),
        ("2' 4-1/2\"", 28.5),
        ("2'-4 1/2\"", 28.5),
        ("2' 4 1/2", 28.5),
        ("2’ 4½”", 28.5),
        ("29 1/4''", 29.25),
        ("2'-4 1/2''", 28.5),
        ("2’ 4’’", 28.0),
        ("28 1\N{FRACTION SLASH}2 in", 28.5),
        ("2 ft 4 in", 28),
        ("6'", 72),
        ("7/8 in", 0.875),
        ("11/16 in.", 0.6875),
        ("-7/8 in", -0.875),
        ("1.5 in", 1.5),
        (".5in", 0.5),
        ("½ in", 0.5),
    ],
)
def test_a_length_in_inches_is_the_length_written(text: str, inches: float) -> None:
    """Mixed numbers, feet and inches, fractions and signs, in a file of either unit."""
    for unit in ("mm", "in"):
        quantity = evaluate(parse(text), {}, default_unit=unit)
        assert quantity.dimension is Dimension.LENGTH
        assert quantity.value == pytest.approx(inches * 25.4, rel=1e-15)


@pytest.mark.parametrize(
    ("tight", "spaced", "inches_tight", "inches_spaced"),
    [("28-3/4 in", "28 in - 3/4 in", 28.75, 27.25), ("6'-4\"", "6' - 4\"", 76, 68)],
)
def test_a_tight_hyphen_joins_and_a_spaced_one_subtracts(
    tight: str, spaced: str, inches_tight: float, inches_spaced: float
) -> None:
    """The trade's hyphen and the minus are told apart by spaces."""
    assert mm(tight) == pytest.approx(inches_tight * 25.4)
    assert mm(spaced) == pytest.approx(inches_spaced * 25.4)


@pytest.mark.parametrize(
    ("text", "column", "remedy"),
    [
        ("4-1/2", 1, "Write 4 1/2 or 4 - 1/2."),
        ("100-10/2 mm", 1, "Write 100 10/2 or 100 - 10/2."),
        ("20-10/2 in", 1, "Write 20 10/2 or 20 - 10/2."),
        ("4-1/2 deg", 1, "Write 4 1/2 or 4 - 1/2."),
        ("10 mm * 4-1/2", 9, "Write 4 1/2 or 4 - 1/2."),
        ("9 mm / 3/4", 8, "Write (3/4), or put spaces around its slash."),
        ("9 mm/10/5", 6, "Write (10/5), or put spaces around its slash."),
        ("3/4^2", 1, "Write (3/4), or put spaces around its slash."),
    ],
)
def test_what_can_be_read_two_ways_is_refused(text: str, column: int, remedy: str) -> None:
    """No silent wrong number: the fault offers both ways to write it."""
    with pytest.raises(ExpressionError) as caught:
        parse(text)
    assert (caught.value.code, caught.value.fault.column, caught.value.hint) == (
        "two_readings",
        column,
        remedy,
    )


@pytest.mark.parametrize(
    ("text", "value", "dimension"),
    [
        ("28 3/4", 28.75, Dimension.NUMBER),
        ("7/8", 0.875, Dimension.NUMBER),
        ("10/2/5", 1.0, Dimension.NUMBER),
        ("1e3", 1000.0, Dimension.NUMBER),
        ("1e-05", 1e-05, Dimension.NUMBER),
        ("7°", 7.0, Dimension.ANGLE),
        ("7 1/2 deg", 7.5, Dimension.ANGLE),
        ("3 m", 3000.0, Dimension.LENGTH),
        ("73 cm", 730.0, Dimension.LENGTH),
        ("730mm", 730.0, Dimension.LENGTH),
    ],
)
def test_numbers_angles_and_metric_lengths(text: str, value: float, dimension: Dimension) -> None:
    """Each is read into its internal unit."""
    quantity = evaluate(parse(text), {}, default_unit="mm")
    assert quantity.value == pytest.approx(value, rel=1e-15)
    assert quantity.dimension is dimension


@given(st.integers(0, 64 * 400), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_every_shown_length_reads_back_as_itself(steps: int, denominator: int) -> None:
    """What the tape-measure form shows, an expression and a length field read to the same float."""
    value = steps * 25.4 / denominator
    shown = show_length(value, LengthStyle(inch=True, denominator=denominator))
    assert mm(shown) == parse_length_mm(shown) == pytest.approx(value, abs=1e-9)


@given(st.floats(0, 9999, allow_nan=False))
def test_every_float_python_writes_reads_back_as_itself(value: float) -> None:
    """A number from JSON, with or without exponent, is the same float."""
    assert mm(repr(value)) == value
