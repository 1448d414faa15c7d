"""Wooden buttons: screwed under a top, each with a tongue in a mortise of the rail, free to slide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import (
    Hollow,
    cannot_be_made,
    check_depth,
    still_edge_mm,
    wood_behind_mm,
)
from scantling.joinery.meeting import moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
from scantling.joinery.under_top import FastenerPlace, RailUnderTop, places_under, rail_under_top
from scantling.joinery.work import (
    Box,
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    Freedom,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Frame, cross, scale
from scantling.piece.model import Direction, JointRequest

__all__ = ["TopButton", "TopButtonOptions"]

BOTTOM_ROOM_MM = 0.5
"""Least room before the tongue when it stands deepest. [mm]"""
_OVER_MM = 2.0


class TopButtonOptions(JointOptions):
    """Buttons from a rail's face (first, as RAIL.FACE) to the top above it (second)."""

    kind: Literal["top_button"]
    from_top: Length = Field(default=12, gt=0)
    """From the rail's top edge to the mortise; the button's body is a hair thinner, and so it draws tight."""
    tongue: Length = Field(default=8, gt=0)
    """Thickness of the tongue."""
    engaged: Length = Field(default=10, gt=0)
    """How far the tongue stands in the mortise at build."""
    width: Length = Field(default=30, gt=0)
    """Width of the button, along the rail."""
    body: Length = Field(default=35, gt=0)
    """Length of the button in front of the rail."""
    depth: Length | None = Field(default=None, gt=0)
    """Depth of the mortises; left out, as the room's year asks for."""
    mortise: Length | None = Field(default=None, gt=0)
    """Length of the mortises along the rail; left out, as the room's year asks for."""
    clearance: Length = Field(default=1, ge=0)
    """Room at each end of a mortise beyond the travel along the rail; both as for the slots of screws."""
    play: Length = Field(default=0.5, ge=0, le=3)
    """How much higher the mortise is than the tongue is thick."""
    count: Count | None = Field(default=None, ge=1, le=40)
    """Buttons on this rail; left out, by the spacing."""
    spacing: Length = Field(default=350, gt=0)
    """Greatest distance between buttons."""
    inset: Length = Field(default=70, ge=0)
    """From the ends of the rail to the first button."""
    screw: tuple[PositiveLength, PositiveLength] = (4.5, 30.0)
    """Diameter and length of the screw through the button into the top."""
    still: Direction | None = None
    """Edge at which other screws keep the top still; left out, it moves from its middle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mortise:
    """One button's mortise.

    Parameters
    ----------
    mouth
        Middle of its opening on the rail's face, grain into the rail, width along it. World.
    long_mm, depth_mm
        Along the rail; into it. [mm]
    shift_mm
        How far its middle stands from the button's, outward across the top. [mm]
    """

    mouth: Frame
    long_mm: float
    depth_mm: float
    shift_mm: float


class TopButton:
    """The top-button family."""

    name = "top_button"
    options_model = TopButtonOptions
    strength = staticmethod(metal.fastened)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Mortises, buttons and screws; whether each holds, has room, and slides along all year."""
        o = joint.options
        assert isinstance(o, TopButtonOptions)
        under = rail_under_top(joint, context)
        count = None if o.count is None else int(o.count)
        places = places_under(
            under,
            context,
            count=count,
            spacing_mm=o.spacing,
            inset_mm=o.inset,
            still_mm=0.0 if o.still is None else still_edge_mm(joint, under.top, o.still),
        )
        depth = o.depth or max(o.engaged + _inward_mm(under, p) + BOTTOM_ROOM_MM for p in places)
        mortises = [_mortise(under, place, o, depth_mm=depth) for place in places]
        _check(joint, under, mortises)
        freedoms = []
        for place, mortise in zip(places, mortises, strict=True):
            freedoms += _freedoms(under, place, mortise, o=o)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=under.rail.name,
            second=under.top.name,
            at=under.meeting.contact.center,
            leaves=scale(under.up, -1.0),
            cuts=tuple(_cut(under, mortise, o) for mortise in mortises),
            marks=tuple(_mark(under, mortise, o) for mortise in mortises),
            connectors=_connectors(under, places, o),
            freedoms=tuple(freedoms),
            dry=True,
            steps=(
                "Cut the mortises before the rail is glued in, all with one fence from the top edge.",
                "Make the buttons along one strip, grain along the tongue; rabbet, bore, crosscut last.",
                "The body is 0.5 mm thinner than the rail above the mortise: so it draws tight.",
                f"Turn the piece over on the top; set tongues {o.engaged:g} mm in; screw to the top only.",
            ),
        )


