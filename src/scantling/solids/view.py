"""Ways to look at a piece or a part: which direction is right on the paper, which is up."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.piece.geometry import Frame, Vec, cross, dot, unit

__all__ = [
    "BACK",
    "FRONT",
    "ISOMETRIC",
    "LEFT",
    "PLAN",
    "RIGHT",
    "TRIMETRIC",
    "UNDERSIDE",
    "View",
    "own_view",
    "pictorial",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A parallel projection.

    Parameters
    ----------
    name
        As it is called on a drawing.
    right, up
        World directions that point right and up on the paper; unit, square to each other. [1]
    """

    name: str
    right: Vec
    up: Vec

    @property
    def toward(self) -> Vec:
        """World direction toward the eye. [1]"""
        return cross(self.right, self.up)

    def at(self, point: Vec) -> tuple[float, float]:
        """Where a world point comes to lie on the paper, at full size. [mm]"""
        return dot(point, self.right), dot(point, self.up)


FRONT = View(name="front", right=(1.0, 0.0, 0.0), up=(0.0, 0.0, 1.0))
BACK = View(name="back", right=(-1.0, 0.0, 0.0), up=(0.0, 0.0, 1.0))
RIGHT = View(name="right side", right=(0.0, 1.0, 0.0), up=(0.0, 0.0, 1.0))
LEFT = View(name="left side", right=(0.0, -1.0, 0.0), up=(0.0, 0.0, 1.0))
PLAN = View(name="plan", right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0))
UNDERSIDE = View(name="from below", right=(1.0, 0.0, 0.0), up=(0.0, -1.0, 0.0))


def pictorial(name: str, *, turn_deg: float, tip_deg: float) -> View:
    """A view from the front, walked round toward the right side and looking down.

    Parameters
    ----------
    name
        As it is called on a drawing.
    turn_deg
        Walked round from the front. [deg]
    tip_deg
        Looking down. [deg]

    Returns
    -------
    View
        Up on the paper is up in the world.
    """
    turn, tip = math.radians(turn_deg), math.radians(tip_deg)
    toward = (math.sin(turn) * math.cos(tip), -math.cos(turn) * math.cos(tip), math.sin(tip))
    right = (math.cos(turn), math.sin(turn), 0.0)
    return View(name=name, right=right, up=cross(toward, right))


ISOMETRIC = pictorial("isometric", turn_deg=45.0, tip_deg=math.degrees(math.atan(math.sqrt(0.5))))
"""All three axes foreshortened alike, by the root of two thirds."""
TRIMETRIC = pictorial("trimetric", turn_deg=28.0, tip_deg=20.0)
"""Each axis foreshortened differently; lines that would fall on one another mostly do not."""


def own_view(frame: Frame, *, right: Vec, up: Vec, name: str) -> View:
    """A view along a part's own axes, for its own drawing.

    Parameters
    ----------
    frame
        Where the part stands.
    right, up
        Directions in u, v, w that point right and up on the paper.
    name
        As it is called on the drawing.

    Returns
    -------
    View
        For a mirrored part the paper shows it as it is, not as its twin.
    """
    return View(name=name, right=unit(frame.direction(right)), up=unit(frame.direction(up)))
