"""A drawer's runner or kicker on the side of a case: kept at its front, free to slide behind.

The runner lies along the drawer's way and so across the grain of a solid side, which gets narrower and
wider beside it. Planted on the side, or let into a housing as deep as it is drawn in.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.joinery.fastening import pilot_share
from scantling.joinery.fitting import Hollow, cannot_be_made, check_depth, wood_behind_mm
from scantling.joinery.lying import Lie, lie_of
from scantling.joinery.meeting import grain_angle_deg, slot_frame, spot_on
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
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
    Hole,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
    Slot,
    Tool,
)
from scantling.piece.convex import body_of, face_direction, named_face
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Frame, dot, scale
from scantling.piece.model import Direction, JointRequest

__all__ = ["BACK_END", "DrawerRunner", "DrawerRunnerOptions"]

BACK_END = "back end of the runner"
_LEAST_TRAVEL_MM = 0.2
_OVER_MM = 2.0


class DrawerRunnerOptions(JointOptions):
    """A runner (first), lying on the side of a case or drawn into it, and that side (second)."""

    kind: Literal["drawer_runner"]
    front: Direction = Direction.FRONT
    """The end at which it is kept still: by a rail, by glue, or by its first screw, which is close to it."""
    glued: Length = Field(default=0, ge=0)
    """Length glued from that end on; the side moves across the rest."""
    play: Length = Field(default=0.2, ge=0, le=2)
    """How much higher a housing is than the runner."""
    screw: tuple[PositiveLength, PositiveLength] = (4.0, 35.0)
    """Diameter and length of the screws."""
    screws: Count | None = Field(default=None, ge=0, le=12)
    """Screws; left out, one each 250 mm, two at least."""
    inset: Length = Field(default=30, gt=0)
    """From the ends of the runner to its first and last screw."""
    counterbore: Length = Field(default=0, ge=0)
    """How deep the screw heads are let in."""
    head: Length = Field(default=9, gt=0)
    """Diameter of head and washer."""
    slot: Length | None = Field(default=None, gt=0)
    """Length of the slots; left out, as the room's year asks for."""
    clearance: Length = Field(default=0.5, ge=0)
    """Room at each end of a slot beyond the travel of a board as lively as one in twenty."""
    back: Length | None = Field(default=None, ge=0)
    """How much of the side, from its rear edge, the back takes up: the runner must stay clear of it."""


class DrawerRunner:
    """The drawer-runner family."""

    name = "drawer_runner"
    options_model = DrawerRunnerOptions
    strength = staticmethod(metal.fastened)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Housing, screws in slots, glue at the front, and what the side's movement asks of all of them."""
        o = joint.options
        assert isinstance(o, DrawerRunnerOptions)
        lie = lie_of(joint, context, front=o.front)
        _check(joint, lie, o)
        cuts, marks = [], []
        if lie.depth_mm > 1e-6:
            cuts.append(_housing(lie, o))
            marks.append(_housing_mark(lie, o))
        freedoms, screws = [], _screw_places(lie, o)
        for k, along in enumerate(screws):
            moves = _moves(lie, along, context)
            free = moves.shrink_mm + moves.swell_mm > _LEAST_TRAVEL_MM
            asked = moves if o.slot else _moves(lie, along, context, lively=True)
            cut = _SlotCut.of(asked, o) if free else _SlotCut(length_mm=o.screw[0], bias_mm=0.0)
            cuts += _screw_cuts(lie, along, cut, o)
            marks.append(_screw_mark(lie, along, cut, o))
            if free:
                freedoms.append(_freedom(lie, f"screw slot {k + 1}", along, moves, cut=cut, o=o))
        freedoms += _back_end(lie, context, o)
        turned = grain_angle_deg(lie.runner, lie.side)
        glued = min(o.glued, lie.length_mm)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=lie.runner.name,
            second=lie.side.name,
            at=lie.middle,
            leaves=scale(lie.into, -1.0),
            cuts=tuple(cuts),
            marks=tuple(marks),
            connectors=_connectors(lie, screws, o, slotted=bool(freedoms)),
            glue=(
                GlueFace(
                    parts=(lie.runner.name, lie.side.name),
                    area_mm2=glued * (lie.high_up_mm + 2.0 * lie.depth_mm),
                    grain_angle_deg=turned,
                    end_grain_share=0.0,
                    cross_span_mm=glued if turned > 30.0 else 0.0,
                    length_mm=glued,
                ),
            )
            if glued > 0.0
            else (),
            freedoms=tuple(freedoms),
            clamp=ClampNeed(direction=lie.into, area_mm2=glued * lie.high_up_mm) if glued > 0.0 else None,
            dry=glued <= 0.0,
            steps=_steps(o, slotted=bool(freedoms)),
        )


