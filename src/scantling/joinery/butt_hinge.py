"""Butt hinges let into the edge of a door or lid and into its case, with their screws."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.joinery.fastening import pilot_share
from scantling.joinery.fitting import cannot_be_made, wood_behind_mm
from scantling.joinery.hinge_edge import (
    HingeEdge,
    hinge_count,
    hinge_edge,
    hinge_length_mm,
    hinge_places,
)
from scantling.joinery.meeting import moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
from scantling.joinery.work import (
    Box,
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
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Vec, dot, scale
from scantling.piece.model import JointRequest, Part

__all__ = ["ButtHinge", "ButtHingeOptions", "LetIn", "leaf_depths_mm"]

_LEAF_SHARE = 2.0 / 3.0
"""A leaf covers so much of the edge's thickness, to the nearest mm (common practice). [1]"""
_LEAST_WOOD_MM = 2.0
"""Wood left behind a leaf: less breaks out as it is chopped (common practice). [mm]"""
_THREE_SCREWS_FROM_MM = 50.0
_OVER_MM = 2.0


class LetIn(StrEnum):
    """Which part the hinge is let into."""

    BOTH = "both"
    FIRST = "first"
    SECOND = "second"


class ButtHingeOptions(JointOptions):
    """Hinges from a door's edge (first, as PART.FACE) to its case (second, with the FACE at the knuckles)."""

    kind: Literal["butt_hinge"]
    count: Count | None = Field(default=None, ge=1, le=8)
    """Hinges; left out, two on an edge up to 1 m long, one more for each 600 mm beyond."""
    length: Length | None = Field(default=None, gt=0)
    """Length of a hinge; left out, the next one sold above a twelfth of the edge."""
    leaf: Length | None = Field(default=None, gt=0)
    """From the middle of the pin to the edge of a leaf; left out, two thirds of the edge's thickness."""
    thick: Length = Field(default=2, gt=0)
    """Thickness of a leaf."""
    knuckle: Length = Field(default=6, gt=0)
    """Diameter of the knuckle, which is also how thick the closed hinge is."""
    pin_out: Length | None = Field(default=None, ge=0)
    """From the face to the middle of the pin; left out, half the knuckle: all of it stands out."""
    inset: Length | None = Field(default=None, ge=0)
    """From the ends of the edge to the outer hinges; left out, the length of a hinge."""
    let_in: LetIn = LetIn.BOTH
    """Into which the hinge is let: both alike, or first (the door) or second (the case) alone."""
    screw: tuple[PositiveLength, PositiveLength] = (3.0, 16.0)
    """Diameter and length of the screws."""
    screws: Count | None = Field(default=None, ge=1, le=8)
    """Screws in a leaf; left out, two, three from 50 mm on."""


def leaf_depths_mm(*, closed_mm: float, gap_mm: float, let_in: LetIn) -> tuple[float, float]:
    """How deep the leaves are let into door and case, so that the closed gap comes out. [mm]

    The closed hinge is as thick as its knuckle; what of that is not gap is let in.

    Examples
    --------
    >>> leaf_depths_mm(closed_mm=6.0, gap_mm=1.5, let_in=LetIn.BOTH)
    (2.25, 2.25)
    >>> leaf_depths_mm(closed_mm=6.0, gap_mm=1.5, let_in=LetIn.FIRST)
    (4.5, 0.0)
    """
    whole = closed_mm - gap_mm
    if let_in is LetIn.BOTH:
        return whole / 2.0, whole / 2.0
    return (whole, 0.0) if let_in is LetIn.FIRST else (0.0, whole)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Hinge:
    """Sizes of the hinges of one edge. [mm]

    Parameters
    ----------
    back_mm
        From the front to the far edge of the leaves.
    depths_mm
        Let into the first part and the second.
    screws
        In a leaf.
    """

    edge: HingeEdge
    places: tuple[float, ...]
    length_mm: float
    pin_out_mm: float
    back_mm: float
    depths_mm: tuple[float, float]
    screws: int

    def screw_places(self, place: float) -> list[float]:
        """Along the edge. [mm]"""
        pitch = self.length_mm / self.screws
        return [place - self.length_mm / 2.0 + (k + 0.5) * pitch for k in range(self.screws)]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """One of the two parts: its face, how far it is from the edge, the way in, and the depth of the leaf."""

    part: Part
    label: str
    out_mm: float
    into: Vec
    depth_mm: float


