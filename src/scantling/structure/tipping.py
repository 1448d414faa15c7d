"""Tipping over an overhang."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from scantling.checks.catalogue import finding, limit
from scantling.errors import Finding, InputError, Severity
from scantling.structure.gravity import GRAVITY_M_S2
from scantling.units.show import show_number

__all__ = [
    "Tip",
    "Use",
    "check",
    "hull",
    "tip",
    "tip_force_n",
]

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tip:
    """The edge over which a piece tips most easily.

    Parameters
    ----------
    force_n
        Downward force at the farthest overhang that lifts the other feet; infinite with no overhang. [N]
    inside_mm
        Center of gravity to the foot line. [mm]
    overhang_mm
        Foot line to the farthest point of the top. [mm]
    foot_line
        The two feet it would tip over. [mm]
    at
        Where the force presses. [mm]
    """

    force_n: float
    inside_mm: float
    overhang_mm: float
    foot_line: tuple[Point, Point]
    at: Point


def tip_force_n(mass_kg: float, *, inside_mm: float, overhang_mm: float) -> float:
    r"""Downward force at an overhang that tips a piece. [N]

    .. math:: F = m g\,b / o

    Derived: moments about the line of the feet.

    Examples
    --------
    >>> round(tip_force_n(40, inside_mm=500, overhang_mm=300))
    654
    """
    if overhang_mm <= 0.0:
        return float("inf")
    return mass_kg * GRAVITY_M_S2 * inside_mm / overhang_mm


def hull(points: Sequence[Point]) -> tuple[Point, ...]:
    """Convex outline of points, anticlockwise (Andrew's monotone chain)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return tuple(ordered)

    def half(row: Sequence[Point]) -> list[Point]:
        kept: list[Point] = []
        for p in row:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], p) <= 1e-9:
                kept.pop()
            kept.append(p)
        return kept[:-1]

    return tuple(half(ordered) + half(ordered[::-1]))


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def tip(mass_kg: float, center_mm: Point, *, feet_mm: Sequence[Point], top_mm: Sequence[Point]) -> Tip:
    """The weakest edge of a piece's stance.

    Parameters
    ----------
    mass_kg
        [kg]
    center_mm
        Center of gravity seen from above. [mm]
    feet_mm
        Where it stands, at least three points. [mm]
    top_mm
        Outline of what can be pressed on. [mm]

    Raises
    ------
    InputError
        ``too_few_feet`` with fewer than three feet that are not in line.
    """
    stance = hull(feet_mm)
    if len(stance) < 3:
        raise InputError(
            code="too_few_feet",
            field="feet_mm",
            value=len(stance),
            rule="must be three points or more, not in line",
        )
    ways: list[Tip] = []
    for i, a in enumerate(stance):
        b = stance[(i + 1) % len(stance)]
        length = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
        inside = _turn(a, b, center_mm) / length
        at = max(top_mm, key=lambda p: -_turn(a, b, p))
        overhang = -_turn(a, b, at) / length
        force = tip_force_n(mass_kg, inside_mm=inside, overhang_mm=overhang)
        ways.append(
            Tip(force_n=force, inside_mm=inside, overhang_mm=max(overhang, 0.0), foot_line=(a, b), at=at)
        )
    return min(ways, key=lambda way: way.force_n)


class Use(StrEnum):
    """How people press on a piece."""

    SAT_ON = "sat on"
    LEANED_ON = "leaned on"
    LEFT_ALONE = "left alone"


def check(where: str, weakest: Tip, *, use: Use = Use.LEANED_ON) -> list[Finding]:
    """F40 where leaning on an overhang tips the piece, as its use has it.

    What nobody leans on is a note: the force stands there for the maker to judge. So is what someone tips
    who sits down at its very end, though it stands when leaned on: most sit farther in.
    """
    wanted, seated = limit("F40", "force_n"), limit("F40", "firm_force_n")
    if use is Use.SAT_ON and wanted <= weakest.force_n < seated:
        return [_sat_on_its_end(where, weakest, seated)]
    if weakest.force_n >= wanted:
        return []
    allowed = _overhang_allowed_mm(weakest, wanted)
    return [
        finding(
            "F40",
            where=where,
            message=f"{weakest.force_n:.0f} N pressing {show_number(weakest.overhang_mm)} mm outside the "
            "feet tips it; "
            + (
                "the brief says that nobody leans on it"
                if use is Use.LEFT_ALONE
                else f"at least {wanted:.0f} N"
            ),
            severity=Severity.NOTE if use is Use.LEFT_ALONE else None,
            numbers={
                "force_n": weakest.force_n,
                "overhang_mm": weakest.overhang_mm,
                "inside_mm": weakest.inside_mm,
                "overhang_allowed_mm": allowed,
            },
        )
    ]


def _overhang_allowed_mm(weakest: Tip, wanted_n: float) -> float:
    """The overhang at which the force wanted just tips it, down to a whole millimeter. [mm]"""
    return float(math.floor(max(weakest.overhang_mm * weakest.force_n / wanted_n, 0.0)))


def _sat_on_its_end(where: str, weakest: Tip, seated_n: float) -> Finding:
    allowed = _overhang_allowed_mm(weakest, seated_n)
    return finding(
        "F40",
        where=where,
        message=f"{weakest.force_n:.0f} N pressing {show_number(weakest.overhang_mm)} mm outside the feet "
        f"tips it: someone who sits down at its very end weighs up to {seated_n:.0f} N",
        advice=f"Sit farther in; to be sure, let it stand out {allowed:.0f} mm at most.",
        severity=Severity.NOTE,
        numbers={
            "force_n": weakest.force_n,
            "overhang_mm": weakest.overhang_mm,
            "overhang_allowed_mm": allowed,
        },
    )
