"""What holds a miter, as cut and made: spline, keys, loose tenons."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.joinery.meeting import grain_angle_deg, moved, slot_frame, spot_on
from scantling.joinery.miter_corner import MiterCorner, Side
from scantling.joinery.miter_sizes import HeldBy, Sizes
from scantling.joinery.work import (
    Box,
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    GlueFace,
    Mark,
    MarkKind,
    Slot,
)
from scantling.piece.convex import face_direction, named_face
from scantling.piece.geometry import Frame, Vec, cross, dot

__all__ = ["Held", "held"]

_OVER_MM = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What holds a miter.

    Parameters
    ----------
    modulus_mm3
        Section modulus of what crosses the miter, for bending about the arris. [mm3]
    """

    cuts: tuple[Cut, ...]
    marks: tuple[Mark, ...]
    connectors: tuple[Connector, ...]
    glue: tuple[GlueFace, ...]
    modulus_mm3: float


def held(corner: MiterCorner, how: HeldBy, sizes: Sizes, *, stopped_mm: float = 0.0) -> Held:
    """Cuts, marks and loose parts of what holds a miter."""
    if how is HeldBy.KEYS:
        return _keyed(corner, sizes)
    run = corner.across if corner.flat else corner.along
    places = _places(corner, sizes, run)
    cuts, marks = [], []
    for side in corner.sides:
        for place in places:
            if how is HeldBy.TENONS:
                frame = slot_frame(place, into=side.into, along=run)
                tool: Box | Slot = Slot(
                    frame=side.part.frame.frame_in(frame),
                    length_mm=sizes.run_mm,
                    width_mm=sizes.thick_mm,
                    depth_mm=sizes.depth_mm,
                )
            else:
                tool = _groove(side, place, run, sizes=sizes, stopped=stopped_mm > 0.0)
            what = "mortise" if how is HeldBy.TENONS else "spline groove"
            cuts.append(Cut(part=side.part.name, tool=tool, what=what))
            marks.append(_mark(side, place, how=how, sizes=sizes))
    thin, wide = (sizes.thick_mm, sizes.run_mm)
    bent = wide**2 * thin if corner.flat else wide * thin**2
    return Held(
        cuts=tuple(cuts),
        marks=tuple(marks),
        connectors=(_tongue(corner, places, run, how=how, sizes=sizes),),
        glue=(_cheeks(corner, 4.0 * sizes.run_mm * sizes.depth_mm * sizes.count, sizes),),
        modulus_mm3=sizes.count * bent / 6.0,
    )


def _places(corner: MiterCorner, sizes: Sizes, run: Vec) -> list[Vec]:
    """Middles of the tongues, side by side along the run. World. [mm]"""
    base = corner.at(across_mm=-sizes.inside_mm)
    pitch = (corner.wide_mm if corner.flat else corner.long_mm) / sizes.count
    return [moved(base, run, (k - (sizes.count - 1) / 2.0) * pitch) for k in range(sizes.count)]


def _groove(side: Side, place: Vec, run: Vec, *, sizes: Sizes, stopped: bool) -> Box:
    """A groove square to the miter; one that runs through is cut on into the air at both ends."""
    over = 0.0 if stopped else 3.0 * sizes.depth_mm + _OVER_MM
    frame = slot_frame(moved(place, side.into, -_OVER_MM), into=side.into, along=run)
    return Box(
        frame=side.part.frame.frame_in(frame),
        length_mm=sizes.depth_mm + _OVER_MM,
        width_mm=sizes.run_mm + 2.0 * over,
        thickness_mm=sizes.thick_mm,
    )


def _mark(side: Side, place: Vec, *, how: HeldBy, sizes: Sizes) -> Mark:
    spot = spot_on(side.part, place, side.end.value)
    tenons = how is HeldBy.TENONS
    return Mark(
        part=side.part.name,
        kind=MarkKind.MORTISE if tenons else MarkKind.GROOVE,
        on_end=True,
        end=side.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=sizes.run_mm,
        width_mm=sizes.thick_mm,
        depth_mm=sizes.depth_mm,
        fit=Fit.TIGHT,
        setup=f"{sizes.thick_mm:g} mm {'cutter' if tenons else 'groove'}, {sizes.depth_mm:.1f} mm deep, "
        "square to the miter",
        note="square to the miter, from the inner face" if not tenons else "square to the miter",
    )


