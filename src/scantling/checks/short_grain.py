"""Short grain: faces that run across the fibers, and stubs that shear off along them: F12."""

from __future__ import annotations

import math

from scantling.checks.catalogue import finding, limit
from scantling.checks.mortises import Hollow, hollows_by_part
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.work import Box, Profile
from scantling.piece.convex import local_body
from scantling.piece.model import Part, PartKind, Taper
from scantling.piece.shaping import ShapingKind, end_slope

__all__ = ["check", "slope_of"]

_ACROSS = ("housing", "groove", "notch", "halving")
"""Cuts across the grain whose far side can shear off."""
_LEVEL = 0.05
"""A hollow whose sides lean more than this (18 degrees) leaves no stub of one length. [1]"""
_TINY_MM = 0.1


def slope_of(taper: Taper) -> float:
    """Slope of a tapered face to the grain, rise over run. [1]

    Examples
    --------
    18 mm taken off over 144 mm is one in eight.

    >>> from scantling.piece.geometry import Plane, unit
    >>> from scantling.piece.model import Direction, End
    >>> plane = Plane(point=(0.0, 0.0, 0.0), normal=unit((18.0, 144.0, 0.0)))
    >>> slope_of(Taper(plane=plane, toward=End.END, begin_mm=0.0, loss_mm=18.0, face=Direction.FRONT))
    0.125
    """
    along, v, w = taper.plane.normal
    return abs(along) / math.hypot(v, w)


def check(subject: Subject) -> list[Finding]:
    """Findings on tapers and on the wood between a cut and the end of its part."""
    found: list[Finding] = []
    for part in subject.piece.parts.values():
        for taper in part.tapers:
            found += _steep(part, taper)
        found += _bent(part)
        found += _feet(part)
    for name, hollows in hollows_by_part(subject).items():
        part = subject.part(name)
        if part.kind is not PartKind.SHEET:
            for hollow in hollows:
                found += _stub(part, hollow)
    return found


def _steep(part: Part, taper: Taper) -> list[Finding]:
    slope, most = slope_of(taper), limit("F12", "run_out_slope")
    if slope <= most + 1e-9:
        return []
    longer = taper.loss_mm / most
    return [
        finding(
            "F12",
            where=part.name,
            message=f"the {taper.face.value} face of {part.name} tapers 1 in {1.0 / slope:.1f}: the fibers "
            f"run out of it; at most 1 in {1.0 / most:.0f} where it carries",
            advice=f"Spread the taper over {longer:.0f} mm, take less off, or turn the blank so that the "
            "grain follows it.",
            numbers={"slope": slope, "slope_most": most, "length_wanted_mm": longer},
        )
    ]


def _bent(part: Part) -> list[Finding]:
    """A part sawn to a curve, hollow on one face and crowned on the other: fibers run out at its ends."""
    crowns = [shaping.side for shaping in part.shaping if shaping.kind is ShapingKind.CROWN]
    most, found = limit("F12", "run_out_slope"), []
    for hollow in part.shaping:
        opposite = (-hollow.side[0], -hollow.side[1])
        if hollow.kind is not ShapingKind.HOLLOW or opposite not in crowns:
            continue
        chord = hollow.end_mm - hollow.start_mm
        slope = end_slope(chord, hollow.size_mm)
        if slope > most + 1e-9:
            found.append(
                finding(
                    "F12",
                    where=part.name,
                    message=f"{part.name} is sawn to a curve of {hollow.size_mm:.0f} mm over {chord:.0f} mm: "
                    f"its fibers run out 1 in {1.0 / slope:.1f} at the ends; at most 1 in {1.0 / most:.0f}",
                    advice="Bend or laminate it so that the grain follows the curve, or make it flatter.",
                    numbers={"slope": slope, "slope_most": most, "rise_mm": hollow.size_mm},
                )
            )
    return found


def _feet(part: Part) -> list[Finding]:
    """What stands beside a cut-out, as a foot does: it shears off along the grain where it is short."""
    ratio = limit("F12", "fiber_ratio")
    found: list[Finding] = []
    if part.kind is PartKind.SHEET:
        return found
    for shaping in part.shaping:
        if shaping.kind is not ShapingKind.CUT_OUT:
            continue
        wanted = ratio * shaping.size_mm
        stubs = (shaping.start_mm - part.start_mm, part.end_mm - shaping.end_mm)
        short = min(stubs)
        if short >= wanted - 1e-6:
            continue
        found.append(
            finding(
                "F12",
                where=part.name,
                message=f"the cut-out in the {shaping.where} of {part.name} is {shaping.size_mm:.1f} mm high "
                f"and leaves a foot {short:.1f} mm long: it breaks off along the grain",
                advice=f"Make the foot {wanted:.0f} mm long, or the cut-out {short / ratio:.0f} mm high at "
                "most; or turn the grain upright.",
                numbers={"fiber_mm": short, "wanted_mm": wanted, "depth_mm": shaping.size_mm},
            )
        )
    return found


def _stub(part: Part, hollow: Hollow) -> list[Finding]:
    """Wood between a cut across the grain and the part's end, held by its fibers' length alone."""
    tool = hollow.cut.tool
    if not isinstance(tool, Box | Profile) or not any(word in hollow.cut.what for word in _ACROSS):
        return []
    axes = (tool.frame.grain, tool.frame.width, tool.frame.thickness)
    if max(abs(axis[0]) for axis in axes) < 1.0 - _LEVEL:
        return []
    body = local_body(part)
    low, high = hollow.prism.extent((1.0, 0.0, 0.0))
    runs = max(b - a for a, b in map(hollow.prism.extent, ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0))))
    if high - low > runs:
        return []  # it runs along the grain
    start, end = body.extent((1.0, 0.0, 0.0))
    deep = _depth_mm(part, hollow)
    ratio, found = limit("F12", "fiber_ratio"), []
    for stub, which in ((low - start, "start"), (end - high, "end")):
        if not _TINY_MM < stub < ratio * deep - 1e-6:
            continue
        found.append(
            finding(
                "F12",
                where=f"{part.name}/{hollow.joint}",
                message=f"the {hollow.cut.what} of {hollow.joint} is {deep:.1f} mm deep and {stub:.1f} mm "
                f"from the {which} of {part.name}: what stands between shears off along the grain",
                advice=f"Leave {ratio * deep:.0f} mm beyond it, cut it less deep, or let it run out there.",
                numbers={"fiber_mm": stub, "wanted_mm": ratio * deep, "depth_mm": deep},
            )
        )
    return found


def _depth_mm(part: Part, hollow: Hollow) -> float:
    """How deep it goes into the wood from the face it is open to. [mm]"""
    depths = []
    for axis, size in (((0.0, 1.0, 0.0), part.width_mm), ((0.0, 0.0, 1.0), part.thickness_mm)):
        low, high = hollow.prism.extent(axis)
        for deep, open_by in ((size / 2.0 - low, high - size / 2.0), (high + size / 2.0, -size / 2.0 - low)):
            if open_by > -_TINY_MM and 0.0 < deep < size - _TINY_MM:
                depths.append(deep)
    return min(depths, default=0.0)
