"""Convex bodies by exact clipping: the parts before their joints are cut.

A part before joinery is a box or a round stick cut by planes, so it is convex, and its vertices, areas
and volume follow in closed form. Joints find their contact faces on these bodies.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from scantling.piece.geometry import Plane, Vec, add, cross, dot, scale, sub, unit
from scantling.piece.model import Direction, End, Part
from scantling.remembering import remembered

__all__ = [
    "Body",
    "Face",
    "body_of",
    "box_body",
    "clip",
    "clip_polygon",
    "face_direction",
    "local_body",
    "met_face",
    "named_face",
    "of_one_side",
    "polygon_area",
    "rod_body",
]

_EPS = 1e-7
_ON_PLANE_MM = 1e-6
"""Corners nearer than this to a plane lie in it. [mm]"""
_ROUND_SIDES = 48


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One flat face: a label and its corners, anticlockwise seen from outside. [mm] (n, 3), n >= 3.

    Labels: ``width+ width- thickness+ thickness- start end side``; a trim adds ``start``/``end``, a taper
    ``taper N``; an edge ripped out of square has the label of the face it takes the place of.
    """

    label: str
    corners: tuple[Vec, ...]
    normal: Vec

    @property
    def area_mm2(self) -> float:
        """[mm2]"""
        return polygon_area(self.corners)

    @property
    def center(self) -> Vec:
        """Mean of the corners. [mm]"""
        total: Vec = (0.0, 0.0, 0.0)
        for corner in self.corners:
            total = add(total, corner)
        return scale(total, 1.0 / len(self.corners))

    @property
    def plane(self) -> Plane:
        """The plane of the face."""
        return Plane(point=self.corners[0], normal=self.normal)


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A convex body by its faces."""

    faces: tuple[Face, ...]

    @property
    def volume_mm3(self) -> float:
        """Volume by the divergence theorem. [mm3]"""
        return _volume_mm3(self)

    @property
    def corners(self) -> tuple[Vec, ...]:
        """All corners, repeated where faces share them. [mm]"""
        return tuple(corner for face in self.faces for corner in face.corners)

    def extent(self, direction: Vec) -> tuple[float, float]:
        """Least and greatest coordinate along a direction. [mm]"""
        return _extent(self, direction)


@remembered(limit=1024)
def _volume_mm3(body: Body) -> float:
    return sum(dot(face.corners[0], face.normal) * face.area_mm2 for face in body.faces) / 3.0


@remembered(limit=2048)
def _extent(body: Body, direction: Vec) -> tuple[float, float]:
    along = [dot(corner, direction) for corner in body.corners]
    return min(along), max(along)


def polygon_area(corners: tuple[Vec, ...]) -> float:
    """Area of a flat polygon. [mm2]"""
    if len(corners) < 3:
        return 0.0
    x, y, z = corners[0]
    a = b = c = 0.0
    px, py, pz = corners[1][0] - x, corners[1][1] - y, corners[1][2] - z
    for corner in corners[2:]:
        qx, qy, qz = corner[0] - x, corner[1] - y, corner[2] - z
        a += py * qz - pz * qy
        b += pz * qx - px * qz
        c += px * qy - py * qx
        px, py, pz = qx, qy, qz
    return math.sqrt(a * a + b * b + c * c) / 2.0


def clip_polygon(corners: tuple[Vec, ...], plane: Plane) -> tuple[Vec, ...]:
    """The part of a polygon behind a plane (Sutherland and Hodgman)."""
    return _behind(corners, _heights(corners, plane))


def _heights(corners: tuple[Vec, ...], plane: Plane) -> list[float]:
    """Signed distance of each corner from a plane. [mm]

    As :meth:`Plane.distance`, written out: it is asked for millions of times.
    """
    (x, y, z), (a, b, c) = plane.point, plane.normal
    return [(p[0] - x) * a + (p[1] - y) * b + (p[2] - z) * c for p in corners]


def _behind(corners: tuple[Vec, ...], heights: list[float]) -> tuple[Vec, ...]:
    if not corners or min(heights) > _EPS:
        return ()
    if max(heights) <= _EPS:
        return _without_doubles(corners)
    kept: list[Vec] = []
    last = len(corners) - 1
    for i, (here, d_here) in enumerate(zip(corners, heights, strict=True)):
        d_there = heights[i + 1] if i < last else heights[0]
        if d_here <= _EPS:
            kept.append(here)
        if (d_here < -_EPS and d_there > _EPS) or (d_here > _EPS and d_there < -_EPS):
            there = corners[i + 1] if i < last else corners[0]
            t = d_here / (d_here - d_there)
            kept.append(add(here, scale(sub(there, here), t)))
    return _without_doubles(kept)


def _without_doubles(corners: Iterable[Vec]) -> tuple[Vec, ...]:
    kept: list[Vec] = []
    for corner in corners:
        if not kept or math.dist(corner, kept[-1]) > 1e-6:
            kept.append(corner)
    if len(kept) > 1 and math.dist(kept[0], kept[-1]) <= 1e-6:
        kept.pop()
    return tuple(kept)


def clip(body: Body, plane: Plane, label: str) -> Body:
    """A body cut by a plane; what the normal points to is gone, the new face gets ``label``."""
    faces: list[Face] = []
    on_plane: list[Vec] = []
    for face in body.faces:
        heights = _heights(face.corners, plane)
        if max(heights) < -_ON_PLANE_MM:  # wholly behind it, as most faces are
            if polygon_area(face.corners) > 1e-9:
                faces.append(face)
            continue
        corners = _behind(face.corners, heights)
        near = zip(corners, _heights(corners, plane), strict=True)
        on_plane.extend(corner for corner, height in near if abs(height) <= _ON_PLANE_MM)
        if len(corners) >= 3 and polygon_area(corners) > 1e-9:
            faces.append(Face(label=face.label, corners=corners, normal=face.normal))
    lid = _lid(on_plane, plane)
    already = any(
        dot(f.normal, plane.normal) > 1 - 1e-9 and abs(plane.distance(f.corners[0])) < _ON_PLANE_MM
        for f in faces
    )
    if len(lid) >= 3 and polygon_area(lid) > 1e-9 and not already:
        faces.append(Face(label=label, corners=lid, normal=plane.normal))
    return Body(faces=tuple(faces))


def _lid(points: list[Vec], plane: Plane) -> tuple[Vec, ...]:
    """Corners of the cut, put in order round their middle."""
    if len(points) < 3:
        return ()
    middle = scale(_total(points), 1.0 / len(points))
    e1 = _any_across(plane.normal)
    e2 = cross(plane.normal, e1)

    def turn(p: Vec) -> float:
        d = sub(p, middle)
        return math.atan2(dot(d, e2), dot(d, e1))

    return _without_doubles(sorted(points, key=turn))


def _total(points: Iterable[Vec]) -> Vec:
    total: Vec = (0.0, 0.0, 0.0)
    for p in points:
        total = add(total, p)
    return total


def _any_across(normal: Vec) -> Vec:
    trial: Vec = (1.0, 0.0, 0.0) if abs(normal[0]) < 0.7 else (0.0, 1.0, 0.0)
    return unit(cross(normal, trial))


def box_body(*, start_mm: float, end_mm: float, width_mm: float, thickness_mm: float) -> Body:
    """The uncut box, local."""
    h, t = width_mm / 2.0, thickness_mm / 2.0
    u0, u1 = start_mm, end_mm

    def face(label: str, normal: Vec, *corners: Vec) -> Face:
        ordered: tuple[Vec, ...] = corners
        turn = cross(sub(corners[1], corners[0]), sub(corners[2], corners[0]))
        if dot(turn, normal) < 0:
            ordered = tuple(reversed(corners))
        return Face(label=label, corners=ordered, normal=normal)

    return Body(
        faces=(
            face("start", (-1, 0, 0), (u0, -h, -t), (u0, h, -t), (u0, h, t), (u0, -h, t)),
            face("end", (1, 0, 0), (u1, -h, -t), (u1, h, -t), (u1, h, t), (u1, -h, t)),
            face("width-", (0, -1, 0), (u0, -h, -t), (u1, -h, -t), (u1, -h, t), (u0, -h, t)),
            face("width+", (0, 1, 0), (u0, h, -t), (u1, h, -t), (u1, h, t), (u0, h, t)),
            face("thickness-", (0, 0, -1), (u0, -h, -t), (u1, -h, -t), (u1, h, -t), (u0, h, -t)),
            face("thickness+", (0, 0, 1), (u0, -h, t), (u1, -h, t), (u1, h, t), (u0, h, t)),
        )
    )


def rod_body(*, start_mm: float, end_mm: float, diameters_mm: tuple[float, float]) -> Body:
    """A round rod as a many-sided frustum between its ends, local; its corners lie on the true circle."""
    rings: list[tuple[Vec, ...]] = []
    for u, r in ((start_mm, diameters_mm[0] / 2.0), (end_mm, diameters_mm[1] / 2.0)):
        angles = [2.0 * math.pi * k / _ROUND_SIDES for k in range(_ROUND_SIDES)]
        rings.append(tuple((u, r * math.cos(a), r * math.sin(a)) for a in angles))
    first, last = rings
    faces = [
        Face(label="start", corners=tuple(reversed(first)), normal=(-1.0, 0.0, 0.0)),
        Face(label="end", corners=last, normal=(1.0, 0.0, 0.0)),
    ]
    for k in range(_ROUND_SIDES):
        j = (k + 1) % _ROUND_SIDES
        corners: tuple[Vec, ...] = (first[k], first[j], last[j], last[k])
        normal = unit(cross(sub(corners[2], corners[0]), sub(corners[3], corners[1])))
        if normal[1] * first[k][1] + normal[2] * first[k][2] < 0:
            corners, normal = tuple(reversed(corners)), scale(normal, -1.0)
        faces.append(Face(label="side", corners=corners, normal=normal))
    return Body(faces=tuple(faces))


def _round_body(part: Part, start_mm: float, end_mm: float) -> Body:
    """A round stick between two places along it, local."""
    assert part.round is not None
    slope = (part.round.end_mm - part.round.start_mm) / part.length_mm
    first, last = (part.round.start_mm + slope * (u - part.start_mm) for u in (start_mm, end_mm))
    return rod_body(start_mm=start_mm, end_mm=end_mm, diameters_mm=(first, last))


@remembered(limit=2048)
def local_body(part: Part, start_more_mm: float = 0.0, end_more_mm: float = 0.0) -> Body:
    """The part before joinery in its own coordinates; each end's trims moved out by ``..._more_mm``."""
    return _local_body(part, start_more_mm, end_more_mm)


