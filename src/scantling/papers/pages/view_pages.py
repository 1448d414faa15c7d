"""Views of the piece from its exact bodies: three views with sizes, a picture, and the piece apart."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from scantling.joinery.work import JointWork
from scantling.papers.drawing import Side
from scantling.papers.marking.piece_views import (
    Balloon,
    PiecePicture,
    PieceView,
    PieceViews,
    ViewSize,
    line_pairs,
)
from scantling.papers.pages.figures import Figures
from scantling.papers.words.chains import chain_links
from scantling.piece.convex import body_of
from scantling.piece.geometry import Frame, Vec, add, sub
from scantling.piece.model import Direction, Part, Piece
from scantling.solids.exact import ExactPart
from scantling.solids.mesh import PartMesh
from scantling.solids.projection import Hidden, Lines, project
from scantling.solids.pulling import units_of
from scantling.solids.shape import PartShape
from scantling.solids.view import FRONT, PLAN, RIGHT, TRIMETRIC, View

__all__ = ["apart_picture", "hung_parts", "piece_picture", "three_views"]

_FEW_LEVELS = 3
"""More level parts than this are told one over the other as a chain as well. [1]"""
_MOST_PLACES, _LEAST_APART = 12, 0.045
"""Places of that chain, and how far apart they are at least, as a share of the height. [1]"""
_AS_FAR_MM = 25.0
"""Parts that begin within about this of each other are as far in front. [mm]"""
_FEW = 20
"""Parts up to this many each get a balloon in the picture of the piece apart; past it, one a number. [1]"""


_PLUMB, _ONE_EDGE_MM = 0.999, 1.5
"""Grain of an upright part against the plumb line; edges nearer to each other are told once. [1], [mm]"""
_FOREMOST_MM = 60.0
"""Upright parts set back by less than this stand in front: legs before a side, not the back's muntin. [mm]"""
_ON_LINE_MM, _SEEN_MM = 0.3, 8.0
"""A line is at a place within this, and seen where so much of it is. [mm]"""

_Size = tuple[Side, float, float, str]
"""Along which side of a view, from where to where, and the figure."""


def _view(title: str, lines: Lines, sizes: Iterable[tuple[Side, float, float, str]]) -> PieceView:
    return PieceView(
        title=title,
        visible=line_pairs(lines.visible.tolist()),
        sizes=tuple(ViewSize(side=s, low_mm=a, high_mm=b, text=t) for s, a, b, t in sizes),
    )


def hung_parts(piece: Piece, meshes: Mapping[str, PartMesh], works: Iterable[JointWork]) -> frozenset[str]:
    """Parts of doors and drawers, which stand in what the views give sizes of."""
    return frozenset(name for unit in units_of(piece.parts, meshes, works)[1:] for name in unit)


def _levels(parts: Iterable[Part], front: Lines) -> dict[float, float]:
    """Under sides of the level parts that are seen in front, each with how far behind it is begun. [mm]"""
    heights: dict[float, float] = {}
    for part in parts:
        if abs(part.frame.grain[2]) < 0.2:
            height = round(_reach(part, 2)[0], 1)
            if _seen(front.of_part.get(part.name), height, axis=1):
                behind = body_of(part).extent(Direction.BACK.vector)[0]
                heights[height] = min(heights.get(height, behind), behind)
    return heights


def _edges(parts: Iterable[Part], front: Lines) -> list[float]:
    """Both edges of the upright parts foremost and seen, from the left; near ones once. [mm]"""
    found: list[float] = []
    upright = [part for part in parts if abs(part.frame.grain[2]) > _PLUMB and not part.tapers]
    begins = {part.name: body_of(part).extent(Direction.BACK.vector)[0] for part in upright}
    foremost = min(begins.values(), default=0.0)
    for part in upright:
        if begins[part.name] < foremost + _FOREMOST_MM:
            found += [x for x in _reach(part, 0) if _seen(front.of_part.get(part.name), x, axis=0)]
    kept: list[float] = []
    for x in sorted(found):
        if not kept or x - kept[-1] > _ONE_EDGE_MM:
            kept.append(round(x, 1))
    return kept


def _reach(part: Part, axis: int) -> tuple[float, float]:
    """From where to where a part reaches along an axis of the world, its joints left out. [mm]"""
    size = (part.length_mm, part.width_mm, part.thickness_mm)
    frame = (part.frame.grain, part.frame.width, part.frame.thickness)
    half = sum(long * abs(way[axis]) for long, way in zip(size[1:], frame[1:], strict=True)) / 2.0
    if axis != 2:
        half += size[0] * abs(frame[0][axis]) / 2.0
    return part.middle[axis] - half, part.middle[axis] + half


