"""Notch: an open cut across one part that seats another, which passes whole."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.errors import InputError
from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import crossing, grain_angle_deg, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.work import (
    Box,
    ClampNeed,
    Cut,
    Fit,
    GlueFace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.convex import Body, body_of, face_direction
from scantling.piece.files import Length
from scantling.piece.geometry import Vec, add, dot, scale
from scantling.piece.model import JointRequest, Part

__all__ = ["Notch", "NotchOptions", "Seat", "notch_box", "seat_of"]

_OVER_MM = 3.0


class NotchOptions(JointOptions):
    """The second part is notched to seat the first, which crosses it."""

    kind: Literal["notch"]
    clearance: Length = Field(default=0.1, ge=0, le=3)
    """Room on each side of the part that sits in the notch."""
    glued: bool = True
    """Whether it is glued; not, where it comes apart or must move."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A notch as it is marked and sawn.

    Parameters
    ----------
    label
        Face of the notched part it is open to.
    center
        Middle of the opening, on that face. World. [mm]
    outward
        Out of the notch. World.
    width_mm, depth_mm
        Along the notched part's grain; square to the face. [mm]
    angle_deg
        Of the notch's cheeks against square across the part. [deg]
    """

    label: str
    center: Vec
    outward: Vec
    width_mm: float
    depth_mm: float
    angle_deg: float


def _no_notch(joint: JointRequest, value: str, rule: str) -> InputError:
    return cannot_be_made(
        joint,
        "",
        code="notch_not_possible",
        value=value,
        rule=f"must {rule}",
        remedy="Move the part that sits in the notch.",
    )


def seat_of(joint: JointRequest, first: Part, second: Part, *, common: Body) -> Seat:
    """How the notch for ``first`` lies in ``second``.

    Parameters
    ----------
    joint
        The joint, for its errors.
    first, second
        The part seated and the part notched.
    common
        Their common body, world.

    Raises
    ------
    InputError
        ``notch_not_possible``.
    """
    best, label, outward = float("-inf"), "", second.frame.width
    for axis, name, half in (
        (second.frame.width, "width", second.width_mm / 2.0),
        (second.frame.thickness, "thickness", second.thickness_mm / 2.0),
    ):
        if abs(dot(axis, first.frame.grain)) > 0.7:
            continue
        middle = dot(second.frame.origin, axis)
        low, high = common.extent(axis)
        for sign in (1.0, -1.0):
            past = (high - middle - half) if sign > 0 else (middle - half - low)
            inner = (middle + half - low) if sign > 0 else (high - middle + half)
            if past > -0.01 and -inner > best:
                best, label, outward = -inner, f"{name}{'+' if sign > 0 else '-'}", scale(axis, sign)
    if not label:
        raise _no_notch(joint, f"{first.name} inside {second.name}", "reach a side of the notched part")
    low, high = common.extent(outward)
    whole = second.width_mm if label.startswith("width") else second.thickness_mm
    if high - low > whole - 0.01:
        raise _no_notch(joint, f"{high - low:.1f} mm deep in {whole:.1f} mm", "leave wood under the notch")
    corners = common.corners
    total: Vec = (0.0, 0.0, 0.0)
    for corner in corners:
        total = add(total, corner)
    mean = scale(total, 1.0 / len(corners))
    u_low, u_high = common.extent(second.frame.grain)
    lean = math.degrees(math.asin(min(1.0, abs(dot(first.frame.grain, second.frame.grain)))))
    width = _width_along(first, second, outward)
    return Seat(
        label=label,
        center=add(mean, scale(outward, high - dot(mean, outward))),
        outward=outward,
        width_mm=width if width is not None else u_high - u_low,
        depth_mm=high - low,
        angle_deg=lean,
    )


def _width_along(first: Part, second: Part, outward: Vec) -> float | None:
    """Width of the notch along the notched part's grain, on its face. [mm]"""
    for axis, size in ((first.frame.width, first.width_mm), (first.frame.thickness, first.thickness_mm)):
        if abs(dot(axis, outward)) < 0.7:
            along = abs(dot(axis, second.frame.grain))
            return size / along if along > 0.3 else None
    return None


