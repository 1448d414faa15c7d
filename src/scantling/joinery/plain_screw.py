"""Screws: one part held to another by screws through it, their heads let in and plugged where they show."""

from __future__ import annotations

from dataclasses import replace
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
from scantling.joinery.fitting import Mouth, cannot_be_made, check_mouth, wood_behind_mm
from scantling.joinery.meeting import Meeting, grain_angle_deg, meet, moved, row, slot_frame
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import (
    ClampNeed,
    Connector,
    ConnectorKind,
    Cut,
    Freedom,
    GlueFace,
    Hole,
    JointContext,
    JointWork,
    Mark,
)
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Frame, Vec, dot, scale
from scantling.piece.model import End, JointRequest, Part

__all__ = ["PlainScrew", "PlainScrewOptions"]

_OVER_MM = 2.0
_PROUD_MM = 2.0
"""What a plug stands out when glued in, to be pared off (common practice). [mm]"""


class PlainScrewOptions(JointOptions):
    """Screws through the first part into the second."""

    kind: Literal["plain_screw"]
    screw: tuple[PositiveLength, PositiveLength] = (4.5, 45.0)
    """Diameter and length of the screws."""
    count: Count | None = Field(default=None, ge=1, le=40)
    """Screws; left out, by the spacing."""
    spacing: Length = Field(default=250, gt=0)
    """Greatest distance between screws."""
    inset: Length = Field(default=30, ge=0)
    """From the ends of the contact to the outer screws."""
    counterbore: Length = Field(default=0, ge=0)
    """How deep the heads are let in; 0 sinks them flush."""
    plug: Length | None = Field(default=None, gt=0)
    """Diameter of wooden plugs over the heads, which the counterbore fits; left out, there are none."""
    head: Length = Field(default=9, gt=0)
    """Diameter of the head, which a counterbore without plug fits."""
    glued: bool = False
    """Whether the faces are glued as well; the screws are then the clamps."""


