"""Panel in grooves: a floating panel's edge let into a rail or stile, free to change its width."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.errors import InputError
from scantling.joinery.fitting import Hollow, cannot_be_made, check_depth
from scantling.joinery.meeting import crossing, moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions
from scantling.joinery.panel_pin import PanelPin, panel_pin
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
from scantling.piece.convex import Body, Face, body_of, face_direction, named_face
from scantling.piece.files import Length
from scantling.piece.geometry import Vec, cross, dot, norm, scale, sub, unit
from scantling.piece.model import Direction, End, JointRequest, Part
from scantling.wood.moisture import MoistureRange

__all__ = ["GROOVE", "Held", "PanelGroove", "PanelGrooveOptions", "edge_travel"]

GROOVE = "panel groove"
"""What its groove is called among the cuts of a part."""
_OVER_MM = 2.0
END_ROOM_MM = 1.0
"""Room past a panel along its grain, where it hardly moves: for dust and a hair of length. [mm]"""
_AT_END = 0.7
_FACES = 0.5
_LEAST_LEAN_DEG = 0.1
_STILL = 0.05
"""Of the change in width less than this is felt at a side that all but runs across the grain. [1]"""
_PIN_IN_MM = 15.0
"""A pin at an edge that is held stands this far in from it. [mm]"""


class Held(StrEnum):
    """Where a panel is kept still: pinned at its middle or near one edge, or nowhere."""

    MIDDLE = "middle"
    LOOSE = "loose"
    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"
    BOTTOM = "bottom"
    TOP = "top"


class PanelGrooveOptions(JointOptions):
    """A side of a panel (first, drawn standing in the wood) in a groove of a rail or stile (second)."""

    kind: Literal["panel_groove"]
    tongue: Length | None = Field(default=None, gt=0)
    """Thickness of the tongue, which the groove fits; left out, the panel's own."""
    shift: Length = 0.0
    """Moves a thinner tongue from the middle of the panel's thickness."""
    depth: Length | None = Field(default=None, gt=0)
    """Depth of the groove; left out, as the room's year asks for."""
    clearance: Length = Field(default=0.5, ge=0)
    """Room left behind the tongue when the panel is widest."""
    play: Length = Field(default=0.2, ge=0, le=2)
    """How much wider the groove is than the tongue is thick."""
    held: Held = Held.MIDDLE
    """Where the panel is pinned: at its middle, near the edge named, or not at all (loose)."""
    pin: Length = Field(default=3, gt=0)
    """Diameter of the pin in each rail that the panel's ends stand in."""
    through: bool = False
    """Whether the groove runs from end to end of its part, or only as far as the panel."""


def edge_travel(
    panel: Part, held: Held, moisture: MoistureRange, *, held_here: bool = False, toward: float = 1.0
) -> Travel:
    """Travel of one edge of a panel in its groove.

    Pinned at its middle a panel moves half at each edge; at one edge, all at the other. Loose, it can lie
    hard in one groove: the other then loses the whole of the shrinkage, and swelling is shared as before.

    Parameters
    ----------
    panel
        The panel.
    held
        Where it is pinned.
    moisture
        Build, driest and wettest. [%]
    held_here
        Whether this edge is the one held.
    toward
        +1 for the edge at +v of the panel, -1 for the other: strips of other rings may lie there.

    References
    ----------
    .. [1] USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010, ch. 13, eq. 13-2.
    """
    half, whole = (travel(panel, panel.width_mm * share, moisture) for share in (0.5 * toward, 1.0))
    if held is Held.MIDDLE:
        return half
    if held is Held.LOOSE:
        return Travel(shrink_mm=whole.shrink_mm, swell_mm=half.swell_mm)
    return Travel(shrink_mm=0.0, swell_mm=0.0) if held_here else whole


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """One side of the panel in its groove, in the world.

    Parameters
    ----------
    into
        From the panel into the other part.
    along
        The way the groove runs.
    mouth
        Middle of the groove on the face it is cut in. [mm]
    engaged_mm
        How far the tongue stands in, at build. [mm]
    low_mm, high_mm
        Where the panel lies in the other part along ``along``, from the mouth. [mm]
    edge_mm
        Where this side of the panel begins and ends, from the mouth. [mm]
    is_end
        Whether it is an end of the panel, where the grain stops.
    width_share
        How much of the panel's change in width is felt square to this side: 1 at an edge, 0 at a square end.
    """

    into: Vec
    along: Vec
    mouth: Vec
    engaged_mm: float
    low_mm: float
    high_mm: float
    edge_mm: tuple[float, float]
    is_end: bool
    width_share: float

    @property
    def moves(self) -> bool:
        """Whether the side moves over the year."""
        return self.width_share > _STILL


