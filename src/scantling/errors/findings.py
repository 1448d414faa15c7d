"""Findings: what the design rules say of a piece. A bad design is normal, not an exception."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

__all__ = ["Finding", "Report", "Severity"]


class Severity(StrEnum):
    """How much a finding matters, worst first."""

    STOP = "stop"
    HIGH = "high"
    MEDIUM = "medium"
    NOTE = "note"

    @property
    def rank(self) -> int:
        """0 for the worst. [1]"""
        return list(Severity).index(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What one design rule found at one place.

    Parameters
    ----------
    code
        Number of the rule (``F05``), never reused.
    severity
        How much it matters.
    where
        Part or joint (``top/breadboard_left``).
    message
        The reason, with the figure found and the figure wanted.
    advice
        A way out, with figures.
    numbers
        The figures by name, unit in the name.
    source
        Where the rule comes from.
    """

    code: str
    severity: Severity
    where: str
    message: str
    advice: str = ""
    numbers: dict[str, float] = field(default_factory=dict)
    source: str = ""

    @property
    def is_error(self) -> bool:
        """Whether ``scantling check`` refuses the piece for it."""
        return self.severity in (Severity.STOP, Severity.HIGH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """Findings in order: worst first, then by code and place."""

    findings: tuple[Finding, ...] = ()

    @classmethod
    def of(cls, findings: Iterable[Finding]) -> Report:
        """Sort findings into a report."""
        ordered = sorted(findings, key=lambda f: (f.severity.rank, f.code, f.where))
        return cls(findings=tuple(ordered))

    @property
    def errors(self) -> tuple[Finding, ...]:
        """The serious findings, those that stop the job among them."""
        return tuple(f for f in self.findings if f.is_error)
