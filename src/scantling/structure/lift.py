"""Lifting: the revised NIOSH equation, people needed, and whether one person can manage."""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files

from scantling.checks.catalogue import finding, limit, rule
from scantling.errors import Finding

__all__ = ["Grip", "Lift", "LiftPlan", "Spell", "lifting_index", "plan_lift", "weight_limit_kg"]

LOAD_CONSTANT_KG = 23.0
ARMS_MM = 1000.0
"""Widest thing one person can hold by both sides. [mm] Common practice."""
LONG_MM = 1800.0
"""Longest thing one person turns without hitting something. [mm] Common practice."""


class Grip(StrEnum):
    """How well the hands hold it."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


class Spell(StrEnum):
    """How long the lifting goes on."""

    SHORT = "up to 1 h"
    MODERATE = "1 to 2 h"
    LONG = "2 to 8 h"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """One lifting task.

    Parameters
    ----------
    hands_out_cm
        Hands from the ankles, horizontally. [cm]
    hands_up_cm
        Hands above the floor at the start. [cm]
    travel_cm
        How far up it goes. [cm]
    twist_deg
        Turn of the body. [deg]
    lifts_per_min
        [1/min]
    """

    hands_out_cm: float = 35.0
    hands_up_cm: float = 45.0
    travel_cm: float = 50.0
    twist_deg: float = 0.0
    lifts_per_min: float = 0.2
    spell: Spell = Spell.SHORT
    grip: Grip = Grip.FAIR


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftPlan:
    """How a thing is lifted.

    Parameters
    ----------
    mass_kg, longest_mm
        What is lifted. [kg], [mm]
    people
        People needed: none carries more than ``share_allowed_kg``; what one person should not lift takes
        two. [1]
    share_kg
        Mass each of them carries. [kg]
    weight_limit_kg
        Recommended limit for one person in the lift described. [kg]
    lifting_index
        Share over that limit; above 1 the risk grows. [1]
    unwieldy
        Whether it is too long or too wide for one pair of arms.
    alone_lifts, alone_turns
        Whether one person can lift it, and set it on its edge.
    reason
        Why, in words.
    """

    mass_kg: float
    longest_mm: float
    people: int
    share_kg: float
    share_allowed_kg: float
    weight_limit_kg: float
    lifting_index: float
    unwieldy: bool
    alone_lifts: bool
    alone_turns: bool
    reason: str


def weight_limit_kg(lift: Lift) -> float:
    r"""Recommended weight limit of the revised NIOSH lifting equation. [kg]

    Notes
    -----
    .. math:: RWL = LC \cdot HM \cdot VM \cdot DM \cdot AM \cdot FM \cdot CM

    References
    ----------
    .. [1] T. R. Waters, V. Putz-Anderson, A. Garg, *Applications Manual for the Revised NIOSH Lifting
       Equation*, DHHS (NIOSH) Pub. 94-110, 1994, rev. 2021.

    Examples
    --------
    >>> round(weight_limit_kg(Lift(hands_out_cm=25, hands_up_cm=75, travel_cm=25, grip=Grip.GOOD)), 2)
    23.0
    """
    return (
        LOAD_CONSTANT_KG
        * horizontal(lift.hands_out_cm)
        * vertical(lift.hands_up_cm)
        * distance(lift.travel_cm)
        * asymmetry(lift.twist_deg)
        * frequency(lift.lifts_per_min, spell=lift.spell, hands_up_cm=lift.hands_up_cm)
        * coupling(lift.grip, hands_up_cm=lift.hands_up_cm)
    )


def lifting_index(mass_kg: float, lift: Lift) -> float:
    """Load over the recommended limit; infinite where nothing may be lifted so. [1]"""
    allowed = weight_limit_kg(lift)
    return mass_kg / allowed if allowed > 0.0 else math.inf


def horizontal(hands_out_cm: float) -> float:
    """Horizontal multiplier, 25/H. [1]"""
    return 0.0 if hands_out_cm > 63.0 else min(25.0 / hands_out_cm, 1.0)


def vertical(hands_up_cm: float) -> float:
    """Vertical multiplier, 1 - 0.003 |V - 75|. [1]"""
    return 0.0 if hands_up_cm > 175.0 else 1.0 - 0.003 * abs(hands_up_cm - 75.0)


def distance(travel_cm: float) -> float:
    """Distance multiplier, 0.82 + 4.5/D. [1]"""
    if travel_cm > 175.0:
        return 0.0
    return 1.0 if travel_cm <= 25.0 else 0.82 + 4.5 / travel_cm


def asymmetry(twist_deg: float) -> float:
    """Asymmetric multiplier, 1 - 0.0032 A. [1]"""
    return 0.0 if twist_deg > 135.0 else 1.0 - 0.0032 * twist_deg


def coupling(grip: Grip, *, hands_up_cm: float) -> float:
    """Coupling multiplier. [1]"""
    if grip is Grip.POOR:
        return 0.90
    return 0.95 if grip is Grip.FAIR and hands_up_cm < 75.0 else 1.0


@cache
def _frequency_rows() -> tuple[tuple[float, ...], ...]:
    text = (files("scantling.structure") / "data" / "niosh_frequency.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return tuple(tuple(float(cell) for cell in row) for row in list(csv.reader(lines))[1:])


def frequency(lifts_per_min: float, *, spell: Spell, hands_up_cm: float) -> float:
    """Frequency multiplier; between rows the next higher frequency counts. [1]"""
    column = 1 + 2 * list(Spell).index(spell) + (1 if hands_up_cm >= 75.0 else 0)
    for row in _frequency_rows():
        if lifts_per_min <= row[0]:
            return row[column]
    return 0.0


def plan_lift(
    mass_kg: float,
    size_mm: tuple[float, float, float],
    *,
    lift: Lift | None = None,
    most_kg: float | None = None,
) -> LiftPlan:
    """People needed to lift a thing, and whether one person can lift it and turn it over.

    Parameters
    ----------
    mass_kg
        [kg]
    size_mm
        Its box. [mm]
    lift
        How it is lifted; by default from a grip 45 cm up, 35 cm out, to a carrying height.
    most_kg
        What each of the people there carries at most; by default the load constant. [kg] > 0
    """
    task = lift or Lift()
    share_allowed = limit("F57", "share_kg") if most_kg is None else most_kg
    allowed = weight_limit_kg(task)
    sizes = sorted(size_mm)
    unwieldy = sizes[2] > LONG_MM or sizes[1] > ARMS_MM
    alone_lifts = not unwieldy and mass_kg <= min(allowed, share_allowed)
    people = max(math.ceil(mass_kg / share_allowed - 1e-9), 1 if alone_lifts else 2)
    # one edge stays on the floor: half the mass hangs on the hands
    alone_turns = mass_kg / 2.0 <= min(allowed, share_allowed)
    return LiftPlan(
        mass_kg=mass_kg,
        longest_mm=sizes[2],
        people=people,
        share_kg=mass_kg / people,
        share_allowed_kg=share_allowed,
        weight_limit_kg=allowed,
        lifting_index=lifting_index(mass_kg / people, task),
        unwieldy=unwieldy,
        alone_lifts=alone_lifts,
        alone_turns=alone_turns,
        reason=_reason(mass_kg, allowed, unwieldy=unwieldy),
    )


def _reason(mass_kg: float, allowed_kg: float, *, unwieldy: bool) -> str:
    against = f"{mass_kg:.1f} kg against a recommended {allowed_kg:.1f} kg for one person lifting it"
    if unwieldy:
        return f"too long or too wide for one pair of arms; {against}"
    return against


def check(where: str, plan: LiftPlan, *, people_there: int) -> list[Finding]:
    """F57 where the people there cannot carry it; what one should not lift, but may, is told beside it."""
    allowed = plan.share_allowed_kg
    share = plan.mass_kg / max(people_there, 1)
    if plan.people <= people_there or (share <= allowed and not plan.unwieldy):
        return []
    return [
        finding(
            "F57",
            where=where,
            message=f"{where} weighs {plan.mass_kg:.1f} kg and is {round(plan.longest_mm, 1):g} mm long: "
            f"{plan.people} "
            f"people are needed and {people_there} there ({share:.1f} kg each, at most {allowed:.0f} kg; "
            f"{plan.reason})",
            numbers={"mass_kg": plan.mass_kg, "share_kg": share, "people": plan.people},
            severity=rule("F57").severity_at(share / allowed),
        )
    ]
