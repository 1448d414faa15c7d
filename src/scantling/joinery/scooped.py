"""Wood between a scooped face and the hollows of joints: none may break out into the scoop."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from scantling.errors import Fault
from scantling.joinery.work import Box, Cut, Hole, JointWork, Profile, Slot, Tool
from scantling.piece.geometry import Frame
from scantling.piece.model import Part, Piece
from scantling.piece.shaping import Shaping, ShapingKind, arc_radius_mm
from scantling.units.sentences import sentence_in_inches

__all__ = ["NearScoop", "near_scoops", "scoop_faults", "scoops", "wall_to_scoop_mm"]

_ROUND = 48
"""Lines along a round hole that it is looked at by. [1]"""
_ALONG = 24
"""Places along each of them. [1]"""
_MEETS_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class NearScoop:
    """A joint's hollow in a part that is scooped, and the wood between; 0 or less where they meet. [mm]"""

    part: Part
    scoop: Shaping
    joint: str
    cut: Cut
    wall_mm: float


def scoops(part: Part) -> tuple[Shaping, ...]:
    """The scoops of a part."""
    return tuple(shaping for shaping in part.shaping if shaping.kind is ShapingKind.SCOOP)


def wall_to_scoop_mm(part: Part, scoop: Shaping, tool: Tool) -> float | None:
    """Least wood between a hollow and a scoop; 0 or less where they meet. [mm]

    None for tools that leave no hollow of their own (turning, straight cuts). The hollow is looked at along
    lines on its surface, so the wood is found to a few hundredths.

    Parameters
    ----------
    part
        The part scooped.
    scoop
        Its scoop.
    tool
        Of a cut in the part, in the part's coordinates.
    """
    axis = 2 if scoop.side[1] else 1
    sign = float(scoop.side[axis - 1])
    high = (part.thickness_mm if axis == 2 else part.width_mm) / 2.0
    reach = [p for line in _lines(tool) for p in _under(line, axis=axis, sign=sign, high=high)]
    if not reach:
        return None
    return min(_to_arc_mm(scoop, u, high - up) for u, up in reach)


def _to_arc_mm(scoop: Shaping, u: float, under_mm: float) -> float:
    """From a place in the wood, so far under the straight face, to the scoop; negative inside it. [mm]"""
    radius = arc_radius_mm(scoop.end_mm - scoop.start_mm, scoop.size_mm)
    half = (scoop.end_mm - scoop.start_mm) / 2.0
    along = u - (scoop.start_mm + scoop.end_mm) / 2.0
    center = radius - scoop.size_mm  # so far over the straight face
    away = math.hypot(along, under_mm + center)
    foot = radius * (under_mm + center) / away if away > 0.0 else radius
    if foot >= center - 1e-9:  # square to the arc where there is wood
        return away - radius
    return math.hypot(abs(along) - half, under_mm)


_Line = tuple[tuple[float, float, float], tuple[float, float, float]]


def _lines(tool: Tool) -> Iterator[_Line]:
    """Lines along a hollow, from one end of it to the other, in the part's coordinates."""
    if isinstance(tool, Hole):
        radius = tool.diameter_mm / 2.0
        yield from _drawn(tool.frame, _circle(radius, 0.0), tool.depth_mm)
    elif isinstance(tool, Slot):
        radius = tool.width_mm / 2.0
        yield from _drawn(tool.frame, _circle(radius, tool.length_mm / 2.0 - radius), tool.depth_mm)
    elif isinstance(tool, Box):
        v, w = tool.width_mm / 2.0, tool.thickness_mm / 2.0
        yield from _drawn(tool.frame, _ring(((-v, -w), (v, -w), (v, w), (-v, w))), tool.length_mm)
    elif isinstance(tool, Profile):
        yield from _drawn(tool.frame, _ring(tool.outline), tool.length_mm)


def _circle(radius: float, half_straight: float) -> list[tuple[float, float]]:
    found = [(0.0, 0.0), (half_straight, 0.0), (-half_straight, 0.0)]
    for k in range(_ROUND):
        angle = math.tau * k / _ROUND
        shift = math.copysign(half_straight, math.cos(angle))
        found.append((shift + radius * math.cos(angle), radius * math.sin(angle)))
    return found


