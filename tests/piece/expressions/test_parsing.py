"""Form of expressions: bounded, and refused with the place and the way out."""

from __future__ import annotations

import dataclasses

import pytest

from scantling.piece.expressions import MAX_NESTING, ExpressionError, parse

_ONE_SIZE = "Write one size, such as 28 3/4 in, or put a sign between the two."


@pytest.mark.parametrize(
    ("text", "code", "column", "remedy"),
    [
        ("", "expression_empty", 1, "Write a size or a formula."),
        ("   ", "expression_empty", 4, "Write a size or a formula."),
        ("height -", "expression_form", 9, "Something is missing at the end."),
        ("2 3", "expression_form", 3, _ONE_SIZE),
        ("29,25", "expression_form", 3, "Write decimals with a point."),
        (
            "2 height",
            "expression_form",
            3,
            "If 'height' is a unit, write mm, cm, m, in, ft or deg; if a name, put a sign before it.",
        ),
        ("2' 4 mm", "expression_form", 4, _ONE_SIZE),
        ("(1)(2)", "expression_form", 4, "Put a sign between the two values, such as * or +."),
        ("((1)", "expression_form", 5, "Close the bracket."),
        ("1)", "expression_form", 2, "Check the signs and brackets around it."),
        ("* 3", "expression_form", 1, "Check the signs and brackets around it."),
        ("a < b < c", "expression_form", 7, "Write A < B and B < C."),
        ("if a > b then c", "expression_form", 16, "Write if A > B then C else D."),
        ("1 + if a > b then c else d", "expression_form", 5, None),
        ("a then b", "expression_form", 3, "Check the signs and brackets around it."),
        ("sine(2)", "unknown_function", 1, "Did you mean sin?"),
        ("height(2)", "unknown_function", 1, None),
        ("__import__(os)", "unknown_function", 1, "To multiply, write *."),
        ("__import__('os')", "unknown_sign", 12, ""),
        ("a.__class__", "fine", 0, None),
        ("min()", "wrong_arguments", 1, "The least of them."),
        ("1 + sqrt(1, 2)", "wrong_arguments", 5, "The square root of a number or an area."),
        ("2 ^ 7", "exponent_not_allowed", 5, "For roots there is sqrt()."),
        ("2 ^ -1", "exponent_not_allowed", 5, "For roots there is sqrt()."),
        ("2 ^ 0.5", "exponent_not_allowed", 5, "For roots there is sqrt()."),
        ("2 ^ 2 ^ 2", "exponent_not_allowed", 5, "For roots there is sqrt()."),
        ("2 ^ n", "exponent_not_allowed", 5, "For roots there is sqrt()."),
        ("a @ b", "unknown_sign", 3, ""),
        ("a; b", "unknown_sign", 2, ""),
        ("a['b']", "unknown_sign", 2, ""),
        ("é + 1", "unknown_sign", 1, ""),
        ("1" * 40, "number_out_of_range", 1, ""),
        ("1 + " * 125 + "1", "expression_too_long", 501, "Give parts of it names under values."),
        (
            "(" * 40 + "1" + ")" * 40,
            "expression_too_deep",
            MAX_NESTING + 1,
            "Give parts of it names under values.",
        ),
        ("-" * 40 + "1", "expression_too_deep", MAX_NESTING, ""),
        ("abs(" * 40 + "1" + ")" * 40, "expression_too_deep", 4 * MAX_NESTING + 1, None),
    ],
)
def test_a_fault_of_form_names_its_code_place_and_way_out(
    text: str, code: str, column: int, remedy: str | None
) -> None:
    """Each slip gets its own code at its own column."""
    if code == "fine":  # a dotted name is only ever looked up in our own table of names
        assert parse(text).names() == {text}
        return
    with pytest.raises(ExpressionError) as caught:
        parse(text)
    fault = caught.value.fault
    assert (fault.code, fault.column) == (code, column)
    assert remedy is None or fault.remedy == remedy
    assert fault.rule
    assert fault.value


def test_a_long_sum_is_no_deep_one() -> None:
    """A row of 160 members is worked out without nesting."""
    assert parse(" + ".join("a" for _ in range(120))).names() == {"a"}


def test_the_same_text_gives_the_same_frozen_tree() -> None:
    """Parsing is cached, so nothing of it may change."""
    expression = parse("top.length - 2 * overhang")
    assert parse("top.length - 2 * overhang") is expression
    assert expression.names() == frozenset({"top.length", "overhang"})
    with pytest.raises(dataclasses.FrozenInstanceError):
        expression.text = "x"  # type: ignore[misc]


def test_names_are_found_wherever_they_stand() -> None:
    """In functions, powers, choices and negations; functions and keywords are no names."""
    text = "if not a > b then -max(c, d.e ^ 2) else f + 1 mm / g"
    assert parse(text).names() == {"a", "b", "c", "d.e", "f", "g"}
    assert parse(text).find("d.e").at == text.index("d.e")
    assert parse("max + a").find("a").at == 6
