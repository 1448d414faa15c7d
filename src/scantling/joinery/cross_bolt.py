"""Cross bolt: a rail's end drawn to a post by a bolt into a nut that lies across the rail; comes apart."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from pydantic import Field

from scantling.joinery.bending import turning_way
from scantling.joinery.fitting import (
    Hollow,
    Mouth,
    cannot_be_made,
    check_depth,
    check_mouth,
    end_of,
    wood_behind_mm,
)
from scantling.joinery.meeting import Meeting, across, meet, moved, slot_frame, spot_on, spread
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
from scantling.joinery.work import (
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    Hole,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.convex import face_direction, named_face
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Vec, dot, scale
from scantling.piece.model import Direction, JointRequest, Part, PartKind
from scantling.wood.species import find_species

__all__ = ["CrossBolt", "CrossBoltOptions"]

PLAY_MM = 0.5
"""How much wider than the bolt its hole is (common practice). [mm]"""
PAST_NUT_MM = 5.0
"""How far past the nut the bolt may go, and its hole with it (common practice). [mm]"""
END_DIAMETERS = 2.5
"""Wood between the nut and the rail's end, in diameters of the nut (common practice). [1]"""
_UNDER_HEAD_MM = 3.0
"""Wood under a bolt's head, at the least (common practice). [mm]"""
_BETWEEN_MM = 3.0
"""Wood between two holes of the row, at the least (common practice). [mm]"""
_OVER_MM = 2.0


class CrossBoltOptions(JointOptions):
    """Bolts through the second part into nuts across the first, near its end (PART.start or PART.end)."""

    kind: Literal["cross_bolt"]
    bolt: tuple[PositiveLength, PositiveLength] = (6.0, 90.0)
    """Diameter and length under the head of the bolts."""
    nut: tuple[PositiveLength, PositiveLength] = (10.0, 14.0)
    """Diameter and length of the barrel nuts, whose thread is across their middle."""
    nut_face: Direction
    """Face of the first part that the nuts are put in from."""
    recess: tuple[Length, PositiveLength] = (0.0, 18.0)
    """Depth and diameter of the hole that head and washer lie in; depth 0 leaves them on the face."""
    count: Count = Field(default=1, ge=1, le=4)
    """Bolts in a row across the first part's width."""
    inset: Length = Field(default=25, ge=0)
    """From the edges to the outer bolts, where there are several."""
    dowels: Count = Field(default=2, ge=0, le=4)
    """Dry dowels that keep the end in its place, in the same row."""
    dowel: tuple[PositiveLength, PositiveLength] = (8.0, 40.0)
    """Diameter and length of the dowels, half in each part."""
    dowel_inset: Length = Field(default=15, ge=0)
    """From the edges to the outer dowels."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lay:
    """The joint's ways and places. World.

    Parameters
    ----------
    into
        From the first part into the second.
    along
        The row's way, across the first part's width.
    bore
        The way the nuts are put in.
    bolts, dowels
        Where they cross the face between the parts. [mm]
    passed_mm
        Wood of the second part under the head. [mm]
    nut_mm
        From the face to the middle of the nut. [mm]
    nut_deep_mm
        From the face the nut is put in from to its far end. [mm]
    """

    meeting: Meeting
    into: Vec
    along: Vec
    bore: Vec
    bolts: tuple[Vec, ...]
    dowels: tuple[Vec, ...]
    passed_mm: float
    nut_mm: float
    nut_deep_mm: float


class CrossBolt:
    """The cross-bolt family."""

    name = "cross_bolt"
    options_model = CrossBoltOptions
    strength = staticmethod(metal.cross_bolt)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Holes for bolts, nuts and dowels in both parts, what to buy, and what the joint may carry."""
        o = joint.options
        assert isinstance(o, CrossBoltOptions)
        lay = _lay(joint, context)
        first, second = lay.meeting.first, lay.meeting.second
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=lay.meeting.contact.center,
            leaves=scale(lay.into, -1.0),
            cuts=_cuts(lay, o),
            marks=_marks(lay, o),
            connectors=_connectors(lay, o),
            breaking_nmm=_breaking_nmm(lay, o),
            dry=True,
            steps=_steps(lay, o),
        )


