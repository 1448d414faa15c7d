"""Showing lengths and angles: to a fraction or a millimeter, rounded in the direction that is safe."""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from scantling.units.lengths import MM_PER_INCH
from scantling.units.style import LengthStyle, Round, bracketed, unit_name

__all__ = [
    "show_angle",
    "show_length",
    "show_limit",
    "show_number",
    "show_sizes",
    "show_small",
    "show_travel",
    "with_article",
]


_SHOWN = 32_768
"""Figures kept as shown: a plan shows some thousands, and the next one mostly the same again."""


def _steps(value_mm: float, step_mm: float, direction: Round) -> int:
    exact = value_mm / step_mm
    if direction is Round.UP:
        return math.ceil(exact - 1e-6)
    if direction is Round.DOWN:
        return math.floor(exact + 1e-6)
    return math.floor(exact + 0.5 + 1e-9)


def show_length(
    value_mm: float,
    style: LengthStyle,
    *,
    direction: Round = Round.NEAREST,
    unit: bool = True,
    sign: str = "",
) -> str:
    """Show a length as a tape measure does.

    Of both units each is rounded from the length itself, never one from the other: at the same place of the
    wood a rule in either unit may then be read.

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
    sign
        Written before the figure in each unit.

    Returns
    -------
    str
        ``28 3/4 in``, ``730.5 mm`` or ``730.5 mm [28 3/4 in]``.

    Examples
    --------
    >>> show_length(730.25, LengthStyle(inch=True))
    '28 3/4 in'
    >>> show_length(13.41, LengthStyle(), direction=Round.UP)
    '13.5 mm'
    >>> show_length(730.25, LengthStyle(both=True)), show_length(730.25, LengthStyle(both=True), unit=False)
    ('730.5 mm [28 3/4 in]', '730.5 [28 3/4]')
    """
    return _shown(value_mm, style, direction, unit, sign)


@lru_cache(maxsize=_SHOWN)
def _shown(value_mm: float, style: LengthStyle, direction: Round, unit: bool, sign: str) -> str:
    return bracketed(sign + _one(value_mm, one, direction=direction, unit=unit) for one in style.styles)


def show_sizes(
    sizes_mm: Iterable[float],
    style: LengthStyle,
    *,
    direction: Round = Round.NEAREST,
    unit: bool = False,
) -> str:
    """Sizes with a times sign between; of both units all of one before all of the other.

    Parameters
    ----------
    sizes_mm
        The sizes. [mm]
    style, direction, unit
        As of :func:`show_length`; the unit stands once. Of no sizes nothing is shown.

    Examples
    --------
    >>> show_sizes([734.0, 60.0], LengthStyle(both=True), unit=True)
    '734 × 60 mm [28 29/32 × 2 3/8 in]'
    """
    return _shown_sizes(tuple(sizes_mm), style, direction, unit)


@lru_cache(maxsize=_SHOWN)
def _shown_sizes(sizes_mm: tuple[float, ...], style: LengthStyle, direction: Round, unit: bool) -> str:
    if not sizes_mm:
        return ""
    return bracketed(
        " × ".join(_one(mm, one, direction=direction, unit=False) for mm in sizes_mm)
        + (f" {unit_name(one)}" if unit else "")
        for one in style.styles
    )


def show_small(value_mm: float, style: LengthStyle, *, unit: bool = False, sign: str = "") -> str:
    """A small travel: millimeters to a tenth, or inches to a hundredth, for no tape shows it.

    Parameters
    ----------
    value_mm
        The travel. [mm]
    style
        Of lengths.
    unit
        Whether to write the unit behind.
    sign
        Written before every figure.

    Examples
    --------
    >>> show_small(1.44, LengthStyle(inch=True, both=True), sign="+")
    '+0.06 [+1.4]'
    """
    told = (
        (show_number(value_mm / float(MM_PER_INCH), digits=2) if one.inch else show_number(value_mm), one)
        for one in style.styles
    )
    return bracketed(f"{sign}{figure}{f' {unit_name(one)}' if unit else ''}" for figure, one in told)


def show_travel(
    value_mm: float, style: LengthStyle, *, direction: Round, unit: bool = False, sign: str = ""
) -> str:
    """What wood moves, or the room it has for it: millimeters to a tenth, or inches to a thousandth.

    Told to a 64th, half a millimeter too much asked for and half a millimeter too little there would look
    like twice what binds.

    Parameters
    ----------
    value_mm
        The travel or the room. [mm]
    style
        Of lengths.
    direction
        Which way to round: what is asked for up, what is there down.
    unit
        Whether to write the unit behind.
    sign
        Written before every figure.

    Examples
    --------
    >>> inches = LengthStyle(inch=True)
    >>> show_travel(0.96, inches, direction=Round.UP), show_travel(1.0, inches, direction=Round.DOWN)
    ('0.038', '0.039')
    >>> show_travel(0.96, LengthStyle(both=True), direction=Round.UP)
    '1 [0.038]'
    """
    told = []
    for one in style.styles:
        step, digits = (float(MM_PER_INCH) / 1000.0, 3) if one.inch else (0.1, 1)
        whole = _steps(value_mm, step, direction)
        figure = show_number(whole / 10.0**digits, digits=digits)
        told.append(f"{sign}{figure}{f' {unit_name(one)}' if unit else ''}")
    return bracketed(told)


def _one(value_mm: float, style: LengthStyle, *, direction: Round, unit: bool) -> str:
    """A length in the unit that leads."""
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
    return _shown_limit(value_mm, inch, direction)


@lru_cache(maxsize=4096)
def _shown_limit(value_mm: float, inch: bool, direction: Round) -> str:
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
