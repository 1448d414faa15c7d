"""Hours by operation: counts times rates, each with its range."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from scantling.errors import InputError

__all__ = ["Count", "HourLine", "Hours", "Rate", "estimate", "rates"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """Minutes for one operation.

    Parameters
    ----------
    per
        What is counted (``part``, ``joint``, ``m2``).
    likely_min, least_min, most_min
        Most likely, and the range. [min]
    repeat_pct, repeat_least_pct
        What each further like one saves, down to what share of the first. [%]
    source
        Where it is from.
    """

    operation: str
    per: str
    likely_min: float
    least_min: float
    most_min: float
    repeat_pct: float = 0.0
    repeat_least_pct: float = 100.0
    source: str = "common practice"

    def times(self, count: float) -> float:
        """How many first ones a number of like ones costs. [1]"""
        if self.repeat_pct <= 0.0:
            return count
        whole, part = int(count), count - int(count)
        total = 0.0
        share = 1.0
        for _ in range(whole):
            total += share
            share = max(share - self.repeat_pct / 100.0, self.repeat_least_pct / 100.0)
        return total + part * share


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """How much of an operation a piece needs. ``like`` ones made alike repeat faster."""

    operation: str
    count: float
    what: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HourLine:
    """Hours for one operation, most likely and its range, with where the rate is from. [h]"""

    operation: str
    what: str
    count: float
    per: str
    likely_h: float
    least_h: float
    most_h: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """All hours.

    Parameters
    ----------
    likely_h
        Most likely. [h]
    low_h, high_h
        A range that nine pieces in ten should fall in, lines taken as independent. [h]
    """

    lines: tuple[HourLine, ...]
    likely_h: float
    low_h: float
    high_h: float


@cache
def rates() -> Mapping[str, Rate]:
    """The rates that come with the program, by operation."""
    text = (files("scantling.money") / "data" / "hours.toml").read_text(encoding="utf-8")
    return {name: Rate(operation=name, **row) for name, row in tomllib.loads(text).items()}


def estimate(counts: Sequence[Count]) -> Hours:
    r"""Hours of a piece from counts and rates.

    Parameters
    ----------
    counts
        What the piece needs.

    Raises
    ------
    InputError
        ``unknown_operation``, ``count_negative``.

    Notes
    -----
    The mean of each line is :math:`(a + 4m + b)/6`, its spread :math:`(b - a)/6`; spreads of independent
    lines add as squares, and 1.65 of them on either side hold nine in ten.

    References
    ----------
    .. [1] D. G. Malcolm, J. H. Roseboom, C. E. Clark, W. Fazar, "Application of a technique for research and
       development program evaluation", *Operations Research* 7, 1959, 646-669.
    """
    table = rates()
    lines = tuple(_line(row, table) for row in counts if row.count != 0.0)
    mean = sum((line.least_h + 4.0 * line.likely_h + line.most_h) / 6.0 for line in lines)
    spread = sum(((line.most_h - line.least_h) / 6.0) ** 2 for line in lines) ** 0.5
    return Hours(
        lines=lines,
        likely_h=sum(line.likely_h for line in lines),
        low_h=max(mean - 1.65 * spread, 0.0),
        high_h=mean + 1.65 * spread,
    )


def _line(row: Count, table: Mapping[str, Rate]) -> HourLine:
    rate = table.get(row.operation)
    if rate is None:
        raise InputError(
            code="unknown_operation",
            field="hours.operation",
            value=row.operation,
            rule=f"must be one of {', '.join(table)}",
        )
    if row.count < 0.0:
        raise InputError(
            code="count_negative", field=f"hours.{row.operation}", value=row.count, rule="must be 0 or more"
        )
    times = rate.times(row.count) / 60.0
    return HourLine(
        operation=row.operation,
        what=row.what or row.operation.replace("_", " "),
        count=row.count,
        per=rate.per,
        likely_h=times * rate.likely_min,
        least_h=times * rate.least_min,
        most_h=times * rate.most_min,
        source=rate.source,
    )
