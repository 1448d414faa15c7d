"""A size as it was measured at the bench: read as it is written, kept in the unit it was measured in."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from scantling.errors import InputError
from scantling.store.bench import BenchEvent, BenchKind
from scantling.units import MM_PER_INCH, LengthStyle, is_in_inches, parse_length_mm, show_length

__all__ = ["as_measured", "in_thousands", "measured_mm", "no_decimals", "written_as"]

_FINEST_IN = 1.0 / 64.0
"""Finest division of a rule in inches. [in]"""
_ROUNDED_IN = 1e-4
"""How far six decimals are off a whole number of those. [1]"""
_COMMA = re.compile(r"(?<![0-9.,])([0-9]+),([0-9]+)(?![.,]?[0-9])")
"""A comma for a point, alone in its number: keys of digits may have no point."""
_THOUSANDS = re.compile(r"(?<![0-9.,])([1-9][0-9]{0,2}),([0-9]{3})(?![.,]?[0-9])")
"""One that could part thousands too."""


def written_as(figure: float, unit: str) -> str:
    """A size as it is written: in fractions of an inch where a rule has them.

    Examples
    --------
    >>> written_as(25.875, "in"), written_as(0.87, "in"), written_as(657.0, "mm")
    ('25 7/8 in', '0.87 in', '657 mm')
    """
    if unit == "in" and abs(figure / _FINEST_IN - round(figure / _FINEST_IN)) < _ROUNDED_IN:
        return show_length(figure * float(MM_PER_INCH), LengthStyle(inch=True, denominator=64))
    return f"{figure:.10g} {unit}".strip()


def measured_mm(event: BenchEvent) -> float | None:
    """The size an event tells. [mm]; None where it tells none: of moisture, weight, or no figure at all.

    Parameters
    ----------
    event
        Something that happened, in whatever unit it was measured.
    """
    if event.kind is not BenchKind.MEASURED or event.figure is None:
        return None
    try:
        return parse_length_mm(written_as(event.figure, event.unit))
    except InputError:
        return None


def as_measured(event: BenchEvent, written: str) -> BenchEvent:
    """An event with the size it tells, in inches or millimeters.

    Parameters
    ----------
    event
        What is told; its figure and unit count where nothing is written.
    written
        The size as it was typed: ``1 7/8 in``, ``47,6 mm``. A comma stands before decimals; whether it could
        part thousands is asked with :func:`in_thousands`.

    Returns
    -------
    BenchEvent
        With ``figure`` and ``unit``: as it is, where it is about no size.

    Raises
    ------
    InputError
        ``figure_missing``, ``figure_unwanted``, ``not_a_length``, ``unit_missing``, ``not_believable``.
    """
    if written and (event.kind is not BenchKind.MEASURED or event.figure is not None):
        raise _refused(
            "figure_unwanted", event, written, "must be told once, of a size", "Leave the other out."
        )
    if event.kind is not BenchKind.MEASURED:
        return event
    text = written if event.figure is None else written_as(event.figure, event.unit)
    if not text.strip():
        rule, remedy = "must be measured", "Write the size with its unit, as 657 mm or 25 7/8 in."
        raise _refused("figure_missing", event, "nothing", rule, remedy)
    text = _COMMA.sub(r"\1.\2", text)
    if re.search(r"[0-9],[0-9]", text):
        raise no_decimals(event, written)
    found_mm = parse_length_mm(text, field=event.subject)
    if found_mm <= 0:
        raise _refused("not_believable", event, text, "must be more than 0 mm", "Measure it again.")
    if is_in_inches(text, otherwise=False):
        return replace(event, figure=round(float(Fraction(found_mm) / MM_PER_INCH), 6), unit="in")
    return replace(event, figure=round(found_mm, 6), unit="mm")


def in_thousands(written: str) -> str:
    """A size without the comma in it that could part thousands; empty where no comma could.

    Examples
    --------
    >>> in_thousands("1,234 mm"), in_thousands("0,875 in"), in_thousands("47,6 mm")
    ('1234 mm', '', '')
    """
    found, times = _THOUSANDS.subn(r"\1\2", written)
    return found if times else ""


def no_decimals(event: BenchEvent, written: str) -> InputError:
    """The refusal of a size with commas that can be read in more than one way, or in none.

    Parameters
    ----------
    event
        What is told.
    written
        The size as it was typed.
    """
    plain, longer = in_thousands(written), _THOUSANDS.sub(r"\1,\g<2>0", written)
    remedy = "Write one comma or point, before the decimals, and no sign between thousands: 1234,5 mm."
    if plain:
        remedy = f"Write {plain} for thousands, or {longer} for decimals."
    rule = "must tell decimals from thousands" if plain else "must have one comma or point at most"
    return _refused("not_a_length", event, written, rule, remedy)


def _refused(code: str, event: BenchEvent, value: str, rule: str, remedy: str) -> InputError:
    return InputError(code=code, field=event.subject or "figure", value=value, rule=rule, remedy=remedy)
