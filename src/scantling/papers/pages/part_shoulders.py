"""Shoulder lines of tongues on a part's broad face, with how far the tongues stand out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from scantling.joinery.work import Mark, MarkKind
from scantling.papers.drawing import Point
from scantling.papers.marking.face_view import Distance, FaceView
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.part_faces import Side, end_name, side_of, up_of
from scantling.papers.words.mark_sizes import mark_depth
from scantling.piece.geometry import Vec
from scantling.piece.model import End, Part

__all__ = ["shoulder_face", "with_shoulders"]

_WHOLE = 0.95
"""A tongue is drawn that runs at least so far along its side. [1]"""
_SQUARE = 0.999
_FLUSH_MM = 0.05
"""A tongue this near to a face has no shoulder on it. [mm]"""


def _tongues(part: Part, marks: Iterable[Mark]) -> list[Mark]:
    """Tongues along the whole of a square side, thinner than the part."""
    found = []
    for mark in marks:
        if mark.kind is not MarkKind.TONGUE or mark.width_mm > part.thickness_mm - _FLUSH_MM:
            continue
        along = part.width_mm if mark.on_end else part.length_mm
        square = all(abs(t.plane.normal[0]) > _SQUARE for t in part.trims if t.end is mark.end)
        if mark.length_mm > _WHOLE * along and (square or not mark.on_end):
            found.append(mark)
    return found


def shoulder_face(part: Part, marks: Iterable[Mark]) -> Side | None:
    """The broad face on which the shoulders of a part's tongues are gauged, that they are measured from."""
    tongues = _tongues(part, marks)
    return side_of(part, tongues[0].reference_face) if tongues else None


def with_shoulders(
    view: FaceView, part: Part, side: Side, *, marks: Iterable[Mark], figures: Figures
) -> FaceView:
    """A broad face with the lines to which its tongues are cut back.

    Parameters
    ----------
    view
        The face.
    part, side
        The part, and which of its faces.
    marks
        All of the part.
    figures
        How lengths are written.

    Returns
    -------
    FaceView
        As it is where ``side`` is an edge, or no tongue runs along a side.
    """
    if side.axis != 2:
        return view
    turned = view.left_name != end_name(part, End.START)
    for mark in _tongues(part, marks):
        line, (low, high) = _line(part, mark, up=up_of(part, side))
        if turned:
            long = part.length_mm if mark.on_end else part.width_mm
            low, high = long - high, long - low
            line = (_half_round(part, line[0]), _half_round(part, line[1]))
        off = Distance(low_mm=low, high_mm=high, text=mark_depth(mark, figures.style))
        near = side_of(part, mark.reference_face) == side
        face_mm = mark.from_face_mm if near else part.thickness_mm - mark.from_face_mm
        if face_mm - mark.width_mm / 2.0 > _FLUSH_MM:
            view = replace(view, visible=(*view.visible, line))
        else:
            view = replace(view, hidden=(*view.hidden, line))
        if mark.on_end:
            view = replace(view, lengths=(*view.lengths, off))
        else:
            view = replace(view, widths=(*view.widths, off))
    return view


def _half_round(part: Part, point: Point) -> Point:
    return part.length_mm - point[0], part.width_mm - point[1]


def _line(part: Part, mark: Mark, *, up: Vec) -> tuple[tuple[Point, Point], tuple[float, float]]:
    """The shoulder on the face, and from where to where it is measured, along the part or across. [mm]"""
    long, wide, deep = part.length_mm, part.width_mm, mark.depth_mm
    if mark.on_end:
        x = deep if mark.end is End.START else long - deep
        return ((x, 0.0), (x, wide)), ((0.0, x) if mark.end is End.START else (x, long))
    top = side_of(part, mark.face).sign * up[1] > 0
    y = wide - deep if top else deep
    return ((0.0, y), (long, y)), ((y, wide) if top else (0.0, y))
