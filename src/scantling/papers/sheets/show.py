"""Figures as they are shown on the sheets, in the units of the piece."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scantling.papers.words.joint_naming import looks_of
from scantling.papers.words.naming import joints_words, label_of, names_of, place_words, plain_words
from scantling.piece.model import Direction, End
from scantling.plan.result import Plan
from scantling.shop.sizes.size import Size
from scantling.units import LengthStyle, Round, show_angle, show_length, show_number, show_sizes, show_travel
from scantling.units.us_measures import celsius_words, gram_words, liter_words

__all__ = ["Show", "joints_words", "label_of", "names_of", "place_words", "word"]

_KG_PER_LB = 0.45359237
LIGHT = 0.095
"""Weights below are told to a hundredth. [kg or lb]"""
_N_PER_LBF = 4.4482216152605
_M2_PER_FT2 = 0.09290304


@dataclass(frozen=True, slots=True, kw_only=True)
class Show:
    """How figures are shown.

    Parameters
    ----------
    style
        Of lengths.
    fine
        Of gaps and slots, where a tenth of a millimeter matters.
    ends
        Where each end of each part looks.
    """

    style: LengthStyle
    fine: LengthStyle
    ends: Mapping[tuple[str, End], str]

    @classmethod
    def of(cls, plan: Plan) -> Show:
        """By the units of the piece."""
        return cls(style=plan.style, fine=plan.style.fine, ends=looks_of(plan.parts))

    @classmethod
    def in_units(cls, units: str) -> Show:
        """In ``mm``, ``in`` or ``both``, of no piece; of both, millimeters lead."""
        return cls.in_style(LengthStyle.of(units))

    @classmethod
    def in_style(cls, style: LengthStyle) -> Show:
        """In a style, of no piece."""
        return cls(style=style, fine=style.fine, ends={})

    def length(self, mm: float, direction: Round = Round.NEAREST, *, unit: bool = False) -> str:
        """A size."""
        return show_length(mm, self.style, direction=direction, unit=unit)

    def long(self, mm: float) -> str:
        """A length with its unit, for sentences."""
        return self.length(mm, unit=True)

    def gap(self, mm: float, direction: Round = Round.NEAREST, *, unit: bool = False, sign: str = "") -> str:
        """A gap, slot or depth."""
        return show_length(mm, self.fine, direction=direction, unit=unit, sign=sign)

    def travel(self, mm: float, direction: Round, *, sign: str = "") -> str:
        """What wood moves, or the room it has for it."""
        return show_travel(mm, self.fine, direction=direction, sign=sign)

    def gaps(self, sizes_mm: Iterable[float]) -> str:
        """Small sizes with a times sign between."""
        return show_sizes(sizes_mm, self.fine)

    def size(self, size: Size) -> str:
        """Length x width x thickness."""
        return self.by(size.length_mm, size.width_mm, size.thickness_mm)

    def rough(self, size: Size) -> str:
        """Length x width x thickness of a blank, rounded up: a blank too small is no blank."""
        sizes = (size.length_mm, size.width_mm, size.thickness_mm)
        return show_sizes(sizes, self.style, direction=Round.UP)

    def by(self, *sizes_mm: float, direction: Round = Round.NEAREST, unit: bool = False) -> str:
        """Sizes with a times sign between."""
        return show_sizes(sizes_mm, self.style, direction=direction, unit=unit)

    @property
    def unit(self) -> str:
        """Unit of lengths, for headings."""
        return self.style.heading

    @property
    def lead_unit(self) -> str:
        """The unit that leads, in which a bare number is read."""
        return self.style.styles[0].heading

    def angle(self, deg: float) -> str:
        """An angle to a tenth of a degree."""
        return show_angle(deg)

    def mass(self, kg: float) -> str:
        """A weight, to a tenth; what is lighter than that to a hundredth."""
        value, unit = (kg / _KG_PER_LB, "lb") if self.style.inch else (kg, "kg")
        return f"{show_number(value, digits=1 if value >= LIGHT else 2)} {unit}"

    def grams(self, grams: float) -> str:
        """A small weight."""
        return gram_words(grams, inch=self.style.inch)

    def liters(self, liters: float) -> str:
        """A volume of liquid."""
        return liter_words(liters, inch=self.style.inch)

    def temperature(self, celsius: float) -> str:
        """A temperature to a degree."""
        return celsius_words(celsius, inch=self.style.inch)

    def minutes(self, minutes: float) -> str:
        """A time, short."""
        if minutes >= 2 * 1440:
            return f"{show_number(minutes / 1440.0, digits=1)} d"
        if minutes >= 100:
            return f"{show_number(minutes / 60.0, digits=1)} h"
        return f"{minutes:.0f} min"

    def end(self, part: str, end: End) -> str:
        """An end of a part by where it looks: ``top end``."""
        return f"{self.ends[part, end]} end"

    def force(self, newton: float) -> str:
        """A force."""
        return f"{newton / _N_PER_LBF:.0f} lbf" if self.style.inch else f"{newton:.0f} N"

    @property
    def area_unit(self) -> str:
        """Unit of areas, for headings."""
        return "ft²" if self.style.inch else "m²"

    def area(self, m2: float, *, digits: int = 2, unit: bool = True) -> str:
        """An area."""
        figure = f"{m2 / _M2_PER_FT2 if self.style.inch else m2:.{digits}f}"
        return f"{figure} {self.area_unit}" if unit else figure


def word(name: str | Direction | End) -> str:
    """A name, or a sentence with names in it, as words."""
    return name.value if isinstance(name, Direction | End) else plain_words(name)
