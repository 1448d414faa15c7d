"""Housing (dado): the end of one part let into a channel across the other, square or dovetailed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import Hollow, cannot_be_made, check_depth, end_of
from scantling.joinery.meeting import (
    Meeting,
    across,
    grain_angle_deg,
    meet,
    moved,
    slope_deg,
    slot_frame,
    spot_on,
)
from scantling.joinery.options import JointOptions
from scantling.joinery.proportions import filled, third_deep_mm
from scantling.joinery.strength import cases
from scantling.joinery.work import (
    Box,
    ClampNeed,
    Cut,
    Extension,
    Fit,
    GlueFace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
    Profile,
)
from scantling.piece.convex import body_of, face_direction
from scantling.piece.files import Length, Number
from scantling.piece.geometry import Frame, Vec, cross, dot, scale
from scantling.piece.model import Direction, End, JointRequest, Part, PartKind

__all__ = ["Housing", "HousingOptions"]

_OVER_MM = 2.0
GLUED_MM = 50.0
"""Of a sliding dovetail so much is glued, at its closed end: more jams it (common practice). [mm]"""
_EDGE_MM = 0.1
"""A housing that ends nearer than this to the edge of its face runs out through it. [mm]"""


class HousingOptions(JointOptions):
    """The end of the first part is let into the face of the second."""

    kind: Literal["housing"]
    depth: Length = Field(default=0, gt=0)
    """Depth of the housing; left out, a third of the part it is cut in."""
    stopped: Length = Field(default=0, ge=0)
    """How far it stops short of the stopped edge; 0 runs it through."""
    stopped_at: Direction = Direction.FRONT
    """The edge it stops short of; the first part is notched there to pass it."""
    stopped_opposite: Length = Field(default=0, ge=0)
    """How far it stops short of the opposite edge as well, so that neither edge shows it."""
    clearance: Length = Field(default=0.1, ge=0, le=2)
    """Room over the thickness of the part let in, in all."""
    dovetail: Number | None = Field(default=None, ge=4, le=12)
    """Its sides flare one in this many (a sliding dovetail); left out, they are square."""
    glued: bool = True
    """Whether it is glued."""


class Housing:
    """The housing family."""

    name = "housing"
    options_model = HousingOptions
    strength = staticmethod(cases.housed)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The channel, the longer end that fills it, glue and squeeze."""
        meeting = meet(joint, context)
        joint = filled(joint, depth=third_deep_mm(meeting.second, inch=joint.inch))
        o = joint.options
        assert isinstance(o, HousingOptions)
        first, second, normal = meeting.first, meeting.second, meeting.contact.normal
        rule = "must let an end of the first part into the second"
        end = end_of(joint, meeting.contact.first_face, code="housing_not_on_end", rule=rule)
        hollow = Hollow(at=meeting.contact.center, into=normal, depth_mm=o.depth, what="housing")
        check_depth(joint, "depth", second, hollow=hollow)
        channel = _channel(joint, meeting, o)
        cuts = [_housed(meeting, channel, o)]
        if o.dovetail is not None:
            cuts += _undercut(joint, meeting, channel, o)
        stop = o.stopped_at.vector
        for toward, deep_mm in ((stop, o.stopped), (scale(stop, -1.0), o.stopped_opposite)):
            if deep_mm > 0.0:
                cuts.append(_shoulder(meeting, o, toward=toward, stopped_mm=deep_mm))
        turned = grain_angle_deg(first, second)
        moves_alike = abs(dot(first.frame.width, second.frame.width)) > 0.9 and turned > 60.0
        sheet = PartKind.SHEET in (first.kind, second.kind)
        glued = channel.filled_mm if o.dovetail is None else min(channel.filled_mm, GLUED_MM)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=meeting.contact.center,
            leaves=scale(normal, -1.0) if o.dovetail is None else _open_end(channel, o),
            cuts=tuple(cuts),
            extensions=(Extension(part=first.name, end=end, length_mm=o.depth),),
            marks=(_mark(meeting, o, channel), *_tongue_marks(meeting, o, channel, end=end)),
            glue=(
                GlueFace(
                    parts=(first.name, second.name),
                    area_mm2=glued * (channel.width_mm + 2.0 * o.depth),
                    grain_angle_deg=turned,
                    end_grain_share=0.0 if sheet else 0.5,
                    cross_span_mm=0.0 if moves_alike or sheet or turned < 30.0 else _span(first, glued, o),
                    length_mm=_span(first, glued, o),
                ),
            )
            if o.glued
            else (),
            clamp=ClampNeed(
                direction=normal,
                area_mm2=meeting.contact.area_mm2,
                slope_deg=slope_deg(first, normal),
            )
            if o.glued and o.dovetail is None
            else None,
            dry=not o.glued,
            steps=_steps(o, glued_mm=glued),
        )


