"""Views of the piece from its exact bodies: three views with sizes, a picture, and the piece apart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from scantling.papers.drawing import Side
from scantling.papers.pages.figures import Figures
from scantling.papers.piece_views import Balloon, PiecePicture, PieceView, PieceViews, ViewSize, line_pairs
from scantling.piece.geometry import Frame, Vec, add
from scantling.piece.model import Piece
from scantling.solids.exact import ExactPart
from scantling.solids.projection import Lines, project
from scantling.solids.shape import PartShape
from scantling.solids.view import FRONT, PLAN, RIGHT, TRIMETRIC, View

__all__ = ["apart_picture", "piece_picture", "three_views"]


def _view(title: str, lines: Lines, sizes: Iterable[tuple[Side, float, float, str]]) -> PieceView:
    return PieceView(
        title=title,
        visible=line_pairs(lines.visible.tolist()),
        sizes=tuple(ViewSize(side=s, low_mm=a, high_mm=b, text=t) for s, a, b, t in sizes),
    )


def _levels(piece: Piece, shapes: Mapping[str, PartShape]) -> list[float]:
    """Heights worth a figure: under sides of the level parts, from the floor. [mm]"""
    heights = set()
    for name in shapes:
        part = piece.parts[name]
        if abs(part.frame.grain[2]) < 0.2:
            half = (
                part.width_mm * abs(part.frame.width[2]) + part.thickness_mm * abs(part.frame.thickness[2])
            ) / 2.0
            heights.add(round(part.middle[2] - half, 1))
    return sorted(heights)


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
    front, plan, side = (project(shapes, view, bodies=bodies) for view in (FRONT, PLAN, RIGHT))
    (fx0, fy0), (fx1, fy1) = front.box.tolist()
    (_, py0), (_, py1) = plan.box.tolist()
    (sx0, _), (sx1, _) = side.box.tolist()
    levels = [h for h in _levels(piece, shapes) if fy0 + 5.0 < h < fy1 - 1.0]
    heights = [(Side.LEFT, fy0, h, figures.bare(h - fy0)) for h in levels[-3:]]
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
    lines = project(shapes, view, bodies=bodies)
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
    """The piece taken apart, every part numbered.

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
    lines = project(moved, view, bodies=stood)
    balloons = []
    for name, pieces in lines.of_part.items():
        if not len(pieces) or name not in numbers:
            continue
        longest = max(pieces.tolist(), key=lambda p: (p[0][0] - p[1][0]) ** 2 + (p[0][1] - p[1][1]) ** 2)
        x, y = view.at(moved[name].part.middle)
        (x0, y0), (x1, y1) = pieces.reshape(-1, 2).min(axis=0), pieces.reshape(-1, 2).max(axis=0)
        if not (x0 <= x <= x1 and y0 <= y <= y1):
            x, y = (longest[0][0] + longest[1][0]) / 2.0, (longest[0][1] + longest[1][1]) / 2.0
        balloons.append(Balloon(text=numbers[name], x_mm=float(x), y_mm=float(y)))
    return PiecePicture(
        title=f"{title}, taken apart", visible=line_pairs(lines.visible.tolist()), balloons=tuple(balloons)
    )


def _frame_moved(frame: Frame, offset: Vec) -> Frame:
    return replace(frame, origin=add(frame.origin, offset))


def _shape_moved(shape: PartShape, offset: Vec) -> PartShape:
    return replace(shape, part=replace(shape.part, frame=_frame_moved(shape.part.frame, offset)))
