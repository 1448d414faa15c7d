"""A part's shapings as cuts: chamfers, round-overs, arched and scooped faces, cut-outs, turned lengths."""

from __future__ import annotations

from scantling.joinery.work import Arched, Box, Cut, Profile, Slot, Tool, Turned
from scantling.piece.geometry import Frame
from scantling.piece.model import End, Part
from scantling.piece.shaping import HOLLOWED, Shaping, ShapingKind

__all__ = ["shaping_cuts"]

_OVER_MM = 1.0
"""How far a tool runs past the surface. [mm]"""
_BELOW_MM = 5e-6
"""A crown's peak lies this far under the face it would touch, or a line is left across it. [mm]"""


def shaping_cuts(part: Part, *, grown: frozenset[End]) -> tuple[Cut, ...]:
    """What a part's shapings take away, in its own coordinates.

    Parameters
    ----------
    part
        The part.
    grown
        Ends that joints add wood to: a shaping stops at their shoulders.
    """
    return tuple(
        Cut(part=part.name, tool=tool, what=shaping.kind.value)
        for shaping in part.shaping
        for tool in _tools(part, shaping, grown)
    )


def _tools(part: Part, shaping: Shaping, grown: frozenset[End]) -> tuple[Tool, ...]:
    if shaping.kind is ShapingKind.CUT_OUT:
        return _cut_out(part, shaping)
    return (_tool(part, shaping, grown),)


def _tool(part: Part, shaping: Shaping, grown: frozenset[End]) -> Tool:
    over = (
        _OVER_MM if shaping.start_mm <= part.start_mm + 1e-6 and End.START not in grown else 0.0,
        _OVER_MM if shaping.end_mm >= part.end_mm - 1e-6 and End.END not in grown else 0.0,
    )
    if shaping.kind is ShapingKind.TURNED:
        frame = Frame(
            origin=(shaping.start_mm, 0.0, 0.0),
            grain=(1.0, 0.0, 0.0),
            width=(0.0, 1.0, 0.0),
            thickness=(0.0, 0.0, 1.0),
        )
        return Turned(frame=frame, diameter_mm=shaping.size_mm, length_mm=shaping.end_mm - shaping.start_mm)
    if shaping.kind in (ShapingKind.CHAMFER, ShapingKind.ROUND_OVER):
        return _along(part, shaping, over)
    return _arch(part, shaping, over)


def _along(part: Part, shaping: Shaping, over: tuple[float, float]) -> Tool:
    """An arris taken off along the grain: outline in width and thickness."""
    v, w = shaping.side
    edge_v, edge_w, size = v * part.width_mm / 2.0, w * part.thickness_mm / 2.0, shaping.size_mm
    frame = Frame(
        origin=(shaping.start_mm - over[0], 0.0, 0.0),
        grain=(1.0, 0.0, 0.0),
        width=(0.0, 1.0, 0.0),
        thickness=(0.0, 0.0, 1.0),
    )
    length = shaping.end_mm - shaping.start_mm + sum(over)
    far = (edge_v + v * _OVER_MM, edge_w + w * _OVER_MM)
    if shaping.kind is ShapingKind.CHAMFER:
        outline = (
            (edge_v - v * (size + _OVER_MM), far[1]),
            (far[0], edge_w - w * (size + _OVER_MM)),
            far,
        )
        return Profile(frame=frame, outline=outline, length_mm=length)
    inner = size * (1.0 - 0.5**0.5)
    return Arched(
        frame=frame,
        outline=(
            (edge_v - v * size, edge_w),
            (edge_v, edge_w - w * size),
            (far[0], edge_w - w * size),
            far,
            (edge_v - v * size, far[1]),
        ),
        through=(edge_v - v * inner, edge_w - w * inner),
        length_mm=length,
    )


def _arch(part: Part, shaping: Shaping, over: tuple[float, float]) -> Arched:
    """A face arched along the grain: outline in length and across the face, carried through the part."""
    v, w = shaping.side
    high = (part.width_mm if v else part.thickness_mm) / 2.0
    deep = (part.thickness_mm if v else part.width_mm) / 2.0
    out = (0.0, float(v), float(w))
    beside = (0.0, 0.0, 1.0) if v else (0.0, 1.0, 0.0)
    frame = Frame(
        origin=(0.0, -(deep + _OVER_MM) * beside[1], -(deep + _OVER_MM) * beside[2]),
        grain=beside,
        width=(1.0, 0.0, 0.0),
        thickness=out,
    )
    start, end, top = shaping.start_mm, shaping.end_mm, high + _OVER_MM
    middle = (start + end) / 2.0
    length = 2.0 * (deep + _OVER_MM)
    if shaping.kind in HOLLOWED:
        outline = ((start, high), (end, high), (end, top), (start, top))
        return Arched(
            frame=frame, outline=outline, through=(middle, high - shaping.size_mm), length_mm=length
        )
    low = high - shaping.size_mm
    after, before = end + over[1], start - over[0]
    corners = tuple(
        dict.fromkeys(((start, low), (end, low), (after, low), (after, top), (before, top), (before, low)))
    )
    return Arched(frame=frame, outline=corners, through=(middle, high - _BELOW_MM), length_mm=length)


def _cut_out(part: Part, shaping: Shaping) -> tuple[Tool, ...]:
    """A rectangle as far as its corners begin, and a slot whose round ends are those corners."""
    v, w = shaping.side
    out, beside = (0.0, float(v), float(w)), ((0.0, 0.0, 1.0) if v else (0.0, 1.0, 0.0))
    high, deep = (part.width_mm, part.thickness_mm / 2.0) if v else (part.thickness_mm, part.width_mm / 2.0)
    start, end, radius = shaping.start_mm, shaping.end_mm, shaping.corner_mm
    middle, straight = (start + end) / 2.0, shaping.size_mm - radius
    tools: list[Tool] = []

    def frame(below_mm: float) -> Frame:
        """Through the part, at a depth below the face."""
        at = high / 2.0 - below_mm
        origin = (middle, at * v - (deep + _OVER_MM) * beside[1], at * w - (deep + _OVER_MM) * beside[2])
        return Frame(origin=origin, grain=beside, width=(1.0, 0.0, 0.0), thickness=out)

    through = 2.0 * (deep + _OVER_MM)
    if straight > 1e-9:
        box = frame((straight - _OVER_MM) / 2.0)
        tall = straight + _OVER_MM
        tools.append(Box(frame=box, length_mm=through, width_mm=end - start, thickness_mm=tall))
    if radius > 1e-9:
        slot = frame(straight)
        tools.append(Slot(frame=slot, length_mm=end - start, width_mm=2.0 * radius, depth_mm=through))
    return tuple(tools)