@lru_cache(maxsize=4096)
def _local_body(part: Part, start_more_mm: float, end_more_mm: float) -> Body:
    """As :func:`local_body`, also found again by a part that says the same and is another object."""
    start, end = part.start_mm - start_more_mm, part.end_mm + end_more_mm
    if part.round is not None:
        body = _round_body(part, start, end)
    else:
        body = box_body(start_mm=start, end_mm=end, width_mm=part.width_mm, thickness_mm=part.thickness_mm)
    for trim in part.trims:
        more = -start_more_mm if trim.end is End.START else end_more_mm
        plane = Plane(point=add(trim.plane.point, (more, 0.0, 0.0)), normal=trim.plane.normal)
        body = clip(body, plane, trim.end.value)
    for number, taper in enumerate(part.tapers):
        body = clip(body, taper.plane, f"taper {number}")
    for edge in part.edges:
        body = clip(body, edge.plane, edge.side)
    return body


@remembered(limit=2048)
def body_of(part: Part) -> Body:
    """The part before joinery, in the world."""
    return _body_of(part)


@lru_cache(maxsize=4096)
def _body_of(part: Part) -> Body:
    step = -1 if part.mirrored else 1  # a left-handed frame turns every face's corners round
    return Body(
        faces=tuple(
            Face(
                label=face.label,
                corners=tuple(part.frame.point(corner) for corner in face.corners)[::step],
                normal=part.frame.direction(face.normal),
            )
            for face in local_body(part).faces
        )
    )


