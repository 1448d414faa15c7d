"""Mortises that meet, or stand too near a face or an end: F14, F15, F16."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations

from scantling.checks.catalogue import finding, limit
from scantling.checks.hollows import Prism, box_gap_mm, common_volume_mm3, distance_mm, gap_mm, prism
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.rabbet import RABBET
from scantling.joinery.work import Box, Cut, Hole, JointWork, Slot
from scantling.piece.convex import Face, face_direction, local_body
from scantling.piece.geometry import dot
from scantling.piece.model import Part
from scantling.remembering import remembered

__all__ = ["Hollow", "check", "hollows_by_part", "tenons_that_meet"]

_TANGENT_SHARE = 0.005
"""Share of a round hole's diameter by which its outline of tangents stands out at most. [1]"""
_SHOWN_MM = 0.05
"""What is missing by less is not missing: the figures of a finding would be equal. [mm]"""
_BORED = ("dowel hole", "bolt hole", "nut hole", "shelf pin hole")
"""Round holes that something driven, drawn tight or leaned on presses in."""
_OUTSIDE = ("shoulder", "cheek", "haunch", "waste")
"""Cuts that take away wood round a tenon or tongue rather than make a hollow."""

_END_TO_END_MM = 0.01
"""Housings nearer than this to each other's ends, and not in each other, go on one from the other. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hollow:
    """A hollow of one joint in one part, in the part's coordinates."""

    joint: str
    cut: Cut
    prism: Prism


def hollows_by_part(subject: Subject) -> Mapping[str, tuple[Hollow, ...]]:
    """All hollows of each part."""
    return _by_part(subject.works)


@remembered(limit=2)
def _by_part(works: tuple[JointWork, ...]) -> Mapping[str, tuple[Hollow, ...]]:
    found: dict[str, list[Hollow]] = {}
    for work in works:
        for hollow in _hollows(work):
            found.setdefault(hollow.cut.part, []).append(hollow)
    return {name: tuple(hollows) for name, hollows in found.items()}


@remembered(limit=1024)
def _hollows(work: JointWork) -> tuple[Hollow, ...]:
    bodies = ((cut, prism(cut)) for cut in work.cuts)
    return tuple(
        Hollow(joint=work.joint, cut=cut, prism=body)
        for cut, body in bodies
        if body is not None and not any(word in cut.what for word in _OUTSIDE)
    )


def check(subject: Subject) -> list[Finding]:
    """Findings on the mortises of every part."""
    found: list[Finding] = []
    for name, hollows in hollows_by_part(subject).items():
        found += _in_part(subject.part(name), hollows)
    return found


@remembered(limit=1024)
def _in_part(part: Part, hollows: tuple[Hollow, ...]) -> tuple[Finding, ...]:
    found = _collisions(part.name, hollows)
    for hollow in hollows:
        if "mortise" in hollow.cut.what and _across_grain(hollow):
            found += _wall(part, hollow)
            found += _end(part, hollow)
        elif hollow.cut.what in _BORED:
            found += _bored_wall(part, hollow)
    return tuple(found)


def _collisions(part: str, hollows: tuple[Hollow, ...]) -> list[Finding]:
    wanted = limit("F14", "wall_mm")
    enough = wanted - 1e-6
    found: list[Finding] = []
    for one, other in combinations(hollows, 2):
        if one.joint == other.joint or box_gap_mm(one.prism, other.prism) >= enough or _may_meet(one, other):
            continue
        gap = gap_mm(one.prism, other.prism)
        if gap >= enough:
            continue
        wall = distance_mm(one.prism, other.prism)
        if wall >= enough:
            continue
        tenons = "mortise" in one.cut.what and "mortise" in other.cut.what
        shorten = wanted - min(gap, wall)
        meets = f"leaves a wall of {wall:.1f} mm to" if wall > 0.0 else f"runs {-gap:.1f} mm into"
        found.append(
            finding(
                "F14",
                where=f"{part}/{one.joint}",
                message=f"in {part} the {one.cut.what} of {one.joint} {meets} the {other.cut.what} of "
                f"{other.joint}; {wanted:.0f} mm of wood should stand between",
                advice=_apart_again(shorten, tenons=tenons, wall_mm=wall),
                numbers={"wall_mm": wall, "wanted_mm": wanted, "shorten_mm": shorten},
            )
        )
    return found


def _apart_again(shorten_mm: float, *, tenons: bool, wall_mm: float) -> str | None:
    """The way out; that of the rule where tenons run into each other."""
    if not tenons:
        return f"Move one of them {shorten_mm:.1f} mm away from the other."
    if wall_mm <= 0.0:
        return None
    return f"So thin a wall breaks out. Shorten one tenon by {shorten_mm:.1f} mm, or stagger them."


def tenons_that_meet(subject: Subject) -> dict[frozenset[str], float]:
    """Pairs of parts whose tenons run into each other inside a third, and by what volume. [mm3]"""
    works = {work.joint: work for work in subject.works}
    found: dict[frozenset[str], float] = {}
    for name, hollows in hollows_by_part(subject).items():
        mortises = [hollow for hollow in hollows if "mortise" in hollow.cut.what]
        for one, other in combinations(mortises, 2):
            pair = frozenset(
                part
                for work in (works[one.joint], works[other.joint])
                for part in (work.first, work.second)
                if part != name
            )
            if len(pair) < 2 or box_gap_mm(one.prism, other.prism) >= 0.0 or _may_meet(one, other):
                continue
            if gap_mm(one.prism, other.prism) < 0.0:
                common = common_volume_mm3(one.prism, other.prism)
                found[pair] = found.get(pair, 0.0) + common
    return found


