"""Glue across the grain, and glue on end grain: F01, F04, F11."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding, Severity
from scantling.joinery.travel import width_coefficient
from scantling.joinery.work import Box, ConnectorKind, GlueFace, Hole, JointWork, Slot
from scantling.piece.model import PartKind

__all__ = ["check", "slip_per_mm"]

_BREADBOARD = "breadboard_end"
_MITER = "miter"
"""Glued alone it still holds a light frame: grave, but no reason to stop."""
_JUDGED = (_BREADBOARD, "drawer_runner")
"""Families whose glue across the grain has a rule of its own: F04, F50."""
_KEYS = {
    ConnectorKind.LOOSE_TENON,
    ConnectorKind.PIN,
    ConnectorKind.DOWEL,
    ConnectorKind.SCREW,
    ConnectorKind.SPLINE,
    ConnectorKind.KEY,
}


def check(subject: Subject) -> list[Finding]:
    """Findings on every joint's glue."""
    found: list[Finding] = []
    for work in subject.works:
        if work.dry:
            continue
        found += _cross_grain(subject, work)
        found += _breadboard(subject, work)
        found += _end_grain(subject, work)
    return found


def _cross_grain(subject: Subject, work: JointWork) -> list[Finding]:
    least = limit("F01", "grain_angle_deg")
    allowed = limit("F01", "slip_mm")
    crossing = [face for face in work.glue if face.grain_angle_deg >= least and face.cross_span_mm > 0.0]
    if not crossing or work.family in _JUDGED or subject.told(work, "F01"):
        return []
    face = max(crossing, key=lambda f: f.cross_span_mm)
    per_mm = slip_per_mm(subject, face)
    slip = face.cross_span_mm * per_mm
    if slip <= allowed:
        return []
    return [
        finding(
            "F01",
            where=work.joint,
            message=(
                f"{face.parts[0]} and {face.parts[1]} are glued {face.cross_span_mm:.0f} mm across "
                f"the grain; the glue line would have to slip {slip:.1f} mm over the year, "
                f"at most {allowed:.1f} mm"
            ),
            numbers={
                "slip_mm": slip,
                "span_mm": face.cross_span_mm,
                "span_allowed_mm": allowed / per_mm,
            },
        )
    ]


def slip_per_mm(subject: Subject, face: GlueFace) -> float:
    """Movement of the livelier part per mm glued, from the day it was glued to its farther extreme. [1]

    Parameters
    ----------
    subject
        The piece and its year.
    face
        What is glued.
    """
    change = max(subject.moisture.shrink_pct, subject.moisture.swell_pct)
    woods = [subject.part(name) for name in face.parts if subject.part(name).kind is not PartKind.SHEET]
    return max((width_coefficient(part) * change for part in woods), default=0.0)


def _breadboard(subject: Subject, work: JointWork) -> list[Finding]:
    if work.family != _BREADBOARD or subject.told(work, "F04"):
        return []
    allowed = limit("F04", "glued_mm")
    width = max(subject.part(work.first).width_mm, subject.part(work.second).width_mm)
    glued = max((face.cross_span_mm for face in work.glue), default=0.0)
    if glued <= allowed or width <= limit("F04", "panel_mm"):
        return []
    return [
        finding(
            "F04",
            where=work.joint,
            message=(
                f"{glued:.0f} mm of the {width:.0f} mm field is glued to its end; at most {allowed:.0f} mm "
                "lets it move"
            ),
            numbers={"glued_mm": glued, "glued_allowed_mm": allowed, "panel_mm": width},
        )
    ]


def _end_grain(subject: Subject, work: JointWork) -> list[Finding]:
    area = sum(face.area_mm2 for face in work.glue)
    if area <= 0.0 or _keyed(work) or subject.told(work, "F11"):
        return []
    share = sum(face.area_mm2 * face.end_grain_share for face in work.glue) / area
    if share <= limit("F11", "end_grain_share"):
        return []
    return [
        finding(
            "F11",
            where=work.joint,
            severity=Severity.HIGH if work.family == _MITER else None,
            message=f"{100 * share:.0f} % of the glue between {work.first} and {work.second} is on end "
            "grain, and nothing else holds them",
            numbers={"end_grain_share": share, "area_mm2": area},
        )
    ]


def _keyed(work: JointWork) -> bool:
    """Whether wood or metal also holds the joint."""
    hollows = any(isinstance(cut.tool, Box | Slot | Hole) for cut in work.cuts)
    return hollows or bool(work.extensions) or any(c.kind in _KEYS for c in work.connectors)
