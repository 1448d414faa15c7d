"""Round tenon: the end of a stick turned to fit a bored hole, wedged across the grain it enters."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.errors import InputError
from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import across, grain_angle_deg, laid, meet, moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.proportions import filled, whole_mm
from scantling.joinery.sight_line import sight_line
from scantling.joinery.strength import tenons
from scantling.joinery.work import (
    Connector,
    ConnectorKind,
    Cut,
    Extension,
    Fit,
    GlueFace,
    HalfSpace,
    Hole,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
    Turned,
)
from scantling.piece.convex import body_of
from scantling.piece.files import Length
from scantling.piece.geometry import Frame, Plane, Vec, cross, dot, scale, sub, unit
from scantling.piece.model import End, JointRequest, Part

__all__ = ["RoundTenon", "RoundTenonOptions"]

_OVER_MM = 3.0
_ROUND_GAP_MM = 0.5
"""How far a drawn stick may end from the part it enters and still count as touching. [mm]"""


class RoundTenonOptions(JointOptions):
    """The end of the first part, turned or shaved round, in a hole bored in the second along its axis."""

    kind: Literal["round_tenon"]
    diameter: Length = Field(default=0, gt=0)
    """Diameter of the tenon; left out, that of a round stick there, of a square one two thirds of it."""
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
    strength = staticmethod(tenons.round_tenon)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The turned end, the hole along the stick's axis, and the wedge."""
        first, second = context.parts[joint.first.part], context.parts[joint.second.part]
        entry = _entry(joint, context)
        joint = filled(joint, diameter=_usual_mm(first, entry.end, inch=joint.inch))
        o = joint.options
        assert isinstance(o, RoundTenonOptions)
        end, axis, mouth = entry.end, entry.axis, entry.mouth
        _check(joint, first, second, entry)
        depth = o.depth if o.depth is not None else entry.through_mm
        length = depth + (o.proud if o.depth is None else 0.0)
        over = _over_mm(o.diameter, entry.lean_deg)
        hole = Frame(
            origin=moved(mouth, axis, -over),
            grain=axis,
            width=(w := laid(axis, second.frame.grain, second.frame.width)),
            thickness=cross(axis, w),
        )
        bore = Hole(
            frame=second.frame.frame_in(hole),
            diameter_mm=o.diameter,
            depth_mm=depth + over * (2.0 if o.depth is None else 1.0),
        )
        more = length - entry.reach_mm
        turned = _turned(first, entry, diameter=o.diameter, length=length)
        marks = _marks(first, second, entry, o=o, depth=depth)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=mouth,
            leaves=entry.normal,
            cuts=(
                Cut(part=first.name, tool=turned, what="round tenon"),
                *_shortened(first, entry, length),
                Cut(part=second.name, tool=bore, what="hole"),
            ),
            extensions=(Extension(part=first.name, end=end, length_mm=more),) if more > 0.0 else (),
            marks=marks,
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
            breaking_nmm=None,
            steps=_steps(o, entry, marks[0]),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Entry:
    """How the stick goes into the second part.

    ``reach_mm`` is wood the stick has beyond the mouth already (it was drawn to the other's middle).
    ``lean_deg`` is between the hole and square to the surface it is bored in (for a round part, square to
    its axis). ``back_mm`` is how far before the mouth the shoulder stands, so that it clears the surface.
    ``normal`` looks out of the face it enters: leaning sticks all come out that way together, springing a
    little, as they are driven in.
    """

    end: End
    axis: Vec
    mouth: Vec
    label: str
    through_mm: float
    lean_deg: float
    normal: Vec
    reach_mm: float
    back_mm: float


