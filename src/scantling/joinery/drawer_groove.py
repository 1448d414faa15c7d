"""A drawer hung by its sides: a groove in each that runs on a wooden runner of the case."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import Hollow, cannot_be_made, check_depth
from scantling.joinery.lying import Lie, lie_of
from scantling.joinery.meeting import slot_frame, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import (
    Box,
    Cut,
    Fit,
    Freedom,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.convex import body_of, face_direction, named_face
from scantling.piece.files import Length
from scantling.piece.geometry import dot, scale
from scantling.piece.model import Direction, JointRequest

__all__ = ["DrawerGroove", "DrawerGrooveOptions"]

_LEAST_BESIDE_MM = 4.0
"""Wood of a drawer's side left behind its groove: a third of 12 mm (common practice). [mm]"""
_OVER_MM = 2.0


class DrawerGrooveOptions(JointOptions):
    """A groove in a drawer's side (first) that runs on a runner of the case (second), drawn into the side."""

    kind: Literal["drawer_groove"]
    front: Direction = Direction.FRONT
    """The way the drawer comes out."""
    height: Length | None = Field(default=None, gt=0)
    """Height of the groove; left out, the runner's with what it swells, and the play."""
    play: Length = Field(default=0.5, ge=0, le=3)
    """How much higher the groove is than the runner, in the damp season too."""
    room: Length = Field(default=0.5, ge=0, le=5)
    """How much deeper the groove is than the runner stands in."""
    stop: Length = Field(default=0, ge=0)
    """Room left in front of the runner's end; 0 makes it the drawer's stop."""
    guided: Length | None = Field(default=None, gt=0)
    """Length still on the runner when the drawer is out; left out, a third of the drawer."""


class DrawerGroove:
    """The drawer-groove family."""

    name = "drawer_groove"
    options_model = DrawerGrooveOptions
    strength = staticmethod(cases.floating)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The groove, stopped at the front and open at the back, high enough for the damp season."""
        o = joint.options
        assert isinstance(o, DrawerGrooveOptions)
        lie = lie_of(replace(joint, first=joint.second, second=joint.first), context, front=o.front)
        _check(joint, lie, o)
        moves = _moves(lie, context)
        high = lie.high_up_mm + moves.swell_mm + o.play if o.height is None else o.height
        groove, long = _groove(lie, o, high_mm=high)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=lie.side.name,
            second=lie.runner.name,
            at=lie.middle,
            leaves=scale(lie.along, -1.0),
            cuts=(groove,),
            marks=(_mark(lie, o, long_mm=long, high_mm=high),),
            freedoms=(_freedom(lie, moves, high_mm=high),),
            dry=True,
            passes=True,
            steps=(
                "Plow the grooves of a pair with one setting, from the lower edges of both sides.",
                "Stop the groove at the front; where the runner is to stop the drawer, its end decides.",
                "Plane the runners until the drawer runs by hand; wax both, no finish there.",
            ),
        )


def _check(joint: JointRequest, lie: Lie, o: DrawerGrooveOptions) -> None:
    """Refuse a runner that does not stand in the side, and a groove that leaves too little of it."""
    if lie.depth_mm <= 0.0:
        raise cannot_be_made(
            joint,
            "",
            code="runner_beside_drawer",
            value=f"{lie.runner.name}, which only touches {lie.side.name}",
            rule="must be drawn into the drawer's side, as deep as it runs in its groove",
            remedy="Draw the runner wider, or the drawer nearer.",
        )
    deep = lie.depth_mm + o.room
    hollow = Hollow(at=lie.middle, into=lie.into, depth_mm=deep + _LEAST_BESIDE_MM, what="groove and wood")
    check_depth(joint, "room", lie.side, hollow=hollow)


def _moves(lie: Lie, context: JointContext) -> Travel:
    """Of the runner's height; little, and taken as none, where it lies on its broad face."""
    if abs(dot(lie.runner.frame.width, lie.up)) < 0.7:
        return Travel(shrink_mm=0.0, swell_mm=0.0)
    return travel(lie.runner, lie.high_up_mm, context.moisture)


def _groove(lie: Lie, o: DrawerGrooveOptions, *, high_mm: float) -> tuple[Cut, float]:
    """The groove from the runner's front end out through the side's back, and its length. [mm]"""
    back = body_of(lie.side).extent(lie.along)[1] - dot(lie.middle, lie.along)
    front = lie.low_mm - o.stop
    frame = slot_frame(
        lie.at((front + back + _OVER_MM) / 2.0, -_OVER_MM),
        into=lie.into,
        along=lie.along,
    )
    tool = Box(
        frame=lie.side.frame.frame_in(frame),
        length_mm=lie.depth_mm + o.room + _OVER_MM,
        width_mm=back + _OVER_MM - front,
        thickness_mm=high_mm,
    )
    return Cut(part=lie.side.name, tool=tool, what="groove"), back - front


def _mark(lie: Lie, o: DrawerGrooveOptions, *, long_mm: float, high_mm: float) -> Mark:
    face = named_face(lie.side, face_direction(scale(lie.into, -1.0)))
    back = body_of(lie.side).extent(lie.along)[1] - dot(lie.middle, lie.along)
    spot = spot_on(lie.side, lie.at(back - long_mm / 2.0), face.label if face else "thickness+")
    return Mark(
        part=lie.side.name,
        kind=MarkKind.GROOVE,
        on_end=False,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=long_mm,
        width_mm=high_mm,
        depth_mm=lie.depth_mm + o.room,
        fit=Fit.SLIDING,
        setup=f"{high_mm:.1f} mm grooves for runners, {lie.depth_mm + o.room:g} mm deep",
        note="stopped in front, out at the back",
    )


def _freedom(lie: Lie, moves: Travel, *, high_mm: float) -> Freedom:
    return Freedom(
        part=lie.runner.name,
        what="runner in its groove",
        at=lie.middle,
        from_fixed_mm=lie.high_up_mm,
        shrink_travel_mm=moves.shrink_mm,
        swell_travel_mm=moves.swell_mm,
        shrink_room_mm=moves.shrink_mm + high_mm - lie.high_up_mm,
        swell_room_mm=high_mm - lie.high_up_mm,
        cut_to_mm=high_mm,
    )
