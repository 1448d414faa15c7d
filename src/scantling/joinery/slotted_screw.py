"""Screws in slots: what moves with the seasons, screwed to what does not, tight at one place only.

Mostly a rail or batten carries the slots and the top it holds moves. A drawer bottom is the other way
round: it carries the slots itself, is kept still at its front, and its back edge moves under the screws.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import cannot_be_made, still_edge_mm, wood_behind_mm
from scantling.joinery.meeting import Meeting, meet, moved, row, slot_frame, spot_on
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import (
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    Freedom,
    Hole,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
    Slot,
    Tool,
)
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Frame, Vec, dot, scale, sub
from scantling.piece.model import Direction, JointRequest, Part

__all__ = ["Holds", "SlottedScrew", "SlottedScrewOptions"]

LEAST_TRAVEL_MM = 0.2
"""Travel that a plain clearance hole takes up (common practice). [mm]"""
_OVER_MM = 2.0


class Holds(StrEnum):
    """What keeps the part that moves in its place across the grain."""

    MIDDLE = "middle"
    ROW = "row"


class SlottedScrewOptions(JointOptions):
    """Screws through a batten or rail (first) into the part it holds (second)."""

    kind: Literal["slotted_screw"]
    screw: tuple[PositiveLength, PositiveLength] = (5.0, 40.0)
    """Diameter and length of the screws."""
    count: Count | None = Field(default=None, ge=1, le=40)
    """Screws; left out, by the spacing."""
    spacing: Length = Field(default=300, gt=0)
    """Greatest distance between screws."""
    inset: Length = Field(default=50, ge=0)
    """From the ends of the batten to the first screw."""
    counterbore: Length = Field(default=0, ge=0)
    """How deep the screw heads are let in from below."""
    head: Length = Field(default=10, gt=0)
    """Diameter of head and washer."""
    slot: Length | None = Field(default=None, gt=0)
    """Length of the slots; left out, as the room's year asks for."""
    clearance: Length = Field(default=0.5, ge=0)
    """Room at each end of a slot beyond the travel of a board as lively as one in twenty."""
    holds: Holds = Holds.MIDDLE
    """Where the part held is kept still: at its middle, or at this row (its screw nearest the middle)."""
    still: Direction | None = None
    """Edge at which the first part itself is kept still and moves from; left out, the second part moves."""


