"""Miter planes: where two parts that meet at a corner are both cut, from where they stand.

The plane holds the line in which the two outer faces meet and the line in which the two inner faces meet.
For parts of one size it is the plane that halves the corner; for others it runs through both corners.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.errors import InputError
from scantling.piece.geometry import Frame, Plane, Vec, cross, dot, norm, scale, sub, unit
from scantling.piece.model import End, Part

__all__ = ["MITER", "FacePair", "corner_end", "edge_miter", "end_miter", "facing"]

MITER = "miter with "
"""What stands in a file before the name of the part that an end or edge is mitered with."""
_LEAST_TURN = math.sin(math.radians(5.0))
"""Sine of the least angle between two faces that are mitered; below, the parts all but run on (5 deg)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FacePair:
    """The two faces of a part that a miter runs between.

    Parameters
    ----------
    inward
        Out of the inner face, into the corner. World. [1]
    middle
        A point half way between the two faces. World. [mm]
    half_mm
        Half of the distance between them. [mm]
    on_width
        Whether they are the faces at the ends of the width, else those of the thickness.
    """

    inward: Vec
    middle: Vec
    half_mm: float
    on_width: bool


def facing(part: Part, toward: Vec, *, on_width: bool | None = None) -> FacePair:
    """The faces of a part that look most into a direction and away from it.

    Parameters
    ----------
    part
        The part.
    toward
        Where the inside of the corner lies. World.
    on_width
        Takes the faces of the width (or of the thickness) whatever they look like; None takes the nearer.
    """
    frame = part.frame
    by_width, by_thickness = dot(frame.width, toward), dot(frame.thickness, toward)
    if on_width is None:
        on_width = abs(by_width) > abs(by_thickness)
    axis, size, way = (
        (frame.width, part.width_mm, by_width)
        if on_width
        else (frame.thickness, part.thickness_mm, by_thickness)
    )
    return FacePair(
        inward=axis if way > 0.0 else scale(axis, -1.0),
        middle=frame.origin,
        half_mm=size / 2.0,
        on_width=on_width,
    )


def corner_end(part: Part, other: Part) -> End:
    """The end of a part at which its line comes nearest to another's."""
    d, e, r = part.frame.grain, other.frame.grain, sub(part.frame.origin, other.frame.origin)
    b, square = dot(d, e), 1.0 - dot(d, e) ** 2
    at = (b * dot(e, r) - dot(d, r)) / square if square > 1e-9 else -dot(d, r)
    return End.START if at < (part.start_mm + part.end_mm) / 2.0 else End.END


def end_miter(part: Part, end: End, other: Part) -> Plane:
    """The plane at which an end of a part is mitered with another part, its normal out of the part. World.

    Parameters
    ----------
    part, other
        As they stand, before their ends are trimmed.
    end
        The end of ``part``.

    Raises
    ------
    InputError
        ``miter_too_flat``.

    Examples
    --------
    Two boards of one thickness that meet square are both cut at 45 degrees.
    """
    out = scale(part.frame.grain, 1.0 if end is End.END else -1.0)
    sign = 1.0 if corner_end(other, part) is End.END else -1.0
    other_out = scale(other.frame.grain, sign)
    one = facing(part, scale(other_out, -1.0))
    two = facing(other, scale(out, -1.0))
    return _through_corners(one, two, out, who=(part.name, other.name))


def edge_miter(part: Part, on_width: bool, side: float, *, other: Part) -> Plane:
    """The plane at which a long edge of a part is mitered with the part beside it, normal out of the part.

    Parameters
    ----------
    part, other
        As they stand, with their grain along the edge, drawn alike: width beside width.
    on_width
        Whether the edge is at an end of the width, else of the thickness.
    side
        +1 for the edge at plus half of it, -1 for the other.

    Raises
    ------
    InputError
        ``miter_too_flat``.
    """
    axis = part.frame.width if on_width else part.frame.thickness
    toward = sub(_middle(other), _middle(part))
    one = facing(part, toward, on_width=not on_width)
    two = facing(other, scale(toward, -1.0), on_width=not on_width)
    return _through_corners(one, two, scale(axis, side), who=(part.name, other.name))


def _middle(part: Part) -> Vec:
    return part.frame.point(((part.start_mm + part.end_mm) / 2.0, 0.0, 0.0))


def _through_corners(one: FacePair, two: FacePair, out: Vec, *, who: tuple[str, str]) -> Plane:
    """The plane through the lines in which two pairs of faces meet, its normal along ``out``."""
    line = cross(one.inward, two.inward)
    if norm(line) < _LEAST_TURN:
        raise InputError(
            code="miter_too_flat",
            field="trim",
            value=f"{who[0]} and {who[1]}, whose faces turn by {_turn_deg(one, two):.1f} deg",
            rule="must meet in faces that turn by 5 degrees or more for a miter",
            remedy="Cut both square, or name the part that it meets at a corner.",
        )
    along = unit(line)
    inner, outer = (_meet(one, two, along, side) for side in (1.0, -1.0))
    normal = unit(cross(along, sub(outer, inner)))
    return Plane(point=inner, normal=normal if dot(normal, out) > 0.0 else scale(normal, -1.0))


def _turn_deg(one: FacePair, two: FacePair) -> float:
    return math.degrees(math.asin(min(1.0, norm(cross(one.inward, two.inward)))))


def _meet(one: FacePair, two: FacePair, along: Vec, side: float) -> Vec:
    """A point of the line in which the inner faces (side 1) or the outer ones (-1) meet. [mm]"""
    frame = Frame(origin=one.middle, grain=along, width=one.inward, thickness=cross(along, one.inward))
    offset = dot(sub(two.middle, one.middle), two.inward) + side * two.half_mm
    _, in_width, in_thickness = frame.local_direction(two.inward)
    v = side * one.half_mm
    return frame.point((0.0, v, (offset - v * in_width) / in_thickness))