def _span(first: Part, glued_mm: float, o: HousingOptions) -> float:
    """How much of the part's width is held by the glue. [mm]"""
    return first.width_mm if o.dovetail is None else glued_mm


def _way(meeting: Meeting) -> Vec:
    """Direction in which the housing runs: along the first part's width, in the face."""
    return across(meeting.first.frame.width, meeting.contact.normal)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Channel:
    """The housing on the face it is cut in, without what the cutter runs out by.

    Parameters
    ----------
    along
        Its long direction. World.
    center
        Middle of its mouth. World. [mm]
    length_mm, filled_mm
        Its length, and how much of that the first part fills. [mm]
    over_low_mm, over_high_mm
        Run-out past its ends, where they reach the edge of the face. [mm]
    """

    along: Vec
    center: Vec
    length_mm: float
    filled_mm: float
    width_mm: float
    over_low_mm: float
    over_high_mm: float

    @property
    def long_mm(self) -> float:
        """Length of the cutter's path, run-out included. [mm]"""
        return self.length_mm + self.over_low_mm + self.over_high_mm


def _channel(joint: JointRequest, meeting: Meeting, o: HousingOptions) -> _Channel:
    contact, along = meeting.contact, _way(meeting)
    low, high = contact.extent(along)
    edges = body_of(meeting.second).extent(along)
    over = [_OVER_MM if abs(a - b) < _EDGE_MM else 0.0 for a, b in zip((low, high), edges, strict=True)]
    _check_stops(joint, o, long_mm=high - low)
    at_high = dot(o.stopped_at.vector, along) > 0.0
    stops = (o.stopped_opposite, o.stopped) if at_high else (o.stopped, o.stopped_opposite)
    low, high = low + stops[0], high - stops[1]
    over = [0.0 if stop > 0.0 else past for stop, past in zip(stops, over, strict=True)]
    filled = high - low
    if o.dovetail is not None:
        (low, high), over = _run_out((low, high), edges, over, o=o, along=along)
    side = cross(contact.normal, along)
    s_low, s_high = contact.extent(side)
    center = moved(contact.center, along, (low + high) / 2.0 - dot(contact.center, along))
    center = moved(center, side, (s_low + s_high) / 2.0 - dot(center, side))
    return _Channel(
        along=along,
        center=center,
        length_mm=high - low,
        filled_mm=filled,
        width_mm=s_high - s_low,
        over_low_mm=over[0],
        over_high_mm=over[1],
    )


def _check_stops(joint: JointRequest, o: HousingOptions, *, long_mm: float) -> None:
    """Refuse stops that leave nothing of the housing, and a sliding dovetail shut at both edges."""
    stops = o.stopped + o.stopped_opposite
    if stops >= long_mm - 1.0:
        raise cannot_be_made(
            joint,
            "stopped",
            code="nothing_left",
            value=f"{stops:.1f} mm of {long_mm:.1f} mm",
            rule="must leave some of the housing",
            remedy="Stop it shorter.",
        )
    if o.dovetail is not None and o.stopped > 0.0 and o.stopped_opposite > 0.0:
        raise cannot_be_made(
            joint,
            "stopped_opposite",
            code="dovetail_shut",
            value=f"{o.stopped:.1f} mm and {o.stopped_opposite:.1f} mm",
            rule="must leave a sliding dovetail open at one edge",
            remedy="Stop it at one edge only; it slides in from the other.",
        )


def _run_out(
    ends: tuple[float, float],
    edges: tuple[float, float],
    over: list[float],
    *,
    o: HousingOptions,
    along: Vec,
) -> tuple[tuple[float, float], list[float]]:
    """A sliding dovetail carried on to the edge it is slid in from: shut at both ends nothing goes in.

    Away from the stop; of one that stops nowhere, where it runs out, or is nearest to the edge.
    """
    gaps = (ends[0] - edges[0], edges[1] - ends[1])
    stop = o.stopped - o.stopped_opposite
    if stop != 0.0:
        at_high = stop * dot(o.stopped_at.vector, along) < 0.0
    elif any(over):
        return ends, over
    else:
        at_high = gaps[1] < gaps[0]
    if at_high:
        return (ends[0], edges[1]), [over[0], _OVER_MM]
    return (edges[0], ends[1]), [_OVER_MM, over[1]]


