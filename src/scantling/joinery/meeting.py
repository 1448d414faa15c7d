"""Where the two parts of a joint meet, and how a spot on a part is measured from its ends and faces."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypedDict

from scantling.errors import InputError, ModelError
from scantling.joinery.work import JointContext
from scantling.piece.contact import Contact, contacts, nearest_gap_mm, overlap
from scantling.piece.convex import Body, face_direction, named_face, of_one_side
from scantling.piece.geometry import Frame, Vec, add, cross, dot, norm, scale, sub, unit
from scantling.piece.model import Direction, End, JointRequest, Part, PartRef

__all__ = [
    "Measured",
    "Meeting",
    "Spot",
    "across",
    "crossing",
    "grain_angle_deg",
    "laid",
    "meet",
    "moved",
    "row",
    "slope_deg",
    "slot_frame",
    "spot_on",
    "spread",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """Two parts and the flat area where they touch; the contact's normal points into the second."""

    first: Part
    second: Part
    contact: Contact


def _matches(ref: PartRef, part: Part, label: str) -> bool:
    """Whether a face of a part is the one a reference names."""
    if ref.end is not None:
        return label == ref.end.value
    if ref.face is not None:
        face = named_face(part, ref.face)
        return face is not None and of_one_side(part, face.label, label)
    return True


def meet(joint: JointRequest, context: JointContext, *, ignore_second_face: bool = False) -> Meeting:
    """The contact of a joint's two parts.

    Parameters
    ----------
    joint
        The joint asked for.
    context
        The parts.
    ignore_second_face
        Whether a face named on the second part only says where the work is done, not where it touches.

    Raises
    ------
    InputError
        ``parts_do_not_touch``, with the gap.
    """
    first, second = context.parts[joint.first.part], context.parts[joint.second.part]
    for contact in contacts(first, second):
        if _matches(joint.first, first, contact.first_face) and (
            ignore_second_face or _matches(joint.second, second, contact.second_face)
        ):
            return Meeting(first=first, second=second, contact=contact)
    raise _apart(joint, first, second)


def _apart(joint: JointRequest, first: Part, second: Part) -> InputError:
    gap = nearest_gap_mm(first, second)
    common = overlap(first, second)
    if gap > 0.0:
        what = f"{joint.first} and {joint.second}, {gap:.1f} mm apart"
    elif common is not None:
        what = f"{joint.first} and {joint.second}, which pass through each other"
    else:
        what = f"{joint.first} and {joint.second}, which do not meet at these faces"
    return InputError(
        code="parts_do_not_touch",
        field=f"joints.{joint.like}",
        value=what,
        rule=f"must join faces that lie against each other for a {joint.family.replace('_', ' ')}",
        remedy="Trim one part by the face of the other, or move it.",
    )


def crossing(joint: JointRequest, context: JointContext) -> tuple[Part, Part, Body]:
    """The common body of two parts that pass through each other.

    Raises
    ------
    InputError
        ``parts_do_not_cross``, with the gap.
    """
    first, second = context.parts[joint.first.part], context.parts[joint.second.part]
    body = overlap(first, second)
    if body is None:
        gap = nearest_gap_mm(first, second)
        raise InputError(
            code="parts_do_not_cross",
            field=f"joints.{joint.like}",
            value=f"{joint.first} and {joint.second}, {gap:.1f} mm apart",
            rule=f"must pass through each other for a {joint.family.replace('_', ' ')}",
            remedy="Place the first part where it is to sit in the second.",
        )
    return first, second, body


def across(direction: Vec, normal: Vec) -> Vec:
    """A direction laid into a plane, unit length; raises ModelError if it stands square to the plane."""
    flat = sub(direction, scale(normal, dot(direction, normal)))
    if norm(flat) < 1e-6:
        raise ModelError("a direction square to the joint was to be laid into it")
    return unit(flat)


def laid(normal: Vec, *choices: Vec) -> Vec:
    """The first of some directions that does not stand square to a plane, laid into it, unit length."""
    for choice in choices:
        if abs(dot(choice, normal)) < 0.9:
            return across(choice, normal)
    return across(choices[-1], normal)


def slot_frame(center: Vec, *, into: Vec, along: Vec) -> Frame:
    """World frame of a slot or groove: grain into the wood, width along its length."""
    return Frame(origin=center, grain=into, width=along, thickness=cross(into, along))


def grain_angle_deg(first: Part, second: Part) -> float:
    """Angle between two grains, 0..90. [deg]"""
    return math.degrees(math.acos(min(1.0, abs(dot(first.frame.grain, second.frame.grain)))))


