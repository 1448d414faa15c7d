"""Whatever is written, an expression is a quantity or an error of ours, in bounded time."""

from __future__ import annotations

import math
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.piece.expressions import FUNCTIONS, ExpressionError, Quantity, evaluate, parse
from scantling.units import Dimension

NAMES = {
    "a": Quantity(740.0, Dimension.LENGTH),
    "b.width": Quantity(0.0, Dimension.LENGTH),
    "t": Quantity(7.0, Dimension.ANGLE),
    "n": Quantity(3.0, Dimension.NUMBER),
}
WORDS = [
    *("+", "-", "*", "/", "^", "**", "(", ")", ",", "<", ">=", "=", "!=", ".", "'", '"', "°", "½", "_"),
    *(" if ", " then ", " else ", " and ", " or ", " not ", " "),
    *("28 3/4 in", "2' 4-1/2\"", "7/8", "7 deg", "0", "1e9", "3", " in", " mm", " ft"),
    *(f"{name}(" for name in FUNCTIONS),
    *NAMES,
    "lost",
]


def check_error(error: ExpressionError, text: str) -> None:
    """It has all its words, in one line, and points into the text."""
    assert isinstance(error, InputError)
    assert error.code
    assert error.fault.rule
    assert error.fault.value
    assert 1 <= error.fault.column <= min(len(text), 501) + 1
    assert len(str(error)) < 500
    assert "\n" not in str(error)


def check(text: str) -> None:
    """A finite quantity, or an error that points into the text."""
    for unit in ("mm", "in"):
        for want in (None, Dimension.LENGTH):
            try:
                quantity = evaluate(parse(text), NAMES, default_unit=unit, want=want)
            except ExpressionError as error:
                check_error(error, text)
            else:
                assert math.isfinite(quantity.value)
                assert quantity.dimension in (Dimension.LENGTH, Dimension.ANGLE, Dimension.NUMBER)


@given(st.text(max_size=80))
def test_arbitrary_text_is_a_quantity_or_an_error_of_ours(text: str) -> None:
    """Any characters at all."""
    check(text)


@given(st.lists(st.sampled_from(WORDS), max_size=25).map("".join))
def test_words_of_the_grammar_in_any_order_are_a_quantity_or_an_error_of_ours(text: str) -> None:
    """Marks that mean something, in any order."""
    check(text)


@given(st.lists(st.sampled_from(WORDS), max_size=25).map(" ".join))
def test_spaced_words_of_the_grammar_are_a_quantity_or_an_error_of_ours(text: str) -> None:
    """The same with spaces, which join and part sizes."""
    check(text)


@pytest.mark.parametrize(
    "piece", ["(", "-", "1-", "1 ", "1/", "1' ", "a.", "a<", "if ", "not ", "½", "9", "\t", "min("]
)
def test_the_longest_expressions_of_one_mark_take_no_time(piece: str) -> None:
    """500 characters of one mark, and far more, are refused or worked out in under 0.2 s."""
    begin = time.process_time()
    check((piece * 500)[:500])
    check(piece * 200_000)
    assert time.process_time() - begin < 0.2
