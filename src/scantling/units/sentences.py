"""Figures inside finished sentences, told in inches, or in both units.

Findings, set-ups, notes and faults are sentences made low down in millimeters, kilograms and degrees Celsius;
where inches are shown they are rewritten here, rather than every sentence being made a second time.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache

from scantling.units.lengths import MM_PER_INCH
from scantling.units.show import show_length, show_number
from scantling.units.style import LengthStyle, bracketed
from scantling.units.us_measures import celsius_words, measure_of

__all__ = ["sentence_in_inches", "sentence_in_style"]

_DECIMAL_BELOW_MM = 3.0
"""Smaller than this no tape is used: hundredths of an inch. [mm]"""
_FINE = LengthStyle(inch=True, denominator=64)
_COARSE = LengthStyle(inch=True, denominator=32)

_NUMBER = r"\d+(?:\.\d+)?"
_JOINED = rf"{_NUMBER}(?:(?: to | and | × | x |–| of (?={_NUMBER} MPa)){_NUMBER})*"
_FIGURES = re.compile(
    rf"(?<![\w.,/-])({_JOINED}) (mm|cm|m|N m|kN|N|kg|MPa|g/m²|g|L|m²|cm²|cm³|m³)(?![\w²³/])"
)
_HEAT = re.compile(rf"(?<![\w.,/])([-−]?{_NUMBER})((?: to | and |–){_NUMBER})? °C")
_PRICED = re.compile(rf"({_NUMBER}) (g|L|m³) at ({_NUMBER}) a (?:kg|liter|m³)")
_INCHES = r"(?:\d+ )?\d+(?:/\d+|\.\d+)? in"
_TWICE = re.compile(rf"(?P<before>{_INCHES}) \({_NUMBER} mm\)|{_NUMBER} mm \((?P<after>{_INCHES})\)")
"""A length told in both units, one of them in brackets."""
_POUNDS = re.compile(rf"{_NUMBER} kg \(({_NUMBER} lb)\)")
"""A weight told in both systems."""
_EACH = {
    "g": ("lb", measure_of("kg", 1.0).per),
    "L": ("quart", measure_of("L", 2.0).per),
    "m³": ("bf", measure_of("m³", 1.0).per),
}
"""What a price is of in inches, and how many of it the metric unit of the price is."""
_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0}


_BRACKETS = r"\[[^\[\]]*\]"
_LENGTHS = re.compile(
    rf"(?P<kept>{_BRACKETS})|"
    rf"(?<![\w.,/-])(?P<figures>{_JOINED}) (?P<unit>mm|cm|m)(?![\w²³/])(?P<said> {_BRACKETS})?"
)
"""Lengths, with the same in the other unit behind where that is told already."""


def _length(mm: float) -> str:
    if 0.0 < mm < _DECIMAL_BELOW_MM:
        return show_number(mm / float(MM_PER_INCH), digits=2 if mm >= 0.5 else 3)
    return show_length(mm, _FINE if mm < float(MM_PER_INCH) else _COARSE, unit=False)


def _told(found: re.Match[str]) -> str:
    figures, unit = found[1], found[2]
    if unit in _MM:
        return f"{re.sub(_NUMBER, lambda one: _length(_MM[unit] * float(one[0])), figures)} in"
    values = re.findall(_NUMBER, figures)
    measure = measure_of(unit, max(map(float, values)))
    if unit == "kg" and not any("." in value for value in values):
        measure = replace(measure, digits=0)
    return f"{re.sub(_NUMBER, lambda one: measure.number(float(one[0])), figures)} {measure.unit}"


def _fahrenheit(found: re.Match[str]) -> str:
    first = float(found[1].replace("−", "-"))
    if not found[2]:
        return celsius_words(first, inch=True)
    last = re.sub(_NUMBER, lambda one: celsius_words(float(one[0]), inch=True), found[2])
    return celsius_words(first, inch=True).removesuffix(" °F") + last


def _priced(found: re.Match[str]) -> str:
    """So much at so much each: the price is of the pound, quart or board foot."""
    amount, unit, price = float(found[1]), found[2], float(found[3])
    measure = measure_of(unit, amount)
    each, per = _EACH[unit]
    return f"{measure.number(amount)} {measure.unit} at {show_number(price / per, digits=2)} a {each}"


def sentence_in_inches(text: str) -> str:
    """A sentence with its figures in inches, pounds, ounces, quarts, square feet and Fahrenheit.

    What the sentence tells in inches already stays as it is, without its millimeters. Lengths are fractions
    as on a tape, to 1/64 below an inch and to 1/32 above; below 3 mm hundredths, for no tape shows it.

    Parameters
    ----------
    text
        With figures in mm, cm, m, kg, g, L, N, kN, N m, MPa, m², cm², cm³, m³, g/m² or °C; a price of a kg,
        a liter or a m³ is told as that of the pound, quart or board foot.

    Returns
    -------
    str
        The same sentence; what carries none of these units is left as it is.

    Examples
    --------
    >>> sentence_in_inches("The jaws must open 1485 mm; the gap is 0.5 mm.")
    'The jaws must open 58 15/32 in; the gap is 0.02 in.'
    >>> sentence_in_inches("1 to 1.5 mm a cut, 50 N m on each of 4 joints")
    '0.04 to 0.06 in a cut, 37 lbf ft on each of 4 joints'
    >>> sentence_in_inches("24 in (610 mm) each; 600 mm (24 in) at least")
    '24 in each; 24 in at least'
    >>> sentence_in_inches("53 g at 9 a kg, spread at 18 to 24 °C")
    '1.9 oz at 4.08 a lb, spread at 64 to 75 °F'
    >>> sentence_in_inches("a child of 27.2 kg (60 lb)")
    'a child of 60 lb'
    """
    once = _POUNDS.sub(r"\1", _TWICE.sub(lambda found: found["before"] or found["after"], text))
    return _FIGURES.sub(_told, _HEAT.sub(_fahrenheit, _PRICED.sub(_priced, once)))


@lru_cache(maxsize=32_768)
def sentence_in_style(text: str, style: LengthStyle) -> str:
    """A sentence with its figures as a style shows them; of both units only lengths are told twice.

    Weights, areas, forces and temperatures are told in the system of the unit that leads: nobody sets a rule
    to them.

    Parameters
    ----------
    text
        With figures as of :func:`sentence_in_inches`; lengths told in both units already stay so.
    style
        The unit that leads, and whether the other follows.

    Returns
    -------
    str
        The same sentence.

    Examples
    --------
    >>> sentence_in_style("The jaws must open 1485 mm, 2 kg", LengthStyle(both=True))
    'The jaws must open 1485 mm [58 15/32 in], 2 kg'
    >>> sentence_in_style("The jaws must open 1485 mm, 2 kg", LengthStyle(inch=True, both=True))
    'The jaws must open 58 15/32 in [1485 mm], 4 lb'
    >>> sentence_in_style("24 in (610 mm) each; 730.5 mm [28 3/4 in] long", LengthStyle(both=True))
    '610 mm [24 in] each; 730.5 mm [28 3/4 in] long'
    """
    if not style.both:
        return sentence_in_inches(text) if style.inch else text
    once = _TWICE.sub(lambda found: _bracketed(found, inch=style.inch), text)
    told = _LENGTHS.sub(lambda found: _twice(found, inch=style.inch), once)
    if not style.inch:
        return told
    kept = re.split(rf"({_BRACKETS})", told)
    return "".join(part if part.startswith("[") else sentence_in_inches(part) for part in kept)


def _bracketed(found: re.Match[str], *, inch: bool) -> str:
    """A length told in both units, one of them in round brackets, with the other one in square ones."""
    first, second = found[0].removesuffix(")").split(" (")
    return bracketed((first, second) if first.endswith(" in") == inch else (second, first))


def _twice(found: re.Match[str], *, inch: bool) -> str:
    if found["kept"] or found["said"]:
        return found[0]
    scale = _MM[found["unit"]]
    inches = f"{re.sub(_NUMBER, lambda one: _length(scale * float(one[0])), found['figures'])} in"
    return bracketed((inches, found[0]) if inch else (found[0], inches))
