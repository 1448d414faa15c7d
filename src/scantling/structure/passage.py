"""Openings on the way in: doors, corners of corridors, and stairs with a known limit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scantling.piece.geometry import Vec

__all__ = ["Corner", "Doorway", "Limit", "Passage", "longest_round_corner_mm", "tilted_spare_mm"]

_DIRECTIONS = 400
_ROLLS = 90


@dataclass(frozen=True, slots=True, kw_only=True)
class Doorway:
    """A straight opening. [mm]"""

    name: str
    width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """Two corridors that meet at a right angle. [mm]"""

    name: str
    first_mm: float
    second_mm: float
    ceiling_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A stair or lift that takes things up to a size, however held. [mm]"""

    name: str
    longest_mm: float
    middle_mm: float
    shortest_mm: float


Passage = Doorway | Corner | Limit


def longest_round_corner_mm(first_mm: float, second_mm: float, *, thick_mm: float) -> float:
    r"""Longest rectangle seen from above that turns a corner of two corridors. [mm]

    Notes
    -----
    .. math:: L = \min_\theta \frac{p\sin\theta + q\cos\theta - a}{\sin\theta\cos\theta}

    For ``a`` = 0 it is :math:`(p^{2/3} + q^{2/3})^{3/2}`. Derived.

    Examples
    --------
    >>> round(longest_round_corner_mm(900, 1000, thick_mm=300))
    2085
    """
    if thick_mm >= max(first_mm, second_mm):
        return 0.0

    def length(angle: float) -> float:
        s, c = math.sin(angle), math.cos(angle)
        return (first_mm * s + second_mm * c - thick_mm) / (s * c)

    steps = 180
    angles = [(k + 0.5) * math.pi / 2.0 / steps for k in range(steps)]
    best = min(angles, key=length)
    width = math.pi / 2.0 / steps
    low, high = max(best - width, 1e-9), min(best + width, math.pi / 2.0 - 1e-9)
    for _ in range(60):
        a, b = low + (high - low) / 3.0, high - (high - low) / 3.0
        low, high = (low, b) if length(a) < length(b) else (a, high)
    return max(length((low + high) / 2.0), 0.0)


def tilted_spare_mm(corners: Sequence[Vec], doorway: Doorway) -> float:
    """Most room left when a convex body goes straight through a doorway in any attitude. [mm]

    Negative when none passes. Attitudes are tried on a grid of a few degrees, so the answer is a
    little pessimistic and never too hopeful.

    Parameters
    ----------
    corners
        Corners of the body; only their convex hull matters. [mm] (n, 3)
    """
    import numpy as np  # only when no straight way passes

    points = np.asarray(corners, dtype=float)
    k = np.arange(_DIRECTIONS) + 0.5
    z = 1.0 - k / _DIRECTIONS  # directions spread evenly over half a sphere
    turn = math.pi * (1.0 + 5.0**0.5) * k
    flat = np.sqrt(1.0 - z * z)
    travel = np.stack([flat * np.cos(turn), flat * np.sin(turn), z], axis=1)
    travel = np.concatenate([np.eye(3), travel])
    rolls = np.arange(_ROLLS) * math.pi / 2.0 / _ROLLS
    best = -math.inf
    for along in travel:
        side = np.cross(along, [0.0, 0.0, 1.0] if abs(along[2]) < 0.9 else [1.0, 0.0, 0.0])
        side /= np.linalg.norm(side)
        up = np.cross(along, side)
        a, b = points @ side, points @ up
        across = np.outer(a, np.cos(rolls)) + np.outer(b, np.sin(rolls))
        upward = np.outer(b, np.cos(rolls)) - np.outer(a, np.sin(rolls))
        wide, high = np.ptp(across, axis=0), np.ptp(upward, axis=0)
        for w, h in ((wide, high), (high, wide)):
            room = np.minimum(doorway.width_mm - w, doorway.height_mm - h)
            best = max(best, float(room.max()))
    return best
