"""What follows from what is made already: parts that no longer fit, with figures and a way out."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypedDict

from scantling.errors import Finding, Remedy, Severity
from scantling.piece.built import AsBuilt, Loose, Meeting, SizeStands
from scantling.piece.model import Piece
from scantling.plan.made.built_remedies import (
    back_again,
    fitting,
    made_anew,
    measures_of,
    openings,
    remade_for,
)
from scantling.shop.milling.ledger import MillingLedger

__all__ = ["BUILT_CODES", "GAP_MM", "built_findings"]


BUILT_CODES = frozenset({"M01", "M02", "M03", "M04", "M05", "M06", "M07", "M08"})

GAP_MM = 0.3
"""A shoulder that stands open so far shows (common practice). [mm]"""
_STEP_MM = 0.3
"""A step so high is felt (common practice). [mm]"""
_SOURCE = "Measured at the bench; that a gap of 0.3 mm shows is common practice."


class _More(TypedDict, total=False):
    """What a finding may have besides its words."""

    numbers: dict[str, float]
    remedies: tuple[Remedy, ...]


def built_findings(piece: Piece, ledgers: Iterable[MillingLedger]) -> list[Finding]:
    """Findings about what is made.

    Parameters
    ----------
    piece
        With what is made of it.
    ledgers
        Rough sizes, to tell what cannot have been measured.
    """
    built = piece.built
    if built is None:
        return []
    found = [_misfit(size, built, piece.units) for size in built.sizes if _is_off(size)]
    found += _done_since(built)
    found += [_loose(loose) for loose in dict.fromkeys(built.loose) if abs(loose.off_mm) > _STEP_MM]
    found += [_alone(size, name) for size, name in built.alone]
    found += [_unknown(name, built) for name in built.unknown]
    found += [_unmade(place, reason, piece) for place, reason in dict.fromkeys(built.unmade)]
    rough = {ledger.part: ledger for ledger in ledgers}
    found += [_too_large(size, rough[size.part], built) for size in built.sizes if _is_too_large(size, rough)]
    return found


def _is_off(size: SizeStands) -> bool:
    """Whether it is cut to a length its place does not have: across the grain parts follow what is made."""
    return size.cut and size.size == "length" and abs(size.off_mm) > GAP_MM


def _misfit(size: SizeStands, built: AsBuilt, units: str) -> Finding:
    """M01 and M04: a part cut to another length than the parts about it ask for."""
    off, part = size.off_mm, size.part
    named = _listed([name.name for name in built.names if not name.because])
    if named and not size.measured:
        return _found(
            "M04",
            Severity.NOTE,
            part,
            message=f"{part} is done, {size.stands_mm:.1f} mm long; by {named} as measured, the parts about "
            f"it ask for {size.needed_mm:.1f} mm",
            advice=f"If it stands in its place, it fits, and one of the two measures is off by "
            f"{abs(off):.1f} mm: measure {part} and {named} again.",
            more={"numbers": _figures(size), "remedies": openings(built)},
        )
    lets = [f"let {way.parameter} be {way.value_mm:.1f} mm" for way in built.ways if way.part == part]
    fit = fitting(part, built, units)
    told = f"{part} is {size.stands_mm:.1f} mm long and the parts about it ask for {size.needed_mm:.1f} mm"
    if off > 0.0:
        return _found(
            "M01",
            Severity.MEDIUM,
            part,
            message=f"{told}: {off:.1f} mm too long",
            advice=_sentence([f"Trim {off:.1f} mm off it", *lets]),
            more={"numbers": _figures(size), "remedies": fit},
        )
    shim = f"shim {-off / 2.0:.1f} mm at each end or {-off:.1f} mm at one, grain along the part's"
    return _found(
        "M01",
        Severity.HIGH,
        part,
        message=f"{told}: {-off:.1f} mm too short, and its joints stay open by as much",
        advice=_sentence([f"Make it anew, {size.needed_mm:.1f} mm long", shim, *lets]),
        more={
            "numbers": _figures(size),
            "remedies": (*fit, *made_anew(measures_of(part, size.size, built))),
        },
    )


def _done_since(built: AsBuilt) -> list[Finding]:
    """M08: parts cut as drawn, and drawn otherwise since; M01 and M02 tell those that no longer fit."""
    off = {loose.part for loose in built.loose if abs(loose.off_mm) > _STEP_MM}
    changed: dict[str, list[SizeStands]] = {}
    for size in built.sizes:
        same = abs(size.drawn_mm - size.stands_mm) <= GAP_MM
        if size.cut and not size.measured and not same and size.part not in off and not _is_off(size):
            changed.setdefault(size.part, []).append(size)
    return [
        _found(
            "M08",
            Severity.MEDIUM,
            part,
            message=f"{part} is done and stays as it was cut, "
            + " and ".join(f"{s.stands_mm:.1f} mm in {s.size}" for s in sizes)
            + "; the size changed since asks for "
            + " and ".join(f"{s.drawn_mm:.1f} mm" for s in sizes),
            advice="What is not made yet follows the part as it is. Take the change back, or make the part "
            "anew and no longer call it done.",
            more={"numbers": {f"{s.size}_mm": s.stands_mm for s in sizes}},
        )
        for part, sizes in changed.items()
    ]


def _figures(size: SizeStands) -> dict[str, float]:
    return {"cut_mm": size.stands_mm, "asked_mm": size.needed_mm, "off_mm": size.off_mm}


def _loose(loose: Loose) -> Finding:
    """M02: a face that is no longer where the part beside it wants it."""
    part, other, off = loose.part, loose.other, abs(loose.off_mm)
    told, way = _LOOSE[loose.meeting, loose.off_mm > 0.0]
    return _found(
        "M02",
        Severity.HIGH if loose.meeting is Meeting.AGAINST else Severity.MEDIUM,
        part,
        message=f"{part} as it was made " + told.format(off=off, part=part, other=other),
        advice=way.format(off=off, part=part, other=other),
        more={"numbers": {"off_mm": loose.off_mm}},
    )


_LOOSE = {
    (Meeting.FLUSH, True): (
        "stands {off:.1f} mm out over {other}, drawn flush",
        "Plane {part} down to it, or ease the edge and let it stand so.",
    ),
    (Meeting.FLUSH, False): (
        "stands {off:.1f} mm back from {other}, drawn flush",
        "Plane {other} down to it, or ease the edge and let it stand so.",
    ),
    (Meeting.AGAINST, True): ("reaches {off:.1f} mm into {other}", "Trim {off:.1f} mm off {part}."),
    (Meeting.AGAINST, False): (
        "ends {off:.1f} mm before {other}",
        "Shim {off:.1f} mm, or make {part} anew.",
    ),
    (Meeting.IN_GROOVE, True): (
        "stands {off:.1f} mm deeper in {other} than drawn",
        "Trim {off:.1f} mm off {part}, if the groove is no deeper.",
    ),
    (Meeting.IN_GROOVE, False): (
        "stands {off:.1f} mm less deep in {other} than drawn",
        "See that {part} stays in its groove in the driest month, or make it anew.",
    ),
}
"""What is told of faces that do not meet, and a way out, by how they were drawn and which way one is off."""


def _alone(size: str, name: str) -> Finding:
    """M03: a measure that counts for its part alone."""
    part, _, which = size.partition(".")
    return _found(
        "M03",
        Severity.NOTE,
        part,
        message=f"The {which} of {part} as measured counts for {part} alone: with {name} so as well, "
        "something made would not fit, or a joint could not be made",
        advice=f"If it is to hold for all that is not made yet, write {name} itself as measured.",
    )


def _unknown(name: str, built: AsBuilt) -> Finding:
    """M05: a measure of what the piece no longer has."""
    return _found(
        "M05",
        Severity.MEDIUM,
        name,
        message=f"{name} was measured or made, and the piece has nothing of that name",
        advice="It was renamed or left out since; take the measure back, or measure what it is called now.",
        more={"remedies": back_again(each for each in built.measured if each == name)},
    )


def _unmade(place: str, reason: str, piece: Piece) -> Finding:
    """M07: a joint that cannot be made with what is made."""
    joint = place.removeprefix("joints.")
    built = piece.built or AsBuilt()
    return _found(
        "M07",
        Severity.HIGH,
        joint,
        message=f"With what is made, {joint} cannot be made as drawn: it {reason}. The plan goes on as drawn",
        advice="Make the part anew, or change the piece file to what is made.",
        more={"remedies": remade_for(joint.partition(".")[0], piece, built)},
    )


def _is_too_large(size: SizeStands, rough: dict[str, MillingLedger]) -> bool:
    """Whether more was measured than the blank had that it was planned from as drawn."""
    if not size.measured or size.part not in rough:
        return False
    return size.stands_mm - size.drawn_mm > _spare_mm(size, rough[size.part])


def _spare_mm(size: SizeStands, ledger: MillingLedger) -> float:
    """What its rough blank had more than the finished part. [mm]"""
    name = f"{size.size}_mm"
    blank = ledger.rough if ledger.glued is None else ledger.glued
    return max(float(getattr(blank, name)) - float(getattr(ledger.finished, name)), 0.0)


def _too_large(size: SizeStands, ledger: MillingLedger, built: AsBuilt) -> Finding:
    """M06: larger than the blank it came out of."""
    had = size.drawn_mm + _spare_mm(size, ledger)
    return _found(
        "M06",
        Severity.MEDIUM,
        size.part,
        message=f"The {size.size} of {size.part} was measured {size.stands_mm:.1f} mm; its rough blank was "
        f"planned with {had:.1f} mm",
        advice="Measure it again; if it came out of a larger blank, nothing is wrong.",
        more={
            "numbers": {"measured_mm": size.stands_mm, "rough_mm": had},
            "remedies": back_again(measures_of(size.part, size.size, built)),
        },
    )


def _found(
    code: str,
    severity: Severity,
    where: str,
    *,
    message: str,
    advice: str,
    more: _More | None = None,
) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        where=where,
        message=message,
        advice=advice,
        source=_SOURCE,
        **(more or {}),
    )


def _listed(names: list[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def _sentence(ways: list[str]) -> str:
    return f"{', or '.join(ways)}."
