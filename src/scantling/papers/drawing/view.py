"""From the piece's millimeters, with up upward, to millimeters on paper, with y downward."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.papers.drawing.items import Point

__all__ = ["Box", "View", "bounds", "fit_scale"]

STANDARD_SCALES = (
    1.0,
    1.5,
    2.0,
    2.5,
    3.0,
    4.0,
    5.0,
    6.0,
    8.0,
    10.0,
    12.0,
    15.0,
    20.0,
    25.0,
    30.0,
    40.0,
    50.0,
)
"""Round scales, 1 to n: the figures tell the sizes, a round scale lets a rule confirm them."""


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle. [mm]"""

    left: float
    low: float
    right: float
    high: float

    @property
    def width(self) -> float:
        """[mm]"""
        return self.right - self.left

    @property
    def height(self) -> float:
        """[mm]"""
        return self.high - self.low


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A placed view.

    Parameters
    ----------
    corner
        Where the lower left corner of ``box`` lies on paper. [mm]
    box
        What is shown, in the piece's millimeters. [mm]
    per
        Piece millimeters on one of paper: 10 for 1:10.
    """

    corner: Point
    box: Box
    per: float

    def at(self, x: float, y: float) -> Point:
        """Paper position of a point. [mm]"""
        return (
            self.corner[0] + (x - self.box.left) / self.per,
            self.corner[1] - (y - self.box.low) / self.per,
        )

    @property
    def left(self) -> float:
        """[mm]"""
        return self.corner[0]

    @property
    def right(self) -> float:
        """[mm]"""
        return self.corner[0] + self.box.width / self.per

    @property
    def top(self) -> float:
        """[mm]"""
        return self.corner[1] - self.box.height / self.per

    @property
    def bottom(self) -> float:
        """[mm]"""
        return self.corner[1]


def bounds(points: Iterable[Point]) -> Box:
    """The rectangle around points; one of no size at the origin when there are none.

    Parameters
    ----------
    points
        Any points. [mm]

    Returns
    -------
    Box
        The rectangle. [mm]
    """
    found = list(points)
    if not found:
        return Box(0.0, 0.0, 0.0, 0.0)
    xs, ys = [p[0] for p in found], [p[1] for p in found]
    return Box(min(xs), min(ys), max(xs), max(ys))


def fit_scale(needs: Iterable[tuple[float, float]]) -> float:
    """Largest standard scale at which every extent fits its room.

    Parameters
    ----------
    needs
        Pairs of extent and room. [mm]

    Returns
    -------
    float
        n of 1:n, a standard one where one is small enough.

    Examples
    --------
    >>> fit_scale([(1370.0, 150.0)])
    10.0
    """
    least = max((extent / room for extent, room in needs if room > 0.0), default=1.0)
    return next((per for per in STANDARD_SCALES if per >= least - 1e-9), least)
