"""How thick a part is where arched faces leave least of it."""

from __future__ import annotations

from scantling.piece.model import Part
from scantling.piece.shaping import ARCHED, Shaping, ShapingKind, arc_depth_mm

__all__ = ["thickness_left_mm"]

_TAKEN = ARCHED | {ShapingKind.CUT_OUT}
_PLACES = 48
"""Places along a part where its arcs are added up, beside their ends and middles. [1]"""


def thickness_left_mm(part: Part) -> float:
    """Least thickness along a part, what arcs and openings in its broad faces take off it gone. [mm]"""
    taken = [shaping for shaping in part.shaping if shaping.kind in _TAKEN and shaping.side[1]]
    if not taken:
        return part.thickness_mm
    places = [part.start_mm + part.length_mm * k / _PLACES for k in range(_PLACES + 1)]
    for one in taken:
        places += [one.start_mm, (one.start_mm + one.end_mm) / 2.0, one.end_mm]
    return part.thickness_mm - max(sum(_off_mm(one, at) for one in taken) for at in places)


def _off_mm(shaping: Shaping, at_mm: float) -> float:
    """How far a face lies under its straight one; of a cut-out, its round corners count as square. [mm]"""
    if shaping.kind is ShapingKind.CUT_OUT:
        return shaping.size_mm if shaping.start_mm <= at_mm <= shaping.end_mm else 0.0
    return arc_depth_mm(shaping, at_mm)
