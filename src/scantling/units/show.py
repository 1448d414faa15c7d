"""Showing lengths and angles: to a fraction or a millimeter, rounded in the direction that is safe."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from scantling.units.lengths import MM_PER_INCH

__all__ = ["LengthStyle", "Round", "show_angle", "show_length", "show_limit", "show_number", "with_article"]


class Round(StrEnum):
    """Which way to round: a mortise up, a tenon down, the rest to the nearest."""

    NEAREST = "nearest"
    UP = "up"
    DOWN = "down"


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthStyle:
    """How lengths are shown.

    Parameters
    ----------
    inch
        Whether to show inches and fractions instead of millimeters.
    denominator
        Smallest fraction of an inch shown, a power of two.
    step_mm
        Smallest step of a millimeter shown. [mm]
    """

    inch: bool = False
    denominator: int = 32
    step_mm: float = 0.5

    @property
    def step(self) -> float:
        """Smallest step shown. [mm]"""
        return float(MM_PER_INCH) / self.denominator if self.inch else self.step_mm


def _steps(value_mm: float, step_mm: float, direction: Round) -> int:
    exact = value_mm / step_mm
    if direction is Round.UP:
        return math.ceil(exact - 1e-6)
    if direction is Round.DOWN:
        return math.floor(exact + 1e-6)
    return math.floor(exact + 0.5 + 1e-9)


def show_length(
    value_mm: float, style: LengthStyle, *, direction: Round = Round.NEAREST, unit: bool = True
) -> str:
    """Show a length as a tape measure does.

    Parameters
    ----------
    value_mm
        The length. [mm]
    style
        Inches and fractions, or millimeters.
    direction
        Which way to round.
    unit
        Whether to write the unit behind.

    Returns
    -------
    str
        ``28 3/4 in`` or ``730.5 mm``.

    Examples
    --------
    >>> show_length(730.25, LengthStyle(inch=True))
    '28 3/4 in'
    >>> show_length(13.41, LengthStyle(), direction=Round.UP)
    '13.5 mm'
    """
    count = _steps(value_mm, style.step, direction)
    if not style.inch:
        return show_number(count * style.step_mm, digits=_digits(style.step_mm)) + (" mm" if unit else "")
    sign = "-" if count < 0 else ""
    whole, rest = divmod(Fraction(abs(count), style.denominator), 1)
    text = f"{whole} {rest}" if whole and rest else str(rest if rest else whole)
    return sign + text + (" in" if unit else "")


def show_limit(value_mm: float, *, inch: bool, direction: Round = Round.NEAREST) -> str:
    """Show a length that others are measured against: exact in millimeters, beside inches too.

    Parameters
    ----------
    value_mm
        The length. [mm]
    inch
        Whether to show inches first.
    direction
        Which way to round the inches.

    Examples
    --------
    >>> show_limit(3.0, inch=True, direction=Round.UP)
    '1/8 in (3 mm)'
    >>> show_limit(228.6, inch=True)
    '9 in'
    >>> show_limit(3.0, inch=False)
    '3 mm'
    """
    millimeters = f"{show_number(value_mm, digits=3)} mm"
    if not inch:
        return millimeters
    style = LengthStyle(inch=True, denominator=64)
    inches = show_length(value_mm, style, direction=direction)
    exact = abs(value_mm / style.step - round(value_mm / style.step)) < 1e-6
    return inches if exact else f"{inches} ({millimeters})"


def _digits(step: float) -> int:
    digits = 0
    while digits < 4 and abs(step * 10**digits - round(step * 10**digits)) > 1e-9:
        digits += 1
    return digits


def show_number(value: float, *, digits: int = 1) -> str:
    """A number with at most ``digits`` decimals and no trailing zeros.

    Examples
    --------
    >>> show_number(12.50)
    '12.5'
    >>> show_number(-0.01)
    '0'
    """
    text = f"{value:.{digits}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def show_angle(value_deg: float, *, digits: int = 1) -> str:
    """An angle as set on a saw.

    Examples
    --------
    >>> show_angle(6.97)
    '7.0°'
    """
    shown = round(value_deg, digits) + 0.0  # never -0.0
    return f"{shown:.{digits}f}°"


def with_article(words: str) -> str:
    """Words after *a* or *an*.

    Examples
    --------
    >>> with_article("cherry board"), with_article("eastern white pine board")
    ('a cherry board', 'an eastern white pine board')
    """
    return f"{'an' if words[:1].lower() in tuple('aeiou') else 'a'} {words}"