def _ring(corners: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
    """Places round an outline and in its middle."""
    found = [
        (a[0] + (b[0] - a[0]) * k / _ALONG, a[1] + (b[1] - a[1]) * k / _ALONG)
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
        for k in range(_ALONG)
    ]
    middle = (sum(v for v, _ in corners) / len(corners), sum(w for _, w in corners) / len(corners))
    return [middle, *found]


def _drawn(frame: Frame, outline: Iterable[tuple[float, float]], depth_mm: float) -> Iterator[_Line]:
    for v, w in outline:
        yield frame.point((0.0, v, w)), frame.point((depth_mm, v, w))


def _under(line: _Line, *, axis: int, sign: float, high: float) -> Iterator[tuple[float, float]]:
    """Places on a line that are not over the straight face: along the grain, and how high. [mm]"""
    (a, b) = ((point[0], sign * point[axis]) for point in line)
    low, far = (a, b) if a[1] <= b[1] else (b, a)
    if low[1] > high + _MEETS_MM:
        return
    if far[1] > high:
        share = (high - low[1]) / (far[1] - low[1])
        far = (low[0] + share * (far[0] - low[0]), high)
    for k in range(_ALONG + 1):
        share = k / _ALONG
        yield low[0] + share * (far[0] - low[0]), low[1] + share * (far[1] - low[1])


def near_scoops(parts: Mapping[str, Part], works: Iterable[JointWork]) -> Iterator[NearScoop]:
    """Every hollow of a joint in a part that is scooped, with the wood between."""
    for joint, cut in ((work.joint, cut) for work in works for cut in work.cuts):
        part = parts[cut.part]
        for scoop in scoops(part):
            wall = wall_to_scoop_mm(part, scoop, cut.tool)
            if wall is not None:
                yield NearScoop(part=part, scoop=scoop, joint=joint, cut=cut, wall_mm=wall)


def scoop_faults(piece: Piece, works: Iterable[JointWork]) -> tuple[Fault, ...]:
    """Scoops that a joint's hollow runs into, each told at the scoop once, with the joint that is worst."""
    worst: dict[str, NearScoop] = {}
    for near in near_scoops(piece.parts, works):
        field = f"parts.{near.part.like}.shape[{near.scoop.entry + 1}]"
        if near.wall_mm <= _MEETS_MM and (field not in worst or near.wall_mm < worst[field].wall_mm):
            worst[field] = near
    return tuple(_fault(piece, field, near) for field, near in worst.items())


def _fault(piece: Piece, field: str, near: NearScoop) -> Fault:
    part, scoop = near.part, near.scoop
    entry = f"parts.{part.like}"
    place = piece.places.get(f"{entry}.shape.{scoop.entry}") or piece.places.get(entry)
    before, after = scoop.start_mm - part.start_mm, part.end_mm - scoop.end_mm
    remedy = _clear_words(part, scoop, near.cut.tool) or "Make it less deep or shorter, or move the joint."
    told = sentence_in_inches if piece.units == "in" else str
    return Fault(
        code="scoop_meets_joint",
        field=field,
        value=told(
            f"a scoop {before:.1f} mm from the start and {after:.1f} mm from the end of {part.name}, which "
            f"runs into the {near.cut.what} of {near.joint}"
        ),
        rule="must keep clear of the hollows of all joints",
        remedy=told(remedy),
        file=place.file if place else "",
        line=place.line if place else 0,
        column=place.column if place else 0,
    )


def _clear_words(part: Part, scoop: Shaping, tool: Tool) -> str:
    """What margin clears a hollow that comes up near one end of a scoop; empty for one in its middle."""
    axis = 2 if scoop.side[1] else 1
    sign = float(scoop.side[axis - 1])
    high = (part.thickness_mm if axis == 2 else part.width_mm) / 2.0
    along = [u for line in _lines(tool) for u, _ in _under(line, axis=axis, sign=sign, high=high)]
    middle = (scoop.start_mm + scoop.end_mm) / 2.0
    if max(along) < middle:
        return f"Make the margin at its start more than {max(along) - part.start_mm:.1f} mm."
    if min(along) > middle:
        return f"Make the margin at its end more than {part.end_mm - min(along):.1f} mm."
    return ""