def _steps(lay: _Lay, o: CrossBoltOptions) -> tuple[str, ...]:
    return (
        "Bore for the dowels first, both parts from their reference faces; put the joint together dry.",
        f"Bore {o.bolt[0] + PLAY_MM:g} mm through the second part into the end of the first, in one go.",
        f"Bore for the nuts {lay.nut_mm:.1f} mm from the shoulder; a rod in the bolt's hole shows that they "
        "meet.",
        "Turn the nut's thread toward the bolt. Tighten again after the first dry season.",
    )


def _lay(joint: JointRequest, context: JointContext) -> _Lay:
    o = joint.options
    assert isinstance(o, CrossBoltOptions)
    meeting = meet(joint, context)
    first, contact = meeting.first, meeting.contact
    rule = "must draw an end of the first part to the second"
    end_of(joint, contact.first_face, code="bolt_not_on_end", rule=rule)
    into, along = contact.normal, across(first.frame.width, contact.normal)
    face = named_face(first, o.nut_face)
    if face is None or abs(dot(face.normal, into)) > 0.3 or abs(dot(face.normal, along)) > 0.7:
        raise cannot_be_made(
            joint,
            "nut_face",
            code="not_a_face",
            value=f"{o.nut_face.value} of {first.name}",
            rule="must be a broad face of the first part, along its grain and across the row of bolts",
            remedy="Name the face that shows less.",
        )
    low, high = contact.extent(along)
    middle = dot(contact.center, along)
    bore = scale(face.normal, -1.0)
    passed = wood_behind_mm(meeting.second, contact.center, into) - o.recess[0]
    lay = _Lay(
        meeting=meeting,
        into=into,
        along=along,
        bore=bore,
        bolts=_places(contact.center, along, spread(low, high, count=int(o.count), inset_mm=o.inset), middle),
        dowels=_places(
            contact.center, along, spread(low, high, count=int(o.dowels), inset_mm=o.dowel_inset), middle
        )
        if o.dowels
        else (),
        passed_mm=passed,
        nut_mm=o.bolt[1] - passed - PAST_NUT_MM,
        nut_deep_mm=wood_behind_mm(first, contact.center, scale(bore, -1.0)) + o.nut[1] / 2.0,
    )
    _check(joint, lay)
    return lay


def _places(center: Vec, along: Vec, places: tuple[float, ...], middle: float) -> tuple[Vec, ...]:
    return tuple(moved(center, along, place - middle) for place in places)


def _check(joint: JointRequest, lay: _Lay) -> None:
    """Refuse a bolt that does not reach, a nut too near the end, and holes that come out or run together."""
    _check_bolt(joint, lay)
    _check_depths(joint, lay)
    _check_row(joint, lay)


def _check_bolt(joint: JointRequest, lay: _Lay) -> None:
    o = joint.options
    assert isinstance(o, CrossBoltOptions)
    wanted = END_DIAMETERS * o.nut[0]
    if lay.passed_mm < _UNDER_HEAD_MM:
        raise cannot_be_made(
            joint,
            "recess",
            code="deeper_than_part",
            value=f"{max(0.0, lay.passed_mm):.1f} mm of {lay.meeting.second.name} left under the head",
            rule=f"must leave {_UNDER_HEAD_MM:g} mm under the head",
            remedy="Make the recess less deep.",
        )
    if lay.nut_mm < wanted - 1e-6:
        longer = o.bolt[1] + wanted - lay.nut_mm
        raise cannot_be_made(
            joint,
            "bolt",
            code="bolt_too_short",
            value=f"{o.bolt[1]:.1f} mm: its nut lies {lay.nut_mm:.1f} mm from the end of the first part",
            rule=f"must leave {wanted:.1f} mm, {END_DIAMETERS:g} diameters of the nut",
            remedy=f"Take a bolt of {longer:.0f} mm or more, or let its head in deeper.",
        )


def _check_depths(joint: JointRequest, lay: _Lay) -> None:
    """Refuse holes that come out on the far side."""
    o = joint.options
    assert isinstance(o, CrossBoltOptions)
    first, contact, back = lay.meeting.first, lay.meeting.contact, scale(lay.into, -1.0)
    bolt = Hollow(at=contact.center, into=back, depth_mm=_reach(lay), what="bolt hole")
    check_depth(joint, "bolt", first, hollow=bolt)
    nut = Hollow(at=_nut_at(lay, contact.center), into=lay.bore, depth_mm=lay.nut_deep_mm, what="nut hole")
    check_depth(joint, "nut", first, hollow=nut)
    for part, into in ((first, back), (lay.meeting.second, lay.into)) if lay.dowels else ():
        dowel = Hollow(at=contact.center, into=into, depth_mm=_half(o), what="dowel hole")
        check_depth(joint, "dowel", part, hollow=dowel)


