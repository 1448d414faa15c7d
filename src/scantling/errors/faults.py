"""Faults: what is wrong with what was given, where, and what to do about it."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Fault"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong with the input.

    Parameters
    ----------
    code
        Stable name of the rule broken, snake_case (``unknown_species``).
    field
        Dotted path of the field (``parts.leg.section``), or the option's name.
    value
        What was found, as written.
    rule
        What is allowed, with the unit.
    remedy
        What to do, one sentence.
    file, line, column
        Where it stands; line and column count from 1, 0 when unknown.
    """

    code: str
    field: str
    value: str
    rule: str
    remedy: str = ""
    file: str = ""
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        place = self.file
        if self.line:
            place += f":{self.line}"
            if self.column:
                place += f":{self.column}"
        head = f"{place}: " if place else ""
        text = f"{head}{self.field}: {self.rule}, got {self.value}."
        return f"{text} {self.remedy}".rstrip()