def _check(joint: JointRequest, lie: Lie, o: DrawerRunnerOptions) -> None:
    """Refuse a housing that comes out, and screws that do not reach or come through."""
    if lie.depth_mm > 0.0:
        hollow = Hollow(at=lie.middle, into=lie.into, depth_mm=lie.depth_mm, what="housing")
        check_depth(joint, "", lie.side, hollow=hollow)
    if not _screw_places(lie, o):
        return
    bite = _bite(lie, o)
    wood = wood_behind_mm(lie.side, lie.at(0.0, lie.depth_mm), lie.into)
    if o.counterbore >= lie.through_mm - 0.01:
        option, code = "counterbore", "deeper_than_part"
        value, rule = f"{o.counterbore:.1f} mm in {lie.through_mm:.1f} mm", "leave wood under the heads"
    elif bite <= 0.0:
        option, code = "screw", "screw_too_short"
        value = f"{o.screw[1]:.1f} mm through {lie.through_mm - o.counterbore:.1f} mm"
        rule = "reach the side"
    elif bite > wood - 0.01:
        option, code = "screw", "screw_too_long"
        value, rule = f"{bite:.1f} mm into {wood:.1f} mm of {lie.side.name}", "end inside the side"
    else:
        return
    remedy = "Change its length, or how deep its head is let in."
    raise cannot_be_made(joint, option, code=code, value=value, rule=f"must {rule}", remedy=remedy)


def _bite(lie: Lie, o: DrawerRunnerOptions) -> float:
    """How far a screw stands in the side. [mm]"""
    return o.screw[1] - (lie.through_mm - o.counterbore)


def _screw_places(lie: Lie, o: DrawerRunnerOptions) -> tuple[float, ...]:
    """Along the runner, the first nearest its front. [mm]"""
    count = max(2, round(lie.length_mm / 250.0)) if o.screws is None else int(o.screws)
    if count == 0:
        return ()
    inset = min(o.inset, lie.length_mm / 4.0)
    if count == 1:
        return (lie.high_mm - inset,)
    step = (lie.length_mm - 2.0 * inset) / (count - 1)
    return tuple(lie.low_mm + inset + k * step for k in range(count))


def _still_mm(lie: Lie) -> float:
    """Where the side is held to the runner: at the runner's front end, across the side's width. [mm]"""
    return lie.side.frame.local(lie.at(lie.low_mm))[1]


def _moves(lie: Lie, along_mm: float, context: JointContext, *, lively: bool = False) -> Travel:
    """Travel of the side over a place of the runner; none where their grains run alike."""
    if abs(dot(lie.side.frame.width, lie.along)) < 0.7:
        return Travel(shrink_mm=0.0, swell_mm=0.0)
    held = _still_mm(lie)
    y = lie.side.frame.local(lie.at(along_mm))[1] - held
    return travel(lie.side, y, context.moisture, fixed_at_mm=held, lively=lively)