class ButtHinge:
    """The butt-hinge family."""

    name = "butt_hinge"
    options_model = ButtHingeOptions
    strength = staticmethod(metal.hinged)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Recesses and pilot holes in both parts, the hinges and screws to buy, and how they are let in."""
        o = joint.options
        assert isinstance(o, ButtHingeOptions)
        hinge = _hinge(joint, hinge_edge(joint, context), o)
        edge = hinge.edge
        cuts, marks = [], []
        for side in _sides(hinge):
            _check_wood(joint, hinge, side, o)
            for place in hinge.places:
                if side.depth_mm > 1e-6:
                    cuts.append(_recess(hinge, side, place))
                    marks.append(_mark(hinge, side, place))
                cuts += _pilots(hinge, side, place, o)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=edge.facing.first.name,
            second=edge.facing.second.name,
            at=edge.spot(0.0, back_mm=hinge.back_mm / 2.0),
            leaves=scale(edge.facing.out, -1.0) if edge.is_lid else edge.knuckle,
            cuts=tuple(cuts),
            marks=tuple(marks),
            connectors=_connectors(hinge, o),
            dry=True,
            passes=True,
            steps=_steps(hinge, o),
        )


def _hinge(joint: JointRequest, edge: HingeEdge, o: ButtHingeOptions) -> _Hinge:
    """Sizes and places, by the options or the trade's rules."""
    length = hinge_length_mm(edge.length_mm) if o.length is None else o.length
    pin_out = o.knuckle / 2.0 if o.pin_out is None else o.pin_out
    back = float(round(_LEAF_SHARE * edge.deep_mm)) if o.leaf is None else o.leaf - pin_out
    gap = edge.facing.drawn_mm
    _check_hinge(joint, edge, o, pin_out_mm=pin_out, back_mm=back)
    count = hinge_count(edge.length_mm) if o.count is None else int(o.count)
    inset = length if o.inset is None else o.inset
    screws = 3 if length >= _THREE_SCREWS_FROM_MM else 2
    return _Hinge(
        edge=edge,
        places=hinge_places(joint, edge, count=count, length_mm=length, inset_mm=inset),
        length_mm=length,
        pin_out_mm=pin_out,
        back_mm=back,
        depths_mm=leaf_depths_mm(closed_mm=o.knuckle, gap_mm=gap, let_in=o.let_in),
        screws=screws if o.screws is None else int(o.screws),
    )


def _check_hinge(
    joint: JointRequest, edge: HingeEdge, o: ButtHingeOptions, *, pin_out_mm: float, back_mm: float
) -> None:
    """Refuse a gap the hinge cannot close, a leaf that breaks out, and a knuckle buried in the case."""
    gap, first, second = edge.facing.drawn_mm, edge.facing.first.name, edge.facing.second.name
    proud = edge.second_front_mm - edge.front_mm
    if gap > o.knuckle - 1e-6:
        option, code = "knuckle", "hinge_too_thin"
        value = f"a hinge {o.knuckle:.1f} mm thick when closed, in a gap of {gap:.1f} mm"
        rule, remedy = "must be thicker than the gap", "Draw the gap smaller, or choose a thicker knuckle."
    elif back_mm > edge.deep_mm - _LEAST_WOOD_MM + 1e-6 or back_mm <= 0.0:
        option, code = "leaf", "leaf_over_edge"
        value = f"leaves that reach {back_mm:.1f} mm back over {edge.deep_mm:.1f} mm of {first} and {second}"
        rule = f"must leave at least {_LEAST_WOOD_MM:g} mm of wood behind them"
        remedy = "Choose a narrower hinge, or let its pin stand farther out."
    elif proud > pin_out_mm + 1e-6:
        option, code = "pin_out", "knuckle_buried"
        value = f"{second} stands {proud:.1f} mm in front of {first}, past the pin at {pin_out_mm:.1f} mm"
        rule, remedy = "must let the knuckle stand free", "Set the door farther out, or the pin."
    else:
        return
    raise cannot_be_made(joint, option, code=code, value=value, rule=rule, remedy=remedy)


def _sides(hinge: _Hinge) -> tuple[_Side, _Side]:
    f = hinge.edge.facing
    first, second = hinge.depths_mm
    return (
        _Side(part=f.first, label=f.label, out_mm=0.0, into=scale(f.out, -1.0), depth_mm=first),
        _Side(part=f.second, label=f.second_label, out_mm=f.drawn_mm, into=f.out, depth_mm=second),
    )


def _check_wood(joint: JointRequest, hinge: _Hinge, side: _Side, o: ButtHingeOptions) -> None:
    """Refuse screws that come out on the far side."""
    at = hinge.edge.spot(0.0, back_mm=hinge.back_mm / 2.0, out_mm=side.out_mm)
    wood = wood_behind_mm(side.part, at, side.into)
    deep = side.depth_mm + o.screw[1] - o.thick
    if deep > wood - 0.01:
        raise cannot_be_made(
            joint,
            "screw",
            code="screw_too_long",
            value=f"{deep:.1f} mm into {wood:.1f} mm of {side.part.name}",
            rule="must end inside the part",
            remedy="Choose shorter screws.",
        )


