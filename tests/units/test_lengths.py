"""Lengths as a maker writes them: exact, and refused where a reading would be a guess."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.units import MM_PER_FOOT, MM_PER_INCH, parse_length_mm


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("28 3/4 in", "28.75"),
        ("28-3/4 in", "28.75"),
        ("28¾ in", "28.75"),
        ("28.75 in", "28.75"),
        ("28 in", "28"),
        ("7/8 in", "0.875"),
        ("7 / 8 in", "0.875"),
        ("11/16 in", "0.6875"),
        ("13/16 in.", "0.8125"),
        ("1 15/16 inches", "1.9375"),
        ("10/16 in", "0.625"),
        ("123/64 inch", "1.921875"),
        ("½ in", "0.5"),
        ("⅞″", "0.875"),
        (".5 in", "0.5"),
        ("2' 4-1/2\"", "28.5"),
        ("2'4-1/2\"", "28.5"),
        ("2' 4 1/2", "28.5"),
        ("2'-4 1/2\"", "28.5"),
        ("2'-4\"", "28"),
        ("2 ft 4 in", "28"),
        ("2 feet 4 inches", "28"),
        ("2 ft. 4 in.", "28"),
        ("2′ 4″", "28"),
        ("2’ 4”", "28"),
        ("29 1/4''", "29.25"),
        ("2' 4''", "28"),
        ("2′ 4′′", "28"),
        ("29 1\N{FRACTION SLASH}4 in", "29.25"),
        ("2.5'", "30"),
        ("1 foot", "12"),
        ("-7/8 in", "-0.875"),
        ("−2' 4\"", "-28"),
        ("  28 3/4   in  ", "28.75"),
    ],
)
def test_inches_and_feet_are_read_exactly(text: str, inches: str) -> None:
    """The value is the float nearest to the exact rational, an inch being 25.4 mm by definition."""
    assert parse_length_mm(text) == float(Fraction(inches) * Fraction(254, 10))


@pytest.mark.parametrize(
    ("text", "value"),
    [("730 mm", 730.0), ("73 cm", 730.0), ("0.73 m", 730.0), ("730mm", 730.0), ("2440.5 mm", 2440.5)],
)
def test_metric_lengths(text: str, value: float) -> None:
    """Millimeters, centimeters, meters."""
    assert parse_length_mm(text) == value


def test_a_bare_number_takes_the_unit_it_is_given_or_is_refused() -> None:
    """Without a default there is no guess."""
    assert parse_length_mm("7/8", default_unit="in") == 22.225
    assert parse_length_mm("28 3/4", default_unit="in") == 730.25
    assert parse_length_mm("730", default_unit="mm") == 730.0
    with pytest.raises(InputError, match="must carry a unit: mm, cm, m, in or ft") as caught:
        parse_length_mm("28 3/4", field="top.length")
    assert (caught.value.code, caught.value.field, caught.value.value) == (
        "unit_missing",
        "top.length",
        "28 3/4",
    )
    assert caught.value.hint == "Write 28 3/4 mm or 28 3/4 in."


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "-",
        "x",
        "12 parsecs",
        "5 inn",
        "mm",
        "1/0 in",
        "28 3/0 in",
        "1/2/3 in",
        "28 - 3/4 in",
        "28- 3/4 in",
        "2' - 4\"",
        "2' 4 mm",
        "4\" 2'",
        "2' 4' 5\"",
        "7 8 in",
        "1,200 mm",
        "12,5 mm",
        "1.2.3 mm",
        "2.5 1/2 in",
        "--5 mm",
        "5-mm",
        "2'-",
        "1e3 mm",
        "nan mm",
        "inf",
        "٣ mm",
        "9" * 61,
        "1234567890 mm",
    ],
)
def test_what_is_not_a_length_is_refused_with_an_example(text: str) -> None:
    """Also what could be read in two ways: a spaced hyphen, a comma, a decimal before a fraction."""
    with pytest.raises(InputError, match="must be a length such as 730 mm, 28 3/4 in") as caught:
        parse_length_mm(text, default_unit="mm")
    assert (caught.value.code, caught.value.value) == ("not_a_length", text)


@pytest.mark.parametrize("text", ["12,5 mm", "1,200 mm"])
def test_a_comma_is_answered_with_a_point(text: str) -> None:
    """Whether decimal or thousands: neither is guessed."""
    with pytest.raises(InputError, match="Write decimals with a point, and no sign between thousands"):
        parse_length_mm(text)


@given(st.integers(0, 9999), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]), st.booleans())
def test_every_mixed_number_is_exact(whole: int, top: int, bottom: int, tight: bool) -> None:
    """Against exact rationals, the hyphenated form like the spaced one."""
    exact = float((whole + Fraction(top, bottom)) * MM_PER_INCH)
    assert parse_length_mm(f"{whole}{'-' if tight else ' '}{top}/{bottom} in") == exact


@given(st.integers(0, 99), st.integers(0, 999), st.integers(0, 63))
def test_feet_and_inches_add_up(feet: int, inches: int, part: int) -> None:
    """Feet, inches and sixty-fourths are one exact sum."""
    exact = float(feet * MM_PER_FOOT + (inches + Fraction(part, 64)) * MM_PER_INCH)
    assert parse_length_mm(f"{feet}' {inches} {part}/64\"") == exact


@given(st.floats(0, 99999, allow_nan=False).filter(lambda value: "e" not in repr(value)))
def test_every_decimal_python_writes_reads_back_as_itself(value: float) -> None:
    """A length written by a program is the same float."""
    assert parse_length_mm(f"{value!r} mm") == value


@given(st.text(max_size=70) | st.text("0123456789/.-' \"infmt½", max_size=30))
def test_any_text_is_a_finite_length_or_an_input_error(text: str) -> None:
    """Nothing else comes out."""
    try:
        assert abs(parse_length_mm(text, default_unit="mm")) < 1e15
    except InputError as error:
        assert error.code == "not_a_length"  # noqa: PT017 - either outcome is right, each is checked
