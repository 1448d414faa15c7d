"""Bought slides between a drawer's side and its case: the room they want, their screws, how far they come."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.joinery.facing import Facing, facing_of
from scantling.joinery.fastening import pilot_share
from scantling.joinery.fitting import cannot_be_made, wood_behind_mm
from scantling.joinery.meeting import moved, slot_frame, spot_on
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
from scantling.piece.convex import body_of
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Vec, cross, dot, scale, unit
from scantling.piece.model import Direction, JointRequest, Part

__all__ = ["LENGTHS_MM", "DrawerSlide", "DrawerSlideOptions", "slide_length_mm"]

LENGTHS_MM = tuple(range(250, 701, 50))
"""Lengths in which slides are sold (common practice). [mm]"""
_OVER_MM = 2.0
_END_MM = 35.0
"""From the ends of a slide to its outer screws (common practice). [mm]"""


class DrawerSlideOptions(JointOptions):
    """A bought slide between a drawer's side (first, as PART.FACE) and the case beside it (second)."""

    kind: Literal["drawer_slide"]
    front: Direction = Direction.FRONT
    """The way the drawer comes out."""
    thick: Length = Field(default=12.7, gt=0)
    """Room the slide wants between side and case; measure the one in hand."""
    spare: Length = Field(default=0.8, ge=0, le=3)
    """How much more room it puts up with; more is packed out."""
    height: Length = Field(default=45, gt=0)
    """Height of the slide."""
    up: Length | None = Field(default=None, gt=0)
    """From the lower edge of the drawer's side to the slide's middle; left out, the middle of the side."""
    length: Length | None = Field(default=None, gt=0)
    """Length of the slide; left out, the longest sold that the drawer's side takes."""
    travel: Length | None = Field(default=None, gt=0)
    """How far it comes out; left out, its length (full extension)."""
    screw: tuple[PositiveLength, PositiveLength] = (3.5, 10.0)
    """Diameter and length of the screws."""
    screws: Count = Field(default=3, ge=2, le=8)
    """Screws in each of its two members."""


def slide_length_mm(side_mm: float) -> float | None:
    """The longest slide sold that a drawer's side takes; None for a side shorter than all of them. [mm]

    Examples
    --------
    >>> slide_length_mm(449.0), slide_length_mm(450.0), slide_length_mm(200.0)
    (400.0, 450.0, None)
    """
    return max((float(size) for size in LENGTHS_MM if size <= side_mm + 1e-9), default=None)


class DrawerSlide:
    """The drawer-slide family."""

    name = "drawer_slide"
    options_model = DrawerSlideOptions
    strength = staticmethod(metal.hinged)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Pilot holes in side and case, the slide and its screws to buy; refuses a gap it does not fit."""
        o = joint.options
        assert isinstance(o, DrawerSlideOptions)
        facing = facing_of(joint, context)
        slide = _slide(joint, facing, o)
        members = (
            _Member(part=facing.first, label=facing.label, out_mm=0.0, into=scale(facing.out, -1.0)),
            _Member(part=facing.second, label=facing.second_label, out_mm=facing.drawn_mm, into=facing.out),
        )
        for member in members:
            _check_screws(joint, facing, slide, member, o)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=facing.first.name,
            second=facing.second.name,
            at=slide.middle,
            leaves=scale(slide.along, -1.0),
            cuts=tuple(cut for member in members for cut in _cuts(facing, slide, member, o)),
            marks=tuple(mark for member in members for mark in _marks(facing, slide, member, o)),
            connectors=_connectors(facing, slide, o),
            dry=True,
            passes=True,
            steps=(
                f"Have the slides in hand: they want {o.thick:g} mm, and the case is "
                f"{facing.drawn_mm:.1f} mm from the drawer on this side.",
                "Set the case members by one spacer from the bottom, level and parallel to each other.",
                "Put one screw in a slotted hole of each member, hang the drawer and set it; then the rest.",
            ),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Slide:
    """Where a slide lies: its direction to the back, its middle, its length and its screws. World. [mm]"""

    along: Vec
    middle: Vec
    length_mm: float
    screws: tuple[Vec, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Member:
    """One of the slide's two members: its part and face, how far that is from the drawer, and the way in."""

    part: Part
    label: str
    out_mm: float
    into: Vec


def _check_screws(
    joint: JointRequest, facing: Facing, slide: _Slide, member: _Member, o: DrawerSlideOptions
) -> None:
    """Refuse screws that come out on the far side."""
    at = moved(slide.screws[0], facing.out, member.out_mm)
    wood = wood_behind_mm(member.part, at, member.into)
    if o.screw[1] > wood - 0.01:
        raise cannot_be_made(
            joint,
            "screw",
            code="screw_too_long",
            value=f"{o.screw[1]:.1f} mm into {wood:.1f} mm of {member.part.name}",
            rule="must end inside the part",
            remedy="Choose shorter screws.",
        )


