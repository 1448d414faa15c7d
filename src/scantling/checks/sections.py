"""Wood left where notches and joints weaken a part: F21, F22."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from scantling.checks.catalogue import finding, limit
from scantling.checks.mortises import Hollow, hollows_by_part
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.work import Box, Profile
from scantling.piece.convex import local_body
from scantling.piece.geometry import Plane, Vec, dot
from scantling.piece.model import Part
from scantling.remembering import remembered

__all__ = ["check", "removed_share"]

_NOTCHES = ("notch", "halving", "housing")
_CORNER = "socket"
"""Sockets of dovetails and fingers are at the very end of a board, past which it carries nothing."""
_ALONG = 1e-12
"""A side that leans less than this along the grain has one section all along. [1]"""
_LINES = 12
"""Lines in each strip: round hollows come out to about 1 %, flat ones exactly."""


def check(subject: Subject) -> list[Finding]:
    """Findings on every part that is notched or mortised."""
    found: list[Finding] = []
    for name, hollows in hollows_by_part(subject).items():
        found += _in_part(subject.part(name), hollows)
    return found


@remembered(limit=1024)
def _in_part(part: Part, hollows: tuple[Hollow, ...]) -> tuple[Finding, ...]:
    found: list[Finding] = []
    lying = abs(part.frame.grain[2]) < 0.7
    for hollow in hollows:
        if lying and any(word in hollow.cut.what for word in _NOTCHES):
            found += _notch(part, hollow)
    return (*found, *_section(part, [h for h in hollows if _CORNER not in h.cut.what]))


def _depth_mm(part: Part, hollow: Hollow) -> tuple[float, float]:
    """Depth of a notch and of the part in that direction; the notch opens one face of the two. [mm]"""
    best = (0.0, 1.0)
    sunk = _sunk(hollow)
    for axis, size in (((0.0, 1.0, 0.0), part.width_mm), ((0.0, 0.0, 1.0), part.thickness_mm)):
        if sunk is not None and abs(dot(axis, sunk)) < 0.7:
            continue  # a housing may run out at an edge: its depth is the way it was sunk
        low, high = hollow.prism.extent(axis)
        from_low, from_high = low <= -size / 2.0 + 1e-6, high >= size / 2.0 - 1e-6
        if from_low == from_high:
            continue
        depth = size / 2.0 - low if from_high else high + size / 2.0
        if depth / size > best[0] / best[1]:
            best = (depth, size)
    return best


def _sunk(hollow: Hollow) -> Vec | None:
    """The way a housing was sunk into its part; None for a notch, which is open that way at both sides."""
    tool = hollow.cut.tool
    if hollow.cut.what != "housing":
        return None
    if isinstance(tool, Profile):  # of a sliding dovetail, which is drawn in section
        return tool.frame.thickness
    return tool.frame.grain if isinstance(tool, Box) else None


def _notch(part: Part, hollow: Hollow) -> list[Finding]:
    kind = "halving_share" if "halving" in hollow.cut.what else "notch_share"
    allowed = limit("F21", kind)
    depth, size = _depth_mm(part, hollow)
    share = depth / size
    if share <= allowed + 1e-6:
        return []
    strength, stiffness = 100.0 * (1.0 - share) ** 2, 100.0 * (1.0 - share) ** 3
    return [
        finding(
            "F21",
            where=f"{part.name}/{hollow.joint}",
            message=f"the {hollow.cut.what} of {hollow.joint} is {depth:.1f} mm deep in {size:.1f} mm of "
            f"{part.name}: {share:.2f} of it, at most {allowed:.2f}",
            numbers={
                "depth_mm": depth,
                "share": share,
                "allowed_mm": allowed * size,
                "strength_pct": strength,
                "stiffness_pct": stiffness,
            },
        )
    ]


def _section(part: Part, hollows: Sequence[Hollow]) -> list[Finding]:
    allowed = limit("F22", "removed_share")
    worst, at, joints = 0.0, 0.0, set[str]()
    wood = _side_planes(part)
    alike = all(abs(plane.normal[0]) < _ALONG for plane in wood)
    whole_mm2 = 0.0
    for u in _stations(hollows):
        here = [hollow for hollow in hollows if _reaches(hollow, u)]
        if whole_mm2 == 0.0 or not alike:
            whole_mm2 = _whole_mm2(part, wood, at_mm=u)
        if _at_most(part, here, whole_mm2=whole_mm2) <= allowed:
            continue
        share = removed_share(part, here, at_mm=u)
        if share > worst:
            worst, at, joints = share, u, {h.joint for h in here}
    if worst <= allowed + 1e-3:
        return []
    from_start = at - part.start_mm
    return [
        finding(
            "F22",
            where=part.name,
            message=f"{', '.join(sorted(joints))} take {100 * worst:.0f} % of the section of {part.name} "
            f"{from_start:.0f} mm from its start; at most {100 * allowed:.0f} %",
            numbers={"removed_share": worst, "left_pct": 100.0 * (1.0 - worst), "from_start_mm": from_start},
        )
    ]


def _reaches(hollow: Hollow, u: float) -> bool:
    low, high = hollow.prism.extent((1.0, 0.0, 0.0))
    return low < u < high


def _stations(hollows: Sequence[Hollow]) -> list[float]:
    """Where along the part the most can be missing: inside every stretch between two ends of hollows."""
    limits = sorted({round(limit, 3) for h in hollows for limit in h.prism.extent((1.0, 0.0, 0.0))})
    return [(a + b) / 2.0 for a, b in pairwise(limits)]


def removed_share(part: Part, hollows: Sequence[Hollow], *, at_mm: float) -> float:
    """Share of a part's section that hollows take at one place along it. [1]

    Measured on parallel lines across the section, each cut exactly.
    """
    wood = _side_planes(part)
    taken = [list(hollow.prism.planes) for hollow in hollows]
    whole = removed = 0.0
    for w, share in _lines(part, hollows):
        solid = _interval(wood, at_mm, w)
        if solid is None:
            continue
        whole += share * (solid[1] - solid[0])
        cut = [_interval(planes, at_mm, w) for planes in taken]
        removed += share * _union([c for c in cut if c is not None], solid)
    return removed / whole if whole > 0.0 else 0.0


def _side_planes(part: Part) -> list[Plane]:
    return [face.plane for face in local_body(part).faces if face.label not in ("start", "end")]


def _whole_mm2(part: Part, wood: list[Plane], *, at_mm: float) -> float:
    """The part's section before any hollow. [mm2]"""
    solids = [(_interval(wood, at_mm, w), share) for w, share in _lines(part, [])]
    return sum(share * (solid[1] - solid[0]) for solid, share in solids if solid is not None)


