"""Hollows cut into parts as convex prisms: whether two meet, and how thick the wall between them is.

A box is a prism with four sides; a slot with round ends and a round hole are prisms whose arcs are replaced
by tangent lines, so the hollow is never taken smaller than it is (by 1 % of the radius at most).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache

from scantling.joinery.work import Box, Cut, Hole, Profile, Slot, Tool
from scantling.piece.convex import Body, Face, clip
from scantling.piece.geometry import Frame, Plane, Vec, add, cross, dot, norm, scale, sub

__all__ = ["Prism", "box_gap_mm", "common_volume_mm3", "distance_mm", "gap_mm", "prism"]

_HALF_ARC = 12
_TINY = 1e-9


_OWN: dict[Vec, int] = {(1.0, 0.0, 0.0): 0, (0.0, 1.0, 0.0): 1, (0.0, 0.0, 1.0): 2}
"""The part's own axes, by their number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prism:
    """A convex prism.

    Parameters
    ----------
    near, far
        Corners of the two ends, in the same order. [mm]
    """

    near: tuple[Vec, ...]
    far: tuple[Vec, ...]
    planes: tuple[Plane, ...] = field(init=False, repr=False, compare=False)
    """Its faces, normals outward."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "planes", self._planes())

    @property
    def corners(self) -> tuple[Vec, ...]:
        """All corners. [mm]"""
        return self.near + self.far

    @property
    def body(self) -> Body:
        """The same by its faces."""
        middle = scale(_sum(self.corners), 1.0 / len(self.corners))
        count = len(self.near)
        rings = [self.near, self.far]
        for i in range(count):
            j = (i + 1) % count
            rings.append((self.near[i], self.near[j], self.far[j], self.far[i]))
        return Body(faces=tuple(_face(ring, middle) for ring in rings))

    @property
    def edges(self) -> tuple[tuple[Vec, Vec], ...]:
        """All edges. [mm]"""
        count = len(self.near)
        rings = [(ring[i], ring[(i + 1) % count]) for ring in (self.near, self.far) for i in range(count)]
        return (*rings, *zip(self.near, self.far, strict=True))

    def _planes(self) -> tuple[Plane, ...]:
        middle = scale(_sum(self.corners), 1.0 / len(self.corners))
        count = len(self.near)
        axis = sub(self.far[0], self.near[0])
        found = [_outward(self.near[0], axis, middle), _outward(self.far[0], axis, middle)]
        for i in range(count):
            side = sub(self.near[(i + 1) % count], self.near[i])
            found.append(_outward(self.near[i], cross(side, axis), middle))
        return tuple(found)

    def extent(self, direction: Vec) -> tuple[float, float]:
        """Least and greatest coordinate along a direction. [mm]"""
        own = _OWN.get(direction)
        if own is not None:  # asked for more often than all others
            along = [corner[own] for corner in self.corners]
        else:
            along = [dot(corner, direction) for corner in self.corners]
        return min(along), max(along)


def _sum(points: tuple[Vec, ...]) -> Vec:
    total: Vec = (0.0, 0.0, 0.0)
    for point in points:
        total = add(total, point)
    return total


def _outward(point: Vec, normal: Vec, middle: Vec) -> Plane:
    unit = scale(normal, 1.0 / norm(normal))
    return Plane(point=point, normal=unit if dot(sub(point, middle), unit) >= 0.0 else scale(unit, -1.0))


def _face(corners: tuple[Vec, ...], middle: Vec) -> Face:
    """A face whose corners go round anticlockwise from outside."""
    plane = _outward(corners[0], cross(sub(corners[1], corners[0]), sub(corners[2], corners[0])), middle)
    turned = dot(cross(sub(corners[1], corners[0]), sub(corners[2], corners[0])), plane.normal)
    return Face(label="", normal=plane.normal, corners=corners if turned > 0.0 else corners[::-1])


def prism(cut: Cut) -> Prism | None:
    """The hollow a cut leaves, in the part's coordinates; None for cuts that shape an end or a round."""
    return _of_tool(cut.tool)


@lru_cache(maxsize=4096)
def _of_tool(tool: Tool) -> Prism | None:
    if isinstance(tool, Box):
        v, w = tool.width_mm / 2.0, tool.thickness_mm / 2.0
        return _along(tool.frame, ((-v, -w), (v, -w), (v, w), (-v, w)), tool.length_mm)
    if isinstance(tool, Slot):
        radius = tool.width_mm / 2.0
        return _along(tool.frame, _stadium(radius, tool.length_mm / 2.0 - radius), tool.depth_mm)
    if isinstance(tool, Hole):
        return _along(tool.frame, _stadium(tool.diameter_mm / 2.0, 0.0), tool.depth_mm)
    if isinstance(tool, Profile):
        return _along(tool.frame, tool.outline, tool.length_mm)
    return None


