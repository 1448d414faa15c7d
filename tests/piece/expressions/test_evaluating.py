"""Working expressions out: arithmetic by an independent reference, kinds by cases, faults with places."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.piece.expressions import FUNCTIONS, ExpressionError, Quantity, evaluate, parse
from scantling.units import Dimension

NAMES = {
    "height": Quantity(740.0, Dimension.LENGTH),
    "top.length": Quantity(1370.0, Dimension.LENGTH),
    "overhang": Quantity(50.0, Dimension.LENGTH),
    "splay": Quantity(7.0, Dimension.ANGLE),
    "count": Quantity(3.0, Dimension.NUMBER),
    "warm": Quantity(20.0, Dimension.TEMPERATURE),
}


def work(text: str, unit: str = "mm", want: Dimension | None = None) -> Quantity:
    """Work out over the sample names."""
    return evaluate(parse(text), NAMES, default_unit=unit, want=want)


@pytest.mark.parametrize(
    ("text", "value", "dimension"),
    [
        ("top.length - 2 * overhang", 1270.0, Dimension.LENGTH),
        ("overhang + 20", 70.0, Dimension.LENGTH),
        ("20 + 2 * 5 + overhang", 80.0, Dimension.LENGTH),
        ("2 * overhang", 100.0, Dimension.LENGTH),
        ("overhang * (3/4)", 37.5, Dimension.LENGTH),
        ("height / cos(splay)", 740 / math.cos(math.radians(7)), Dimension.LENGTH),
        ("splay + 2", 9.0, Dimension.ANGLE),
        ("2 * splay / 4", 3.5, Dimension.ANGLE),
        ("splay / 2 deg", 3.5, Dimension.NUMBER),
        ("sqrt(30 mm ^ 2 + 40 mm ^ 2)", 50.0, Dimension.LENGTH),
        ("height / overhang", 14.8, Dimension.NUMBER),
        ("height * overhang / height", 50.0, Dimension.LENGTH),
        ("sqrt(height * overhang) ^ 2 / overhang", 740.0, Dimension.LENGTH),
        ("-overhang ^ 2 / overhang", -50.0, Dimension.LENGTH),
        ("2 ^ 3 - 2 ** 0", 7.0, Dimension.NUMBER),
        ("10 - 3 - 2", 5.0, Dimension.NUMBER),
        ("12 / 3 / 2", 2.0, Dimension.NUMBER),
        ("--3", 3.0, Dimension.NUMBER),
        ("3 × 4 ÷ 2 − 1", 5.0, Dimension.NUMBER),
        ("min(height, 30, overhang)", 30.0, Dimension.LENGTH),
        ("max(0, overhang - 60)", 0.0, Dimension.LENGTH),
        ("abs(-overhang)", 50.0, Dimension.LENGTH),
        ("round_to(height / 3, 1/8 in)", 247.65, Dimension.LENGTH),
        ("floor(height / 3, 1)", 246.0, Dimension.LENGTH),
        ("ceil(height / 3, 5 mm)", 250.0, Dimension.LENGTH),
        ("floor(2.7) + ceil(2.2)", 5.0, Dimension.NUMBER),
        ("ceil(0.3 / 0.1)", 3.0, Dimension.NUMBER),
        ("sin(30) + cos(60 deg)", 1.0, Dimension.NUMBER),
        ("tan(45°)", 1.0, Dimension.NUMBER),
        ("asin(0.5) + acos(0.5) + atan(1)", 135.0, Dimension.ANGLE),
        ("atan2(overhang, overhang)", 45.0, Dimension.ANGLE),
        ("atan2(-1, 0)", -90.0, Dimension.ANGLE),
        ("if height > 600 then 48 mm else 38 mm", 48.0, Dimension.LENGTH),
        ("if height > 600 and not overhang >= 50 or count = 3 then 1 else 2", 1.0, Dimension.NUMBER),
        ("if count != 3 then 1 else if count < 4 then 2 else 3", 2.0, Dimension.NUMBER),
        ("if 0.1 + 0.2 <= 0.3 and 0.1 + 0.2 = 0.3 then 1 else 2", 1.0, Dimension.NUMBER),
        ("1 + (if count ≥ 3 then 1 else 1 / 0)", 2.0, Dimension.NUMBER),
    ],
)
def test_an_expression_comes_to_its_value(text: str, value: float, dimension: Dimension) -> None:
    """Each function and sign, over lengths, angles and numbers; values by hand."""
    quantity = work(text)
    assert quantity.value == pytest.approx(value, rel=1e-12, abs=1e-12)
    assert quantity.dimension is dimension


def test_a_bare_number_beside_a_length_is_in_the_files_unit() -> None:
    """The same text adds millimeters or inches by the file; a product stays a number of times."""
    assert work("overhang + 2", "mm").value == 52.0
    assert work("overhang + 2", "in").value == pytest.approx(100.8)
    assert work("overhang + 2", "cm").value == 70.0
    assert work("2 * overhang", "in").value == 100.0
    assert work("if height > 30 then 1 else 2", "in").value == 2.0
    assert work("2 * 3", "in", Dimension.LENGTH).value == 152.4
    assert work("7", "in", Dimension.ANGLE) == Quantity(7.0, Dimension.ANGLE)
    assert work("7", "in", Dimension.NUMBER) == Quantity(7.0, Dimension.NUMBER)


@pytest.mark.parametrize(
    ("text", "code", "column", "words"),
    [
        ("overhang + count", "wrong_dimension", 1, "cannot add a length and a number"),
        ("count - overhang", "wrong_dimension", 1, "cannot subtract a number and a length"),
        ("2 + (overhang + splay)", "wrong_dimension", 6, "cannot add a length and an angle"),
        ("height * splay", "wrong_dimension", 1, "cannot multiply a length and an angle"),
        ("splay * splay", "wrong_dimension", 1, "cannot multiply an angle and an angle"),
        ("count / splay", "wrong_dimension", 1, "cannot divide a number by an angle"),
        ("splay ^ 2", "wrong_dimension", 1, "cannot take a power of an angle"),
        (
            "height * overhang",
            "wrong_dimension",
            1,
            "must come to a length, an angle or a number, not an area",
        ),
        ("1 / height", "wrong_dimension", 1, "not one over a length"),
        ("overhang ^ 6 * overhang", "wrong_dimension", 1, "must not go beyond a length to the power 6"),
        ("sqrt(height)", "wrong_dimension", 1, "cannot take the square root of a length"),
        ("sqrt(0 - 4)", "out_of_domain", 1, "must not be the root of a negative"),
        ("1 + sin(height)", "wrong_dimension", 5, "sin must be given an angle, not a length"),
        ("asin(2)", "out_of_domain", 1, "asin must be given a number from -1 to 1"),
        ("acos(height)", "wrong_dimension", 1, "acos must be given a number, not a length"),
        ("tan(90)", "out_of_domain", 1, "tan has no value at a right angle"),
        ("atan2(0, 0)", "out_of_domain", 1, "atan2 has no value for 0, 0"),
        ("min(height, count)", "wrong_dimension", 1, "cannot compare a length and a number"),
        ("floor(height)", "wrong_dimension", 1, "must be told the step when rounding a length"),
        ("round_to(height, 0)", "out_of_domain", 1, "must have a step above zero"),
        ("round_to(height, count)", "wrong_dimension", 1, "cannot round a length and a number"),
        ("height / (overhang - 50)", "division_by_zero", 1, "must not be divided by zero"),
        ("1/0", "division_by_zero", 1, "must not be a fraction over zero"),
        ("2 + warm", "wrong_dimension", 5, "must be a length, an angle or a number, not a temperature"),
        ("1e11 * 1e11", "too_large", 1, "must come to less than 1e+15"),
        ("1e11 ^ 6", "too_large", 1, "must come to less than 1e+15"),
        ("count = 3", "wrong_dimension", 1, "not a yes or no"),
        ("1 + (count = 3)", "wrong_dimension", 1, "cannot reckon with a yes or no"),
        ("-(count = 3)", "wrong_dimension", 1, "cannot reckon with a yes or no"),
        ("max(count = 3, 1)", "wrong_dimension", 1, "cannot reckon with a yes or no"),
        ("if height then 1 else 2", "wrong_dimension", 4, "must be a comparison, not a length"),
        ("if count and 1 > 0 then 1 else 2", "wrong_dimension", 4, "on both sides of 'and'"),
        ("if (count = 3) = (1 = 1) then 1 else 2", "wrong_dimension", 5, "cannot compare a yes or no"),
        ("ovrhang * 2", "unknown_name", 1, "must be a name that stands for something"),
    ],
)
def test_what_cannot_be_worked_out_says_why_and_where(text: str, code: str, column: int, words: str) -> None:
    """Code, column and reason; never a traceback or a wrong number."""
    with pytest.raises(ExpressionError) as caught:
        work(text)
    fault = caught.value.fault
    assert (fault.code, fault.column) == (code, column)
    assert words in fault.rule
    assert fault.value


def test_an_unknown_name_offers_the_nearest() -> None:
    """A slip of the pen gets the name it was meant to be, and the carets point at it."""
    with pytest.raises(ExpressionError) as caught:
        work("top.length - 2 * ovrhang")
    assert caught.value.hint == "Did you mean overhang?"
    assert caught.value.pointer == "top.length - 2 * ovrhang\n                 ^^^^^^^"
    assert caught.value.fault.value == "'ovrhang' in 'top.length - 2 * ovrhang'"


def test_a_lookup_may_be_a_function_and_its_own_error_gets_a_place() -> None:
    """Code, rule and remedy of the function's error stay; the column is that of the name."""

    def lookup(name: str) -> Quantity:
        if name == "lost":
            raise KeyError(name)
        if name == "knot":
            raise InputError(code="cycle", field=name, value="knot -> knot", rule="no", remedy="Cut it.")
        return Quantity(5.0, Dimension.LENGTH)

    assert evaluate(parse("a + b.width"), lookup, default_unit="mm").value == 10.0
    with pytest.raises(ExpressionError) as caught:
        evaluate(parse("a + knot"), lookup, default_unit="mm")
    fault = caught.value.fault
    assert (fault.code, fault.value, fault.remedy, fault.column) == ("cycle", "knot -> knot", "Cut it.", 5)
    with pytest.raises(ExpressionError) as caught:
        evaluate(parse("lost"), lookup, default_unit="mm")
    assert caught.value.code == "unknown_name"


