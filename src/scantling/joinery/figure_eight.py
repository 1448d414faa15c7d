"""Figure-eight clips: two joined rings, one let into the rail's edge, one screwed to the top; they swing."""

from __future__ import annotations

import math
from typing import Literal

from pydantic import Field

from scantling.joinery.fitting import cannot_be_made, wood_behind_mm
from scantling.joinery.meeting import moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
from scantling.joinery.under_top import FastenerPlace, RailUnderTop, places_under, rail_under_top
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
)
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Vec, scale
from scantling.piece.model import JointRequest

__all__ = ["FigureEight", "FigureEightOptions", "swing_deg", "swing_reach_mm"]

_OVER_MM = 2.0
_PILOT_SHARE = 0.63
"""Pilot hole over the screw's diameter, hardwood (common practice). [1]"""


class FigureEightOptions(JointOptions):
    """Figure-eight clips from a rail (first, as RAIL.FACE, out of which they point) to the top (second)."""

    kind: Literal["figure_eight"]
    ring: Length = Field(default=20, gt=0)
    """Diameter of each ring."""
    centers: Length = Field(default=21, gt=0)
    """Between the middles of the two rings."""
    waist: Length = Field(default=9, gt=0)
    """Width of the clip between the rings."""
    thick: Length = Field(default=3, gt=0)
    """Thickness of the clip, which is the depth of its recess."""
    from_face: Length = Field(default=5, ge=0)
    """From the rail's face to the middle of the ring let into it."""
    play: Length = Field(default=0.5, ge=0, le=3)
    """What the rings' holes are wider than the screws' shanks, both together, taken up as the clip swings."""
    count: Count | None = Field(default=None, ge=1, le=40)
    """Clips on this rail; left out, by the spacing."""
    spacing: Length = Field(default=350, gt=0)
    """Greatest distance between clips."""
    inset: Length = Field(default=60, ge=0)
    """From the ends of the rail to the first clip."""
    screw: tuple[PositiveLength, PositiveLength] = (4.5, 18.0)
    """Diameter and length of both screws."""


def swing_deg(*, ring_mm: float, waist_mm: float, from_face_mm: float) -> float:
    r"""How far a clip can swing either way before its waist meets the corner of its recess.

    The recess is a circle of the ring's diameter :math:`D` that breaks out through the rail's face, its
    middle :math:`c` behind it. The waist, :math:`w` wide, turns in that opening until its side touches the
    corner: :math:`\theta = \arccos(w / D) - \arcsin(2 c / D)`.

    Parameters
    ----------
    ring_mm, waist_mm
        Diameter of the ring, width of the waist. [mm]
    from_face_mm
        From the face to the middle of the recess. [mm]

    Returns
    -------
    float
        [deg]; 0 where the waist does not turn at all.

    Examples
    --------
    >>> round(swing_deg(ring_mm=20.0, waist_mm=9.0, from_face_mm=5.0), 2)
    33.26
    """
    if waist_mm >= ring_mm or 2.0 * from_face_mm >= ring_mm:
        return 0.0
    turn = math.acos(waist_mm / ring_mm) - math.asin(2.0 * from_face_mm / ring_mm)
    return max(0.0, math.degrees(turn))


def swing_reach_mm(*, centers_mm: float, play_mm: float, largest_deg: float, square: bool) -> float:
    r"""How far the top may move over a clip, from its middle place, to either side.

    A clip that lies square to the movement swings: its outer ring goes round on a circle, and what that
    takes away from its reach, the play of its screws gives back, so far as
    :math:`x = \sqrt{(d + p)^2 - d^2}`, and no farther than its swing, :math:`x = d \sin\theta`. A clip
    that lies in line with the movement cannot swing: it has the play alone.

    Parameters
    ----------
    centers_mm
        Between the rings' middles. [mm]
    play_mm
        Of both screws in their holes together. [mm]
    largest_deg
        The swing its recess allows. [deg]
    square
        Whether the clip lies square to the movement.

    Examples
    --------
    >>> round(swing_reach_mm(centers_mm=21.0, play_mm=0.5, largest_deg=33.26, square=True), 2)
    4.61
    >>> swing_reach_mm(centers_mm=21.0, play_mm=0.5, largest_deg=33.26, square=False)
    0.5
    """
    if not square:
        return play_mm
    by_play = math.sqrt((centers_mm + play_mm) ** 2 - centers_mm**2)
    return max(play_mm, min(by_play, centers_mm * math.sin(math.radians(largest_deg))))


