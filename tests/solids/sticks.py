"""Small parts to cut solids from: a bar, its ends, its tools, each with variants by keyword."""

from __future__ import annotations

import math
from dataclasses import replace

from scantling.joinery.work import Box, Cut, Extension, HalfSpace, Hole, Slot, Tool, Turned
from scantling.piece.geometry import Frame, Plane, Vec, cross, scale, unit
from scantling.piece.model import End, Part, PartKind, RoundSection, Trim
from scantling.solids.shape import PartShape
from scantling.wood.ring import Ring

HERE = Frame(origin=(0.0, 0.0, 0.0), grain=(1.0, 0.0, 0.0), width=(0.0, 1.0, 0.0), thickness=(0.0, 0.0, 1.0))
"""Own axes along the world's."""


def square_trim(end: End, at_mm: float) -> Trim:
    """A square cut across the grain."""
    sign = 1.0 if end is End.END else -1.0
    return Trim(plane=Plane(point=(at_mm, 0.0, 0.0), normal=(sign, 0.0, 0.0)), end=end, by="square")


def slanted_trim(end: End, axis_mm: float, tilt_deg: float, turn_deg: float = 0.0) -> Trim:
    """A slanted cut that crosses the axis at ``axis_mm``, tilted toward width and thickness by ``turn``."""
    sign = 1.0 if end is End.END else -1.0
    tilt, turn = math.radians(tilt_deg), math.radians(turn_deg)
    normal = (sign * math.cos(tilt), math.sin(tilt) * math.cos(turn), math.sin(tilt) * math.sin(turn))
    return Trim(plane=Plane(point=(axis_mm, 0.0, 0.0), normal=normal), end=end, by="square")


def long_points(width: float, thickness: float, trims: tuple[Trim, ...]) -> tuple[float, float]:
    """Extent along the grain of a bar between single trims, long point to long point."""

    def at(trim: Trim, v: float, w: float) -> float:
        n, p = trim.plane.normal, trim.plane.point
        return p[0] - (n[1] * (v - p[1]) + n[2] * (w - p[2])) / n[0]

    corners = [(v, w) for v in (-width / 2, width / 2) for w in (-thickness / 2, thickness / 2)]
    start = min(at(t, v, w) for t in trims if t.end is End.START for v, w in corners)
    end = max(at(t, v, w) for t in trims if t.end is End.END for v, w in corners)
    return start, end


def bar(
    name: str = "bar",
    *,
    length: float = 700.0,
    width: float = 60.0,
    thickness: float = 40.0,
    trims: tuple[Trim, ...] | None = None,
    frame: Frame = HERE,
) -> Part:
    """A straight bar from u = 0, squared at both ends unless trims are given."""
    if trims is None:
        trims = (square_trim(End.START, 0.0), square_trim(End.END, length))
    start, end = long_points(width, thickness, trims)
    return Part(
        name=name,
        like=name,
        kind=PartKind.STICK,
        species="black cherry",
        frame=frame,
        width_mm=width,
        thickness_mm=thickness,
        start_mm=start,
        end_mm=end,
        trims=trims,
        ring=Ring.FLAT,
    )


def round_bar(length: float = 400.0, *, start: float = 38.0, end: float = 28.0, name: str = "leg") -> Part:
    """A round stick squared at both ends."""
    part = bar(name, length=length, width=max(start, end), thickness=max(start, end))
    return replace(part, round=RoundSection(start_mm=start, end_mm=end))


def into(origin: Vec, way: Vec, along: Vec) -> Frame:
    """A tool's frame: grain axis into the wood, width axis along ``along``."""
    grain, width = unit(way), unit(along)
    return Frame(origin=origin, grain=grain, width=width, thickness=cross(grain, width))


def slot(origin: Vec, *, length: float = 50.0, width: float = 10.0, depth: float = 28.0) -> Slot:
    """A mortise in the upper broad face, along the grain."""
    return Slot(
        frame=into(origin, (0.0, 0.0, -1.0), (1.0, 0.0, 0.0)),
        length_mm=length,
        width_mm=width,
        depth_mm=depth,
    )


def hole(origin: Vec, *, diameter: float = 6.0, depth: float = 20.0, way: Vec = (0.0, 0.0, -1.0)) -> Hole:
    """A hole in the upper broad face."""
    along = (1.0, 0.0, 0.0) if abs(way[0]) < 0.9 else (0.0, 1.0, 0.0)
    across = cross(unit(way), along)
    return Hole(frame=into(origin, way, cross(across, unit(way))), diameter_mm=diameter, depth_mm=depth)


def shaped(part: Part, *tools: Tool, extensions: tuple[Extension, ...] = ()) -> PartShape:
    """A part with tools applied to it."""
    cuts = tuple(Cut(part=part.name, tool=tool, what="cut") for tool in tools)
    return PartShape(part=part, extensions=extensions, cuts=cuts)


def turned_frame(
    *, yaw_deg: float, pitch_deg: float, roll_deg: float, origin: Vec = (0.0, 0.0, 0.0)
) -> Frame:
    """A frame turned about all three axes."""
    y, p, r = (math.radians(a) for a in (yaw_deg, pitch_deg, roll_deg))
    grain = (math.cos(y) * math.cos(p), math.sin(y) * math.cos(p), math.sin(p))
    flat = (-math.sin(y), math.cos(y), 0.0)
    up = cross(grain, flat)
    width = tuple(a + b for a, b in zip(scale(flat, math.cos(r)), scale(up, math.sin(r)), strict=True))
    return Frame(origin=origin, grain=grain, width=unit(width), thickness=cross(grain, unit(width)))


def mirrored(frame: Frame) -> Frame:
    """The frame's mirror image left for right."""

    def flip(v: Vec) -> Vec:
        return (-v[0], v[1], v[2])

    return Frame(
        origin=flip(frame.origin),
        grain=flip(frame.grain),
        width=flip(frame.width),
        thickness=flip(frame.thickness),
    )


def busy_bar(name: str = "leg", frame: Frame = HERE) -> PartShape:
    """A bar with raked ends, two mortises, a through hole, a notch and a straight cut."""
    part = bar(
        name,
        width=60.0,
        thickness=60.0,
        frame=frame,
        trims=(slanted_trim(End.START, 0.0, 7.0, 30.0), slanted_trim(End.END, 700.0, 5.0, -50.0)),
    )
    return shaped(
        part,
        slot((100.0, 0.0, 30.0)),
        Slot(
            frame=into((100.0, -30.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)),
            length_mm=50.0,
            width_mm=10.0,
            depth_mm=15.0,
        ),
        hole((300.0, 5.0, 30.0), depth=60.0),
        Box(
            frame=into((400.0, 0.0, 30.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0)),
            length_mm=15.0,
            width_mm=40.0,
            thickness_mm=60.0,
        ),
        HalfSpace(plane=Plane(point=(700.0, 30.0, 0.0), normal=unit((0.02, 1.0, 0.0)))),
    )


__all__ = [
    "HERE",
    "Turned",
    "bar",
    "busy_bar",
    "hole",
    "into",
    "long_points",
    "mirrored",
    "round_bar",
    "shaped",
    "slanted_trim",
    "slot",
    "square_trim",
    "turned_frame",
]
