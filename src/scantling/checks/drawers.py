"""Drawers on their runners: F49 in a groove that closes on its runner, F50 for a runner that is held fast."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.drawer_runner import BACK_END
from scantling.joinery.work import Freedom, JointWork

__all__ = ["check"]


def check(subject: Subject) -> list[Finding]:
    """Findings on every runner and every groove that runs on one."""
    found: list[Finding] = []
    for work in subject.works:
        if work.family == "drawer_runner":
            found += _glued(work)
            found += [one for freedom in work.freedoms for one in _held(work, freedom)]
        elif work.family == "drawer_groove":
            found += [one for freedom in work.freedoms for one in _closes(work, freedom)]
    return found


def _glued(work: JointWork) -> list[Finding]:
    """Glue across the grain of the side, longer than it may be."""
    allowed = limit("F50", "glued_mm")
    glued = max((face.cross_span_mm for face in work.glue), default=0.0)
    if glued <= allowed:
        return []
    return [
        finding(
            "F50",
            where=work.joint,
            message=f"{work.first} is glued {glued:.0f} mm along, across the grain of {work.second}; at most "
            f"{allowed:.0f} mm at its front lets the side move",
            numbers={"glued_mm": glued, "glued_allowed_mm": allowed},
        )
    ]


def _held(work: JointWork, freedom: Freedom) -> list[Finding]:
    """A slot too short, or a back the side would draw onto the runner."""
    short = freedom.shrink_travel_mm - freedom.shrink_room_mm
    over = freedom.swell_travel_mm - freedom.swell_room_mm
    if max(short, over) <= 1e-6:
        return []
    numbers = {
        "shrink_travel_mm": freedom.shrink_travel_mm,
        "swell_travel_mm": freedom.swell_travel_mm,
        "shrink_room_mm": freedom.shrink_room_mm,
        "swell_room_mm": freedom.swell_room_mm,
    }
    if freedom.what == BACK_END:
        return [
            finding(
                "F50",
                where=work.joint,
                message=f"{freedom.part} shrinks {freedom.shrink_travel_mm:.1f} mm behind {work.first}, "
                f"which ends {freedom.shrink_room_mm:.1f} mm from the back and would push it off",
                advice=f"End the runner {short:.1f} mm sooner.",
                numbers=numbers,
            )
        ]
    return [
        finding(
            "F50",
            where=work.joint,
            message=f"{freedom.what}, {freedom.from_fixed_mm:.0f} mm behind the front of {work.first}: "
            f"{freedom.part} shrinks {freedom.shrink_travel_mm:.1f} mm and swells "
            f"{freedom.swell_travel_mm:.1f} mm there, and there is room for {freedom.shrink_room_mm:.1f} and "
            f"{freedom.swell_room_mm:.1f} mm",
            advice=f"Make the slot {freedom.cut_to_mm + max(short, 0.0) + max(over, 0.0):.1f} mm long.",
            numbers=numbers,
        )
    ]


def _closes(work: JointWork, freedom: Freedom) -> list[Finding]:
    """A runner that swells until the drawer sticks on it."""
    if freedom.swell_travel_mm <= freedom.swell_room_mm + 1e-6:
        return []
    return [
        finding(
            "F49",
            where=work.joint,
            message=f"{freedom.part} grows {freedom.swell_travel_mm:.1f} mm in its groove, which has "
            f"{freedom.swell_room_mm:.1f} mm for it",
            advice=f"Plane the runner {freedom.swell_travel_mm - freedom.swell_room_mm:.1f} mm lower.",
            numbers={
                "swell_travel_mm": freedom.swell_travel_mm,
                "swell_room_mm": freedom.swell_room_mm,
            },
        )
    ]
