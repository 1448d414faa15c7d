"""Sizes of what holds a miter, by the trade's proportions where the piece file leaves them out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import Hollow, cannot_be_made, check_depth
from scantling.joinery.miter_corner import MiterCorner
from scantling.joinery.options import JointOptions
from scantling.piece.files import Count, Length
from scantling.piece.model import JointRequest

__all__ = ["HeldBy", "MiterOptions", "Sizes", "sizes_of"]

SPLINE_SHARE = 0.25
"""A spline is a quarter as thick as the part, and never thinner than the saw's kerf (common practice). [1]"""
TENON_SHARE = 1.0 / 3.0
"""A loose tenon is a third as thick as the part (common practice). [1]"""
BOX_DEPTH_SHARE = 0.5
"""At a box's corner a spline is in all as wide as the part is thick, half in each (common practice). [1]"""
FRAME_DEPTH_SHARE = 0.25
"""In a flat frame each part takes a quarter of its width (common practice). [1]"""
KEY_SHARE = 2.0 / 3.0
"""A key goes two thirds of the way in from the outer corner (common practice). [1]"""
KEY_SPACING_MM = 40.0
"""Keys stand about this far apart (common practice). [mm]"""
TOWARD_INSIDE = 1.0 / 6.0
"""At the corner of a box the groove lies by this share of the miter inside its middle, where the wood behind
is thicker (common practice). [1]"""
_WALL_MM = 1.0
"""Wood left between the bottom of a groove or key and the face behind it. [mm]"""


class HeldBy(StrEnum):
    """What holds a miter besides glue on its slanting ends."""

    GLUE = "glue"
    SPLINE = "spline"
    KEYS = "keys"
    TENONS = "loose tenons"


class MiterOptions(JointOptions):
    """Two ends cut on one slanting plane (PART.end and PART.start), glued, and held by what held_by says."""

    kind: Literal["miter"]
    held_by: HeldBy = HeldBy.SPLINE
    """What holds it: glue alone, spline (a tongue in both ends), keys across the corner, loose tenons."""
    thickness: Length | None = Field(default=None, gt=0)
    """Of the spline, key or tenon; left out, a quarter of the part (a tenon a third), at least the kerf."""
    depth: Length | None = Field(default=None, gt=0)
    """Into each part, or of keys from the outer corner; left out, half of the thickness at a box's corner, a
    quarter of the width in a flat frame, two thirds of the miter for keys."""
    width: Length | None = Field(default=None, gt=0)
    """Of a loose tenon; left out, half of the miter."""
    count: Count | None = Field(default=None, ge=1, le=40)
    """Keys, or tenons side by side; left out, one tenon, and a key every 40 mm."""
    stopped: Length = Field(default=0, ge=0)
    """How far the spline stops short of both ends of its groove; 0 runs it through."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """Sizes in force.

    Parameters
    ----------
    thick_mm, depth_mm, run_mm
        Of the spline, key or tenon: thickness, depth into each part (of a key from the outer corner), and its
        long direction. [mm]
    count
        How many.
    inside_mm
        How far its middle lies inside that of the miter. [mm]
    """

    thick_mm: float
    depth_mm: float
    run_mm: float
    count: int
    inside_mm: float


def sizes_of(joint: JointRequest, corner: MiterCorner, *, kerf_mm: float) -> Sizes:
    """Sizes of what holds a miter.

    Raises
    ------
    InputError
        ``deeper_than_part``, ``key_through_corner``, ``nothing_left``, ``tongue_too_thick``.
    """
    o = joint.options
    assert isinstance(o, MiterOptions)
    if o.held_by is HeldBy.KEYS:
        return _keys(joint, corner, o, kerf_mm=kerf_mm)
    thin = min(side.thick_mm for side in corner.sides)
    across_mm, run_mm = (corner.long_mm, corner.wide_mm) if corner.flat else (corner.wide_mm, corner.long_mm)
    part_mm = corner.long_mm if corner.flat else thin
    share = TENON_SHARE if o.held_by is HeldBy.TENONS else SPLINE_SHARE
    thick = o.thickness or max(_whole(part_mm * share), kerf_mm)
    depth = o.depth or thin * (FRAME_DEPTH_SHARE if corner.flat else BOX_DEPTH_SHARE)
    if o.held_by is HeldBy.TENONS:
        run_mm = o.width or run_mm / 2.0
    elif o.stopped > 0.0:
        run_mm -= 2.0 * o.stopped
    if run_mm < thick:
        raise cannot_be_made(
            joint,
            "stopped" if o.stopped else "width",
            code="nothing_left",
            value=f"{run_mm:.1f} mm of it",
            rule=f"must be longer than it is thick, {thick:.1f} mm",
            remedy="Stop it shorter, or make it wider.",
        )
    inside = 0.0 if corner.flat else across_mm * TOWARD_INSIDE
    sizes = Sizes(thick_mm=thick, depth_mm=depth, run_mm=run_mm, count=int(o.count or 1), inside_mm=inside)
    _check(joint, corner, sizes, across_mm=across_mm)
    return sizes


def _whole(size_mm: float) -> float:
    """To a whole millimeter, which cutters come in. [mm]"""
    return float(round(size_mm))


def _keys(joint: JointRequest, corner: MiterCorner, o: MiterOptions, *, kerf_mm: float) -> Sizes:
    thick = o.thickness or max(kerf_mm, _whole(corner.long_mm * SPLINE_SHARE) if corner.flat else kerf_mm)
    depth = o.depth or corner.wide_mm * KEY_SHARE
    count = int(o.count or max(1, math.ceil(corner.long_mm / KEY_SPACING_MM - 1e-9)))
    if depth > corner.wide_mm - _WALL_MM:
        raise cannot_be_made(
            joint,
            "depth",
            code="key_through_corner",
            value=f"{depth:.1f} mm of {corner.wide_mm:.1f} mm from the outer to the inner corner",
            rule="must leave 1 mm of wood at the inner corner",
            remedy="Make the keys less deep.",
        )
    if thick * count > corner.long_mm / 2.0:
        raise _too_thick(joint, "count", f"{count} keys of {thick:.1f} mm", corner.long_mm)
    return Sizes(
        thick_mm=thick,
        depth_mm=depth,
        run_mm=2.0 * depth / corner.half_tan,
        count=count,
        inside_mm=0.0,
    )


def _check(joint: JointRequest, corner: MiterCorner, sizes: Sizes, *, across_mm: float) -> None:
    """Refuse a tongue that takes more than half of the wood, or comes out behind."""
    o = joint.options
    assert isinstance(o, MiterOptions)
    if sizes.thick_mm > across_mm / 2.0:
        raise _too_thick(joint, "thickness", f"{sizes.thick_mm:.1f} mm", across_mm)
    if corner.flat:
        blind = o.stopped > 0.0 or o.held_by is HeldBy.TENONS
        outermost = corner.at(across_mm=sizes.run_mm / 2.0 if blind else 0.0)
    else:
        outermost = corner.at(across_mm=sizes.thick_mm / 2.0 - sizes.inside_mm)
    for side in corner.sides:
        hollow = Hollow(
            at=outermost, into=side.into, depth_mm=sizes.depth_mm + _WALL_MM, what="groove and a wall"
        )
        check_depth(joint, "depth", side.part, hollow=hollow)


def _too_thick(joint: JointRequest, option: str, value: str, room_mm: float) -> Exception:
    return cannot_be_made(
        joint,
        option,
        code="tongue_too_thick",
        value=f"{value} in {room_mm:.1f} mm",
        rule="must leave half of the wood beside it",
        remedy="Make it thinner, or hold the corner another way.",
    )
