"""Wood left between a scooped face and the hollows of joints: F15."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.scooped import near_scoops

__all__ = ["check"]

_SHOWN_MM = 0.05
"""What is missing by less is not missing: the figures of a finding would be equal. [mm]"""


def check(subject: Subject) -> list[Finding]:
    """Findings on every hollow that comes near a scoop; one that runs into it is refused with the file."""
    wanted = limit("F15", "wall_mm")
    return [
        finding(
            "F15",
            where=f"{near.part.name}/{near.joint}",
            message=f"the wall between the {near.cut.what} of {near.joint} and the scoop in the "
            f"{near.scoop.where} of {near.part.name} is {near.wall_mm:.1f} mm; at least {wanted:.1f} mm",
            advice=f"Make the scoop's margin there {wanted - near.wall_mm:.1f} mm larger, or scoop it less "
            "deep.",
            numbers={"wall_mm": near.wall_mm, "wanted_mm": wanted, "shortfall_mm": wanted - near.wall_mm},
        )
        for near in near_scoops(subject.piece.parts, subject.works)
        if near.wall_mm < wanted - _SHOWN_MM
    ]