def _check_row(joint: JointRequest, lay: _Lay) -> None:
    """Refuse holes over the edge of a face, and holes that leave no wood between them."""
    o = joint.options
    assert isinstance(o, CrossBoltOptions)
    contact = lay.meeting.contact
    row = [(spot, o.bolt[0] + PLAY_MM, "bolt") for spot in lay.bolts]
    row += [(spot, o.dowel[0], "dowel") for spot in lay.dowels]
    for spot, size, option in row:
        mouth = Mouth(center=spot, along=lay.along, length_mm=size, width_mm=size)
        for part, label in (
            (lay.meeting.first, contact.first_face),
            (lay.meeting.second, contact.second_face),
        ):
            check_mouth(joint, option, part, label=label, mouth=mouth, what="hole")
    row.sort(key=lambda item: dot(item[0], lay.along))
    for (one, a, _), (other, b, _) in pairwise(row):
        wood = dot(other, lay.along) - dot(one, lay.along) - (a + b) / 2.0
        if wood < _BETWEEN_MM:
            raise cannot_be_made(
                joint,
                "dowel_inset",
                code="row_too_close",
                value=f"{max(0.0, wood):.1f} mm of wood between two holes",
                rule=f"must leave {_BETWEEN_MM:g} mm between one hole and the next",
                remedy="Ask for fewer, or set the outer ones nearer the edges.",
            )


def _reach(lay: _Lay) -> float:
    """Depth of the bolt's hole in the first part: as far as it may go. [mm]"""
    return lay.nut_mm + 2.0 * PAST_NUT_MM


def _half(o: CrossBoltOptions) -> float:
    """Depth of a dowel's hole: half of it and a millimeter. [mm]"""
    return o.dowel[1] / 2.0 + 1.0


def _hole(part: Part, at: Vec, into: Vec, along: Vec, size_mm: tuple[float, float]) -> Hole:
    return Hole(
        frame=part.frame.frame_in(slot_frame(at, into=into, along=along)),
        diameter_mm=size_mm[0],
        depth_mm=size_mm[1],
    )


def _cuts(lay: _Lay, o: CrossBoltOptions) -> tuple[Cut, ...]:
    first, second, back = lay.meeting.first, lay.meeting.second, scale(lay.into, -1.0)
    wide, whole = o.bolt[0] + PLAY_MM, lay.passed_mm + o.recess[0]
    cuts = []
    for spot in lay.bolts:
        through = _hole(
            second, moved(spot, lay.into, -_OVER_MM), lay.into, lay.along, (wide, whole + 2.0 * _OVER_MM)
        )
        cuts.append(Cut(part=second.name, tool=through, what="bolt hole"))
        if o.recess[0] > 0.0:
            far = moved(spot, lay.into, whole + _OVER_MM)
            recess = _hole(second, far, back, lay.along, (o.recess[1], o.recess[0] + _OVER_MM))
            cuts.append(Cut(part=second.name, tool=recess, what="recess"))
        cuts.append(
            Cut(
                part=first.name,
                tool=_hole(first, spot, back, lay.along, (wide, _reach(lay))),
                what="bolt hole",
            )
        )
        nut = _hole(first, _nut_at(lay, spot), lay.bore, lay.along, (o.nut[0], lay.nut_deep_mm))
        cuts.append(Cut(part=first.name, tool=nut, what="nut hole"))
    for spot in lay.dowels:
        for part, into in ((first, back), (second, lay.into)):
            tool = _hole(part, spot, into, lay.along, (o.dowel[0], _half(o)))
            cuts.append(Cut(part=part.name, tool=tool, what="dowel hole"))
    return tuple(cuts)


def _nut_at(lay: _Lay, spot: Vec) -> Vec:
    """Middle of the nut hole's mouth, on the face it is bored from. World. [mm]"""
    at = moved(spot, lay.into, -lay.nut_mm)
    return moved(at, lay.bore, -wood_behind_mm(lay.meeting.first, at, scale(lay.bore, -1.0)))


