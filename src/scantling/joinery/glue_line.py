"""Edge glue and face lamination: two parts glued flat along the grain, nothing cut."""

from __future__ import annotations

import math
from typing import Literal

from scantling.errors import InputError
from scantling.joinery.meeting import Meeting, across, grain_angle_deg, meet
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.work import ClampNeed, GlueFace, JointContext, JointWork
from scantling.piece.geometry import cross, dot, scale
from scantling.piece.model import End, JointRequest

__all__ = ["EdgeGlue", "EdgeGlueOptions", "FaceLamination", "FaceLaminationOptions"]


class EdgeGlueOptions(JointOptions):
    """Two parts glued edge to edge, grain along grain."""

    kind: Literal["edge_glue"]


class FaceLaminationOptions(JointOptions):
    """Two parts glued face to face, grain along grain."""

    kind: Literal["face_lamination"]


_STAVES = (
    "Rip all edges at one setting, tried on scraps that close to the whole ring.",
    "Lay the staves side by side, outer faces up, and tape across every seam; turn them over, spread the "
    "open seams, roll up the ring and draw it shut with bands.",
)
"""How boards with edges out of square are glued up (common practice)."""
_LEAST_TURN_DEG = 2.0


def _corner_deg(meeting: Meeting) -> float:
    """By how much the faces turn where edges ripped out of square meet; 0 where they run on. [deg]"""
    first, second = meeting.first, meeting.second
    if not first.edges or not second.edges:
        return 0.0
    cosine = abs(dot(first.frame.thickness, second.frame.thickness))
    turn = math.degrees(math.acos(min(1.0, cosine)))
    return turn if turn > _LEAST_TURN_DEG else 0.0


class _GlueLine:
    """What both families do."""

    name: str
    steps: tuple[str, ...]

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The glue line, its area and the squeeze it wants."""
        meeting = meet(joint, context)
        _check_grain(joint, meeting)
        contact = meeting.contact
        along = across(meeting.first.frame.grain, contact.normal)
        low, high = contact.extent(along)
        turned = grain_angle_deg(meeting.first, meeting.second)
        turn_deg = _corner_deg(meeting)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=meeting.first.name,
            second=meeting.second.name,
            at=contact.center,
            leaves=scale(contact.normal, -1.0),
            glue=(
                GlueFace(
                    parts=(meeting.first.name, meeting.second.name),
                    area_mm2=contact.area_mm2,
                    grain_angle_deg=turned,
                    end_grain_share=0.0,
                    cross_span_mm=_cross_span_mm(meeting) if turned > 30.0 else 0.0,
                    length_mm=high - low,
                ),
            ),
            clamp=ClampNeed(
                direction=contact.normal,
                area_mm2=contact.area_mm2,
                turn_deg=turn_deg,
                corner_mm=high - low if turn_deg else 0.0,
            ),
            steps=_STAVES if turn_deg else self.steps,
        )


class EdgeGlue(_GlueLine):
    """The edge-glue family."""

    name = "edge_glue"
    options_model = EdgeGlueOptions
    strength = staticmethod(cases.seam)
    steps = (
        "Joint both edges in one setting, faces turned opposite ways, so that their angles cancel.",
        "Try them dry: no light through the seam, ends closed first.",
    )


class FaceLamination(_GlueLine):
    """The face-lamination family."""

    name = "face_lamination"
    options_model = FaceLaminationOptions
    strength = staticmethod(cases.seam)
    steps = (
        "Plane both faces the same day; a sanded face does not close.",
        "Keep the layers from creeping: two pins in the waste, or clamp the edges first, lightly.",
    )


def _cross_span_mm(meeting: Meeting) -> float:
    """Longest glued distance across the grain of either part. [mm]"""
    spans = []
    for part in (meeting.first, meeting.second):
        along = across(part.frame.grain, meeting.contact.normal)
        low, high = meeting.contact.extent(cross(meeting.contact.normal, along))
        spans.append(high - low)
    return max(spans)


def _check_grain(joint: JointRequest, meeting: Meeting) -> None:
    """Refuses an end-grain face: such a joint holds nothing without a tenon."""
    ends = {End.START.value, End.END.value}
    if meeting.contact.first_face in ends or meeting.contact.second_face in ends:
        raise InputError(
            code="end_grain_glue",
            field=f"joints.{joint.like}",
            value=f"{joint.first} on {joint.second}",
            rule="must glue long grain to long grain; end grain does not hold",
            remedy="Use a loose tenon, dowels or a housing.",
        )
