"""The catalogue of design rules: severity, thresholds, advice and source of every rule, by its code.

Whoever looks at a piece (a joint, the shop, the seasons, the structure) says what it found through
:func:`finding`, so that severity, advice and source are written once, in ``data/rules.toml``.
"""

from __future__ import annotations

import math
import string
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any

from scantling.errors import Finding, ModelError, Severity

__all__ = [
    "Grade",
    "Provenance",
    "Rule",
    "Threshold",
    "codes",
    "finding",
    "limit",
    "rule",
    "rules",
]


class Provenance(StrEnum):
    """Where a figure comes from, surest first."""

    PUBLISHED = "published"
    DERIVED = "derived"
    TRADE = "trade"
    COMMON_PRACTICE = "common practice"
    MEMORY = "memory"


@dataclass(frozen=True, slots=True, kw_only=True)
class Threshold:
    """One limit of a rule.

    Parameters
    ----------
    name
        Name with its unit (``slip_mm``).
    value
        The limit, in ``unit``.
    provenance
        Where it comes from.
    """

    name: str
    value: float
    unit: str
    provenance: Provenance


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """From where on a fault weighs more.

    Parameters
    ----------
    severity
        How much it matters then.
    above
        The measure above which it does, in the rule's own measure.
    provenance
        Where that comes from.
    """

    severity: Severity
    above: float
    provenance: Provenance


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One design rule.

    Parameters
    ----------
    code
        Its number in the catalogue (``F05``); never reused.
    title
        The fault in a few words.
    severity
        How much it matters; at the least, where it is graded.
    test
        What is compared with what.
    advice
        A way out without figures.
    way_out
        The same with figures in format fields, used when all of them are known.
    or_else
        A second one, told after it when its figures are known and none of them is 0, which is no way out.
    source
        Where the rule comes from.
    thresholds
        Its limits.
    graded_by
        What its grades measure; empty where it is not graded.
    grades
        Graver grades, mildest first.
    unchecked
        Why no code reports it; empty where some does.
    """

    code: str
    title: str
    severity: Severity
    test: str
    advice: str
    way_out: str
    source: str
    thresholds: tuple[Threshold, ...]
    or_else: str = ""
    graded_by: str = ""
    grades: tuple[Grade, ...] = ()
    unchecked: str = ""

    def severity_at(self, measure: float) -> Severity:
        """How much a fault of that measure matters.

        Examples
        --------
        >>> rule("F57").severity_at(1.3).value, rule("F57").severity_at(2.0).value
        ('medium', 'high')
        """
        over = [grade.severity for grade in self.grades if measure > grade.above]
        return over[-1] if over else self.severity

    def threshold(self, name: str) -> Threshold:
        """The limit of that name; a missing one is our own defect."""
        for threshold in self.thresholds:
            if threshold.name == name:
                return threshold
        raise ModelError(f"rule {self.code} has no threshold {name}")


@cache
def rules() -> Mapping[str, Rule]:
    """Every rule by its code, in order."""
    text = (files("scantling.checks") / "data" / "rules.toml").read_text(encoding="utf-8")
    return {code: _rule(code, row) for code, row in tomllib.loads(text).items()}


def _rule(code: str, row: Mapping[str, Any]) -> Rule:
    limits = tuple(
        Threshold(
            name=name,
            value=float(limit["value"]),
            unit=limit["unit"],
            provenance=Provenance(limit["provenance"]),
        )
        for name, limit in row.get("thresholds", {}).items()
    )
    graded = dict(row.get("grades", {}))
    by = graded.pop("of", "")
    grades = sorted(
        (
            Grade(severity=Severity(name), above=float(at["above"]), provenance=Provenance(at["provenance"]))
            for name, at in graded.items()
        ),
        key=lambda grade: grade.above,
    )
    return Rule(
        code=code,
        title=row["title"],
        severity=Severity(row["severity"]),
        test=row["test"],
        advice=row["advice"],
        way_out=row.get("way_out", ""),
        or_else=row.get("or_else", ""),
        source=row["source"],
        thresholds=limits,
        graded_by=by,
        grades=tuple(grades),
        unchecked=row.get("unchecked", ""),
    )


def codes() -> tuple[str, ...]:
    """Codes of all rules, in order."""
    return tuple(rules())


def rule(code: str) -> Rule:
    """The rule of that code; an unknown code is our own defect."""
    try:
        return rules()[code]
    except KeyError:
        raise ModelError(f"no rule {code}") from None


def limit(code: str, name: str) -> float:
    """Value of a rule's limit, in the unit of its name.

    Examples
    --------
    >>> limit("F14", "wall_mm")
    3.0
    """
    return rule(code).threshold(name).value


def finding(
    code: str,
    *,
    where: str,
    message: str,
    advice: str | None = None,
    numbers: Mapping[str, float] | None = None,
    severity: Severity | None = None,
) -> Finding:
    """What a rule found at one place, completed from the catalogue.

    Parameters
    ----------
    code
        The rule's code.
    where
        Part or joint.
    message
        The reason, with the figure found and the figure wanted.
    advice
        A way out; by default the catalogue's, with figures where ``numbers`` holds them.
    numbers
        The figures by name, unit in the name.
    severity
        By default the catalogue's.

    Examples
    --------
    >>> f = finding("F17", where="apron/leg", message="16 mm is 0.64 of 25 mm",
    ...     numbers={"least_mm": 6.25, "most_mm": 12.5})
    >>> f.advice
    'Choose a tenon of 6 to 12 mm.'
    """
    known = rule(code)
    figures = {name: float(value) for name, value in (numbers or {}).items()}
    return Finding(
        code=code,
        severity=severity or known.severity,
        where=where,
        message=message,
        advice=advice if advice is not None else _advice(known, figures),
        numbers=figures,
        source=known.source,
    )


def _advice(known: Rule, figures: Mapping[str, float]) -> str:
    if not known.way_out or not _fields(known.way_out) <= figures.keys():
        return known.advice
    shown = {name: _Upward(x) if name == "shortfall_mm" else x for name, x in figures.items()}
    told = known.way_out.format_map(shown)
    if known.or_else and all(figures.get(name) for name in _fields(known.or_else)):
        told = f"{told.removesuffix('.')}, {known.or_else.format_map(shown)}."
    return told


class _Upward(float):
    """What is short, written up to the next digit shown: advice to add 0.0 mm would mend nothing."""

    def __format__(self, spec: str) -> str:
        digits = int(spec.removeprefix(".").removesuffix("f"))
        return format(math.ceil(round(self * 10**digits, 6)) / 10**digits, spec)


def _fields(text: str) -> set[str]:
    """Names of the figures a text has places for."""
    return {name for _, name, _, _ in string.Formatter().parse(text) if name}