def _along(frame: Frame, outline: tuple[tuple[float, float], ...], depth_mm: float) -> Prism:
    return Prism(
        near=tuple(frame.point((0.0, v, w)) for v, w in outline),
        far=tuple(frame.point((depth_mm, v, w)) for v, w in outline),
    )


def _stadium(radius: float, half_straight: float) -> tuple[tuple[float, float], ...]:
    """Two half circles a straight apart, by tangents; along v the outline is exactly as long as the slot."""
    step = math.pi / _HALF_ARC
    outer = radius / math.cos(step / 2.0)
    points = []
    for k in range(2 * _HALF_ARC):
        angle = (k + 0.5) * step - math.pi / 2.0
        shift = half_straight if math.cos(angle) > 0.0 else -half_straight
        points.append((shift + outer * math.cos(angle), outer * math.sin(angle)))
    return tuple(points)


def _axes(a: Prism, b: Prism) -> list[Vec]:
    """Directions in which two convex prisms can be apart: faces of either, and edges across edges."""
    axes = [plane.normal for plane in (*a.planes, *b.planes)]
    for one in _directions(a):
        for other in _directions(b):
            across = cross(one, other)
            size = norm(across)
            if size > 1e-6:
                axes.append(scale(across, 1.0 / size))
    return axes


def _directions(body: Prism) -> list[Vec]:
    count = len(body.near)
    half = count // 2  # the outlines are symmetric, so opposite sides are parallel
    found = [sub(body.near[(i + 1) % count], body.near[i]) for i in range(half)]
    found.append(sub(body.far[0], body.near[0]))
    return [scale(edge, 1.0 / norm(edge)) for edge in found if norm(edge) > _TINY]


def gap_mm(a: Prism, b: Prism) -> float:
    """Greatest separation along any face or edge-to-edge direction. [mm]

    Negative where they meet: then it is minus the least shift that would part them. A positive value is
    never more than the true distance.
    """
    best = -math.inf
    for axis in _axes(a, b):
        low_a, high_a = a.extent(axis)
        low_b, high_b = b.extent(axis)
        best = max(best, low_b - high_a, low_a - high_b)
    return best


def box_gap_mm(a: Prism, b: Prism) -> float:
    """Separation along the part's own three axes: a quick look, never more than the true distance. [mm]"""
    best = -math.inf
    for axis in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)):
        low_a, high_a = a.extent(axis)
        low_b, high_b = b.extent(axis)
        best = max(best, low_b - high_a, low_a - high_b)
    return best


def common_volume_mm3(a: Prism, b: Prism) -> float:
    """Volume two hollows have in common; 0 where they do not meet. [mm3]"""
    body = a.body
    for plane in b.planes:
        body = clip(body, plane, "")
        if len(body.faces) < 4:
            return 0.0
    return body.volume_mm3


def distance_mm(a: Prism, b: Prism) -> float:
    """Thickness of wood between two hollows; 0 where they meet. [mm]

    Two convex bodies apart are nearest at a corner and a face or at two edges, so all of these are tried.
    """
    if gap_mm(a, b) <= 0.0:
        return 0.0
    best = min(_edges_mm(one, other) for one in a.edges for other in b.edges)
    for body, points in ((a, b.corners), (b, a.corners)):
        for point in points:
            best = min(best, _point_mm(body, point))
    return best


def _point_mm(body: Prism, point: Vec) -> float:
    """Distance to a face when the foot lies inside it, else infinity: edges take the rest."""
    for plane in body.planes:
        height = plane.distance(point)
        if height <= 0.0:
            continue
        foot = sub(point, scale(plane.normal, height))
        if all(other.distance(foot) <= 1e-6 for other in body.planes):
            return height
    return math.inf


def _edges_mm(one: tuple[Vec, Vec], other: tuple[Vec, Vec]) -> float:
    """Distance of two segments."""
    p, d1 = one[0], sub(one[1], one[0])
    q, d2 = other[0], sub(other[1], other[0])
    r = sub(p, q)
    a, e, f = dot(d1, d1), dot(d2, d2), dot(d2, r)
    b, c = dot(d1, d2), dot(d1, r)
    spread = a * e - b * b
    s = min(max((b * f - c * e) / spread, 0.0), 1.0) if spread > _TINY else 0.0
    t = (b * s + f) / e
    if t < 0.0:
        t, s = 0.0, min(max(-c / a, 0.0), 1.0)
    elif t > 1.0:
        t, s = 1.0, min(max((b - c) / a, 0.0), 1.0)
    return norm(sub(add(p, scale(d1, s)), add(q, scale(d2, t))))
