"""The corner of a miter: its plane, the line the corner runs along, and the way from inside to outside."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import Meeting, moved
from scantling.piece.geometry import Vec, cross, dot, norm, scale, unit
from scantling.piece.miter import facing
from scantling.piece.model import End, JointRequest, Part

__all__ = ["MiterCorner", "Side", "miter_corner"]

_SQUARE = math.cos(math.radians(1.0))
"""An end cut within a degree of square is no miter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One of the two parts at the corner.

    Parameters
    ----------
    end
        The end that is mitered.
    into
        From the miter into its wood, square to the miter. World. [1]
    outward
        Out of its outer face. World. [1]
    thick_mm
        Between its outer and inner face. [mm]
    """

    part: Part
    end: End
    into: Vec
    outward: Vec
    thick_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MiterCorner:
    """Directions and sizes of a mitered corner.

    Parameters
    ----------
    center
        Middle of the face they share. World. [mm]
    normal
        Out of the first part, into the second. World. [1]
    along
        The way the arris of the corner runs. World. [1]
    across
        In the miter, square to ``along``, from the inner to the outer corner. World. [1]
    long_mm
        Of the shared face along the arris. [mm]
    wide_mm
        Of the shared face from the inner to the outer corner. [mm]
    turn_deg
        By how much the outer faces turn at the corner: 90 for a square one. [deg]
    first, second
        The two parts there.
    """

    meeting: Meeting
    center: Vec
    normal: Vec
    along: Vec
    across: Vec
    long_mm: float
    wide_mm: float
    turn_deg: float
    first: Side
    second: Side

    @property
    def sides(self) -> tuple[Side, Side]:
        """Both parts."""
        return (self.first, self.second)

    @property
    def flat(self) -> bool:
        """Whether it is the corner of a flat frame, longer from inside to outside than along its arris."""
        return self.wide_mm > self.long_mm

    @property
    def half_tan(self) -> float:
        """Tangent of half the turn: the miter's own angle from square. [1]"""
        return math.tan(math.radians(self.turn_deg / 2.0))

    def at(self, along_mm: float = 0.0, across_mm: float = 0.0) -> Vec:
        """A place in the miter, from its middle. World. [mm]"""
        return moved(moved(self.center, self.along, along_mm), self.across, across_mm)


def miter_corner(joint: JointRequest, meeting: Meeting) -> MiterCorner:
    """The corner two mitered parts make.

    Raises
    ------
    InputError
        ``not_a_miter`` where the two ends do not share one slanting plane.
    """
    contact = meeting.contact
    labels = {end.value for end in End}
    if contact.first_face not in labels or contact.second_face not in labels:
        raise _refuse(joint, f"{joint.first} on {joint.second}")
    ends = (End(contact.first_face), End(contact.second_face))
    outs = tuple(
        scale(part.frame.grain, 1.0 if end is End.END else -1.0)
        for part, end in zip((meeting.first, meeting.second), ends, strict=True)
    )
    if max(abs(dot(out, contact.normal)) for out in outs) > _SQUARE:
        raise _refuse(joint, f"{joint.first} and {joint.second}, cut square")
    one, two = facing(meeting.first, scale(outs[1], -1.0)), facing(meeting.second, scale(outs[0], -1.0))
    line = cross(one.inward, two.inward)
    if norm(line) < 1e-3:
        raise _refuse(joint, f"{joint.first} and {joint.second}, in one line")
    along = unit(line)
    along = along if (along[2], along[0], along[1]) >= (0.0, 0.0, 0.0) else scale(along, -1.0)
    across = cross(contact.normal, along)
    if dot(across, one.inward) > 0.0:
        across = scale(across, -1.0)
    spans = [contact.extent(way) for way in (along, across)]
    middle = contact.center
    for way, (low, high) in zip((along, across), spans, strict=True):
        middle = moved(middle, way, (low + high) / 2.0 - dot(middle, way))
    sides = [
        Side(
            part=part,
            end=end,
            into=scale(contact.normal, sign),
            outward=scale(pair.inward, -1.0),
            thick_mm=2.0 * pair.half_mm,
        )
        for part, end, sign, pair in zip(
            (meeting.first, meeting.second), ends, (-1.0, 1.0), (one, two), strict=True
        )
    ]
    return MiterCorner(
        meeting=meeting,
        center=middle,
        normal=contact.normal,
        along=along,
        across=across,
        long_mm=spans[0][1] - spans[0][0],
        wide_mm=spans[1][1] - spans[1][0],
        turn_deg=math.degrees(math.acos(max(-1.0, min(1.0, dot(one.inward, two.inward))))),
        first=sides[0],
        second=sides[1],
    )


def _refuse(joint: JointRequest, value: str) -> Exception:
    return cannot_be_made(
        joint,
        "",
        code="not_a_miter",
        value=value,
        rule="must be two ends cut on one slanting plane",
        remedy="Trim both ends so: trim: {end: miter with OTHER}, and name them PART.start or PART.end.",
    )
