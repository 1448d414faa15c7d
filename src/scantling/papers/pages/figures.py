"""Figures as printed: one style of length for the whole packet, rounded in the direction that is safe."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.units import (
    MM3_PER_BOARD_FOOT,
    LengthStyle,
    Round,
    show_angle,
    show_length,
    show_number,
    show_sizes,
    show_small,
    show_travel,
)
from scantling.units.us_measures import gram_words, liter_words

__all__ = ["Figures"]

_LB_PER_KG = 1.0 / 0.45359237
LIGHT = 0.095
"""Weights below are told to a hundredth. [kg or lb]"""
"""International avoirdupois pound, exact."""
_PA_PER_PSI = 6894.757293168
_MM2_PER_FT2 = 304.8**2


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Writes lengths, weights, areas and times in the style chosen.

    Parameters
    ----------
    style
        Inches and fractions, millimeters, or both.
    currency
        Written behind money.
    """

    style: LengthStyle
    currency: str = ""

    @property
    def unit(self) -> str:
        """Unit of a bare length, for headings."""
        return self.style.heading

    @property
    def lead(self) -> Figures:
        """The same in the unit that leads alone: where one scale is drawn, or there is no room for two."""
        return replace(self, style=self.style.styles[0])

    @property
    def fine(self) -> Figures:
        """The same with 64ths of an inch, or tenths of a millimeter: for cutters, fits and depths."""
        return replace(self, style=self.style.fine)

    def bare(self, value_mm: float, direction: Round = Round.NEAREST) -> str:
        """A length without its unit, for drawings and tables that name the unit once."""
        return show_length(value_mm, self.style, direction=direction, unit=False)

    def length(self, value_mm: float, direction: Round = Round.NEAREST) -> str:
        """A length with its unit."""
        return show_length(value_mm, self.style, direction=direction)

    def sizes(self, *sizes_mm: float, direction: Round = Round.NEAREST, unit: bool = False) -> str:
        """Sizes with a times sign between."""
        return show_sizes(sizes_mm, self.style, direction=direction, unit=unit)

    def tenths(self, value_mm: float, *, unit: bool = False, sign: str = "") -> str:
        """A small travel: millimeters to a tenth, or inches to a hundredth, for no tape shows it."""
        return show_small(value_mm, self.style, unit=unit, sign=sign)

    def travel(self, value_mm: float, direction: Round, *, unit: bool = False) -> str:
        """What wood moves, or the room it has for it: what is asked for rounded up, what is there down."""
        return show_travel(value_mm, self.style, direction=direction, unit=unit)

    def angle(self, value_deg: float) -> str:
        """An angle to a tenth of a degree."""
        return show_angle(value_deg)

    def load(self, value_kg: float) -> str:
        """A weight that was asked for, with its unit: as it was said, not weighed to a tenth."""
        value, unit = self._weight(value_kg)
        return f"{show_number(value)} {unit}"

    def _weight(self, value_kg: float) -> tuple[float, str]:
        return (value_kg * _LB_PER_KG, "lb") if self.style.inch else (value_kg, "kg")

    def mass(self, value_kg: float) -> str:
        """A weight with its unit, to a tenth; what is lighter than that to a hundredth."""
        value, unit = self._weight(value_kg)
        return f"{value:.{1 if value >= LIGHT else 2}f} {unit}"

    def area(self, value_mm2: float) -> str:
        """An area with its unit."""
        if self.style.inch:
            small = value_mm2 < 0.5 * _MM2_PER_FT2
            return f"{value_mm2 / 25.4**2:.0f} in²" if small else f"{value_mm2 / _MM2_PER_FT2:.1f} ft²"
        if value_mm2 < 1e5:
            return f"{value_mm2 * 1e-2:.0f} cm²"
        return f"{value_mm2 * 1e-6:.2f} m²"

    def stress(self, value_mpa: float) -> str:
        """A strength or stiffness with its unit."""
        if self.style.inch:
            return f"{value_mpa * 1e6 / _PA_PER_PSI:,.0f} psi"
        return f"{value_mpa:,.0f} MPa"

    def timber(self, volume_m3: float) -> str:
        """A volume of boards: board feet, or cubic meters."""
        if self.style.inch:
            return f"{volume_m3 * 1e9 / float(MM3_PER_BOARD_FOOT):.1f} bf"
        return f"{volume_m3:.4f} m³"

    def liters(self, value_l: float) -> str:
        """A volume of liquid."""
        return liter_words(value_l, inch=self.style.inch)

    def grams(self, value_g: float) -> str:
        """A small weight."""
        return gram_words(value_g, inch=self.style.inch)

    def minutes(self, value_min: float) -> str:
        """A stretch of time: ``25 min``, ``1 h 30``, ``2 days``."""
        whole = round(value_min)
        if whole < 60:
            return f"{whole} min"
        if whole >= 48 * 60 and whole % (24 * 60) == 0:
            return f"{whole // (24 * 60)} days"
        hours, rest = divmod(whole, 60)
        return f"{hours} h {rest:02d}" if rest else f"{hours} h"

    def money(self, value: float) -> str:
        """An amount, without the currency."""
        return f"{value:,.2f}"
