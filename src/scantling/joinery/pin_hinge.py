"""Pin hinge: a small lid hung on a pin in each end, which turns in a hole in the side it lies between."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import Hollow, Mouth, cannot_be_made, check_depth, check_mouth, end_of
from scantling.joinery.meeting import moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
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
from scantling.piece.contact import Contact, contacts
from scantling.piece.convex import body_of
from scantling.piece.files import Length
from scantling.piece.geometry import Vec, cross, dot, scale, sub
from scantling.piece.model import Direction, JointRequest, Part
from scantling.piece.shaping import ShapingKind

__all__ = ["PinHinge", "PinHingeOptions", "swept_radius_mm"]

_REACH_MM = 6.0
"""A lid farther than this from the side is not hung on a pin in it: the pin would bend. [mm]"""
_CHEEK_MM = 1.5
"""Wood left over and under the pin in the lid, at the least (from memory). [mm]"""


class PinHingeOptions(JointOptions):
    """A lid (first, as LID.start or LID.end), drawn short of the side that its pin turns in (second)."""

    kind: Literal["pin_hinge"]
    hinge: Direction = Direction.BACK
    """The edge it turns at."""
    opens: Direction = Direction.TOP
    """The face that swings toward that edge as it opens."""
    diameter: Length = Field(default=6, gt=0)
    """Diameter of the pin."""
    from_edge: Length | None = Field(default=None, gt=0)
    """From the edge to the middle of the pin; left out, half the thickness of the lid."""
    depth_first: Length = Field(default=25, gt=0)
    """How far the pin is glued into the end of the lid."""
    depth_second: Length = Field(default=10, gt=0)
    """Depth of the hole it turns in."""
    play: Length = Field(default=0.3, ge=0, le=1)
    """How much wider that hole is than the pin."""
    end_room: Length = Field(default=0.5, ge=0)
    """Room left past the pin in that hole."""
    clearance: Length = Field(default=0.5, ge=0)
    """Least room between the edge, as it swings, and what stands behind it."""


def swept_radius_mm(edge_mm: float, half_mm: float, *, kind: ShapingKind | None, size_mm: float) -> float:
    r"""Radius that the arris at the pin sweeps as a lid opens.

    A square arris stands :math:`\sqrt{e^2 + h^2}` from the pin. Rounded over by :math:`r` it sweeps
    :math:`\sqrt{(e - r)^2 + (h - r)^2} + r`; of a chamfer the farther of its two arrises does. Derived:
    points turned about the pin.

    Parameters
    ----------
    edge_mm, half_mm
        From the pin to the edge, and to the face that swings toward it. [mm]
    kind, size_mm
        What is taken off that arris, or None, and its radius or leg. [mm]

    Examples
    --------
    5 mm from both faces; square, and rounded to 5 mm, when it turns without rising:

    >>> round(swept_radius_mm(5.0, 5.0, kind=None, size_mm=0.0), 3)
    7.071
    >>> swept_radius_mm(5.0, 5.0, kind=ShapingKind.ROUND_OVER, size_mm=5.0)
    5.0
    """
    if kind is ShapingKind.ROUND_OVER:
        return math.hypot(edge_mm - size_mm, half_mm - size_mm) + size_mm
    if kind is ShapingKind.CHAMFER:
        return max(math.hypot(edge_mm - size_mm, half_mm), math.hypot(edge_mm, half_mm - size_mm))
    return math.hypot(edge_mm, half_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pin:
    """The pin in place. World.

    Parameters
    ----------
    at, mouth
        Its middle on the end of the lid, and on the face it turns in. [mm]
    into, away, up
        Along it into the side; from it to the hinged edge; to the face that swings there. [1]
    gap_mm, edge_mm, half_mm, swept_mm
        Between lid and side; from the pin to the edge and to the face; radius swept. [mm]
    """

    lid: Part
    side: Part
    contact: Contact
    at: Vec
    mouth: Vec
    into: Vec
    away: Vec
    up: Vec
    gap_mm: float
    edge_mm: float
    half_mm: float
    swept_mm: float

    def length_mm(self, o: PinHingeOptions) -> float:
        """Of the pin. [mm]"""
        return o.depth_first + self.gap_mm + o.depth_second - o.end_room


class PinHinge:
    """The pin-hinge family."""

    name = "pin_hinge"
    options_model = PinHingeOptions
    strength = staticmethod(cases.pinned)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The two holes, the pin, and whether the edge clears what stands behind it as it swings."""
        o = joint.options
        assert isinstance(o, PinHingeOptions)
        pin = _pin(joint, context, o)
        _check_swing(joint, context, pin, o)
        cuts, marks = [], []
        for part, at, into, depth, wide, option in (
            (pin.lid, pin.at, scale(pin.into, -1.0), o.depth_first, o.diameter, "depth_first"),
            (pin.side, pin.mouth, pin.into, o.depth_second, o.diameter + o.play, "depth_second"),
        ):
            label = pin.contact.first_face if part is pin.lid else pin.contact.second_face
            mouth = Mouth(center=at, along=pin.away, length_mm=wide, width_mm=wide)
            check_mouth(joint, "diameter", part, label=label, mouth=mouth, what="hole")
            check_depth(joint, option, part, hollow=Hollow(at=at, into=into, depth_mm=depth, what="hole"))
            frame = part.frame.frame_in(slot_frame(at, into=into, along=pin.away))
            tool = Hole(frame=frame, diameter_mm=wide, depth_mm=depth)
            cuts.append(Cut(part=part.name, tool=tool, what="hole for the pin"))
            marks.append(_mark(part, at, label, wide_mm=wide, depth_mm=depth, turns=part is pin.side))
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=pin.lid.name,
            second=pin.side.name,
            at=pin.at,
            leaves=scale(pin.into, -1.0),
            cuts=tuple(cuts),
            marks=tuple(marks),
            connectors=(_connector(pin, o),),
            dry=True,
            steps=_steps(pin, o),
        )