def _inward_mm(under: RailUnderTop, place: FastenerPlace) -> float:
    """Greatest push of a tongue into its mortise over the year. [mm]"""
    # Where swelling carries the button out of the face's way, drying pushes it in.
    outward = place.sign * under.square_share > 0.0
    moves = place.cut_for.shrink_mm if outward else place.cut_for.swell_mm
    return moves * abs(under.square_share)


def _mortise(under: RailUnderTop, place: FastenerPlace, o: TopButtonOptions, *, depth_mm: float) -> _Mortise:
    share = abs(under.along_share)
    auto = o.width + (place.cut_for.shrink_mm + place.cut_for.swell_mm) * share + 2.0 * o.clearance
    shift = place.cut_for.bias_mm * share if o.mortise is None else 0.0
    way = 1.0 if place.sign * under.along_share > 0.0 else -1.0
    mouth = under.on_face(moved(place.at, under.along, way * shift), o.from_top + (o.tongue + o.play) / 2.0)
    return _Mortise(
        mouth=slot_frame(mouth, into=scale(under.out, -1.0), along=under.along),
        long_mm=o.mortise or auto,
        depth_mm=depth_mm,
        shift_mm=shift,
    )


def _check(joint: JointRequest, under: RailUnderTop, mortises: list[_Mortise]) -> None:
    """Refuse a mortise that is not in the rail or does not take its button, a screw through the top."""
    o = joint.options
    assert isinstance(o, TopButtonOptions)
    for mortise in mortises:
        hollow = Hollow(at=mortise.mouth.origin, into=mortise.mouth.grain, depth_mm=mortise.depth_mm)
        check_depth(joint, "depth", under.rail, hollow=hollow)
        inside = moved(mortise.mouth.origin, mortise.mouth.grain, 0.1)
        below = wood_behind_mm(under.rail, inside, scale(under.up, -1.0))
        if below < (o.tongue + o.play) / 2.0:
            raise cannot_be_made(
                joint,
                "from_top",
                code="mortise_off_rail",
                value=f"a {o.tongue:.1f} mm mortise {o.from_top:.1f} mm below the top edge of "
                f"{under.rail.name}",
                rule="must lie inside the face it is cut in",
                remedy="Set it nearer the top edge, or make the rail deeper.",
            )
    for option, size, least in (
        ("depth", mortises[0].depth_mm, o.engaged),
        ("mortise", min(m.long_mm for m in mortises), o.width),
    ):
        if size < least:
            raise cannot_be_made(
                joint,
                option,
                code="button_over_mortise",
                value=f"{size:.1f} mm for {least:.1f} mm of button",
                rule="must take the tongue",
                remedy="Leave it out, and it is found from the room's year.",
            )
    reach = o.screw[1] - (o.from_top - BOTTOM_ROOM_MM)
    if reach <= 0.0:
        raise cannot_be_made(
            joint,
            "screw",
            code="screw_too_short",
            value=f"{o.screw[1]:.1f} mm through {o.from_top - BOTTOM_ROOM_MM:.1f} mm of button",
            rule="must reach the top",
            remedy="Take a longer one.",
        )
    hollow = Hollow(at=under.meeting.contact.center, into=under.up, depth_mm=reach, what="screw that reaches")
    check_depth(joint, "screw", under.top, hollow=hollow)