@pytest.mark.parametrize(
    ("text", "want", "words"),
    [
        ("count", Dimension.LENGTH, "must come to a length, not a number"),
        ("height", Dimension.ANGLE, "must come to an angle, not a length"),
        ("height * 2", Dimension.NUMBER, "must come to a number, not a length"),
        ("height * height", Dimension.LENGTH, "must come to a length, not an area"),
    ],
)
def test_a_wanted_dimension_is_insisted_on(text: str, want: Dimension, words: str) -> None:
    """Only figures without units are taken for what is wanted."""
    with pytest.raises(ExpressionError) as caught:
        work(text, want=want)
    assert (caught.value.code, caught.value.fault.rule) == ("wrong_dimension", words)


def test_only_the_branch_taken_is_asked_for() -> None:
    """A name in the other branch is listed among the names, and not needed."""
    expression = parse("if 1 < 2 then 3 else lost / 0")
    assert expression.names() == {"lost"}
    assert evaluate(expression, {}, default_unit="mm").value == 3.0


def test_every_function_is_among_the_cases_above_and_says_how_it_is_written() -> None:
    """No function is without a worked case."""
    assert set(FUNCTIONS) == {
        *("min", "max", "abs", "sqrt", "round_to", "floor", "ceil"),
        *("sin", "cos", "tan", "asin", "acos", "atan", "atan2"),
    }
    for name, function in FUNCTIONS.items():
        assert function.form.startswith(f"{name}(")
        assert function.about.endswith(".")


