"""Layers stacked wider than their boards: the plan follows a part's width, and the stack moves more: F82."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding, InputError
from scantling.piece.model import Part, PartKind
from scantling.wood.movement import strips_movement
from scantling.wood.species import find_species

__all__ = ["check", "stack_swing_mm"]


def stack_swing_mm(part: Part, subject: Subject) -> float | None:
    """What a stack of layers moves through its thickness, from the driest to the wettest of the year. [mm]

    The layers' faces lie on each other, so to the stack their rings stand as to a board's thickness: at 90
    degrees less their angle to its width. Else it is reckoned as a width is (Wood Handbook, eq. 13-2). None
    where the movement that way is not published.
    """
    angle = 90.0 - part.ring.ring_angle_deg
    moisture, species = subject.moisture, find_species(part.species)
    stack = [(part.thickness_mm, angle)]
    try:
        dry, wet = (
            strips_movement(stack, species=species, mc_from_pct=moisture.build_pct, mc_to_pct=to).change_mm
            for to in (moisture.dry_pct, moisture.wet_pct)
        )
    except InputError as error:
        if error.code != "movement_unknown":
            raise
        return None
    return wet - dry


def check(subject: Subject) -> list[Finding]:
    """A finding for each lamination that is wider across its layers than across their boards, and moves."""
    found: list[Finding] = []
    for part in subject.piece.parts.values():
        wide = part.thickness_mm > limit("F82", "widths") * part.width_mm
        if part.kind is not PartKind.LAMINATION or not wide:
            continue
        swing = stack_swing_mm(part, subject)
        if swing is not None and swing <= limit("F82", "swing_mm"):
            continue
        numbers = {"stack_mm": part.thickness_mm, "width_mm": part.width_mm}
        found.append(
            finding(
                "F82",
                where=part.name,
                message=f"its layers are stacked {part.thickness_mm:.0f} mm wide, and {_moves(part, swing)}; "
                f"joints and fastenings are judged by its other side alone, of {part.width_mm:.0f} mm",
                numbers=numbers if swing is None else {"swing_mm": swing, **numbers},
            )
        )
    return found


def _moves(part: Part, swing_mm: float | None) -> str:
    if swing_mm is None:
        return f"what {part.species} moves across them is not published"
    return f"across them it moves {swing_mm:.1f} mm through the year"