class FigureEight:
    """The figure-eight family."""

    name = "figure_eight"
    options_model = FigureEightOptions
    strength = staticmethod(metal.hinged)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Recesses, clips and screws, and whether each clip swings as far as the top moves."""
        o = joint.options
        assert isinstance(o, FigureEightOptions)
        under = rail_under_top(joint, context)
        _check(joint, under)
        count = None if o.count is None else int(o.count)
        places = places_under(under, context, count=count, spacing_mm=o.spacing, inset_mm=o.inset)
        cuts = [cut for place in places for cut in _cuts(under, place, o)]
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=under.rail.name,
            second=under.top.name,
            at=under.meeting.contact.center,
            leaves=scale(under.up, -1.0),
            cuts=tuple(cuts),
            marks=tuple(_mark(under, place, o) for place in places),
            connectors=_connectors(under, places, o),
            freedoms=tuple(_freedom(under, place, o) for place in places),
            dry=True,
            steps=(
                "Bore the recesses with a flat-bottomed bit, as deep as the clip is thick, open to the face.",
                "Screw each clip into its recess loosely enough that it swings by hand.",
                "Turn the piece over on the top, clips square to the rail; screw them to the top.",
            ),
        )


def _check(joint: JointRequest, under: RailUnderTop) -> None:
    """Refuse a recess not in the rail's edge or not open, rings that overlap, too long a screw."""
    o = joint.options
    assert isinstance(o, FigureEightOptions)
    behind = wood_behind_mm(
        under.rail, under.on_face(under.meeting.contact.center, 0.1), scale(under.out, -1.0)
    )
    top = wood_behind_mm(under.top, under.meeting.contact.center, under.up)
    bounds = (
        ("from_face", 2.0 * o.from_face, o.ring, "the ring, so that the recess opens to the face"),
        ("ring", o.from_face + o.ring / 2.0, behind, f"the thickness of {under.rail.name}"),
        ("waist", o.waist, o.ring, "the ring"),
        ("centers", o.ring / 2.0, o.centers, "the way between the rings' middles"),
        ("screw", o.screw[1] - o.thick, top, f"the thickness of {under.top.name}"),
        ("screw", o.thick, o.screw[1], "the screw's length, so that it reaches the wood"),
    )
    for option, size, limit, what in bounds:
        if size >= limit:
            raise cannot_be_made(
                joint,
                option,
                code="clip_does_not_fit",
                value=f"{size:.1f} mm of {limit:.1f} mm",
                rule=f"must be less than {what}",
                remedy="Choose a smaller clip, or a thicker rail.",
            )


def _pivots(under: RailUnderTop, place: FastenerPlace, o: FigureEightOptions) -> tuple[Vec, Vec]:
    """Middles of the ring in the rail's edge and of the one under the top. World. [mm]"""
    inner = moved(under.on_face(place.at, 0.0), under.out, -o.from_face)
    return inner, moved(inner, under.out, o.centers)


def _cuts(under: RailUnderTop, place: FastenerPlace, o: FigureEightOptions) -> tuple[Cut, Cut, Cut]:
    """The recess in the rail's edge, and the pilot holes in the rail and in the top."""
    inner, outer = _pivots(under, place, o)
    down = scale(under.up, -1.0)
    drilled = o.screw[1] - o.thick
    bored = (
        (under.rail.frame, moved(inner, under.up, _OVER_MM), down, (o.ring, o.thick + _OVER_MM)),
        (under.rail.frame, moved(inner, down, o.thick), down, (_PILOT_SHARE * o.screw[0], drilled)),
        (
            under.top.frame,
            moved(outer, down, _OVER_MM),
            under.up,
            (_PILOT_SHARE * o.screw[0], drilled + _OVER_MM),
        ),
    )
    names = (under.rail.name, under.rail.name, under.top.name)
    whats = ("recess", "pilot hole", "pilot hole")
    recess, pilot, pilot_top = (
        Cut(
            part=name,
            tool=Hole(
                frame=frame.frame_in(slot_frame(at, into=into, along=under.along)),
                diameter_mm=size[0],
                depth_mm=size[1],
            ),
            what=what,
        )
        for name, what, (frame, at, into, size) in zip(names, whats, bored, strict=True)
    )
    return recess, pilot, pilot_top


def _mark(under: RailUnderTop, place: FastenerPlace, o: FigureEightOptions) -> Mark:
    inner, _ = _pivots(under, place, o)
    spot = spot_on(under.rail, inner, under.meeting.contact.first_face)
    return Mark(
        part=under.rail.name,
        kind=MarkKind.HOLE,
        **spot.measured,
        length_mm=o.ring,
        width_mm=o.ring,
        depth_mm=o.thick,
        fit=Fit.SLIDING,
        setup=f"{o.ring:g} mm recesses, {o.thick:g} mm deep",
        note="open to the inner face",
    )


def _freedom(under: RailUnderTop, place: FastenerPlace, o: FigureEightOptions) -> Freedom:
    """The swing each way against the top's travel."""
    square = abs(under.along_share) > abs(under.square_share)
    turn = swing_deg(ring_mm=o.ring, waist_mm=o.waist, from_face_mm=o.from_face)
    reach = swing_reach_mm(centers_mm=o.centers, play_mm=o.play, largest_deg=turn, square=square)
    return Freedom(
        part=under.top.name,
        what=f"swing of clip {place.number}"
        if square
        else f"play of clip {place.number}, which cannot swing",
        at=place.at,
        from_fixed_mm=abs(place.across_mm),
        shrink_travel_mm=place.travel.shrink_mm,
        swell_travel_mm=place.travel.swell_mm,
        shrink_room_mm=reach,
        swell_room_mm=reach,
    )


def _connectors(
    under: RailUnderTop, places: tuple[FastenerPlace, ...], o: FigureEightOptions
) -> tuple[Connector, ...]:
    frames = []
    for place in places:
        inner, _ = _pivots(under, place, o)
        middle = moved(moved(inner, under.out, o.centers / 2.0), under.up, -o.thick / 2.0)
        frames.append(slot_frame(middle, into=under.out, along=under.along))
    return (
        Connector(
            kind=ConnectorKind.FIGURE_EIGHT,
            count=len(places),
            size_mm=(o.thick, o.ring, o.centers + o.ring),
            note="must swing by hand once screwed to the rail",
            frames=tuple(frames),
        ),
        Connector(
            kind=ConnectorKind.SCREW,
            count=2 * len(places),
            size_mm=o.screw,
            drill_mm=(_PILOT_SHARE * o.screw[0], o.screw[1] - o.thick),
            note="two a clip: one into the rail, one into the top",
        ),
    )