class SlottedScrew:
    """The slotted-screw family."""

    name = "slotted_screw"
    options_model = SlottedScrewOptions
    strength = staticmethod(metal.fastened)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Slots through the batten, pilot holes in what it holds, and whether every slot is long enough."""
        o = joint.options
        assert isinstance(o, SlottedScrewOptions)
        meeting = meet(joint, context)
        batten, top = meeting.first, meeting.second
        _check(joint, meeting, o)
        count = None if o.count is None else int(o.count)
        places = row(meeting, count=count, spacing_mm=o.spacing, inset_mm=o.inset, odd=True)
        mover = top if o.still is None else batten
        fixed, held_at = (
            _held(top, places, o) if o.still is None else (None, still_edge_mm(joint, batten, o.still))
        )
        slides = _slides(meeting, mover)
        cuts, marks, freedoms, frames = [], [], [], []
        for k, place in enumerate(places):
            y = mover.frame.local(place)[1] - held_at
            t, lively = (
                travel(mover, y if slides else 0.0, context.moisture, fixed_at_mm=held_at, lively=each)
                for each in (False, True)
            )
            free = place != fixed and (t.shrink_mm + t.swell_mm > LEAST_TRAVEL_MM or o.slot is not None)
            auto = o.screw[0] + lively.shrink_mm + lively.swell_mm + 2.0 * o.clearance
            length = (o.slot or auto) if free else o.screw[0]
            # A screw that rides with the top comes, dry, toward the fixed one; a slot that rides with its
            # own part comes toward that part's still edge, and the screw stands farther out in it.
            toward = lively.bias_mm if o.still is None else -lively.bias_mm
            bias = toward if free and o.slot is None else 0.0
            shift = scale(mover.frame.width, bias if y > 0 else -bias)
            at = (place[0] + shift[0], place[1] + shift[1], place[2] + shift[2])
            cuts.extend(_cuts(meeting, place, at, o=o, length=length))
            marks.append(_mark(meeting, at, o, length=length, free=free, bias=bias))
            frames.append(_screw_frame(meeting, place, o))
            if free:
                what = f"screw slot {k + 1}"
                cut = _SlotCut(length_mm=length, width_mm=o.screw[0], bias_mm=bias, rides=o.still is not None)
                freedoms.append(_freedom(what, mover, place, t, from_fixed_mm=abs(y), slot=cut))
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=batten.name,
            second=top.name,
            at=meeting.contact.center,
            leaves=scale(meeting.contact.normal, -1.0),
            cuts=tuple(cuts),
            marks=tuple(marks),
            freedoms=tuple(freedoms),
            connectors=(
                Connector(
                    kind=ConnectorKind.SCREW,
                    count=len(places),
                    size_mm=o.screw,
                    drill_mm=(0.9 * 0.7 * o.screw[0], _bite(meeting, o)),
                    note=f"round head and washer{'; snug, not tight, in the slots' if freedoms else ''}",
                    frames=tuple(frames),
                ),
            ),
            dry=True,
            steps=_steps(o, slotted=bool(freedoms)),
        )


def _steps(o: SlottedScrewOptions, *, slotted: bool) -> tuple[str, ...]:
    if not slotted:
        return (
            "Bore plain holes: nothing moves here that the screws would hold.",
            "Drive the screws from the middle outward.",
        )
    if o.still is None:
        return (
            "Bore and slot the batten; ease the slots' edges and wax them.",
            "Drive the middle screw tight, the others snug enough to hold and loose enough to slide.",
        )
    return (
        "Slot the part that moves before it goes in; ease the slots' edges and wax them.",
        f"It is kept still at its {o.still.value}: no glue on any other edge.",
        "Drive every screw snug enough to hold and loose enough to slide.",
    )


def _held(top: Part, places: list[Vec], o: SlottedScrewOptions) -> tuple[Vec | None, float]:
    """The screw that is tight whatever it travels, and the line across the grain where the top is still.

    A row that runs across the grain is tight at its screw nearest the middle. A row along the grain would
    be tight as a whole, and two such rows would trap the top: it is slotted unless it is the one that holds.
    """
    across_grain = [top.frame.local(place)[1] for place in places]
    nearest = min(range(len(places)), key=lambda k: abs(across_grain[k]))
    runs_along = max(across_grain) - min(across_grain) < 1.0
    if runs_along and o.holds is Holds.MIDDLE:
        return None, 0.0
    return places[nearest], across_grain[nearest]


def _check(joint: JointRequest, meeting: Meeting, o: SlottedScrewOptions) -> None:
    """Refuse a screw that does not reach, or comes through, and heads let in too deep."""
    through, bite = _through(meeting), _bite(meeting, o)
    wood = wood_behind_mm(meeting.second, meeting.contact.center, meeting.contact.normal)
    if o.counterbore >= through - 0.01:
        option, code = "counterbore", "deeper_than_part"
        value, rule = f"{o.counterbore:.1f} mm in {through:.1f} mm", "leave wood under the heads"
    elif bite <= 0.0:
        option, code = "screw", "screw_too_short"
        value, rule = f"{o.screw[1]:.1f} mm through {through:.1f} mm", "reach the part held"
    elif bite > wood - 0.01:
        option, code = "screw", "screw_too_long"
        value, rule = f"{bite:.1f} mm into {wood:.1f} mm of {meeting.second.name}", "end inside the part held"
    elif o.slot is not None and o.slot < o.screw[0]:
        option, code = "slot", "slot_too_short"
        value, rule = f"{o.slot:.1f} mm for a {o.screw[0]:.1f} mm screw", "let the screw in"
    else:
        return
    remedy = "Change its length, or how deep its head is let in."
    raise cannot_be_made(joint, option, code=code, value=value, rule=f"must {rule}", remedy=remedy)


@dataclass(frozen=True, slots=True, kw_only=True)
class _SlotCut:
    """A slot: its size, its center's shift away from the still place, and whether it moves or the screw."""

    length_mm: float
    width_mm: float
    bias_mm: float
    rides: bool


