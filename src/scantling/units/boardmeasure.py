"""Board measure, the trade's unit of rough hardwood."""

from __future__ import annotations

from scantling.units.lengths import MM_PER_FOOT, MM_PER_INCH

__all__ = ["MM3_PER_BOARD_FOOT", "board_feet", "surface_measure_ft2"]

MM3_PER_BOARD_FOOT = float(144 * MM_PER_INCH**3)
"""One board foot is 144 cubic inches. [mm3]"""


def board_feet(*, quarters: float, width_mm: float, length_mm: float) -> float:
    """Board feet of a rough board, unrounded.

    Parameters
    ----------
    quarters
        Nominal thickness in quarters of an inch; less than 4 counts as 4. [1/4 in]
    width_mm, length_mm
        Rough size. [mm]

    Returns
    -------
    float
        ``quarters/4 * width(in) * length(ft) / 12``. [board ft]

    References
    ----------
    .. [1] American Softwood Lumber Standard PS 20 and NHLA rules: a board foot is 1 in x 12 in x 12 in
       nominal; under 1 in thick counts as 1 in.

    Examples
    --------
    >>> round(board_feet(quarters=8, width_mm=7.5 * 25.4, length_mm=9 * 304.8), 6)
    11.25
    """
    inches = max(quarters, 4.0) / 4.0
    return inches * (width_mm / float(MM_PER_INCH)) * (length_mm / float(MM_PER_FOOT)) / 12.0


def surface_measure_ft2(*, width_mm: float, length_mm: float) -> int:
    """Surface measure by the grading rule, as tallied in the yard.

    Width in inches times length in whole feet, over twelve, rounded to the whole number
    (a half goes up). [ft2]

    References
    ----------
    .. [1] NHLA, *Rules for the Measurement and Inspection of Hardwood and Cypress*, surface measure.

    Examples
    --------
    >>> surface_measure_ft2(width_mm=8.5 * 25.4, length_mm=10 * 304.8)
    7
    """
    feet = int(length_mm / float(MM_PER_FOOT) + 1e-9)
    return int(width_mm / float(MM_PER_INCH) * feet / 12.0 + 0.5 + 1e-9)