def _moves(panel: Part, side: _Side, held: Held, moisture: MoistureRange) -> Travel:
    """Travel square to one side of the panel; of one at an angle the part that lies that way."""
    if not side.moves:
        return Travel(shrink_mm=0.0, swell_mm=0.0)
    held_here = held.value == face_direction(side.into).value
    toward = 1.0 if dot(panel.frame.width, side.into) > 0.0 else -1.0
    whole = edge_travel(panel, held, moisture, held_here=held_here, toward=toward)
    share = side.width_share
    return Travel(shrink_mm=share * whole.shrink_mm, swell_mm=share * whole.swell_mm)


class PanelGroove:
    """The panel-in-grooves family."""

    name = "panel_groove"
    options_model = PanelGrooveOptions
    strength = staticmethod(cases.floating)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Groove, tongue, pin, and whether the panel has room all year and stays in."""
        o = joint.options
        assert isinstance(o, PanelGrooveOptions)
        panel, rail, side = _side(joint, context)
        moves = _moves(panel, side, o.held, context.moisture)
        room = max(END_ROOM_MM if side.is_end else 0.0, moves.swell_mm + o.clearance if side.moves else 0.0)
        depth = side.engaged_mm + room if o.depth is None else o.depth
        _check(joint, (panel, rail), side, depth_mm=depth)
        spread = travel(panel, panel.width_mm / 2.0, context.moisture).swell_mm
        ends = spread + o.clearance if side.is_end else END_ROOM_MM
        cuts = [_groove(rail, panel, side, o=o, depth_mm=depth, ends_mm=ends)]
        gap = moves.swell_mm + o.clearance
        tongued = o.tongue is not None and o.tongue < panel.thickness_mm - 1e-9
        if tongued:
            cuts += _cheeks(panel, side, o=o, gap_mm=gap)
        pin = _pin(panel, rail, side, o)
        cuts += pin.cuts if pin else ()
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=panel.name,
            second=rail.name,
            at=side.mouth,
            leaves=scale(side.into, -1.0),
            cuts=tuple(cuts),
            marks=(
                _mark(panel, rail, side, o=o, depth_mm=depth, ends_mm=ends),
                *((_tongue_mark(panel, side, o=o, gap_mm=gap),) if tongued else ()),
                *((pin.mark,) if pin else ()),
            ),
            connectors=(pin.connector,) if pin else (),
            freedoms=_freedoms(panel, side, moves, o=o, depth_mm=depth) if side.moves else (),
            dry=True,
            steps=_steps(o),
        )


def _side(joint: JointRequest, context: JointContext) -> tuple[Part, Part, _Side]:
    """Which side of the panel stands in the other part, and how far."""
    panel, rail, common = crossing(joint, context)
    frame = panel.frame
    face, into = _standing(panel, common)
    low_in, high_in = common.extent(into)
    engaged = high_in - low_in
    named = joint.first.face
    if named is not None and named is not face_direction(into):
        raise InputError(
            code="panel_side_differs",
            field=f"joints.{joint.like}",
            value=f"{joint.first}, which stands in {rail.name} with its {face_direction(into).value} side",
            rule="must name the side of the panel that stands in the other part",
            remedy=f"Write {panel.name}, or {panel.name}.{face_direction(into).value}.",
        )
    along = cross(into, frame.thickness)
    low, high = common.extent(along)
    middle = moved(panel.middle, into, low_in - dot(panel.middle, into))
    mouth = moved(middle, along, (low + high) / 2.0 - dot(middle, along))
    half = (high - low) / 2.0
    reach = [dot(corner, along) - (low + high) / 2.0 for corner in face.corners]
    side = _Side(
        into=into,
        along=along,
        mouth=mouth,
        engaged_mm=engaged,
        low_mm=-half,
        high_mm=half,
        edge_mm=(min(reach), max(reach)),
        is_end=abs(dot(into, frame.grain)) > _AT_END,
        width_share=abs(dot(into, frame.width)),
    )
    return panel, rail, side


def _standing(panel: Part, common: Body) -> tuple[Face, Vec]:
    """The side of the panel that stands in the other part, of least depth, and the way it goes in."""
    frame, found = panel.frame, []
    for face in body_of(panel).faces:
        flat = sub(face.normal, scale(frame.thickness, dot(face.normal, frame.thickness)))
        if norm(flat) > 0.5:
            into = unit(flat)
            low, high = common.extent(into)
            inward = dot(panel.middle, into) - (low + high) / 2.0
            found.append((round(high - low, 6), inward, face, into))
    _, _, face, into = min(found, key=lambda each: each[:2])
    return face, into


def _check(joint: JointRequest, parts: tuple[Part, Part], side: _Side, *, depth_mm: float) -> None:
    """Refuse a tongue thicker than its panel or rail, a groove too shallow, or one that comes out."""
    o = joint.options
    assert isinstance(o, PanelGrooveOptions)
    panel, rail = parts
    tongue = panel.thickness_mm if o.tongue is None else o.tongue
    low, high = body_of(rail).extent(panel.frame.thickness)
    at = dot(panel.middle, panel.frame.thickness) + o.shift
    wall = min(high - at, at - low) - (tongue + o.play) / 2.0
    if tongue + 2.0 * abs(o.shift) > panel.thickness_mm + 1e-6:
        value, rule = f"a {tongue:.1f} mm tongue on {panel.thickness_mm:.1f} mm", "must lie inside the panel"
    elif wall < 0.5:
        value, rule = f"{wall:.1f} mm of {rail.name} beside the groove", "must leave wood on both sides"
    elif depth_mm < side.engaged_mm - 1e-6:
        raise cannot_be_made(
            joint,
            "depth",
            code="groove_too_shallow",
            value=f"{depth_mm:.1f} mm for a tongue drawn {side.engaged_mm:.1f} mm in",
            rule="must take the tongue",
            remedy="Cut it deeper, or draw the panel narrower.",
        )
    else:
        hollow = Hollow(at=side.mouth, into=side.into, depth_mm=depth_mm, what="groove")
        check_depth(joint, "depth", rail, hollow=hollow)
        return
    remedy = "Make the tongue thinner, or move the panel within the frame's thickness."
    raise cannot_be_made(joint, "tongue", code="tongue_off_part", value=value, rule=rule, remedy=remedy)


def _level(panel: Part, side: _Side, o: PanelGrooveOptions) -> Vec:
    """Middle of the groove's mouth, at the level of the tongue. World. [mm]"""
    return moved(side.mouth, panel.frame.thickness, o.shift)


