"""What hurts children: lids that fall, chests that shut in, gaps that trap fingers: F67.

None of it is a verdict: the standard that applies where the piece stands decides.
"""

from __future__ import annotations

import math

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.checks.units import Hung, hung, moving_units
from scantling.errors import Finding, Severity
from scantling.joinery.work import JointWork
from scantling.piece.convex import body_of

__all__ = ["check"]

_UPRIGHT = 0.7
_VERIFY = "Verify against the standard that applies (ASTM F2598 for chests, F834 for toy chests)."


def check(subject: Subject) -> list[Finding]:
    """Findings on every lid that opens upward, the chest under it, and every gap of a drawer or door."""
    found: list[Finding] = []
    for lid in hung(subject):
        if lid.is_lid and lid.work.leaves[2] > _UPRIGHT:
            found += _falls(subject, lid)
            found += _shuts_in(subject, lid)
    for work in subject.works:
        if work.family == "opening_fit":
            found += _traps(work)
    return found


def _falls(subject: Subject, lid: Hung) -> list[Finding]:
    """A lid that nothing holds up."""
    if any(work.family == "lid_stay" and work.first in lid.parts for work in subject.works):
        return []
    return [
        finding(
            "F67",
            where=lid.work.first,
            message=f"nothing holds {lid.work.first} up: let go, it falls on hands and necks",
            advice=f"Fit a stay that holds it wherever it is let go (a joint of kind lid_stay). {_VERIFY}",
        )
    ]


def _shuts_in(subject: Subject, lid: Hung) -> list[Finding]:
    """A chest a child can shut itself in: it wants air, whatever else it has."""
    box = moving_units(subject.piece.parts, subject.works)[lid.work.second]
    ends = [[body_of(subject.part(name)).extent(way) for name in box] for way in _WAYS]
    liters = math.prod(max(h for _, h in spans) - min(low for low, _ in spans) for spans in ends) * 1e-6
    if liters < limit("F67", "chest_l"):
        return []
    wanted, each = limit("F67", "vents"), limit("F67", "vent_mm2")
    count, diameter = subject.piece.brief.vents or (0, 0.0)
    area = math.pi / 4.0 * diameter**2
    vented = count >= wanted and area >= each
    has = f"{count} of {diameter:.0f} mm" if count else "none"
    hole = math.sqrt(4.0 * each / math.pi)
    bore = (
        f"Bore {wanted:.0f} holes of {hole:.0f} mm or more, far apart, where nothing covers them, and say so "
        "under brief (vents); no catch that locks by itself. "
    )
    return [
        finding(
            "F67",
            where=lid.work.second,
            message=f"the chest measures {liters:.0f} L outside, enough for a child to shut itself in; holes "
            f"for air: {has}",
            advice=("" if vented else bore) + _VERIFY,
            severity=Severity.NOTE if vented else None,
            numbers={"liters": liters, "vent_mm2": area, "vents": float(count), "hole_mm": hole},
        )
    ]


_WAYS = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def _traps(work: JointWork) -> list[Finding]:
    """A gap that a child's finger goes into, at some time of the year."""
    least, most = limit("F67", "gap_least_mm"), limit("F67", "gap_most_mm")
    found = []
    for freedom in work.freedoms:
        wide = freedom.cut_to_mm + freedom.shrink_travel_mm
        narrow = freedom.cut_to_mm - freedom.swell_travel_mm
        if wide < least or narrow > most:
            continue
        found.append(
            finding(
                "F67",
                where=work.joint,
                message=f"the gap of {work.first} to {work.second} is {narrow:.1f} to {wide:.1f} mm over the "
                f"year; between {least:.0f} and {most:.0f} mm a child's finger goes in and is held",
                advice=f"Build it less than {least - freedom.shrink_travel_mm:.1f} mm wide, or close it. "
                "Verify against the standard that applies.",
                severity=Severity.MEDIUM,
                numbers={"narrow_mm": narrow, "wide_mm": wide},
            )
        )
    return found
