"""Round tenon: the end of a stick turned to fit a bored hole, wedged across the grain of the part it enters."""

from __future__ import annotations

import math
from typing import Literal

from pydantic import Field

from scantling.errors import InputError
from scantling.joinery.meeting import Meeting, across, grain_angle_deg, meet, moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.work import (
    ClampNeed,
    Connector,
    ConnectorKind,
    Cut,
    Extension,
    Fit,
    GlueFace,
    Hole,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
    Turned,
)
from scantling.piece.files import Length
from scantling.piece.geometry import Frame, Vec, add, cross, dot, scale, sub, unit
from scantling.piece.model import End, JointRequest, Part

__all__ = ["RoundTenon", "RoundTenonOptions"]

_OVER_MM = 3.0


class RoundTenonOptions(JointOptions):
    """The end of the first part, turned or shaved round, in a hole bored in the second along its axis."""

    kind: Literal["round_tenon"]
    diameter: Length = Field(gt=0)
    """Diameter of the tenon."""
    depth: Length | None = Field(default=None, gt=0)
    """Depth of a blind hole along the tenon; left out, it goes through."""
    proud: Length = Field(default=6, ge=0)
    """How far a through tenon stands out, to be cut flush after wedging."""
    wedge: tuple[Length, Length] | None = None
    """Thickness and length of a wedge driven into the tenon's end."""
    glued: bool = True
    """Whether it is glued."""


class RoundTenon:
    """The round-tenon family."""

    name = "round_tenon"
    options_model = RoundTenonOptions

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The turned end, the hole along the stick's axis, and the wedge."""
        o = joint.options
        assert isinstance(o, RoundTenonOptions)
        meeting = meet(joint, context)
        first, second = meeting.first, meeting.second
        end = _end(joint, meeting)
        axis = first.frame.grain if end is End.END else scale(first.frame.grain, -1.0)
        cosine = dot(axis, meeting.contact.normal)
        through = _thickness(second, meeting.contact.normal) / cosine
        depth = o.depth if o.depth is not None else through
        length = depth + (o.proud if o.depth is None else 0.0)
        mouth = _mouth(first, meeting, axis)
        hole = Frame(
            origin=moved(mouth, axis, -_OVER_MM),
            grain=axis,
            width=(w := across(second.frame.grain, axis)),
            thickness=cross(axis, w),
        )
        bore = Hole(
            frame=second.frame.frame_in(hole),
            diameter_mm=o.diameter,
            depth_mm=depth + _OVER_MM * (2.0 if o.depth is None else 1.0),
        )
        turned = _turned(first, mouth, axis, diameter=o.diameter, length=length)
        lean = math.degrees(math.acos(min(1.0, cosine)))
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=mouth,
            leaves=scale(axis, -1.0),
            cuts=(
                Cut(part=first.name, tool=turned, what="round tenon"),
                Cut(part=second.name, tool=bore, what="hole"),
            ),
            extensions=(Extension(part=first.name, end=end, length_mm=length),),
            marks=_marks(meeting, mouth, end, o=o, depth=depth, lean=lean),
            connectors=_wedges(o, second, mouth, axis, length),
            glue=(
                GlueFace(
                    parts=(first.name, second.name),
                    area_mm2=math.pi * o.diameter * depth,
                    grain_angle_deg=grain_angle_deg(first, second),
                    end_grain_share=0.5,
                    cross_span_mm=o.diameter,
                    length_mm=depth,
                ),
            )
            if o.glued
            else (),
            clamp=None,
            dry=not o.glued,
            moment_nmm=None,
            steps=(
                "Bore the hole from the show face along the sight line, a bevel set to the lean beside the bit.",
                "Shave the tenon to a hole bored in scrap with the same bit; the last tenth with a file.",
                "Saw the wedge slot square to the grain of the part it enters; drive the wedge across that grain.",
            ),
        )


def _end(joint: JointRequest, meeting: Meeting) -> End:
    if meeting.contact.first_face in set(End):
        return End(meeting.contact.first_face)
    raise InputError(
        code="tenon_not_on_end",
        field=f"joints.{joint.like}",
        value=str(joint.first),
        rule="must name the end of a stick that runs against the second part",
        remedy="Trim the stick by the face it enters and write PART.start or PART.end.",
    )


def _thickness(part: Part, normal: Vec) -> float:
    """Thickness of a part along a face normal. [mm]"""
    local = part.frame.local_direction(normal)
    return part.thickness_mm if abs(local[2]) > abs(local[1]) else part.width_mm


def _mouth(first: Part, meeting: Meeting, axis: Vec) -> Vec:
    """Where the stick's axis meets the face."""
    origin = first.frame.origin
    reach = dot(sub(meeting.contact.corners[0], origin), meeting.contact.normal)
    return add(origin, scale(axis, reach / dot(axis, meeting.contact.normal)))


def _turned(first: Part, mouth: Vec, axis: Vec, *, diameter: float, length: float) -> Turned:
    """Everything round the tenon comes off, from the face of the second part outward."""
    side = unit(across(first.frame.width, axis))
    frame = Frame(origin=mouth, grain=axis, width=side, thickness=cross(axis, side))
    return Turned(frame=first.frame.frame_in(frame), diameter_mm=diameter, length_mm=length + 40.0)


def _marks(
    meeting: Meeting, mouth: Vec, end: End, *, o: RoundTenonOptions, depth: float, lean: float
) -> tuple[Mark, ...]:
    first, second = meeting.first, meeting.second
    spot = spot_on(second, mouth, meeting.contact.second_face)
    hole = Mark(
        part=second.name,
        kind=MarkKind.HOLE,
        on_end=spot.on_end,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=o.diameter,
        width_mm=o.diameter,
        depth_mm=depth,
        fit=Fit.TIGHT,
        setup=f"{o.diameter:g} mm bit, leaning {lean:.1f} deg",
        tilt_deg=lean,
        note="through" if o.depth is None else "blind",
    )
    tenon = Mark(
        part=first.name,
        kind=MarkKind.TENON,
        on_end=True,
        end=end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=first.width_mm / 2.0,
        from_face_mm=first.thickness_mm / 2.0,
        length_mm=o.diameter,
        width_mm=o.diameter,
        depth_mm=depth + (o.proud if o.depth is None else 0.0),
        fit=Fit.TIGHT,
        setup=f"round tenons {o.diameter:g} mm",
        note="on the axis",
    )
    return hole, tenon


def _wedges(o: RoundTenonOptions, second: Part, mouth: Vec, axis: Vec, length: float) -> tuple[Connector, ...]:
    if o.wedge is None:
        return ()
    thickness, long = o.wedge
    wide = across(second.frame.width, axis)
    at = moved(mouth, axis, length - long / 2.0)
    return (
        Connector(
            kind=ConnectorKind.WEDGE,
            count=1,
            size_mm=(thickness, o.diameter, long),
            note="hard, straight-grained; driven so that it spreads along the grain of the part it locks in",
            frames=(slot_frame(at, into=axis, along=wide),),
        ),
    )
