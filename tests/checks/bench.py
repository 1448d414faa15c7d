"""Small pieces made by hand: a stick, a panel, and joints between them, for the rules to look at."""

from __future__ import annotations

import math
from typing import Any

from scantling.checks import Subject
from scantling.joinery.work import Cut, JointWork, Slot
from scantling.piece.geometry import Frame, Plane, Vec
from scantling.piece.model import Brief, End, Part, PartKind, Piece, Trim
from scantling.wood.moisture import MoistureRange
from scantling.wood.ring import Ring

YEAR = MoistureRange(build_pct=8.0, dry_pct=6.0, wet_pct=12.0)
X: Vec = (1.0, 0.0, 0.0)
Y: Vec = (0.0, 1.0, 0.0)
Z: Vec = (0.0, 0.0, 1.0)


def square_ends(length_mm: float, *, by: str = "square") -> tuple[Trim, ...]:
    """Square trims at 0 and at the length."""
    start = Trim(plane=Plane(point=(0.0, 0.0, 0.0), normal=(-1.0, 0.0, 0.0)), end=End.START, by=by)
    end = Trim(plane=Plane(point=(length_mm, 0.0, 0.0), normal=X), end=End.END, by="square")
    return start, end


def part(
    name: str, *, length: float = 700.0, width: float = 90.0, thickness: float = 20.0, **more: Any
) -> Part:
    """A part lying along X unless told otherwise."""
    frame = more.pop("frame", Frame(origin=(0.0, 0.0, 0.0), grain=X, width=Y, thickness=Z))
    values: dict[str, Any] = {
        "name": name,
        "like": name,
        "kind": PartKind.STICK,
        "species": "white oak",
        "frame": frame,
        "width_mm": width,
        "thickness_mm": thickness,
        "start_mm": 0.0,
        "end_mm": length,
        "trims": square_ends(length),
        "ring": Ring.FLAT,
    }
    return Part(**{**values, **more})


def leg(name: str, *, front_deg: float = 0.0, side_deg: float = 0.0, **more: Any) -> Part:
    """A square leg standing on the floor, leaning in the two views."""
    a, b = math.tan(math.radians(front_deg)), math.tan(math.radians(side_deg))
    size = math.sqrt(1.0 + a * a + b * b)
    grain: Vec = (a / size, b / size, 1.0 / size)
    flat = math.hypot(grain[0], grain[2])
    width: Vec = (grain[2] / flat, 0.0, -grain[0] / flat)
    thickness: Vec = (
        grain[1] * width[2] - grain[2] * width[1],
        grain[2] * width[0] - grain[0] * width[2],
        grain[0] * width[1] - grain[1] * width[0],
    )
    length = more.get("length", 700.0)
    frame = Frame(origin=(0.0, 0.0, 0.0), grain=grain, width=width, thickness=thickness)
    values: dict[str, Any] = {"width": 48.0, "thickness": 48.0, "trims": square_ends(length, by="floor")}
    return part(name, frame=frame, **{**values, **more})


def mortise(of: str, *, at: Vec, into: Vec, along: Vec, size: tuple[float, float, float]) -> Cut:
    """A slot mortise: length, width, depth; ``at`` on the surface, in the part's coordinates."""
    across: Vec = (
        into[1] * along[2] - into[2] * along[1],
        into[2] * along[0] - into[0] * along[2],
        into[0] * along[1] - into[1] * along[0],
    )
    frame = Frame(origin=at, grain=into, width=along, thickness=across)
    return Cut(
        part=of, tool=Slot(frame=frame, length_mm=size[0], width_mm=size[1], depth_mm=size[2]), what="mortise"
    )


def work(joint: str, first: str, second: str, **more: Any) -> JointWork:
    """A joint that does nothing unless told."""
    values: dict[str, Any] = {"family": "loose_tenon", "at": (0.0, 0.0, 0.0), "leaves": X}
    return JointWork(joint=joint, first=first, second=second, **{**values, **more})


def subject(parts: tuple[Part, ...], works: tuple[JointWork, ...] = (), **more: Any) -> Subject:
    """A piece of these parts with these joints, in a year from 6 to 12 %."""
    accept = more.pop("accept", {})
    named = {p.name: p for p in parts}
    piece = Piece(
        title="t", about="", units="mm", parameters=(), parts=named, joints=(), brief=Brief(), accept=accept
    )
    return Subject(**{"piece": piece, "works": works, "moisture": YEAR, **more})