def _pin(joint: JointRequest, context: JointContext, o: PinHingeOptions) -> _Pin:
    lid, side = context.parts[joint.first.part], context.parts[joint.second.part]
    end = None if joint.first.end is None else joint.first.end.value
    contact = next((c for c in contacts(lid, side, within_mm=_REACH_MM) if c.first_face == end), None)
    if contact is None:
        raise cannot_be_made(
            joint,
            "",
            code="no_gap_between",
            value=f"{joint.first} and {joint.second}",
            rule=f"must name the end of a lid that lies beside a side, at most {_REACH_MM:g} mm from it",
            remedy="Write LID.start or LID.end first, drawn with its gap.",
        )
    end_of(joint, contact.first_face, code="pin_not_on_end", rule="must be an end of the lid")
    away, up = _across(joint, lid, o)
    thick = lid.thickness_mm
    edge = thick / 2.0 if o.from_edge is None else o.from_edge
    if edge < (o.diameter / 2.0 + _CHEEK_MM) - 1e-9 or thick < o.diameter + 2.0 * _CHEEK_MM - 1e-9:
        raise cannot_be_made(
            joint,
            "diameter",
            code="pin_splits_lid",
            value=f"a {o.diameter:.1f} mm pin {edge:.1f} mm from the edge of {thick:.1f} mm",
            rule=f"must leave {_CHEEK_MM:g} mm of wood round it",
            remedy="Take a thinner pin or a thicker lid, or set it farther in.",
        )
    at = moved(contact.center, away, body_of(lid).extent(away)[1] - edge - dot(contact.center, away))
    at = moved(at, up, dot(lid.middle, up) - dot(at, up))
    face = next(face for face in body_of(side).faces if face.label == contact.second_face)
    gap = max(0.0, dot(sub(face.center, at), contact.normal))
    kind, size = _arris(lid, away, up)
    return _Pin(
        lid=lid,
        side=side,
        contact=contact,
        at=at,
        mouth=moved(at, contact.normal, gap),
        into=contact.normal,
        away=away,
        up=up,
        gap_mm=gap,
        edge_mm=edge,
        half_mm=thick / 2.0,
        swept_mm=swept_radius_mm(edge, thick / 2.0, kind=kind, size_mm=size),
    )


def _across(joint: JointRequest, lid: Part, o: PinHingeOptions) -> tuple[Vec, Vec]:
    """To the hinged edge, and to the face that swings toward it."""
    wide, thick = dot(o.hinge.vector, lid.frame.width), dot(o.opens.vector, lid.frame.thickness)
    for option, direction, toward in (("hinge", o.hinge, wide), ("opens", o.opens, thick)):
        if abs(toward) < 0.7:
            which = "one of the long edges" if option == "hinge" else "one of the broad faces"
            raise cannot_be_made(
                joint,
                option,
                code="not_a_face",
                value=f"{direction.value} of {lid.name}",
                rule=f"must be {which} of the lid",
                remedy="Name the way it looks.",
            )
    return scale(lid.frame.width, math.copysign(1.0, wide)), scale(
        lid.frame.thickness, math.copysign(1.0, thick)
    )


