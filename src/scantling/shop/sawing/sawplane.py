r"""The angles of a saw for a plane: how far the blade is turned from square and how far it is tilted.

The saw: X along the fence to the right, Y away from whoever saws, toward the fence, Z up. A blade turned by a
miter m and tilted by a bevel b cuts the plane with the normal

.. math:: (\cos b \cos m, \cos b \sin m, \sin b)

so that its far end is swung to the left (a negative miter: to the right) and its top leans to the left. On a
saw that tilts to the right each part is turned end for end on the same face and lies on the other side of the
blade.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from scantling.piece.geometry import Vec, cross, dot, scale

__all__ = [
    "SQUARE_TOLERANCE_DEG",
    "KeptSide",
    "Placement",
    "Turn",
    "backing_angle_deg",
    "placements",
    "resultant_deg",
]

SQUARE_TOLERANCE_DEG = 0.02
"""An angle below this is square. [deg]"""


class KeptSide(StrEnum):
    """On which side of the blade the wood that is kept lies."""

    LEFT = "left"
    RIGHT = "right"


class Turn(StrEnum):
    """Which way the far end of the blade is swung."""

    NONE = "square"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """One way of laying a part at the saw.

    Parameters
    ----------
    miter_deg, bevel_deg
        Blade turned from square, and tilted from upright; both >= 0. [deg]
    turn
        Which way it is turned; the tilt is always to the left.
    down, fence
        Local directions of the face on the table and of the edge against the fence.
    kept
        Side of the blade the wood kept lies on.
    """

    miter_deg: float
    bevel_deg: float
    turn: Turn
    down: Vec
    fence: Vec
    kept: KeptSide

    @property
    def angles(self) -> int:
        """How many of the two angles are not square. [1]"""
        return int(self.miter_deg > 0.0) + int(self.bevel_deg > 0.0)


def placements(normal: Vec) -> tuple[Placement, ...]:
    """The lays of a part that cut a plane with the blade tilted to the left, one way at least on every face.

    Turning a part end for end on the same face, sawing on the other side of the blade, changes the sign of
    the tilt; turning it over changes that of the miter.

    Parameters
    ----------
    normal
        Unit normal of the end in right-handed part axes (grain, width, thickness), out of the wood.
    """
    found = [place for place in _all(normal) if place is not None]
    return tuple(
        sorted(found, key=lambda place: (place.angles, place.bevel_deg, place.turn is Turn.RIGHT, place.kept))
    )


def _all(normal: Vec) -> Iterator[Placement | None]:
    for along in (1.0, -1.0):
        grain: Vec = (along, 0.0, 0.0)
        for up in ((0.0, 0.0, 1.0), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0)):
            yield _placed(normal, grain, up)


def _placed(normal: Vec, grain: Vec, up: Vec) -> Placement | None:
    fence = cross(up, grain)
    x, y, z = dot(normal, grain), dot(normal, fence), dot(normal, up)
    kept = KeptSide.LEFT if x > 0.0 else KeptSide.RIGHT
    if x < 0.0:
        x, y, z = -x, -y, -z
    miter = _snapped(math.degrees(math.atan2(y, x)))
    bevel = _snapped(math.degrees(math.asin(max(-1.0, min(1.0, z)))))
    if bevel < 0.0:
        return None
    turn = Turn.NONE if miter == 0.0 else Turn.LEFT if miter > 0.0 else Turn.RIGHT
    return Placement(
        miter_deg=abs(miter),
        bevel_deg=bevel,
        turn=turn,
        down=scale(up, -1.0),
        fence=fence,
        kept=kept,
    )


def _snapped(angle_deg: float) -> float:
    return 0.0 if abs(angle_deg) < SQUARE_TOLERANCE_DEG else angle_deg


def resultant_deg(front_deg: float, side_deg: float) -> float:
    r"""Lean of a leg from plumb along its sight line, from its leans in the front and side views. [deg]

    Notes
    -----
    .. math:: \rho = \arctan \sqrt{\tan^2 \alpha + \tan^2 \beta}

    Examples
    --------
    >>> round(resultant_deg(8, 5), 2)
    9.4
    """
    return math.degrees(
        math.atan(math.hypot(math.tan(math.radians(front_deg)), math.tan(math.radians(side_deg))))
    )


def backing_angle_deg(front_deg: float, side_deg: float) -> float:
    r"""How far from square a splayed leg must be for both its faces to sit flush on plumb aprons. [deg]

    Notes
    -----
    .. math:: \delta = \arcsin(\sin \alpha \sin \beta)

    Examples
    --------
    >>> round(backing_angle_deg(8, 5), 3)
    0.695
    """
    return math.degrees(math.asin(math.sin(math.radians(front_deg)) * math.sin(math.radians(side_deg))))
