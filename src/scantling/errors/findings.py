"""Findings: what the design rules say of a piece. A bad design is normal, not an exception."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

__all__ = ["Finding", "Remedy", "Report", "Severity"]


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
class Remedy:
    """One change of the piece file, or of what was measured, that makes a finding go away.

    Parameters
    ----------
    words
        What it does (``Set tongue thickness of breadboard to 8 mm``).
    path
        Where it is written in the piece file (``joints``, ``breadboard``, ``tongue_thickness``); or in the
        notes, of what is to be taken back (``measured``, ``top``, ``width``).
    text
        What is written there; empty where it is to be taken out.
    """

    words: str
    path: tuple[str, ...]
    text: str

    @property
    def parameter(self) -> str:
        """The parameter it sets; empty where it changes something else of the file."""
        return self.path[1] if self.path[:1] == ("parameters",) else ""

    @property
    def taken_back(self) -> str:
        """What was measured and is taken back (``top.width``); empty where the piece file is changed."""
        return ".".join(self.path[1:]) if self.path[:1] == ("measured",) else ""

    @property
    def line(self) -> str:
        """What to write, or to take out, and where, for whoever mends the file himself."""
        if self.taken_back:
            return ".".join(self.path)
        *block, field_name = self.path
        return f"{'.'.join(block)}: {field_name}: {self.text}"


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
    remedies
        Changes of the piece file that would make it go away, the best first.
    """

    code: str
    severity: Severity
    where: str
    message: str
    advice: str = ""
    numbers: dict[str, float] = field(default_factory=dict)
    source: str = ""
    remedies: tuple[Remedy, ...] = ()

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
