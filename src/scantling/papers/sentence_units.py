"""Figures inside finished sentences, in the units that are shown.

Findings, setups and notes are sentences made low down in millimeters, kilograms and newtons; they stay so in
the plan, and each face (sheets, packet, page) has them rewritten here, once and last, rather than every
sentence being made a second time at the faces.
"""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from typing import Any, TypeVar, cast

from scantling.papers.drawing import Sheet as Drawing
from scantling.units import MM_PER_INCH, LengthStyle, show_length, show_number

__all__ = ["in_inches", "sentence_in_inches"]

_LB_PER_KG = 1.0 / 0.45359237
"""International avoirdupois pound, exact."""
_LBF_FT_PER_N_M = 1.0 / (4.4482216152605 * 0.3048)
"""Pound-force of standard gravity, and the foot; exact."""
_LBF_PER_N = 1.0 / 4.4482216152605
_PSI_PER_MPA = 1e6 / 6894.757293168
_DECIMAL_BELOW_MM = 3.0
"""Smaller than this no tape is used: hundredths of an inch. [mm]"""
_FINE = LengthStyle(inch=True, denominator=64)
_COARSE = LengthStyle(inch=True, denominator=32)

_NUMBER = r"\d+(?:\.\d+)?"
_FIGURES = re.compile(
    rf"(?<![\w.,/-])({_NUMBER}(?:(?: to | and | × | x |–| of (?={_NUMBER} MPa)){_NUMBER})*) "
    r"(mm|N m|N|kg|MPa)(?![\w²³/])"
)
Shown = TypeVar("Shown")


def _length(mm: float) -> str:
    if 0.0 < mm < _DECIMAL_BELOW_MM:
        return show_number(mm / float(MM_PER_INCH), digits=2 if mm >= 0.5 else 3)
    return show_length(mm, _FINE if mm < float(MM_PER_INCH) else _COARSE, unit=False)


def _in_imperial(figure: str, unit: str) -> tuple[str, str]:
    """A figure and its unit as inches, pounds, foot-pounds or pounds per square inch."""
    value = float(figure)
    match unit:
        case "mm":
            return _length(value), "in"
        case "kg":
            return show_number(value * _LB_PER_KG, digits=1 if "." in figure else 0), "lb"
        case "N m":
            return f"{value * _LBF_FT_PER_N_M:.0f}", "lbf ft"
        case "N":
            return f"{value * _LBF_PER_N:.0f}", "lbf"
        case _:
            return f"{value * _PSI_PER_MPA:.0f}", "psi"


def _told(found: re.Match[str]) -> str:
    figures, unit = found[1], found[2]
    told = re.sub(_NUMBER, lambda one: _in_imperial(one[0], unit)[0], figures)
    return f"{told} {_in_imperial('0', unit)[1]}"


def sentence_in_inches(text: str) -> str:
    """A sentence with its lengths, weights, forces and moments in inches and pounds.

    Lengths are fractions as on a tape, to 1/64 below an inch and to 1/32 above; below 3 mm hundredths, for
    no tape shows it.

    Parameters
    ----------
    text
        With figures in mm, kg, N, N m or MPa.

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
    """
    return _FIGURES.sub(_told, text)


def in_inches(value: Shown) -> Shown:
    """A sheet or packet with every sentence in it in inches, but the drawings, which are drawn so.

    Parameters
    ----------
    value
        A frozen dataclass, or tuples of them.

    Returns
    -------
    Shown
        Of the same type.
    """
    return cast("Shown", _rewritten(value))


def _rewritten(value: Any) -> Any:
    if isinstance(value, Enum | Drawing):
        return value
    if isinstance(value, str):
        return value if value.startswith("<svg") else sentence_in_inches(value)
    if isinstance(value, tuple):
        return tuple(_rewritten(each) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: _rewritten(getattr(value, f.name)) for f in fields(value)})
    return value
