"""Strap hinges: long leaves across the underside of a lid, short ones down the back of its box.

A strap lies across the grain of the lid. Screwed fast along its whole length it would hold a solid lid as a
cleat does, so its screws are tight next to the knuckle and slide in slots farther in.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.joinery.fastening import pilot_share
from scantling.joinery.fitting import cannot_be_made, wood_behind_mm
from scantling.joinery.hinge_edge import HingeEdge, hinge_edge, hinge_places
from scantling.joinery.meeting import moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import (
    Box,
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    Freedom,
    Hole,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Vec, dot, scale
from scantling.piece.model import JointRequest, Part

__all__ = ["StrapHinge", "StrapHingeOptions"]

_OVER_MM = 2.0
_SHARE = 0.5
"""A strap reaches over half of the lid, to the next lower 10 mm (common practice). [1]"""


class StrapHingeOptions(JointOptions):
    """Strap hinges from a lid (first, as PART.FACE) to its box (second, with the FACE at the knuckles)."""

    kind: Literal["strap_hinge"]
    count: Count = Field(default=2, ge=1, le=6)
    """Hinges."""
    strap: Length | None = Field(default=None, gt=0)
    """Length of the leaf under the lid; left out, half the lid's width."""
    tail: Length = Field(default=80, gt=0)
    """Length of the leaf on the box."""
    width: Length = Field(default=30, gt=0)
    """Width of both leaves."""
    thick: Length = Field(default=3, gt=0)
    """Thickness of the leaves; what of it is not gap is let into the edge of the box."""
    inset: Length = Field(default=120, ge=0)
    """From the ends of the edge to the outer hinges."""
    screw: tuple[PositiveLength, PositiveLength] = (4.0, 18.0)
    """Diameter and length of the screws."""
    screws: Count = Field(default=4, ge=2, le=12)
    """Screws in the leaf under the lid."""
    tail_screws: Count = Field(default=3, ge=2, le=12)
    """Screws in the leaf on the box."""
    slot: Length | None = Field(default=None, gt=0)
    """Length its holes are filed to, but for that next to the knuckle; left out, as the room's year asks."""
    clearance: Length = Field(default=0.5, ge=0)
    """Room at each end of a slot beyond the travel of a board as lively as one in twenty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Strap:
    """Sizes of the straps and their places along the edge. [mm]"""

    edge: HingeEdge
    places: tuple[float, ...]
    strap_mm: float
    sunk_mm: float
    o: StrapHingeOptions

    @property
    def lid_screws(self) -> tuple[float, ...]:
        """From the lid's edge at the knuckle. [mm]"""
        return _row(self.strap_mm, int(self.o.screws))

    @property
    def tail_screws(self) -> tuple[float, ...]:
        """Down from the edge of the box. [mm]"""
        return _row(self.o.tail, int(self.o.tail_screws))


def _row(length_mm: float, count: int) -> tuple[float, ...]:
    """Screws in a leaf, evenly from its knuckle to its end."""
    return tuple((k + 0.5) * length_mm / count for k in range(count))


class StrapHinge:
    """The strap-hinge family."""

    name = "strap_hinge"
    options_model = StrapHingeOptions
    strength = staticmethod(metal.hinged)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Beds in the edge of the box, pilot holes, and the slots the lid's movement asks for."""
        o = joint.options
        assert isinstance(o, StrapHingeOptions)
        edge = hinge_edge(joint, context)
        length = float(10 * int(_SHARE * _lid_mm(edge) / 10)) if o.strap is None else o.strap
        strap = _Strap(
            edge=edge,
            places=hinge_places(joint, edge, count=int(o.count), length_mm=o.width, inset_mm=o.inset),
            strap_mm=length,
            sunk_mm=max(0.0, o.thick - edge.facing.drawn_mm),
            o=o,
        )
        _check(joint, strap)
        cuts, marks = [], []
        for place in strap.places:
            if strap.sunk_mm > 1e-6:
                cuts.append(_bed(strap, place))
                marks.append(_bed_mark(strap, place))
            cuts += _pilots(strap, place)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=edge.facing.first.name,
            second=edge.facing.second.name,
            at=edge.spot(0.0, back_mm=edge.deep_mm / 2.0),
            leaves=scale(edge.facing.out, -1.0),
            cuts=tuple(cuts),
            marks=tuple(marks),
            connectors=_connectors(strap),
            freedoms=_freedoms(strap, context),
            dry=True,
            passes=True,
            steps=(
                "Let each strap into the edge of the box until the lid lies on it without rocking.",
                "File the holes under the lid long, all but that at the knuckle; washers under the heads.",
                "Screw the short leaves to the back first, then the lid: the first screw tight, the others "
                "snug enough to hold and loose enough to slide.",
            ),
        )


