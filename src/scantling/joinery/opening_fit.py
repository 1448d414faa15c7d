"""Fit in an opening: a drawer's side or front, or an inset door, with a gap that stays open all year."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.errors import InputError
from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import moved, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import (
    Cut,
    Fit,
    Freedom,
    HalfSpace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.contact import Contact, contacts, overlap
from scantling.piece.convex import body_of, named_face
from scantling.piece.files import Length
from scantling.piece.geometry import Plane, Vec, dot
from scantling.piece.model import Direction, JointRequest, Part, PartRef

__all__ = ["KeptAt", "OpeningFit", "OpeningFitOptions", "gap_wanted_mm", "jams"]

REACH_MM = 60.0
"""Parts farther apart than this are not looked at as one fit. [mm]"""
_MOST_PLANED_MM = 20.0


class KeptAt(StrEnum):
    """Where the part that moves is kept: the side away from the gap (hinged, on a runner), or its middle."""

    FAR_SIDE = "far_side"
    MIDDLE = "middle"


class OpeningFitOptions(JointOptions):
    """A face of a drawer or door (first, as PART.FACE) and the face of its opening beside it (second)."""

    kind: Literal["opening_fit"]
    gap: Length | None = Field(default=None, ge=0)
    """Gap when built; left out, what is drawn, or what the room's year asks for where that is more."""
    least: Length = Field(default=1, ge=0)
    """Gap that must be left when the part is widest."""
    widest: Length = Field(default=5, gt=0)
    """Widest gap that still looks right when the part is narrowest."""
    opens: Direction = Direction.FRONT
    """The way the drawer or door comes out."""
    kept_at: KeptAt = KeptAt.FAR_SIDE
    """Where the part is kept: at the side away from the gap, or at its middle (half shows here)."""
    moving: Length | None = Field(default=None, ge=0)
    """Wood across the grain that moves this gap (of a framed door its stiles); left out, the part's own."""
    guided: Length | None = Field(default=None, gt=0)
    """Length over which a drawer is guided at full pull, to check that it cannot jam."""
    drawer_width: Length | None = Field(default=None, gt=0)
    """Width of the drawer between its guides, for the same."""


def gap_wanted_mm(swell_mm: float, least_mm: float) -> float:
    """Gap to build: the swelling, and what must be left of it. [mm]

    Examples
    --------
    A 200 mm flat-sawn maple front that takes up 4 points of moisture grows 2.82 mm:

    >>> round(gap_wanted_mm(200 * 0.00353 * 4.0, 1.0), 2)
    3.82
    """
    return swell_mm + least_mm


def jams(width_mm: float, guided_mm: float, *, friction: float) -> bool:
    """Whether a drawer pulled at one edge jams between its guides.

    Two corners bear when it is pulled off center; by statics it jams where its width exceeds its guided
    length over the friction.

    Examples
    --------
    150 mm still guided, dry wood on wood at 0.4: anything wider than 375 mm jams.

    >>> jams(375.0, 150.0, friction=0.4), jams(376.0, 150.0, friction=0.4)
    (False, True)
    """
    return width_mm > guided_mm / friction + 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class _Gap:
    """The two faces: where, which way out of the first part, and how far apart they are drawn. World. [mm]"""

    first: Part
    second: Part
    label: str
    at: Vec
    out: Vec
    drawn_mm: float


class OpeningFit:
    """The opening-fit family."""

    name = "opening_fit"
    options_model = OpeningFitOptions

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """What is planed off for the gap, and whether the gap stays open when damp and narrow when dry."""
        o = joint.options
        assert isinstance(o, OpeningFitOptions)
        gap = _gap(joint, context)
        moving = _moving_mm(gap, o)
        toward = 1.0 if dot(gap.first.frame.width, gap.out) > 0.0 else -1.0
        moves = travel(gap.first, toward * moving, context.moisture)
        wanted = gap_wanted_mm(moves.swell_mm, o.least) if o.gap is None else o.gap
        built = max(gap.drawn_mm, wanted)
        planed = built - gap.drawn_mm
        _check(joint, gap, planed_mm=planed)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=gap.first.name,
            second=gap.second.name,
            at=gap.at,
            leaves=o.opens.vector,
            cuts=(_planing(gap, planed),) if planed > 1e-6 else (),
            marks=(_mark(gap, planed),) if planed > 1e-6 else (),
            freedoms=(_freedom(gap, moves, o=o, built_mm=built, moving_mm=moving),) if moving else (),
            dry=True,
            passes=True,
            steps=(
                "Fit the part to its opening first, tight all round; plane the gap off it afterwards.",
                f"Set a spacer {built:.1f} mm thick in the gap while fitting; it goes to "
                f"{built + moves.shrink_mm:.1f} mm in the driest season and to "
                f"{built - moves.swell_mm:.1f} mm in the dampest.",
            ),
        )


