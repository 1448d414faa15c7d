"""Long faces of a part ripped out of square: level, plumb, along another part, or mitered with it."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from scantling.errors import InputError
from scantling.piece.convex import face_direction
from scantling.piece.geometry import Plane, Vec, cross, dot, norm, scale, unit
from scantling.piece.model import Direction, Edge, Part

__all__ = ["LEVEL", "PLUMB", "PlaneOf", "edge_side", "edges_of"]

LEVEL = "level"
PLUMB = "plumb"
_NO_FACE = ("floor", "square")
PlaneOf = Callable[[str, Vec, Vec, Direction | None], Plane]
"""Gives the world plane that an end follows (or the edge that looks in a direction), where a line from a
point in a direction runs into it; its normal points out of the other part."""

_ACROSS_EDGE = 0.5
"""Cosine of the most that a long face is ripped out of square (60 deg)."""
_LEAST_LEFT_MM = 1.0


def edge_side(part: Part, direction: Direction) -> tuple[bool, float]:
    """Which long face looks most in a direction: whether one of the width's, and at plus or minus half."""
    local = part.frame.local_direction(direction.vector)
    on_width = abs(local[1]) >= abs(local[2])
    return on_width, 1.0 if (local[1] if on_width else local[2]) > 0.0 else -1.0


def edges_of(wanted: Mapping[Direction, str], part: Part, plane_of: PlaneOf) -> tuple[Edge, ...]:
    """The long faces out of square, each in place of the face that looks that way.

    Parameters
    ----------
    wanted
        What each follows, by where the face looks.
    part
        The part, its ends trimmed.
    plane_of
        Gives the plane of what is no ``level`` or ``plumb``.

    Raises
    ------
    InputError
        ``edge_not_along``, ``edge_takes_all``.
    """
    found = []
    for direction, ref in wanted.items():
        field = f"parts.{part.name}.edges.{direction.value}"
        on_width, side = edge_side(part, direction)
        out = scale(part.frame.width if on_width else part.frame.thickness, side)
        if ref in (LEVEL, PLUMB):
            world = _cleaned(part, _upright(part, out, ref, field=field), on_width, side)
        else:
            if ref in _NO_FACE:
                raise _no_edge(field, ref)
            world = plane_of(ref, part.middle, out, direction).flipped()
        plane = part.frame.plane_in(world)
        if plane.normal[1 if on_width else 2] * side < _ACROSS_EDGE:
            raise _no_edge(field, ref)
        _check_left(part, plane, on_width, side, field=field, ref=ref)
        label = f"{'width' if on_width else 'thickness'}{'+' if side > 0.0 else '-'}"
        found.append(Edge(plane=plane, face=face_direction(out), side=label, by=ref))
    return tuple(found)


def _upright(part: Part, out: Vec, ref: str, *, field: str) -> Vec:
    """Normal of a level face, or of the plumb one that runs along the part. World."""
    if ref == LEVEL:
        return (0.0, 0.0, 1.0 if out[2] > 0.0 else -1.0)
    along, up = part.frame.grain, (0.0, 0.0, 1.0)
    flat = cross(up, along)
    if norm(flat) < 0.1:
        raise _no_edge(field, ref)
    return scale(unit(flat), 1.0 if dot(flat, out) > 0.0 else -1.0)


def _cleaned(part: Part, normal: Vec, on_width: bool, side: float) -> Plane:
    """The plane that takes off as little as planes the whole of a face."""
    h, t = part.width_mm / 2.0, part.thickness_mm / 2.0
    across = ((side * h, -t), (side * h, t)) if on_width else ((-h, side * t), (h, side * t))
    corners = [part.frame.point((u, v, w)) for u in (part.start_mm, part.end_mm) for v, w in across]
    return Plane(point=min(corners, key=lambda corner: dot(corner, normal)), normal=normal)


def _check_left(part: Part, plane: Plane, on_width: bool, side: float, *, field: str, ref: str) -> None:
    """Refuse an edge that takes the whole of the face beside it."""
    size, through = (part.width_mm, part.thickness_mm) if on_width else (part.thickness_mm, part.width_mm)
    across = 1 if on_width else 2
    left = []
    for u in (part.start_mm, part.end_mm):
        for aside in (-through / 2.0, through / 2.0):
            point = (u, 0.0, aside) if on_width else (u, aside, 0.0)
            left.append(size / 2.0 - side * plane.distance(point) / plane.normal[across])
    if min(left) < _LEAST_LEFT_MM:
        raise InputError(
            code="edge_takes_all",
            field=field,
            value=f"{ref}, which leaves {min(left):.1f} mm of {size:.1f} mm on one face",
            rule="must leave at least 1 mm on both faces",
            remedy="Make the part wider, or name the face that lies more that way.",
        )


def _no_edge(field: str, ref: str) -> InputError:
    return InputError(
        code="edge_not_along",
        field=field,
        value=ref,
        rule="must be level, plumb, PART.FACE or miter with PART, within 60 degrees of the face as it is",
        remedy="Name what that long face of the part is to lie along; ends are trimmed by trim.",
    )