def _at_most(part: Part, hollows: Sequence[Hollow], *, whole_mm2: float) -> float:
    """A share the hollows cannot exceed, from their outer sizes: quick, so that few are measured. [1]"""
    taken = 0.0
    for hollow in hollows:
        across = _within(hollow.prism.extent((0.0, 1.0, 0.0)), part.width_mm / 2.0)
        taken += across * _within(hollow.prism.extent((0.0, 0.0, 1.0)), part.thickness_mm / 2.0)
    return taken / whole_mm2 if whole_mm2 > 0.0 else 0.0


def _within(extent: tuple[float, float], half: float) -> float:
    return max(min(extent[1], half) - max(extent[0], -half), 0.0)


def _lines(part: Part, hollows: Sequence[Hollow]) -> list[tuple[float, float]]:
    """Lines through the thickness, with the width each stands for; strips end where hollows do. [mm]"""
    half = part.thickness_mm / 2.0
    limits = {-half, half}
    for hollow in hollows:
        limits |= {w for w in hollow.prism.extent((0.0, 0.0, 1.0)) if -half < w < half}
    lines: list[tuple[float, float]] = []
    for low, high in pairwise(sorted(limits)):
        step = (high - low) / _LINES
        lines += [(low + (k + 0.5) * step, step) for k in range(_LINES)]
    return lines


def _interval(planes: list[Plane], u: float, w: float) -> tuple[float, float] | None:
    """The stretch in v of the line at u, w that lies behind all planes."""
    low, high = -1e6, 1e6
    for plane in planes:
        at_zero = plane.distance((u, 0.0, w))
        slope = plane.normal[1]
        if abs(slope) < 1e-9:
            if at_zero > 1e-9:
                return None
        elif slope > 0.0:
            high = min(high, -at_zero / slope)
        else:
            low = max(low, -at_zero / slope)
    return (low, high) if high > low else None


def _union(stretches: list[tuple[float, float]], within: tuple[float, float]) -> float:
    total, reach = 0.0, within[0]
    for low, high in sorted(stretches):
        start, stop = max(low, reach), min(high, within[1])
        if stop > start:
            total += stop - start
            reach = stop
    return total
