"""Sticks in place, trimmed by planes, for the tests of sawing and gluing."""

from __future__ import annotations

import math
from dataclasses import replace

from scantling.piece.geometry import Frame, Plane, Vec, cross, norm, scale, sub, unit
from scantling.piece.model import Direction, End, Part, PartKind, Taper, Trim
from scantling.wood.ring import Ring

__all__ = ["between", "level_stick", "splayed_leg", "tapered"]


def between(
    name: str,
    start: Vec,
    end: Vec,
    *,
    section_mm: tuple[float, float],
    thickness_axis: Vec,
    normals: tuple[Vec, Vec] | None = None,
) -> Part:
    """A stick along an axis; ``normals`` are those of its ends in the world, square if left out."""
    grain = unit(sub(end, start))
    thickness = unit(
        sub(thickness_axis, scale(grain, sum(a * b for a, b in zip(thickness_axis, grain, strict=True))))
    )
    frame = Frame(origin=start, grain=grain, width=cross(thickness, grain), thickness=thickness)
    length = norm(sub(end, start))
    first, last = normals or (scale(grain, -1.0), grain)
    trims = (
        Trim(
            plane=Plane(point=(0.0, 0.0, 0.0), normal=frame.local_direction(first)),
            end=End.START,
            by="floor",
        ),
        Trim(
            plane=Plane(point=(length, 0.0, 0.0), normal=frame.local_direction(last)),
            end=End.END,
            by="top.bottom",
        ),
    )
    return Part(
        name=name,
        like=name,
        kind=PartKind.STICK,
        species="black cherry",
        frame=frame,
        width_mm=section_mm[0],
        thickness_mm=section_mm[1],
        start_mm=0.0,
        end_mm=length,
        trims=trims,
        ring=Ring.FLAT,
    )


def splayed_leg(
    name: str, front_deg: float, side_deg: float, *, rise_mm: float, square_mm: float = 48.0
) -> Part:
    """A leg that leans by its two view angles, ends level, front face square to the side view."""
    lean = (math.tan(math.radians(front_deg)), math.tan(math.radians(side_deg)))
    beta = math.radians(side_deg)
    return between(
        name,
        (-lean[0] * rise_mm, -lean[1] * rise_mm, 0.0),
        (0.0, 0.0, rise_mm),
        section_mm=(square_mm, square_mm),
        thickness_axis=(0.0, math.cos(beta), -math.sin(beta)),
        normals=((0.0, 0.0, -1.0), (0.0, 0.0, 1.0)),
    )


def level_stick(
    name: str, length_mm: float, *, lean_deg: tuple[float, float], width_mm: float = 90.0
) -> Part:
    """A level apron whose ends lean in the front view by these angles to the right; length on its axis."""
    a, b = (math.radians(angle) for angle in lean_deg)
    return between(
        name,
        (0.0, 0.0, 0.0),
        (length_mm, 0.0, 0.0),
        section_mm=(width_mm, 20.0),
        thickness_axis=(0.0, -1.0, 0.0),
        normals=((-math.cos(a), 0.0, math.sin(a)), (math.cos(b), 0.0, -math.sin(b))),
    )


def tapered(part: Part, *, begin_mm: float, loss_mm: float) -> Part:
    """The part with its +v face tapered toward its end."""
    run = part.length_mm - begin_mm
    slope = loss_mm / run
    normal = unit((slope, 1.0, 0.0))
    plane = Plane(point=(begin_mm, part.width_mm / 2.0, 0.0), normal=normal)
    taper = Taper(plane=plane, toward=End.END, begin_mm=begin_mm, loss_mm=loss_mm, face=Direction.RIGHT)
    return replace(part, tapers=(taper,))
