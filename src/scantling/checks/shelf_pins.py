"""Shelves on pins: they jam, drop off, tip, lie out of level, stand in what none tested: F75, F77 to F80."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding, Severity
from scantling.joinery.shelf_pin import ShelfPin, ShelfPinOptions, bearing_mm, front_of
from scantling.joinery.strength.pins import is_plywood
from scantling.joinery.work import ConnectorKind, Hole, JointWork
from scantling.piece.convex import body_of
from scantling.piece.geometry import Vec, dot
from scantling.piece.model import Part, PartKind
from scantling.wood.movement import length_change_mm

__all__ = ["check"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _End:
    """One end of a shelf on its pins.

    Parameters
    ----------
    gap_mm
        From the shelf to the side, as drawn. [mm]
    heights_mm
        Of the holes over the floor. [mm]
    rows
        Distance of the front and the back row along the way to the shelf's front. World. [mm]
    at
        Middle of its two pins, where the shelf ends. World. [mm]
    """

    work: JointWork
    options: ShelfPinOptions
    gap_mm: float
    heights_mm: tuple[float, ...]
    rows: tuple[float, float]
    at: Vec


def check(subject: Subject) -> list[Finding]:
    """Findings on every shelf that lies on pins."""
    asked = {joint.name: joint.options for joint in subject.piece.joints}
    shelves: dict[str, list[_End]] = {}
    for work in subject.works:
        options = asked.get(work.joint)
        if work.family == ShelfPin.name and isinstance(options, ShelfPinOptions):
            shelves.setdefault(work.first, []).append(_end(subject, work, options))
    found: list[Finding] = []
    for name, ends in shelves.items():
        shelf = subject.part(name)
        found += _disagree(shelf, ends)
        found += _drops_off(subject, shelf, ends)
        found += _tips(shelf, ends)
        found += _jams(subject, shelf, ends)
        found += _untold(subject, shelf, ends)
    return found


def _end(subject: Subject, work: JointWork, o: ShelfPinOptions) -> _End:
    shelf, side = subject.part(work.first), subject.part(work.second)
    pins = next(one for one in work.connectors if one.kind is ConnectorKind.SHELF_PIN)
    into, way = pins.frames[0].grain, front_of(shelf, o)
    mouth = dot(pins.frames[0].origin, into) + pins.size_mm[1] / 2.0 - pins.drill_mm[1]
    mouths = [cut.tool.frame.origin for cut in work.cuts if isinstance(cut.tool, Hole)]
    heights = {round(side.frame.point(mouth)[2], 3) for mouth in mouths}
    front, back = (dot(frame.origin, way) for frame in pins.frames)
    return _End(
        work=work,
        options=o,
        gap_mm=max(0.0, mouth - body_of(shelf).extent(into)[1]),
        heights_mm=tuple(sorted(heights)),
        rows=(front, back),
        at=work.at,
    )


_LEVEL_MM = 0.5
"""Ends no farther out of level than this neither rock nor show it (common practice). [mm]"""


def _disagree(shelf: Part, ends: list[_End]) -> list[Finding]:
    """Holes that have none as high at the other end: put there, the shelf lies out of level."""
    if len(ends) != 2:
        return []
    one, other = ends
    worst, at = 0.0, 0.0
    for a, b in ((one, other), (other, one)):
        for height in a.heights_mm:
            off = min(abs(height - each) for each in b.heights_mm)
            if off > worst:
                worst, at = off, height
    if worst <= _LEVEL_MM:
        return []
    slope = degrees(atan2(worst, shelf.length_mm))
    return [
        finding(
            "F77",
            where=shelf.name,
            message=f"the hole {at:.1f} mm over the floor at one end of {shelf.name} has none as high in "
            f"{one.work.second if at in other.heights_mm else other.work.second}: the nearest is "
            f"{worst:.1f} mm off, and the shelf would lie {slope:.1f} degrees out of level",
            numbers={"off_mm": worst, "slope_deg": slope},
        )
    ]


def _moves_mm(subject: Subject, shelf: Part) -> tuple[float, float]:
    """What the shelf loses in length in the driest air, and gains in the dampest. [mm]"""
    if not shelf.species or subject.moisture.build_pct <= 0.0:
        return 0.0, 0.0
    m = subject.moisture
    dry, wet = (
        length_change_mm(shelf.length_mm, mc_from_pct=m.build_pct, mc_to_pct=to)
        for to in (m.dry_pct, m.wet_pct)
    )
    return max(0.0, -dry), max(0.0, wet)


def _drops_off(subject: Subject, shelf: Part, ends: list[_End]) -> list[Finding]:
    """Pushed against the one side, its other end lies on what of the pins the whole play leaves."""
    play = sum(end.gap_mm for end in ends) + _moves_mm(subject, shelf)[0]
    wanted = limit("F78", "bearing_mm")
    end = min(ends, key=lambda each: bearing_mm(each.options, 0.0))
    left = bearing_mm(end.options, play)
    if left >= wanted - 1e-6:
        return []
    return [
        finding(
            "F78",
            where=end.work.joint,
            message=f"pushed against the other side, {shelf.name} leaves {play:.1f} mm open here and lies on "
            f"{max(0.0, left):.1f} mm of its pins; at least {wanted:.1f} mm",
            numbers={"bearing_mm": left, "play_mm": play, "shortfall_mm": wanted - left},
        )
    ]


def _tips(shelf: Part, ends: list[_End]) -> list[Finding]:
    """Pressed at the edge beyond its pins the empty shelf tips about them, held by its own weight alone."""
    wanted = limit("F79", "weight_share")
    found = []
    way = front_of(shelf, ends[0].options)
    low, high = body_of(shelf).extent(way)
    middle = (low + high) / 2.0
    front = min(end.rows[0] for end in ends)
    back = max(end.rows[1] for end in ends)
    for edge, arm, over in (("front", front - middle, high - front), ("back", middle - back, back - low)):
        share = arm / over if over > 1e-9 else wanted
        if share >= wanted - 1e-6:
            continue
        most = (high - low) / 2.0 / (1.0 + wanted)
        found.append(
            finding(
                "F79",
                where=shelf.name,
                message=f"{shelf.name}, {high - low:.0f} mm deep, stands {over:.0f} mm over its pins at the "
                f"{edge}: empty, it tips when pressed there with {max(share, 0.0):.2f} of its own weight; "
                f"it should take {wanted:.1f} of it",
                numbers={"over_mm": over, "over_allowed_mm": most, "weight_share": share},
            )
        )
    return found


def _jams(subject: Subject, shelf: Part, ends: list[_End]) -> list[Finding]:
    """What is left of its gaps when it is longest, the case not having moved."""
    swells = _moves_mm(subject, shelf)[1]
    if len(ends) != 2:
        swells /= 2.0
    gap, least = sum(end.gap_mm for end in ends), sum(end.options.least for end in ends)
    short = least + swells - gap
    if short <= 1e-6:
        return []
    return [
        finding(
            "F80",
            where=shelf.name,
            message=f"{shelf.name} has {gap:.1f} mm of play between its sides and grows {swells:.2f} mm; "
            f"{least:.1f} mm should be left in the dampest season, it is {gap - swells:.2f}",
            numbers={
                "gap_mm": gap,
                "swell_mm": swells,
                "shorter_mm": short,
                "length_wanted_mm": shelf.length_mm - short,
            },
        )
    ]


def _untold(subject: Subject, shelf: Part, ends: list[_End]) -> list[Finding]:
    """Sides of fibers or chips, of which nothing is published: what the shelf may carry is not reckoned."""
    sides = [subject.part(end.work.second) for end in ends]
    loose = [side for side in sides if side.kind is PartKind.SHEET and not is_plywood(side)]
    if not loose:
        return []
    names = " and ".join(dict.fromkeys(side.name for side in loose))
    return [
        finding(
            "F75",
            where=shelf.name,
            severity=Severity.NOTE,
            message=f"{shelf.name} lies on pins in {names}, of {loose[0].species}: nothing is published of "
            "what their holes bear, so what may lie on it is not checked",
            advice="Line the holes with metal sleeves, or lip the sides with wood where the pins stand; or "
            "bore a waste piece, hang the shelf on it and load it for a week with twice what it will carry.",
        )
    ]
