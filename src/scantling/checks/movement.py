"""Places where a part must be free to move and is not: F05, F06, F08, F09, F10."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.fits import FITS
from scantling.checks.laps import LAPS
from scantling.checks.rabbets import RABBETS
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.work import ConnectorKind, Freedom, JointWork
from scantling.piece.geometry import dot, norm, scale, sub

__all__ = ["check"]

_FASTENERS = ("clip", "button")


def check(subject: Subject) -> list[Finding]:
    """Findings on every place where movement was provided for."""
    found: list[Finding] = []
    for work in subject.works:
        for freedom in work.freedoms if work.family not in (*FITS, *LAPS, *RABBETS) else ():
            judged = _one(subject, work, freedom)
            found += [item for item in judged if not subject.told(work, item.code)]
    return found


def _one(subject: Subject, work: JointWork, freedom: Freedom) -> list[Finding]:
    words = f"{freedom.what} {work.family}"
    fastened = any(name in words for name in _FASTENERS) and work.family != "figure_eight"
    if fastened and "along" not in freedom.what:
        return _fastener(work, freedom, deeper=_swells_deeper(subject, work, freedom))
    if not freedom.binds:
        return []
    if "pin" in freedom.what or work.family == "dowel_pin":
        return [_pin(work, freedom)]
    if "screw" in words or work.family == "figure_eight":
        return [_screw(work, freedom)]
    return [_tenon(work, freedom)]


def _shortfall_mm(freedom: Freedom) -> float:
    shrink = freedom.shrink_travel_mm - freedom.shrink_room_mm
    swell = freedom.swell_travel_mm - freedom.swell_room_mm
    return max(shrink, 0.0) + max(swell, 0.0)


def _numbers(freedom: Freedom) -> dict[str, float]:
    return {
        "shortfall_mm": _shortfall_mm(freedom),
        "shrink_travel_mm": freedom.shrink_travel_mm,
        "swell_travel_mm": freedom.swell_travel_mm,
        "shrink_room_mm": freedom.shrink_room_mm,
        "swell_room_mm": freedom.swell_room_mm,
        "from_fixed_mm": freedom.from_fixed_mm,
    }


def _reason(freedom: Freedom) -> str:
    return (
        f"{freedom.what}, {freedom.from_fixed_mm:.0f} mm from the fixed line: {freedom.part} shrinks "
        f"{freedom.shrink_travel_mm:.1f} mm and swells {freedom.swell_travel_mm:.1f} mm there, and there is "
        f"room for {freedom.shrink_room_mm:.1f} and {freedom.swell_room_mm:.1f} mm"
    )


def _pin(work: JointWork, freedom: Freedom) -> Finding:
    numbers = _numbers(freedom)
    if freedom.cut_to_mm > 0.0:
        numbers["slot_wanted_mm"] = freedom.cut_to_mm + _shortfall_mm(freedom)
        numbers["bias_wanted_mm"] = (freedom.swell_travel_mm - freedom.shrink_travel_mm) / 2.0
    return finding("F05", where=work.joint, message=_reason(freedom), numbers=numbers)


def _tenon(work: JointWork, freedom: Freedom) -> Finding:
    return finding("F06", where=work.joint, message=_reason(freedom), numbers=_numbers(freedom))


def _screw(work: JointWork, freedom: Freedom) -> Finding:
    numbers = _numbers(freedom)
    if freedom.cut_to_mm > 0.0:
        play = limit("F08", "play_mm")
        numbers["slot_wanted_mm"] = freedom.cut_to_mm + _shortfall_mm(freedom) + play
    return finding("F08", where=work.joint, message=_reason(freedom), numbers=numbers)


def _swells_deeper(subject: Subject, work: JointWork, freedom: Freedom) -> bool:
    """Whether the top's swelling pushes this tongue into its groove; drying then draws it out.

    So it is in a groove on the inner face of a rail, the usual place; on an outer face it is the other way.
    """
    near = [
        frame
        for connector in work.connectors
        if connector.kind in (ConnectorKind.TOP_CLIP, ConnectorKind.TOP_BUTTON)
        for frame in connector.frames
    ]
    if not near:
        return True
    frame = min(near, key=lambda f: norm(sub(f.origin, freedom.at)))
    top = subject.part(freedom.part).frame
    outward = scale(top.width, 1.0 if top.local(freedom.at)[1] >= 0.0 else -1.0)
    return dot(outward, frame.grain) <= 1e-6


def _fastener(work: JointWork, freedom: Freedom, *, deeper: bool) -> list[Finding]:
    found: list[Finding] = []
    spare = limit("F09", "spare_mm")
    shrink = freedom.shrink_room_mm - freedom.shrink_travel_mm
    swell = freedom.swell_room_mm - freedom.swell_travel_mm
    left, held = (swell, shrink) if deeper else (shrink, swell)
    if left < spare - 1e-6:
        found.append(
            finding(
                "F09",
                where=work.joint,
                message=f"{_reason(freedom)}; {spare:.1f} mm should be left behind it at the deepest, "
                f"it is {left:.1f}",
                numbers={**_numbers(freedom), "left_mm": left, "shortfall_mm": spare - left},
            )
        )
    kept = limit("F10", "engagement_mm")
    if held < kept - 1e-6:
        found.append(
            finding(
                "F10",
                where=work.joint,
                message=f"{_reason(freedom)}; {kept:.1f} mm should still hold at the least, it is {held:.1f}",
                numbers={**_numbers(freedom), "held_mm": held, "shortfall_mm": kept - held},
            )
        )
    return found