def _housed(meeting: Meeting, channel: _Channel, o: HousingOptions) -> Cut:
    """The housing as it is cut, run out where it reaches an edge."""
    if o.dovetail is not None:
        return _flared(meeting, channel, o)
    second, normal = meeting.second, meeting.contact.normal
    shifted = moved(channel.center, channel.along, (channel.over_high_mm - channel.over_low_mm) / 2.0)
    frame = slot_frame(moved(shifted, normal, -_OVER_MM), into=normal, along=channel.along)
    tool = Box(
        frame=second.frame.frame_in(frame),
        length_mm=o.depth + _OVER_MM,
        width_mm=channel.long_mm,
        thickness_mm=channel.width_mm + o.clearance,
    )
    return Cut(part=second.name, tool=tool, what="housing")


def _flared(meeting: Meeting, channel: _Channel, o: HousingOptions) -> Cut:
    """The housing of a sliding dovetail: narrow at its mouth, as wide as the part at its bottom."""
    assert o.dovetail is not None
    second = meeting.second
    bottom = (channel.width_mm + o.clearance) / 2.0
    mouth = bottom - (o.depth + _OVER_MM) / o.dovetail
    outline = ((-mouth, -_OVER_MM), (mouth, -_OVER_MM), (bottom, o.depth), (-bottom, o.depth))
    begin = -channel.length_mm / 2.0 - channel.over_low_mm
    return _along(
        second, meeting, channel, outline=outline, ends=(begin, channel.long_mm + begin), what="housing"
    )


def _undercut(joint: JointRequest, meeting: Meeting, channel: _Channel, o: HousingOptions) -> list[Cut]:
    """What is planed off both faces of the part let in: most at the shoulder, nothing at its end."""
    assert o.dovetail is not None
    first, half = meeting.first, channel.width_mm / 2.0
    neck = half - o.depth / o.dovetail
    if neck < half / 2.0:
        raise cannot_be_made(
            joint,
            "dovetail",
            code="neck_too_thin",
            value=f"{2.0 * neck:.1f} mm left of {2.0 * half:.1f} mm at the shoulder",
            rule="must leave the part half its thickness at the shoulder",
            remedy="Make the housing less deep, or the slope gentler.",
        )
    deep = o.depth + _OVER_MM
    reach = first.width_mm + _OVER_MM
    cuts = []
    for sign in (1.0, -1.0):
        corners = (
            (neck, 0.0),
            (half + _OVER_MM, 0.0),
            (half + _OVER_MM, deep),
            (half + _OVER_MM / o.dovetail, deep),
        )
        outline = tuple((sign * side, into) for side, into in corners)
        cuts.append(
            _along(first, meeting, channel, outline=outline, ends=(-reach, reach), what="dovetail shoulder")
        )
    return cuts


def _along(
    part: Part,
    meeting: Meeting,
    channel: _Channel,
    *,
    outline: tuple[tuple[float, float], ...],
    ends: tuple[float, float],
    what: str,
) -> Cut:
    """A profile of (across the housing, into the second part) carried along the housing."""
    frame = Frame(
        origin=moved(channel.center, channel.along, ends[0]),
        grain=channel.along,
        width=cross(meeting.contact.normal, channel.along),
        thickness=meeting.contact.normal,
    )
    tool = Profile(frame=part.frame.frame_in(frame), outline=outline, length_mm=ends[1] - ends[0])
    return Cut(part=part.name, tool=tool, what=what)


def _open_end(channel: _Channel, o: HousingOptions) -> Vec:
    """The way a sliding dovetail comes out: where it runs out at one edge only there, else off the stop."""
    runs_out = (channel.over_low_mm > 0.0, channel.over_high_mm > 0.0)
    if runs_out[0] is not runs_out[1]:
        return channel.along if runs_out[1] else scale(channel.along, -1.0)
    toward = (dot(o.stopped_at.vector, channel.along) > 0.0) is (o.stopped >= o.stopped_opposite)
    return scale(channel.along, -1.0) if toward else channel.along


def _steps(o: HousingOptions, *, glued_mm: float) -> tuple[str, ...]:
    if o.dovetail is None:
        return (
            "Fit the width of the housing to the part as it was planed, not to the drawing.",
            "Knife both sides; saw or rout to depth; pare the bottom level.",
        )
    words = (
        "Cut the housing first: most of it square, then both sides with the dovetail bit or a guide block.",
        "Undercut the faces of the part let in, a shaving at a time, until it slides half way by hand.",
    )
    if not o.glued:
        return (*words, "No glue: its sides hold it, and it comes out the way it went in.")
    return (
        *words,
        f"Glue the last {glued_mm:.0f} mm it slides into, no more: swollen by glue it stops half way.",
        "It draws itself shut: tap it home against a block; it wants no clamp across.",
    )


