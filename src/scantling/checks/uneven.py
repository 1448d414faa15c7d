"""Feet on an uneven floor: a piece on four or more rocks until they are trimmed to it: F81."""

from __future__ import annotations

from scantling.checks.catalogue import finding
from scantling.checks.legs import standing_legs
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.piece.model import Part

__all__ = ["FIRM_FEET", "along_leg_mm", "check"]

FIRM_FEET = 3
"""So many feet stand on any floor. [1]"""


def along_leg_mm(leg: Part, height_mm: float) -> float:
    """How much of a leg is sawn off to lower its foot's end by a height. [mm]"""
    return height_mm / abs(leg.frame.grain[2])


def check(subject: Subject) -> list[Finding]:
    """A finding where more is out of flat under four feet than a pad takes up, or is left to be trimmed."""
    brief, legs = subject.piece.brief, standing_legs(subject.piece)
    uneven, spare = brief.floor_uneven_mm, brief.feet_trim_mm
    if len(legs) <= FIRM_FEET or uneven <= max(subject.limit("F81", "pad_mm"), spare) + 1e-6:
        return []
    along = max(along_leg_mm(leg, uneven) for leg in legs)
    missing = uneven - spare
    left = f"; {spare:g} mm are left on them for that" if spare > 0.0 else ""
    return [
        finding(
            "F81",
            where="feet",
            message=f"it stands on {len(legs)} feet, on a floor {uneven:g} mm out of flat under them: "
            f"it rocks until they are trimmed, by up to {uneven:g} mm, and then it is as much lower{left}",
            advice=f"Draw it {missing:g} mm taller, write `feet_trim: {uneven:g} mm` in the brief, and "
            f"scribe and saw the feet where it stands, up to {along:.1f} mm along a leg; or let it stand on "
            "three legs.",
            numbers={"uneven_mm": uneven, "trim_mm": spare, "shortfall_mm": missing, "along_mm": along},
        )
    ]