def _lid_mm(edge: HingeEdge) -> float:
    """The lid's size away from the knuckles. [mm]"""
    lid = edge.facing.first
    return lid.width_mm if abs(dot(lid.frame.width, edge.knuckle)) > 0.7 else lid.length_mm


def _check(joint: JointRequest, strap: _Strap) -> None:
    """Refuse a strap longer than the lid, a lid that stands out over the back, and screws too long."""
    edge, o = strap.edge, strap.o
    first, second = edge.facing.first, edge.facing.second
    wood = wood_behind_mm(first, edge.spot(0.0, back_mm=strap.lid_screws[0]), scale(edge.facing.out, -1.0))
    bite = o.screw[1] - o.thick
    over = edge.front_mm - edge.second_front_mm
    if strap.strap_mm > _lid_mm(edge) - 10.0:
        option, code = "strap", "strap_over_lid"
        value, rule = f"{strap.strap_mm:.1f} mm under {_lid_mm(edge):.1f} mm", "must end under the lid"
        remedy = "Choose a shorter strap."
    elif abs(over) > 1.0:
        option, code = "", "lid_not_flush"
        value = f"{first.name}, whose edge is {over:.1f} mm past the face of {second.name}"
        rule = "must be flush there: the leaf goes straight down behind it"
        remedy = "Draw the lid flush at its hinges, or use butt hinges."
    elif bite > wood - 0.01:
        option, code = "screw", "screw_too_long"
        value, rule = f"{bite:.1f} mm into {wood:.1f} mm of {first.name}", "must end inside the lid"
        remedy = "Choose shorter screws."
    else:
        return
    raise cannot_be_made(joint, option, code=code, value=value, rule=rule, remedy=remedy)


def _bed(strap: _Strap, place: float) -> Cut:
    """The bed of one strap, right across the edge of the box."""
    edge = strap.edge
    second, out = edge.facing.second, edge.facing.out
    middle = edge.spot(place, back_mm=edge.deep_mm / 2.0, out_mm=edge.facing.drawn_mm)
    tool = Box(
        frame=second.frame.frame_in(slot_frame(moved(middle, out, -_OVER_MM), into=out, along=edge.along)),
        length_mm=strap.sunk_mm + _OVER_MM,
        width_mm=strap.o.width,
        thickness_mm=edge.deep_mm + 2.0 * _OVER_MM,
    )
    return Cut(part=second.name, tool=tool, what="hinge recess")


def _bed_mark(strap: _Strap, place: float) -> Mark:
    edge = strap.edge
    second = edge.facing.second
    at = edge.spot(place, back_mm=edge.deep_mm / 2.0, out_mm=edge.facing.drawn_mm)
    spot = spot_on(second, at, edge.facing.second_label)
    return Mark(
        part=second.name,
        kind=MarkKind.RECESS,
        **spot.measured,
        length_mm=strap.o.width,
        width_mm=edge.deep_mm,
        depth_mm=strap.sunk_mm,
        fit=Fit.TIGHT,
        setup=f"beds for straps, {strap.sunk_mm:.1f} mm deep",
        note="right across the edge; scribed round the strap itself",
    )


