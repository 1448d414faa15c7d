"""A shape as a kernel cuts it: a blank, the planes that end it, and tools that reach through its faces.

A tool that ends exactly in the surface of the wood leaves skins and slivers of no thickness behind in
any kernel. So the blank runs past its trims and every tool past the faces it opens in. Before joinery a
part is convex: past one of its planes there is no wood, and reaching there cuts nothing more.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from scantling.errors import ModelError
from scantling.joinery.work import Arched, Box, HalfSpace, Hole, Profile, Slot, Turned
from scantling.piece.geometry import Frame, Plane, Vec, add, cross, dot, scale, unit
from scantling.piece.model import End, Part
from scantling.solids.shape import PartShape

__all__ = ["Blank", "Cutter", "Workpiece", "right_arch", "right_handed", "right_outline", "workpiece_of"]

Cutter = Box | Slot | Hole | Turned | Profile | Arched
"""Tools with a body; a half space is a plane like a trim."""

PAST_MM = 1.0
"""How far past the surface a tool runs. [mm]"""
_FLUSH_MM = 1e-5
"""A tool's face this close to the surface lies in it. [mm]"""
_SKIN_MM = 1e-4
"""How far a hole reaches back from a mouth in no face of the blank, as in the floor of a groove. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """The bar a part is cut from: a box, or a straight or tapering round.

    Parameters
    ----------
    start_mm, end_mm
        Extent along the grain, past the trims. [mm]
    width_mm, thickness_mm
        Section of a box. [mm]
    diameters_mm
        Of a round, at its two ends; None for a box. [mm]
    """

    start_mm: float
    end_mm: float
    width_mm: float
    thickness_mm: float
    diameters_mm: tuple[float, float] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Workpiece:
    """What a kernel does, in the part's own coordinates: the blank, behind every plane, less every tool.

    Parameters
    ----------
    blank
        The bar.
    planes
        Trims moved out by the extensions, tapers, edges out of square, straight cuts; wood is behind each.
    tools
        Everything else that is taken away, reaching past the faces it opens in.
    """

    blank: Blank
    planes: tuple[Plane, ...]
    tools: tuple[Cutter, ...]


def workpiece_of(shape: PartShape) -> Workpiece:
    """The blank, planes and tools of a shape."""
    part = shape.part
    blank = _blank(shape)
    planes = [
        Plane(point=add(t.plane.point, (_outward(shape, t.end), 0.0, 0.0)), normal=t.plane.normal)
        for t in part.trims
    ]
    planes += [taper.plane for taper in part.tapers]
    planes += [edge.plane for edge in part.edges]
    straight = [cut.tool.plane for cut in shape.cuts if isinstance(cut.tool, HalfSpace)]
    surface = (*_sides(part, blank), *planes, *straight)
    tools = tuple(
        _reaching(cut.tool, (*surface, *_round_planes(blank, cut.tool)))
        for cut in shape.cuts
        if not isinstance(cut.tool, HalfSpace) and _cuts_anything(cut.tool)
    )
    return Workpiece(blank=blank, planes=_distinct((*planes, *straight), blank), tools=tools)


def _distinct(planes: tuple[Plane, ...], blank: Blank) -> tuple[Plane, ...]:
    """Planes without those that lie in an earlier one all along the blank.

    Of two planes a millionth of a degree apart the exact kernel takes one and loses the other.
    """
    ends = [(u, 0.0, 0.0) for u in (blank.start_mm, blank.end_mm)]
    kept: list[Plane] = []
    for plane in planes:
        if not any(_same(plane, other, ends) for other in kept):
            kept.append(plane)
    return tuple(kept)


def _same(one: Plane, other: Plane, places: list[Vec]) -> bool:
    if dot(one.normal, other.normal) < 1.0 - 1e-9:
        return False
    return all(abs(one.distance(p) - other.distance(p)) <= _FLUSH_MM for p in places)


def right_handed(frame: Frame) -> Frame:
    """The frame with its thickness axis turned round if it is left-handed.

    All tools are alike both ways but a :class:`~scantling.joinery.work.Profile`, see :func:`right_outline`.
    """
    return Frame(
        origin=frame.origin,
        grain=frame.grain,
        width=frame.width,
        thickness=cross(frame.grain, frame.width),
    )


def right_arch(tool: Arched) -> tuple[tuple[tuple[float, float], ...], tuple[float, float]]:
    """Corners of an arched outline and its arc's point, in its right-handed frame. [mm]"""
    sign = 1.0 if dot(cross(tool.frame.grain, tool.frame.width), tool.frame.thickness) > 0.0 else -1.0
    through = (tool.through[0], sign * tool.through[1])
    return tuple((v, sign * w) for v, w in tool.outline), through


