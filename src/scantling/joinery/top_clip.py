"""Z-shaped top clips: screwed under a top, their tongues in a groove of the rail, free to slide."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from pydantic import Field

from scantling.errors import InputError
from scantling.joinery.fitting import Hollow, cannot_be_made, check_depth, wood_behind_mm
from scantling.joinery.meeting import Meeting, meet, moved, row, slot_frame, spot_on
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.strength import metal
from scantling.joinery.travel import Travel, travel
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
from scantling.piece.convex import Face, named_face
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Frame, Vec, cross, dot, scale
from scantling.piece.model import JointRequest, Part

__all__ = ["TopClip", "TopClipOptions"]

BOTTOM_ROOM_MM = 0.5
"""Least room behind a clip when the top is widest. [mm]"""
_OVER_MM = 2.0
_CLIP_MM = 2.0
"""Thickness of the clip under the screw's head. [mm]"""


class TopClipOptions(JointOptions):
    """Clips from a rail's face (first, as RAIL.FACE) to the top above it (second)."""

    kind: Literal["top_clip"]
    groove: Length = Field(default=3.2, gt=0)
    """Width of the groove (one saw kerf); by the clips you buy."""
    from_top: Length = Field(default=10, gt=0)
    """From the rail's top edge to the middle of the groove."""
    engaged: Length = Field(default=8, gt=0)
    """How far the clip's tongue stands in the groove at build."""
    depth: Length | None = Field(default=None, gt=0)
    """Depth of the groove; left out, as the room's year asks for."""
    count: Count | None = Field(default=None, ge=1, le=40)
    """Clips on this rail; left out, by the spacing."""
    spacing: Length = Field(default=350, gt=0)
    """Greatest distance between clips."""
    inset: Length = Field(default=60, ge=0)
    """From the ends of the rail to the first clip."""
    screw: tuple[PositiveLength, PositiveLength] = (4.0, 16.0)
    """Diameter and length of the screw into the top."""


class TopClip:
    """The top-clip family."""

    name = "top_clip"
    options_model = TopClipOptions
    strength = staticmethod(metal.fastened)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The groove, the clips and their screws, and whether each clip holds and slides all year."""
        o = joint.options
        assert isinstance(o, TopClipOptions)
        meeting = meet(_by_touch(joint), context)
        rail, top = meeting.first, meeting.second
        face = _grooved_face(joint, rail)
        count = None if o.count is None else int(o.count)
        places = row(meeting, count=count, spacing_mm=o.spacing, inset_mm=o.inset)
        travels = [_travel(top, place, context) for place in places]
        lively = [_travel(top, place, context, lively=True) for place in places]
        out = face.normal
        opens = _pull(top, out)
        depth = o.depth or max(
            [o.engaged + _inward(t, y, opens) + BOTTOM_ROOM_MM for t, y in lively], default=o.engaged
        )
        groove = _groove_frame(meeting, out, o)
        _check(joint, meeting, groove, depth=depth)
        freedoms = tuple(
            _freedom(f"clip {k + 1}", top, place, moves, opens=opens, rooms=(o.engaged, depth - o.engaged))
            for k, (place, moves) in enumerate(zip(places, travels, strict=True))
        )
        local = rail.frame.frame_in(
            Frame(
                origin=moved(groove.origin, groove.grain, -_OVER_MM),
                grain=groove.grain,
                width=groove.width,
                thickness=groove.thickness,
            )
        )
        cut = Cut(
            part=rail.name,
            tool=Box(
                frame=local,
                length_mm=depth + _OVER_MM,
                width_mm=rail.length_mm + 2.0 * _OVER_MM + 100.0,
                thickness_mm=o.groove,
            ),
            what="groove",
        )
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=rail.name,
            second=top.name,
            at=meeting.contact.center,
            leaves=scale(meeting.contact.normal, -1.0),
            cuts=(cut,),
            marks=(_mark(rail, groove, face.label, o, depth),),
            connectors=_connectors(meeting, places, out, o=o),
            freedoms=freedoms,
            dry=True,
            steps=(
                "Saw or rout the groove before the rail is glued in, from the top edge as reference.",
                "Turn the piece over on the top; set each clip with its tongue in the groove as deep as "
                "given.",
                "Screw the clips to the top, never to the rail.",
            ),
        )


def _check(joint: JointRequest, meeting: Meeting, groove: Frame, *, depth: float) -> None:
    """Refuse a groove that is not in the rail, a clip that does not go into it, a screw through the top."""
    o = joint.options
    assert isinstance(o, TopClipOptions)
    rail, top, up = meeting.first, meeting.second, meeting.contact.normal
    check_depth(
        joint,
        "depth",
        rail,
        hollow=Hollow(at=groove.origin, into=groove.grain, depth_mm=depth, what="groove"),
    )
    under = wood_behind_mm(rail, moved(groove.origin, groove.grain, 0.1), scale(up, -1.0))
    if o.from_top < o.groove / 2.0 or under < o.groove / 2.0:
        raise cannot_be_made(
            joint,
            "from_top",
            code="groove_off_rail",
            value=f"a {o.groove:.1f} mm groove {o.from_top:.1f} mm below the top edge of {rail.name}",
            rule="must lie inside the face it is cut in",
            remedy="Set it nearer the middle of the rail.",
        )
    if o.engaged > depth:
        raise cannot_be_made(
            joint,
            "engaged",
            code="clip_over_groove",
            value=f"{o.engaged:.1f} mm in a groove {depth:.1f} mm deep",
            rule="must not be more than the depth of the groove",
            remedy="Cut the groove deeper, or leave depth out.",
        )
    hole = Hollow(
        at=meeting.contact.center, into=up, depth_mm=o.screw[1] - _CLIP_MM, what="screw that reaches"
    )
    check_depth(joint, "screw", top, hollow=hole)


def _by_touch(joint: JointRequest) -> JointRequest:
    """The joint with the rail's grooved face left out: it touches the top with its upper edge."""
    return replace(joint, first=replace(joint.first, face=None, end=None))