def _seen(lines: NDArray[np.float64] | None, at_mm: float, *, axis: int) -> bool:
    """Whether a straight line of a part is seen at a place along an axis of the view."""
    if lines is None or not len(lines):
        return False
    on = np.all(np.abs(lines[:, :, axis] - at_mm) < _ON_LINE_MM, axis=1)
    return bool((on & (np.abs(np.diff(lines[:, :, 1 - axis], axis=1)[:, 0]) > _SEEN_MM)).any())


def _uprights(piece: Piece, front: Lines, hung: Collection[str], *, figures: Figures) -> list[_Size]:
    """The chain under the front view: legs, dividers and what is clear between them."""
    (x0, _), (x1, _) = front.box.tolist()
    still = [part for part in piece.parts.values() if part.name not in hung]
    inner = [x for x in _edges(still, front) if x0 + _ONE_EDGE_MM < x < x1 - _ONE_EDGE_MM]
    if not 2 <= len(inner) <= _MOST_PLACES - 2:
        return []
    links = chain_links([x0, *inner, x1], figures=figures)
    return [(Side.BELOW, link.low_mm, link.high_mm, link.text) for link in links]


def three_views(
    piece: Piece,
    shapes: Mapping[str, PartShape],
    bodies: Mapping[str, ExactPart],
    *,
    figures: Figures,
    hung: Collection[str] = (),
) -> PieceViews:
    """Plan, front and right side, with sizes over all, heights of the level parts and places of the upright.

    Parameters
    ----------
    piece
        The piece.
    shapes, bodies
        Its parts with joints cut, and their exact bodies.
    figures
        How lengths are written.
    hung
        Parts of doors and drawers, from :func:`hung_parts`.

    Returns
    -------
    PieceViews
        To draw.
    """
    front, plan, side = (
        project(shapes, view, bodies=bodies, hidden=Hidden.LEFT_OUT) for view in (FRONT, PLAN, RIGHT)
    )
    (fx0, fy0), (fx1, fy1) = front.box.tolist()
    (_, py0), (_, py1) = plan.box.tolist()
    (sx0, _), (sx1, _) = side.box.tolist()
    still = [piece.parts[name] for name in shapes if name not in hung]
    levels = {h: y for h, y in sorted(_levels(still, front).items()) if fy0 + 5.0 < h < fy1 - 1.0}
    many = len(levels) > _FEW_LEVELS
    places = _apart(levels, (fy0, fy1))
    single = places[1:-1] if many else list(levels)
    heights = [(Side.LEFT, fy0, h, figures.bare(h - fy0)) for h in single[-3:]]
    if many and len(places) <= _MOST_PLACES:
        heights += [
            (Side.RIGHT, link.low_mm, link.high_mm, link.text)
            for link in chain_links(places, figures=figures)
        ]
    uprights = _uprights(piece, front, hung, figures=figures)
    feet = [size for size in _feet(front, fy0, figures) if not any(_same(size, one) for one in uprights)]
    return PieceViews(
        front=_view(
            "Front",
            front,
            [
                (Side.BELOW, fx0, fx1, figures.bare(fx1 - fx0)),
                (Side.LEFT, fy0, fy1, figures.bare(fy1 - fy0)),
                *heights,
                *feet,
                *uprights,
            ],
        ),
        plan=_view("Plan", plan, [(Side.LEFT, py0, py1, figures.bare(py1 - py0))]),
        side=_view(
            "Right side",
            side,
            [(Side.BELOW, sx0, sx1, figures.bare(sx1 - sx0)), *_feet(side, fy0, figures)],
        ),
    )


def _same(size: _Size, other: _Size) -> bool:
    """Whether two sizes of a side are from and to the same edges, so that one says it."""
    return max(abs(size[1] - other[1]), abs(size[2] - other[2])) < _ONE_EDGE_MM


def _apart(levels: Mapping[float, float], ends: tuple[float, float]) -> list[float]:
    """Heights far enough apart for a figure between them, with the first and the last. [mm]

    Of two that are too near to each other the one farther in front stays: a shelf, and not the rail of the
    back behind it; of two as far in front the lower.
    """
    low, high = ends
    least = _LEAST_APART * (high - low)
    kept: list[float] = []
    for level in sorted(levels, key=lambda h: (round(levels[h] / _AS_FAR_MM), h)):
        clear = level - low >= least and high - level >= 0.2 * least
        if clear and all(abs(level - other) >= least for other in kept):
            kept.append(level)
    return [low, *sorted(kept), high]


