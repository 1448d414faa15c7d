"""Whether a mortise or a hole fits in the wood it is cut in; what does not fit cannot be made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from scantling.errors import InputError
from scantling.piece.convex import Face, body_of
from scantling.piece.geometry import Vec, cross, dot, norm, scale, sub
from scantling.piece.model import Direction, End, JointRequest, Part

__all__ = [
    "Hollow",
    "Mouth",
    "cannot_be_made",
    "check_apart",
    "check_depth",
    "check_mouth",
    "end_of",
    "still_edge_mm",
    "wood_behind_mm",
]

_SLACK_MM = 0.01


def cannot_be_made(
    joint: JointRequest, option: str, *, code: str, value: str, rule: str, remedy: str
) -> InputError:
    """The error of an option that asks for what cannot be cut."""
    field = f"joints.{joint.like}.{option}" if option else f"joints.{joint.like}"
    return InputError(code=code, field=field, value=value, rule=rule, remedy=remedy)


def end_of(joint: JointRequest, face: str, *, code: str, rule: str) -> End:
    """The end of the first part that lies on the second.

    Parameters
    ----------
    face
        Label of the first part's face that touches.
    code, rule
        Of the error where that is no end.

    Raises
    ------
    InputError
        With that code.
    """
    if face not in set(End):
        raise cannot_be_made(
            joint,
            "",
            code=code,
            value=f"{joint.first} on {joint.second}",
            rule=rule,
            remedy="Write PART.start or PART.end first, trimmed by the other's face.",
        )
    return End(face)


def still_edge_mm(joint: JointRequest, part: Part, still: Direction) -> float:
    """Where a part is kept still that its option ``still`` names an edge of.

    Parameters
    ----------
    part
        The part that the seasons move.
    still
        The edge.

    Returns
    -------
    float
        Across the part, from its middle. [mm] signed

    Raises
    ------
    InputError
        ``not_an_edge`` where it has no edge along the grain that way.
    """
    toward = dot(still.vector, part.frame.width)
    if abs(toward) < 0.7:
        raise cannot_be_made(
            joint,
            "still",
            code="not_an_edge",
            value=f"{still.value} of {part.name}",
            rule="must be one of its two edges along the grain: those are what the seasons move",
            remedy="Name the edge across the grain from the screws.",
        )
    return part.width_mm / 2.0 * (1.0 if toward > 0.0 else -1.0)


def wood_behind_mm(part: Part, point: Vec, into: Vec) -> float:
    """Wood along a direction from a point on a part's surface to where it comes out again. [mm]"""
    ways = []
    for face in body_of(part).faces:
        slope = dot(into, face.normal)
        if slope > 1e-9:
            ways.append(-face.plane.distance(point) / slope)
    return min(ways, default=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hollow:
    """A blind hollow: the middle of its mouth, the way into the wood, and how deep. World. [mm]"""

    at: Vec
    into: Vec
    depth_mm: float
    what: str = "mortise"


def check_depth(joint: JointRequest, option: str, part: Part, *, hollow: Hollow) -> None:
    """Refuse a blind hollow that would come out on the far side.

    Raises
    ------
    InputError
        ``deeper_than_part``, with the wood there is.
    """
    wood = wood_behind_mm(part, hollow.at, hollow.into)
    if hollow.depth_mm > wood - _SLACK_MM:
        raise cannot_be_made(
            joint,
            option,
            code="deeper_than_part",
            value=f"a {hollow.what} {hollow.depth_mm:.1f} mm deep in {wood:.1f} mm of {part.name}",
            rule="must end inside the part",
            remedy="Make it less deep, or the part thicker.",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Mouth:
    """The opening of a mortise or hole on a face.

    Parameters
    ----------
    center, along
        Middle of the opening, and its long direction. World. [mm], [1]
    length_mm, width_mm
        Over the round ends, and across. A hole has both alike. [mm]
    """

    center: Vec
    along: Vec
    length_mm: float
    width_mm: float

    def past_edge_mm(self, face: Face) -> float:
        """How far the opening stands out over the edge of a face; negative when all of it is inside. [mm]"""
        radius = self.width_mm / 2.0
        reach = max(0.0, self.length_mm / 2.0 - radius)
        spots = [
            sub(self.center, scale(self.along, -sign * reach)) for sign in ((1.0, -1.0) if reach else (0.0,))
        ]
        worst = float("-inf")
        for i, corner in enumerate(face.corners):
            edge = sub(face.corners[(i + 1) % len(face.corners)], corner)
            out = cross(edge, face.normal)
            size = norm(out)
            if size > 1e-9:
                worst = max(worst, *(dot(sub(spot, corner), out) / size for spot in spots))
        return worst + radius


def check_mouth(
    joint: JointRequest, option: str, part: Part, *, label: str, mouth: Mouth, what: str = "mortise"
) -> None:
    """Refuse an opening that is not wholly on its face.

    Raises
    ------
    InputError
        ``wider_than_face``, with what stands out.
    """
    faces = [face for face in body_of(part).faces if face.label == label]
    past = min((mouth.past_edge_mm(face) for face in faces), default=0.0)
    if label != "side" and past > _SLACK_MM:
        size = f"{mouth.length_mm:.1f} × {mouth.width_mm:.1f} mm {what}"
        if mouth.length_mm == mouth.width_mm:
            size = f"{mouth.width_mm:.1f} mm {what}"
        raise cannot_be_made(
            joint,
            option,
            code="wider_than_face",
            value=f"a {size} that stands {past:.1f} mm over the edge of {part.name}",
            rule="must lie inside the face it is cut in",
            remedy="Make it smaller, or move it in from the edge.",
        )


def check_apart(
    joint: JointRequest, option: str, places: Sequence[float], *, size_mm: float, what: str = "mortises"
) -> None:
    """Refuse a row whose members run into each other.

    Parameters
    ----------
    places
        Along the row, in order. [mm]
    size_mm
        Of each along the row. [mm]

    Raises
    ------
    InputError
        ``row_too_close``, with the distance there is.
    """
    steps = [after - before for before, after in pairwise(places)]
    if steps and min(steps) < size_mm - _SLACK_MM:
        raise cannot_be_made(
            joint,
            option,
            code="row_too_close",
            value=f"{len(places)} {what} of {size_mm:.1f} mm, {min(steps):.1f} mm from middle to middle",
            rule="must leave wood between one and the next",
            remedy="Ask for fewer, make them smaller, or set the outer ones nearer the edges.",
        )
