"""Fit in an opening: a drawer's side or front, or an inset door, with a gap that stays open all year."""

from __future__ import annotations

import math
from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.joinery.facing import Facing, facing_of
from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import moved, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
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
from scantling.piece.convex import body_of
from scantling.piece.files import Angle, Length
from scantling.piece.geometry import Plane, dot, scale, sub, unit
from scantling.piece.model import Direction, JointRequest

__all__ = ["KeptAt", "OpeningFit", "OpeningFitOptions", "gap_wanted_mm", "jams"]

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
    waxed: bool = False
    """Whether its runners and guides are waxed, and kept so: it then jams only at a shorter guide."""
    bevel: Angle = Field(default=0, ge=0, le=15)
    """The edge is planed back by so much from its front, so that a door passes as it swings."""


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


class OpeningFit:
    """The opening-fit family."""

    name = "opening_fit"
    options_model = OpeningFitOptions
    strength = staticmethod(cases.floating)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """What is planed off for the gap, and whether the gap stays open when damp and narrow when dry."""
        o = joint.options
        assert isinstance(o, OpeningFitOptions)
        gap = facing_of(joint, context)
        moving = _moving_mm(gap, o)
        toward = 1.0 if dot(gap.first.frame.width, gap.out) > 0.0 else -1.0
        moves = travel(gap.first, toward * moving, context.moisture)
        wanted = gap_wanted_mm(moves.swell_mm, o.least) if o.gap is None else o.gap
        built = max(gap.drawn_mm, wanted)
        planed = built - gap.drawn_mm
        _check(joint, gap, planed_mm=planed)
        worked = planed > 1e-6 or o.bevel > 0.0
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=gap.first.name,
            second=gap.second.name,
            at=gap.at,
            leaves=o.opens.vector,
            cuts=(_planing(gap, planed, o),) if worked else (),
            marks=(_mark(gap, planed, o),) if worked else (),
            freedoms=(_freedom(gap, moves, o=o, built_mm=built, moving_mm=moving),) if moving else (),
            dry=True,
            passes=True,
            steps=(
                "Fit the part to its opening first, tight all round; plane the gap off it afterwards.",
                f"Set a spacer {math.ceil(built * 10.0 - 1e-6) / 10.0:.1f} mm thick between "
                f"{gap.first.name} and {gap.second.name} while fitting; the gap goes to "
                f"{built + moves.shrink_mm:.1f} mm in the driest season and to "
                f"{built - moves.swell_mm:.1f} mm in the dampest.",
            ),
        )


def _check(joint: JointRequest, gap: Facing, *, planed_mm: float) -> None:
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


def _moving_mm(gap: Facing, o: OpeningFitOptions) -> float:
    """Wood across the grain between where the part is kept and the gap. [mm] 0 along the grain"""
    if abs(dot(gap.first.frame.width, gap.out)) < 0.7 and o.moving is None:
        return 0.0
    whole = gap.first.width_mm if o.moving is None else o.moving
    return whole * (0.5 if o.kept_at is KeptAt.MIDDLE else 1.0)


def _planing(gap: Facing, planed_mm: float, o: OpeningFitOptions) -> Cut:
    """The edge planed to its gap, its back lower where it is beveled: it turns about its front arris."""
    front = moved(gap.at, gap.out, -planed_mm)
    normal = gap.out
    if o.bevel > 0.0:
        way = o.opens.vector
        front = moved(front, way, body_of(gap.first).extent(way)[1] - dot(front, way))
        normal = unit(sub(gap.out, scale(way, math.tan(math.radians(o.bevel)))))
    plane = Plane(point=front, normal=normal)
    return Cut(part=gap.first.name, tool=HalfSpace(plane=gap.first.frame.plane_in(plane)), what="planed edge")


def _mark(gap: Facing, planed_mm: float, o: OpeningFitOptions) -> Mark:
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
        tilt_deg=o.bevel,
        setup="edges planed for their gap",
        note="fitted tight first, then planed"
        + (f", the back lower by {o.bevel:.1f} degrees" if o.bevel > 0.0 else ""),
    )


def _freedom(
    gap: Facing, moves: Travel, *, o: OpeningFitOptions, built_mm: float, moving_mm: float
) -> Freedom:
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
