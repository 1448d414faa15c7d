"""Housing (dado): the end of one part let into a channel across the other."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from scantling.joinery.meeting import Meeting, across, grain_angle_deg, meet, moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.work import (
    Box,
    ClampNeed,
    Cut,
    Extension,
    Fit,
    GlueFace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.files import Length
from scantling.piece.geometry import Frame, Vec, cross, dot, scale
from scantling.piece.model import Direction, End, JointRequest, PartKind

__all__ = ["Housing", "HousingOptions"]

_OVER_MM = 2.0


class HousingOptions(JointOptions):
    """The end of the first part is let into the face of the second."""

    kind: Literal["housing"]
    depth: Length = Field(gt=0)
    """Depth of the housing."""
    stopped: Length = Field(default=0, ge=0)
    """How far it stops short of the stopped edge; 0 runs it through."""
    stopped_at: Direction = Direction.FRONT
    """The edge it stops short of; the first part is notched there to pass it."""
    clearance: Length = Field(default=0.1, ge=0, le=2)
    """Room over the thickness of the part let in, in all."""
    glued: bool = True
    """Whether it is glued."""


class Housing:
    """The housing family."""

    name = "housing"
    options_model = HousingOptions

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The channel, the longer end that fills it, glue and squeeze."""
        o = joint.options
        assert isinstance(o, HousingOptions)
        meeting = meet(joint, context)
        first, second, normal = meeting.first, meeting.second, meeting.contact.normal
        frame, long, wide = _channel(meeting, o)
        end = End(meeting.contact.first_face) if meeting.contact.first_face in set(End) else None
        cuts = [
            Cut(
                part=second.name,
                tool=Box(
                    frame=second.frame.frame_in(frame),
                    length_mm=o.depth + _OVER_MM,
                    width_mm=long,
                    thickness_mm=wide + o.clearance,
                ),
                what="housing",
            )
        ]
        if o.stopped > 0.0:
            cuts.append(_shoulder(meeting, o))
        turned = grain_angle_deg(first, second)
        moves_alike = abs(dot(first.frame.width, second.frame.width)) > 0.9 and turned > 60.0
        sheet = PartKind.SHEET in (first.kind, second.kind)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=meeting.contact.centre,
            leaves=scale(normal, -1.0),
            cuts=tuple(cuts),
            extensions=(Extension(part=first.name, end=end, length_mm=o.depth),) if end else (),
            marks=(_mark(meeting, o, long=long, wide=wide),),
            glue=(
                GlueFace(
                    parts=(first.name, second.name),
                    area_mm2=meeting.contact.area_mm2 + 2.0 * (long - 2 * _OVER_MM) * o.depth,
                    grain_angle_deg=turned,
                    end_grain_share=0.0 if sheet else 0.5,
                    cross_span_mm=0.0 if moves_alike or sheet or turned < 30.0 else first.width_mm,
                    length_mm=first.width_mm,
                ),
            )
            if o.glued
            else (),
            clamp=ClampNeed(direction=normal, area_mm2=meeting.contact.area_mm2) if o.glued else None,
            dry=not o.glued,
            steps=(
                "Fit the width of the housing to the part as it was planed, not to the drawing.",
                "Knife both sides; saw or rout to depth; pare the bottom level.",
            ),
        )


def _way(meeting: Meeting) -> Vec:
    """Direction in which the housing runs: along the first part's width, in the face."""
    return across(meeting.first.frame.width, meeting.contact.normal)


def _channel(meeting: Meeting, o: HousingOptions) -> tuple[Frame, float, float]:
    """World frame of the channel at its mouth, its length with run-out, and its width. [mm]"""
    contact, along = meeting.contact, _way(meeting)
    low, high = contact.extent(along)
    side = cross(contact.normal, along)
    s_low, s_high = contact.extent(side)
    stop = o.stopped_at.vector
    if o.stopped > 0.0:
        if dot(stop, along) > 0.5:
            low, high = low - _OVER_MM, high - o.stopped
        else:
            low, high = low + o.stopped, high + _OVER_MM
    else:
        low, high = low - _OVER_MM, high + _OVER_MM
    centre = contact.centre
    centre = moved(centre, along, (low + high) / 2.0 - dot(centre, along))
    centre = moved(centre, side, (s_low + s_high) / 2.0 - dot(centre, side))
    frame = slot_frame(moved(centre, contact.normal, -_OVER_MM), into=contact.normal, along=along)
    return frame, high - low, s_high - s_low


def _shoulder(meeting: Meeting, o: HousingOptions) -> Cut:
    """The corner taken off the first part so that it passes the stop."""
    contact, along, first = meeting.contact, _way(meeting), meeting.first
    toward = along if dot(o.stopped_at.vector, along) > 0 else scale(along, -1.0)
    _, edge = contact.extent(toward)
    centre = moved(
        contact.centre, toward, edge - o.stopped / 2.0 + _OVER_MM / 2.0 - dot(contact.centre, toward)
    )
    frame = slot_frame(centre, into=contact.normal, along=along)
    tool = Box(
        frame=first.frame.frame_in(frame),
        length_mm=o.depth + _OVER_MM,
        width_mm=o.stopped + _OVER_MM,
        thickness_mm=first.thickness_mm + 2.0 * _OVER_MM,
    )
    return Cut(part=first.name, tool=tool, what="notch for the stop")


def _mark(meeting: Meeting, o: HousingOptions, *, long: float, wide: float) -> Mark:
    second = meeting.second
    spot = spot_on(second, meeting.contact.centre, meeting.contact.second_face)
    length = long - (_OVER_MM if o.stopped > 0.0 else 2.0 * _OVER_MM)
    return Mark(
        part=second.name,
        kind=MarkKind.HOUSING,
        on_end=spot.on_end,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=length,
        width_mm=wide + o.clearance,
        depth_mm=o.depth,
        fit=Fit.TIGHT,
        setup=f"housing {wide:g} wide, {o.depth:g} deep",
        angle_deg=90.0,
        note=f"stopped {o.stopped:g} from the {o.stopped_at.value}" if o.stopped else "through",
    )
