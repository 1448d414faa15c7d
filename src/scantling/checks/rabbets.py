"""Wide parts in rabbets: pushed when damp, bared when dry, or nailed where they move: F02, F03, F08."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.checks.travel_numbers import left_mm, short_mm, travel_numbers
from scantling.errors import Finding
from scantling.joinery.rabbet import Fastened, Rabbet, RabbetOptions
from scantling.joinery.work import Freedom, JointWork

__all__ = ["RABBETS", "check"]

RABBETS = (Rabbet.name,)
"""Families judged here and not as tenons or fasteners."""


def check(subject: Subject) -> list[Finding]:
    """Findings on every edge that moves in its rabbet."""
    asked = {joint.name: joint.options for joint in subject.piece.joints}
    found: list[Finding] = []
    for work in subject.works:
        options = asked.get(work.joint)
        if not isinstance(options, RabbetOptions):
            continue
        for freedom in work.freedoms:
            if options.fastened in (Fastened.NAILED, Fastened.SCREWED):
                found += _held(work, freedom, options.fastened)
            else:
                found += _pushed(work, freedom)
                found += _bared(work, freedom)
    return found


def _held(work: JointWork, freedom: Freedom, fastened: Fastened) -> list[Finding]:
    """A row of nails or screws along an edge that moves more than they give."""
    if not freedom.binds:
        return []
    travel = max(freedom.shrink_travel_mm, freedom.swell_travel_mm)
    room = min(freedom.shrink_room_mm, freedom.swell_room_mm)
    return [
        finding(
            "F08",
            where=work.joint,
            message=f"{work.first} is {fastened.value} along its edge, which moves {travel:.1f} mm over the "
            f"year; holes and shanks give {room:.2f} mm",
            advice="Leave this edge loose in its rabbet and fix the part at the middle of its width only, or "
            "divide it into narrower boards.",
            numbers={**travel_numbers(freedom), "shortfall_mm": travel - room},
        )
    ]


def _pushed(work: JointWork, freedom: Freedom) -> list[Finding]:
    short = freedom.swell_travel_mm + limit("F02", "spare_mm") - freedom.swell_room_mm
    if short <= 1e-6:
        return []
    return [
        finding(
            "F02",
            where=work.joint,
            message=f"{work.first} swells {freedom.swell_travel_mm:.1f} mm toward the shoulder of its rabbet "
            f"in {work.second} and has {freedom.swell_room_mm:.1f} mm",
            advice=f"Cut the rabbet {short:.1f} mm wider.",
            numbers={**travel_numbers(freedom), "shortfall_mm": short},
        )
    ]


def _bared(work: JointWork, freedom: Freedom) -> list[Finding]:
    held = freedom.shrink_room_mm - freedom.shrink_travel_mm
    kept = limit("F03", "engagement_mm")
    if held >= kept - 1e-6:
        return []
    return [
        finding(
            "F03",
            where=work.joint,
            message=f"{work.first} shrinks {freedom.shrink_travel_mm:.1f} mm out of its rabbet in "
            f"{work.second}; {left_mm(held)} are left on it, at least {kept:.1f} mm",
            advice=f"Let it in {short_mm(kept - held)} farther.",
            numbers={**travel_numbers(freedom), "held_mm": held, "shortfall_mm": kept - held},
        )
    ]