@dataclass(frozen=True, slots=True, kw_only=True)
class _SlotCut:
    """A slot's length, and how far its middle stands in front of the screw at build. [mm]"""

    length_mm: float
    bias_mm: float

    @classmethod
    def of(cls, moves: Travel, o: DrawerRunnerOptions) -> _SlotCut:
        """The slot a travel asks for: the screw goes with the side, forward when it dries."""
        asked = o.screw[0] + moves.shrink_mm + moves.swell_mm + 2.0 * o.clearance
        long = asked if o.slot is None else max(o.slot, o.screw[0])
        return cls(length_mm=long, bias_mm=-moves.bias_mm)


def _housing(lie: Lie, o: DrawerRunnerOptions) -> Cut:
    """The housing, run out where the runner reaches an edge of the side."""
    base = dot(lie.middle, lie.along)
    edges = [edge - base for edge in body_of(lie.side).extent(lie.along)]
    low = lie.low_mm - (_OVER_MM if abs(lie.low_mm - edges[0]) < 0.1 else 0.0)
    high = lie.high_mm + (_OVER_MM if abs(lie.high_mm - edges[1]) < 0.1 else 0.0)
    tool = Box(
        frame=lie.side.frame.frame_in(
            slot_frame(lie.at((low + high) / 2.0, -_OVER_MM), into=lie.into, along=lie.along)
        ),
        length_mm=lie.depth_mm + _OVER_MM,
        width_mm=high - low,
        thickness_mm=lie.high_up_mm + o.play,
    )
    return Cut(part=lie.side.name, tool=tool, what="housing")


def _screw_cuts(lie: Lie, along_mm: float, cut: _SlotCut, o: DrawerRunnerOptions) -> list[Cut]:
    """The slot and its counterbore through the runner, the pilot hole in the side."""
    slot_at = along_mm - cut.bias_mm
    start = lie.at(slot_at, lie.depth_mm - lie.through_mm - _OVER_MM)
    frame = lie.runner.frame.frame_in(slot_frame(start, into=lie.into, along=lie.along))
    through = lie.through_mm + 2.0 * _OVER_MM
    cuts = [
        Cut(part=lie.runner.name, tool=_slot(frame, cut.length_mm, o.screw[0], through), what="screw slot")
    ]
    if o.counterbore > 0.0:
        long = cut.length_mm - o.screw[0] + o.head
        tool = _slot(frame, long, o.head, o.counterbore + _OVER_MM)
        cuts.append(Cut(part=lie.runner.name, tool=tool, what="counterbore"))
    over = 0.0 if lie.depth_mm > 1e-6 else _OVER_MM
    pilot = slot_frame(lie.at(along_mm, lie.depth_mm - over), into=lie.into, along=lie.along)
    hole = Hole(
        frame=lie.side.frame.frame_in(pilot),
        diameter_mm=pilot_share(lie.side) * o.screw[0],
        depth_mm=_bite(lie, o) + over,
    )
    cuts.append(Cut(part=lie.side.name, tool=hole, what="pilot hole"))
    return cuts


def _slot(frame: Frame, long_mm: float, wide_mm: float, deep_mm: float) -> Tool:
    """A slot, or the round hole it is where it is no longer than wide."""
    if long_mm > wide_mm + 1e-9:
        return Slot(frame=frame, length_mm=long_mm, width_mm=wide_mm, depth_mm=deep_mm)
    return Hole(frame=frame, diameter_mm=wide_mm, depth_mm=deep_mm)


def _freedom(
    lie: Lie, what: str, along_mm: float, moves: Travel, *, cut: _SlotCut, o: DrawerRunnerOptions
) -> Freedom:
    half = (cut.length_mm - o.screw[0]) / 2.0
    return Freedom(
        part=lie.side.name,
        what=what,
        at=lie.at(along_mm),
        from_fixed_mm=along_mm - lie.low_mm,
        shrink_travel_mm=moves.shrink_mm,
        swell_travel_mm=moves.swell_mm,
        shrink_room_mm=half + cut.bias_mm,
        swell_room_mm=half - cut.bias_mm,
        cut_to_mm=cut.length_mm,
        bias_mm=cut.bias_mm,
    )