def _recess(hinge: _Hinge, side: _Side, place: float) -> Cut:
    """The bed of one leaf, open to the front."""
    edge = hinge.edge
    front = max(edge.front_mm, edge.second_front_mm) - edge.front_mm + _OVER_MM
    middle = edge.spot(place, back_mm=(hinge.back_mm - front) / 2.0, out_mm=side.out_mm)
    frame = slot_frame(moved(middle, side.into, -_OVER_MM), into=side.into, along=edge.along)
    tool = Box(
        frame=side.part.frame.frame_in(frame),
        length_mm=side.depth_mm + _OVER_MM,
        width_mm=hinge.length_mm,
        thickness_mm=hinge.back_mm + front,
    )
    return Cut(part=side.part.name, tool=tool, what="hinge recess")


def _pilots(hinge: _Hinge, side: _Side, place: float, o: ButtHingeOptions) -> list[Cut]:
    """Pilot holes for the screws of one leaf, from the bed of its recess."""
    cuts = []
    for along in hinge.screw_places(place):
        at = hinge.edge.spot(along, back_mm=hinge.back_mm / 2.0, out_mm=side.out_mm)
        over = 0.0 if side.depth_mm > 1e-6 else _OVER_MM
        frame = slot_frame(moved(at, side.into, side.depth_mm - over), into=side.into, along=hinge.edge.along)
        tool = Hole(
            frame=side.part.frame.frame_in(frame),
            diameter_mm=pilot_share(side.part) * o.screw[0],
            depth_mm=o.screw[1] - o.thick + over,
        )
        cuts.append(Cut(part=side.part.name, tool=tool, what="pilot hole"))
    return cuts


def _mark(hinge: _Hinge, side: _Side, place: float) -> Mark:
    """One leaf's bed, from the end of the edge and the face at the knuckle."""
    part = side.part
    at = hinge.edge.spot(place, back_mm=hinge.back_mm / 2.0, out_mm=side.out_mm)
    spot = spot_on(part, at, side.label)
    lies_along = abs(dot(hinge.edge.along, part.frame.grain)) > 0.7
    return Mark(
        part=part.name,
        kind=MarkKind.RECESS,
        **spot.measured,
        length_mm=hinge.length_mm,
        width_mm=hinge.back_mm,
        depth_mm=side.depth_mm,
        fit=Fit.TIGHT,
        angle_deg=0.0 if lies_along or spot.on_end else 90.0,
        setup=f"hinge recesses {hinge.back_mm:.1f} mm from the face, {side.depth_mm:.2f} mm deep",
        note="scribed round the leaf itself",
    )


def _connectors(hinge: _Hinge, o: ButtHingeOptions) -> tuple[Connector, Connector]:
    edge = hinge.edge
    pins = tuple(
        slot_frame(
            edge.spot(place, back_mm=-hinge.pin_out_mm, out_mm=edge.facing.drawn_mm / 2.0),
            into=edge.along,
            along=edge.knuckle,
        )
        for place in hinge.places
    )
    each = 2 * hinge.screws * len(hinge.places)
    return (
        Connector(
            kind=ConnectorKind.BUTT_HINGE,
            count=len(hinge.places),
            size_mm=(o.knuckle, 2.0 * (hinge.back_mm + hinge.pin_out_mm), hinge.length_mm),
            note="knuckle, width laid open, length; measure the hinge in hand before anything is cut",
            frames=pins,
        ),
        Connector(
            kind=ConnectorKind.SCREW,
            count=each,
            size_mm=o.screw,
            drill_mm=(_drill_mm(hinge, o), o.screw[1] - o.thick),
            note=f"{2 * hinge.screws} a hinge, heads flush in its leaves",
        ),
    )


def _drill_mm(hinge: _Hinge, o: ButtHingeOptions) -> float:
    """The pilot hole of the softer part, which holds less. [mm]"""
    facing = hinge.edge.facing
    return min(map(pilot_share, (facing.first, facing.second))) * o.screw[0]


def _steps(hinge: _Hinge, o: ButtHingeOptions) -> tuple[str, ...]:
    first, second = hinge.depths_mm
    deep = f"{first:.2f} mm into the door" if first > 0.0 else "not into the door"
    deep += f" and {second:.2f} mm into the case" if second > 0.0 else " and not into the case"
    return (
        "Have the hinges in hand: scribe round a leaf, and set the gauges by it.",
        f"Set one gauge to {hinge.back_mm:.1f} mm, from the face to the far edge of a leaf, another to the "
        f"depth: {deep}.",
        "Scribe the ends first, then gauge; chop across the grain inside the lines, pare to the gauge lines.",
        f"Bore {_drill_mm(hinge, o):.1f} mm pilot holes a hair toward the back of the recess: the "
        "screws then draw the leaf in.",
        "Cut a thread with a steel screw of the same size before a brass one goes in; wax it.",
        f"Hang it on one screw a leaf and try it: the gap at the hinges is to be "
        f"{hinge.edge.facing.drawn_mm:.1f} mm. Only then put in the others.",
    )