def _faces(ref: PartRef, part: Part, contact: str) -> bool:
    if ref.face is None:
        return True
    face = named_face(part, ref.face)
    return face is not None and face.label == contact


def _gap(joint: JointRequest, context: JointContext) -> _Gap:
    """The two faces that look at each other."""
    first, second = context.parts[joint.first.part], context.parts[joint.second.part]
    for contact in contacts(first, second, within_mm=REACH_MM):
        drawn = _drawn_mm(second, contact)
        meant = _faces(joint.first, first, contact.first_face)
        meant = meant and _faces(joint.second, second, contact.second_face)
        if meant and drawn > -1e-3 and joint.first.face is not None:
            return _Gap(
                first=first,
                second=second,
                label=contact.first_face,
                at=contact.center,
                out=contact.normal,
                drawn_mm=max(0.0, drawn),
            )
    raise _no_gap(joint, first, second)


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


def _check(joint: JointRequest, gap: _Gap, *, planed_mm: float) -> None:
    """Refuse to plane away more than a fit is worth."""
    if planed_mm > _MOST_PLANED_MM:
        raise cannot_be_made(
            joint,
            "gap",
            code="planed_away",
            value=f"{planed_mm:.1f} mm to be planed off {gap.first.name}",
            rule=f"must be at most {_MOST_PLANED_MM:g} mm",
            remedy="Draw the part smaller, or divide it so that less of it moves.",
        )


def _moving_mm(gap: _Gap, o: OpeningFitOptions) -> float:
    """Wood across the grain between where the part is kept and the gap. [mm] 0 along the grain"""
    if abs(dot(gap.first.frame.width, gap.out)) < 0.7 and o.moving is None:
        return 0.0
    whole = gap.first.width_mm if o.moving is None else o.moving
    return whole * (0.5 if o.kept_at is KeptAt.MIDDLE else 1.0)


def _planing(gap: _Gap, planed_mm: float) -> Cut:
    point = moved(gap.at, gap.out, -planed_mm)
    plane = Plane(point=point, normal=gap.out)
    return Cut(part=gap.first.name, tool=HalfSpace(plane=gap.first.frame.plane_in(plane)), what="planed edge")


def _mark(gap: _Gap, planed_mm: float) -> Mark:
    """The edge that is planed."""
    part = gap.first
    spot = spot_on(part, gap.at, gap.label)
    across = part.thickness_mm if gap.label.startswith("width") else part.width_mm
    return Mark(
        part=part.name,
        kind=MarkKind.EDGE,
        on_end=spot.on_end,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=part.width_mm / 2.0 if spot.on_end else part.length_mm / 2.0,
        from_face_mm=part.thickness_mm / 2.0 if spot.on_end else across / 2.0,
        length_mm=part.width_mm if spot.on_end else part.length_mm,
        width_mm=part.thickness_mm if spot.on_end else across,
        depth_mm=planed_mm,
        fit=Fit.SLIDING,
        setup="edges planed for their gap",
        note="fitted tight first, then planed",
    )


def _freedom(gap: _Gap, moves: Travel, *, o: OpeningFitOptions, built_mm: float, moving_mm: float) -> Freedom:
    return Freedom(
        part=gap.first.name,
        what="gap",
        at=gap.at,
        from_fixed_mm=moving_mm,
        shrink_travel_mm=moves.shrink_mm,
        swell_travel_mm=moves.swell_mm,
        shrink_room_mm=max(0.0, o.widest - built_mm),
        swell_room_mm=built_mm,
        cut_to_mm=built_mm,
    )
