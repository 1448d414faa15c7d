"""Views of the piece from its exact bodies: three views with sizes, a picture, and the piece apart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from scantling.papers.chains import chain_links
from scantling.papers.drawing import Side
from scantling.papers.pages.figures import Figures
from scantling.papers.piece_views import Balloon, PiecePicture, PieceView, PieceViews, ViewSize, line_pairs
from scantling.piece.convex import body_of
from scantling.piece.geometry import Frame, Vec, add, sub
from scantling.piece.model import Direction, Part, Piece
from scantling.solids.exact import ExactPart
from scantling.solids.projection import Hidden, Lines, project
from scantling.solids.shape import PartShape
from scantling.solids.view import FRONT, PLAN, RIGHT, TRIMETRIC, View

__all__ = ["apart_picture", "piece_picture", "three_views"]

_FEW_LEVELS = 3
"""More level parts than this are told one over the other as a chain as well. [1]"""
_MOST_PLACES, _LEAST_APART = 12, 0.045
"""Places of that chain, and how far apart they are at least, as a share of the height. [1]"""
_AS_FAR_MM = 25.0
"""Parts that begin within about this of each other are as far in front. [mm]"""
_FEW = 20
"""Parts up to this many each get a balloon in the picture of the piece apart; past it, one a number. [1]"""


def _view(title: str, lines: Lines, sizes: Iterable[tuple[Side, float, float, str]]) -> PieceView:
    return PieceView(
        title=title,
        visible=line_pairs(lines.visible.tolist()),
        sizes=tuple(ViewSize(side=s, low_mm=a, high_mm=b, text=t) for s, a, b, t in sizes),
    )


def _levels(piece: Piece, shapes: Mapping[str, PartShape]) -> dict[float, float]:
    """Heights worth a figure, under sides of the level parts, each with how far behind it is begun. [mm]"""
    heights: dict[float, float] = {}
    for name in shapes:
        part = piece.parts[name]
        if abs(part.frame.grain[2]) < 0.2:
            half = (
                part.width_mm * abs(part.frame.width[2]) + part.thickness_mm * abs(part.frame.thickness[2])
            ) / 2.0
            height = round(part.middle[2] - half, 1)
            behind = body_of(part).extent(Direction.BACK.vector)[0]
            heights[height] = min(heights.get(height, behind), behind)
    return heights


def three_views(
    piece: Piece, shapes: Mapping[str, PartShape], bodies: Mapping[str, ExactPart], *, figures: Figures
) -> PieceViews:
    """Plan, front and right side, with the sizes over all and the heights of the level parts.

    Parameters
    ----------
    piece
        The piece.
    shapes, bodies
        Its parts with joints cut, and their exact bodies.
    figures
        How lengths are written.

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
    levels = {h: y for h, y in sorted(_levels(piece, shapes).items()) if fy0 + 5.0 < h < fy1 - 1.0}
    many = len(levels) > _FEW_LEVELS
    places = _apart(levels, (fy0, fy1))
    single = places[1:-1] if many else list(levels)
    heights = [(Side.LEFT, fy0, h, figures.bare(h - fy0)) for h in single[-3:]]
    if many and len(places) <= _MOST_PLACES:
        heights += [
            (Side.RIGHT, link.low_mm, link.high_mm, link.text)
            for link in chain_links(places, figures=figures)
        ]
    return PieceViews(
        front=_view(
            "Front",
            front,
            [
                (Side.BELOW, fx0, fx1, figures.bare(fx1 - fx0)),
                (Side.LEFT, fy0, fy1, figures.bare(fy1 - fy0)),
                *heights,
                *_feet(front, fy0, figures),
            ],
        ),
        plan=_view("Plan", plan, [(Side.LEFT, py0, py1, figures.bare(py1 - py0))]),
        side=_view(
            "Right side",
            side,
            [(Side.BELOW, sx0, sx1, figures.bare(sx1 - sx0)), *_feet(side, fy0, figures)],
        ),
    )


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
