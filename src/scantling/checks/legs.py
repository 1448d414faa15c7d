"""Legs: slenderness and the backing angle of a two-way splay: F48, F62."""

from __future__ import annotations

import math

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.piece.convex import body_of
from scantling.piece.model import Direction, Part, PartKind, Piece, Stands

__all__ = ["backing_angle_deg", "check", "legs_of", "standing_legs", "thinnest_mm"]

_AT_FLOOR_MM = 1.0
"""A stick that ends so near to the floor stands on it. [mm] (judgement)"""


def backing_angle_deg(front_lean_deg: float, side_lean_deg: float) -> float:
    r"""How far from square a leg's section must be for both faces to lie flush on plumb aprons. [deg]

    Parameters
    ----------
    front_lean_deg, side_lean_deg
        Lean from plumb in the front and in the side view. [deg]

    Notes
    -----
    .. math:: \delta = \arcsin(\sin\alpha\,\sin\beta)

    Derived: the angle between a plane leaning by alpha about one axis and one leaning by beta about the
    other differs from a right angle by this much.

    Examples
    --------
    >>> round(backing_angle_deg(8.0, 5.0), 3)
    0.695
    """
    return math.degrees(
        math.asin(math.sin(math.radians(front_lean_deg)) * math.sin(math.radians(side_lean_deg)))
    )


def legs_of(subject: Subject) -> list[Part]:
    """Parts that stand on the floor and go up; what hangs on a wall has none, whatever reaches down to it."""
    return standing_legs(subject.piece)


def standing_legs(piece: Piece) -> list[Part]:
    """As :func:`legs_of`, of a piece."""
    if piece.brief.stands is Stands.WALL:
        return []
    return [
        part
        for part in piece.parts.values()
        if abs(part.frame.grain[2]) > 0.7
        and not part.edges  # a stave of a ring, no leg
        and _on_floor(part)
    ]


def _on_floor(part: Part) -> bool:
    """Whether it is sawn to stand on the floor, or is a stick whose sizes bring it there."""
    if any(trim.by == "floor" for trim in part.trims):
        return True
    return part.kind is PartKind.STICK and abs(body_of(part).extent((0.0, 0.0, 1.0))[0]) < _AT_FLOOR_MM


def thinnest_mm(part: Part) -> float:
    """Smallest side of the thinnest section, tapers taken off. [mm]"""
    if part.round is not None:
        return min(part.round.start_mm, part.round.end_mm)
    width, thickness = part.width_mm, part.thickness_mm
    for taper in part.tapers:
        if abs(taper.plane.normal[1]) >= abs(taper.plane.normal[2]):
            width -= taper.loss_mm
        else:
            thickness -= taper.loss_mm
    return min(width, thickness)


def check(subject: Subject) -> list[Finding]:
    """Findings on every leg."""
    found: list[Finding] = []
    for leg in legs_of(subject):
        found += _slender(leg)
        found += _backing(subject, leg)
    return found


def _slender(leg: Part) -> list[Finding]:
    allowed = limit("F48", "ratio")
    side = thinnest_mm(leg)
    shape = 4.0 if leg.round is not None else math.sqrt(12.0)
    ratio = leg.length_mm * shape / side
    if ratio <= allowed:
        return []
    return [
        finding(
            "F48",
            where=leg.name,
            message=f"{leg.name} is {leg.length_mm:.0f} mm long and {side:.1f} mm at its thinnest: "
            f"slenderness {ratio:.0f}, at most {allowed:.0f}",
            numbers={"ratio": ratio, "side_mm": side, "wanted_mm": leg.length_mm * shape / allowed},
        )
    ]


def _backing(subject: Subject, leg: Part) -> list[Finding]:
    if leg.round is not None or not _framed(subject, leg):
        return []
    x, y, z = leg.frame.grain
    lean = abs(math.degrees(math.atan2(x, z))), abs(math.degrees(math.atan2(y, z)))
    front, side = (min(angle, 180.0 - angle) for angle in lean)
    delta = backing_angle_deg(front, side)
    gap = max(leg.width_mm, leg.thickness_mm) * math.tan(math.radians(delta))
    if gap <= limit("F62", "gap_mm"):
        return []
    return [
        finding(
            "F62",
            where=leg.name,
            message=f"{leg.name} leans {front:.1f} and {side:.1f} degrees: a square section is "
            f"{delta:.2f} degrees off for flush faces, a gap of {gap:.2f} mm across it",
            numbers={"backing_deg": delta, "gap_mm": gap},
        )
    ]


def _framed(subject: Subject, leg: Part) -> bool:
    """Whether parts join it on faces that look in two directions."""
    ways: set[Direction] = set()
    for work in subject.works:
        if leg.name in (work.first, work.second):
            x, y, _ = work.leaves
            if max(abs(x), abs(y)) > 0.5:
                ways.add(Direction.LEFT if abs(x) > abs(y) else Direction.FRONT)
    return len(ways) > 1