def _pilots(strap: _Strap, place: float) -> list[Cut]:
    """Pilot holes under the lid and in the back of the box."""
    edge, o = strap.edge, strap.o
    first, second = edge.facing.first, edge.facing.second
    up = scale(edge.facing.out, -1.0)
    cuts = [_pilot(first, edge.spot(place, back_mm=back), up, strap) for back in strap.lid_screws]
    proud = edge.front_mm - edge.second_front_mm
    for down in strap.tail_screws:
        at = edge.spot(place, back_mm=proud, out_mm=edge.facing.drawn_mm + o.thick + down)
        cuts.append(_pilot(second, at, scale(edge.knuckle, -1.0), strap))
    return cuts


def _pilot(part: Part, at: Vec, into: Vec, strap: _Strap) -> Cut:
    o = strap.o
    frame = slot_frame(moved(at, into, -_OVER_MM), into=into, along=strap.edge.along)
    tool = Hole(
        frame=part.frame.frame_in(frame),
        diameter_mm=pilot_share(part) * o.screw[0],
        depth_mm=o.screw[1] - o.thick + _OVER_MM,
    )
    return Cut(part=part.name, tool=tool, what="pilot hole")


def _moves(strap: _Strap, back_mm: float, context: JointContext, *, lively: bool = False) -> Travel:
    """Travel of the lid over a screw, from the screw next to the knuckle. [mm]"""
    lid, edge = strap.edge.facing.first, strap.edge
    if abs(dot(lid.frame.width, edge.knuckle)) < 0.7:
        return Travel(shrink_mm=0.0, swell_mm=0.0)
    held = lid.frame.local(edge.spot(0.0, back_mm=strap.lid_screws[0]))[1]
    y = lid.frame.local(edge.spot(0.0, back_mm=back_mm))[1] - held
    return travel(lid, y, context.moisture, fixed_at_mm=held, lively=lively)


def _freedoms(strap: _Strap, context: JointContext) -> tuple[Freedom, ...]:
    """Each screw that slides; the slots are filed alike to both sides."""
    o, found = strap.o, []
    for i, place in enumerate(strap.places):
        for k, back in enumerate(strap.lid_screws[1:], start=2):
            moves = _moves(strap, back, context)
            lively = _moves(strap, back, context, lively=True)
            asked = o.screw[0] + 2.0 * (max(lively.shrink_mm, lively.swell_mm) + o.clearance)
            slot = asked if o.slot is None else max(o.slot, o.screw[0])
            room = (slot - o.screw[0]) / 2.0
            found.append(
                Freedom(
                    part=strap.edge.facing.first.name,
                    what=f"screw slot {k} of strap {i + 1}",
                    at=strap.edge.spot(place, back_mm=back),
                    from_fixed_mm=back - strap.lid_screws[0],
                    shrink_travel_mm=moves.shrink_mm,
                    swell_travel_mm=moves.swell_mm,
                    shrink_room_mm=room,
                    swell_room_mm=room,
                    cut_to_mm=slot,
                )
            )
    return tuple(found)


def _connectors(strap: _Strap) -> tuple[Connector, Connector]:
    o, edge = strap.o, strap.edge
    inward = scale(edge.knuckle, -1.0)

    def spot(place: float) -> Vec:
        return edge.spot(place, back_mm=strap.strap_mm / 2.0, out_mm=o.thick / 2.0)

    frames = tuple(slot_frame(spot(place), into=inward, along=edge.along) for place in strap.places)
    share = min(pilot_share(edge.facing.first), pilot_share(edge.facing.second))
    return (
        Connector(
            kind=ConnectorKind.STRAP_HINGE,
            count=int(o.count),
            size_mm=(o.thick, o.width, strap.strap_mm),
            note=f"the leaf under the lid; that on the box {o.tail:g} mm; round or slotted holes filed long",
            frames=frames,
        ),
        Connector(
            kind=ConnectorKind.SCREW,
            count=int(o.count) * (int(o.screws) + int(o.tail_screws)),
            size_mm=o.screw,
            drill_mm=(share * o.screw[0], o.screw[1] - o.thick),
            note="round heads, with washers in the slots",
        ),
    )
