"""The one body of every error, made in one place."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.errors import Fault, FileFaults, InputError, ScantlingError
from scantling.web.sent.fault_places import found_in_words, place_of_field, remedy_in_words
from scantling.web.sent.views import FaultView, Refusal

__all__ = ["fault_view", "faults_of", "refusal"]


def refusal(status: int, faults: Iterable[Fault]) -> Refusal:
    """The body of an error.

    Parameters
    ----------
    status
        HTTP status.
    faults
        At least one.
    """
    told = tuple(fault_view(fault) for fault in faults)
    assert told, "an error says what is wrong"
    return Refusal(ok=False, errors=told, status=status)


def fault_view(fault: Fault) -> FaultView:
    """One fault as it is sent."""
    return FaultView(
        code=fault.code,
        field=fault.field,
        place=place_of_field(fault.field),
        message=str(fault),
        rule=fault.rule,
        remedy=remedy_in_words(fault.remedy),
        value=fault.value,
        found=found_in_words(fault.value),
        file=fault.file,
        line=fault.line,
        column=fault.column,
    )


def faults_of(error: ScantlingError) -> tuple[Fault, ...]:
    """The faults an exception carries."""
    if isinstance(error, FileFaults):
        return error.faults
    if isinstance(error, InputError):
        return (error.fault,)
    return (
        Fault(
            code="program_fault",
            field="scantling",
            value=str(error)[:200],
            rule="must hold within the program itself",
            remedy="This is a defect of Scantling, not of the piece: keep the piece file and report it.",
        ),
    )
