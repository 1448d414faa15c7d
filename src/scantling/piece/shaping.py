"""How a part is shaped beyond its straight section: arrises off, a face arched or cut out, or turned."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Shaping", "ShapingKind", "arc_radius_mm", "cut_out_area_mm2", "end_slope"]


class ShapingKind(StrEnum):
    """What is done."""

    CHAMFER = "chamfer"
    ROUND_OVER = "round over"
    HOLLOW = "hollow"
    CROWN = "crown"
    TURNED = "turned"
    CUT_OUT = "cut-out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaping:
    """One shaping of one part, in the part's own coordinates.

    Parameters
    ----------
    size_mm
        Leg of a chamfer, radius of a round-over, rise of an arch in its middle, height of a cut-out, diameter
        turned to. [mm]
    start_mm, end_mm
        Where it begins and ends along the grain. [mm]
    side
        Signs of width and thickness: an arris has both, a face one, a turned length none.
    where
        The arris or face in words, as the file names it.
    corner_mm
        Radius of the corners of a cut-out; 0 where they are sharp, and for all else. [mm]
    """

    kind: ShapingKind
    size_mm: float
    start_mm: float
    end_mm: float
    side: tuple[int, int]
    where: str = ""
    corner_mm: float = 0.0


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
