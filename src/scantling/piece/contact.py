"""Where two parts meet: faces that lie in one plane, or bodies that pass through each other."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from scantling.piece.convex import Body, Face, body_of, clip, clip_polygon, polygon_area
from scantling.piece.geometry import Plane, Vec, add, cross, dot, norm, scale, sub
from scantling.piece.model import Part

__all__ = ["Contact", "contacts", "nearest_gap_mm", "overlap"]

TOUCH_MM = 0.05
"""Faces closer than this touch: a twentieth of a millimeter, finer than a shop works. [mm]"""
_PARALLEL = 1.0 - 2e-5
"""Cosine of a third of a degree."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """A flat area where two parts touch.

    Parameters
    ----------
    first_face, second_face
        Labels of the faces.
    normal
        Out of the first part, into the second. World. [1]
    corners
        The common polygon. World. [mm] (n, 3)
    """

    first_face: str
    second_face: str
    normal: Vec
    corners: tuple[Vec, ...]

    @property
    def area_mm2(self) -> float:
        """[mm2]"""
        return polygon_area(self.corners)

    @property
    def center(self) -> Vec:
        """Centroid of the polygon. World. [mm]"""
        base = self.corners[0]
        total, weight = (0.0, 0.0, 0.0), 0.0
        for i in range(1, len(self.corners) - 1):
            a, b = self.corners[i], self.corners[i + 1]
            area = norm(cross(sub(a, base), sub(b, base)))
            third = scale(add(add(base, a), b), 1.0 / 3.0)
            total, weight = add(total, scale(third, area)), weight + area
        return scale(total, 1.0 / weight) if weight else base

    def extent(self, direction: Vec) -> tuple[float, float]:
        """Least and greatest coordinate along a direction. [mm]"""
        along = [dot(corner, direction) for corner in self.corners]
        return min(along), max(along)


def contacts(first: Part, second: Part, *, within_mm: float = TOUCH_MM) -> tuple[Contact, ...]:
    """All flat contacts of two parts, largest first.

    Parameters
    ----------
    first, second
        Parts in place.
    within_mm
        Greatest gap that still counts as touching. [mm]
    """
    found: list[Contact] = []
    for a in body_of(first).faces:
        for b in body_of(second).faces:
            contact = _face_contact(a, b, within_mm)
            if contact is not None:
                found.append(contact)
    return tuple(sorted(found, key=lambda c: -c.area_mm2))


def _face_contact(a: Face, b: Face, within_mm: float) -> Contact | None:
    if dot(a.normal, b.normal) > -_PARALLEL:
        return None
    if abs(dot(sub(b.center, a.center), a.normal)) > within_mm:
        return None
    corners = a.corners
    for i, corner in enumerate(b.corners):
        edge = sub(b.corners[(i + 1) % len(b.corners)], corner)
        out = cross(edge, b.normal)
        size = norm(out)
        if size < 1e-12:
            continue
        corners = clip_polygon(corners, Plane(point=corner, normal=scale(out, 1.0 / size)))
        if len(corners) < 3:
            return None
    if polygon_area(corners) < 1.0:
        return None
    return Contact(first_face=a.label, second_face=b.label, normal=a.normal, corners=corners)


@lru_cache(maxsize=16_384)
def nearest_gap_mm(first: Part, second: Part) -> float:
    """Greatest separation found by any face plane of either part: how far apart they are at least. [mm]

    Zero or less means they touch or overlap.
    """
    a, b = body_of(first), body_of(second)
    gap = 0.0
    for one, other in ((a, b), (b, a)):
        for face in one.faces:
            gap = max(gap, min(face.plane.distance(corner) for corner in other.corners))
    return gap


def overlap(first: Part, second: Part) -> Body | None:
    """The common body of two parts that pass through each other, in the world; None if there is none."""
    body = body_of(first)
    for face in body_of(second).faces:
        body = clip(body, face.plane, f"by {face.label}")
        if len(body.faces) < 4:
            return None
    return body if body.volume_mm3 > 1.0 else None
