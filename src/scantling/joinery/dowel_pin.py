"""Dowel pins: round pegs in a row, half in one part and half in the other."""

from __future__ import annotations

import math
from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import Hollow, Mouth, check_apart, check_depth, check_mouth
from scantling.joinery.meeting import (
    Meeting,
    grain_angle_deg,
    laid,
    meet,
    moved,
    slope_deg,
    slot_frame,
    spot_on,
    spread,
)
from scantling.joinery.options import JointOptions
from scantling.joinery.proportions import dowel_sizes, filled
from scantling.joinery.strength import dowels
from scantling.joinery.work import (
    ClampNeed,
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    GlueFace,
    Hole,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Vec, dot, scale
from scantling.piece.model import End, JointRequest, Part

__all__ = ["DowelPin", "DowelPinOptions"]


class DowelPinOptions(JointOptions):
    """Dowels from the first part into the second."""

    kind: Literal["dowel_pin"]
    diameter: Length = Field(default=0, gt=0)
    """Diameter of the dowels; left out, two fifths of the thinner part, to the nearest sold."""
    count: Count = Field(default=2, ge=1, le=60)
    """Dowels in the row."""
    depth_first: Length = Field(default=0, gt=0)
    """Depth of the holes in the first part; left out, two and a half diameters."""
    depth_second: Length = Field(default=0, gt=0)
    """Depth of the holes in the second part; left out, as the first, with 6 mm of wood behind them."""
    inset: Length = Field(default=15, ge=0)
    """From the ends of the row's line to the outer dowels."""
    end_room: Length = Field(default=1, ge=0)
    """Room at each end of a dowel."""
    along_grain: bool = False
    """Whether the row runs along the first part's grain (an edge) instead of its width (an end)."""
    glued: bool = True
    """Whether they are glued; not, where the joint comes apart."""


class DowelPin:
    """The dowel-pin family."""

    name = "dowel_pin"
    options_model = DowelPinOptions
    strength = staticmethod(dowels.dowel_pin)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Holes in both parts, the dowels, and their glue."""
        meeting = meet(joint, context)
        joint = filled(joint, **dowel_sizes(meeting, inch=joint.inch))
        o = joint.options
        assert isinstance(o, DowelPinOptions)
        normal = meeting.contact.normal
        ways = (meeting.first.frame.width, meeting.first.frame.grain)
        along = laid(normal, *(ways[::-1] if o.along_grain else ways))
        centers = _centers(joint, meeting, along, o=o)
        cuts, marks = [], []
        for part, label, into, depth in (
            (meeting.first, meeting.contact.first_face, scale(normal, -1.0), o.depth_first),
            (meeting.second, meeting.contact.second_face, normal, o.depth_second),
        ):
            for center in centers:
                mouth = Mouth(center=center, along=along, length_mm=o.diameter, width_mm=o.diameter)
                check_mouth(joint, "diameter", part, label=label, mouth=mouth, what="hole")
                hollow = Hollow(at=center, into=into, depth_mm=depth, what="hole")
                which = "depth_first" if part is meeting.first else "depth_second"
                check_depth(joint, which, part, hollow=hollow)
                frame = part.frame.frame_in(slot_frame(center, into=into, along=along))
                cuts.append(
                    Cut(
                        part=part.name,
                        tool=Hole(frame=frame, diameter_mm=o.diameter, depth_mm=depth),
                        what="dowel hole",
                    )
                )
                marks.append(_mark(part, center, label, o=o, depth=depth))
        slope = slope_deg(meeting.first, normal)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=meeting.first.name,
            second=meeting.second.name,
            at=meeting.contact.center,
            leaves=scale(normal, -1.0),
            cuts=tuple(cuts),
            marks=tuple(marks),
            connectors=(_dowels(meeting, centers, along, o=o),),
            glue=(_glue(meeting, centers, along, o=o),) if o.glued else (),
            clamp=ClampNeed(direction=normal, area_mm2=meeting.contact.area_mm2, slope_deg=slope)
            if o.glued
            else None,
            dry=not o.glued,
            steps=(
                "Bore both parts from their reference faces with one fence setting, or with center points.",
            ),
        )


def _length_mm(o: DowelPinOptions) -> float:
    """Length of a dowel. [mm]"""
    return o.depth_first + o.depth_second - 2.0 * o.end_room


def _dowels(meeting: Meeting, centers: list[Vec], along: Vec, *, o: DowelPinOptions) -> Connector:
    normal, middle = meeting.contact.normal, (o.depth_second - o.depth_first) / 2.0
    return Connector(
        kind=ConnectorKind.DOWEL,
        count=len(centers),
        size_mm=(o.diameter, _length_mm(o)),
        drill_mm=(o.diameter, max(o.depth_first, o.depth_second)),
        note="fluted, ends chamfered",
        frames=tuple(slot_frame(moved(c, normal, middle), into=normal, along=along) for c in centers),
    )


def _glue(meeting: Meeting, centers: list[Vec], along: Vec, *, o: DowelPinOptions) -> GlueFace:
    ends = {End.START.value, End.END.value}
    on_end = {meeting.contact.first_face, meeting.contact.second_face} & ends
    return GlueFace(
        parts=(meeting.first.name, meeting.second.name),
        area_mm2=math.pi * o.diameter * _length_mm(o) * len(centers),
        grain_angle_deg=grain_angle_deg(meeting.first, meeting.second),
        end_grain_share=0.5 if on_end else 0.0,
        cross_span_mm=_cross_span(meeting, centers, along),
        length_mm=abs(dot(along, centers[-1]) - dot(along, centers[0])),
    )


def _centers(joint: JointRequest, meeting: Meeting, along: Vec, *, o: DowelPinOptions) -> list[Vec]:
    low, high = meeting.contact.extent(along)
    middle = dot(meeting.contact.center, along)
    inset = min(o.inset, (high - low) / 2.0)
    places = spread(low, high, count=int(o.count), inset_mm=inset)
    check_apart(joint, "count", places, size_mm=o.diameter, what="dowels")
    return [moved(meeting.contact.center, along, place - middle) for place in places]


def _cross_span(meeting: Meeting, centers: list[Vec], along: Vec) -> float:
    """Distance between the outer dowels where the two parts would move against each other there. [mm]"""
    if grain_angle_deg(meeting.first, meeting.second) < 30.0:
        return 0.0
    return abs(dot(along, centers[-1]) - dot(along, centers[0]))


def _mark(part: Part, center: Vec, label: str, *, o: DowelPinOptions, depth: float) -> Mark:
    spot = spot_on(part, center, label)
    return Mark(
        part=part.name,
        kind=MarkKind.HOLE,
        **spot.measured,
        length_mm=o.diameter,
        width_mm=o.diameter,
        depth_mm=depth,
        fit=Fit.TIGHT,
        setup=f"{o.diameter:g} mm bit, {depth:g} mm deep, {'end' if spot.on_end else 'side'}",
    )
