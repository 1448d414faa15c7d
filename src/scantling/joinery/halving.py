"""Halving: two parts cross in one plane, and each gives up its share of the thickness."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from scantling.errors import InputError
from scantling.joinery.meeting import crossing, grain_angle_deg
from scantling.joinery.notch import Seat, notch_mark
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.work import Box, ClampNeed, Cut, GlueFace, JointContext, JointWork, MarkKind
from scantling.piece.convex import Body, body_of
from scantling.piece.files import Length, Number
from scantling.piece.geometry import Frame, Vec, add, cross, dot, norm, scale, unit
from scantling.piece.model import JointRequest, Part

__all__ = [
    "Halving",
    "HalvingOptions",
    "common_middle",
    "crossing_way",
    "notch_seat",
    "slice_cut",
]

_OVER_MM = 3.0


class HalvingOptions(JointOptions):
    """Both parts are notched where they cross; the first keeps its upper (or outer) side whole."""

    kind: Literal["halving"]
    share: Number = Field(default=0.5, gt=0, le=1)
    """Part of the common thickness that the first loses."""
    clearance: Length = Field(default=0.1, ge=0, le=3)
    """Room on each side."""


class Halving:
    """The halving family."""

    name = "halving"
    options_model = HalvingOptions
    strength = staticmethod(cases.halving)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """A notch in each part, meeting at the halving line."""
        o = joint.options
        assert isinstance(o, HalvingOptions)
        _check_share(joint, o)
        first, second, common = crossing(joint, context)
        up = crossing_way(joint, first, second)
        low, high = common.extent(up)
        line = low + (high - low) * o.share
        _check_open(joint, first, second, (low, high), up)
        # The first loses its lower share, the second its upper.
        cuts = (
            slice_cut(first, second, up, heights_mm=(low - _OVER_MM, line), clearance=o.clearance),
            slice_cut(second, first, up, heights_mm=(line, high + _OVER_MM), clearance=o.clearance),
        )
        area = common.volume_mm3 / (high - low)
        center = common_middle(common)
        marks = tuple(
            notch_mark(
                part,
                notch_seat(part, other, center, outward=out, depth=depth),
                clearance_mm=o.clearance,
                kind=MarkKind.NOTCH,
            )
            for part, other, out, depth in (
                (first, second, scale(up, -1.0), line - low),
                (second, first, up, high - line),
            )
        )
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=center,
            leaves=up,
            cuts=cuts,
            marks=marks,
            glue=(_glue(first, second, area),),
            clamp=ClampNeed(direction=up, area_mm2=area),
            steps=(
                "Knife the width of each notch from the other part laid across it.",
                "Gauge the depth from the same face on both, so that the faces come flush.",
                "Saw the shoulders inside the line, then waste out and pare.",
            ),
        )


def _check_share(joint: JointRequest, o: HalvingOptions) -> None:
    if not 0.1 <= o.share <= 0.9:
        raise InputError(
            code="out_of_range",
            field=f"joints.{joint.like}.share",
            value=f"{o.share:g}",
            rule="must lie in 0.1 .. 0.9",
            remedy="Leave it out to halve both parts alike.",
        )


def crossing_way(joint: JointRequest, first: Part, second: Part) -> Vec:
    """Square to both grains, the side that is up; the first part keeps its wood on that side."""
    up = cross(first.frame.grain, second.frame.grain)
    if norm(up) < 0.3:
        raise InputError(
            code="parts_do_not_cross",
            field=f"joints.{joint.like}",
            value=f"{first.name} and {second.name}, nearly parallel",
            rule=f"must cross at more than 20 degrees for a {joint.family}",
            remedy="Use a face lamination for parts that run alongside.",
        )
    up = unit(up)
    return up if up[2] > 1e-9 or (abs(up[2]) <= 1e-9 and up[0] + up[1] > 0) else scale(up, -1.0)


def _glue(first: Part, second: Part, area_mm2: float) -> GlueFace:
    return GlueFace(
        parts=(first.name, second.name),
        area_mm2=area_mm2,
        grain_angle_deg=grain_angle_deg(first, second),
        end_grain_share=0.0,
        cross_span_mm=min(first.width_mm, second.width_mm),
        length_mm=max(first.width_mm, second.width_mm),
    )


def _check_open(joint: JointRequest, first: Part, second: Part, common: tuple[float, float], up: Vec) -> None:
    """Refuse two parts of which one would have to pass through a closed hole in the other."""
    under = common[0] - body_of(first).extent(up)[0]
    over = body_of(second).extent(up)[1] - common[1]
    for part, wood in ((first, under), (second, over)):
        if wood > 0.01:
            raise InputError(
                code="halving_closed",
                field=f"joints.{joint.like}",
                value=f"{wood:.1f} mm of {part.name} beyond the other part",
                rule="must be open on one side of each part",
                remedy="Bring the faces flush there, swap the two parts, or use a notch.",
            )


def common_middle(common: Body) -> Vec:
    """Mean of the corners of what two parts share. World. [mm]"""
    total: Vec = (0.0, 0.0, 0.0)
    for corner in common.corners:
        total = add(total, corner)
    return scale(total, 1.0 / len(common.corners))


def slice_cut(
    part: Part,
    other: Part,
    up: Vec,
    *,
    heights_mm: tuple[float, float],
    clearance: float,
    what: str = "halving",
) -> Cut:
    """The slice of ``other``'s path between two heights, taken out of ``part``.

    Parameters
    ----------
    part, other
        The part cut, and the one that passes it.
    up
        Square to both grains. World. [1]
    heights_mm
        From where to where along it. [mm]
    clearance
        Room on each side of ``other``. [mm]
    what
        Trade word for the cut.
    """
    low, high = heights_mm
    grain = other.frame.grain
    side = cross(up, grain)
    sideways = abs(dot(other.frame.width, side))
    width = other.width_mm if sideways > 0.7 else other.thickness_mm
    reach = other.length_mm + 4.0 * max(part.width_mm, part.thickness_mm)
    middle = other.middle
    origin = add(add(middle, scale(grain, -reach / 2.0)), scale(up, (low + high) / 2.0 - dot(middle, up)))
    frame = Frame(origin=origin, grain=grain, width=side, thickness=up)
    tool = Box(
        frame=part.frame.frame_in(frame),
        length_mm=reach,
        width_mm=width + 2.0 * clearance,
        thickness_mm=high - low,
    )
    return Cut(part=part.name, tool=tool, what=what)


def notch_seat(part: Part, other: Part, center: Vec, *, outward: Vec, depth: float) -> Seat:
    """Where one part is notched for the other, on the face that looks ``outward``."""
    label, half = "width", part.width_mm / 2.0
    axis = part.frame.width
    if abs(dot(part.frame.thickness, outward)) > abs(dot(axis, outward)):
        label, half, axis = "thickness", part.thickness_mm / 2.0, part.frame.thickness
    sign = 1.0 if dot(axis, outward) > 0 else -1.0
    local = part.frame.local(center)
    on_face = (local[0], sign * half, local[2]) if label == "width" else (local[0], local[1], sign * half)
    across = other.width_mm if abs(dot(other.frame.width, part.frame.grain)) > 0.5 else other.thickness_mm
    turn = max(
        abs(dot(other.frame.width, part.frame.grain)), abs(dot(other.frame.thickness, part.frame.grain))
    )
    return Seat(
        label=f"{label}{'+' if sign > 0 else '-'}",
        center=part.frame.point(on_face),
        outward=scale(axis, sign),
        width_mm=across / turn,
        depth_mm=depth,
        angle_deg=90.0 - grain_angle_deg(part, other),
    )
