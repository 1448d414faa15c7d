"""Faults, exceptions and findings: what they say and how they sort."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from scantling.errors import (
    Fault,
    FileFaults,
    Finding,
    InputError,
    ModelError,
    Report,
    ScantlingError,
    Severity,
    Telling,
)

FAULT = Fault(code="c", field="top.length", value="x", rule="must be a length", remedy="Write one.")


@pytest.mark.parametrize(
    ("file", "line", "column", "head"),
    [
        ("a.yaml", 3, 7, "a.yaml:3:7: "),
        ("a.yaml", 3, 0, "a.yaml:3: "),
        ("a.yaml", 0, 0, "a.yaml: "),
        ("", 0, 0, ""),
    ],
)
def test_a_fault_says_where_what_and_what_to_do(file: str, line: int, column: int, head: str) -> None:
    """Place, field, rule, value, remedy, in one line."""
    fault = Fault(
        code="c",
        field="top.length",
        value="x",
        rule="must be a length",
        remedy="Write one.",
        file=file,
        line=line,
        column=column,
    )
    assert str(fault) == f"{head}top.length: must be a length, got x. Write one."


def test_a_fault_without_remedy_ends_at_its_value() -> None:
    """No stray space."""
    assert str(Fault(code="c", field="f", value="1", rule="must be 2")) == "f: must be 2, got 1."


def test_every_error_a_user_can_cause_is_one_of_ours_and_a_value_error() -> None:
    """So a caller may catch either."""
    error = InputError(code="c", field="f", value=0.08, rule="must be percent", remedy="Write 8.")
    assert isinstance(error, ScantlingError)
    assert isinstance(error, ValueError)
    assert (error.code, error.field, error.value, error.hint) == ("c", "f", 0.08, "Write 8.")
    assert str(error) == str(error.fault) == "f: must be percent, got 0.08. Write 8."
    several = FileFaults([FAULT, FAULT])
    assert isinstance(several, ValueError)
    assert several.faults == (FAULT, FAULT)
    assert str(several).count("\n") == 1
    assert not issubclass(ModelError, ValueError)


def test_telling_keeps_every_refusal_and_raises_them_together() -> None:
    """What could be read is given back; of the rest all faults are kept, in order."""

    def refuses(error: Exception) -> Callable[[], int]:
        def read() -> int:
            raise error

        return read

    telling = Telling()
    telling.refuse()
    assert telling.tried(lambda: 3) == 3
    assert telling.tried(refuses(FileFaults([FAULT, FAULT]))) is None
    assert telling.tried(refuses(InputError(code="d", field="f", value=1, rule="must not"))) is None
    with pytest.raises(FileFaults) as caught:
        telling.refuse()
    assert [fault.code for fault in caught.value.faults] == ["c", "c", "d"]


def test_a_report_has_the_worst_first_and_its_errors_apart() -> None:
    """By severity, then code, then place; stop and high refuse the piece."""
    findings = [
        Finding(code="F46", severity=Severity.NOTE, where="shelf", message="m"),
        Finding(code="F40", severity=Severity.STOP, where="top", message="m"),
        Finding(code="F12", severity=Severity.STOP, where="leg", message="m"),
        Finding(code="F12", severity=Severity.STOP, where="arm", message="m"),
        Finding(code="F01", severity=Severity.HIGH, where="top", message="m"),
        Finding(code="F07", severity=Severity.MEDIUM, where="top", message="m"),
    ]
    report = Report.of(findings)
    assert [(f.code, f.where) for f in report.findings] == [
        ("F12", "arm"),
        ("F12", "leg"),
        ("F40", "top"),
        ("F01", "top"),
        ("F07", "top"),
        ("F46", "shelf"),
    ]
    assert [f.code for f in report.errors] == ["F12", "F12", "F40", "F01"]
    assert Report.of(reversed(findings)) == report
