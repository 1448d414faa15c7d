"""A stay that holds a lid where it is let go: its pivots on box and lid, its length open and shut."""

from __future__ import annotations

import math
from typing import Literal

from pydantic import Field

from scantling.joinery.fastening import pilot_share
from scantling.joinery.fitting import cannot_be_made, wood_behind_mm
from scantling.joinery.meeting import meet, moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
from scantling.joinery.work import (
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    Hole,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.convex import body_of, face_direction, named_face
from scantling.piece.files import Angle, Length
from scantling.piece.geometry import Vec, add, cross, dot, scale, sub, unit
from scantling.piece.model import Direction, JointRequest, Part

__all__ = ["LidStay", "LidStayOptions", "stay_lengths_mm"]

_OVER_MM = 2.0


class LidStayOptions(JointOptions):
    """A stay from a lid (first) to the side of its box that it lies on (second, with its inner FACE)."""

    kind: Literal["lid_stay"]
    hinge: Direction = Direction.BACK
    """The side on which the lid is hinged."""
    back: Length = Field(default=60, gt=0)
    """From the hinges to the pivot on the box."""
    down: Length = Field(default=90, gt=0)
    """From the edge of the box down to that pivot."""
    out: Length = Field(default=220, gt=0)
    """From the hinges to the pivot on the lid."""
    opens: Angle = Field(default=95, ge=45, le=120)
    """How far the lid opens."""
    screw: tuple[PositiveLength, PositiveLength] = (3.5, 14.0)
    """Diameter and length of its screws, two on the lid and two on the box."""


def stay_lengths_mm(
    *, back_mm: float, down_mm: float, out_mm: float, opens_deg: float
) -> tuple[float, float]:
    """Distance between a stay's pivots with the lid shut, and open. [mm]

    Seen from the side with the hinge in the corner: one pivot ``back_mm`` in front of it and ``down_mm``
    below, the other ``out_mm`` along the lid, which turns.

    Examples
    --------
    Shut, 160 and 120 make 200; upright, 60 and 220 + 120:

    >>> stay_lengths_mm(back_mm=60, down_mm=120, out_mm=220, opens_deg=90.0)[0]
    200.0
    >>> round(stay_lengths_mm(back_mm=60, down_mm=120, out_mm=220, opens_deg=90.0)[1], 1)
    345.3
    """
    shut = math.hypot(out_mm - back_mm, down_mm)
    a = math.radians(opens_deg)
    return shut, math.hypot(out_mm * math.cos(a) - back_mm, out_mm * math.sin(a) + down_mm)


class LidStay:
    """The lid-stay family."""

    name = "lid_stay"
    options_model = LidStayOptions
    strength = staticmethod(metal.hinged)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Screw holes for both ends of the stay, and the stay to buy by its length open and shut."""
        o = joint.options
        assert isinstance(o, LidStayOptions)
        lid, side = context.parts[joint.first.part], context.parts[joint.second.part]
        up, inner = _lid_and_face(joint, context, o)
        rear = body_of(side).extent(o.hinge.vector)[1]
        edge = body_of(side).extent(up)[1]
        on_side = _at(side, inner, (o.hinge.vector, rear - o.back), (up, edge - o.down))
        on_lid = moved(on_side, o.hinge.vector, o.back - o.out)
        on_lid = moved(on_lid, up, body_of(lid).extent(up)[0] - dot(on_lid, up))
        shut, opened = stay_lengths_mm(back_mm=o.back, down_mm=o.down, out_mm=o.out, opens_deg=o.opens)
        cuts: list[Cut] = []
        marks: list[Mark] = []
        for part, at, into in ((side, on_side, scale(inner, -1.0)), (lid, moved(on_lid, inner, 10.0), up)):
            made = _fixed(joint, part, at, into, o)
            cuts += made[0]
            marks.append(made[1])
        middle = scale(add(on_side, on_lid), 0.5)
        along = unit(sub(on_lid, on_side))
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=lid.name,
            second=side.name,
            at=on_lid,
            leaves=up,
            cuts=tuple(cuts),
            marks=tuple(marks),
            connectors=(
                Connector(
                    kind=ConnectorKind.LID_STAY,
                    count=1,
                    size_mm=(3.0, 12.0, shut),
                    note=f"{shut:.0f} mm between its pivots shut, {opened:.0f} mm open; must hold the lid "
                    "wherever it is let go",
                    frames=(slot_frame(moved(middle, inner, 3.0), into=along, along=cross(along, inner)),),
                ),
                Connector(
                    kind=ConnectorKind.SCREW,
                    count=4,
                    size_mm=o.screw,
                    drill_mm=(min(map(pilot_share, (lid, side))) * o.screw[0], o.screw[1]),
                    note="two at each end of a stay",
                ),
            ),
            dry=True,
            passes=True,
            steps=(
                "Have the stay in hand: set out its pivots by its own length, open and shut, before boring.",
                "Hold the lid open while it is fitted, by something that cannot slip; hands out of the edge.",
                "Try it at every height: let go, the lid is to stay or to sink slowly, never to fall.",
            ),
        )


def _lid_and_face(joint: JointRequest, context: JointContext, o: LidStayOptions) -> tuple[Vec, Vec]:
    """The way up into the lid, and the way out of the side's face the stay is on."""
    meeting = meet(joint, context, ignore_second_face=True)
    up = scale(meeting.contact.normal, -1.0)
    face = None if joint.second.face is None else named_face(meeting.second, joint.second.face)
    if face is None or abs(dot(face.normal, up)) > 0.1 or abs(dot(face.normal, o.hinge.vector)) > 0.1:
        raise cannot_be_made(
            joint,
            "",
            code="stay_side_missing",
            value=str(joint.second),
            rule="must name the face of the side that the stay is screwed to",
            remedy=f"Write {meeting.second.name}.FACE, the face on the inside of the box.",
        )
    return up, face.normal


def _at(part: Part, inner: Vec, *places: tuple[Vec, float]) -> Vec:
    """A place on a face: where it lies along two ways. World. [mm]"""
    _, face = body_of(part).extent(inner)
    at = scale(inner, face)
    for way, place in places:
        at = moved(at, way, place - dot(at, way))
    return at


def _fixed(joint: JointRequest, part: Part, at: Vec, into: Vec, o: LidStayOptions) -> tuple[list[Cut], Mark]:
    """Two pilot holes beside each other, and their mark."""
    wood = wood_behind_mm(part, at, into)
    if o.screw[1] > wood - 0.01:
        raise cannot_be_made(
            joint,
            "screw",
            code="screw_too_long",
            value=f"{o.screw[1]:.1f} mm into {wood:.1f} mm of {part.name}",
            rule="must end inside the part",
            remedy="Choose shorter screws.",
        )
    size = pilot_share(part) * o.screw[0]
    cuts = []
    for aside in (8.0, -8.0):
        frame = slot_frame(
            moved(moved(at, o.hinge.vector, aside), into, -_OVER_MM), into=into, along=o.hinge.vector
        )
        tool = Hole(frame=part.frame.frame_in(frame), diameter_mm=size, depth_mm=o.screw[1] + _OVER_MM)
        cuts.append(Cut(part=part.name, tool=tool, what="pilot hole"))
    face = named_face(part, face_direction(scale(into, -1.0)))
    spot = spot_on(part, at, face.label if face else "thickness+")
    return cuts, Mark(
        part=part.name,
        kind=MarkKind.HOLE,
        **spot.measured,
        length_mm=size,
        width_mm=size,
        depth_mm=o.screw[1],
        fit=Fit.TIGHT,
        setup=f"{size:.1f} mm pilot holes for stays",
        note="the pivot; two screws, 8 mm to each side of it",
    )