def _feet(lines: Lines, floor_mm: float, figures: Figures) -> list[tuple[Side, float, float, str]]:
    """Spread of what stands on the floor, where it is not the whole width."""
    points = lines.visible.reshape(-1, 2)
    down = points[points[:, 1] < floor_mm + 0.5]
    if not len(down):
        return []
    low, high = float(down[:, 0].min()), float(down[:, 0].max())
    (x0, _), (x1, _) = lines.box.tolist()
    if high - low < 1.0 or (abs(low - x0) < 0.5 and abs(high - x1) < 0.5):
        return []
    return [(Side.BELOW, low, high, figures.bare(high - low))]


def piece_picture(
    title: str, shapes: Mapping[str, PartShape], bodies: Mapping[str, ExactPart], *, view: View = TRIMETRIC
) -> PiecePicture:
    """The piece as it stands.

    Parameters
    ----------
    title
        Of the piece.
    shapes, bodies
        Its parts with joints cut, and their exact bodies.
    view
        Where from.

    Returns
    -------
    PiecePicture
        To draw.
    """
    lines = project(shapes, view, bodies=bodies, hidden=Hidden.LEFT_OUT)
    return PiecePicture(title=title, visible=line_pairs(lines.visible.tolist()))


def apart_picture(
    title: str,
    shapes: Mapping[str, PartShape],
    bodies: Mapping[str, ExactPart],
    *,
    offsets_mm: Mapping[str, Vec],
    numbers: Mapping[str, str],
    view: View = TRIMETRIC,
) -> PiecePicture:
    """The piece taken apart, every part numbered; of many parts, one of each number.

    Parameters
    ----------
    title
        Of the piece.
    shapes, bodies
        Its parts with joints cut, and their exact bodies.
    offsets_mm
        How far each part is moved. [mm]
    numbers
        Number of each part in the part list.
    view
        Where from.

    Returns
    -------
    PiecePicture
        To draw.
    """
    still = (0.0, 0.0, 0.0)
    moved = {name: _shape_moved(shape, offsets_mm.get(name, still)) for name, shape in shapes.items()}
    stood = {
        name: replace(body, frame=_frame_moved(body.frame, offsets_mm.get(name, still)))
        for name, body in bodies.items()
    }
    lines = project(moved, view, bodies=stood, hidden=Hidden.LEFT_OUT)
    balloons = [
        _balloon(moved, name, lines.of_part[name], view, text=numbers[name])
        for name in _named(lines.of_part, numbers)
    ]
    return PiecePicture(
        title=f"{title}, taken apart", visible=line_pairs(lines.visible.tolist()), balloons=tuple(balloons)
    )


def _named(of_part: Mapping[str, NDArray[np.float64]], numbers: Mapping[str, str]) -> tuple[str, ...]:
    """Parts that get a balloon: all of a small piece, the best seen of each number in a large one."""
    drawn = [name for name, pieces in of_part.items() if name in numbers and len(pieces)]
    if len(drawn) <= _FEW:
        return tuple(drawn)
    seen = {
        name: float(np.linalg.norm(of_part[name][:, 1] - of_part[name][:, 0], axis=1).sum()) for name in drawn
    }
    best: dict[str, str] = {}
    for name in drawn:
        number = numbers[name]
        if number not in best or seen[name] > seen[best[number]] * 1.02:
            best[number] = name
    return tuple(best.values())


def _balloon(
    shapes: Mapping[str, PartShape], name: str, pieces: NDArray[np.float64], view: View, *, text: str
) -> Balloon:
    """At the part's middle where that is seen, else on its longest line."""
    middle = shapes[name].part.middle
    x, y = view.at(middle)
    others = (shape for other, shape in shapes.items() if other != name)
    if any(_stands_before(shape.part, middle, view.toward) for shape in others):
        longest = pieces[np.argmax(np.linalg.norm(pieces[:, 1] - pieces[:, 0], axis=1))]
        x, y = longest.mean(axis=0)
    return Balloon(text=text, x_mm=float(x), y_mm=float(y))


def _stands_before(part: Part, point: Vec, toward: Vec) -> bool:
    """Whether a part, taken as its box, is between a point and the eye."""
    frame = part.frame
    axes = np.array([frame.grain, frame.width, frame.thickness])
    start = axes @ np.array(sub(point, part.middle))
    way = axes @ np.array(toward)
    half = np.array([part.length_mm, part.width_mm, part.thickness_mm]) / 2.0
    with np.errstate(divide="ignore", invalid="ignore"):
        ends = np.sort(np.array([(-half - start) / way, (half - start) / way]), axis=0)
    enters, leaves = np.nanmax(ends[0]), np.nanmin(ends[1])
    return bool(enters < leaves and leaves > 0.0)


def _frame_moved(frame: Frame, offset: Vec) -> Frame:
    return replace(frame, origin=add(frame.origin, offset))


def _shape_moved(shape: PartShape, offset: Vec) -> PartShape:
    return replace(shape, part=replace(shape.part, frame=_frame_moved(shape.part.frame, offset)))
