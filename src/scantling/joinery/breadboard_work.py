"""The geometry of a breadboard end: cheeks, haunches, groove, mortises, pins and slots."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery.breadboard_options import BreadboardEndOptions, FixedAt
from scantling.joinery.meeting import Meeting, moved, slot_frame, spot_on, spread
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import Box, Cut, Extension, Fit, Freedom, Hole, Mark, MarkKind, Slot
from scantling.piece.convex import face_direction
from scantling.piece.geometry import Frame, Vec, cross, dot, scale
from scantling.piece.model import Direction, End, JointRequest, Part
from scantling.wood.moisture import MoistureRange

__all__ = ["BOTTOM_ROOM_MM", "BreadboardLayout", "lay_out_breadboard"]

_OVER_MM = 2.0
"""How far a cutter runs past the wood it leaves at an edge. [mm]"""
BOTTOM_ROOM_MM = 1.5
"""Room below a tongue or tenon for glue and dust (common practice). [mm]"""
_BLIND_MM = 4.0
"""Wood left over a blind pin hole. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BreadboardLayout:
    """Everything cut for one breadboard end."""

    cuts: tuple[Cut, ...]
    extensions: tuple[Extension, ...]
    marks: tuple[Mark, ...]
    freedoms: tuple[Freedom, ...]
    pins: tuple[Frame, ...]
    pin_length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ways:
    """Directions and the base point of the joint, in the world."""

    base: Vec
    """Middle of the shoulder line."""
    out: Vec
    """From the panel into the end."""
    side: Vec
    """Across the panel's width."""
    up: Vec
    """Through the panel's thickness, the side that is up."""

    def at(self, y_mm: float, out_mm: float = 0.0, up_mm: float = 0.0) -> Vec:
        return moved(moved(moved(self.base, self.side, y_mm), self.out, out_mm), self.up, up_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tenon:
    """One tenon: where it stands, whether it is the fixed one, how far it travels, and what it is cut for."""

    number: int
    y_mm: float
    from_fixed_mm: float
    fixed: bool
    travel: Travel
    cut_for: Travel
    """Of a board as lively as one in twenty: too long a slot costs nothing, too short splits the top."""

    @property
    def outward(self) -> float:
        """+1 when away from the fixed place is the side direction, else -1."""
        return 1.0 if self.from_fixed_mm >= 0 else -1.0


def lay_out_breadboard(
    meeting: Meeting, o: BreadboardEndOptions, *, joint: JointRequest, moisture: MoistureRange
) -> BreadboardLayout:
    """Lay out one breadboard end.

    Parameters
    ----------
    meeting
        End cap (first) against the panel's end (second).
    o
        The options.
    joint
        Names the panel's end.
    moisture
        Build, driest and wettest of the panel.
    """
    cap, panel = meeting.first, meeting.second
    out = scale(meeting.contact.normal, -1.0)
    panel_end = panel.end_mm if joint.second.end is End.END else panel.start_mm
    ways = _Ways(
        base=panel.frame.point((panel_end, 0.0, 0.0)),
        out=out,
        side=panel.frame.width,
        up=panel.frame.thickness if panel.frame.thickness[2] >= -1e-9 else scale(panel.frame.thickness, -1.0),
    )
    tenons = _tenons(panel, o, moisture)
    pin_out = o.pin_from_shoulder or 0.4 * o.tenon_length
    pin_length = cap.thickness_mm if o.through_pins else cap.thickness_mm - _BLIND_MM
    cuts = [*_tongue_cuts(panel, ways, tenons, o=o), *_cap_cuts(cap, panel, ways, o=o)]
    marks, freedoms, pins = [], [], []
    assert joint.second.end is not None
    for tenon in tenons:
        cuts.append(_mortise(cap, ways, tenon, o=o))
        cuts.extend(_pin_cuts(cap, panel, ways, tenon=tenon, o=o, pin_out=pin_out))
        marks.extend(_cap_marks(meeting, ways, tenon, o=o, pin_out=pin_out))
        marks.extend(_panel_marks(panel, ways, tenon, o=o, end=joint.second.end))
        pins.append(_pin_frame(ways, tenon, pin_out))
        if not tenon.fixed:
            freedoms.extend(_freedoms(panel, ways, tenon, o=o))
    marks.append(_groove_mark(meeting, o))
    return BreadboardLayout(
        cuts=tuple(cuts),
        extensions=(Extension(part=panel.name, end=joint.second.end, length_mm=o.tenon_length),),
        marks=tuple(marks),
        freedoms=tuple(freedoms),
        pins=tuple(pins),
        pin_length_mm=pin_length,
    )


def _tenons(panel: Part, o: BreadboardEndOptions, moisture: MoistureRange) -> list[_Tenon]:
    half = panel.width_mm / 2.0
    places = spread(-half, half, count=int(o.tenons), inset_mm=o.edge_inset)
    target = 0.0
    if o.fixed is not FixedAt.MIDDLE:
        target = half if dot(Direction(o.fixed.value).vector, panel.frame.width) > 0.0 else -half
    fixed_y = min(places, key=lambda y: abs(y - target))
    return [
        _Tenon(
            number=k + 1,
            y_mm=y,
            from_fixed_mm=y - fixed_y,
            fixed=y == fixed_y,
            travel=travel(panel, y - fixed_y, moisture, fixed_at_mm=fixed_y),
            cut_for=travel(panel, y - fixed_y, moisture, fixed_at_mm=fixed_y, lively=True),
        )
        for k, y in enumerate(places)
    ]


def _box(part: Part, world: Frame, *, size: tuple[float, float, float], what: str) -> Cut:
    tool = Box(frame=part.frame.frame_in(world), length_mm=size[0], width_mm=size[1], thickness_mm=size[2])
    return Cut(part=part.name, tool=tool, what=what)


def _tongue_cuts(panel: Part, ways: _Ways, tenons: list[_Tenon], *, o: BreadboardEndOptions) -> list[Cut]:
    """Two cheeks over the whole width, and the haunches between the tenons."""
    cheek = (panel.thickness_mm - o.tongue_thickness) / 2.0
    cuts = []
    for sign in (1.0, -1.0):
        middle = sign * (o.tongue_thickness / 2.0 + (cheek + _OVER_MM) / 2.0)
        frame = slot_frame(ways.at(0.0, 0.0, middle), into=ways.out, along=ways.side)
        size = (o.tenon_length + _OVER_MM, panel.width_mm + 2.0 * _OVER_MM, cheek + _OVER_MM)
        cuts.append(_box(panel, frame, size=size, what="tongue cheek"))
    half = panel.width_mm / 2.0 + _OVER_MM
    edges = [-half]
    for tenon in tenons:
        edges += [tenon.y_mm - o.tenon_width / 2.0, tenon.y_mm + o.tenon_width / 2.0]
    edges.append(half)
    for low, high in zip(edges[::2], edges[1::2], strict=True):
        if high - low > 0.1:
            frame = slot_frame(ways.at((low + high) / 2.0, o.tongue_length), into=ways.out, along=ways.side)
            size = (o.tenon_length - o.tongue_length + _OVER_MM, high - low, panel.thickness_mm)
            cuts.append(_box(panel, frame, size=size, what="haunch between tenons"))
    return cuts


def _cap_cuts(cap: Part, panel: Part, ways: _Ways, *, o: BreadboardEndOptions) -> list[Cut]:
    frame = slot_frame(ways.at(0.0, -_OVER_MM), into=ways.out, along=ways.side)
    depth = o.tongue_length + BOTTOM_ROOM_MM + _OVER_MM
    long = max(cap.length_mm, panel.width_mm) + 2.0 * _OVER_MM
    return [_box(cap, frame, size=(depth, long, o.tongue_thickness), what="groove")]


def _mortise_length(tenon: _Tenon, o: BreadboardEndOptions) -> tuple[float, float]:
    """Length of a tenon's mortise and the shift of its center away from the fixed place. [mm]"""
    if tenon.fixed:
        return o.tenon_width, 0.0
    if o.mortise_over is not None:
        return o.tenon_width + o.mortise_over, 0.0
    free = tenon.cut_for.shrink_mm + tenon.cut_for.swell_mm + 2.0 * o.clearance
    return o.tenon_width + free, tenon.cut_for.bias_mm


def _slot_length(tenon: _Tenon, o: BreadboardEndOptions) -> tuple[float, float]:
    """Length of a tenon's pin slot and the shift of its center toward the fixed place. [mm]"""
    if tenon.fixed:
        return o.pin, 0.0
    if o.slot is not None:
        return o.slot, 0.0
    free = tenon.cut_for.shrink_mm + tenon.cut_for.swell_mm + 2.0 * o.clearance
    return o.pin + free, tenon.cut_for.bias_mm


def _mortise(cap: Part, ways: _Ways, tenon: _Tenon, *, o: BreadboardEndOptions) -> Cut:
    length, shift = _mortise_length(tenon, o)
    center = ways.at(tenon.y_mm + tenon.outward * shift, -_OVER_MM)
    frame = slot_frame(center, into=ways.out, along=ways.side)
    size = (o.tenon_length + BOTTOM_ROOM_MM + _OVER_MM, length, o.tongue_thickness)
    return _box(cap, frame, size=size, what="mortise")


def _pin_frame(ways: _Ways, tenon: _Tenon, pin_out: float) -> Frame:
    """A pin, standing upright through the end."""
    return Frame(
        origin=ways.at(tenon.y_mm, pin_out),
        grain=ways.up,
        width=ways.side,
        thickness=cross(ways.up, ways.side),
    )


def _pin_cuts(
    cap: Part, panel: Part, ways: _Ways, *, tenon: _Tenon, o: BreadboardEndOptions, pin_out: float
) -> list[Cut]:
    """The hole in the end from below, and the hole or slot in the tenon."""
    below = -cap.thickness_mm / 2.0 - _OVER_MM
    depth = cap.thickness_mm + 2.0 * _OVER_MM if o.through_pins else cap.thickness_mm - _BLIND_MM + _OVER_MM
    hole = slot_frame(ways.at(tenon.y_mm, pin_out, below), into=ways.up, along=ways.side)
    cuts = [
        Cut(
            part=cap.name,
            tool=Hole(frame=cap.frame.frame_in(hole), diameter_mm=o.pin, depth_mm=depth),
            what="pin hole",
        )
    ]
    length, toward = _slot_length(tenon, o)
    low = -o.tongue_thickness / 2.0 - _OVER_MM
    center = ways.at(tenon.y_mm - tenon.outward * toward, pin_out, low)
    frame = panel.frame.frame_in(slot_frame(center, into=ways.up, along=ways.side))
    through = o.tongue_thickness + 2.0 * _OVER_MM
    if tenon.fixed:
        cuts.append(
            Cut(part=panel.name, tool=Hole(frame=frame, diameter_mm=o.pin, depth_mm=through), what="pin hole")
        )
    else:
        tool = Slot(frame=frame, length_mm=length, width_mm=o.pin, depth_mm=through)
        cuts.append(Cut(part=panel.name, tool=tool, what="pin slot"))
    return cuts


def _freedoms(panel: Part, ways: _Ways, tenon: _Tenon, *, o: BreadboardEndOptions) -> list[Freedom]:
    found = []
    mortise, out_shift = _mortise_length(tenon, o)
    slot, toward = _slot_length(tenon, o)
    for what, length, own, shift, bias in (
        (f"tenon {tenon.number} in its mortise", mortise, o.tenon_width, out_shift, -out_shift),
        (f"pin slot {tenon.number}", slot, o.pin, toward, toward),
    ):
        half = (length - own) / 2.0
        # When the panel shrinks the tenon goes toward the fixed place: the mortise needs room there, and
        # the slot (which rides on the tenon) needs it on the far side of the pin.
        found.append(
            Freedom(
                part=panel.name,
                what=what,
                at=ways.at(tenon.y_mm),
                from_fixed_mm=abs(tenon.from_fixed_mm),
                shrink_travel_mm=tenon.travel.shrink_mm,
                swell_travel_mm=tenon.travel.swell_mm,
                shrink_room_mm=half - shift,
                swell_room_mm=half + shift,
                cut_to_mm=length,
                bias_mm=bias,
            )
        )
    return found


def _groove_mark(meeting: Meeting, o: BreadboardEndOptions) -> Mark:
    """The groove along the inner edge of the end, full length."""
    cap = meeting.first
    middle = cap.frame.point(((cap.start_mm + cap.end_mm) / 2.0, 0.0, 0.0))
    inward = meeting.contact.normal
    over = moved(middle, inward, dot(meeting.contact.center, inward) - dot(middle, inward))
    level = cross(inward, cap.frame.grain)
    spot = spot_on(
        cap,
        moved(over, level, dot(meeting.second.frame.origin, level) - dot(over, level)),
        meeting.contact.first_face,
    )
    return Mark(
        part=cap.name,
        kind=MarkKind.GROOVE,
        on_end=False,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=cap.length_mm,
        width_mm=o.tongue_thickness,
        depth_mm=o.tongue_length + BOTTOM_ROOM_MM,
        fit=Fit.SLIDING,
        setup=f"{o.tongue_thickness:g} mm groove for the tongue",
        note="full length",
    )


def _cap_marks(
    meeting: Meeting, ways: _Ways, tenon: _Tenon, *, o: BreadboardEndOptions, pin_out: float
) -> list[Mark]:
    """A tenon's mortise in the groove, and the hole for its pin, bored from below."""
    cap = meeting.first
    length, shift = _mortise_length(tenon, o)
    spot = spot_on(cap, ways.at(tenon.y_mm + tenon.outward * shift), meeting.contact.first_face)
    state = "fixed" if tenon.fixed else "free"
    fit = Fit.TIGHT if tenon.fixed else Fit.SLIDING
    mortise = Mark(
        part=cap.name,
        kind=MarkKind.MORTISE,
        **spot.measured,
        length_mm=length,
        width_mm=o.tongue_thickness,
        depth_mm=o.tenon_length + BOTTOM_ROOM_MM,
        fit=fit,
        setup=f"{o.tongue_thickness:g} mm mortises in the breadboard groove",
        note=state,
    )
    sense = "+" if dot(ways.up, cap.frame.thickness) < 0.0 else "-"
    bored = spot_on(cap, ways.at(tenon.y_mm, pin_out), f"thickness{sense}")
    inner = face_direction(meeting.contact.normal)
    hole = Mark(
        part=cap.name,
        kind=MarkKind.HOLE,
        on_end=False,
        end=bored.end,
        face=bored.face,
        reference_face=inner,
        from_end_mm=bored.from_end_mm,
        from_face_mm=pin_out,
        length_mm=o.pin,
        width_mm=o.pin,
        depth_mm=cap.thickness_mm if o.through_pins else cap.thickness_mm - _BLIND_MM,
        fit=Fit.TIGHT,
        setup=f"{o.pin:g} mm pin holes in the breadboard end",
        note="through" if o.through_pins else "blind, from below",
    )
    return [mortise, hole]


def _panel_marks(panel: Part, ways: _Ways, tenon: _Tenon, *, o: BreadboardEndOptions, end: End) -> list[Mark]:
    """A tenon on the panel's end, and the hole or slot for its pin."""
    slot, toward = _slot_length(tenon, o)
    state = "fixed" if tenon.fixed else "free"
    fit = Fit.TIGHT if tenon.fixed else Fit.SLIDING
    on_panel = spot_on(panel, ways.at(tenon.y_mm), end.value)
    tongue = Mark(
        part=panel.name,
        kind=MarkKind.TENON,
        on_end=True,
        end=end,
        face=on_panel.face,
        reference_face=on_panel.reference_face,
        from_end_mm=on_panel.from_end_mm,
        from_face_mm=on_panel.from_face_mm,
        length_mm=o.tenon_width,
        width_mm=o.tongue_thickness,
        depth_mm=o.tenon_length,
        fit=fit,
        setup="breadboard tongue and tenons",
        note=state,
    )
    hole = Mark(
        part=panel.name,
        kind=MarkKind.HOLE if tenon.fixed else MarkKind.SLOT,
        on_end=True,
        end=end,
        face=on_panel.face,
        reference_face=on_panel.reference_face,
        from_end_mm=on_panel.from_end_mm + _toward_middle(tenon, toward),
        from_face_mm=on_panel.from_face_mm,
        length_mm=slot,
        width_mm=o.pin,
        depth_mm=o.tongue_thickness,
        fit=fit,
        setup=f"{o.pin:g} mm pin holes and slots in the tenons",
        note="bored with the end in place" if tenon.fixed else _off_center(toward),
    )
    return [tongue, hole]


def _off_center(toward_fixed_mm: float) -> str:
    """How far a slot's center stands off, in words."""
    if abs(toward_fixed_mm) < 0.05:
        return "on the center line"
    way = "toward" if toward_fixed_mm > 0 else "away from"
    return f"center {abs(toward_fixed_mm):.1f} mm {way} the fixed tenon"


def _toward_middle(tenon: _Tenon, toward_fixed_mm: float) -> float:
    """What a shift toward the fixed tenon adds to the distance from the nearer edge. [mm]"""
    inward = 1.0 if tenon.y_mm * tenon.from_fixed_mm > 0 else -1.0
    return inward * toward_fixed_mm
