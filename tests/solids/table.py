"""A small splay-legged table, made by hand: four legs mirrored from one, four aprons, a top, mortises."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

from scantling.joinery.work import Cut, JointWork, Slot
from scantling.piece.geometry import Frame, Plane, Vec, add, cross, dot, scale, sub, unit
from scantling.piece.model import Brief, Direction, End, Part, PartKind, Piece, Taper, Trim
from tests.solids.sticks import bar, into

FLOOR = Plane(point=(0.0, 0.0, 0.0), normal=(0.0, 0.0, -1.0))
UNDER_TOP = Plane(point=(0.0, 0.0, 716.0), normal=(0.0, 0.0, 1.0))
_HALF_X, _HALF_Y, _RISE, _SIDE = 560.0, 250.0, 716.0, 48.0
_APRON_Z, _TAPER_LOSS = 660.0, 12.0


def _mirrored(part: Part, name: str, *, x: bool = False, y: bool = False) -> Part:
    def flip(v: Vec) -> Vec:
        return (-v[0] if x else v[0], -v[1] if y else v[1], v[2])

    f = part.frame
    frame = Frame(
        origin=flip(f.origin), grain=flip(f.grain), width=flip(f.width), thickness=flip(f.thickness)
    )
    return replace(part, name=name, frame=frame, mirrored=x != y)


def _leg() -> Part:
    """Front left: leaning 7 deg along X and 5 deg along Y, tapered on its two inner faces."""
    up = unit((math.tan(math.radians(7.0)), math.tan(math.radians(5.0)), 1.0))
    width = unit(sub((1.0, 0.0, 0.0), scale(up, up[0])))
    foot = add((-_HALF_X, -_HALF_Y, _RISE), scale(up, -_RISE / up[2]))
    frame = Frame(origin=foot, grain=up, width=width, thickness=cross(up, width))
    trims = (
        Trim(plane=frame.plane_in(FLOOR), end=End.START, by="floor"),
        Trim(plane=frame.plane_in(UNDER_TOP), end=End.END, by="top.bottom"),
    )
    part = bar("leg_fl", width=_SIDE, thickness=_SIDE, trims=trims, frame=frame)
    tapers = tuple(_taper(side, face) for side, face in ((0, Direction.RIGHT), (1, Direction.BACK)))
    return replace(part, like="leg", tapers=tapers)


def _taper(side: int, face: Direction) -> Taper:
    run = 600.0
    slope = math.hypot(run, _TAPER_LOSS)
    normal, point = [-_TAPER_LOSS / slope, 0.0, 0.0], [run, 0.0, 0.0]
    normal[1 + side], point[1 + side] = run / slope, _SIDE / 2.0
    plane = Plane(point=(point[0], point[1], point[2]), normal=(normal[0], normal[1], normal[2]))
    return Taper(plane=plane, toward=End.START, begin_mm=120.0, loss_mm=_TAPER_LOSS, face=face)


def _apron(name: str, grain: Vec, origin: Vec, ends: tuple[Plane, Plane]) -> Part:
    """An upright apron between two faces of legs, whose planes are given as the legs see them."""
    up = (0.0, 0.0, 1.0)
    frame = Frame(origin=origin, grain=grain, width=up, thickness=cross(grain, up))
    trims = tuple(
        Trim(plane=frame.plane_in(plane.flipped()), end=end, by="leg face")
        for plane, end in zip(ends, End, strict=True)
    )
    return replace(bar(name, width=90.0, thickness=20.0, trims=trims, frame=frame), like=name)


def _leg_face(leg: Part, axis: int) -> Plane:
    """The face of a leg that looks along its width (1) or thickness (2) axis."""
    local = [0.0, 0.0, 0.0]
    local[axis] = 1.0
    normal = (local[0], local[1], local[2])
    return leg.frame.plane_out(Plane(point=scale(normal, _SIDE / 2.0), normal=normal))


def _parts() -> dict[str, Part]:
    fl = _leg()
    fr, bl = _mirrored(fl, "leg_fr", x=True), _mirrored(fl, "leg_bl", y=True)
    br = _mirrored(fl, "leg_br", x=True, y=True)
    at = fl.frame.point((_APRON_Z / fl.frame.grain[2], 0.0, 0.0))
    front = _apron(
        "apron_front", (1.0, 0.0, 0.0), (0.0, at[1], _APRON_Z), (_leg_face(fl, 1), _leg_face(fr, 1))
    )
    left = _apron("apron_left", (0.0, 1.0, 0.0), (at[0], 0.0, _APRON_Z), (_leg_face(fl, 2), _leg_face(bl, 2)))
    back, right = _mirrored(front, "apron_back", y=True), _mirrored(left, "apron_right", x=True)
    top_frame = Frame(
        origin=(-685.0, 0.0, 728.0),
        grain=(1.0, 0.0, 0.0),
        width=(0.0, 1.0, 0.0),
        thickness=(0.0, 0.0, 1.0),
    )
    top = replace(
        bar("top", length=1370.0, width=660.0, thickness=24.0, frame=top_frame), kind=PartKind.PANEL
    )
    return {p.name: p for p in (top, fl, fr, bl, br, front, back, left, right)}


def _joint(apron: Part, end: End, leg: Part) -> JointWork:
    """A mortise in the apron's end and one in the leg, for a loose tenon along the apron's grain."""
    way = apron.frame.grain if end is End.START else scale(apron.frame.grain, -1.0)
    trim = next(t for t in apron.trims if t.end is end).plane
    u = dot(trim.point, trim.normal) / trim.normal[0]
    mouth = apron.frame.point((u, 0.0, 0.0))
    up = (0.0, 0.0, 1.0)
    cuts = tuple(
        Cut(
            part=part.name,
            tool=Slot(
                frame=part.frame.frame_in(into(mouth, d, up)), length_mm=50.0, width_mm=10.0, depth_mm=depth
            ),
            what="mortise",
        )
        for part, d, depth in ((apron, way, 28.0), (leg, scale(way, -1.0), 14.0))
    )
    return JointWork(
        joint=f"{apron.name}.{end.value}",
        family="loose tenon",
        first=apron.name,
        second=leg.name,
        at=mouth,
        leaves=way,
        cuts=cuts,
    )


@cache
def table() -> tuple[Piece, tuple[JointWork, ...]]:
    """The table and what its joints answered."""
    parts = _parts()
    corners = {
        "apron_front": ("leg_fl", "leg_fr"),
        "apron_back": ("leg_bl", "leg_br"),
        "apron_left": ("leg_fl", "leg_bl"),
        "apron_right": ("leg_fr", "leg_br"),
    }
    works = tuple(
        _joint(parts[name], end, parts[leg])
        for name, legs in corners.items()
        for end, leg in zip(End, legs, strict=True)
    )
    piece = Piece(
        title="Small table", about="", units="mm", parameters=(), parts=parts, joints=(), brief=Brief()
    )
    return piece, works