def _may_meet(one: Hollow, other: Hollow) -> bool:
    """Whether two hollows are meant to run into each other.

    Mitered tenons do; the groove of a panel runs into the mortises and housings at its ends; one housing may
    go on where another stops, as that of a runner does behind its rail; and rabbets meet at corners, or are
    one where boards lie side by side in them, with pilot holes in their floor; a shelf's housing runs out in
    the rabbet of the back.
    """
    mitered = "mitered" in one.cut.what and "mitered" in other.cut.what
    housed = one.cut.what == other.cut.what == "housing"
    end_to_end = housed and abs(gap_mm(one.prism, other.prism)) < _END_TO_END_MM
    rabbets = {one.cut.what, other.cut.what} in ({RABBET}, {RABBET, "pilot hole"}, {RABBET, "housing"})
    return (
        mitered or end_to_end or rabbets or "panel groove" in one.cut.what or "panel groove" in other.cut.what
    )


def _across_grain(hollow: Hollow) -> bool:
    """Whether the mortise goes in from a side; one in an end is judged by its share of thickness (F17)."""
    tool = hollow.cut.tool
    return isinstance(tool, Box | Slot) and abs(tool.frame.grain[0]) < 0.7


def _thickness_mm(hollow: Hollow) -> float:
    tool = hollow.cut.tool
    assert isinstance(tool, Box | Slot)
    return tool.width_mm if isinstance(tool, Slot) else min(tool.width_mm, tool.thickness_mm)


def _distance_in_mm(face: Face, body: Prism) -> float:
    """Wood between a hollow and a face; 0 or less where the hollow opens through it. [mm]"""
    return -max(face.plane.distance(corner) for corner in body.corners)


def _nearest(part: Part, hollow: Hollow, *, ends: bool) -> tuple[float, str]:
    """Nearest side face that the mortise runs along, or nearest end, and the wood to it."""
    tool = hollow.cut.tool
    assert isinstance(tool, Box | Slot | Hole)
    best, label = float("inf"), ""
    for face in local_body(part).faces:
        is_end = face.label in ("start", "end")
        if is_end is not ends or (not ends and abs(dot(face.normal, tool.frame.grain)) > 0.7):
            continue
        wood = _distance_in_mm(face, hollow.prism)
        if 1e-6 < wood < best:
            looks = face_direction(part.frame.direction(face.normal))
            best, label = wood, face.label if is_end else looks.value
    return best, label


def _wall(part: Part, hollow: Hollow) -> list[Finding]:
    thick = _thickness_mm(hollow)
    wanted = max(limit("F15", "wall_mm"), limit("F15", "wall_share") * thick)
    wall, face = _nearest(part, hollow, ends=False)
    if wall >= wanted - _SHOWN_MM:
        return []
    return [
        finding(
            "F15",
            where=f"{part.name}/{hollow.joint}",
            message=f"the wall between the {hollow.cut.what} of {hollow.joint} and the {face} face of "
            f"{part.name} is {wall:.1f} mm; at least {wanted:.1f} mm beside a {thick:.1f} mm mortise",
            numbers={"wall_mm": wall, "wanted_mm": wanted, "shortfall_mm": wanted - wall},
        )
    ]


def _bored_wall(part: Part, hollow: Hollow) -> list[Finding]:
    """A dowel or bolt so near a face that it splits out."""
    tool = hollow.cut.tool
    assert isinstance(tool, Hole)
    wanted = limit("F15", "hole_wall_mm")
    wall, face = _nearest(part, hollow, ends=False)
    if wall >= wanted - _TANGENT_SHARE * tool.diameter_mm:
        return []
    return [
        finding(
            "F15",
            where=f"{part.name}/{hollow.joint}",
            message=f"the wall between the {hollow.cut.what} of {hollow.joint} and the {face} face of "
            f"{part.name} is {wall:.1f} mm; at least {wanted:.1f} mm beside a {tool.diameter_mm:.1f} mm hole",
            advice="Move the hole away from the face, or take a thinner dowel, bolt or pin.",
            numbers={"wall_mm": wall, "wanted_mm": wanted, "shortfall_mm": wanted - wall},
        )
    ]


def _end(part: Part, hollow: Hollow) -> list[Finding]:
    wanted = limit("F16", "end_mm")
    wood, end = _nearest(part, hollow, ends=True)
    if wood >= wanted - _SHOWN_MM:
        return []
    return [
        finding(
            "F16",
            where=f"{part.name}/{hollow.joint}",
            message=f"the {hollow.cut.what} of {hollow.joint} stops {wood:.1f} mm from the {end} of "
            f"{part.name}; at least {wanted:.0f} mm keeps the end from splitting out",
            numbers={"end_mm": wood, "wanted_mm": wanted, "shortfall_mm": wanted - wood},
        )
    ]
