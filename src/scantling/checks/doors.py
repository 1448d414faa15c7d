"""Doors that must swing clear of what they close against: F73."""

from __future__ import annotations

from scantling.checks.catalogue import finding
from scantling.checks.subject import Subject
from scantling.checks.units import Hung, hung
from scantling.errors import Finding
from scantling.joinery.opening_fit import OpeningFitOptions
from scantling.joinery.swing import swing_bevel_deg, swing_clearance_mm
from scantling.joinery.work import JointWork
from scantling.piece.geometry import dot, sub

__all__ = ["check"]

_AT_EDGE_SHARE = 0.9
"""A gap this far out from the pin, or farther, is the one the door closes against. [1]"""


def check(subject: Subject) -> list[Finding]:
    """A finding on every door whose closing edge would touch."""
    found = []
    for door in hung(subject):
        if not door.is_lid:
            found += [one for work in _closing(subject, door) for one in _swings(subject, door, work)]
    return found


def _closing(subject: Subject, door: Hung) -> list[JointWork]:
    """The gaps at its closing edge."""
    return [
        work
        for work in subject.works
        if work.family == "opening_fit"
        and work.first in door.parts
        and dot(sub(work.at, door.pin), door.away) > _AT_EDGE_SHARE * door.width_mm
    ]


def _swings(subject: Subject, door: Hung, work: JointWork) -> list[Finding]:
    options = next(joint.options for joint in subject.piece.joints if joint.name == work.joint)
    gaps = [freedom.swell_room_mm - freedom.swell_travel_mm for freedom in work.freedoms]
    if not gaps or not isinstance(options, OpeningFitOptions):
        return []
    size = {"thickness_mm": door.thickness_mm, "pin_out_mm": door.pin_out_mm}
    wanted = swing_clearance_mm(door.width_mm, **size)
    bevel = swing_bevel_deg(door.width_mm, gap_mm=min(gaps), **size)
    if wanted <= min(gaps) + 1e-6 or options.bevel >= bevel - 0.05:
        return []
    return [
        finding(
            "F73",
            where=work.joint,
            message=f"the back of {work.first}'s edge comes {wanted:.1f} mm out past where it closes as the "
            f"door swings, and its gap to {work.second} is {min(gaps):.1f} mm in the dampest season",
            numbers={"wanted_mm": wanted, "gap_mm": min(gaps), "bevel_deg": bevel},
        )
    ]