def right_outline(tool: Profile) -> tuple[tuple[float, float], ...]:
    """Corners of a profile in its right-handed frame, anticlockwise. [mm]"""
    hand = dot(cross(tool.frame.grain, tool.frame.width), tool.frame.thickness)
    corners = [(v, w if hand > 0.0 else -w) for v, w in tool.outline]
    turned = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    return tuple(corners if turned > 0.0 else corners[::-1])


def _outward(shape: PartShape, end: End) -> float:
    more = shape.extension_mm(end)
    return more if end is End.END else -more


def _blank(shape: PartShape) -> Blank:
    part = shape.part
    start = part.start_mm - shape.extension_mm(End.START)
    end = part.end_mm + shape.extension_mm(End.END)
    if any(t.end is End.START and t.plane.normal[0] < -1e-6 for t in part.trims):
        start -= PAST_MM
    if any(t.end is End.END and t.plane.normal[0] > 1e-6 for t in part.trims):
        end += PAST_MM
    diameters = None
    if part.round is not None:
        start, end, diameters = _cone(part, start, end)
    return Blank(
        start_mm=start,
        end_mm=end,
        width_mm=part.width_mm,
        thickness_mm=part.thickness_mm,
        diameters_mm=diameters,
    )


def _cone(part: Part, start: float, end: float) -> tuple[float, float, tuple[float, float]]:
    """The round carried on in a straight line past its ends, at most to its own point."""
    assert part.round is not None
    slope = (part.round.end_mm - part.round.start_mm) / part.length_mm
    if slope:
        tip = part.start_mm - part.round.start_mm / slope
        start, end = (max(start, tip), end) if slope > 0 else (start, min(end, tip))
    at_start = part.round.start_mm + slope * (start - part.start_mm)
    at_end = part.round.start_mm + slope * (end - part.start_mm)
    return start, end, (max(at_start, 0.0), max(at_end, 0.0))


def _sides(part: Part, blank: Blank) -> tuple[Plane, ...]:
    """The planes of the blank, normals out of the wood; a round has only its ends."""
    ends = (
        Plane(point=(blank.start_mm, 0.0, 0.0), normal=(-1.0, 0.0, 0.0)),
        Plane(point=(blank.end_mm, 0.0, 0.0), normal=(1.0, 0.0, 0.0)),
    )
    if part.round is not None:
        return ends
    v, w = part.width_mm / 2.0, part.thickness_mm / 2.0
    return (
        *ends,
        Plane(point=(0.0, v, 0.0), normal=(0.0, 1.0, 0.0)),
        Plane(point=(0.0, -v, 0.0), normal=(0.0, -1.0, 0.0)),
        Plane(point=(0.0, 0.0, w), normal=(0.0, 0.0, 1.0)),
        Plane(point=(0.0, 0.0, -w), normal=(0.0, 0.0, -1.0)),
    )


def _round_planes(blank: Blank, tool: Cutter) -> tuple[Plane, ...]:
    """Planes that touch a round where the tool goes in and where it may come out."""
    if blank.diameters_mm is None:
        return ()
    depth = tool.depth_mm if isinstance(tool, Slot | Hole) else tool.length_mm
    return tuple(_tangent(blank, frame.origin) for frame in (tool.frame, _moved(tool.frame, depth)))


def _tangent(blank: Blank, point: Vec) -> Plane:
    """Plane that touches a round along the line nearest to a point."""
    assert blank.diameters_mm is not None
    at_start, at_end = (d / 2.0 for d in blank.diameters_mm)
    slope = (at_end - at_start) / (blank.end_mm - blank.start_mm)
    radius = at_start + slope * (point[0] - blank.start_mm)
    across = math.hypot(point[1], point[2])
    v, w = (point[1] / across, point[2] / across) if across > 1e-9 else (1.0, 0.0)
    return Plane(point=(point[0], radius * v, radius * w), normal=unit((-slope, v, w)))


def _cuts_anything(tool: Cutter) -> bool:
    match tool:
        case Box():
            sizes = (tool.length_mm, tool.width_mm, tool.thickness_mm)
        case Slot():
            if tool.length_mm < tool.width_mm - 1e-9:
                raise ModelError(
                    f"a slot {tool.length_mm} mm long is narrower than its {tool.width_mm} mm cutter"
                )
            sizes = (tool.length_mm, tool.width_mm, tool.depth_mm)
        case Hole():
            sizes = (tool.diameter_mm, tool.depth_mm, 1.0)
        case Turned():
            sizes = (1.0, 1.0, tool.length_mm)
        case Profile() | Arched():
            sizes = (1.0, 1.0, tool.length_mm)
    return min(sizes) > 1e-9