def notch_box(first: Part, second: Part, *, outward: Vec, clearance_mm: float) -> Cut:
    """The cut that lets the whole section of ``first`` into ``second``, down on the bottom of the notch."""
    low, high = body_of(second).extent(first.frame.grain)  # no farther: a longer first part is no other cut
    reach = high - low + 2.0 * _OVER_MM
    start = first.frame.point((low - _OVER_MM - dot(first.frame.origin, first.frame.grain), 0.0, 0.0))
    seated = max((first.frame.width, first.frame.thickness), key=lambda axis: abs(dot(axis, outward)))
    start = add(start, scale(seated, clearance_mm if dot(seated, outward) > 0.0 else -clearance_mm))
    frame = second.frame.frame_in(
        type(first.frame)(
            origin=start, grain=first.frame.grain, width=first.frame.width, thickness=first.frame.thickness
        )
    )
    return Cut(
        part=second.name,
        tool=Box(
            frame=frame,
            length_mm=reach,
            width_mm=first.width_mm + 2.0 * clearance_mm,
            thickness_mm=first.thickness_mm + 2.0 * clearance_mm,
        ),
        what="notch",
    )


class Notch:
    """The notch family."""

    name = "notch"
    options_model = NotchOptions
    strength = staticmethod(cases.housed)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The notch, how it is marked, its glue and its squeeze."""
        o = joint.options
        assert isinstance(o, NotchOptions)
        first, second, common = crossing(joint, context)
        seat = seat_of(joint, first, second, common=common)
        area = _seat_area(second, seat)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=seat.center,
            leaves=seat.outward,
            cuts=(notch_box(first, second, outward=seat.outward, clearance_mm=o.clearance),),
            marks=(notch_mark(second, seat, clearance_mm=o.clearance),),
            glue=(
                GlueFace(
                    parts=(first.name, second.name),
                    area_mm2=area,
                    grain_angle_deg=grain_angle_deg(first, second),
                    end_grain_share=0.5,
                    cross_span_mm=seat.width_mm if grain_angle_deg(first, second) > 30.0 else 0.0,
                    length_mm=seat.width_mm,
                ),
            )
            if o.glued
            else (),
            clamp=ClampNeed(direction=seat.outward, area_mm2=area, slope_deg=seat.angle_deg)
            if o.glued
            else None,
            dry=not o.glued,
            steps=(
                "Mark the notch from the part that is to sit in it, not from the drawing.",
                "Saw the two cheeks first, then the passes between; pare the bottom flat to the line.",
            ),
        )


def _seat_area(second: Part, seat: Seat) -> float:
    """Bottom and two cheeks of the notch. [mm2]"""
    across = second.thickness_mm if seat.label.startswith("width") else second.width_mm
    return across * (seat.width_mm + 2.0 * seat.depth_mm)


def notch_mark(part: Part, seat: Seat, *, clearance_mm: float, kind: MarkKind = MarkKind.NOTCH) -> Mark:
    """How a notch is marked on the part it is cut in."""
    spot = spot_on(part, seat.center, seat.label)
    return Mark(
        part=part.name,
        kind=kind,
        on_end=False,
        end=spot.end,
        face=face_direction(seat.outward),
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=(part.thickness_mm if seat.label.startswith("width") else part.width_mm) / 2.0,
        length_mm=seat.width_mm + 2.0 * clearance_mm,
        width_mm=part.thickness_mm if seat.label.startswith("width") else part.width_mm,
        depth_mm=seat.depth_mm,
        fit=Fit.TIGHT,
        setup=f"notch {seat.width_mm:.1f} mm wide, {seat.depth_mm:.1f} mm deep"
        + (f", cheeks at {seat.angle_deg:.1f} deg" if seat.angle_deg > 0.05 else ""),
        angle_deg=90.0,
        tilt_deg=seat.angle_deg,
    )
