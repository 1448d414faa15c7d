"""Bridle: a tongue across the whole width of one part in a slot that is open at the end of the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.joinery.bending import bent_nmm, rectangle_mm3
from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.halving import common_middle, crossing_way, notch_seat, slice_cut
from scantling.joinery.meeting import crossing, grain_angle_deg, moved, spot_on
from scantling.joinery.mortise_tenon import third_mm
from scantling.joinery.notch import notch_mark
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import tenons
from scantling.joinery.work import (
    ClampNeed,
    Cut,
    Fit,
    GlueFace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.convex import Body, body_of
from scantling.piece.files import Length
from scantling.piece.geometry import Vec, cross, dot, scale
from scantling.piece.model import End, JointRequest, Part, PartKind

__all__ = ["Bridle", "BridleOptions"]

_OVER_MM = 3.0
_FLUSH_MM = 0.5
"""An end may stand out this far past the other part, to be planed off. [mm]"""


class BridleOptions(JointOptions):
    """The first part has the tongue, the second is forked at its end: drawn passing through each other."""

    kind: Literal["bridle"]
    thickness: Length | None = Field(default=None, gt=0)
    """Thickness of the tongue; left out, a third of what both share, to the nearest usual cutter."""
    shift: Length = 0.0
    """Moves the tongue from the middle of what both share, up or toward the back and the right."""
    clearance: Length = Field(default=0.1, ge=0, le=1)
    """Room beside the tongue's shoulders, on each side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Layers:
    """Heights along ``up``, square to both grains, from the lower to the upper face both share. [mm]"""

    up: Vec
    center: Vec
    low: float
    tongue_low: float
    tongue_high: float
    high: float

    @property
    def tongue_mm(self) -> float:
        """Thickness of the tongue. [mm]"""
        return self.tongue_high - self.tongue_low


