"""Other quantities: angles, percents, temperatures, times, masses, forces."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.units import Dimension, parse_quantity


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("7 deg", Dimension.ANGLE, 7.0),
        ("7.5°", Dimension.ANGLE, 7.5),
        ("-7 degrees", Dimension.ANGLE, -7.0),
        ("45 %", Dimension.PERCENT, 45.0),
        ("45pct", Dimension.PERCENT, 45.0),
        ("20 C", Dimension.TEMPERATURE, 20.0),
        ("68 °F", Dimension.TEMPERATURE, 20.0),
        ("-40 F", Dimension.TEMPERATURE, -40.0),
        ("20 deg C", Dimension.TEMPERATURE, 20.0),
        ("90 min", Dimension.TIME, 90.0),
        ("24 h", Dimension.TIME, 1440.0),
        ("1 hour", Dimension.TIME, 60.0),
        ("3 days", Dimension.TIME, 4320.0),
        ("6 weeks", Dimension.TIME, 60480.0),
        ("30 s", Dimension.TIME, 0.5),
        ("25 kg", Dimension.MASS, 25.0),
        ("250 g", Dimension.MASS, 0.25),
        ("55 lb", Dimension.MASS, 24.94758035),
        ("4 kN", Dimension.FORCE, 4000.0),
        ("3.5", Dimension.NUMBER, 3.5),
        ("28 3/4 in", Dimension.LENGTH, 730.25),
    ],
)
def test_a_quantity_is_read_into_its_internal_unit(text: str, dimension: Dimension, value: float) -> None:
    """With the units a maker writes."""
    assert parse_quantity(text, dimension) == pytest.approx(value, rel=1e-12)


def test_the_pound_force_is_the_pound_under_standard_gravity() -> None:
    """0.453 592 37 kg times 9.806 65 m/s2 exactly, and sixteen ounces are a pound.

    Definitions of the avoirdupois pound and of standard acceleration of free fall as in NIST SP 811,
    appendix B (values from memory; the product checks one against the other).
    """
    pound_kg = parse_quantity("1 lb", Dimension.MASS)
    assert pound_kg == 0.45359237
    assert parse_quantity("1 lbf", Dimension.FORCE) == pytest.approx(pound_kg * 9.80665, rel=1e-14)
    assert parse_quantity("16 oz", Dimension.MASS) == pytest.approx(pound_kg, rel=1e-14)


@pytest.mark.parametrize(
    ("text", "dimension", "code", "rule"),
    [
        ("7 mm", Dimension.ANGLE, "not_an_angle", "must be an angle with a unit (deg, °, degrees)"),
        ("45", Dimension.PERCENT, "unit_missing", "must be a percent with a unit (%, pct)"),
        ("20", Dimension.TEMPERATURE, "unit_missing", "must be a temperature with a unit (C, F)"),
        ("20 K", Dimension.TEMPERATURE, "not_a_temperature", "must be a temperature with a unit (C, F)"),
        ("90 moons", Dimension.TIME, "not_a_time", "must be a time with a unit (min, h, days, s)"),
        ("three", Dimension.MASS, "not_a_mass", "must be a mass with a unit (kg, g, lb, oz)"),
        ("1.2.3 N", Dimension.FORCE, "not_a_force", "must be a force with a unit (N, kN, lbf)"),
        ("3 mm", Dimension.NUMBER, "not_a_number", "must be a plain number"),
        ("", Dimension.NUMBER, "not_a_number", "must be a plain number"),
        ("x", Dimension.LENGTH, "not_a_length", "must be a length such as"),
    ],
)
def test_a_wrong_unit_is_refused_with_the_ones_allowed(
    text: str, dimension: Dimension, code: str, rule: str
) -> None:
    """Code, value and rule."""
    with pytest.raises(InputError, match="must be") as caught:
        parse_quantity(text, dimension, field="x")
    assert (caught.value.code, caught.value.value) == (code, text)
    assert caught.value.fault.rule.startswith(rule)
    assert caught.value.hint


def test_a_bare_number_takes_the_default_unit() -> None:
    """Where one is given."""
    assert parse_quantity("2", Dimension.TIME, default_unit="h") == 120.0
    assert parse_quantity("68", Dimension.TEMPERATURE, default_unit="F") == 20.0


@given(
    st.text(max_size=40) | st.text("0123456789.-+ °%CFdeghkglbminN", max_size=20), st.sampled_from(Dimension)
)
def test_any_text_is_a_finite_quantity_or_an_input_error(text: str, dimension: Dimension) -> None:
    """Nothing else comes out."""
    try:
        assert abs(parse_quantity(text, dimension)) < 1e15
    except InputError as error:
        assert error.hint  # noqa: PT017 - either outcome is right, each is checked


@pytest.mark.parametrize(
    "text", ["1" + " " * 200_000 + "5", " " * 200_000 + "x", "-" + " " * 200_000, "1 h" + "\t" * 200_000]
)
def test_a_long_run_of_spaces_is_read_once(text: str) -> None:
    """Where two parts of the pattern could take the same space, a line of them took minutes to refuse."""
    if text.startswith("1 h"):
        assert parse_quantity(text, Dimension.TIME) == 60.0
        return
    with pytest.raises(InputError):
        parse_quantity(text, Dimension.TIME)
