"""Rabbet: an edge or end of one part let into a step along the edge of another; a back, a box's corner."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.joinery.fastening import (
    CLEAR_MM,
    GIVE_MM,
    Driven,
    check_driven,
    driven_cuts,
    driven_mark,
    pilot_share,
    pull_n,
)
from scantling.joinery.fitting import cannot_be_made, wood_behind_mm
from scantling.joinery.meeting import crossing, grain_angle_deg, moved, slot_frame, spot_on, spread
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import cases
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import (
    Box,
    ClampNeed,
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    Freedom,
    GlueFace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.convex import Body, body_of, face_direction, named_face
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Vec, cross, dot, scale
from scantling.piece.model import JointRequest, Part, PartKind

__all__ = ["RABBET", "Fastened", "Rabbet", "RabbetOptions"]

RABBET = "rabbet"
"""What its step is called among the cuts of a part."""

_OVER_MM = 2.0
_EDGE_MM = 0.1
"""Wood that ends nearer than this to a face ends in it. [mm]"""
_LEAST_LEFT_MM = 3.0
"""Wood left beside a rabbet, at the least (common practice). [mm]"""


class Fastened(StrEnum):
    """What holds the part in its rabbet."""

    GLUED = "glued"
    NAILED = "nailed"
    SCREWED = "screwed"
    LOOSE = "loose"


class RabbetOptions(JointOptions):
    """An edge or end of the first part, drawn standing in the second, in a step along the second's edge."""

    kind: Literal["rabbet"]
    fastened: Fastened = Fastened.GLUED
    """What holds it: glued, nailed, screwed, or loose (held by other joints)."""
    fastener: tuple[PositiveLength, PositiveLength] = (3.0, 30.0)
    """Diameter and length of the nails or screws."""
    count: Count | None = Field(default=None, ge=1, le=60)
    """Nails or screws; left out, by the spacing."""
    spacing: Length = Field(default=150, gt=0)
    """Greatest distance between them."""
    inset: Length = Field(default=25, ge=0)
    """From the ends of the rabbet to the outer ones."""
    clearance: Length = Field(default=0.5, ge=0)
    """Room beside an edge that moves, when it is widest; a glued edge or an end fits without."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Step:
    """The step. World.

    Parameters
    ----------
    out
        The way the first part lifts out, along its thickness.
    into
        From the first part to the step's shoulder.
    along
        The way the rabbet runs.
    corner
        Middle of the arris of the first part that stands in the step's inner corner. [mm]
    deep_mm, wide_mm, length_mm
        Along ``out``, ``into`` and ``along``. [mm]
    over_mm
        What the cutter runs out past the two ends of the rabbet. [mm]
    """

    out: Vec
    into: Vec
    along: Vec
    corner: Vec
    deep_mm: float
    wide_mm: float
    length_mm: float
    over_mm: tuple[float, float]


class Rabbet:
    """The rabbet family."""

    name = "rabbet"
    options_model = RabbetOptions
    strength = staticmethod(cases.floating)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The step, room for an edge that moves, and glue, nails or screws."""
        o = joint.options
        assert isinstance(o, RabbetOptions)
        first, second, common = crossing(joint, context)
        step = _step(joint, first, second, common)
        glued = o.fastened is Fastened.GLUED
        moves = _moves(first, step, context) if not glued else None
        room = 0.0 if moves is None else moves.swell_mm + o.clearance
        left = wood_behind_mm(second, moved(step.corner, step.into, room), step.into)
        if left < _LEAST_LEFT_MM:
            raise cannot_be_made(
                joint,
                "",
                code="nothing_left",
                value=f"{max(0.0, left):.1f} mm of {second.name} beside {step.wide_mm + room:.1f} mm of it",
                rule=f"must leave {_LEAST_LEFT_MM:g} mm beside the rabbet",
                remedy="Let the first part in less far.",
            )
        driven = _driven(joint, first, second, step=step) if o.fastened in _DRIVEN else ()
        nail = o.fastened is Fastened.NAILED
        pilot = pilot_share(second, nail=nail) * o.fastener[0]
        clear = pilot if nail else o.fastener[0] + CLEAR_MM
        cuts = [_rabbet(second, step, room_mm=room)]
        for one in driven:
            cuts += driven_cuts(first, second, one, clear_mm=clear, pilot_mm=pilot)
        pulls = [pull_n(second, one) for one in driven] if not nail else [None]
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=step.corner,
            leaves=step.out,
            cuts=tuple(cuts),
            marks=(
                _mark(second, step, room_mm=room),
                *(_hole_mark(first, one, o, clear_mm=clear) for one in driven),
            ),
            connectors=_connectors(driven, o, pilot_mm=pilot),
            glue=(_glue(first, second, step),) if glued else (),
            freedoms=_freedoms(first, step, moves, driven=driven, room_mm=room),
            clamp=ClampNeed(direction=scale(step.out, -1.0), area_mm2=step.wide_mm * step.length_mm)
            if glued
            else None,
            pull_n=None if None in pulls or not pulls else sum(p for p in pulls if p is not None),
            dry=not glued,
            steps=_steps(o),
        )