def _groove(
    rail: Part, panel: Part, side: _Side, *, o: PanelGrooveOptions, depth_mm: float, ends_mm: float
) -> Cut:
    """The groove, as far as the panel reaches and a little past it, or run out at the ends of its part."""
    base = dot(side.mouth, side.along)
    low, high = side.edge_mm[0] - ends_mm, side.edge_mm[1] + ends_mm
    if o.through:
        low_end, high_end = (end - base for end in body_of(rail).extent(side.along))
        low, high = min(low, low_end), max(high, high_end)
    center = moved(moved(_level(panel, side, o), side.along, (low + high) / 2.0), side.into, -_OVER_MM)
    tool = Box(
        frame=rail.frame.frame_in(slot_frame(center, into=side.into, along=side.along)),
        length_mm=depth_mm + _OVER_MM,
        width_mm=high - low,
        thickness_mm=(panel.thickness_mm if o.tongue is None else o.tongue) + o.play,
    )
    return Cut(part=rail.name, tool=tool, what=GROOVE)


def _cheeks(panel: Part, side: _Side, *, o: PanelGrooveOptions, gap_mm: float) -> list[Cut]:
    """What is taken off the panel's faces to leave the tongue; the shoulders stand back by the gap."""
    assert o.tongue is not None
    half, cuts = panel.thickness_mm / 2.0, []
    for sign in (1.0, -1.0):
        inner = sign * o.shift + o.tongue / 2.0
        if half - inner < 1e-6:
            continue
        middle = sign * (inner + half + _OVER_MM) / 2.0
        center = moved(moved(side.mouth, panel.frame.thickness, middle), side.into, -gap_mm)
        tool = Box(
            frame=panel.frame.frame_in(slot_frame(center, into=side.into, along=side.along)),
            length_mm=side.engaged_mm + gap_mm + _OVER_MM,
            width_mm=side.high_mm - side.low_mm + 2.0 * (panel.width_mm + panel.length_mm),
            thickness_mm=half - inner + _OVER_MM,
        )
        cuts.append(Cut(part=panel.name, tool=tool, what="tongue cheek"))
    return cuts