def _reaching(tool: Cutter, surface: tuple[Plane, ...]) -> Cutter:
    match tool:
        case Box():
            return _box(tool, surface)
        case Slot():
            half = (tool.length_mm / 2.0, tool.width_mm / 2.0)
            before, after = _past_ends(tool.frame, half, tool.depth_mm, surface)
            return Slot(
                frame=_moved(tool.frame, -before),
                length_mm=tool.length_mm,
                width_mm=tool.width_mm,
                depth_mm=tool.depth_mm + before + after,
            )
        case Hole():
            radius = tool.diameter_mm / 2.0
            before, after = _past_ends(tool.frame, (radius, radius), tool.depth_mm, surface)
            return Hole(
                frame=_moved(tool.frame, -before),
                diameter_mm=tool.diameter_mm,
                depth_mm=tool.depth_mm + before + after,
            )
        case Turned():
            return _turned(tool, surface)
        case Profile():
            return _profile(tool, surface)
        case Arched():
            return tool  # drawn past the surface already


def _moved(frame: Frame, along_mm: float) -> Frame:
    """The frame moved along its own grain axis."""
    return Frame(
        origin=add(frame.origin, scale(frame.grain, along_mm)),
        grain=frame.grain,
        width=frame.width,
        thickness=frame.thickness,
    )


def _box(tool: Box, surface: tuple[Plane, ...]) -> Box:
    """The box grown past each of its faces that lies in the surface."""
    u, v, w = tool.length_mm, tool.width_mm / 2.0, tool.thickness_mm / 2.0
    low, high = [0.0, -v, -w], [u, v, w]
    for axis in range(3):
        for bound, sign in ((low, -1.0), (high, 1.0)):
            if _flush(tool.frame, _face(low, high, axis=axis, at=bound[axis]), surface):
                bound[axis] += sign * PAST_MM
    middle = [(a + b) / 2.0 for a, b in zip(low, high, strict=True)]
    return Box(
        frame=Frame(
            origin=tool.frame.point((low[0], middle[1], middle[2])),
            grain=tool.frame.grain,
            width=tool.frame.width,
            thickness=tool.frame.thickness,
        ),
        length_mm=high[0] - low[0],
        width_mm=high[1] - low[1],
        thickness_mm=high[2] - low[2],
    )


def _face(low: list[float], high: list[float], *, axis: int, at: float) -> list[Vec]:
    """Four corners of one face of a box."""
    ranges = [(low[i], high[i]) if i != axis else (at,) for i in range(3)]
    return [(u, v, w) for u in ranges[0] for v in ranges[1] for w in ranges[2]]


def _flush(frame: Frame, corners: Iterable[Vec], surface: tuple[Plane, ...]) -> bool:
    points = [frame.point(corner) for corner in corners]
    return any(all(abs(plane.distance(p)) <= _FLUSH_MM for p in points) for plane in surface)


def _turned(tool: Turned, surface: tuple[Plane, ...]) -> Turned:
    """The turned length run past an end of the blank it comes to; a shoulder stays where it is."""
    before = _past(tool.frame, -1.0, (0.0, 0.0), surface)
    after = _past(_moved(tool.frame, tool.length_mm), 1.0, (0.0, 0.0), surface)
    return Turned(
        frame=_moved(tool.frame, -before),
        diameter_mm=tool.diameter_mm,
        length_mm=tool.length_mm + before + after,
    )


def _profile(tool: Profile, surface: tuple[Plane, ...]) -> Profile:
    """The outline carried on past an end that lies in the surface."""
    ends = ([(u, v, w) for v, w in tool.outline] for u in (0.0, tool.length_mm))
    before, after = (PAST_MM if _flush(tool.frame, end, surface) else 0.0 for end in ends)
    return Profile(
        frame=_moved(tool.frame, -before),
        outline=tool.outline,
        length_mm=tool.length_mm + before + after,
    )


def _past_ends(
    frame: Frame, half: tuple[float, float], depth_mm: float, surface: tuple[Plane, ...]
) -> tuple[float, float]:
    """How far a tool must run back past its mouth and on past its bottom. [mm]"""
    far = _moved(frame, depth_mm)
    before = _past(frame, -1.0, half, surface)
    after = _past(far, 1.0, half, surface)
    return max(before, _SKIN_MM), after


def _past(frame: Frame, sense: float, half: tuple[float, float], surface: tuple[Plane, ...]) -> float:
    """Run needed for the whole end of a tool to clear each plane its center lies in. [mm]"""
    way = scale(frame.grain, sense)
    run = 0.0
    for plane in surface:
        steep = dot(way, plane.normal)
        if abs(plane.distance(frame.origin)) > _FLUSH_MM or steep < 1e-3:
            continue
        inside = half[0] * abs(dot(frame.width, plane.normal)) + half[1] * abs(
            dot(frame.thickness, plane.normal)
        )
        run = max(run, inside / steep + PAST_MM)
    return run