_DRIVEN = (Fastened.NAILED, Fastened.SCREWED)


def _step(joint: JointRequest, first: Part, second: Part, common: Body) -> _Step:
    """Where the step lies: open along the first part's thickness, its shoulder the way the part reaches."""
    frame = first.frame
    out = _open_side(joint, second, common, frame.thickness)
    spans = {way: common.extent(way) for way in (frame.grain, frame.width)}
    into = min(spans, key=lambda way: spans[way][1] - spans[way][0])
    low, high = spans[into]
    if (low + high) / 2.0 < dot(first.middle, into):
        into, low, high = scale(into, -1.0), -high, -low
    body_low, body_high = body_of(second).extent(into)
    if low > body_low + _EDGE_MM or body_high - high < _EDGE_MM:
        raise _not_at_edge(joint, first, second)
    along = cross(into, out)
    a_low, a_high = common.extent(along)
    second_low, second_high = body_of(second).extent(along)
    over = tuple(
        _OVER_MM if abs(a - b) < _EDGE_MM else 0.0
        for a, b in zip((a_low, a_high), (second_low, second_high), strict=True)
    )
    bottom, top = common.extent(out)
    corner = moved(first.middle, along, (a_low + a_high) / 2.0 - dot(first.middle, along))
    corner = moved(corner, into, high - dot(corner, into))
    corner = moved(corner, out, bottom - dot(corner, out))
    return _Step(
        out=out,
        into=into,
        along=along,
        corner=corner,
        deep_mm=top - bottom,
        wide_mm=high - low,
        length_mm=a_high - a_low,
        over_mm=(over[0], over[1]),
    )


def _open_side(joint: JointRequest, second: Part, common: Body, way: Vec) -> Vec:
    """The side on which the first part's thickness comes to the surface of the second, and only that one."""
    low, high = common.extent(way)
    body_low, body_high = body_of(second).extent(way)
    at_low, at_high = low - body_low < _EDGE_MM, body_high - high < _EDGE_MM
    if at_low is at_high:
        raise _not_at_edge(joint, None, second)
    return way if at_high else scale(way, -1.0)


def _not_at_edge(joint: JointRequest, first: Part | None, second: Part) -> Exception:
    named = first.name if first is not None else str(joint.first)
    return cannot_be_made(
        joint,
        "",
        code="rabbet_not_at_edge",
        value=f"{named} in {second.name}",
        rule="must stand in a corner of the second part: open on its own face and toward itself, no farther",
        remedy="Bring a face of the first flush with one of the second, and let its edge in part of the way.",
    )


def _moves(first: Part, step: _Step, context: JointContext) -> Travel | None:
    """Travel of the edge in the step, the part held at its middle; None for an end or a sheet."""
    if first.kind is PartKind.SHEET or abs(dot(first.frame.width, step.into)) < 0.7:
        return None
    toward = 1.0 if dot(first.frame.width, step.into) > 0.0 else -1.0
    return travel(first, toward * first.width_mm / 2.0, context.moisture)


def _rabbet(second: Part, step: _Step, *, room_mm: float) -> Cut:
    """The step, past the surface where it is open."""
    low, high = -step.length_mm / 2.0 - step.over_mm[0], step.length_mm / 2.0 + step.over_mm[1]
    wide = step.wide_mm + room_mm + _OVER_MM
    origin = moved(step.corner, step.along, (low + high) / 2.0)
    origin = moved(origin, step.into, room_mm - wide / 2.0)
    tool = Box(
        frame=second.frame.frame_in(slot_frame(origin, into=step.out, along=step.along)),
        length_mm=step.deep_mm + _OVER_MM,
        width_mm=high - low,
        thickness_mm=wide,
    )
    return Cut(part=second.name, tool=tool, what=RABBET)