class Measured(TypedDict):
    """Where a spot is, under the names of a :class:`~scantling.joinery.work.Mark`."""

    on_end: bool
    end: End
    face: Direction
    reference_face: Direction
    from_end_mm: float
    from_face_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A spot on a part as a maker measures it; see :class:`~scantling.joinery.work.Mark` for the fields."""

    on_end: bool
    end: End
    face: Direction
    reference_face: Direction
    from_end_mm: float
    from_face_mm: float

    @property
    def measured(self) -> Measured:
        """For a mark at this spot: ``Mark(part=..., kind=..., **spot.measured, ...)``."""
        return Measured(
            on_end=self.on_end,
            end=self.end,
            face=self.face,
            reference_face=self.reference_face,
            from_end_mm=self.from_end_mm,
            from_face_mm=self.from_face_mm,
        )


def spot_on(part: Part, world: Vec, label: str) -> Spot:
    """How to measure a spot on a face of a part.

    On a side face: along the grain from the nearer end's long point, and across from the nearer edge's
    face. On an end: across the width from the nearer edge, and from the nearer wide face.
    """
    u, v, w = part.frame.local(world)
    nearer = End.START if u - part.start_mm <= part.end_mm - u else End.END
    from_end = u - part.start_mm if nearer is End.START else part.end_mm - u
    if label in (End.START.value, End.END.value):
        edge, reference = (0.0, 1.0 if v > 1e-6 else -1.0, 0.0), (0.0, 0.0, 1.0 if w > 1e-6 else -1.0)
        return Spot(
            on_end=True,
            end=End(label),
            face=face_direction(part.frame.direction(edge)),
            reference_face=face_direction(part.frame.direction(reference)),
            from_end_mm=part.width_mm / 2.0 - abs(v),
            from_face_mm=part.thickness_mm / 2.0 - abs(w),
        )
    on_width, side = _side_of(part, label, v, w)
    face: Vec = (0.0, side, 0.0) if on_width else (0.0, 0.0, side)
    offset = w if on_width else v
    toward = 1.0 if offset > 1e-6 else -1.0
    reference_local: Vec = (0.0, 0.0, toward) if on_width else (0.0, toward, 0.0)
    half = (part.thickness_mm if on_width else part.width_mm) / 2.0
    return Spot(
        on_end=False,
        end=nearer,
        face=face_direction(part.frame.direction(face)),
        reference_face=face_direction(part.frame.direction(reference_local)),
        from_end_mm=from_end,
        from_face_mm=half - abs(offset),
    )


def _side_of(part: Part, label: str, v: float, w: float) -> tuple[bool, float]:
    """Whether a face is one of the width's, and which: +1 or -1.

    A taper counts as the face it was cut from; the side of a round stick as the face of its square blank.
    """
    if label.startswith("taper "):
        _, across_width, through = part.tapers[int(label.removeprefix("taper "))].plane.normal
    elif label == "side":
        across_width, through = v, w
    else:
        return label.startswith("width"), 1.0 if label.endswith("+") else -1.0
    on_width = abs(across_width) >= abs(through) - 1e-9
    return on_width, 1.0 if (across_width if on_width else through) >= 0.0 else -1.0


def slope_deg(part: Part, normal: Vec) -> float:
    """Angle by which a joint's face is out of square to the part: the wedge a clamp along it wants. [deg]"""
    axes = (part.frame.grain, part.frame.width, part.frame.thickness)
    return math.degrees(math.acos(min(1.0, max(abs(dot(axis, normal)) for axis in axes))))


def spread(low: float, high: float, *, count: int, inset_mm: float) -> tuple[float, ...]:
    """Places evenly between two limits, the outer ones ``inset_mm`` in from them. [mm]"""
    if count == 1:
        return ((low + high) / 2.0,)
    first, last = low + inset_mm, high - inset_mm
    return tuple(first + (last - first) * k / (count - 1) for k in range(count))


def moved(point: Vec, direction: Vec, distance_mm: float) -> Vec:
    """A point moved along a direction. [mm]"""
    return add(point, scale(direction, distance_mm))


def row(
    meeting: Meeting, *, count: int | None, spacing_mm: float, inset_mm: float, odd: bool = False
) -> list[Vec]:
    """Places in a row along the longer way of the contact, through its middle. World. [mm]

    Parameters
    ----------
    meeting
        Where the two parts touch.
    count
        Places wanted; None takes as few as the spacing allows, two at least.
    spacing_mm
        Greatest distance between places. [mm]
    inset_mm
        From the ends of the contact to the outer places; less where the contact is short. [mm]
    odd
        Whether a count found by the spacing is made odd, so that one place is in the middle.
    """
    contact, frame = meeting.contact, meeting.first.frame
    ways = [way for way in (frame.grain, frame.width, frame.thickness) if abs(dot(way, contact.normal)) < 0.7]
    spans = [contact.extent(way) for way in ways]
    way, (low, high) = max(zip(ways, spans, strict=True), key=lambda item: item[1][1] - item[1][0])
    inset = min(inset_mm, (high - low) / 4.0)
    if count is None:
        count = max(2, 1 + math.ceil((high - low - 2.0 * inset) / spacing_mm - 1e-9))
        count += 1 if odd and count % 2 == 0 else 0
    middle = dot(contact.center, way)
    return [
        moved(contact.center, way, place - middle) for place in spread(low, high, count=count, inset_mm=inset)
    ]
