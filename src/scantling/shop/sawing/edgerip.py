"""Long edges ripped out of square: tilt of the blade, which face down, and the widths of both faces."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.piece.convex import face_direction
from scantling.piece.geometry import Vec
from scantling.piece.model import Direction, Edge, Part
from scantling.shop.operations.routing import Machine
from scantling.shop.profile.machines import Machines

__all__ = ["EdgeRip", "edge_rips"]

_STRAIGHT_DEG = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeRip:
    """One long edge.

    Parameters
    ----------
    edge
        The edge, by where it looks.
    by
        What it follows, as written.
    tilt_deg
        Of the blade from upright; its top leans away from the fence. [deg]
    sled_deg
        Of the part on its sled against the blade, for an edge that also tapers; 0 along the fence. [deg]
    face_down
        The face that comes out narrower, which lies on the table.
    narrow_mm, wide_mm
        Width left on that face and on the other once this edge is ripped, at the wider end; an edge opposite
        that comes before it in the piece is ripped already. [mm]
    loss_mm
        Most that is taken off. [mm]
    """

    part: str
    like: str
    edge: Direction
    by: str
    tilt_deg: float
    sled_deg: float
    face_down: Direction
    narrow_mm: float
    wide_mm: float
    loss_mm: float
    machine: Machine


def edge_rips(part: Part, machines: Machines) -> tuple[EdgeRip, ...]:
    """Every edge of a part that is out of square, in the order of the piece.

    Parameters
    ----------
    part
        The part.
    machines
        A table saw that tilts so far rips it; else it is planed to two gauge lines.
    """
    return tuple(_rip(part, edge, machines, ripped=part.edges[:i]) for i, edge in enumerate(part.edges))


def _rip(part: Part, edge: Edge, machines: Machines, *, ripped: tuple[Edge, ...]) -> EdgeRip:
    nu, nv, nw = edge.plane.normal
    on_width = edge.side.startswith("width")
    out, aside = (nv, nw) if on_width else (nw, nv)
    size, through = (part.width_mm, part.thickness_mm) if on_width else (part.thickness_mm, part.width_mm)
    sign = 1.0 if out > 0.0 else -1.0
    tilt = math.degrees(math.asin(min(1.0, abs(aside))))  # on its sled, where there is one
    slope = abs(nu / out)
    narrow = 1.0 if aside > 0.0 else -1.0
    left = []
    for side in (narrow, -narrow):
        at = (
            min(size / 2.0, _reach(edge, u, side * through / 2.0, on_width=on_width) * sign)
            + _opposite(edge, ripped, (u, side * through / 2.0), half_mm=size / 2.0)
            for u in (part.start_mm, part.end_mm)
        )
        left.append(max(at))
    lowest = min(
        _reach(edge, u, narrow * through / 2.0, on_width=on_width) * sign
        for u in (part.start_mm, part.end_mm)
    )
    across: Vec = (0.0, 0.0, narrow) if on_width else (0.0, narrow, 0.0)
    saw = machines.table_saw
    reaches = saw is not None and tilt <= saw.max_tilt_deg + 1e-6
    return EdgeRip(
        part=part.name,
        like=part.like,
        edge=edge.face,
        by=edge.by,
        tilt_deg=tilt if tilt > _STRAIGHT_DEG else 0.0,
        sled_deg=math.degrees(math.atan(slope)) if slope > math.tan(math.radians(_STRAIGHT_DEG)) else 0.0,
        face_down=face_direction(part.frame.direction(across)),
        narrow_mm=left[0],
        wide_mm=left[1],
        loss_mm=size / 2.0 - lowest,
        machine=Machine.TABLE_SAW if reaches else Machine.HAND_PLANE,
    )


def _opposite(edge: Edge, ripped: tuple[Edge, ...], at: tuple[float, float], *, half_mm: float) -> float:
    """From the part's middle to the edge opposite, ripped before or still square. [mm]"""
    for other in ripped:
        if other.side[:-1] == edge.side[:-1] and other.side != edge.side:
            sign = -1.0 if other.side.endswith("-") else 1.0
            return min(half_mm, _reach(other, *at, on_width=edge.side.startswith("width")) * sign)
    return half_mm


def _reach(edge: Edge, u: float, aside: float, *, on_width: bool) -> float:
    """Where the edge lies across the part, at a place along it and on one of its faces. [mm]"""
    nu, nv, nw = edge.plane.normal
    pu, pv, pw = edge.plane.point
    if on_width:
        return pv - (nu * (u - pu) + nw * (aside - pw)) / nv
    return pw - (nu * (u - pu) + nv * (aside - pv)) / nw