def _cut(under: RailUnderTop, mortise: _Mortise, o: TopButtonOptions) -> Cut:
    frame = mortise.mouth
    outside = slot_frame(moved(frame.origin, frame.grain, -_OVER_MM), into=frame.grain, along=frame.width)
    tool = Box(
        frame=under.rail.frame.frame_in(outside),
        length_mm=mortise.depth_mm + _OVER_MM,
        width_mm=mortise.long_mm,
        thickness_mm=o.tongue + o.play,
    )
    return Cut(part=under.rail.name, tool=tool, what="button mortise")


def _mark(under: RailUnderTop, mortise: _Mortise, o: TopButtonOptions) -> Mark:
    spot = spot_on(under.rail, mortise.mouth.origin, under.face.label)
    return Mark(
        part=under.rail.name,
        kind=MarkKind.MORTISE,
        **spot.measured,
        length_mm=mortise.long_mm,
        width_mm=o.tongue + o.play,
        depth_mm=mortise.depth_mm,
        fit=Fit.SLIDING,
        setup=f"{o.tongue + o.play:g} mm mortises for buttons, {mortise.depth_mm:.1f} mm deep",
    )


def _freedoms(
    under: RailUnderTop, place: FastenerPlace, mortise: _Mortise, *, o: TopButtonOptions
) -> list[Freedom]:
    """In and out of the mortise, and along it, each as far as the top's movement goes that way."""
    found = []
    moves, square, along = place.travel, abs(under.square_share), abs(under.along_share)
    if square > 0.1:
        into, out_of = mortise.depth_mm - o.engaged, o.engaged
        outward = place.sign * under.square_share > 0.0
        found.append(
            Freedom(
                part=under.top.name,
                what=f"button {place.number}",
                at=place.at,
                from_fixed_mm=abs(place.across_mm),
                shrink_travel_mm=moves.shrink_mm * square,
                swell_travel_mm=moves.swell_mm * square,
                shrink_room_mm=into if outward else out_of,
                swell_room_mm=out_of if outward else into,
                cut_to_mm=mortise.depth_mm,
            )
        )
    if along > 0.1:
        half = (mortise.long_mm - o.width) / 2.0
        found.append(
            Freedom(
                part=under.top.name,
                what=f"button {place.number} along the rail",
                at=place.at,
                from_fixed_mm=abs(place.across_mm),
                shrink_travel_mm=moves.shrink_mm * along,
                swell_travel_mm=moves.swell_mm * along,
                shrink_room_mm=half - mortise.shift_mm,
                swell_room_mm=half + mortise.shift_mm,
                cut_to_mm=mortise.long_mm,
                bias_mm=-mortise.shift_mm,
            )
        )
    return found


def _connectors(
    under: RailUnderTop, places: tuple[FastenerPlace, ...], o: TopButtonOptions
) -> tuple[Connector, ...]:
    """The buttons as they lie under the top, and their screws."""
    out, up = under.out, under.up
    long, thick = o.body + o.engaged, o.from_top - BOTTOM_ROOM_MM + o.tongue
    frames = []
    for place in places:
        middle = moved(under.on_face(place.at, 0.5 + thick / 2.0), out, o.body - long / 2.0)
        frames.append(Frame(origin=middle, grain=out, width=cross(up, out), thickness=up))
    pilot = 0.63 * o.screw[0]
    return (
        Connector(
            kind=ConnectorKind.TOP_BUTTON,
            count=len(places),
            size_mm=(thick, o.width, long),
            note=f"tongue {o.tongue:g} mm thick, {o.engaged:g} mm in at build; grain along the tongue",
            frames=tuple(frames),
        ),
        Connector(
            kind=ConnectorKind.SCREW,
            count=len(places),
            size_mm=o.screw,
            drill_mm=(pilot, o.screw[1] - thick),
            note="one a button, into the top; pilot by hardwood practice",
        ),
    )
