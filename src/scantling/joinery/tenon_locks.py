"""What locks a worked tenon: pins through its cheeks, drawn or not, and wedges in a through one's end."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery.fitting import cannot_be_made, wood_behind_mm
from scantling.joinery.meeting import Meeting, moved, slot_frame, spot_on, spread
from scantling.joinery.mortise_tenon_options import MortiseTenonOptions
from scantling.joinery.tenon_layout import Tenon, TenonWays
from scantling.joinery.work import Box, Connector, ConnectorKind, Cut, Fit, Hole, Mark, MarkKind, Profile
from scantling.piece.convex import body_of, face_direction, named_face
from scantling.piece.geometry import Frame, Vec, scale
from scantling.piece.model import JointRequest

__all__ = ["Held", "Locks", "tenon_locks"]

KERF_MM = 1.5
"""Saw cut that a wedge is started in (common practice). [mm]"""
WEDGE_MM = 3.5
"""Thickness of a wedge at its thick end (common practice). [mm]"""
FLARE_MM = WEDGE_MM - KERF_MM
"""What each end of a wedged mortise is widened by at its far side: what the wedge spreads. [mm]"""
_KERF_SHARE = 0.7
"""Of the tenon's length the kerf goes in so far (common practice: two thirds to three quarters). [1]"""
_OVER_MM = 2.0
_BLIND_SHARE = 0.6
"""A pin goes so far into the wood behind the tenon. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Locks:
    """Holes, kerfs and flares, what is driven into them, and how they are marked out."""

    cuts: tuple[Cut, ...] = ()
    connectors: tuple[Connector, ...] = ()
    marks: tuple[Mark, ...] = ()
    steps: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """The tenons of a joint that are glued.

    Parameters
    ----------
    o
        Options, the length of a through tenon filled in.
    thick_mm
        Thickness of the tenons. [mm]
    through
        Whether they come out on the far side.
    """

    joint: JointRequest
    meeting: Meeting
    ways: TenonWays
    tenons: tuple[Tenon, ...]
    o: MortiseTenonOptions
    thick_mm: float
    through: bool


def tenon_locks(held: Held) -> Locks:
    """Pins and wedges of the tenons that are glued.

    Raises
    ------
    InputError
        ``pin_off_tenon`` where a pin or its offset leaves no wood on the tenon; ``wedge_blind`` for wedges in
        a tenon that does not come through.
    """
    if held.o.wedges and not held.through:
        raise cannot_be_made(
            held.joint,
            "wedges",
            code="wedge_blind",
            value=f"{held.o.wedges:g} in a tenon {held.o.length:.1f} mm long",
            rule="must be driven from outside, into a tenon that comes through",
            remedy="Leave out length, so that the tenon goes through.",
        )
    pinned = _pins(held) if held.o.pin is not None else Locks()
    wedged = _wedges(held) if held.o.wedges else Locks()
    return Locks(
        cuts=pinned.cuts + wedged.cuts,
        connectors=pinned.connectors + wedged.connectors,
        marks=pinned.marks + wedged.marks,
        steps=pinned.steps + wedged.steps,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bore:
    """The way of the pins: from the face nearer to the tenon, and how far in.

    ``into`` is world; ``start_mm`` from the middle of the tenon back to the face. [mm]
    """

    into: Vec
    start_mm: float
    depth_mm: float


def _bore(held: Held, at: Vec) -> _Bore:
    meeting, ways, thick_mm = held.meeting, held.ways, held.thick_mm
    second = meeting.second
    walls = {
        sign: wood_behind_mm(second, at, scale(ways.side, sign)) - thick_mm / 2.0 for sign in (1.0, -1.0)
    }
    from_side = min(walls, key=lambda sign: (round(walls[sign], 3), sign))
    into = scale(ways.side, -from_side)
    start = walls[from_side] + thick_mm / 2.0
    behind = walls[-from_side]
    return _Bore(into=into, start_mm=start, depth_mm=start + thick_mm / 2.0 + _BLIND_SHARE * behind)


def _pins(held: Held) -> Locks:
    meeting, ways, o, thick_mm = held.meeting, held.ways, held.o, held.thick_mm
    assert o.pin is not None
    inside = 0.4 * o.length if o.pin_from_shoulder is None else o.pin_from_shoulder
    _check_pins(held, inside)
    cuts: list[Cut] = []
    marks: list[Mark] = []
    frames: list[Frame] = []
    bore = _bore(held, ways.at(held.tenons[0].at_mm, 0.0, inside))
    for tenon in held.tenons:
        low, high = tenon.at_mm - tenon.width_mm / 2.0, tenon.at_mm + tenon.width_mm / 2.0
        for along in spread(low, high, count=int(o.pins), inset_mm=tenon.width_mm / 4.0):
            spot = ways.at(along, 0.0, inside)
            mouth = moved(spot, bore.into, -bore.start_mm)
            cuts.append(_hole(meeting.second.name, meeting, mouth, bore, depth=bore.depth_mm, size=o.pin))
            in_tenon = moved(ways.at(along, 0.0, inside - o.draw), bore.into, -thick_mm / 2.0)
            cuts.append(_hole(meeting.first.name, meeting, in_tenon, bore, depth=thick_mm, size=o.pin))
            frames.append(
                slot_frame(moved(mouth, bore.into, bore.depth_mm / 2.0), into=bore.into, along=ways.along)
            )
            marks.append(_pin_mark(meeting, mouth, bore, o=o))
    drawn = f"; the hole in the tenon {o.draw:g} mm nearer to the shoulder" if o.draw else ""
    return Locks(
        cuts=tuple(cuts),
        connectors=(
            Connector(
                kind=ConnectorKind.PIN,
                count=len(frames),
                size_mm=(o.pin, bore.depth_mm),
                drill_mm=(o.pin, bore.depth_mm),
                note=f"through the cheeks of the tenon{drawn}; riven, its end tapered",
                frames=tuple(frames),
            ),
        ),
        marks=tuple(marks),
        steps=_pin_steps(o),
    )


def _check_pins(held: Held, inside: float) -> None:
    o = held.o
    assert o.pin is not None
    narrowest = min(tenon.width_mm for tenon in held.tenons)
    room = min(inside - o.draw, o.length - inside) - o.pin / 2.0
    if room < 1.0 or o.draw >= o.pin / 2.0 or narrowest / (2.0 * o.pins) < o.pin:
        raise cannot_be_made(
            held.joint,
            "pin",
            code="pin_off_tenon",
            value=f"{o.pins:g} of {o.pin:.1f} mm, {inside:.1f} mm from the shoulder of a tenon "
            f"{o.length:.1f} mm long and {narrowest:.1f} mm wide, drawn {o.draw:.1f} mm",
            rule="must leave wood round each pin, and be drawn by less than half its diameter",
            remedy="Use thinner pins or fewer, nearer to the middle of the tenon, drawn by 1 to 2 mm.",
        )


def _hole(name: str, meeting: Meeting, mouth: Vec, bore: _Bore, *, depth: float, size: float) -> Cut:
    part = meeting.first if name == meeting.first.name else meeting.second
    frame = slot_frame(moved(mouth, bore.into, -_OVER_MM), into=bore.into, along=meeting.contact.normal)
    over = _OVER_MM * (2.0 if part is meeting.first else 1.0)
    tool = Hole(frame=part.frame.frame_in(frame), diameter_mm=size, depth_mm=depth + over)
    return Cut(part=name, tool=tool, what="pin hole")


def _pin_mark(meeting: Meeting, mouth: Vec, bore: _Bore, *, o: MortiseTenonOptions) -> Mark:
    assert o.pin is not None
    second = meeting.second
    looks = face_direction(scale(bore.into, -1.0))
    face = named_face(second, looks)
    spot = spot_on(second, mouth, face.label if face else body_of(second).faces[0].label)
    return Mark(
        part=second.name,
        kind=MarkKind.HOLE,
        **spot.measured,
        length_mm=o.pin,
        width_mm=o.pin,
        depth_mm=bore.depth_mm,
        fit=Fit.TIGHT,
        setup=f"{o.pin:g} mm pin holes",
        note=f"drawn {o.draw:g} mm" if o.draw else "",
    )


def _pin_steps(o: MortiseTenonOptions) -> tuple[str, ...]:
    if not o.draw:
        return (
            "Bore for the pins with the joint clamped home; drive them with a little glue, then cut flush.",
        )
    return (
        "Bore the mortised part alone for the pins, a slip of scrap in the mortise.",
        f"Push the tenon home, prick the holes on it, and bore it {o.draw:g} mm nearer the shoulder.",
        "Taper the end of each pin; drive it in and the shoulder closes. Try one in scrap: too much draw "
        "splits the tenon.",
    )


def _wedges(held: Held) -> Locks:
    meeting, ways, o, thick_mm = held.meeting, held.ways, held.o, held.thick_mm
    kerf = _KERF_SHARE * o.length
    cuts: list[Cut] = []
    frames: list[Frame] = []
    for tenon in held.tenons:
        cuts += [_flare(held, tenon, sign) for sign in (1.0, -1.0)]
        low, high = tenon.at_mm - tenon.width_mm / 2.0, tenon.at_mm + tenon.width_mm / 2.0
        for along in spread(low, high, count=int(o.wedges), inset_mm=tenon.width_mm / 6.0):
            frame = slot_frame(ways.at(along, 0.0, o.length - kerf), into=ways.into, along=ways.side)
            size = (kerf + _OVER_MM, thick_mm + 2.0 * _OVER_MM, KERF_MM)
            part = meeting.first
            tool = Box(
                frame=part.frame.frame_in(frame), length_mm=size[0], width_mm=size[1], thickness_mm=size[2]
            )
            cuts.append(Cut(part=part.name, tool=tool, what="wedge kerf, waste"))
            middle = ways.at(along, 0.0, o.length - kerf / 2.0)
            frames.append(slot_frame(middle, into=scale(ways.into, -1.0), along=ways.side))
    return Locks(
        cuts=tuple(cuts),
        connectors=(
            Connector(
                kind=ConnectorKind.WEDGE,
                count=len(frames),
                size_mm=(WEDGE_MM, thick_mm, kerf),
                note="hard, straight-grained, as wide as the tenon is thick; driven in turns",
                frames=tuple(frames),
            ),
        ),
        steps=(
            f"Saw the kerfs {kerf:.0f} mm deep; flare the mortise's ends by {FLARE_MM:g} mm at the far side.",
            "Glue, drive the wedges in turns until their sound changes, and cut flush when it has cured.",
        ),
    )


def _flare(held: Held, tenon: Tenon, sign: float) -> Cut:
    """One end of the mortise slanted out toward the far side, where the wedge spreads the tenon."""
    ways, deep, thick_mm = held.ways, held.o.length - held.o.proud, held.thick_mm
    edge = tenon.mortise_mm + sign * (tenon.long_mm / 2.0 - 0.5)
    out = 0.5 * sign
    slope = sign * FLARE_MM / deep
    outline = (
        (edge, 0.0),
        (edge + out, 0.0),
        (edge + out + slope * (deep + _OVER_MM), deep + _OVER_MM),
        (edge, deep + _OVER_MM),
    )
    frame = Frame(
        origin=ways.at(0.0, -thick_mm / 2.0), grain=ways.side, width=ways.along, thickness=ways.into
    )
    part = held.meeting.second
    tool = Profile(frame=part.frame.frame_in(frame), outline=outline, length_mm=thick_mm)
    return Cut(part=part.name, tool=tool, what="mortise flare, waste")
