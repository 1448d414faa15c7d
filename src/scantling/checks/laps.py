"""Loose boards side by side, lapped or tongued: shut when damp, open through when dry; F02, F03, F71."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.checks.travel_numbers import left_mm, short_mm, travel_numbers
from scantling.errors import Finding
from scantling.joinery.shiplap import Shiplap, ShiplapOptions
from scantling.joinery.tongue_groove import TongueGroove, TongueGrooveOptions
from scantling.joinery.work import Freedom, JointWork

__all__ = ["LAPS", "check"]

LAPS = (TongueGroove.name, Shiplap.name)
"""Families judged here and not as tenons or fasteners."""


def check(subject: Subject) -> list[Finding]:
    """Findings on every seam between loose boards."""
    asked = {joint.name: joint.options for joint in subject.piece.joints}
    found: list[Finding] = []
    for work in subject.works:
        options = asked.get(work.joint)
        if isinstance(options, TongueGrooveOptions | ShiplapOptions):
            for freedom in work.freedoms:
                found += _shuts(work, freedom)
                found += _opens(work, freedom)
                found += _gapes(work, freedom, widest_mm=options.widest)
    return found


def _numbers(freedom: Freedom) -> dict[str, float]:
    """What any place that moves carries, with the gap as cut and the lap. [mm]"""
    return {**travel_numbers(freedom), "gap_mm": freedom.cut_to_mm, "lap_mm": freedom.shrink_room_mm}


def _shuts(work: JointWork, freedom: Freedom) -> list[Finding]:
    """The gap is gone before the boards are as wide as they get."""
    short = freedom.swell_travel_mm + limit("F02", "spare_mm") - freedom.swell_room_mm
    if short <= 1e-6:
        return []
    wanted = freedom.cut_to_mm + short
    return [
        finding(
            "F02",
            where=work.joint,
            message=f"{work.first} and {work.second} swell {freedom.swell_travel_mm:.1f} mm toward each "
            f"other and have {freedom.swell_room_mm:.1f} mm: they push each other and what they are fixed to",
            advice=f"Space the boards {wanted:.1f} mm apart, or take narrower ones.",
            numbers={**_numbers(freedom), "gap_wanted_mm": wanted, "shortfall_mm": short},
        )
    ]


def _opens(work: JointWork, freedom: Freedom) -> list[Finding]:
    """The lap is all but out when the boards are narrowest."""
    held = freedom.shrink_room_mm - freedom.shrink_travel_mm
    kept = limit("F03", "engagement_mm")
    if held >= kept - 1e-6:
        return []
    return [
        finding(
            "F03",
            where=work.joint,
            message=f"{work.first} and {work.second} shrink {freedom.shrink_travel_mm:.1f} mm apart; "
            f"{left_mm(held)} of a lap of {freedom.shrink_room_mm:.1f} mm is left, at least {kept:.1f} mm",
            advice=f"Draw {work.first} {short_mm(kept - held)} farther into {work.second}, or take narrower "
            "boards.",
            numbers={**_numbers(freedom), "held_mm": held, "shortfall_mm": kept - held},
        )
    ]


def _gapes(work: JointWork, freedom: Freedom, *, widest_mm: float) -> list[Finding]:
    """The gap is wider than it may look."""
    open_mm = freedom.cut_to_mm + freedom.shrink_travel_mm
    if open_mm <= widest_mm + 1e-6:
        return []
    return [
        finding(
            "F71",
            where=work.joint,
            message=f"the gap between {work.first} and {work.second} opens to {open_mm:.1f} mm in the driest "
            f"season, {open_mm - widest_mm:.1f} mm more than is to show",
            advice="Take narrower boards, or quarter-sawn ones; each seam then moves less.",
            numbers={**_numbers(freedom), "open_mm": open_mm, "shortfall_mm": open_mm - widest_mm},
        )
    ]