class PlainScrew:
    """The family of plain screws."""

    name = "plain_screw"
    options_model = PlainScrewOptions
    strength = staticmethod(metal.fastened)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Holes in both parts, screws and plugs, and whether the year lets them be."""
        o = joint.options
        assert isinstance(o, PlainScrewOptions)
        meeting = meet(joint, context)
        first, second, normal = meeting.first, meeting.second, meeting.contact.normal
        count = None if o.count is None else int(o.count)
        places = row(meeting, count=count, spacing_mm=o.spacing, inset_mm=o.inset)
        screws = [_screw(meeting, place, o) for place in places]
        _check(joint, meeting, screws)
        pilot = pilot_share(second) * o.screw[0]
        cuts: list[Cut] = []
        for screw in screws:
            cuts += driven_cuts(first, second, screw, clear_mm=o.screw[0] + CLEAR_MM, pilot_mm=pilot)
            cuts += _counterbore(first, screw, o)
        pulls = [pull_n(second, screw) for screw in screws]
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=meeting.contact.center,
            leaves=scale(normal, -1.0),
            cuts=tuple(cuts),
            marks=tuple(_mark(first, screw, o) for screw in screws),
            connectors=_connectors(screws, o, pilot_mm=pilot),
            glue=(_glue(meeting),) if o.glued else (),
            freedoms=() if o.glued else _freedoms(meeting, screws, context),
            clamp=ClampNeed(direction=normal, area_mm2=meeting.contact.area_mm2) if o.glued else None,
            pull_n=None if None in pulls else sum(pull for pull in pulls if pull is not None),
            dry=not o.glued,
            steps=_steps(o, pilot),
        )


def _screw(meeting: Meeting, place: Vec, o: PlainScrewOptions) -> Driven:
    normal, first = meeting.contact.normal, meeting.first
    across = min((first.frame.grain, first.frame.width), key=lambda way: abs(dot(way, normal)))
    return Driven(
        at=place,
        into=normal,
        along=across,
        size_mm=o.screw,
        through_mm=wood_behind_mm(first, place, scale(normal, -1.0)),
        sunk_mm=o.counterbore,
    )


def _check(joint: JointRequest, meeting: Meeting, screws: list[Driven]) -> None:
    """Refuse what does not reach or comes through, a head let in too deep, and heads over the edge."""
    o = joint.options
    assert isinstance(o, PlainScrewOptions)
    for screw in screws:
        if o.counterbore >= screw.through_mm - 0.01:
            raise cannot_be_made(
                joint,
                "counterbore",
                code="deeper_than_part",
                value=f"{o.counterbore:.1f} mm in {screw.through_mm:.1f} mm",
                rule="must leave wood under the heads",
                remedy="Let the heads in less deep.",
            )
        if o.plug is not None and o.counterbore < 1.0:
            raise cannot_be_made(
                joint,
                "counterbore",
                code="plug_without_hole",
                value=f"{o.counterbore:.1f} mm for plugs",
                rule="must be at least 1 mm where the heads are plugged",
                remedy="Let the heads in 6 to 8 mm, or leave the plugs out.",
            )
        check_driven(joint, "screw", meeting.second, screw, what="screw")
        for size, option in ((o.plug if o.plug is not None else o.head, "head"), (o.screw[0], "screw")):
            mouth = Mouth(center=screw.at, along=screw.along, length_mm=size, width_mm=size)
            check_mouth(
                joint, option, meeting.first, label=meeting.contact.first_face, mouth=mouth, what="screw head"
            )


def _head(o: PlainScrewOptions) -> float:
    return o.head if o.plug is None else o.plug


def _counterbore(first: Part, screw: Driven, o: PlainScrewOptions) -> list[Cut]:
    if o.counterbore <= 0.0:
        return []
    start = moved(screw.at, screw.into, -screw.through_mm - _OVER_MM)
    frame = first.frame.frame_in(slot_frame(start, into=screw.into, along=screw.along))
    tool = Hole(frame=frame, diameter_mm=_head(o), depth_mm=o.counterbore + _OVER_MM)
    return [Cut(part=first.name, tool=tool, what="counterbore")]


def _connectors(screws: list[Driven], o: PlainScrewOptions, *, pilot_mm: float) -> tuple[Connector, ...]:
    bite = screws[0].bite_mm
    found = [
        Connector(
            kind=ConnectorKind.SCREW,
            count=len(screws),
            size_mm=o.screw,
            drill_mm=(pilot_mm, bite),
            note=f"{o.screw[0] + CLEAR_MM:g} mm hole through the part held",
            frames=tuple(screw.frame for screw in screws),
        )
    ]
    if o.plug is not None:
        long = o.counterbore - 1.0 + _PROUD_MM
        found.append(
            Connector(
                kind=ConnectorKind.PLUG,
                count=len(screws),
                size_mm=(o.plug, long),
                note="of the same wood, cut across the grain; pared flush",
                frames=tuple(_plug_frame(screw, long) for screw in screws),
            )
        )
    return tuple(found)


def _plug_frame(screw: Driven, long_mm: float) -> Frame:
    middle = -screw.through_mm - _PROUD_MM + long_mm / 2.0
    return slot_frame(moved(screw.at, screw.into, middle), into=screw.into, along=screw.along)


def _glue(meeting: Meeting) -> GlueFace:
    ends = {End.START.value, End.END.value}
    turned = grain_angle_deg(meeting.first, meeting.second)
    spans = [meeting.contact.extent(way) for way in (meeting.first.frame.grain, meeting.first.frame.width)]
    longest = max(high - low for low, high in spans)
    return GlueFace(
        parts=(meeting.first.name, meeting.second.name),
        area_mm2=meeting.contact.area_mm2,
        grain_angle_deg=turned,
        end_grain_share=1.0 if {meeting.contact.first_face, meeting.contact.second_face} & ends else 0.0,
        cross_span_mm=longest if turned > 30.0 else 0.0,
        length_mm=longest,
    )


def _freedoms(meeting: Meeting, screws: list[Driven], context: JointContext) -> tuple[Freedom, ...]:
    """Each screw that another part's movement would push aside, and the little its hole gives."""
    found = []
    for one, other in ((meeting.first, meeting.second), (meeting.second, meeting.first)):
        slides = abs(dot(one.frame.width, meeting.contact.normal)) < 0.7
        if not slides or abs(dot(one.frame.width, other.frame.width)) > 0.7:
            continue
        across = [one.frame.local(screw.at)[1] for screw in screws]
        middle = (min(across) + max(across)) / 2.0
        for k, (screw, at) in enumerate(zip(screws, across, strict=True)):
            moves = travel(one, at - middle, context.moisture, fixed_at_mm=middle)
            if abs(at - middle) > 1.0:
                found.append(_freedom(one, screw, k + 1, moves, from_fixed_mm=abs(at - middle)))
    return tuple(found)


def _freedom(part: Part, screw: Driven, number: int, moves: Travel, *, from_fixed_mm: float) -> Freedom:
    return Freedom(
        part=part.name,
        what=f"screw {number} in its plain hole",
        at=screw.at,
        from_fixed_mm=from_fixed_mm,
        shrink_travel_mm=moves.shrink_mm,
        swell_travel_mm=moves.swell_mm,
        shrink_room_mm=CLEAR_MM / 2.0 + GIVE_MM,
        swell_room_mm=CLEAR_MM / 2.0 + GIVE_MM,
        cut_to_mm=screw.size_mm[0] + CLEAR_MM,
    )


def _mark(first: Part, screw: Driven, o: PlainScrewOptions) -> Mark:
    """The hole, on the face its head is on."""
    clear = o.screw[0] + CLEAR_MM
    sunk = f"{_head(o):g} mm counterbore first" if o.counterbore else "countersunk"
    mark = driven_mark(first, screw, clear_mm=clear, setup=f"{clear:g} mm screw holes, {sunk}")
    return replace(mark, note=f"heads let in {o.counterbore:g} mm") if o.counterbore else mark


def _steps(o: PlainScrewOptions, pilot_mm: float) -> tuple[str, ...]:
    steps = []
    if o.counterbore:
        steps.append(f"Counterbore {_head(o):g} mm first, while the center point has wood to stand in.")
    steps += [
        f"Bore {o.screw[0] + CLEAR_MM:g} mm through the part held; clamp it in place and bore "
        f"{pilot_mm:.1f} mm pilot holes through those.",
        "Wax the threads; in hard wood drive a steel screw first where brass ones are to show.",
    ]
    if o.plug is not None:
        steps.append("Glue the plugs in, grain along the part's; pare and sand them flush when dry.")
    return tuple(steps)