def _driven(joint: JointRequest, first: Part, second: Part, *, step: _Step) -> tuple[Driven, ...]:
    """Nails or screws along the middle of the step."""
    o = joint.options
    assert isinstance(o, RabbetOptions)
    inset = min(o.inset, step.length_mm / 4.0)
    reach = step.length_mm - 2.0 * inset
    count = max(2, 1 + int(-(-(reach - 1e-9) // o.spacing))) if o.count is None else int(o.count)
    into = scale(step.out, -1.0)
    middle = moved(step.corner, step.into, -step.wide_mm / 2.0)
    found = []
    for place in spread(-step.length_mm / 2.0, step.length_mm / 2.0, count=count, inset_mm=inset):
        at = moved(middle, step.along, place)
        one = Driven(
            at=at,
            into=into,
            along=step.along,
            size_mm=o.fastener,
            through_mm=wood_behind_mm(first, at, step.out),
        )
        what = "nail" if o.fastened is Fastened.NAILED else "screw"
        check_driven(joint, "fastener", second, one, what=what)
        found.append(one)
    return tuple(found)


def _connectors(driven: tuple[Driven, ...], o: RabbetOptions, *, pilot_mm: float) -> tuple[Connector, ...]:
    if not driven:
        return ()
    nail = o.fastened is Fastened.NAILED
    return (
        Connector(
            kind=ConnectorKind.NAIL if nail else ConnectorKind.SCREW,
            count=len(driven),
            size_mm=o.fastener,
            drill_mm=(pilot_mm, driven[0].bite_mm),
            note="heads set below the surface" if nail else "countersunk",
            frames=tuple(one.frame for one in driven),
        ),
    )


def _freedoms(
    first: Part, step: _Step, moves: Travel | None, *, driven: tuple[Driven, ...], room_mm: float
) -> tuple[Freedom, ...]:
    """The edge that moves in its step, and each nail or screw it would carry along."""
    if moves is None:
        return ()
    base = Freedom(
        part=first.name,
        what=f"{face_direction(step.into).value} edge in its rabbet",
        at=step.corner,
        from_fixed_mm=first.width_mm / 2.0,
        shrink_travel_mm=moves.shrink_mm,
        swell_travel_mm=moves.swell_mm,
        shrink_room_mm=GIVE_MM + CLEAR_MM / 2.0 if driven else step.wide_mm,
        swell_room_mm=min(room_mm, GIVE_MM + CLEAR_MM / 2.0) if driven else room_mm,
    )
    return (base,)


def _glue(first: Part, second: Part, step: _Step) -> GlueFace:
    """The floor of the step and its shoulder; end grain where either part's grain comes out of them."""
    area, ended = 0.0, 0.0
    for normal, size in ((step.out, step.wide_mm), (step.into, step.deep_mm)):
        face = size * step.length_mm
        area += face
        ends = max(abs(dot(part.frame.grain, normal)) for part in (first, second))
        ended += face if ends > 0.7 else 0.0
    one, other = (abs(dot(part.frame.width, step.along)) > 0.7 for part in (first, second))
    sheet = PartKind.SHEET in (first.kind, second.kind)
    return GlueFace(
        parts=(first.name, second.name),
        area_mm2=area,
        grain_angle_deg=grain_angle_deg(first, second),
        end_grain_share=0.0 if sheet else ended / area,
        cross_span_mm=step.length_mm if one is not other and not sheet else 0.0,
        length_mm=step.length_mm,
    )


def _mark(second: Part, step: _Step, *, room_mm: float) -> Mark:
    at = moved(moved(step.corner, step.out, step.deep_mm), step.into, (room_mm - step.wide_mm) / 2.0)
    face = named_face(second, face_direction(step.out))
    spot = spot_on(second, at, face.label if face else "thickness+")
    wide = step.wide_mm + room_mm
    return Mark(
        part=second.name,
        kind=MarkKind.RABBET,
        on_end=spot.on_end,
        end=spot.end,
        face=face_direction(step.out),
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=step.length_mm,
        width_mm=wide,
        depth_mm=step.deep_mm,
        fit=Fit.SLIDING if room_mm else Fit.TIGHT,
        setup=f"{wide:.1f} mm rabbet, {step.deep_mm:.1f} mm deep",
        angle_deg=0.0 if abs(dot(step.along, second.frame.grain)) > 0.7 else 90.0,
        note="end to end" if all(step.over_mm) else "stopped where the other part ends",
    )


def _hole_mark(first: Part, one: Driven, o: RabbetOptions, *, clear_mm: float) -> Mark:
    what = "nail holes" if o.fastened is Fastened.NAILED else "screw holes, countersunk"
    return driven_mark(first, one, clear_mm=clear_mm, setup=f"{clear_mm:.1f} mm {what}")


def _steps(o: RabbetOptions) -> tuple[str, ...]:
    steps = ["Set the rabbet's depth to the part that lies in it as planed; its face comes flush."]
    match o.fastened:
        case Fastened.GLUED:
            steps.append("Glue floor and shoulder; clamp onto the floor first, then up to the shoulder.")
        case Fastened.LOOSE:
            steps.append("Leave it dry: other joints hold it.")
        case _:
            steps.append("Bore for every one before it is driven; square the whole with the part laid in.")
    return tuple(steps)
