"""A picture of each joint family, its two parts drawn a little apart: what the page on joints shows."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from scantling.joinery.work import Cut, HalfSpace, JointWork
from scantling.papers.drawing.svg import to_svg
from scantling.papers.marking.piece_views import draw_picture
from scantling.papers.pages.view_pages import apart_picture
from scantling.piece.convex import body_of
from scantling.piece.geometry import Frame, Plane, Vec, add, cross, dot, norm, scale, unit
from scantling.piece.model import Part, PartKind, RoundSection
from scantling.solids.exact import exact_parts
from scantling.solids.shape import PartShape
from scantling.solids.view import View
from tests.joinery.bench import made_of
from tests.joinery.sample import stick
from tests.joinery.samples import SAMPLES, Sample

__all__ = ["PICTURED", "PICTURES", "picture_of"]

PICTURED = {
    **SAMPLES,
    # It names two directions of the room, so it is not turned about as samples are: see test_lid_stay.py.
    "lid_stay": Sample(
        family="lid_stay",
        parts={
            "a": stick((-320, 0, 311), (-270, 0, 311), (300, 22), "back"),
            "b": stick((-310, -150, 200), (-310, 150, 200), (200, 20), "top"),
        },
        between=("a", "b.right"),
        options={"hinge": "back", "back": 60, "down": 110, "out": 150, "screw": [3.5, 14]},
        removed=lambda _: (0.0, 0.0),
    ),
}

PICTURES = Path(__file__).parents[2] / "docs" / "pictures" / "joints"
_ROOM_MM = 90.0
_HIGH_MM = 62.0
_SEEN_FROM_BEHIND = (
    "butt_hinge",
    "cross_bolt",
    "drawer_groove",
    "figure_eight",
    "strap_hinge",
    "top_button",
    "top_clip",
)
"""What is to be seen is on the inner side, or on the side that opens."""
_SHOWN_MM = 110.0
"""Of each part this much is drawn to each side of the joint, along its grain. [mm]"""


def picture_of(family: str) -> str:
    """The sample of a family, drawn apart in the direction its first part leaves. SVG."""
    sample = PICTURED[family]
    made = made_of(*_blocks(sample))
    work = made.works[0]
    shapes = {name: _short(shape, work.at) for name, shape in made.shapes.items()}
    apart = scale(work.leaves, _apart_mm(work))
    loose = _loose(work, made.piece.parts[work.second])
    shapes |= loose
    picture = apart_picture(
        family,
        shapes,
        exact_parts(shapes),
        offsets_mm={work.first: apart, **dict.fromkeys(loose, scale(apart, 0.5))},
        numbers={},
        view=_view(work.leaves, from_behind=family in _SEEN_FROM_BEHIND),
    )
    sheet = draw_picture(picture, room_mm=_ROOM_MM, height_mm=_HIGH_MM)
    drawn = to_svg(replace(sheet, title=family.replace("_", " ")))
    return drawn.replace("<svg ", '<svg style="background:#fff" ', 1) + "\n"


def _blocks(sample: Sample) -> tuple[dict[str, dict[str, object]], dict[str, dict[str, object]]]:
    pair = [name.format(inner="back") for name in sample.between]
    return sample.parts, {"j": {"kind": sample.family, "between": [pair], **sample.asked("back")}}


def _short(shape: PartShape, at: Vec) -> PartShape:
    """The part cut off square a little to both sides of the joint, where it is longer."""
    part = shape.part
    here = part.frame.local(at)[0]
    cuts = tuple(
        Cut(
            part=part.name,
            tool=HalfSpace(plane=Plane(point=(here + way * _SHOWN_MM, 0.0, 0.0), normal=(way, 0.0, 0.0))),
            what="drawn no further",
        )
        for way in (1.0, -1.0)
        if _reaches(part, here, way)
    )
    return replace(shape, cuts=(*shape.cuts, *cuts))


def _reaches(part: Part, here: float, way: float) -> bool:
    low, high = body_of(part).extent(part.frame.grain)
    middle = dot(part.frame.origin, part.frame.grain)
    end = (high if way > 0.0 else low) - middle
    return (end - here) * way > _SHOWN_MM + 5.0


def _apart_mm(work: JointWork) -> float:
    """Far enough for what goes in to be seen whole. [mm]"""
    longest = max((extension.length_mm for extension in work.extensions), default=0.0)
    reach = max(
        (_reach_mm(c.size_mm, frame, work.leaves) for c in work.connectors for frame in c.frames), default=0.0
    )
    return 60.0 + 1.3 * longest + 1.2 * reach


def _reach_mm(size_mm: tuple[float, ...], frame: Frame, way: Vec) -> float:
    """How far a loose thing reaches the way the parts come apart. [mm]"""
    thick, wide, length = (size_mm[0], *size_mm) if len(size_mm) < 3 else size_mm
    lies = (abs(dot(axis, way)) for axis in (frame.thickness, frame.width, frame.grain))
    return max(size * share for size, share in zip((thick, wide, length), lies, strict=True))


def _loose(work: JointWork, like: Part) -> dict[str, PartShape]:
    """Tenons, dowels, pins, clips and screws as plain sticks, half way between the two parts."""
    found = {}
    for connector in work.connectors:
        for frame in connector.frames:
            if abs(dot(add(frame.origin, scale(work.at, -1.0)), like.frame.grain)) > _SHOWN_MM:
                continue
            size, name = connector.size_mm, f"loose {len(found)}"
            thick, wide, length = (size[0], size[0], size[-1]) if len(size) < 3 else size
            if abs(dot(frame.grain, like.frame.grain)) > 0.9:
                length = min(length, 2.0 * _SHOWN_MM)
            stick = replace(
                like,
                name=name,
                kind=PartKind.STICK,
                frame=frame,
                start_mm=-length / 2.0,
                end_mm=length / 2.0,
                width_mm=wide,
                thickness_mm=thick,
                trims=(),
                tapers=(),
                round=RoundSection(start_mm=thick, end_mm=thick) if len(size) < 3 else None,
            )
            found[name] = PartShape(part=stick)
    return found


def _view(leaves: Vec, *, from_behind: bool) -> View:
    """From the side that the first part comes out on, and a little above or to the front of it."""
    up: Vec = (0.0, 0.0, 1.0)
    aside = cross(up, leaves) if abs(leaves[2]) < 0.7 else (0.5, -1.0, 0.0)
    aside = unit(aside if aside[1] <= 1e-9 else scale(aside, -1.0))
    if from_behind:
        aside = scale(aside, -1.0)
    lift = 0.5 if abs(leaves[2]) < 0.7 else 0.0
    toward = unit(add(add(scale(leaves, 0.55), scale(aside, 0.85)), (0.0, 0.0, lift)))
    right = unit(cross(up, toward))
    assert norm(right) > 0.5
    return View(name="apart", right=right, up=cross(toward, right))