def _shoulder(meeting: Meeting, o: HousingOptions, *, toward: Vec, stopped_mm: float) -> Cut:
    """The corner taken off the first part so that it passes the stop on that side."""
    contact, along, first = meeting.contact, _way(meeting), meeting.first
    toward = along if dot(toward, along) > 0 else scale(along, -1.0)
    _, edge = contact.extent(toward)
    center = moved(
        contact.center, toward, edge - stopped_mm / 2.0 + _OVER_MM / 2.0 - dot(contact.center, toward)
    )
    frame = slot_frame(center, into=contact.normal, along=along)
    tool = Box(
        frame=first.frame.frame_in(frame),
        length_mm=o.depth + _OVER_MM,
        width_mm=stopped_mm + _OVER_MM,
        thickness_mm=first.thickness_mm + 2.0 * _OVER_MM,
    )
    return Cut(part=first.name, tool=tool, what="notch for the stop")


def _mark(meeting: Meeting, o: HousingOptions, channel: _Channel) -> Mark:
    second = meeting.second
    spot = spot_on(second, channel.center, meeting.contact.second_face)
    return Mark(
        part=second.name,
        kind=MarkKind.HOUSING,
        **spot.measured,
        length_mm=channel.length_mm,
        width_mm=channel.width_mm + o.clearance,
        depth_mm=o.depth,
        fit=Fit.TIGHT,
        setup=f"housing {channel.width_mm + o.clearance:g} mm wide, {o.depth:g} mm deep{_flare(o)}",
        angle_deg=0.0 if abs(dot(channel.along, second.frame.grain)) > 0.7 else 90.0,
        note=_note(o),
    )


def _tongue_marks(meeting: Meeting, o: HousingOptions, channel: _Channel, *, end: End) -> list[Mark]:
    """What is cut on the end let in: shoulders at its stops, its flare; nothing where it goes in whole."""
    stops = _stops(o)
    if not stops and o.dovetail is None:
        return []
    first, normal = meeting.first, meeting.contact.normal
    middle = moved(meeting.contact.center, channel.along, _filled_middle_mm(meeting, o, channel))
    spot = spot_on(first, moved(middle, normal, o.depth), end.value)
    words = [f"shoulders {' and '.join(stops)}"] if stops else []
    if o.dovetail is not None:
        neck = channel.width_mm - 2.0 * o.depth / o.dovetail
        words.append(f"sliding dovetail 1 in {o.dovetail:g}, {neck:.1f} mm thick at the shoulder")
    return [
        Mark(
            part=first.name,
            kind=MarkKind.TONGUE,
            **spot.measured,
            length_mm=channel.filled_mm,
            width_mm=channel.width_mm,
            depth_mm=o.depth,
            fit=Fit.TIGHT,
            setup=f"ends let in, {o.depth:g} mm long{_flare(o)}",
            note="; ".join(words),
        )
    ]


def _flare(o: HousingOptions) -> str:
    """Said of a set-up whose sides are not square."""
    return f", flared 1 in {o.dovetail:g}" if o.dovetail is not None else ""


def _filled_middle_mm(meeting: Meeting, o: HousingOptions, channel: _Channel) -> float:
    """Middle of what is let in, along the housing from the middle of the contact. [mm]"""
    at_high = dot(o.stopped_at.vector, channel.along) > 0.0
    shift = (o.stopped_opposite - o.stopped) / 2.0
    low, high = meeting.contact.extent(channel.along)
    center = (low + high) / 2.0 - dot(meeting.contact.center, channel.along)
    return center + (shift if at_high else -shift)


def _stops(o: HousingOptions) -> list[str]:
    """How far it stops short of each edge, in words."""
    behind = face_direction(scale(o.stopped_at.vector, -1.0)).value
    pairs = ((o.stopped, o.stopped_at.value), (o.stopped_opposite, behind))
    return [f"{mm:g} mm from the {edge}" for mm, edge in pairs if mm]


def _note(o: HousingOptions) -> str:
    stops = _stops(o)
    words = [f"stopped {' and '.join(stops)}" if stops else "through"]
    if o.dovetail is not None:
        mouth = f"{2.0 * o.depth / o.dovetail:.1f} mm narrower at the mouth"
        words.append(f"sliding dovetail 1 in {o.dovetail:g}, {mouth}")
    return "; ".join(words)