def _grooved_face(joint: JointRequest, rail: Part) -> Face:
    face = named_face(rail, joint.first.face) if joint.first.face else None
    if face is None:
        raise InputError(
            code="groove_face_missing",
            field=f"joints.{joint.like}",
            value=str(joint.first),
            rule="must name the face of the rail that is grooved",
            remedy=f"Write {rail.name}.FACE, the face on the inside of the piece.",
        )
    return face


def _travel(top: Part, place: Vec, context: JointContext, *, lively: bool = False) -> tuple[Travel, float]:
    """Travel of the top over a clip, and the clip's place across the top from its middle."""
    y = top.frame.local(place)[1]
    return travel(top, y, context.moisture, lively=lively), y


def _pull(top: Part, out: Vec) -> float:
    """How much of the top's movement across its grain goes square to the grooved face: -1..1."""
    return dot(top.frame.width, out)


def _inward(t: Travel, y: float, opens: float) -> float:
    """Greatest push of a clip into its groove over the year. [mm]"""
    # When the top swells a clip at y goes to greater |y|; that is out of the groove where y * opens > 0.
    deeper = t.shrink_mm if y * opens > 0 else t.swell_mm
    return deeper * abs(opens)


def _freedom(
    what: str,
    top: Part,
    place: Vec,
    moves: tuple[Travel, float],
    *,
    opens: float,
    rooms: tuple[float, float],
) -> Freedom:
    """One clip's travel and room; ``rooms`` are those out of the groove and into it. [mm]"""
    (t, y), (out_of_groove, into_groove) = moves, rooms
    shrink_room, swell_room = (into_groove, out_of_groove) if y * opens > 0 else (out_of_groove, into_groove)
    return Freedom(
        part=top.name,
        what=what,
        at=place,
        from_fixed_mm=abs(y),
        shrink_travel_mm=t.shrink_mm * abs(opens),
        swell_travel_mm=t.swell_mm * abs(opens),
        shrink_room_mm=shrink_room,
        swell_room_mm=swell_room,
        cut_to_mm=out_of_groove + into_groove,
    )


def _groove_frame(meeting: Meeting, out: Vec, o: TopClipOptions) -> Frame:
    """Middle of the groove on the rail's face; grain into the rail, width along it."""
    rail = meeting.first
    down = scale(meeting.contact.normal, -1.0)
    low = rail.frame.local(meeting.contact.center)
    half = rail.thickness_mm / 2.0 if abs(dot(out, rail.frame.thickness)) > 0.7 else rail.width_mm / 2.0
    middle = rail.frame.point(((rail.start_mm + rail.end_mm) / 2.0, low[1], low[2]))
    offset = dot(rail.frame.point(((rail.start_mm + rail.end_mm) / 2.0, 0.0, 0.0)), out) + half
    on_face = moved(middle, out, offset - dot(middle, out))
    return slot_frame(moved(on_face, down, o.from_top), into=scale(out, -1.0), along=rail.frame.grain)


def _mark(rail: Part, groove: Frame, label: str, o: TopClipOptions, depth: float) -> Mark:
    spot = spot_on(rail, groove.origin, label)
    return Mark(
        part=rail.name,
        kind=MarkKind.GROOVE,
        on_end=False,
        end=spot.end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=rail.length_mm / 2.0,
        from_face_mm=o.from_top,
        length_mm=rail.length_mm,
        width_mm=o.groove,
        depth_mm=depth,
        fit=Fit.SLIDING,
        setup=f"{o.groove:g} mm groove, {o.from_top:g} mm below the top edge",
        note="full length",
    )


def _connectors(meeting: Meeting, places: list[Vec], out: Vec, *, o: TopClipOptions) -> tuple[Connector, ...]:
    up = meeting.contact.normal
    frames = tuple(
        Frame(origin=moved(moved(p, out, 18.0), up, -2.0), grain=out, width=cross(up, out), thickness=up)
        for p in places
    )
    return (
        Connector(
            kind=ConnectorKind.TOP_CLIP,
            count=len(places),
            size_mm=(2.0, 20.0, 38.0),
            frames=frames,
            note=f"tongue {o.engaged:g} mm in the groove at build",
        ),
        Connector(
            kind=ConnectorKind.SCREW,
            count=len(places),
            size_mm=o.screw,
            drill_mm=(0.9 * 0.7 * o.screw[0], o.screw[1] - 2.0),
            note="one a clip, into the top; pilot by hardwood practice",
        ),
    )