def _freedom(
    what: str, mover: Part, place: Vec, t: Travel, *, from_fixed_mm: float, slot: _SlotCut
) -> Freedom:
    """One slot's travel and room."""
    half = (slot.length_mm - slot.width_mm) / 2.0
    toward = slot.bias_mm if slot.rides else -slot.bias_mm
    return Freedom(
        part=mover.name,
        what=what,
        at=place,
        from_fixed_mm=from_fixed_mm,
        shrink_travel_mm=t.shrink_mm,
        swell_travel_mm=t.swell_mm,
        shrink_room_mm=half + toward,
        swell_room_mm=half - toward,
        cut_to_mm=slot.length_mm,
        bias_mm=-slot.bias_mm,
    )


def _through(meeting: Meeting) -> float:
    """Thickness of the batten where the screws go through. [mm]"""
    part, normal = meeting.first, meeting.contact.normal
    return part.thickness_mm if abs(dot(normal, part.frame.thickness)) > 0.7 else part.width_mm


def _bite(meeting: Meeting, o: SlottedScrewOptions) -> float:
    """How far the screw reaches into the part held. [mm]"""
    return max(0.0, o.screw[1] - (_through(meeting) - o.counterbore))


def _cuts(meeting: Meeting, place: Vec, at: Vec, *, o: SlottedScrewOptions, length: float) -> list[Cut]:
    batten, top, up = meeting.first, meeting.second, meeting.contact.normal
    through = _through(meeting)
    under = moved(at, up, -through - _OVER_MM)
    along = _along(meeting, top if o.still is None else batten)
    frame = batten.frame.frame_in(slot_frame(under, into=up, along=along))
    cuts = [
        Cut(
            part=batten.name,
            tool=Slot(frame=frame, length_mm=length, width_mm=o.screw[0], depth_mm=through + 2 * _OVER_MM),
            what="screw slot",
        )
        if length > o.screw[0] + 1e-9
        else Cut(
            part=batten.name,
            tool=Hole(frame=frame, diameter_mm=o.screw[0], depth_mm=through + 2 * _OVER_MM),
            what="screw hole",
        )
    ]
    if o.counterbore > 0.0:
        long, deep = length - o.screw[0] + o.head, o.counterbore + _OVER_MM
        tool: Tool = Hole(frame=frame, diameter_mm=o.head, depth_mm=deep)
        if long > o.head + 1e-9:
            tool = Slot(frame=frame, length_mm=long, width_mm=o.head, depth_mm=deep)
        cuts.append(Cut(part=batten.name, tool=tool, what="counterbore"))
    pilot = top.frame.frame_in(slot_frame(moved(place, up, -_OVER_MM), into=up, along=along))
    cuts.append(
        Cut(
            part=top.name,
            tool=Hole(frame=pilot, diameter_mm=0.63 * o.screw[0], depth_mm=_bite(meeting, o) + _OVER_MM),
            what="pilot hole",
        )
    )
    return cuts


def _along(meeting: Meeting, mover: Part) -> Vec:
    """Direction of the slots: across the grain of the part that moves, in the plane of contact."""
    normal, width = meeting.contact.normal, mover.frame.width
    flat = sub(width, scale(normal, dot(width, normal)))
    size = math.sqrt(dot(flat, flat))
    return scale(flat, 1.0 / size) if size > 0.5 else meeting.first.frame.grain


def _slides(meeting: Meeting, mover: Part) -> bool:
    """Whether the movement lies in the plane of contact, and not along the screws."""
    return abs(dot(mover.frame.width, meeting.contact.normal)) < 0.7


def _screw_frame(meeting: Meeting, place: Vec, o: SlottedScrewOptions) -> Frame:
    up = meeting.contact.normal
    head = moved(place, up, -_through(meeting) + o.counterbore + o.screw[1] / 2.0)
    return slot_frame(
        head, into=up, along=_along(meeting, meeting.second if o.still is None else meeting.first)
    )


def _mark(
    meeting: Meeting, at: Vec, o: SlottedScrewOptions, *, length: float, free: bool, bias: float
) -> Mark:
    batten = meeting.first
    spot = spot_on(batten, at, meeting.contact.first_face)
    return Mark(
        part=batten.name,
        kind=MarkKind.SLOT if free else MarkKind.HOLE,
        **spot.measured,
        length_mm=length,
        width_mm=o.screw[0],
        depth_mm=_through(meeting),
        fit=Fit.SLIDING if free else Fit.TIGHT,
        setup=f"{o.screw[0]:g} mm screw slots or holes",
        note=f"center {abs(bias):.2f} mm {'outward' if bias > 0 else 'inward'}"
        if free
        else "a plain hole: it holds, or it hardly moves here",
    )
