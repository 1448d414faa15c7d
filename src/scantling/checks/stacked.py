"""Layers stacked wider than their boards: the plan follows a part's width, and the stack moves more: F82."""

from __future__ import annotations

from scantling.checks.catalogue import finding
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.piece.model import Part, PartKind
from scantling.wood.movement import strips_movement
from scantling.wood.species import find_species

__all__ = ["check", "stack_swing_mm"]


def stack_swing_mm(part: Part, subject: Subject) -> float:
    """What a stack of layers moves through its thickness, from the driest to the wettest of the year. [mm]

    The layers' faces lie on each other, so to the stack their rings stand as to a board's thickness: at 90
    degrees less their angle to its width. Else it is reckoned as a width is (Wood Handbook, eq. 13-2).
    """
    angle = 90.0 - part.ring.ring_angle_deg
    moisture, species = subject.moisture, find_species(part.species)
    dry, wet = (
        strips_movement(
            [(part.thickness_mm, angle)], species=species, mc_from_pct=moisture.build_pct, mc_to_pct=to
        ).change_mm
        for to in (moisture.dry_pct, moisture.wet_pct)
    )
    return wet - dry


def check(subject: Subject) -> list[Finding]:
    """A finding for each lamination that is wider across its layers than across their boards, and moves."""
    found: list[Finding] = []
    for part in subject.piece.parts.values():
        wide = part.thickness_mm > subject.limit("F82", "widths") * part.width_mm
        if part.kind is not PartKind.LAMINATION or not wide:
            continue
        swing = stack_swing_mm(part, subject)
        if swing <= subject.limit("F82", "swing_mm"):
            continue
        found.append(
            finding(
                "F82",
                where=part.name,
                message=f"its layers are stacked {part.thickness_mm:.0f} mm wide, and across them it moves "
                f"{swing:.1f} mm through the year; joints and fastenings are judged by its other side alone, "
                f"of {part.width_mm:.0f} mm",
                numbers={"swing_mm": swing, "stack_mm": part.thickness_mm, "width_mm": part.width_mm},
            )
        )
    return found
