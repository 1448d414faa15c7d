"""How thick a part is where arched faces leave least of it."""

from __future__ import annotations

from scantling.piece.model import Part
from scantling.piece.shaping import ARCHED, arc_depth_mm

__all__ = ["thickness_left_mm"]

_PLACES = 48
"""Places along a part where its arcs are added up, beside their ends and middles. [1]"""


def thickness_left_mm(part: Part) -> float:
    """Least thickness along a part, what its arched and scooped faces take off the thickness gone. [mm]"""
    arcs = [shaping for shaping in part.shaping if shaping.kind in ARCHED and shaping.side[1]]
    if not arcs:
        return part.thickness_mm
    places = [part.start_mm + part.length_mm * k / _PLACES for k in range(_PLACES + 1)]
    for arc in arcs:
        places += [arc.start_mm, (arc.start_mm + arc.end_mm) / 2.0, arc.end_mm]
    return part.thickness_mm - max(sum(arc_depth_mm(arc, at) for arc in arcs) for at in places)