class Bridle:
    """The bridle family."""

    name = "bridle"
    options_model: type[JointOptions] = BridleOptions
    strength = staticmethod(tenons.bridle)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Both cheeks off the tongued part, the open slot in the forked one, and their glue."""
        o = joint.options
        assert isinstance(o, BridleOptions)
        tongued, forked, common = crossing(joint, context)
        up = crossing_way(joint, tongued, forked)
        end, depth = _open_end(joint, tongued, forked, common)
        layers = _layers(joint, common, up, o)
        area = common.volume_mm3 / (layers.high - layers.low)
        out = scale(forked.frame.grain, 1.0 if end is End.END else -1.0)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=tongued.name,
            second=forked.name,
            at=layers.center,
            leaves=out,
            cuts=_cuts(tongued, forked, layers, o),
            marks=(
                *_cheek_marks(tongued, forked, layers, o),
                _slot_mark(tongued, forked, layers, end=end, depth_mm=depth),
            ),
            glue=(
                GlueFace(
                    parts=(tongued.name, forked.name),
                    area_mm2=2.0 * area,
                    grain_angle_deg=grain_angle_deg(tongued, forked),
                    end_grain_share=0.0,
                    cross_span_mm=min(tongued.width_mm, forked.width_mm),
                    length_mm=max(tongued.width_mm, forked.width_mm),
                ),
            ),
            clamp=ClampNeed(direction=up, area_mm2=area),
            breaking_nmm=_breaking_nmm(tongued, forked, layers),
            steps=(
                "Gauge both parts from their face sides at one setting; knife the shoulders from each other.",
                "Saw the slot down both gauge lines, inside them; chop the waste out, half from each edge.",
                "Saw the shoulders, split or saw off the cheeks, and pare until the fork goes on by hand.",
                "Clamp the shoulders home first, then squeeze the cheeks between cauls over the joint.",
            ),
        )


def _open_end(joint: JointRequest, tongued: Part, forked: Part, common: Body) -> tuple[End, float]:
    """The end of the forked part that the slot opens at, and how deep the slot is. [mm]

    Raises
    ------
    InputError
        ``bridle_closed`` where the forked part goes on past the other on both sides.
    """
    grain = forked.frame.grain
    low, high = body_of(forked).extent(grain)
    first, last = common.extent(grain)
    past = {End.START: first - low, End.END: high - last}
    end = min(past, key=lambda each: past[each])
    if past[end] > _FLUSH_MM:
        raise cannot_be_made(
            joint,
            "",
            code="bridle_closed",
            value=f"{forked.name}, which goes on {past[end]:.1f} mm past {tongued.name}",
            rule="must end at the other part, where its slot is open",
            remedy="End it flush there, name the other part second, or use a halving.",
        )
    return end, last - first


def _layers(joint: JointRequest, common: Body, up: Vec, o: BridleOptions) -> _Layers:
    low, high = common.extent(up)
    thick = third_mm(high - low, inch=joint.inch) if o.thickness is None else o.thickness
    middle = (low + high) / 2.0 + o.shift
    found = _Layers(
        up=up,
        center=common_middle(common),
        low=low,
        tongue_low=middle - thick / 2.0,
        tongue_high=middle + thick / 2.0,
        high=high,
    )
    wall = min(found.tongue_low - low, high - found.tongue_high)
    if wall < 1.0:
        raise cannot_be_made(
            joint,
            "thickness",
            code="bridle_too_thick",
            value=f"a tongue of {thick:.1f} mm in {high - low:.1f} mm, {wall:.1f} mm from a face",
            rule="must leave 1 mm or more on both sides of it",
            remedy="Make it thinner, about a third, or shift it less.",
        )
    return found


def _cuts(tongued: Part, forked: Part, layers: _Layers, o: BridleOptions) -> tuple[Cut, ...]:
    """Both cheeks off the tongued part, and the slot out of the forked one."""
    cheeks = (
        (layers.low - _OVER_MM, layers.tongue_low),
        (layers.tongue_high, layers.high + _OVER_MM),
    )
    return (
        *(
            slice_cut(tongued, forked, layers.up, heights_mm=at, clearance=o.clearance, what="bridle cheek")
            for at in cheeks
        ),
        slice_cut(
            forked,
            tongued,
            layers.up,
            heights_mm=(layers.tongue_low, layers.tongue_high),
            clearance=0.0,
            what="bridle slot",
        ),
    )


def _cheek_marks(tongued: Part, forked: Part, layers: _Layers, o: BridleOptions) -> tuple[Mark, ...]:
    return tuple(
        notch_mark(
            tongued,
            notch_seat(tongued, forked, layers.center, outward=outward, depth=depth),
            clearance_mm=o.clearance,
            kind=MarkKind.NOTCH,
        )
        for outward, depth in (
            (scale(layers.up, -1.0), layers.tongue_low - layers.low),
            (layers.up, layers.high - layers.tongue_high),
        )
    )


def _slot_mark(tongued: Part, forked: Part, layers: _Layers, *, end: End, depth_mm: float) -> Mark:
    """The slot in the end of the forked part, from one of its faces."""
    middle = (layers.tongue_low + layers.tongue_high) / 2.0
    up = layers.up
    at = moved(layers.center, up, middle - dot(layers.center, up))
    spot = spot_on(forked, at, end.value)
    across = cross(up, forked.frame.grain)
    wide = forked.width_mm if abs(dot(across, forked.frame.width)) > 0.7 else forked.thickness_mm
    return Mark(
        part=forked.name,
        kind=MarkKind.SOCKET,
        on_end=True,
        end=end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=wide,
        width_mm=layers.tongue_mm,
        depth_mm=depth_mm,
        fit=Fit.TIGHT,
        setup=f"bridle slot {layers.tongue_mm:.1f} mm wide, {depth_mm:.1f} mm deep",
        tilt_deg=90.0 - grain_angle_deg(tongued, forked),
        note="open at the end and on both edges",
    )


def _breaking_nmm(tongued: Part, forked: Part, layers: _Layers) -> float | None:
    """Bending of the tongue in the plane of the joint at clear strength. [N mm]"""
    if forked.kind is PartKind.SHEET:
        return None
    side = cross(layers.up, tongued.frame.grain)
    wide = tongued.width_mm if abs(dot(side, tongued.frame.width)) > 0.7 else tongued.thickness_mm
    return bent_nmm(tongued, rectangle_mm3(layers.tongue_mm, wide))