def _entry(joint: JointRequest, context: JointContext) -> _Entry:
    first, second = context.parts[joint.first.part], context.parts[joint.second.part]
    end = joint.first.end
    if end is None:
        raise InputError(
            code="tenon_not_on_end",
            field=f"joints.{joint.like}",
            value=str(joint.first),
            rule="must name the end of a stick that enters the second part",
            remedy="Write PART.start or PART.end.",
        )
    axis = first.frame.grain if end is End.END else scale(first.frame.grain, -1.0)
    near, far = _line_through(second, first.frame.origin, axis)
    tip = first.frame.point((first.end_mm if end is End.END else first.start_mm, 0.0, 0.0))
    tip_at = dot(sub(tip, first.frame.origin), axis)
    if (
        near is None
        or far is None
        or near.at_mm > tip_at + _ROUND_GAP_MM
        or far.at_mm < tip_at - _ROUND_GAP_MM
    ):
        meet(joint, context)  # says how far apart they are
        raise InputError(
            code="tenon_misses",
            field=f"joints.{joint.like}",
            value=f"the axis of {joint.first}, which goes past {second.name}",
            rule="must enter the second part along the stick's axis",
            remedy="Move the stick so that its axis meets the part it enters.",
        )
    on_round = near.label == "side"
    lean = math.acos(min(1.0, abs(dot(axis, near.normal))))
    if on_round:
        lean = math.asin(min(1.0, abs(dot(axis, second.frame.grain))))
    return _Entry(
        end=end,
        axis=axis,
        mouth=moved(first.frame.origin, axis, near.at_mm),
        label=near.label,
        through_mm=far.at_mm - near.at_mm,
        lean_deg=math.degrees(lean),
        normal=scale(axis, -1.0) if on_round else near.normal,
        reach_mm=max(0.0, tip_at - near.at_mm),
        back_mm=_half_size_mm(first, end) * math.tan(min(lean, 1.4)),
    )


def _over_mm(diameter_mm: float, lean_deg: float) -> float:
    """How far a leaning bit is carried past a face, so that no crescent is left at the rim. [mm]"""
    return _OVER_MM + diameter_mm / 2.0 * math.tan(min(math.radians(lean_deg), 1.4))


def _half_size_mm(first: Part, end: End) -> float:
    """From the axis to the farthest of the section, at an end. [mm]"""
    if first.round is None:
        return math.hypot(first.width_mm, first.thickness_mm) / 2.0
    return (first.round.end_mm if end is End.END else first.round.start_mm) / 2.0


def _usual_mm(first: Part, end: End, *, inch: bool) -> float:
    """Diameter of a tenon as usual: the round stick itself, or two thirds of a square one. [mm]"""
    if first.round is not None:
        return first.round.end_mm if end is End.END else first.round.start_mm
    return max(1.0, whole_mm(2.0 * min(first.width_mm, first.thickness_mm) / 3.0, inch=inch))


