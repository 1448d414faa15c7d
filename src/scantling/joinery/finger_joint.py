"""Finger joint (box joint): straight fingers of both parts between each other at a corner."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from scantling.joinery.corner import Corner, Key, corner_of, marks_of, socket_words, sockets, waste
from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import grain_angle_deg, meet
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.work import ClampNeed, GlueFace, JointContext, JointWork, MarkKind
from scantling.piece.files import Length
from scantling.piece.geometry import scale
from scantling.piece.model import JointRequest, PartKind

__all__ = ["FingerJoint", "FingerJointOptions", "finger_count"]

_LEAST_MM = 3.0
"""Narrowest finger that does not break off in the making (common practice). [mm]"""


class FingerJointOptions(JointOptions):
    """Fingers on the end of the first part (PART.start or PART.end) between those of the second."""

    kind: Literal["finger_joint"]
    finger: Length | None = Field(default=None, gt=0)
    """About how wide a finger is, made to come out even; left out, as the first part is thick."""
    clearance: Length = Field(default=0.1, ge=0, le=0.5)
    """Room of a finger in its socket, in all."""


class FingerJoint:
    """The finger-joint family."""

    name = "finger_joint"
    options_model = FingerJointOptions
    strength = staticmethod(cases.corner)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Fingers of the first part, both edges among them, and their sockets in the second."""
        o = joint.options
        assert isinstance(o, FingerJointOptions)
        meeting = meet(joint, context)
        corner = corner_of(joint, meeting)
        first, second, depth = meeting.first, meeting.second, corner.through_mm
        count = finger_count(corner.width_mm, corner.thick_mm if o.finger is None else o.finger)
        pitch = corner.width_mm / count
        _check(joint, corner, pitch)
        cut = _fingers(corner, count, room_mm=o.clearance)
        sheet = PartKind.SHEET in (first.kind, second.kind)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=corner.at(0.0, 0.0, depth / 2.0),
            leaves=corner.outer,
            cuts=(
                *waste(corner, _fingers(corner, count), depth_mm=depth, what="waste between fingers"),
                *sockets(corner, cut, depth_mm=depth, what="finger socket"),
            ),
            extensions=(corner.extension(depth),),
            marks=marks_of(
                corner,
                _fingers(corner, count),
                depth_mm=depth,
                kinds=(MarkKind.TAIL, MarkKind.SOCKET),
                words=(f"fingers {pitch:.2f} mm wide, {depth:g} mm long", socket_words(corner, depth)),
                note="finger",
            ),
            glue=(
                GlueFace(
                    parts=(first.name, second.name),
                    area_mm2=(count - 1) * depth * corner.thick_mm,
                    grain_angle_deg=grain_angle_deg(first, second),
                    end_grain_share=0.5 if sheet else 0.0,
                    length_mm=corner.width_mm,
                ),
            ),
            clamp=ClampNeed(direction=scale(corner.outer, -1.0), area_mm2=corner.width_mm * depth / 2.0),
            steps=(
                "Make a trial corner of scrap first: the pin of the jig sets the fit, not the drawing.",
                f"Cut fingers of {pitch:.2f} mm; one part has one at both edges, the other a gap.",
                "Brush glue into the sockets sparingly; squeeze both ways with cauls that clear the fingers.",
            ),
        )


def finger_count(width_mm: float, finger_mm: float) -> int:
    """Odd number of fingers and gaps that fill a width, three at least, each as near as may be to a size.

    Examples
    --------
    >>> finger_count(120.0, 12.0), finger_count(30.0, 12.0)
    (11, 3)
    """
    about = max(1, int(width_mm / finger_mm / 2.0))
    odd = (max(3, 2 * half + 1) for half in (about - 1, about, about + 1))
    return min(odd, key=lambda count: (abs(width_mm / count - finger_mm), count))


def _fingers(corner: Corner, count: int, *, room_mm: float = 0.0) -> tuple[Key, ...]:
    pitch = corner.width_mm / count
    wide = pitch + room_mm
    return tuple(
        Key(at_mm=corner.low_mm + (k + 0.5) * pitch, base_mm=wide, wide_mm=wide) for k in range(0, count, 2)
    )


def _check(joint: JointRequest, corner: Corner, pitch: float) -> None:
    if pitch < _LEAST_MM:
        raise cannot_be_made(
            joint,
            "finger",
            code="fingers_too_narrow",
            value=f"fingers of {pitch:.1f} mm in {corner.width_mm:.1f} mm",
            rule=f"must be at least {_LEAST_MM:g} mm wide",
            remedy="Make them wider, or the parts.",
        )
