"""Spline: two edges grooved alike, and a loose strip glued into both grooves."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import Hollow, cannot_be_made, check_depth
from scantling.joinery.meeting import Meeting, across, grain_angle_deg, meet, moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.proportions import filled
from scantling.joinery.strength import cases
from scantling.joinery.tenon_layout import third_mm
from scantling.joinery.work import (
    Box,
    ClampNeed,
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    GlueFace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.convex import body_of
from scantling.piece.files import Length
from scantling.piece.geometry import Frame, Vec, cross, dot, scale
from scantling.piece.model import End, JointRequest, Part

__all__ = ["Spline", "SplineOptions"]

_OVER_MM = 2.0
_WALL_MM = 2.0
"""Wood on each side of a groove, at the least (common practice). [mm]"""
_ALONG_DEG = 5.0


class SplineOptions(JointOptions):
    """Two parts edge to edge, grain along grain, with a loose strip in a groove in each."""

    kind: Literal["spline"]
    thickness: Length | None = Field(default=None, gt=0)
    """Thickness of the spline; left out, a third of the thinner part, to the nearest usual cutter."""
    depth: Length = Field(default=0, gt=0)
    """Depth of the groove in each edge; left out, half the thickness of the thinner part."""
    end_room: Length = Field(default=0.5, ge=0)
    """Room for glue at the bottom of each groove."""
    play: Length = Field(default=0.1, ge=0, le=1)
    """How much wider the grooves are than the spline is thick."""
    shift: Length = 0.0
    """Moves the spline from the middle of the seam, toward the first part's own upper or outer face."""
    stopped: Length = Field(default=0, ge=0)
    """How far the grooves stop short of both ends of the seam; 0 runs them out, and the spline shows."""
    glued: bool = True
    """Whether it is glued; not, where the strip only lines the faces up."""


class Spline:
    """The spline family."""

    name = "spline"
    options_model = SplineOptions
    strength = staticmethod(cases.seam)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """A groove in each edge, the strip to make, and the glue of seam and strip."""
        meeting = meet(joint, context)
        joint = filled(joint, depth=min(meeting.first.thickness_mm, meeting.second.thickness_mm) / 2.0)
        o = joint.options
        assert isinstance(o, SplineOptions)
        first, second, contact = meeting.first, meeting.second, meeting.contact
        thin = min(first.thickness_mm, second.thickness_mm)
        thick = third_mm(thin, inch=joint.inch) if o.thickness is None else o.thickness
        seam = _seam(joint, meeting, o)
        _check(joint, meeting, seam, thick_mm=thick)
        sides = (
            (first, contact.first_face, scale(contact.normal, -1.0)),
            (second, contact.second_face, contact.normal),
        )
        wide = 2.0 * (o.depth - o.end_room)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=contact.center,
            leaves=scale(contact.normal, -1.0),
            cuts=tuple(_groove(part, into, seam, o=o, thick_mm=thick) for part, _, into in sides),
            marks=tuple(_mark(part, label, seam, o=o, thick_mm=thick) for part, label, _ in sides),
            connectors=(
                Connector(
                    kind=ConnectorKind.SPLINE,
                    count=1,
                    size_mm=(thick, wide, seam.length_mm),
                    note="its grain across the seam, in short lengths end to end, or plywood",
                    frames=(_strip(seam, contact.normal),),
                ),
            ),
            glue=(_glue(meeting, seam, wide_mm=wide),) if o.glued else (),
            clamp=ClampNeed(direction=contact.normal, area_mm2=contact.area_mm2) if o.glued else None,
            dry=not o.glued,
            steps=(
                "Joint both edges as for a glued seam: the spline lines the faces up and closes no gap.",
                "Groove both parts from the same face with one setting; try the strip, it slides in by hand.",
            ),
        )


class _Seam:
    """The seam on the contact: its middle, the way it runs, its side, and how long the grooves are. [mm]"""

    def __init__(self, *, at: Vec, along: Vec, length_mm: float, over: tuple[float, float]) -> None:
        self.at, self.along, self.length_mm, self.over = at, along, length_mm, over