def _cuts(facing: Facing, slide: _Slide, member: _Member, o: DrawerSlideOptions) -> list[Cut]:
    """Pilot holes."""
    cuts = []
    for place in slide.screws:
        start = moved(moved(place, facing.out, member.out_mm), member.into, -_OVER_MM)
        tool = Hole(
            frame=member.part.frame.frame_in(slot_frame(start, into=member.into, along=slide.along)),
            diameter_mm=pilot_share(member.part) * o.screw[0],
            depth_mm=o.screw[1] + _OVER_MM,
        )
        cuts.append(Cut(part=member.part.name, tool=tool, what="pilot hole"))
    return cuts


def _marks(facing: Facing, slide: _Slide, member: _Member, o: DrawerSlideOptions) -> list[Mark]:
    """Each screw, on the slide's middle line."""
    marks = []
    for place in slide.screws:
        spot = spot_on(member.part, moved(place, facing.out, member.out_mm), member.label)
        marks.append(
            Mark(
                part=member.part.name,
                kind=MarkKind.HOLE,
                **spot.measured,
                length_mm=pilot_share(member.part) * o.screw[0],
                width_mm=pilot_share(member.part) * o.screw[0],
                depth_mm=o.screw[1],
                fit=Fit.TIGHT,
                setup=f"{pilot_share(member.part) * o.screw[0]:.1f} mm pilot holes for slides",
                note="on the slide's middle line; its own holes decide how far apart",
            )
        )
    return marks


def _slide(joint: JointRequest, facing: Facing, o: DrawerSlideOptions) -> _Slide:
    """The slide from the front of the drawer's side on, at its height."""
    part = facing.first
    back = scale(o.front.vector, -1.0)
    flat = [axis for axis in (part.frame.grain, part.frame.width) if abs(dot(axis, facing.out)) < 0.1]
    axis = max(flat, key=lambda way: abs(dot(way, back)))
    along = unit(axis if dot(axis, back) > 0.0 else scale(axis, -1.0))
    low, high = body_of(part).extent(along)
    length = slide_length_mm(high - low) if o.length is None else o.length
    _check(joint, facing, o, side_mm=high - low, length_mm=length)
    assert length is not None
    up = cross(facing.out, along)
    up = up if up[2] >= 0.0 else scale(up, -1.0)
    under, over = body_of(part).extent(up)
    level = (under + over) / 2.0 if o.up is None else under + o.up
    start = moved(facing.at, along, low - dot(facing.at, along))
    start = moved(start, up, level - dot(start, up))
    count = int(o.screws)
    step = (length - 2.0 * _END_MM) / (count - 1)
    screws = tuple(moved(start, along, _END_MM + k * step) for k in range(count))
    middle = moved(start, along, length / 2.0)
    return _Slide(along=along, middle=middle, length_mm=length, screws=screws)


def _check(
    joint: JointRequest, facing: Facing, o: DrawerSlideOptions, *, side_mm: float, length_mm: float | None
) -> None:
    """Refuse a gap the slide does not fit, and a slide longer than the drawer."""
    gap = facing.drawn_mm
    if length_mm is None or length_mm > side_mm + 1e-6:
        asked = LENGTHS_MM[0] if length_mm is None else length_mm
        option, code = "length", "slide_over_drawer"
        value, rule = (
            f"{asked:g} mm on a side {side_mm:.1f} mm long",
            "must be no longer than the drawer's side",
        )
        remedy = "Choose a shorter slide, or draw the drawer deeper."
    elif gap < o.thick - 0.01:
        option, code = "thick", "slide_too_thick"
        value, rule = f"{gap:.1f} mm for a slide of {o.thick:.1f} mm", "must leave the slide its room"
        remedy = f"Draw the drawer {2.0 * (o.thick - gap):.1f} mm narrower."
    elif gap > o.thick + o.spare + 0.01:
        option, code = "thick", "slide_too_thin"
        value = f"{gap:.1f} mm for a slide of {o.thick:.1f} mm"
        rule = f"must be at most {o.spare:g} mm more"
        remedy = f"Draw the drawer {2.0 * (gap - o.thick):.1f} mm wider, or a packing on the case."
    else:
        return
    raise cannot_be_made(joint, option, code=code, value=value, rule=rule, remedy=remedy)


def _connectors(facing: Facing, slide: _Slide, o: DrawerSlideOptions) -> tuple[Connector, Connector]:
    middle = moved(slide.middle, facing.out, facing.drawn_mm / 2.0)
    travel = slide.length_mm if o.travel is None else o.travel
    return (
        Connector(
            kind=ConnectorKind.DRAWER_SLIDE,
            count=1,
            size_mm=(o.thick, o.height, slide.length_mm),
            note=f"one a side, sold in pairs; comes out {travel:.0f} mm",
            frames=(slot_frame(middle, into=slide.along, along=cross(facing.out, slide.along)),),
        ),
        Connector(
            kind=ConnectorKind.SCREW,
            count=2 * int(o.screws),
            size_mm=o.screw,
            drill_mm=(min(map(pilot_share, (facing.first, facing.second))) * o.screw[0], o.screw[1]),
            note=f"{int(o.screws)} in each member of a slide",
        ),
    )