Worked = tuple[str, Fraction]
Joined = Callable[[tuple[Worked, Worked]], Worked]


def _joined(sign: str, work: Callable[[Fraction, Fraction], Fraction]) -> Joined:
    return lambda pair: (f"({pair[0][0]}) {sign} ({pair[1][0]})", work(pair[0][1], pair[1][1]))


WHOLE: st.SearchStrategy[Worked] = st.integers(0, 99).map(lambda n: (str(n), Fraction(n)))
SUMS: st.SearchStrategy[Worked] = st.recursive(
    WHOLE,
    lambda inner: (
        st.tuples(inner, inner).map(_joined("+", lambda a, b: a + b))
        | st.tuples(inner, inner).map(_joined("-", lambda a, b: a - b))
        | st.tuples(inner, inner).map(_joined("*", lambda a, b: a * b))
        | inner.map(lambda one: (f"-({one[0]})", -one[1]))
        | inner.map(lambda one: (f"({one[0]}) / 8", one[1] / 8))
    ),
    max_leaves=6,
)


@given(SUMS)
def test_arithmetic_agrees_with_exact_fractions(worked: Worked) -> None:
    """The reference is built beside the text in exact rationals."""
    text, exact = worked
    if len(text) > 500 or abs(exact) > 1e12:
        return
    assert work(text).value == pytest.approx(float(exact), rel=1e-12, abs=1e-12)


FLAT = st.lists(st.tuples(st.sampled_from("+-*"), st.integers(1, 30)), min_size=1, max_size=25)


@given(st.integers(1, 30), FLAT)
def test_rank_and_order_of_signs_are_those_of_arithmetic(first: int, rest: list[tuple[str, int]]) -> None:
    """Products before sums, left to right, against sums of products worked out apart."""
    text = str(first) + "".join(f" {sign} {number}" for sign, number in rest)
    total, product = 0, first
    for sign, number in rest:
        if sign == "*":
            product *= number
        else:
            total, product = total + product, number if sign == "+" else -number
    if abs(total + product) > 1e12 or abs(product) > 1e12:
        return
    assert work(text).value == pytest.approx(total + product, rel=1e-9)