@lru_cache(maxsize=16_384)
def face_direction(normal: Vec) -> Direction:
    """The direction a face looks: the nearest of the six, earlier ones winning a tie."""
    return max(Direction, key=lambda d: round(dot(d.vector, normal), 9))


def named_face(part: Part, direction: Direction) -> Face | None:
    """The face of a part that looks most in a direction; None if none does.

    A tapered face counts where nothing of the face it was cut from is left; a round side never does.
    """
    flat = [face for face in body_of(part).faces if face.label != "side"]
    plain = [face for face in flat if not face.label.startswith("taper")]
    return _facing(plain, direction) or _facing(flat, direction)


@remembered(limit=2048)
def met_face(part: Part, direction: Direction, *, start: Vec, way: Vec) -> Face | None:
    """The face on one side of a part that a line runs into: the plain face, or the taper it meets there.

    Parameters
    ----------
    part
        The part run into.
    direction
        The side, as :func:`named_face` takes it.
    start, way
        A point of the line, and which way it runs. World. [mm], [1]
    """
    named = named_face(part, direction)
    if named is None:
        return None
    side = [face for face in body_of(part).faces if of_one_side(part, face.label, named.label)]
    entered = [face for face in side if dot(face.normal, way) < -_EPS]

    def reach(face: Face) -> float:
        return dot(sub(face.corners[0], start), face.normal) / dot(face.normal, way)

    # the wood lies behind every face, so the line is in it once it has passed the last of them
    return max(entered, key=reach, default=named)


def of_one_side(part: Part, one: str, other: str) -> bool:
    """Whether two faces, by their labels, are of one side; a taper is of the side it was cut from."""
    return one == other or _side(part, one) == _side(part, other) != ""


def _side(part: Part, label: str) -> str:
    """The side of the square blank a face was cut from; empty for an end and for a round side."""
    if not label.startswith("taper "):
        return label if label[-1] in "+-" else ""
    _, across, through = part.tapers[int(label.removeprefix("taper "))].plane.normal
    name, value = ("width", across) if abs(across) >= abs(through) else ("thickness", through)
    return f"{name}{'+' if value > 0.0 else '-'}"


def _facing(faces: list[Face], direction: Direction) -> Face | None:
    best: Face | None = None
    score = 0.5
    for face in faces:
        value = dot(face.normal, direction.vector)
        if value > score + 1e-9:
            best, score = face, value
    return best