def _tongue(corner: MiterCorner, places: list[Vec], run: Vec, *, how: HeldBy, sizes: Sizes) -> Connector:
    room = 1.0 if how is HeldBy.TENONS else 0.5
    spline = "its grain across the joint, from part to part; plywood does as well"
    return Connector(
        kind=ConnectorKind.LOOSE_TENON if how is HeldBy.TENONS else ConnectorKind.SPLINE,
        count=sizes.count,
        size_mm=(sizes.thick_mm, sizes.run_mm, 2.0 * sizes.depth_mm - room),
        note="edges rounded to the cutter" if how is HeldBy.TENONS else spline,
        frames=tuple(slot_frame(place, into=corner.normal, along=run) for place in places),
    )


def _cheeks(corner: MiterCorner, area_mm2: float, sizes: Sizes) -> GlueFace:
    first, second = corner.meeting.first, corner.meeting.second
    return GlueFace(
        parts=(first.name, second.name),
        area_mm2=area_mm2,
        grain_angle_deg=grain_angle_deg(first, second),
        end_grain_share=0.0,
        length_mm=sizes.run_mm,
    )


def _keyed(corner: MiterCorner, sizes: Sizes) -> Held:
    """Slots sawn across the outer corner after it is glued, and slips let into them."""
    pitch = corner.long_mm / sizes.count
    levels = [(k - (sizes.count - 1) / 2.0) * pitch for k in range(sizes.count)]
    bottom = corner.wide_mm / 2.0 - sizes.depth_mm
    cuts, marks, frames = [], [], []
    for level in levels:
        for side in corner.sides:
            frame = Frame(
                origin=corner.at(level, bottom),
                grain=corner.across,
                width=corner.normal,
                thickness=cross(corner.across, corner.normal),
            )
            tool = Box(
                frame=side.part.frame.frame_in(frame),
                length_mm=sizes.depth_mm + _OVER_MM + corner.wide_mm,
                width_mm=2.0 * (sizes.run_mm + corner.wide_mm),
                thickness_mm=sizes.thick_mm,
            )
            cuts.append(Cut(part=side.part.name, tool=tool, what="key slot"))
        marks.append(_key_mark(corner, corner.first, level, sizes=sizes))
        frames.append(
            slot_frame(
                corner.at(level, bottom + sizes.depth_mm / 2.0), into=corner.normal, along=corner.across
            )
        )
    each = sizes.depth_mm**2 / corner.half_tan
    return Held(
        cuts=tuple(cuts),
        marks=tuple(marks),
        connectors=(
            Connector(
                kind=ConnectorKind.KEY,
                count=sizes.count,
                size_mm=(sizes.thick_mm, sizes.depth_mm, sizes.run_mm),
                note="from a slip 2 mm over in width and length, its grain along it; planed flush when dry",
                frames=tuple(frames),
            ),
        ),
        glue=(_cheeks(corner, 2.0 * each * sizes.count, sizes),),
        modulus_mm3=sizes.count * sizes.thick_mm * sizes.depth_mm**2 / 6.0,
    )


def _key_mark(corner: MiterCorner, side: Side, level: float, *, sizes: Sizes) -> Mark:
    """The slot on the outer face of one part, from its edge and its long point."""
    half = math.radians(corner.turn_deg / 2.0)
    on_face = sizes.depth_mm / math.sin(half)
    away = corner.at(level, corner.wide_mm / 2.0)
    down = cross(corner.along, side.outward)
    down = down if dot(down, side.into) > 0.0 else (-down[0], -down[1], -down[2])
    face = named_face(side.part, face_direction(side.outward))
    spot = spot_on(side.part, moved(away, down, on_face / 2.0), face.label if face else "thickness+")
    lean = math.degrees(math.acos(min(1.0, abs(dot(down, side.part.frame.grain)))))
    return Mark(
        part=side.part.name,
        kind=MarkKind.GROOVE,
        on_end=False,
        end=side.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=on_face,
        width_mm=sizes.thick_mm,
        depth_mm=sizes.depth_mm,
        fit=Fit.TIGHT,
        setup=f"key slots {sizes.thick_mm:g} mm wide, {sizes.depth_mm:.1f} mm deep, in a cradle",
        angle_deg=lean,
        note="sawn across the corner when the glue is dry",
    )