def _back_end(lie: Lie, context: JointContext, o: DrawerRunnerOptions) -> tuple[Freedom, ...]:
    """The room behind the runner: the drying side brings the back toward it."""
    if o.back is None:
        return ()
    rear = body_of(lie.side).extent(lie.along)[1] - dot(lie.middle, lie.along) - o.back
    moves = _moves(lie, rear, context)
    return (
        Freedom(
            part=lie.side.name,
            what=BACK_END,
            at=lie.at(lie.high_mm),
            from_fixed_mm=rear - lie.low_mm,
            shrink_travel_mm=moves.shrink_mm,
            swell_travel_mm=0.0,
            shrink_room_mm=rear - lie.high_mm,
            swell_room_mm=rear - lie.high_mm,
        ),
    )


def _housing_mark(lie: Lie, o: DrawerRunnerOptions) -> Mark:
    face = named_face(lie.side, face_direction(scale(lie.into, -1.0)))
    spot = spot_on(lie.side, lie.middle, face.label if face else "thickness+")
    return Mark(
        part=lie.side.name,
        kind=MarkKind.HOUSING,
        on_end=False,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=lie.length_mm,
        width_mm=lie.high_up_mm + o.play,
        depth_mm=lie.depth_mm,
        fit=Fit.SLIDING,
        angle_deg=0.0 if abs(dot(lie.along, lie.side.frame.grain)) > 0.7 else 90.0,
        setup=f"{lie.high_up_mm:g} mm housings for runners, {lie.depth_mm:g} mm deep",
        note="both sides from one story stick, or the drawers rock",
    )


def _screw_mark(lie: Lie, along_mm: float, cut: _SlotCut, o: DrawerRunnerOptions) -> Mark:
    at = lie.at(along_mm - cut.bias_mm, lie.depth_mm - lie.through_mm)
    face = named_face(lie.runner, face_direction(scale(lie.into, -1.0)))
    spot = spot_on(lie.runner, at, face.label if face else "width-")
    slotted = cut.length_mm > o.screw[0] + 1e-9
    return Mark(
        part=lie.runner.name,
        kind=MarkKind.SLOT if slotted else MarkKind.HOLE,
        on_end=False,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=cut.length_mm,
        width_mm=o.screw[0],
        depth_mm=lie.through_mm,
        fit=Fit.SLIDING if slotted else Fit.TIGHT,
        setup=f"{o.screw[0]:g} mm screw slots or holes",
        note=f"heads let in {o.counterbore:g} mm" if o.counterbore > 0.0 else "",
    )


def _connectors(
    lie: Lie, screws: tuple[float, ...], o: DrawerRunnerOptions, *, slotted: bool
) -> tuple[Connector, ...]:
    if not screws:
        return ()
    middle = lie.depth_mm - lie.through_mm + o.counterbore + o.screw[1] / 2.0
    return (
        Connector(
            kind=ConnectorKind.SCREW,
            count=len(screws),
            size_mm=o.screw,
            drill_mm=(pilot_share(lie.side) * o.screw[0], _bite(lie, o)),
            note=f"round head and washer{'; snug, not tight, in the slots' if slotted else ''}",
            frames=tuple(
                slot_frame(lie.at(place, middle), into=lie.into, along=lie.along) for place in screws
            ),
        ),
    )


def _steps(o: DrawerRunnerOptions, *, slotted: bool) -> tuple[str, ...]:
    steps = [
        "Mark both sides of the case together, and set the runners by one spacer: level, square to the "
        "front, and out of wind with each other.",
    ]
    if o.glued > 0.0:
        steps.append(f"Glue the first {o.glued:.0f} mm behind the front only; the side moves past the rest.")
    if slotted:
        steps.append("Drive the screws in the slots snug enough to hold and loose enough to slide.")
    steps.append("Wax the runner where the drawer bears; no finish there.")
    return tuple(steps)
