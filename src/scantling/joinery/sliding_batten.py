"""Sliding batten: a batten across a panel, dovetailed into its face, that keeps it flat and lets it move."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import Hollow, cannot_be_made, check_depth
from scantling.joinery.meeting import crossing, grain_angle_deg, moved, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.travel import travel
from scantling.joinery.work import (
    Cut,
    Fit,
    Freedom,
    GlueFace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
    Profile,
)
from scantling.piece.convex import body_of, face_direction, named_face
from scantling.piece.files import Length, Number
from scantling.piece.geometry import Frame, Vec, dot, scale
from scantling.piece.model import Direction, JointRequest, Part

__all__ = ["SlidingBatten", "SlidingBattenOptions"]

_OVER_MM = 2.0
_FLUSH_MM = 0.1
_ACROSS_DEG = 60.0


class SlidingBattenOptions(JointOptions):
    """A batten (first, drawn standing in the panel by its depth) in a dovetailed channel across a panel."""

    kind: Literal["sliding_batten"]
    enters_at: Direction
    """Edge of the panel that the batten slides in from; the channel is open there."""
    dovetail: Number = Field(default=6, ge=4, le=12)
    """Its sides flare one in this many."""
    play: Length = Field(default=0.1, ge=0, le=1)
    """How much wider the channel is than the batten."""
    clearance: Length = Field(default=1, ge=0)
    """Room past a stopped end when the panel is narrowest."""
    glued: Length = Field(default=50, ge=0, le=100)
    """Length glued, in the middle of the panel; 0 for none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Channel:
    """The channel. World.

    Parameters
    ----------
    out
        Out of the panel's face.
    along
        Along the batten, toward the edge it enters from.
    beside
        Across the batten, in the panel's face.
    mouth
        Middle of the batten on the panel's face. [mm]
    deep_mm, wide_mm
        Of the batten in the panel. [mm]
    far_mm, open_mm
        From the mouth to the batten's far end, and to the panel's edge where it enters. [mm]
    stopped
        Whether the far end is inside the panel.
    """

    out: Vec
    along: Vec
    beside: Vec
    mouth: Vec
    deep_mm: float
    wide_mm: float
    far_mm: float
    open_mm: float
    stopped: bool


class SlidingBatten:
    """The sliding-batten family."""

    name = "sliding_batten"
    options_model = SlidingBattenOptions
    strength = staticmethod(cases.floating)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The channel, the batten's flared sides, glue in the middle, and room for a panel that shrinks."""
        o = joint.options
        assert isinstance(o, SlidingBattenOptions)
        batten, panel, channel = _channel(joint, context)
        across = panel.frame.local(moved(channel.mouth, channel.along, -channel.far_mm))[1]
        moves = travel(panel, across, context.moisture)
        room = moves.shrink_mm + o.clearance if channel.stopped else 0.0
        freedom = Freedom(
            part=panel.name,
            what="stopped end of the batten",
            at=moved(channel.mouth, channel.along, -channel.far_mm),
            from_fixed_mm=abs(across),
            shrink_travel_mm=moves.shrink_mm,
            swell_travel_mm=moves.swell_mm,
            shrink_room_mm=room,
            swell_room_mm=channel.far_mm,
            cut_to_mm=room,
        )
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=batten.name,
            second=panel.name,
            at=channel.mouth,
            leaves=channel.along,
            cuts=(_cut(panel, channel, o, room_mm=room), *_flanks(batten, channel, o)),
            marks=_marks(batten, panel, channel, o, room_mm=room),
            glue=(_glue(batten, panel, channel, o),) if o.glued else (),
            freedoms=(freedom,) if channel.stopped else (),
            dry=not o.glued,
            steps=(
                "Cut the channel first: most of it square, then both sides with the dovetail bit.",
                "Plane the batten's sides to it until it slides half way by hand; a clamp draws it home.",
                "Wax it. Glue or pin the middle alone: the panel moves past the rest of it.",
            ),
        )


def _channel(joint: JointRequest, context: JointContext) -> tuple[Part, Part, _Channel]:
    o = joint.options
    assert isinstance(o, SlidingBattenOptions)
    batten, panel, common = crossing(joint, context)
    faces = panel.frame.thickness
    low, high = common.extent(faces)
    body_low, body_high = body_of(panel).extent(faces)
    at_high, at_low = body_high - high < _FLUSH_MM, low - body_low < _FLUSH_MM
    along = batten.frame.grain
    toward = dot(o.enters_at.vector, along)
    square = max(abs(dot(axis, faces)) for axis in (batten.frame.width, batten.frame.thickness))
    value = ""
    if grain_angle_deg(batten, panel) < _ACROSS_DEG or square < 0.999:
        value = f"{batten.name} does not lie flat across {panel.name}"
    elif at_high is at_low:
        value = f"{batten.name} comes to {'both faces' if at_high else 'no face'} of {panel.name}"
    elif abs(toward) < 0.7:
        value = f"{o.enters_at.value} is no edge that {batten.name} runs to"
    if value:
        raise cannot_be_made(
            joint,
            "enters_at" if "edge" in value else "",
            code="batten_not_across",
            value=value,
            rule="must stand in one face of a panel, across its grain, and slide in from an edge",
            remedy="Draw the batten across, let into the face by its depth; name an edge along the grain.",
        )
    along = along if toward > 0.0 else scale(along, -1.0)
    beside = min((batten.frame.width, batten.frame.thickness), key=lambda axis: abs(dot(axis, faces)))
    out = faces if at_high else scale(faces, -1.0)
    start, _ = common.extent(along)
    edges = body_of(panel).extent(along)
    left, right = common.extent(beside)
    middle = dot(batten.middle, along)
    mouth = moved(batten.middle, out, common.extent(out)[1] - dot(batten.middle, out))
    channel = _Channel(
        out=out,
        along=along,
        beside=beside,
        mouth=mouth,
        deep_mm=high - low,
        wide_mm=right - left,
        far_mm=middle - start,
        open_mm=edges[1] - middle,
        stopped=start - edges[0] > _FLUSH_MM,
    )
    _check(joint, panel, channel)
    return batten, panel, channel


