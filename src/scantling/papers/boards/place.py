"""Board millimeters to paper, at one scale along the grain and one across."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.papers.boards.picture import BoardPicture
from scantling.papers.drawing import Point

__all__ = ["LEFT_MM", "BoardPlace", "BoardScale", "Corners", "board_scale"]

Corners = tuple[Point, Point, Point, Point]
"""Lower left, lower right, upper right, upper left on paper. [mm]"""

LEFT_MM = 3.0
"""Room left of a board for the first line of its sizes. [mm]"""
_RIGHT_MM = 0.5
_ALONG = (5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 18.0, 20.0, 25.0, 30.0, 40.0, 50.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardScale:
    """Scale along and across the grain, 1 to n: long boards are drawn wider than they are, and say so."""

    along: float
    across: float

    @property
    def note(self) -> str:
        """How the scale is told."""
        if self.along == self.across:
            return f"lengths and widths 1:{self.along:g}"
        return f"lengths 1:{self.along:g}, widths 1:{self.across:g}"


def board_scale(boards: Iterable[BoardPicture], *, room_mm: float) -> BoardScale:
    """One scale for all boards of a packet, so that they can be compared.

    Parameters
    ----------
    boards
        The boards.
    room_mm
        Width of the drawing. [mm]

    Returns
    -------
    BoardScale
        The scale.
    """
    longest = max((b.length_mm for b in boards), default=1.0)
    least = longest / (room_mm - LEFT_MM - _RIGHT_MM)
    along = next((n for n in _ALONG if n >= least - 1e-9), least)
    return BoardScale(along=along, across=along if along < 12.0 else along / 2.0)


class BoardPlace:
    """Where a board lies on paper; ``corner`` is its lower left corner. [mm]"""

    def __init__(self, corner: Point, scale: BoardScale) -> None:
        self._corner, self._scale = corner, scale

    def at(self, x: float, y: float) -> Point:
        """A point of the board. [mm]"""
        return (self._corner[0] + x / self._scale.along, self._corner[1] - y / self._scale.across)

    def of(self, point: Point) -> Point:
        """The point of the board that lies at a point of the paper. [mm]"""
        return (
            (point[0] - self._corner[0]) * self._scale.along,
            (self._corner[1] - point[1]) * self._scale.across,
        )

    def box(self, x: float, y: float, length: float, width: float) -> Corners:
        """A rectangle of the board. [mm]"""
        return (self.at(x, y), self.at(x + length, y), self.at(x + length, y + width), self.at(x, y + width))