def _pin(panel: Part, rail: Part, side: _Side, o: PanelGrooveOptions) -> PanelPin | None:
    """The pin that keeps the panel still in this rail; None along its edges, and for a loose one."""
    if not side.is_end or o.held is Held.LOOSE:
        return None
    off = 0.0
    if o.held is not Held.MIDDLE:
        toward = dot(Direction(o.held.value).vector, panel.frame.width)
        off = (panel.width_mm / 2.0 - _PIN_IN_MM) * (1.0 if toward > 0.0 else -1.0)
    at = moved(panel.middle, panel.frame.width, off)
    at = moved(at, side.into, dot(side.mouth, side.into) + side.engaged_mm / 2.0 - dot(at, side.into))
    at = moved(at, panel.frame.thickness, o.shift)
    tongue = panel.thickness_mm if o.tongue is None else o.tongue
    return panel_pin(panel, rail, at=at, tongue_mm=tongue, diameter_mm=o.pin)


def _freedoms(
    panel: Part, side: _Side, moves: Travel, *, o: PanelGrooveOptions, depth_mm: float
) -> tuple[Freedom, ...]:
    """What the edge asks for and has: into the groove when damp, out of it when dry."""
    if o.held.value == face_direction(side.into).value:
        return ()
    behind = depth_mm - side.engaged_mm
    slack = behind if o.held is Held.LOOSE else 0.0
    where = face_direction(side.into).value
    share = 0.5 if o.held in (Held.MIDDLE, Held.LOOSE) else 1.0
    return (
        Freedom(
            part=panel.name,
            what=f"{where} edge in its groove",
            at=side.mouth,
            from_fixed_mm=panel.width_mm * share,
            shrink_travel_mm=moves.shrink_mm,
            swell_travel_mm=moves.swell_mm,
            shrink_room_mm=max(0.0, side.engaged_mm - slack),
            swell_room_mm=behind,
            cut_to_mm=depth_mm,
        ),
    )


