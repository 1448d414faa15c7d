"""Two faces that look at each other across a gap: a door and its case, a drawer and what it runs by."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import InputError
from scantling.joinery.work import JointContext
from scantling.piece.contact import Contact, contacts, overlap
from scantling.piece.convex import body_of, named_face
from scantling.piece.geometry import Vec, dot
from scantling.piece.model import JointRequest, Part, PartRef

__all__ = ["REACH_MM", "Facing", "facing_of"]

REACH_MM = 60.0
"""Parts farther apart than this are not looked at as one fit. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facing:
    """The two faces.

    Parameters
    ----------
    label, second_label
        Of the two faces.
    contact
        What they have in common, in the first one's plane. World. [mm]
    at, out
        Its middle, and the way out of the first part. World. [mm], [1]
    drawn_mm
        How far apart they are drawn. [mm]
    """

    first: Part
    second: Part
    label: str
    second_label: str
    contact: Contact
    at: Vec
    out: Vec
    drawn_mm: float


def facing_of(joint: JointRequest, context: JointContext) -> Facing:
    """The two faces that look at each other; the first part's must be named.

    Raises
    ------
    InputError
        ``no_gap_between`` where there are none, or the face is not named.
    """
    first, second = context.parts[joint.first.part], context.parts[joint.second.part]
    for contact in contacts(first, second, within_mm=REACH_MM):
        drawn = _drawn_mm(second, contact)
        meant = _faces(joint.first, first, contact.first_face)
        meant = meant and _faces(joint.second, second, contact.second_face)
        if meant and drawn > -1e-3 and joint.first.face is not None:
            return Facing(
                first=first,
                second=second,
                label=contact.first_face,
                second_label=contact.second_face,
                contact=contact,
                at=contact.center,
                out=contact.normal,
                drawn_mm=max(0.0, drawn),
            )
    raise _no_gap(joint, first, second)


def _faces(ref: PartRef, part: Part, contact: str) -> bool:
    if ref.face is None:
        return True
    face = named_face(part, ref.face)
    return face is not None and face.label == contact


def _drawn_mm(second: Part, contact: Contact) -> float:
    face = next(face for face in body_of(second).faces if face.label == contact.second_face)
    return dot(face.corners[0], contact.normal) - dot(contact.center, contact.normal)


def _no_gap(joint: JointRequest, first: Part, second: Part) -> InputError:
    value = f"{joint.first} and {joint.second}"
    if joint.first.face is None:
        rule = "must name the face of the first part that the gap is at"
    elif overlap(first, second) is not None:
        value, rule = f"{value}, which pass through each other", "must stand clear of each other, or touch"
    else:
        rule = f"must look at each other, not more than {REACH_MM:g} mm apart"
    return InputError(
        code="no_gap_between",
        field=f"joints.{joint.like}",
        value=value,
        rule=rule,
        remedy="Write PART.FACE first, drawn tight in its opening or with its gap.",
    )
