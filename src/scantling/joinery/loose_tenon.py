"""Loose tenon: a separate tongue glued into two mortises, tight in one part and long in the other."""

from __future__ import annotations

from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.joinery.bending import bent_nmm, section_mm3, turning_way
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
from scantling.joinery.proportions import filled, loose_tenon_sizes
from scantling.joinery.strength import tenons
from scantling.joinery.work import (
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
    Slot,
)
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Frame, Vec, cross, dot, scale
from scantling.piece.model import JointRequest, Part, PartKind

__all__ = ["LongIn", "LooseTenon", "LooseTenonOptions"]


class LongIn(StrEnum):
    """The part whose mortise is cut longer than the tenon, so that the joint can be adjusted."""

    FIRST = "first"
    SECOND = "second"
    NEITHER = "neither"


class LooseTenonOptions(JointOptions):
    """Loose tenons from the end (or face) of the first part into the second."""

    kind: Literal["loose_tenon"]
    thickness: Length = Field(default=0, gt=0)
    """Thickness of the tenon, which is the cutter's diameter; left out, a third of the thinner part."""
    width: Length = Field(default=0, gt=0)
    """Width of the tenon; left out, three fifths of the joint, at most six times its thickness."""
    depth_first: Length = Field(default=0, gt=0)
    """Depth of the mortise in the first part; left out, four times the thickness."""
    depth_second: Length = Field(default=0, gt=0)
    """Depth of the mortise in the second part; left out, as the first, with 6 mm of wood behind it."""
    count: Count = Field(default=1, ge=1, le=24)
    """Tenons side by side along the width of the joint."""
    along_grain: bool = False
    """Whether their row runs along the first part's grain (an edge) instead of its width (an end)."""
    inset: Length = Field(default=0, ge=0)
    """From the edge of the joint to the center of the outer tenon, when there are several."""
    long_in: LongIn = LongIn.SECOND
    """Which mortise is cut long."""
    long_by: Length = Field(default=3, ge=0)
    """How much longer it is than the tenon is wide."""
    end_room: Length = Field(default=1, ge=0)
    """Room for glue at each end of the tenon."""
    shift: tuple[Length, Length] = (0.0, 0.0)
    """Moves the tenons from the middle of the joint: along the first part's width, and across it."""


