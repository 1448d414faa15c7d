"""Vectors, frames and planes of the piece. X along the piece, Y front to back, Z up. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass

__all__ = ["Frame", "Plane", "Vec", "add", "cross", "dot", "norm", "scale", "sub", "unit"]

Vec = tuple[float, float, float]


def add(a: Vec, b: Vec) -> Vec:
    """Sum of two vectors."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vec, b: Vec) -> Vec:
    """``a - b``."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scale(a: Vec, factor: float) -> Vec:
    """A vector times a number."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def dot(a: Vec, b: Vec) -> float:
    """Inner product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec, b: Vec) -> Vec:
    """Right-handed vector product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def norm(a: Vec) -> float:
    """Length of a vector."""
    return math.sqrt(dot(a, a))


def unit(a: Vec) -> Vec:
    """A vector of length one in the same direction; raises ZeroDivisionError for the zero vector."""
    return scale(a, 1.0 / norm(a))


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """A plane; ``normal`` (unit) points out of the wood that is kept.

    Parameters
    ----------
    point
        A point of it. [mm]
    normal
        Unit normal. [1]
    """

    point: Vec
    normal: Vec

    def distance(self, p: Vec) -> float:
        """Signed distance of a point, positive on the side the normal points to. [mm]"""
        return dot(sub(p, self.point), self.normal)

    def shifted(self, offset_mm: float) -> Plane:
        """The plane moved along its normal."""
        return Plane(point=add(self.point, scale(self.normal, offset_mm)), normal=self.normal)

    def flipped(self) -> Plane:
        """The same plane seen from the other side."""
        return Plane(point=self.point, normal=scale(self.normal, -1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where a part (or a tool) stands: an origin and three orthonormal axes.

    A mirrored part keeps a left-handed frame; the geometry does not mind, and the shop does: its cuts
    are those of the other hand.

    Parameters
    ----------
    origin
        [mm]
    grain, width, thickness
        Unit vectors of the part's own axes u, v, w. [1]
    """

    origin: Vec
    grain: Vec
    width: Vec
    thickness: Vec

    def point(self, local: Vec) -> Vec:
        """World position of a point given in u, v, w. [mm]"""
        return add(self.origin, self.direction(local))

    def direction(self, local: Vec) -> Vec:
        """World direction of a vector given in u, v, w."""
        u, v, w = local
        return add(add(scale(self.grain, u), scale(self.width, v)), scale(self.thickness, w))

    def local(self, world: Vec) -> Vec:
        """The point in u, v, w. [mm]"""
        return self.local_direction(sub(world, self.origin))

    def local_direction(self, world: Vec) -> Vec:
        """The direction in u, v, w."""
        return (dot(world, self.grain), dot(world, self.width), dot(world, self.thickness))

    def plane_out(self, plane: Plane) -> Plane:
        """A local plane in the world."""
        return Plane(point=self.point(plane.point), normal=self.direction(plane.normal))

    def plane_in(self, plane: Plane) -> Plane:
        """A world plane in this frame."""
        return Plane(point=self.local(plane.point), normal=self.local_direction(plane.normal))

    def frame_out(self, inner: Frame) -> Frame:
        """A frame given in this frame, in the world."""
        return Frame(
            origin=self.point(inner.origin),
            grain=self.direction(inner.grain),
            width=self.direction(inner.width),
            thickness=self.direction(inner.thickness),
        )

    def frame_in(self, outer: Frame) -> Frame:
        """A world frame, in this frame."""
        return Frame(
            origin=self.local(outer.origin),
            grain=self.local_direction(outer.grain),
            width=self.local_direction(outer.width),
            thickness=self.local_direction(outer.thickness),
        )
