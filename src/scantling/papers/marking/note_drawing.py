"""Sizes told at the thing itself: a chamfer, a radius, a diameter, on a leader in the nearest free place."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from scantling.papers.drawing import (
    Fill,
    Item,
    Line,
    Point,
    Polygon,
    Stroke,
    Text,
    View,
    backing,
    bounds,
    text_box,
)
from scantling.papers.drawing import text_width_mm as width_of
from scantling.papers.marking.clearance import Box, boxes_of, meet, strikes
from scantling.papers.marking.face_view import FaceView, ShapeNote

__all__ = ["draw_shape_notes", "notes_band_mm"]

_SIZE_MM, _ROW_MM, _STEP_MM, _FARTHEST_MM = 3.2, 4.6, 1.5, 75.0
_SHELF_MM = 0.8
_HEAD_MM, _HALF_MM = 1.9, 0.5
"""Length of an arrowhead and half its width. [mm]"""


def notes_band_mm(view: FaceView) -> tuple[float, float]:
    """Room kept free over and under a face for what is told of its shape there. [mm]"""
    over, under = (_ROW_MM * count + 1.4 if count else 0.0 for count in _counts(view))
    return over, under


def _counts(view: FaceView) -> tuple[int, int]:
    """How many notes are of the upper half of a face, and how many of the lower."""
    middle = bounds(view.outline).low + bounds(view.outline).height / 2.0
    upper = sum(note.y_mm >= middle for note in view.notes)
    return upper, len(view.notes) - upper


def draw_shape_notes(view: FaceView, place: View, *, taken: Sequence[Item]) -> list[Item]:
    """Each note with its leader.

    Parameters
    ----------
    view, place
        The face and where it is drawn.
    taken
        What is drawn on the face and around it already.
    """
    outline = tuple(place.at(x, y) for x, y in view.outline)
    edges = [Line(a, b) for a, b in pairwise((*outline, outline[0]))]
    boxes = [*boxes_of(taken), *boxes_of(edges)]
    words = [text_box(item) for item in taken if isinstance(item, Text)]
    items: list[Item] = []
    for note in view.notes:
        at = place.at(note.x_mm, note.y_mm)
        spots = sorted(_spots(view, note, at, place), key=lambda spot: math.dist(spot, at))
        tried = [_drawn(note, spot, at) for spot in spots]
        free = (
            drawn
            for drawn in tried
            if not any(meet(_room(drawn), box) for box in boxes) and not strikes(drawn, words)
        )
        drawn = next(free, tried[0])
        boxes += boxes_of(drawn)
        words.append(text_box(_words(drawn)))
        items += drawn
    return items


def _spots(view: FaceView, note: ShapeNote, at: Point, place: View) -> Iterator[Point]:
    """Where the words may start: over the face, in it unless it is hatched, under it."""
    half = width_of(note.text, _SIZE_MM) / 2.0
    upper, lower = _counts(view)
    over = [place.top - 2.0 - _ROW_MM * k for k in range(upper)]
    under = [place.bottom + 4.2 + _ROW_MM * k for k in range(max(lower, 1))]
    count = max(0, int((place.bottom - place.top - 1.5) / _ROW_MM))
    within = [] if view.cut else [place.top + 0.9 + _ROW_MM * (k + 0.8) for k in range(count)]
    most = int(_FARTHEST_MM / _STEP_MM)
    lefts = [at[0] + _STEP_MM * step - half for step in range(-most, most + 1)]
    limit = max(place.right, place.left + 60.0)
    for y in (*over, *within, *under):
        yield from ((left, y) for left in lefts if place.left - 1.5 < left < limit - 2.0 * half)


def _drawn(note: ShapeNote, spot: Point, at: Point) -> list[Item]:
    """Words over a shelf, from its nearer end a leader with an arrowhead at the thing (ISO 128 leader)."""
    width = width_of(note.text, _SIZE_MM)
    shelf = ((spot[0] - 0.4, spot[1] + 1.0), (spot[0] + width + 0.4, spot[1] + 1.0))
    knee = min(shelf, key=lambda end: math.dist(end, at))
    words = Text(spot, note.text, _SIZE_MM)
    return [
        Line(*shelf, Stroke.DIMENSION),
        Line(knee, at, Stroke.DIMENSION),
        _head(knee, at),
        backing(words),
        words,
    ]


def _head(start: Point, tip: Point) -> Polygon:
    far = math.dist(start, tip) or 1.0
    ux, uy = (tip[0] - start[0]) / far, (tip[1] - start[1]) / far
    back = (tip[0] - _HEAD_MM * ux, tip[1] - _HEAD_MM * uy)
    corners = (
        tip,
        (back[0] - _HALF_MM * uy, back[1] + _HALF_MM * ux),
        (back[0] + _HALF_MM * uy, back[1] - _HALF_MM * ux),
    )
    return Polygon(corners, Stroke.NONE, Fill.INK)


def _room(drawn: Sequence[Item]) -> Box:
    """What the words and their shelf take."""
    left, top, right, bottom = text_box(_words(drawn))
    return (left, top, right, bottom + _SHELF_MM)


def _words(drawn: Sequence[Item]) -> Text:
    return next(item for item in drawn if isinstance(item, Text))
