"""The catalogue of rules is complete, and findings take severity, advice and source from it."""

from __future__ import annotations

import string

import pytest

from scantling.checks import codes, finding, rule, rules
from scantling.errors import ModelError, Severity


def test_every_code_from_f01_on_is_there_once() -> None:
    """No rule is missing and none has a number outside the list."""
    assert codes() == tuple(f"F{number:02d}" for number in range(1, 83))


@pytest.mark.parametrize("code", codes())
def test_a_rule_says_all_that_a_maker_asks(code: str) -> None:
    """Title, test, advice and source stand in every rule, and every limit has a unit."""
    known = rule(code)
    assert known.title
    assert known.test
    assert known.source
    assert known.advice.endswith(".")
    assert "{" not in known.advice
    assert all(threshold.unit for threshold in known.thresholds)
    fields = {name for _, name, _, _ in string.Formatter().parse(known.way_out) if name}
    assert not known.way_out or fields


def test_advice_carries_the_figures_when_they_are_known() -> None:
    """A finding with all figures gives the way out in figures; without them, in words."""
    words = finding("F18", where="a/b", message="m")
    figures = finding("F18", where="a/b", message="m", numbers={"wanted_mm": 30.0, "thinner_mm": 7.0})
    assert words.advice == "Let the tenon go deeper, or use a thinner and deeper one."
    assert figures.advice == "Let the tenon go 30 mm deep, or use one of at most 7.0 mm."
    assert figures.severity is Severity.MEDIUM
    assert figures.source == rule("F18").source


def test_what_is_short_is_told_up_to_the_digit_shown() -> None:
    """To add 0.0 mm of tongue would mend nothing; a tenth is told as a tenth."""
    told = [
        finding("F03", where="a/b", message="m", numbers={"shortfall_mm": short}).advice
        for short in (0.04, 0.1, 0.11)
    ]
    assert [next(w for w in words.split() if w[0].isdigit()) for words in told] == ["0.1", "0.1", "0.2"]


def test_a_second_way_out_is_told_unless_it_comes_to_nothing() -> None:
    """To load a joint with 0 kg is no way out."""
    told = {
        kg: finding("F75", where="a/b", message="m", numbers={"times": 1.8, "allowed_kg": kg}).advice
        for kg in (0.0, 36.0)
    }
    assert told[0.0].endswith("a cleat under it).")
    assert told[36.0] == f"{told[0.0][:-1]}, or load it with 36 kg at most."
    assert finding("F75", where="a/b", message="m").advice == rule("F75").advice


def test_severity_and_advice_can_be_given() -> None:
    """What is given wins over the catalogue."""
    found = finding("F18", where="a", message="m", advice="Do this.", severity=Severity.NOTE)
    assert (found.advice, found.severity) == ("Do this.", Severity.NOTE)


def test_an_unknown_code_is_a_defect_of_ours() -> None:
    """Codes come from the program, so a wrong one is no input error."""
    with pytest.raises(ModelError, match="F99"):
        rule("F99")


def test_rules_are_read_once() -> None:
    """The catalogue is the same object each time."""
    assert rules() is rules()


def test_grades_rise_with_the_measure() -> None:
    """Every graded rule says what it measures, and a greater fault never weighs less."""
    graded = [known for known in rules().values() if known.grades]
    assert {known.code for known in graded} >= {"F23", "F24", "F28", "F34", "F35", "F57"}
    for known in graded:
        assert known.graded_by
        weights = [known.severity, *(grade.severity for grade in known.grades)]
        assert [weight.rank for weight in weights] == sorted((w.rank for w in weights), reverse=True)
        for grade in known.grades:
            assert known.severity_at(grade.above).rank > grade.severity.rank
            assert known.severity_at(grade.above + 1e-6) is grade.severity