def _mark(
    panel: Part, rail: Part, side: _Side, *, o: PanelGrooveOptions, depth_mm: float, ends_mm: float
) -> Mark:
    """The groove on the rail; a stopped one as long as it is cut, with the room at its ends."""
    low, high = (side.low_mm, side.high_mm) if o.through else side.edge_mm
    past = 0.0 if o.through else 2.0 * ends_mm
    tongue = panel.thickness_mm if o.tongue is None else o.tongue
    face = _mouth_face(rail, side)
    middle = moved(_level(panel, side, o), side.along, (low + high) / 2.0)
    spot = spot_on(rail, middle, face.label if face else "width+")
    lean = _lean_deg(rail, side, face)
    tilted = f", leaning {lean:.1f} deg to the face" if lean else ""
    return Mark(
        part=rail.name,
        kind=MarkKind.GROOVE,
        on_end=False,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=high - low + past,
        width_mm=tongue + o.play,
        depth_mm=depth_mm,
        fit=Fit.SLIDING,
        angle_deg=0.0 if abs(dot(side.along, rail.frame.grain)) > 0.7 else 90.0,
        tilt_deg=lean,
        setup=f"{tongue:g} mm groove for panels, {depth_mm:.1f} mm deep{tilted}",
        note="end to end" if o.through else "stopped at the panel",
    )


def _tongue_mark(panel: Part, side: _Side, *, o: PanelGrooveOptions, gap_mm: float) -> Mark:
    """The tongue along the whole of the panel's side; its shoulders stand back from the rail by the gap."""
    assert o.tongue is not None
    long = side.engaged_mm + gap_mm
    if side.is_end:
        label = (End.END if dot(side.into, panel.frame.grain) > 0.0 else End.START).value
    else:
        label = "width+" if dot(side.into, panel.frame.width) > 0.0 else "width-"
    middle = moved(_level(panel, side, o), side.along, sum(side.edge_mm) / 2.0)
    spot = spot_on(panel, middle, label)
    return Mark(
        part=panel.name,
        kind=MarkKind.TONGUE,
        on_end=spot.on_end,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=side.edge_mm[1] - side.edge_mm[0],
        width_mm=o.tongue,
        depth_mm=long,
        fit=Fit.SLIDING,
        setup=f"{o.tongue:g} mm tongues of panels, {long:.1f} mm long",
        note=f"shoulders {gap_mm:.1f} mm back from the frame",
    )


def _mouth_face(rail: Part, side: _Side) -> Face | None:
    """The long face the groove is cut in; the face that looks that way where it is cut in an end."""
    long = [face for face in body_of(rail).faces if face.label[-1] in "+-"]
    nearest = max(long, key=lambda face: -dot(face.normal, side.into), default=None)
    if nearest is not None and -dot(nearest.normal, side.into) > _FACES:
        return nearest
    return named_face(rail, face_direction(scale(side.into, -1.0)))


def _lean_deg(rail: Part, side: _Side, face: Face | None) -> float:
    """How far the groove leans from square to the face it is cut in, as in a sloping side. [deg]"""
    if face is None:
        return 0.0
    lean = math.degrees(math.acos(min(1.0, abs(dot(face.normal, side.into)))))
    across = math.degrees(math.acos(min(1.0, abs(dot(side.along, rail.frame.grain)))))
    return lean if lean > _LEAST_LEAN_DEG and min(across, 90.0 - across) < _LEAST_LEAN_DEG else 0.0


def _steps(o: PanelGrooveOptions) -> tuple[str, ...]:
    steps = [
        "Plow the grooves from the face sides, so that the frame's faces come level.",
        "Work the panel's edges until they slide in by hand; finish the panel before it goes in.",
        "No glue in the grooves: wax the corners of the panel, where glue may squeeze out.",
    ]
    if o.held is Held.LOOSE:
        steps.append(
            "Nothing holds the panel still: closed in on all four sides, center it before the frame is "
            "closed; open at one end, it slides out there, so ease and wax its edges until it runs by hand."
        )
    else:
        steps.append(
            "Center the panel, bore from the hidden face and pin it once in each rail, "
            f"{'in the middle of its width' if o.held is Held.MIDDLE else 'near its held edge'}."
        )
    return tuple(steps)
