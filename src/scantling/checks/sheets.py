"""Solid wood glued flat onto a sheet that hardly moves: F58."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.travel import width_coefficient
from scantling.joinery.work import JointWork
from scantling.piece.contact import contacts
from scantling.piece.geometry import dot
from scantling.piece.model import Part, PartKind

__all__ = ["check"]

_FLAT = ("face_lamination", "edge_glue", "plain_screw", "tongue_groove", "spline")
"""Families that glue a whole face or edge; a tenon or a groove holds less than its part is wide."""


def check(subject: Subject) -> list[Finding]:
    """Findings on every glue line between a solid part and a sheet."""
    found: list[Finding] = []
    for work in subject.works:
        one, other = subject.part(work.first), subject.part(work.second)
        sheets = [part.kind is PartKind.SHEET for part in (one, other)]
        if work.family in _FLAT and work.glue and not work.dry and sheets[0] is not sheets[1]:
            solid, sheet = (other, one) if sheets[0] else (one, other)
            found += _across(subject, work, solid, sheet)
    return found


def _across(subject: Subject, work: JointWork, solid: Part, sheet: Part) -> list[Finding]:
    """Solid wood wider across its grain than glue lets it move on the sheet."""
    spans = [
        contact.extent(solid.frame.width)
        for contact in contacts(solid, sheet)
        if abs(dot(solid.frame.width, contact.normal)) < 0.7
    ]
    wide = max((high - low for low, high in spans), default=0.0)
    change = max(subject.moisture.shrink_pct, subject.moisture.swell_pct)
    per_mm = width_coefficient(solid) * change
    slip, allowed = wide * per_mm, limit("F58", "slip_mm")
    if slip <= allowed + 1e-9:
        return []
    return [
        finding(
            "F58",
            where=work.joint,
            message=f"{solid.name} is glued {wide:.0f} mm wide across its grain on {sheet.name}, which "
            f"hardly moves; it wants to change by {slip:.1f} mm over the year, at most {allowed:.1f} mm",
            advice=f"Glue no more than {allowed / per_mm:.0f} mm across the grain: narrower lippings, or "
            "strips glued to each other at one edge only.",
            numbers={"slip_mm": slip, "wide_mm": wide, "wide_allowed_mm": allowed / per_mm},
        )
    ]