def _seam(joint: JointRequest, meeting: Meeting, o: SplineOptions) -> _Seam:
    """Where the grooves run; past an end of a part they run out."""
    contact, first = meeting.contact, meeting.first
    ends = {End.START.value, End.END.value}
    if {contact.first_face, contact.second_face} & ends or grain_angle_deg(
        first, meeting.second
    ) > _ALONG_DEG:
        raise cannot_be_made(
            joint,
            "",
            code="boards_not_side_by_side",
            value=f"{joint.first} and {joint.second}, which do not meet edge to edge along the grain",
            rule="must join two edges, grain along grain",
            remedy="Use loose tenons or dowels at an end.",
        )
    along = across(first.frame.grain, contact.normal)
    low, high = contact.extent(along)
    over = [0.0, 0.0]
    if o.stopped == 0.0:
        for part in (first, meeting.second):
            part_low, part_high = body_of(part).extent(along)
            over[0] = max(over[0], _OVER_MM if abs(part_low - low) < 0.1 else 0.0)
            over[1] = max(over[1], _OVER_MM if abs(part_high - high) < 0.1 else 0.0)
    side = _side(meeting, along)
    s_low, s_high = contact.extent(side)
    at = moved(contact.center, along, (low + high) / 2.0 - dot(contact.center, along))
    at = moved(at, side, (s_low + s_high) / 2.0 + o.shift - dot(at, side))
    return _Seam(at=at, along=along, length_mm=high - low - 2.0 * o.stopped, over=(over[0], over[1]))


def _side(meeting: Meeting, along: Vec) -> Vec:
    """Across the seam, toward the first part's own upper or outer face."""
    side = cross(meeting.contact.normal, along)
    toward = max(
        (meeting.first.frame.thickness, meeting.first.frame.width), key=lambda way: abs(dot(way, side))
    )
    return side if dot(side, toward) > 0.0 else scale(side, -1.0)


def _check(joint: JointRequest, meeting: Meeting, seam: _Seam, *, thick_mm: float) -> None:
    o = joint.options
    assert isinstance(o, SplineOptions)
    low, high = meeting.contact.extent(_side(meeting, seam.along))
    wall = (high - low) / 2.0 - abs(o.shift) - (thick_mm + o.play) / 2.0
    code, option, value, rule = "", "", "", ""
    if wall < _WALL_MM - 1e-6:
        option, code = "thickness", "wall_too_thin"
        value = f"{wall:.1f} mm beside a {thick_mm:.1f} mm spline in {high - low:.1f} mm"
        rule = f"leave {_WALL_MM:g} mm on each side of the groove"
    elif seam.length_mm < 10.0:
        option, code = "stopped", "nothing_left"
        value, rule = f"{max(0.0, seam.length_mm):.1f} mm of groove", "leave some of the groove"
    elif o.depth - o.end_room < thick_mm / 2.0:
        option, code = "depth", "spline_too_narrow"
        value = f"{2.0 * (o.depth - o.end_room):.1f} mm wide and {thick_mm:.1f} mm thick"
        rule = "be at least as wide as it is thick"
    if code:
        remedy = "Change the spline's size, or how far it stops short."
        raise cannot_be_made(joint, option, code=code, value=value, rule=f"must {rule}", remedy=remedy)
    for part, into in (
        (meeting.first, scale(meeting.contact.normal, -1.0)),
        (meeting.second, meeting.contact.normal),
    ):
        hollow = Hollow(at=seam.at, into=into, depth_mm=o.depth, what="groove")
        check_depth(joint, "depth", part, hollow=hollow)


def _groove(part: Part, into: Vec, seam: _Seam, *, o: SplineOptions, thick_mm: float) -> Cut:
    low, high = -seam.length_mm / 2.0 - seam.over[0], seam.length_mm / 2.0 + seam.over[1]
    origin = moved(moved(seam.at, seam.along, (low + high) / 2.0), into, -_OVER_MM)
    tool = Box(
        frame=part.frame.frame_in(slot_frame(origin, into=into, along=seam.along)),
        length_mm=o.depth + _OVER_MM,
        width_mm=high - low,
        thickness_mm=thick_mm + o.play,
    )
    return Cut(part=part.name, tool=tool, what="groove")


def _strip(seam: _Seam, normal: Vec) -> Frame:
    """Where the strip lies: its length along the seam, its width across it."""
    return slot_frame(seam.at, into=seam.along, along=normal)


def _glue(meeting: Meeting, seam: _Seam, *, wide_mm: float) -> GlueFace:
    """The seam, and both faces of the strip."""
    return GlueFace(
        parts=(meeting.first.name, meeting.second.name),
        area_mm2=meeting.contact.area_mm2 + wide_mm * seam.length_mm,
        grain_angle_deg=grain_angle_deg(meeting.first, meeting.second),
        end_grain_share=0.0,
        length_mm=seam.length_mm,
    )


def _mark(part: Part, label: str, seam: _Seam, *, o: SplineOptions, thick_mm: float) -> Mark:
    spot = spot_on(part, seam.at, label)
    return Mark(
        part=part.name,
        kind=MarkKind.GROOVE,
        **spot.measured,
        length_mm=seam.length_mm,
        width_mm=thick_mm + o.play,
        depth_mm=o.depth,
        fit=Fit.TIGHT,
        setup=f"{thick_mm + o.play:g} mm groove for splines, {o.depth:g} mm deep",
        note=f"stopped {o.stopped:g} mm from both ends" if o.stopped else "end to end",
    )