def _check(joint: JointRequest, first: Part, second: Part, entry: _Entry) -> None:
    """Refuse a tenon thicker than its stick, and a blind hole that comes out on the far side."""
    o = joint.options
    assert isinstance(o, RoundTenonOptions)
    size = min(first.width_mm, first.thickness_mm)
    if first.round is not None:
        size = first.round.end_mm if entry.end is End.END else first.round.start_mm
    if o.diameter > size + 1e-6:
        raise cannot_be_made(
            joint,
            "diameter",
            code="tenon_over_stick",
            value=f"a {o.diameter:.1f} mm tenon on {joint.first}, which is {size:.1f} mm there",
            rule="must not be thicker than the stick it is turned on",
            remedy="Make the tenon thinner, or the stick thicker.",
        )
    if o.depth is not None and o.depth > entry.through_mm - 0.01:
        raise cannot_be_made(
            joint,
            "depth",
            code="deeper_than_part",
            value=f"a hole {o.depth:.1f} mm deep in {entry.through_mm:.1f} mm of {second.name}",
            rule="must end inside the part",
            remedy="Make it less deep, or leave depth out for a tenon that goes through.",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Crossing:
    at_mm: float
    label: str
    normal: Vec


def _line_through(part: Part, origin: Vec, axis: Vec) -> tuple[_Crossing | None, _Crossing | None]:
    """Where a line enters and leaves a part."""
    near: _Crossing | None = None
    far: _Crossing | None = None
    for face in body_of(part).faces:
        slope = dot(axis, face.normal)
        if abs(slope) < 1e-9:
            if face.plane.distance(origin) > 0.0:
                return None, None
            continue
        at = -face.plane.distance(origin) / slope
        here = _Crossing(at_mm=at, label=face.label, normal=face.normal)
        if slope < 0.0 and (near is None or at > near.at_mm):
            near = here
        if slope > 0.0 and (far is None or at < far.at_mm):
            far = here
    if near is None or far is None or near.at_mm >= far.at_mm:
        return None, None
    return near, far


def _turned(first: Part, entry: _Entry, *, diameter: float, length: float) -> Turned:
    """Everything round the tenon comes off, from a square shoulder that just clears the second part."""
    axis, back = entry.axis, entry.back_mm
    side = unit(across(first.frame.width, axis))
    shoulder = moved(entry.mouth, axis, -back)
    frame = Frame(origin=shoulder, grain=axis, width=side, thickness=cross(axis, side))
    return Turned(frame=first.frame.frame_in(frame), diameter_mm=diameter, length_mm=back + length + 40.0)


def _shortened(first: Part, entry: _Entry, length: float) -> tuple[Cut, ...]:
    """The cut that ends the tenon at its depth, where the stick was drawn longer."""
    if entry.reach_mm <= length + 1e-6:
        return ()
    plane = Plane(point=moved(entry.mouth, entry.axis, length), normal=entry.axis)
    return (Cut(part=first.name, tool=HalfSpace(plane=first.frame.plane_in(plane)), what="end of the tenon"),)


def _marks(
    first: Part, second: Part, entry: _Entry, *, o: RoundTenonOptions, depth: float
) -> tuple[Mark, ...]:
    spot = spot_on(second, entry.mouth, entry.label)
    lean, end = entry.lean_deg, entry.end
    on_round = entry.label == "side"
    line = sight_line(second, into=entry.axis, normal=None if on_round else entry.normal, on_end=spot.on_end)
    hole = Mark(
        part=second.name,
        kind=MarkKind.HOLE,
        **spot.measured,
        length_mm=o.diameter,
        width_mm=o.diameter,
        depth_mm=depth,
        fit=Fit.TIGHT,
        setup=f"{o.diameter:g} mm bit, " + (f"leaning {lean:.1f} deg" if line.toward else "square"),
        angle_deg=line.angle_deg,
        tilt_deg=lean,
        toward=line.toward,
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
        round=True,
        note=f"on the axis; shoulder {entry.back_mm:.1f} mm clear of the surface"
        if entry.back_mm > 0.1
        else "on the axis",
    )
    return hole, tenon


def _steps(o: RoundTenonOptions, entry: _Entry, hole: Mark) -> tuple[str, ...]:
    """How this one is cut: leaning or square, through or blind, wedged or plain."""
    return (
        *_boring(o, entry, hole),
        "Shave the tenon to a hole bored in scrap with the same bit; the last tenth with a file.",
        *_ending(o),
    )


def _boring(o: RoundTenonOptions, entry: _Entry, hole: Mark) -> tuple[str, ...]:
    if entry.label == "side":
        start = "Lay the round part in a cradle, the mark up: it is on the side that the tenon enters."
    elif hole.on_end:
        start = "Bore from the end that is marked: it is the one that the tenon enters."
    else:
        start = f"Bore from the {hole.face.value} face, the one that is marked: the tenon enters there."
    if hole.toward:
        aim = (
            "Draw the sight line through the center and stand on it; a bevel set to the lean beside the "
            "bit, the bit leaning the way the sight line is told."
        )
    else:
        aim = "Bore square, a try square beside the bit."
    if o.depth is None:
        return start, aim, "Clamp scrap to the far side and bore right through into it."
    return start, aim, "Stop at the depth, a flag of tape on the bit: it is measured along the bit."


def _ending(o: RoundTenonOptions) -> tuple[str, ...]:
    if o.wedge is None:
        return ("When the glue has cured, cut the end flush.",) if o.depth is None and o.proud > 0.0 else ()
    slot = f"Saw the wedge slot {o.wedge[1]:g} mm deep, square to the grain of the part it enters"
    if o.depth is None:
        flush = " and cut the end flush when the glue has cured" if o.proud > 0.0 else ""
        return (f"{slot}; drive the wedge across that grain{flush}.",)
    return (
        f"{slot}; start the wedge in it by hand. The bottom of the hole drives it, and the tenon never comes "
        "out again: try wedge and slot in a hole in scrap first.",
    )


def _wedges(
    o: RoundTenonOptions, second: Part, mouth: Vec, axis: Vec, length: float
) -> tuple[Connector, ...]:
    if o.wedge is None:
        return ()
    thickness, long = o.wedge
    wide = laid(axis, second.frame.width, second.frame.thickness)
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
