"""Where the figure of an end's angle stands: beside its arc, clear of joints, letters and rows of sizes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from scantling.papers.drawing import (
    Anchor,
    AngleDimension,
    Item,
    Line,
    Point,
    Text,
    View,
    draw_angle,
    text_box,
    text_width_mm,
)
from scantling.papers.marking.clearance import Box, boxes_of, meet, strikes
from scantling.papers.marking.face_view import FaceView

__all__ = ["draw_end_angles"]

_LARGEST_MM, _LEAST_MM, _OF_HEIGHT = 9.0, 4.5, 0.7
"""Radius of an arc, and how much of the height of the face it may take."""
_OFF_MM = 1.2
"""Of a figure from the edge it stands beside. [mm]"""
_SIZE_MM, _FARTHEST_MM, _STEP_MM = 3.2, 60.0, 1.5


def draw_end_angles(view: FaceView, place: View, *, taken: Sequence[Item], beyond: bool) -> list[Item]:
    """The angles of a face's ends, each figure at the first place that is free.

    Parameters
    ----------
    view, place
        The face and where it is drawn.
    taken
        What is drawn on the face and around it already.
    beyond
        Whether a figure may stand above or below the face.

    Returns
    -------
    list of Item
        Arcs with their figures.
    """
    items: list[Item] = []
    boxes = list(boxes_of(taken))
    for angle in view.angles:
        bare = AngleDimension(
            center=place.at(angle.x_mm, angle.y_mm),
            radius_mm=min(_LARGEST_MM, max(_LEAST_MM, _OF_HEIGHT * (place.bottom - place.top))),
            from_deg=-angle.from_deg,
            to_deg=-angle.to_deg,
            text=angle.text,
            size_mm=_SIZE_MM,
        )
        spots = _Spots(angle=bare, place=place, beyond=beyond)
        strokes = boxes_of(item for item in draw_angle(bare) if isinstance(item, Line))
        in_the_way = [*boxes, *strokes]
        free = (at for at in spots.found() if not any(meet(spots.box(at), box) for box in in_the_way))
        words = [text_box(item) for item in (*taken, *items) if isinstance(item, Text)]
        at = next((at for at in free if not strikes(draw_angle(bare, figure_at=at), words)), None)
        drawn = draw_angle(bare, figure_at=at)
        boxes += boxes_of(drawn)
        items += drawn
    return items


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spots:
    """Places for the middle of a figure, the best first."""

    angle: AngleDimension
    place: View
    beyond: bool

    @property
    def _half(self) -> float:
        return text_width_mm(self.angle.text, _SIZE_MM) / 2.0

    def box(self, at: Point) -> Box:
        """What a figure with this middle covers."""
        middle = (at[0], at[1] + 0.35 * _SIZE_MM)
        return text_box(Text(middle, self.angle.text, _SIZE_MM, Anchor.MIDDLE))

    def found(self) -> Iterator[Point]:
        """Along the middle of the angle, then along the face, then outside the edge the corner lies on."""
        (cx, cy), r = self.angle.center, self.angle.radius_mm
        turn = math.radians((self.angle.from_deg + self.angle.to_deg) / 2.0)
        high = 0.35 * _SIZE_MM
        reach = r + 1.2 + self._half * abs(math.cos(turn)) + high * abs(math.sin(turn))
        middle = (cx + reach * math.cos(turn), cy + reach * math.sin(turn))
        if self._inside(middle):
            yield middle
        inward = 1.0 if cx < (self.place.left + self.place.right) / 2.0 else -1.0
        steps = [_STEP_MM * k for k in range(int(_FARTHEST_MM / _STEP_MM))]
        along = [(cx + inward * (r + 0.8 + self._half + step), self._middle) for step in steps]
        near, far = along[:4], along[4:]
        outside: list[Point] = []
        if self.beyond:
            upper = cy < self._middle
            y = self.place.top - _OFF_MM - high if upper else self.place.bottom + _OFF_MM + high
            outside = [(cx + inward * (self._half + 0.8 + step), y) for step in steps[:20]]
        for at in (*near, *outside, *far):
            if at in outside or self._inside(at):
                yield at

    @property
    def _middle(self) -> float:
        return (self.place.top + self.place.bottom) / 2.0

    def _inside(self, at: Point) -> bool:
        left, top, right, bottom = self.box(at)
        return (
            left > self.place.left
            and right < self.place.right
            and top > self.place.top + 0.2
            and bottom < self.place.bottom - 0.2
        )