def _check(joint: JointRequest, panel: Part, channel: _Channel) -> None:
    o = joint.options
    assert isinstance(o, SlidingBattenOptions)
    neck = channel.wide_mm - 2.0 * channel.deep_mm / o.dovetail
    if neck < channel.wide_mm / 2.0:
        raise cannot_be_made(
            joint,
            "dovetail",
            code="neck_too_thin",
            value=f"{neck:.1f} mm left of {channel.wide_mm:.1f} mm at the face",
            rule="must leave the batten half its width at the face",
            remedy="Let it in less deep, or make the slope gentler.",
        )
    hollow = Hollow(at=channel.mouth, into=scale(channel.out, -1.0), depth_mm=channel.deep_mm, what="channel")
    check_depth(joint, "", panel, hollow=hollow)


def _along(
    part: Part, channel: _Channel, outline: tuple[tuple[float, float], ...], *, far_mm: float
) -> Profile:
    """An outline (across the batten, into the panel) carried along it, out past the edge it enters from."""
    frame = Frame(
        origin=moved(channel.mouth, channel.along, -far_mm),
        grain=channel.along,
        width=channel.beside,
        thickness=scale(channel.out, -1.0),
    )
    length = far_mm + channel.open_mm + _OVER_MM
    return Profile(frame=part.frame.frame_in(frame), outline=outline, length_mm=length)


def _cut(panel: Part, channel: _Channel, o: SlidingBattenOptions, *, room_mm: float) -> Cut:
    bottom = (channel.wide_mm + o.play) / 2.0
    mouth = bottom - (channel.deep_mm + _OVER_MM) / o.dovetail
    outline = ((-mouth, -_OVER_MM), (mouth, -_OVER_MM), (bottom, channel.deep_mm), (-bottom, channel.deep_mm))
    far = channel.far_mm + (room_mm if channel.stopped else _OVER_MM)
    return Cut(part=panel.name, tool=_along(panel, channel, outline, far_mm=far), what="housing")


def _flanks(batten: Part, channel: _Channel, o: SlidingBattenOptions) -> list[Cut]:
    """What is planed off both sides of the batten where it stands in the panel: nothing at the bottom."""
    half, deep = channel.wide_mm / 2.0, channel.deep_mm
    neck = half - deep / o.dovetail
    past = half + _OVER_MM
    cuts = []
    for sign in (1.0, -1.0):
        corners = (
            (neck, 0.0),
            (past, 0.0),
            (past, deep + _OVER_MM),
            (half + _OVER_MM / o.dovetail, deep + _OVER_MM),
        )
        outline = tuple((sign * side, into) for side, into in corners)
        tool = _along(batten, channel, outline, far_mm=channel.far_mm + _OVER_MM)
        cuts.append(Cut(part=batten.name, tool=tool, what="dovetail shoulder"))
    return cuts


def _glue(batten: Part, panel: Part, channel: _Channel, o: SlidingBattenOptions) -> GlueFace:
    """The bottom and both sides, over the length glued."""
    return GlueFace(
        parts=(batten.name, panel.name),
        area_mm2=o.glued * (channel.wide_mm + 2.0 * channel.deep_mm),
        grain_angle_deg=grain_angle_deg(batten, panel),
        end_grain_share=0.0,
        cross_span_mm=o.glued,
        length_mm=o.glued,
    )


def _marks(
    batten: Part, panel: Part, channel: _Channel, o: SlidingBattenOptions, *, room_mm: float
) -> tuple[Mark, ...]:
    low = -channel.far_mm - room_mm
    middle = moved(channel.mouth, channel.along, (low + channel.open_mm) / 2.0)
    wide = channel.wide_mm + o.play
    narrow = wide - 2.0 * channel.deep_mm / o.dovetail
    face = named_face(panel, face_direction(channel.out))
    spot = spot_on(panel, middle, face.label if face else "thickness+")
    housing = Mark(
        part=panel.name,
        kind=MarkKind.HOUSING,
        on_end=False,
        end=spot.end,
        face=face_direction(channel.out),
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=channel.open_mm - low,
        width_mm=wide,
        depth_mm=channel.deep_mm,
        fit=Fit.SLIDING,
        setup=f"dovetailed channel {wide:g} mm wide, {channel.deep_mm:g} mm deep, 1 in {o.dovetail:g}",
        angle_deg=90.0,
        note=f"{narrow:.1f} mm wide at the face; open at the {o.enters_at.value}"
        + (", stopped at the other end" if channel.stopped else " and the other end"),
    )
    under = named_face(batten, face_direction(scale(channel.out, -1.0)))
    lies = spot_on(batten, moved(batten.middle, channel.out, 0.0), under.label if under else "thickness-")
    tail = Mark(
        part=batten.name,
        kind=MarkKind.TAIL,
        on_end=False,
        end=lies.end,
        face=face_direction(scale(channel.out, -1.0)),
        reference_face=lies.reference_face,
        from_end_mm=batten.length_mm / 2.0,
        from_face_mm=lies.from_face_mm,
        length_mm=batten.length_mm,
        width_mm=channel.wide_mm,
        depth_mm=channel.deep_mm,
        fit=Fit.SLIDING,
        setup=f"both sides undercut 1 in {o.dovetail:g}, {channel.deep_mm:g} mm deep",
    )
    return housing, tail
