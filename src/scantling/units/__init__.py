"""Lengths, fractions and angles: read as a maker writes them, shown as a tape measure does.

Inches, feet and board feet exist here and at the faces; everywhere else a length is a float in mm.
"""

from scantling.units.boardmeasure import MM3_PER_BOARD_FOOT, board_feet, surface_measure_ft2
from scantling.units.lengths import (
    FRACTION_SLASH,
    MM_PER_FOOT,
    MM_PER_INCH,
    is_bare_fraction,
    is_in_inches,
    parse_length_mm,
)
from scantling.units.quantities import Dimension, parse_quantity
from scantling.units.show import (
    show_angle,
    show_length,
    show_limit,
    show_number,
    show_sizes,
    show_small,
    show_travel,
    with_article,
)
from scantling.units.style import LengthStyle, Round, bracketed, leading, other_unit

__all__ = [
    "FRACTION_SLASH",
    "MM3_PER_BOARD_FOOT",
    "MM_PER_FOOT",
    "MM_PER_INCH",
    "Dimension",
    "LengthStyle",
    "Round",
    "board_feet",
    "bracketed",
    "is_bare_fraction",
    "is_in_inches",
    "leading",
    "other_unit",
    "parse_length_mm",
    "parse_quantity",
    "show_angle",
    "show_length",
    "show_limit",
    "show_number",
    "show_sizes",
    "show_small",
    "show_travel",
    "surface_measure_ft2",
    "with_article",
]
