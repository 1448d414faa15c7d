"""Tusk tenon: a tenon through a post, held by a loose wedge through what stands out; comes apart."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from pydantic import Field

from scantling.joinery.bending import bent_nmm, section_mm3, turning_way
from scantling.joinery.fitting import Mouth, cannot_be_made, check_mouth, end_of, wood_behind_mm
from scantling.joinery.meeting import Meeting, meet, moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import tenons
from scantling.joinery.tenon_layout import TenonWays, third_mm
from scantling.joinery.work import (
    Box,
    Connector,
    ConnectorKind,
    Cut,
    Extension,
    Fit,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
    Profile,
)
from scantling.piece.files import Length, Number
from scantling.piece.geometry import Frame, Vec, cross, dot, scale
from scantling.piece.model import Direction, End, JointRequest, Part

__all__ = ["WEDGE_MORTISE", "TuskTenon", "TuskTenonOptions", "tail_mm"]

WEDGE_MORTISE = "wedge mortise"
"""What the hole for the wedge is called among the cuts of a part."""
TAIL_MM, TAIL_SHARE = 40.0, 2.0
"""Wood beyond the wedge where none is asked for: 40 mm, or twice the tenon's thickness (common practice)."""
_WIDEST_SHARE = 0.5
"""Widest wedge over what it goes through; beside it the tenon is left as strong (common practice). [1]"""
_OVER_MM = 2.0
_PAST_MM = 0.1
"""How far the outline of the wedge's hole goes past the tenon: little, for its end slopes. [mm]"""
_LONGER_MM = 30.0
"""How far a wedge stands out on each side, to be driven in and out by (common practice). [mm]"""


class TuskTenonOptions(JointOptions):
    """A tenon on the end of the first part (PART.start or PART.end), through the second, with a wedge."""

    kind: Literal["tusk_tenon"]
    driven_from: Direction
    """Side of the tenon that the wedge is driven in from."""
    thickness: Length | None = Field(default=None, gt=0)
    """Thickness of the tenon; left out, a third of the part, to the nearest usual cutter."""
    shoulder: Length = Field(default=6, ge=0)
    """From each edge of the part to the tenon."""
    wedge: Length | None = Field(default=None, gt=0)
    """Thickness of the wedge; left out, a third of what it goes through the side of, to a usual cutter."""
    deep: Length = Field(default=25, gt=0)
    """The wedge's size along the tenon, half way through it."""
    slope: Number = Field(default=8, ge=5, le=15)
    """The wedge runs out one in this many."""
    set_back: Length = Field(default=2, ge=0.5)
    """How far its hole begins inside the post, so that the wedge draws the shoulders shut."""
    tail: Length | None = Field(default=None, gt=0)
    """Wood beyond the wedge; left out, 40 mm or twice the tenon's thickness, whichever is more."""


