"""How a part is shaped beyond its straight section: arrises, faces arched, scooped or cut out, or turned."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

__all__ = [
    "ARCHED",
    "HOLLOWED",
    "Shaping",
    "ShapingKind",
    "arc_depth_mm",
    "arc_radius_mm",
    "cut_out_area_mm2",
    "end_slope",
]


class ShapingKind(StrEnum):
    """What is done."""

    CHAMFER = "chamfer"
    ROUND_OVER = "round over"
    HOLLOW = "hollow"
    SCOOP = "scoop"
    CROWN = "crown"
    TURNED = "turned"
    CUT_OUT = "cut-out"


HOLLOWED = frozenset({ShapingKind.HOLLOW, ShapingKind.SCOOP})
"""Faces with an arc let into them, deepest in its middle."""
ARCHED = HOLLOWED | {ShapingKind.CROWN}
"""Faces that end as an arc along the grain, straight across."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaping:
    """One shaping of one part, in the part's own coordinates.

    Parameters
    ----------
    size_mm
        Leg of a chamfer, radius of a round-over, rise of an arch or depth of a scoop in its middle, height of
        a cut-out, diameter turned to. [mm]
    start_mm, end_mm
        Where it begins and ends along the grain. [mm]
    side
        Signs of width and thickness: an arris has both, a face one, a turned length none.
    where
        The arris or face in words, as the file names it.
    corner_mm
        Radius of the corners of a cut-out; 0 where they are sharp, and for all else. [mm]
    entry
        Which of the shapes that the file writes for the part it comes from, from 0.
    """

    kind: ShapingKind
    size_mm: float
    start_mm: float
    end_mm: float
    side: tuple[int, int]
    where: str = ""
    corner_mm: float = 0.0
    entry: int = 0


def arc_radius_mm(chord_mm: float, rise_mm: float) -> float:
    """Radius of an arc by its chord and the rise in its middle. [mm]

    Examples
    --------
    A chord of 1200 mm with a rise of 60 mm:

    >>> arc_radius_mm(1200.0, 60.0)
    3030.0
    """
    return (chord_mm**2 / 4.0 + rise_mm**2) / (2.0 * rise_mm)


def cut_out_area_mm2(long_mm: float, high_mm: float, corner_mm: float) -> float:
    """Area of a cut-out: a rectangle less what its two rounded corners leave standing. [mm2]

    Examples
    --------
    250 mm by 45 mm with corners of 40 mm: each leaves 40 x 40 (1 - pi / 4) = 343.4 mm2.

    >>> round(cut_out_area_mm2(250.0, 45.0, 40.0), 1)
    10563.3
    """
    return long_mm * high_mm - 2.0 * corner_mm**2 * (1.0 - math.pi / 4.0)


def end_slope(chord_mm: float, rise_mm: float) -> float:
    """Slope of an arc to its chord at its ends, where it is steepest. [1]

    Examples
    --------
    >>> round(end_slope(1200.0, 60.0), 4)
    0.202
    """
    half = chord_mm / 2.0
    return half / math.sqrt(arc_radius_mm(chord_mm, rise_mm) ** 2 - half**2)


def arc_depth_mm(shaping: Shaping, at_mm: float) -> float:
    """How far an arched face lies under its straight one at a place along the grain. [mm] 0 beside it.

    Examples
    --------
    A scoop 6 mm deep over a chord of 760 mm: all of it in the middle, nothing at its rim.

    >>> scoop = Shaping(
    ...     kind=ShapingKind.SCOOP, size_mm=6.0, start_mm=230.0, end_mm=990.0, side=(0, 1), where="top face"
    ... )
    >>> [round(arc_depth_mm(scoop, x), 3) for x in (200.0, 230.0, 420.0, 610.0)]
    [0.0, 0.0, 4.5, 6.0]
    """
    if shaping.kind not in ARCHED or not shaping.start_mm <= at_mm <= shaping.end_mm:
        return 0.0
    radius = arc_radius_mm(shaping.end_mm - shaping.start_mm, shaping.size_mm)
    along = at_mm - (shaping.start_mm + shaping.end_mm) / 2.0
    height = max(0.0, math.sqrt(max(radius**2 - along**2, 0.0)) - (radius - shaping.size_mm))
    return height if shaping.kind in HOLLOWED else shaping.size_mm - height
