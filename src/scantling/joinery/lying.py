"""How a part lies along the face of another or stands in it: a runner on the side of a case or drawer."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery.meeting import meet, moved
from scantling.joinery.work import JointContext
from scantling.piece.contact import overlap
from scantling.piece.convex import body_of
from scantling.piece.geometry import Vec, add, cross, dot, scale
from scantling.piece.model import Direction, JointRequest, Part

__all__ = ["Lie", "lie_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """How one part lies along another, or in it. World.

    Parameters
    ----------
    into, along, up
        Into the side, along the runner to its back, and the third way. [1]
    middle
        Of the stretch they have in common, on the side's face. [mm]
    low_mm, high_mm
        Front and back end of that stretch, from the middle. [mm]
    high_up_mm
        How high the runner is there, along ``up``. [mm]
    depth_mm
        How deep it stands in the side. [mm]
    through_mm
        Of the runner, from its open face to its face in the side. [mm]
    """

    runner: Part
    side: Part
    into: Vec
    along: Vec
    up: Vec
    middle: Vec
    low_mm: float
    high_mm: float
    high_up_mm: float
    depth_mm: float
    through_mm: float

    def at(self, along_mm: float, in_mm: float = 0.0) -> Vec:
        """A place along the runner, so far into the side. [mm]"""
        return moved(moved(self.middle, self.along, along_mm), self.into, in_mm)

    @property
    def length_mm(self) -> float:
        """[mm]"""
        return self.high_mm - self.low_mm


def lie_of(joint: JointRequest, context: JointContext, *, front: Direction) -> Lie:
    """How the first part of a joint lies along the second: touching it, or drawn into it.

    Parameters
    ----------
    front
        The end of the first part that is counted as its front.

    Raises
    ------
    InputError
        ``parts_do_not_touch`` where they neither touch nor cross.
    """
    runner, side = context.parts[joint.first.part], context.parts[joint.second.part]
    along = runner.frame.grain
    along = along if dot(along, front.vector) < 0.0 else scale(along, -1.0)
    common = overlap(runner, side)
    if common is not None:
        axes = (runner.frame.width, runner.frame.thickness)
        spans = [common.extent(axis) for axis in axes]
        thin = 0 if spans[0][1] - spans[0][0] < spans[1][1] - spans[1][0] else 1
        axis = axes[thin]
        offset = sum(spans[thin]) / 2.0 - dot(runner.middle, axis)
        into = axis if offset > 0.0 else scale(axis, -1.0)
        mouth, depth = common.extent(into)[0], spans[thin][1] - spans[thin][0]
        extents = common.extent
    else:
        contact = meet(joint, context).contact
        into, mouth, depth, extents = contact.normal, dot(contact.center, contact.normal), 0.0, contact.extent
    up = cross(into, along)
    middle: Vec = (0.0, 0.0, 0.0)
    for way, place in ((into, mouth), (along, sum(extents(along)) / 2.0), (up, sum(extents(up)) / 2.0)):
        middle = add(middle, scale(way, place))
    low, high = extents(along)
    up_low, up_high = extents(up)
    in_low, in_high = body_of(runner).extent(into)
    return Lie(
        runner=runner,
        side=side,
        into=into,
        along=along,
        up=up,
        middle=middle,
        low_mm=low - (low + high) / 2.0,
        high_mm=high - (low + high) / 2.0,
        high_up_mm=up_high - up_low,
        depth_mm=depth,
        through_mm=in_high - in_low,
    )
