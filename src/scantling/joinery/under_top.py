"""A rail under a top: the face fasteners are set at, their places, and how the top moves over each."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.errors import InputError
from scantling.joinery.meeting import Meeting, meet, row
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import JointContext
from scantling.piece.convex import Face, named_face
from scantling.piece.geometry import Vec, cross, dot, scale
from scantling.piece.model import JointRequest, Part

__all__ = ["FastenerPlace", "RailUnderTop", "places_under", "rail_under_top"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RailUnderTop:
    """A rail whose upper edge a top lies on.

    Parameters
    ----------
    meeting
        Where they touch; the normal points up into the top.
    face
        Face of the rail the fasteners are set at.
    along
        Along the rail. World.
    square_share, along_share
        How much of the top's movement goes out of the face, and along the rail. [1] -1..1
    """

    meeting: Meeting
    face: Face
    along: Vec
    square_share: float
    along_share: float

    @property
    def rail(self) -> Part:
        """The rail."""
        return self.meeting.first

    @property
    def top(self) -> Part:
        """The top."""
        return self.meeting.second

    @property
    def up(self) -> Vec:
        """Into the top."""
        return self.meeting.contact.normal

    @property
    def out(self) -> Vec:
        """Out of the face, to where the fastener reaches."""
        return self.face.normal

    def on_face(self, place: Vec, below_mm: float) -> Vec:
        """The spot on the face beside a place on the edge. World. [mm]"""
        out, up = self.out, self.up
        to_face = dot(self.face.corners[0], out) - dot(place, out)
        at = tuple(p + o * to_face - u * below_mm for p, o, u in zip(place, out, up, strict=True))
        return (at[0], at[1], at[2])


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenerPlace:
    """One fastener.

    Parameters
    ----------
    at
        On the rail's edge, in the middle of it. World. [mm]
    across_mm
        Its place across the top, from where the top is kept still. [mm] signed
    travel, cut_for
        Of the top there: of the usual board, and of one as lively as one in twenty, which what is cut for it
        has room for. [mm]
    """

    number: int
    at: Vec
    across_mm: float
    travel: Travel
    cut_for: Travel

    @property
    def sign(self) -> float:
        """+1 where the top swells toward its width direction."""
        return 1.0 if self.across_mm >= 0.0 else -1.0


def rail_under_top(joint: JointRequest, context: JointContext) -> RailUnderTop:
    """The rail of a joint written RAIL.FACE and TOP.

    Raises
    ------
    InputError
        ``fastener_face_missing``; ``parts_do_not_touch``.
    """
    rail = context.parts[joint.first.part]
    face = named_face(rail, joint.first.face) if joint.first.face else None
    if face is None:
        raise InputError(
            code="fastener_face_missing",
            field=f"joints.{joint.like}",
            value=str(joint.first),
            rule="must name the face of the rail that the fasteners are set at",
            remedy=f"Write {rail.name}.FACE, the face on the inside of the piece.",
        )
    touching = replace(joint, first=replace(joint.first, face=None, end=None))
    meeting = meet(touching, context)
    if abs(dot(face.normal, meeting.contact.normal)) > 0.3:
        raise InputError(
            code="fastener_face_level",
            field=f"joints.{joint.like}",
            value=str(joint.first),
            rule="must name an upright face of the rail, not the edge the top lies on",
            remedy=f"Write {rail.name}.FACE, the face on the inside of the piece.",
        )
    width = meeting.second.frame.width
    along = cross(meeting.contact.normal, face.normal)
    return RailUnderTop(
        meeting=meeting,
        face=face,
        along=scale(along, -1.0) if dot(along, meeting.first.frame.grain) < 0.0 else along,
        square_share=dot(width, face.normal),
        along_share=dot(width, along) * (-1.0 if dot(along, meeting.first.frame.grain) < 0.0 else 1.0),
    )


def places_under(
    under: RailUnderTop,
    context: JointContext,
    *,
    count: int | None,
    spacing_mm: float,
    inset_mm: float,
    still_mm: float = 0.0,
) -> tuple[FastenerPlace, ...]:
    """Fasteners along the rail, with the top's travel over each.

    Parameters
    ----------
    count, spacing_mm, inset_mm
        How many along the rail, or at most how far apart, and how far from its ends. [mm]
    still_mm
        Where the top is kept still, across from its middle. [mm] signed
    """
    spots = row(under.meeting, count=count, spacing_mm=spacing_mm, inset_mm=inset_mm)
    placed = []
    for k, spot in enumerate(spots):
        y = under.top.frame.local(spot)[1] - still_mm
        usual, lively = (
            travel(under.top, y, context.moisture, fixed_at_mm=still_mm, lively=each)
            for each in (False, True)
        )
        placed.append(FastenerPlace(number=k + 1, at=spot, across_mm=y, travel=usual, cut_for=lively))
    return tuple(placed)
