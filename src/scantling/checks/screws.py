"""Wood left beside a screw's pilot hole, and before its point: F15."""

from __future__ import annotations

import math

from scantling.checks.catalogue import finding, limit
from scantling.checks.mortises import Hollow, hollows_by_part
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.work import Hole
from scantling.piece.convex import Face, face_direction, local_body
from scantling.piece.geometry import Vec, dot
from scantling.piece.model import Part
from scantling.remembering import remembered

__all__ = ["check"]

_PILOT = "pilot hole"
_AHEAD = 0.7
"""A face turned more squarely to a screw than this lies before its point, not beside it. [1]"""
_SHOWN_MM = 0.05
"""What is missing by less is not missing: the figures of a finding would be equal. [mm]"""


def check(subject: Subject) -> list[Finding]:
    """Findings on every pilot hole; the worst place of each joint in a part."""
    found: list[Finding] = []
    for name, hollows in hollows_by_part(subject).items():
        pilots = tuple(hollow for hollow in hollows if hollow.cut.what == _PILOT)
        if pilots:
            found += _in_part(subject.part(name), pilots)
    return found


@remembered(limit=1024)
def _in_part(part: Part, pilots: tuple[Hollow, ...]) -> tuple[Finding, ...]:
    worst: dict[str, tuple[float, float, float, str]] = {}
    faces = [face for face in local_body(part).faces if face.label not in ("start", "end")]
    for hollow in pilots:
        for short in _walls(part, faces, hollow):
            if hollow.joint not in worst or short > worst[hollow.joint]:
                worst[hollow.joint] = short
    return tuple(_told(part, joint, short) for joint, short in worst.items())


def _walls(part: Part, faces: list[Face], hollow: Hollow) -> list[tuple[float, float, float, str]]:
    """Where a hole comes too near a face: what is missing, what is left, its width, the place."""
    tool = hollow.cut.tool
    assert isinstance(tool, Hole)
    axis, radius = tool.frame.grain, tool.diameter_mm / 2.0
    mouth, tip = _mouth(part, tool), _along(tool, tool.depth_mm)
    found = []
    for face in faces:
        turned = dot(face.normal, axis)
        if turned < -_AHEAD:
            continue
        ahead = turned > _AHEAD
        near = radius * math.sqrt(max(0.0, 1.0 - turned * turned))
        wall = min(-face.plane.distance(at) for at in (mouth, tip)) - near
        wanted = limit("F15", "point_wall_mm" if ahead else "hole_wall_mm")
        if wall < wanted - _SHOWN_MM:
            looks = face_direction(part.frame.direction(face.normal)).value
            place = f"before the point of a screw, at the {looks} face" if ahead else f"to the {looks} face"
            found.append((wanted - wall, wall, tool.diameter_mm, place))
    return found


def _along(tool: Hole, far_mm: float) -> Vec:
    (x, y, z), (u, v, w) = tool.frame.origin, tool.frame.grain
    return (x + far_mm * u, y + far_mm * v, z + far_mm * w)


def _mouth(part: Part, tool: Hole) -> Vec:
    """Where its axis enters the part; holes are drawn from a little before that."""
    enters = 0.0
    for face in local_body(part).faces:
        turned = dot(face.normal, tool.frame.grain)
        if turned < -1e-9:
            enters = max(enters, face.plane.distance(tool.frame.origin) / -turned)
    return _along(tool, min(enters, tool.depth_mm))


def _told(part: Part, joint: str, short: tuple[float, float, float, str]) -> Finding:
    missing, wall, wide, place = short
    if wall <= 0.0:
        left = f"comes out by {-wall:.1f} mm {place.replace('to the', 'through the')}"
    else:
        left = f"leaves {wall:.1f} mm of wood {place}"
    return finding(
        "F15",
        where=f"{part.name}/{joint}",
        message=f"in {part.name} the {wide:.1f} mm pilot hole of {joint} {left}; at least "
        f"{wall + missing:.1f} mm keeps the wood from splitting or bulging",
        advice="Take a thinner or shorter screw, move it away from that face, or make the part thicker.",
        numbers={"wall_mm": wall, "wanted_mm": wall + missing, "shortfall_mm": missing},
    )