def _connectors(lay: _Lay, o: CrossBoltOptions) -> tuple[Connector, ...]:
    def bolt_frame(spot: Vec) -> Vec:
        return moved(spot, lay.into, lay.passed_mm - o.bolt[1] / 2.0)

    found = [
        Connector(
            kind=ConnectorKind.BOLT,
            count=len(lay.bolts),
            size_mm=o.bolt,
            drill_mm=(o.bolt[0] + PLAY_MM, o.bolt[1]),
            note="with a washer under its head",
            frames=tuple(slot_frame(bolt_frame(s), into=lay.into, along=lay.along) for s in lay.bolts),
        ),
        Connector(
            kind=ConnectorKind.BARREL_NUT,
            count=len(lay.bolts),
            size_mm=o.nut,
            drill_mm=(o.nut[0], lay.nut_deep_mm),
            note=f"threaded across for bolts of {o.bolt[0]:g} mm, its end slotted",
            frames=tuple(
                slot_frame(moved(s, lay.into, -lay.nut_mm), into=lay.bore, along=lay.along) for s in lay.bolts
            ),
        ),
    ]
    if lay.dowels:
        found.append(
            Connector(
                kind=ConnectorKind.DOWEL,
                count=len(lay.dowels),
                size_mm=o.dowel,
                drill_mm=(o.dowel[0], _half(o)),
                note="glued into the first part alone",
                frames=tuple(slot_frame(s, into=lay.into, along=lay.along) for s in lay.dowels),
            )
        )
    return tuple(found)


def _breaking_nmm(lay: _Lay, o: CrossBoltOptions) -> float | None:
    """What opens the joint about an edge: the nuts' bearing on end grain, by their arms. [N mm]"""
    first = lay.meeting.first
    crushing = None if first.kind is PartKind.SHEET else find_species(first.species).compression_parallel_mpa
    if crushing is None:
        return None
    way = turning_way(first, lay.meeting.second, lay.into) or lay.along
    low, high = lay.meeting.contact.extent(way)
    pull = crushing * o.nut[0] * o.nut[1]
    arms = [(dot(s, way) - low, high - dot(s, way)) for s in lay.bolts]
    return pull * min(sum(low for low, _ in arms), sum(high for _, high in arms))


def _marks(lay: _Lay, o: CrossBoltOptions) -> tuple[Mark, ...]:
    first, second, contact = lay.meeting.first, lay.meeting.second, lay.meeting.contact
    wide = o.bolt[0] + PLAY_MM
    found = []
    for spot in lay.bolts:
        through = lay.passed_mm + o.recess[0]
        note = f"{o.recess[1]:g} mm recess {o.recess[0]:g} mm deep from the far side" if o.recess[0] else ""
        found += [
            _mark(second, spot, contact.second_face, (wide, through), note=note),
            _mark(first, spot, contact.first_face, (wide, _reach(lay)), note="for the bolt"),
        ]
        at = _nut_at(lay, spot)
        face = named_face(first, face_direction(scale(lay.bore, -1.0)))
        found.append(
            _mark(
                first,
                at,
                face.label if face else "thickness+",
                (o.nut[0], lay.nut_deep_mm),
                note="for the nut: it meets the bolt's hole",
            )
        )
    for spot in lay.dowels:
        for part, label in ((first, contact.first_face), (second, contact.second_face)):
            found.append(_mark(part, spot, label, (o.dowel[0], _half(o)), note="for a dowel"))
    return tuple(found)


def _mark(part: Part, at: Vec, label: str, size_mm: tuple[float, float], *, note: str) -> Mark:
    spot = spot_on(part, at, label)
    return Mark(
        part=part.name,
        kind=MarkKind.HOLE,
        **spot.measured,
        length_mm=size_mm[0],
        width_mm=size_mm[0],
        depth_mm=size_mm[1],
        fit=Fit.TIGHT,
        setup=f"{size_mm[0]:g} mm bit, {math.ceil(size_mm[1] * 10.0 - 1e-9) / 10.0:g} mm deep, "
        f"{'end' if spot.on_end else 'side'}",
        note=note,
    )