class LooseTenon:
    """The loose-tenon family."""

    name = "loose_tenon"
    options_model = LooseTenonOptions
    strength = staticmethod(tenons.loose_tenon)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Mortises in both parts, the tenons to make, glue, clamping, and what the joint may carry."""
        asked, meeting = joint.options, meet(joint, context)
        assert isinstance(asked, LooseTenonOptions)
        sizes = loose_tenon_sizes(
            meeting, count=float(asked.count), along_grain=asked.along_grain, inch=joint.inch
        )
        joint = filled(joint, **sizes)
        o = joint.options
        assert isinstance(o, LooseTenonOptions)
        centers, along = _centers(joint, meeting, o)
        normal = meeting.contact.normal
        sides = (
            _Side(
                meeting.first, meeting.contact.first_face, scale(normal, -1.0), o.depth_first, LongIn.FIRST
            ),
            _Side(meeting.second, meeting.contact.second_face, normal, o.depth_second, LongIn.SECOND),
        )
        cuts, marks = [], []
        for side in sides:
            for center in centers:
                frame = slot_frame(center, into=side.into, along=along)
                side.check(joint, frame, o)
                cuts.append(side.cut(frame, o))
                marks.append(side.mark(frame, o))
        first, second = meeting.first, meeting.second
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=meeting.contact.center,
            leaves=scale(normal, -1.0),
            cuts=tuple(cuts),
            marks=tuple(marks),
            connectors=(_tenons(meeting, centers, along, o=o),),
            glue=(_glue(meeting, o, len(centers)),),
            clamp=ClampNeed(
                direction=normal,
                area_mm2=meeting.contact.area_mm2,
                slope_deg=slope_deg(first, normal),
            ),
            breaking_nmm=_breaking_nmm(meeting, along, o, count=len(centers)),
            tenons_along=along,
            steps=(
                "Mark the center lines of the mortises on both parts while they lie together.",
                "Cut all mortises to the tenon's width."
                if o.long_in is LongIn.NEITHER
                else "Cut the tight mortises first, then set the cutter to the long width for the others.",
                "Try a tenon dry: it should slide in by hand and not fall out.",
            ),
        )


def _length_mm(o: LooseTenonOptions) -> float:
    """Length of a tenon. [mm]"""
    return o.depth_first + o.depth_second - 2.0 * o.end_room


def _tenons(meeting: Meeting, centers: list[Vec], along: Vec, *, o: LooseTenonOptions) -> Connector:
    normal, middle = meeting.contact.normal, (o.depth_second - o.depth_first) / 2.0
    return Connector(
        kind=ConnectorKind.LOOSE_TENON,
        count=len(centers),
        size_mm=(o.thickness, o.width, _length_mm(o)),
        note="edges rounded to the cutter",
        frames=tuple(slot_frame(moved(c, normal, middle), into=normal, along=along) for c in centers),
    )


def _glue(meeting: Meeting, o: LooseTenonOptions, count: int) -> GlueFace:
    """Both cheeks of the tenons, over their length."""
    turned = grain_angle_deg(meeting.first, meeting.second)
    return GlueFace(
        parts=(meeting.first.name, meeting.second.name),
        area_mm2=2.0 * o.width * _length_mm(o) * count,
        grain_angle_deg=turned,
        end_grain_share=0.0,
        cross_span_mm=o.width if turned > 30.0 else 0.0,
        length_mm=o.width,
    )


class _Side:
    """One of the two parts: its face, the way into its wood, and how deep."""

    def __init__(self, part: Part, label: str, into: Vec, depth_mm: float, which: LongIn) -> None:
        self.part, self.label, self.into, self.depth_mm, self.which = part, label, into, depth_mm, which

    def length_mm(self, o: LooseTenonOptions) -> float:
        return o.width + (o.long_by if o.long_in is self.which else 0.0)

    def check(self, joint: JointRequest, frame: Frame, o: LooseTenonOptions) -> None:
        """Refuse a mortise that stands out over its face, or comes out on the far side."""
        mouth = Mouth(
            center=frame.origin, along=frame.width, length_mm=self.length_mm(o), width_mm=o.thickness
        )
        check_mouth(joint, "width", self.part, label=self.label, mouth=mouth)
        hollow = Hollow(at=frame.origin, into=self.into, depth_mm=self.depth_mm)
        check_depth(joint, f"depth_{self.which.value}", self.part, hollow=hollow)

    def cut(self, frame: Frame, o: LooseTenonOptions) -> Cut:
        tool = Slot(
            frame=self.part.frame.frame_in(frame),
            length_mm=self.length_mm(o),
            width_mm=o.thickness,
            depth_mm=self.depth_mm,
        )
        return Cut(part=self.part.name, tool=tool, what="mortise")

    def mark(self, frame: Frame, o: LooseTenonOptions) -> Mark:
        spot = spot_on(self.part, frame.origin, self.label)
        long = o.long_in is self.which and o.long_by > 0.0
        where = "end" if spot.on_end else "side"
        return Mark(
            part=self.part.name,
            kind=MarkKind.MORTISE,
            **spot.measured,
            length_mm=self.length_mm(o),
            width_mm=o.thickness,
            depth_mm=self.depth_mm,
            fit=Fit.LONG if long else Fit.TIGHT,
            setup=f"{o.thickness:g} mm cutter, {self.depth_mm:g} mm deep, "
            f"{'long' if long else 'tight'}, {where}",
        )


def _centers(joint: JointRequest, meeting: Meeting, o: LooseTenonOptions) -> tuple[list[Vec], Vec]:
    contact = meeting.contact
    ways = (meeting.first.frame.width, meeting.first.frame.grain)
    along = laid(contact.normal, *(ways[::-1] if o.along_grain else ways))
    side = _across(meeting.first, contact.normal, along)
    low, high = contact.extent(along)
    middle = dot(contact.center, along)
    base = moved(moved(contact.center, along, o.shift[0]), side, o.shift[1])
    inset = o.inset or o.width / 2.0 + 10.0
    places = spread(low, high, count=int(o.count), inset_mm=inset) if o.count > 1 else (middle,)
    long = o.width + (0.0 if o.long_in is LongIn.NEITHER else o.long_by)
    check_apart(joint, "count", places, size_mm=long)
    return [moved(base, along, place - middle) for place in places], along


def _across(first: Part, normal: Vec, along: Vec) -> Vec:
    """Across the width of the tenons, toward the first part's thickness, or its grain: at both ends alike."""
    side = cross(normal, along)
    frame = first.frame
    toward = frame.thickness if abs(dot(side, frame.thickness)) > abs(dot(side, frame.grain)) else frame.grain
    return side if dot(side, toward) >= 0.0 else scale(side, -1.0)


def _breaking_nmm(meeting: Meeting, along: Vec, o: LooseTenonOptions, *, count: int) -> float | None:
    """Bending of the tenons in the plane of both grains at clear strength. [N mm]

    They are of the first part's wood. In a sheet their mortises give way before they do, at what is not
    published here: the joint's strength is then left unjudged.
    """
    way = turning_way(meeting.first, meeting.second, meeting.contact.normal)
    if meeting.second.kind is PartKind.SHEET or way is None:
        return None
    return bent_nmm(meeting.first, count * section_mm3(o.thickness, o.width, along=along, way=way))
