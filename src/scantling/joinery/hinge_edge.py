"""The edge a door or lid hangs by: where the pin lies, how large its hinges are and where they go."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.errors import InputError
from scantling.joinery.facing import Facing, facing_of
from scantling.joinery.fitting import check_apart
from scantling.joinery.meeting import moved, spread
from scantling.joinery.work import JointContext
from scantling.piece.convex import body_of
from scantling.piece.geometry import Vec, cross, dot, scale
from scantling.piece.model import Direction, End, JointRequest, Part

__all__ = ["HingeEdge", "hinge_count", "hinge_edge", "hinge_length_mm", "hinge_places"]

LENGTHS_MM = (25.0, 32.0, 38.0, 50.0, 65.0, 75.0, 100.0)
"""Lengths in which small hinges are sold (common practice). [mm]"""
LENGTH_SHARE = 1.0 / 12.0
"""A hinge is at least about a twelfth as long as the edge it hangs (common practice). [1]"""
_TWO_UP_TO_MM, _MORE_EACH_MM = 1000.0, 600.0
"""Two hinges on an edge up to this long, and one more for each further stretch (common practice). [mm]"""


def hinge_count(edge_mm: float) -> int:
    """Hinges on an edge.

    Examples
    --------
    >>> [hinge_count(edge) for edge in (600.0, 1000.0, 1001.0, 1601.0)]
    [2, 2, 3, 4]
    """
    over = max(0.0, edge_mm - _TWO_UP_TO_MM)
    return 2 + int(-(-over // _MORE_EACH_MM))


def hinge_length_mm(edge_mm: float) -> float:
    """Length of each: the next one sold that is at least a twelfth of the edge. [mm]

    Examples
    --------
    >>> [hinge_length_mm(edge) for edge in (300.0, 600.0, 601.0, 2000.0)]
    [25.0, 50.0, 65.0, 100.0]
    """
    return next((size for size in LENGTHS_MM if size >= edge_mm * LENGTH_SHARE - 1e-9), LENGTHS_MM[-1])


@dataclass(frozen=True, slots=True, kw_only=True)
class HingeEdge:
    """Where a door or lid hangs.

    Parameters
    ----------
    facing
        Its edge and the face of the case that it lies at.
    knuckle
        To the side on which the knuckle stands. World. [1]
    along
        Along the edge. World. [1]
    low_mm, high_mm
        The stretch both have in common, from the edge's middle. [mm]
    front_mm, second_front_mm
        Where the two parts end toward the knuckle, along ``knuckle``. [mm]
    deep_mm
        How far back of its front the edge and the case go together. [mm]
    """

    facing: Facing
    knuckle: Vec
    along: Vec
    low_mm: float
    high_mm: float
    front_mm: float
    second_front_mm: float
    deep_mm: float

    @property
    def length_mm(self) -> float:
        """The stretch both have in common. [mm]"""
        return self.high_mm - self.low_mm

    @property
    def is_lid(self) -> bool:
        """Whether it opens upward or downward: it lies on the other part, or under it."""
        return abs(self.facing.out[2]) > 0.7

    def spot(self, along_mm: float, *, back_mm: float, out_mm: float = 0.0) -> Vec:
        """A place: along the edge from its middle, back from the front, out of the edge. World. [mm]"""
        f = self.facing
        at = moved(f.at, self.along, along_mm)
        at = moved(at, self.knuckle, self.front_mm - back_mm - dot(at, self.knuckle))
        return moved(at, f.out, out_mm)


def hinge_edge(joint: JointRequest, context: JointContext) -> HingeEdge:
    """The edge of a joint written DOOR.FACE and CASE.FACE: its hinge edge, and the face the knuckle is at.

    Raises
    ------
    InputError
        ``no_gap_between``; ``knuckle_side_missing`` where the second face is not beside the edge.
    """
    facing = facing_of(replace(joint, second=replace(joint.second, face=None)), context)
    knuckle = None if joint.second.face is None else _side(facing.second, joint.second.face)
    if knuckle is None or abs(dot(knuckle, facing.out)) > 0.1:
        raise InputError(
            code="knuckle_side_missing",
            field=f"joints.{joint.like}",
            value=str(joint.second),
            rule="must name the face beside the hinges at which their knuckles stand",
            remedy=f"Write {facing.second.name}.front for a door in front, {facing.second.name}.back for a "
            "lid that is hinged at its back.",
        )
    along = cross(facing.out, knuckle)
    if max((dot(along, axis), axis) for axis in _axes(facing))[0] < 1.0 - 1e-6:
        along = scale(along, -1.0)
    low, high = facing.contact.extent(along)
    middle = dot(facing.at, along)
    back_low, _ = facing.contact.extent(knuckle)
    front = body_of(facing.first).extent(knuckle)[1]
    return HingeEdge(
        facing=facing,
        knuckle=knuckle,
        along=along,
        low_mm=low - middle,
        high_mm=high - middle,
        front_mm=front,
        second_front_mm=body_of(facing.second).extent(knuckle)[1],
        deep_mm=front - back_low,
    )


def _side(part: Part, named: Direction) -> Vec | None:
    """The way out of a part at its side, not its end, that looks most in a direction; None if none."""
    sides = [face for face in body_of(part).faces if face.label not in set(End)]
    best = max(sides, key=lambda face: round(dot(face.normal, named.vector), 9))
    return best.normal if dot(best.normal, named.vector) > 0.5 else None


def _axes(facing: Facing) -> tuple[Vec, Vec, Vec]:
    frame = facing.first.frame
    return (frame.grain, frame.width, frame.thickness)


def hinge_places(
    joint: JointRequest, edge: HingeEdge, *, count: int, length_mm: float, inset_mm: float
) -> tuple[float, ...]:
    """Middles of the hinges along the edge, the outer ones so far in from its ends. [mm]

    Raises
    ------
    InputError
        ``row_too_close`` where they would lie on each other.
    """
    inset = inset_mm + length_mm / 2.0
    places = spread(edge.low_mm, edge.high_mm, count=count, inset_mm=inset)
    check_apart(joint, "count", places, size_mm=length_mm, what="hinges")
    return places