def _arris(lid: Part, away: Vec, up: Vec) -> tuple[ShapingKind | None, float]:
    """What is taken off the arris that swings toward what stands behind."""
    wanted = (
        1 if dot(away, lid.frame.width) > 0.0 else -1,
        1 if dot(up, lid.frame.thickness) > 0.0 else -1,
    )
    kinds = (ShapingKind.ROUND_OVER, ShapingKind.CHAMFER)
    own = [s for s in lid.shaping if s.side == wanted and s.kind in kinds]
    whole = [s for s in own if s.start_mm <= lid.start_mm + 1e-6 and s.end_mm >= lid.end_mm - 1e-6]
    return (whole[0].kind, whole[0].size_mm) if whole else (None, 0.0)


def _check_swing(joint: JointRequest, context: JointContext, pin: _Pin, o: PinHingeOptions) -> None:
    """Refuse a lid whose edge strikes what stands behind it."""
    for part, room in _behind(context, pin):
        if room - pin.swept_mm < o.clearance - 1e-6:
            half = min(pin.edge_mm, pin.half_mm)
            raise cannot_be_made(
                joint,
                "clearance",
                code="lid_strikes",
                value=f"an edge that swings {pin.swept_mm:.1f} mm about its pin, {room:.1f} mm from {part}",
                rule=f"must clear it by {o.clearance:.1f} mm",
                remedy=f"Round that arris over by {half:.1f} mm (shape), or set the lid "
                f"{pin.swept_mm + o.clearance - room:.1f} mm farther from {part}.",
            )


def _behind(context: JointContext, pin: _Pin) -> Iterator[tuple[str, float]]:
    """Each part that stands behind the edge, within its swing, and how far from the pin."""
    axis = {way: dot(pin.at, way) for way in (pin.away, pin.up)}
    low, high = body_of(pin.lid).extent(pin.into)
    for name, part in context.parts.items():
        if name in (pin.lid.name, pin.side.name):
            continue
        body = body_of(part)
        near = body.extent(pin.away)[0] - axis[pin.away]
        under, over = (end - axis[pin.up] for end in body.extent(pin.up))
        start, end = body.extent(pin.into)
        beside = start < high - 1e-6 and end > low + 1e-6
        if beside and near > pin.edge_mm - 1e-3 and under < pin.swept_mm and over > 0.0:
            yield name, near


def _connector(pin: _Pin, o: PinHingeOptions) -> Connector:
    long = pin.length_mm(o)
    middle = moved(pin.at, pin.into, long / 2.0 - o.depth_first)
    return Connector(
        kind=ConnectorKind.PIN,
        count=1,
        size_mm=(o.diameter, long),
        drill_mm=(o.diameter, o.depth_first),
        note=f"glued in the lid, turns in a hole of {o.diameter + o.play:.1f} mm",
        frames=(slot_frame(middle, into=pin.into, along=cross(pin.into, pin.up)),),
    )


def _mark(part: Part, at: Vec, label: str, *, wide_mm: float, depth_mm: float, turns: bool) -> Mark:
    spot = spot_on(part, at, label)
    return Mark(
        part=part.name,
        kind=MarkKind.HOLE,
        **spot.measured,
        length_mm=wide_mm,
        width_mm=wide_mm,
        depth_mm=depth_mm,
        fit=Fit.SLIDING if turns else Fit.TIGHT,
        setup=f"{wide_mm:g} mm hole, {depth_mm:g} mm deep, {'end' if spot.on_end else 'side'}",
        note="the pin turns in it" if turns else "the pin is glued in it",
    )


def _steps(pin: _Pin, o: PinHingeOptions) -> tuple[str, ...]:
    return (
        "Bore both sides with one fence setting, or one through a template turned over: the two pins lie in "
        "one line, or the lid binds.",
        f"Ream the holes {o.play:.1f} mm over the pin, which turns freely and does not rattle; wax it.",
        f"Shape the hinged edge before the pins go in: it swings {pin.swept_mm:.1f} mm about them.",
        "Glue the pins in the lid only. It goes in as the sides come on, and never comes out again: finish "
        "it first, and try it with the sides dry.",
    )