def tail_mm(thickness_mm: float) -> float:
    """Wood left beyond a wedge where none is asked for. [mm]

    Examples
    --------
    >>> tail_mm(12.0), tail_mm(25.0)
    (40.0, 50.0)
    """
    return max(TAIL_MM, TAIL_SHARE * thickness_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tusk:
    """Sizes and ways of the joint; ``way`` is out of the side the wedge is driven in from. [mm]"""

    meeting: Meeting
    end: End
    ways: TenonWays
    way: Vec
    other: Vec
    thick_mm: float
    wide_mm: float
    post_mm: float
    through_mm: float
    wedge_mm: float
    tail_mm: float
    long_mm: float


class TuskTenon:
    """The tusk-tenon family."""

    name = "tusk_tenon"
    options_model = TuskTenonOptions
    strength = staticmethod(tenons.tusk_tenon)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Tenon and through mortise, the wedge and its hole, and what the tenon may carry."""
        o = joint.options
        assert isinstance(o, TuskTenonOptions)
        tusk = _tusk(joint, context)
        first, second, normal = tusk.meeting.first, tusk.meeting.second, tusk.meeting.contact.normal
        grown = tusk.long_mm / abs(dot(normal, first.frame.grain))
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=tusk.meeting.contact.center,
            leaves=scale(normal, -1.0),
            cuts=_cuts(tusk, o),
            extensions=(Extension(part=first.name, end=tusk.end, length_mm=grown),),
            marks=_marks(tusk, o),
            connectors=(_wedge(tusk, o),),
            breaking_nmm=_breaking_nmm(tusk),
            tenons_along=tusk.ways.along,
            dry=True,
            steps=(
                "Cut the mortise from both faces; the tenon goes through by hand, for it comes apart again.",
                f"With the shoulders shut, scribe the post's far face on the tenon; begin the wedge's hole "
                f"{o.set_back:g} mm inside that line.",
                "Cut the outer end of the hole to the wedge's slope; the wedge bears on the post and on that "
                "end, nowhere else.",
                "Set it with light blows: a hard one splits the wood beyond it out.",
            ),
        )


def _breaking_nmm(tusk: _Tusk) -> float | None:
    """Bending of the tenon in the plane of both grains at clear strength. [N mm]"""
    meeting = tusk.meeting
    way = turning_way(meeting.first, meeting.second, meeting.contact.normal)
    if way is None:
        return None
    return bent_nmm(meeting.first, section_mm3(tusk.thick_mm, tusk.wide_mm, along=tusk.ways.along, way=way))


def _tusk(joint: JointRequest, context: JointContext) -> _Tusk:
    o = joint.options
    assert isinstance(o, TuskTenonOptions)
    meeting = meet(joint, context)
    first, second, contact = meeting.first, meeting.second, meeting.contact
    rule = "must work the tenon on an end of the first part"
    end = end_of(joint, contact.first_face, code="tenon_not_on_end", rule=rule)
    ways = TenonWays.of(meeting, shift_mm=0.0)
    thick = third_mm(first.thickness_mm, inch=joint.inch) if o.thickness is None else o.thickness
    wide = ways.high_mm - ways.low_mm - 2.0 * o.shoulder
    way, other, through, beside = _ways(joint, ways, thick_mm=thick, wide_mm=wide)
    wedge = third_mm(beside, inch=joint.inch) if o.wedge is None else o.wedge
    post = wood_behind_mm(second, contact.center, contact.normal)
    tail = tail_mm(thick) if o.tail is None else o.tail
    tusk = _Tusk(
        meeting=meeting,
        end=end,
        ways=ways,
        way=way,
        other=other,
        thick_mm=thick,
        wide_mm=wide,
        post_mm=post,
        through_mm=through,
        wedge_mm=wedge,
        tail_mm=tail,
        long_mm=post + o.deep + through / 2.0 / o.slope + tail,
    )
    _check(joint, tusk, beside_mm=beside)
    return tusk


def _ways(
    joint: JointRequest, ways: TenonWays, *, thick_mm: float, wide_mm: float
) -> tuple[Vec, Vec, float, float]:
    """The wedge's way, the one across it, and the tenon's sizes along both. [mm]"""
    o = joint.options
    assert isinstance(o, TuskTenonOptions)
    toward = o.driven_from.vector
    for axis, other, through, beside in (
        (ways.along, ways.side, wide_mm, thick_mm),
        (ways.side, ways.along, thick_mm, wide_mm),
    ):
        if abs(dot(toward, axis)) > 0.7:
            return scale(axis, 1.0 if dot(toward, axis) > 0.0 else -1.0), other, through, beside
    raise cannot_be_made(
        joint,
        "driven_from",
        code="not_a_face",
        value=o.driven_from.value,
        rule="must be a side of the tenon, across its length",
        remedy="Name the side the wedge is easy to reach from.",
    )


def _check(joint: JointRequest, tusk: _Tusk, *, beside_mm: float) -> None:
    first, second, contact = tusk.meeting.first, tusk.meeting.second, tusk.meeting.contact
    o = joint.options
    assert isinstance(o, TuskTenonOptions)
    option, value, rule = "", "", ""
    if tusk.thick_mm > first.thickness_mm - 0.01:
        option, value = "thickness", f"{tusk.thick_mm:.1f} mm in {first.thickness_mm:.1f} mm"
        rule = "must leave a shoulder on both faces"
    elif tusk.wide_mm < 10.0:
        option, value = "shoulder", f"{max(0.0, tusk.wide_mm):.1f} mm of tenon"
        rule = "must leave 10 mm of tenon"
    elif tusk.wedge_mm > _WIDEST_SHARE * beside_mm + 1e-9:
        option, value = "wedge", f"a {tusk.wedge_mm:.1f} mm wedge through {beside_mm:.1f} mm of tenon"
        rule = "must leave as much wood on both sides of it together as it is thick"
    elif o.deep <= tusk.through_mm / 2.0 / o.slope + 3.0:
        option, value = "deep", f"{o.deep:.1f} mm, sloped over {tusk.through_mm:.1f} mm"
        rule = "must leave the thin end of the wedge 3 mm past the post"
    if option:
        remedy = "Make the tenon larger or the wedge smaller."
        raise cannot_be_made(joint, option, code="tenon_over_part", value=value, rule=rule, remedy=remedy)
    mouth = Mouth(
        center=contact.center, along=tusk.ways.along, length_mm=tusk.wide_mm, width_mm=tusk.thick_mm
    )
    check_mouth(joint, "shoulder", second, label=contact.second_face, mouth=mouth)


def _cuts(tusk: _Tusk, o: TuskTenonOptions) -> tuple[Cut, ...]:
    """Cheeks and shoulders, the mortise right through, and the wedge's hole with its sloping end."""
    first, ways, deep = tusk.meeting.first, tusk.ways, tusk.long_mm + _OVER_MM
    reach = first.width_mm + first.thickness_mm + 2.0 * _OVER_MM
    cuts = []
    for sign in (1.0, -1.0):
        cheek = (sign * (tusk.thick_mm + reach) / 2.0, (deep, 2.0 * reach, reach))
        edge = (sign * (tusk.wide_mm + reach) / 2.0, (deep, reach, 2.0 * reach))
        cuts.append(_box(first, ways, (0.0, cheek[0], 0.0), cheek[1], what="tenon cheek"))
        if o.shoulder > 0.0:
            cuts.append(_box(first, ways, (edge[0], 0.0, 0.0), edge[1], what="edge shoulder"))
    size = (tusk.post_mm + 2.0 * _OVER_MM, tusk.wide_mm, tusk.thick_mm)
    cuts.append(_box(tusk.meeting.second, ways, (0.0, 0.0, -_OVER_MM), size, what="mortise"))
    half = tusk.through_mm / 2.0 + _PAST_MM
    near, far = -o.set_back, o.deep
    outline = ((near, -half), (far - half / o.slope, -half), (far + half / o.slope, half), (near, half))
    begin = moved(moved(ways.base, ways.into, tusk.post_mm), tusk.other, -tusk.wedge_mm / 2.0)
    frame = Frame(origin=begin, grain=tusk.other, width=ways.into, thickness=tusk.way)
    tool = Profile(frame=first.frame.frame_in(frame), outline=outline, length_mm=tusk.wedge_mm)
    cuts.append(Cut(part=first.name, tool=tool, what=WEDGE_MORTISE))
    return tuple(cuts)


def _box(
    part: Part,
    ways: TenonWays,
    at: tuple[float, float, float],
    size: tuple[float, float, float],
    *,
    what: str,
) -> Cut:
    frame = slot_frame(ways.at(*at), into=ways.into, along=ways.along)
    tool = Box(frame=part.frame.frame_in(frame), length_mm=size[0], width_mm=size[1], thickness_mm=size[2])
    return Cut(part=part.name, tool=tool, what=what)


def _wedge(tusk: _Tusk, o: TuskTenonOptions) -> Connector:
    """The wedge, its thin end away from the side it is driven in from."""
    long = tusk.through_mm + 2.0 * _LONGER_MM
    middle = moved(tusk.ways.base, tusk.ways.into, tusk.post_mm + o.deep / 2.0)
    into = scale(tusk.way, -1.0)
    frame = Frame(origin=middle, grain=into, width=tusk.other, thickness=cross(into, tusk.other))
    return Connector(
        kind=ConnectorKind.WEDGE,
        count=1,
        size_mm=(o.deep + long / 2.0 / o.slope, tusk.wedge_mm, long),
        note=f"one in {o.slope:g}, straight grain, harder than the tenon or as hard",
        frames=(frame,),
    )


def _marks(tusk: _Tusk, o: TuskTenonOptions) -> tuple[Mark, ...]:
    first, second, contact = tusk.meeting.first, tusk.meeting.second, tusk.meeting.contact
    mortise = _mark(
        second,
        contact.center,
        contact.second_face,
        kind=MarkKind.MORTISE,
        size=(tusk.wide_mm, tusk.thick_mm, tusk.post_mm),
        setup=f"{tusk.thick_mm:g} mm mortises, through",
    )
    tenon = _mark(
        first,
        contact.center,
        tusk.end.value,
        kind=MarkKind.TENON,
        size=(tusk.wide_mm, tusk.thick_mm, tusk.long_mm),
        setup=f"{tusk.thick_mm:g} mm tenons, {tusk.long_mm:g} mm long",
    )
    hole = f"{tusk.wedge_mm:g} × {o.deep + o.set_back:g} mm"
    note = (
        f"through the post; the wedge's hole, {hole} in the middle, begins {tusk.post_mm - o.set_back:.1f} "
        f"mm from the shoulder and leaves {tusk.tail_mm:g} mm beyond it"
    )
    return mortise, replace(tenon, note=note)


def _mark(
    part: Part, at: Vec, label: str, *, kind: MarkKind, size: tuple[float, float, float], setup: str
) -> Mark:
    spot = spot_on(part, at, label)
    return Mark(
        part=part.name,
        kind=kind,
        **spot.measured,
        length_mm=size[0],
        width_mm=size[1],
        depth_mm=size[2],
        fit=Fit.SLIDING,
        setup=setup,
        note="through",
        both_faces=kind is MarkKind.MORTISE,
    )
