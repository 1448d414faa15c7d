"""Mortise and tenon: the tenon worked on the end of one part, into a mortise in the other."""

from __future__ import annotations

from itertools import pairwise

from scantling.joinery.bending import bent_nmm, section_mm3, turning_way
from scantling.joinery.fitting import (
    Hollow,
    Mouth,
    cannot_be_made,
    check_apart,
    check_depth,
    check_mouth,
    end_of,
    wood_behind_mm,
)
from scantling.joinery.meeting import Meeting, grain_angle_deg, meet, slope_deg, slot_frame, spot_on
from scantling.joinery.mortise_tenon_options import Glued, MortiseTenonOptions
from scantling.joinery.strength import tenons
from scantling.joinery.tenon_layout import (
    LEAST_WALL_MM,
    Tenon,
    TenonWays,
    deepest_tenon_mm,
    lay_out_tenons,
    third_mm,
    travels_at,
)
from scantling.joinery.tenon_locks import Held, tenon_locks
from scantling.joinery.work import (
    Box,
    ClampNeed,
    Cut,
    Extension,
    Fit,
    Freedom,
    GlueFace,
    HalfSpace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.convex import face_direction
from scantling.piece.geometry import Plane, add, dot, scale, sub, unit
from scantling.piece.model import Direction, End, JointRequest, Part

__all__ = ["Glued", "MortiseTenon", "MortiseTenonOptions", "deepest_tenon_mm", "third_mm"]

_OVER_MM = 2.0
_MIDWAY_MM = 0.5
"""A part no farther than this from the middle of the other has no outer face there. [mm]"""
OUTER = "outer"
"""Mitered toward the face nearer to the outside of the part that receives."""


class MortiseTenon:
    """The mortise-and-tenon family."""

    name = "mortise_tenon"
    options_model = MortiseTenonOptions
    strength = staticmethod(tenons.mortise_tenon)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Tenons, mortises, haunch, glue, squeeze, and what a free tenon needs to move."""
        o = joint.options
        assert isinstance(o, MortiseTenonOptions)
        meeting = meet(joint, context)
        end = _end(joint, meeting)
        ways = TenonWays.of(meeting, shift_mm=o.shift)
        through = o.length == 0.0
        if through:
            o = _sized(o, meeting)
        o = _abreast(o, meeting.first, inch=joint.inch)
        if o.mitered == OUTER:
            o = o.model_copy(update={"mitered": _outer(joint, meeting, ways)})
        assert o.thickness is not None
        thick = o.thickness
        tenons = lay_out_tenons(joint, ways, o, travels=travels_at(meeting, ways, context.moisture))
        _check(joint, meeting, ways, tenons=tenons, o=o, through=through)
        normal, first, second = meeting.contact.normal, meeting.first, meeting.second
        grown = (o.length) / abs(dot(normal, first.frame.grain))
        cuts = _cuts(meeting, ways, tenons, o=o, thick_mm=thick)
        sides = [ways.aside(off) for off in _offs(o)]
        marks = [
            _mortise_mark(meeting, w, tenon, o=o, thick_mm=thick, through=through)
            for tenon in tenons
            for w in sides
        ]
        marks += [
            _tenon_mark(first, w, tenon, o=o, end=end, thick_mm=thick) for tenon in tenons for w in sides
        ]
        held = [tenon for tenon in tenons if tenon.fixed]
        locks = tenon_locks(
            Held(
                joint=joint,
                meeting=meeting,
                ways=ways,
                tenons=tuple(held),
                o=o,
                thick_mm=thick,
                through=through,
            )
        )
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=meeting.contact.center,
            leaves=scale(normal, -1.0),
            cuts=(*cuts, *locks.cuts),
            extensions=(Extension(part=first.name, end=end, length_mm=grown),),
            marks=(*marks, *locks.marks),
            connectors=locks.connectors,
            glue=(_glue(meeting, held, o),),
            freedoms=tuple(_freedom(first, ways, tenon) for tenon in tenons if not tenon.fixed),
            clamp=ClampNeed(
                direction=normal, area_mm2=meeting.contact.area_mm2, slope_deg=slope_deg(first, normal)
            ),
            breaking_nmm=_breaking_nmm(meeting, ways, held, count=int(o.abreast), thick_mm=thick),
            tenons_along=ways.along,
            steps=(*_steps(o, any(not tenon.fixed for tenon in tenons), through=through), *locks.steps),
        )


def _end(joint: JointRequest, meeting: Meeting) -> End:
    rule = "must work the tenon on an end of the first part"
    return end_of(joint, meeting.contact.first_face, code="tenon_not_on_end", rule=rule)


def _sized(o: MortiseTenonOptions, meeting: Meeting) -> MortiseTenonOptions:
    """The options of a through tenon with its length filled in; its mortise ends at the far face."""
    wood = wood_behind_mm(meeting.second, meeting.contact.center, meeting.contact.normal)
    return o.model_copy(update={"length": wood + o.proud, "end_room": -o.proud})


def _outer(joint: JointRequest, meeting: Meeting, ways: TenonWays) -> Direction:
    """The broad face of the first part that shows; if both do or neither, the nearer to the second's face."""
    faces = [face_direction(scale(ways.side, sign)) for sign in (1.0, -1.0)]
    shown = [face for face in faces if face in meeting.first.show]
    if len(shown) == 1:
        return shown[0]
    second, at = meeting.second, sub(meeting.contact.center, meeting.second.middle)
    grain = second.frame.grain
    aside = dot(at, ways.side) - dot(at, grain) * dot(grain, ways.side)
    if abs(aside) < _MIDWAY_MM:
        raise cannot_be_made(
            joint,
            "mitered",
            code="no_outer_face",
            value=f"{OUTER}, {meeting.first.name} in the middle of {second.name}",
            rule="must be a part one broad face of which shows, or lies nearer to the outside",
            remedy="Say which face shows, or write front, back, left, right, top or bottom here.",
        )
    return faces[0 if aside > 0.0 else 1]


def _abreast(o: MortiseTenonOptions, first: Part, *, inch: bool) -> MortiseTenonOptions:
    """The options with thickness and distance of twin tenons filled in: each a share of the thickness.

    One tenon takes a third, two take a fifth each with a fifth between (common practice).
    """
    share = first.thickness_mm / (2.0 * int(o.abreast) + 1.0)
    thick = third_mm(3.0 * share, inch=inch) if o.thickness is None else o.thickness
    return o.model_copy(
        update={"thickness": thick, "wood_between": thick if o.wood_between is None else o.wood_between}
    )


def _offs(o: MortiseTenonOptions) -> list[float]:
    """Middles of the tenons abreast, across the thickness from the middle of them all. [mm]"""
    assert o.thickness is not None
    assert o.wood_between is not None
    pitch, count = o.thickness + o.wood_between, int(o.abreast)
    return [pitch * (k - (count - 1) / 2.0) for k in range(count)]


def _across_mm(o: MortiseTenonOptions) -> float:
    """Over all tenons abreast, through the thickness. [mm]"""
    assert o.thickness is not None
    return _offs(o)[-1] - _offs(o)[0] + o.thickness


def _check(
    joint: JointRequest,
    meeting: Meeting,
    ways: TenonWays,
    *,
    tenons: list[Tenon],
    o: MortiseTenonOptions,
    through: bool,
) -> None:
    """Refuse a tenon thicker than its part, a mortise that stands out or comes out, tenons that touch."""
    assert o.thickness is not None
    assert o.wood_between is not None
    _check_abreast(joint, o)
    wide = _across_mm(o)
    if wide + 2.0 * abs(o.shift) > meeting.first.thickness_mm - 0.01:
        raise cannot_be_made(
            joint,
            "thickness",
            code="tenon_over_part",
            value=f"{wide:.1f} mm in {meeting.first.thickness_mm:.1f} mm",
            rule="must leave a shoulder on both faces",
            remedy="Make it thinner, about a third of the part.",
        )
    for tenon in tenons:
        mouth = Mouth(
            center=ways.at(tenon.mortise_mm), along=ways.along, length_mm=tenon.long_mm, width_mm=wide
        )
        check_mouth(joint, "shoulder", meeting.second, label=meeting.contact.second_face, mouth=mouth)
        depth = o.length + o.end_room
        hollow = Hollow(at=mouth.center, into=ways.into, depth_mm=depth)
        if not through:
            check_depth(joint, "length", meeting.second, hollow=hollow)
    longest = max(tenon.long_mm for tenon in tenons)
    check_apart(joint, "tenons", [tenon.mortise_mm for tenon in tenons], size_mm=longest)


def _check_abreast(joint: JointRequest, o: MortiseTenonOptions) -> None:
    """Refuse twin tenons that run together, and locks and miters that are for one tenon."""
    assert o.wood_between is not None
    if o.abreast == 1:
        return
    if o.wood_between < LEAST_WALL_MM:
        raise cannot_be_made(
            joint,
            "wood_between",
            code="row_too_close",
            value=f"{o.wood_between:.1f} mm between twin tenons",
            rule=f"must leave {LEAST_WALL_MM:g} mm of wood between their mortises",
            remedy="Make the tenons thinner, or set them farther apart.",
        )
    if o.pin is not None or o.wedges or o.mitered is not None:
        raise cannot_be_made(
            joint,
            "abreast",
            code="twins_not_locked",
            value=f"{o.abreast:g} abreast, with pins, wedges or a miter",
            rule="must be glued alone where there are several tenons abreast",
            remedy="Leave pins, wedges and miter out, or make it one tenon.",
        )


def _cuts(
    meeting: Meeting, ways: TenonWays, tenons: list[Tenon], *, o: MortiseTenonOptions, thick_mm: float
) -> list[Cut]:
    """All that is cut but for pins and wedges."""
    first, second = meeting.first, meeting.second
    cuts = _shoulders(first, ways, tenons, o=o, thick_mm=thick_mm)
    for off in _offs(o):
        aside = ways.aside(off)
        cuts += [_mortise(second, aside, tenon, o=o, thick_mm=thick_mm) for tenon in tenons]
        if o.haunch > 0.0:
            cuts.append(_haunch_mortise(second, aside, tenons, o=o, thick_mm=thick_mm))
    if o.mitered is not None:
        cuts.append(_miter(first, ways, o, thick_mm=thick_mm))
    return cuts


def _box(
    part: Part, ways: TenonWays, *, at: tuple[float, float, float], size: tuple[float, float, float]
) -> Box:
    """A box from ``at`` (along, across, in) into the second part; size in, along, across. [mm]"""
    frame = slot_frame(ways.at(at[0], at[1], at[2]), into=ways.into, along=ways.along)
    return Box(frame=part.frame.frame_in(frame), length_mm=size[0], width_mm=size[1], thickness_mm=size[2])


def _shoulders(
    first: Part, ways: TenonWays, tenons: list[Tenon], *, o: MortiseTenonOptions, thick_mm: float
) -> list[Cut]:
    """Both cheeks, the edge shoulders or haunch, and what lies between tenons."""
    deep, wide = o.length + _OVER_MM, first.width_mm + first.thickness_mm + 2.0 * _OVER_MM
    cuts = []
    for sign in (1.0, -1.0):
        size = (deep, 2.0 * wide, wide)
        tool = _box(first, ways, at=(0.0, sign * (_across_mm(o) + wide) / 2.0, 0.0), size=size)
        cuts.append(Cut(part=first.name, tool=tool, what="tenon cheek"))
    for one, other in pairwise(_offs(o)):
        size = (deep, 2.0 * wide, other - one - thick_mm)
        tool = _box(first, ways, at=(0.0, (one + other) / 2.0, 0.0), size=size)
        cuts.append(Cut(part=first.name, tool=tool, what="tenon cheek"))
    low, high = ways.low_mm - wide, ways.high_mm + wide
    edges = [low]
    for tenon in tenons:
        edges += [tenon.at_mm - tenon.width_mm / 2.0, tenon.at_mm + tenon.width_mm / 2.0]
    edges.append(high)
    at_high = dot(o.haunch_at.vector, ways.along) > 0.0
    stretches = list(zip(edges[::2], edges[1::2], strict=True))
    for k, (a, b) in enumerate(stretches):
        haunched = o.haunch > 0.0 and k == (len(stretches) - 1 if at_high else 0)
        begin = o.haunch if haunched else 0.0
        if b > ways.low_mm + 1e-6 and a < ways.high_mm - 1e-6 and b - a > 1e-6:
            tool = _box(first, ways, at=((a + b) / 2.0, 0.0, begin), size=(deep - begin, b - a, 2.0 * wide))
            cuts.append(Cut(part=first.name, tool=tool, what="haunch" if haunched else "edge shoulder"))
    return cuts


def _mortise(second: Part, ways: TenonWays, tenon: Tenon, *, o: MortiseTenonOptions, thick_mm: float) -> Cut:
    size = (o.length + o.end_room + _OVER_MM, tenon.long_mm, thick_mm)
    what = "mitered mortise" if o.mitered is not None else "mortise"
    return Cut(
        part=second.name, tool=_box(second, ways, at=(tenon.mortise_mm, 0.0, -_OVER_MM), size=size), what=what
    )


def _haunch_mortise(
    second: Part, ways: TenonWays, tenons: list[Tenon], *, o: MortiseTenonOptions, thick_mm: float
) -> Cut:
    """The shallow part of the mortise that the haunch fills, out to the part's edge."""
    if dot(o.haunch_at.vector, ways.along) > 0.0:
        a, b = tenons[-1].at_mm, ways.high_mm
    else:
        a, b = ways.low_mm, tenons[0].at_mm
    size = (o.haunch + o.end_room + _OVER_MM, b - a, thick_mm)
    tool = _box(second, ways, at=((a + b) / 2.0, 0.0, -_OVER_MM), size=size)
    return Cut(part=second.name, tool=tool, what="haunch of the mortise")


def _miter(first: Part, ways: TenonWays, o: MortiseTenonOptions, *, thick_mm: float) -> Cut:
    """The end of the tenon at 45 degrees, longest at the outer face."""
    assert isinstance(o.mitered, Direction)
    outer = 1.0 if dot(o.mitered.vector, ways.side) > 0.0 else -1.0
    point = ways.at(0.0, outer * thick_mm / 2.0, o.length)
    normal = unit(add(ways.into, scale(ways.side, -outer)))
    tool = HalfSpace(plane=first.frame.plane_in(Plane(point=point, normal=normal)))
    return Cut(part=first.name, tool=tool, what="miter of the tenon")


def _mortise_mark(
    meeting: Meeting,
    ways: TenonWays,
    tenon: Tenon,
    *,
    o: MortiseTenonOptions,
    thick_mm: float,
    through: bool,
) -> Mark:
    second = meeting.second
    spot = spot_on(second, ways.at(tenon.mortise_mm), meeting.contact.second_face)
    along_grain = abs(dot(ways.along, second.frame.grain)) > 0.7
    return Mark(
        part=second.name,
        kind=MarkKind.MORTISE,
        **spot.measured,
        length_mm=tenon.long_mm,
        width_mm=thick_mm,
        depth_mm=o.length + o.end_room,
        fit=Fit.TIGHT if tenon.fixed else Fit.SLIDING,
        setup=f"{thick_mm:g} mm mortises, {o.length + o.end_room:g} mm deep",
        angle_deg=0.0 if along_grain or spot.on_end else 90.0,
        note=_note(tenon, o),
        both_faces=through,
    )


def _note(tenon: Tenon, o: MortiseTenonOptions) -> str:
    words = [] if tenon.fixed else ["free: no glue"]
    if o.mitered is not None:
        words.append("meets the other mortise")
    if o.haunch > 0.0:
        words.append(f"haunch {o.haunch:g} mm deep to the {o.haunch_at.value} edge")
    return "; ".join(words)


def _tenon_mark(
    first: Part, ways: TenonWays, tenon: Tenon, *, o: MortiseTenonOptions, end: End, thick_mm: float
) -> Mark:
    spot = spot_on(first, ways.at(tenon.at_mm), end.value)
    return Mark(
        part=first.name,
        kind=MarkKind.TENON,
        on_end=True,
        end=end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=tenon.width_mm,
        width_mm=thick_mm,
        depth_mm=o.length,
        fit=Fit.TIGHT if tenon.fixed else Fit.SLIDING,
        setup=f"{thick_mm:g} mm tenons, {o.length:g} mm long",
        note="mitered" if o.mitered is not None else "",
    )


def _glue(meeting: Meeting, held: list[Tenon], o: MortiseTenonOptions) -> GlueFace:
    """Both cheeks of the glued tenons."""
    turned = grain_angle_deg(meeting.first, meeting.second)
    span = held[-1].at_mm + held[-1].width_mm / 2.0 - (held[0].at_mm - held[0].width_mm / 2.0)
    wide = sum(tenon.width_mm for tenon in held)
    return GlueFace(
        parts=(meeting.first.name, meeting.second.name),
        area_mm2=2.0 * wide * o.length * int(o.abreast),
        grain_angle_deg=turned,
        end_grain_share=0.0,
        cross_span_mm=span if turned > 30.0 else 0.0,
        length_mm=wide,
    )


def _freedom(first: Part, ways: TenonWays, tenon: Tenon) -> Freedom:
    half = (tenon.long_mm - tenon.width_mm) / 2.0
    outward = (tenon.mortise_mm - tenon.at_mm) * (1.0 if tenon.from_fixed_mm > 0.0 else -1.0)
    return Freedom(
        part=first.name,
        what=f"tenon {tenon.number} in its mortise",
        at=ways.at(tenon.at_mm),
        from_fixed_mm=abs(tenon.from_fixed_mm),
        shrink_travel_mm=tenon.travel.shrink_mm,
        swell_travel_mm=tenon.travel.swell_mm,
        shrink_room_mm=half - outward,
        swell_room_mm=half + outward,
        cut_to_mm=tenon.long_mm,
        bias_mm=-outward,
    )


def _breaking_nmm(
    meeting: Meeting, ways: TenonWays, held: list[Tenon], *, count: int, thick_mm: float
) -> float | None:
    """Bending of the glued tenons in the plane of both grains at clear strength. [N mm]

    Those of a rail laid flat bend over their thickness; twins count as two by themselves.
    """
    way = turning_way(meeting.first, meeting.second, meeting.contact.normal)
    if way is None:
        return None
    each = sum(section_mm3(thick_mm, tenon.width_mm, along=ways.along, way=way) for tenon in held)
    return bent_nmm(meeting.first, count * each)


def _steps(o: MortiseTenonOptions, free: bool, *, through: bool) -> tuple[str, ...]:
    both = ("Cut a through mortise from both faces, to the middle from each.",) if through else ()
    steps = [
        *both,
        "Cut the mortises first; set the tenon's cheeks by a trial piece in them.",
        "Saw the shoulders from one stop, so that all rails of a pair are alike between shoulders.",
        "Try it dry: it goes in by hand, and the shoulders close all round.",
    ]
    if o.abreast > 1:
        steps.append("Gauge twin tenons and their mortises from one face, with one setting for each line.")
    if o.haunch > 0.0:
        steps.append("Leave the haunch when the tenon is sawn to width; deepen the mortise for it last.")
    if o.mitered is not None:
        steps.append("Miter the ends of both tenons so that they do not meet: 1 mm of air between.")
    if free:
        steps.append("Glue the middle tenon alone; the outer ones go in dry, centered as their mortises say.")
    return tuple(steps)
