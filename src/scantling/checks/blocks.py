"""Sticks fixed stiffly across the grain of a panel, though what holds them would give enough: F39."""

from __future__ import annotations

import math

from scantling.checks.catalogue import finding, limit
from scantling.checks.glue import slip_per_mm
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.travel import width_coefficient
from scantling.joinery.work import ConnectorKind, JointWork
from scantling.piece.geometry import dot
from scantling.piece.model import Part, PartKind

__all__ = ["check"]

_FAMILIES = ("plain_screw", "face_lamination")
"""What fixes one part flat on another without letting it move."""


def check(subject: Subject) -> list[Finding]:
    """Blocks fixed over more of a panel's width than is usual, where F01 and F08 find no fault."""
    found: list[Finding] = []
    for work in subject.works:
        if work.family not in _FAMILIES or _judged(subject, work):
            continue
        for panel, block in ((work.first, work.second), (work.second, work.first)):
            if _across(subject.part(panel), subject.part(block)):
                found += _one(subject, work, subject.part(panel), subject.part(block))
    return found


def _judged(subject: Subject, work: JointWork) -> bool:
    """Whether a graver rule speaks of it already: screws that bind, or glue that slips too far."""
    if any(freedom.binds for freedom in work.freedoms) or subject.told(work, "F01"):
        return True
    allowed, least = limit("F01", "slip_mm"), limit("F01", "grain_angle_deg")
    crossing = [face for face in work.glue if face.grain_angle_deg >= least]
    return any(face.cross_span_mm * slip_per_mm(subject, face) > allowed for face in crossing)


def _across(panel: Part, block: Part) -> bool:
    """Whether the block's grain crosses that of a panel that moves."""
    if panel.kind is not PartKind.PANEL or block.kind is PartKind.PANEL:
        return False
    if block.kind is PartKind.SHEET:
        return True
    most = math.cos(math.radians(limit("F01", "grain_angle_deg")))
    return abs(dot(panel.frame.grain, block.frame.grain)) <= most


def _one(subject: Subject, work: JointWork, panel: Part, block: Part) -> list[Finding]:
    most = limit("F39", "block_mm")
    span = _fixed_mm(work, panel)
    if span <= most + 1e-6:
        return []
    change = max(subject.moisture.shrink_pct, subject.moisture.swell_pct)
    moves = span * width_coefficient(panel) * change
    pieces = math.ceil(span / most)
    return [
        finding(
            "F39",
            where=work.joint,
            message=f"{block.name} is fixed over {span:.0f} mm across the grain of {panel.name}, at most "
            f"{most:.0f} mm; that width of it moves {moves:.1f} mm over the year",
            numbers={"fixed_mm": span, "fixed_allowed_mm": most, "moves_mm": moves, "pieces": float(pieces)},
        )
    ]


def _fixed_mm(work: JointWork, panel: Part) -> float:
    """Over what of the panel's width it is fixed: the glue, or from the first screw to the last. [mm]"""
    if work.glue:
        return max(face.cross_span_mm for face in work.glue)
    across = [
        panel.frame.local(frame.origin)[1]
        for connector in work.connectors
        if connector.kind is ConnectorKind.SCREW
        for frame in connector.frames
    ]
    return max(across) - min(across) if across else 0.0
