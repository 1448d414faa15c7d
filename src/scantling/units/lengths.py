"""Lengths as a maker writes them: ``28 3/4 in``, ``2' 4-1/2"``, ``730 mm``, ``7/8``."""

from __future__ import annotations

import re
from fractions import Fraction

from scantling.errors import InputError

__all__ = [
    "FRACTION_SLASH",
    "MM_PER_FOOT",
    "MM_PER_INCH",
    "is_bare_fraction",
    "is_in_inches",
    "parse_length_mm",
]

MM_PER_INCH = Fraction(254, 10)
"""Exact by definition (international yard and pound agreement, 1959)."""
MM_PER_FOOT = 12 * MM_PER_INCH

_UNITS: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inches": MM_PER_INCH,
    '"': MM_PER_INCH,
    "″": MM_PER_INCH,
    "”": MM_PER_INCH,
    "''": MM_PER_INCH,
    "’’": MM_PER_INCH,
    "′′": MM_PER_INCH,
    "ft": MM_PER_FOOT,
    "foot": MM_PER_FOOT,
    "feet": MM_PER_FOOT,
    "'": MM_PER_FOOT,
    "′": MM_PER_FOOT,
    "’": MM_PER_FOOT,
}
FRACTION_SLASH = "\N{FRACTION SLASH}"
"""What some keyboards and printed texts have between the figures of a fraction."""
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_DECIMAL = r"[0-9]{1,9}(?:\.[0-9]{0,20})?|\.[0-9]{1,20}"
_FRACTION = r"[0-9]{1,6}\s*/\s*[0-9]{1,6}"
_TERM = re.compile(
    rf"\s*(?:(?P<whole>[0-9]{{1,9}})(?:\s+|-)(?P<frac>{_FRACTION})"
    rf"|(?P<only>{_FRACTION})|(?P<decimal>{_DECIMAL}))(?![0-9./])"
    r"\s*(?P<unit>(?:mm|cm|m|inches|inch|in\.?|ft\.?|foot|feet)(?![A-Za-z])|''|’’|′′|[\"″”'′’])?(?![A-Za-z])"
)
_COMMA = re.compile(r"[0-9],[0-9]")
_FEET = frozenset({"ft", "foot", "feet", "'", "′", "’"})


def _fraction(text: str) -> Fraction:
    top, bottom = text.replace(" ", "").split("/")
    return Fraction(int(top), int(bottom))


def _refuse(text: str, field: str) -> InputError:
    return InputError(
        code="not_a_length",
        field=field,
        value=text,
        rule="must be a length such as 730 mm, 28 3/4 in, 2' 4-1/2\" or 7/8 in",
        remedy="Write decimals with a point, and no sign between thousands."
        if _COMMA.search(text)
        else "Write a number and one of mm, cm, m, in, ft.",
    )


def _terms(text: str, *, written: str, field: str) -> list[tuple[Fraction, str | None]]:
    terms: list[tuple[Fraction, str | None]] = []
    at = 0
    while at < len(text):
        match = _TERM.match(text, at)
        if match is None or match.end() == at:
            raise _refuse(written, field)
        try:
            value = Fraction(match["decimal"] or match["whole"] or 0)
            if match["frac"] or match["only"]:
                value += _fraction(match["frac"] or match["only"])
        except ZeroDivisionError:
            raise _refuse(written, field) from None
        unit = match["unit"]
        terms.append((value, unit.rstrip(".") if unit else None))
        at = match.end()
        joined = text[at : at + 1] == "-" and text[at + 1 : at + 2].strip()
        at += 1 if joined else len(text[at:]) - len(text[at:].lstrip())
    return terms


def parse_length_mm(text: str, *, default_unit: str = "", field: str = "length") -> float:
    r"""Read a length.

    Parameters
    ----------
    text
        Feet and inches (``2' 4-1/2"``), a mixed number (``28 3/4 in``), a decimal with a unit
        (``73 cm``), or a bare number when ``default_unit`` is given. A leading minus is allowed. A
        hyphen without spaces belongs to the size (``28-3/4 in``, ``2'-4"``); with spaces it would be a
        minus, and is refused.
    default_unit
        Unit of a bare number: ``mm``, ``in``...; empty refuses bare numbers.
    field
        Name used in the error.

    Returns
    -------
    float
        The length, computed in exact rationals and converted once. [mm]

    Raises
    ------
    InputError
        ``not_a_length``, ``unit_missing``.

    Examples
    --------
    >>> parse_length_mm("28 3/4 in")
    730.25
    >>> parse_length_mm("2' 4-1/2\"")
    723.9
    >>> parse_length_mm("7/8", default_unit="in")
    22.225
    """
    plain = text.strip().replace(FRACTION_SLASH, "/")
    for sign, spelled in _VULGAR.items():
        plain = plain.replace(sign, f" {spelled}")
    plain = plain.strip()
    negative = plain.startswith(("-", "−"))
    if negative:
        plain = plain[1:].lstrip()
    if not plain or len(plain) > 60:
        raise _refuse(text, field)
    terms = _terms(plain, written=text, field=field)
    if len(terms) > 2 or (len(terms) == 2 and not _feet_then_inches(terms)):
        raise _refuse(text, field)
    total = Fraction(0)
    for value, unit in terms:
        name = unit or (default_unit if len(terms) == 1 else "in")
        if not name:
            raise InputError(
                code="unit_missing",
                field=field,
                value=text,
                rule="must carry a unit: mm, cm, m, in or ft",
                remedy=f"Write {plain} mm or {plain} in.",
            )
        total += value * _UNITS[name]
    return float(-total if negative else total)


_BARE_FRACTION = re.compile(rf"[-−]?\s*(?:[0-9]{{1,9}}(?:\s+|-))?{_FRACTION}|[-−]?[0-9 ]*[½¼¾⅛⅜⅝⅞]")


def is_bare_fraction(written: object) -> bool:
    """Whether a length is written as a fraction without a unit, which no rule in millimeters shows.

    Examples
    --------
    >>> is_bare_fraction("1 1/2"), is_bare_fraction("1 1/2 in"), is_bare_fraction(1.5)
    (True, False, False)
    """
    if not isinstance(written, str):
        return False
    return _BARE_FRACTION.fullmatch(written.strip().replace(FRACTION_SLASH, "/")) is not None


_INCHES = re.compile(r"[0-9½¼¾⅛⅜⅝⅞]\s*(?:(?:inches|inch|in|ft|foot|feet)(?![A-Za-z0-9_])|[\"″”'′’])")
_METRIC = re.compile(r"[0-9]\s*(?:mm|cm|m)(?![A-Za-z0-9_])")


def is_in_inches(written: object, *, otherwise: bool) -> bool:
    """Whether a length is written in inches or feet, not in millimeters.

    Parameters
    ----------
    written
        As it stands in the file.
    otherwise
        What holds where it carries no unit, or both.

    Examples
    --------
    >>> is_in_inches("28 3/4 in", otherwise=False), is_in_inches("730 mm", otherwise=True)
    (True, False)
    >>> is_in_inches(28, otherwise=True)
    True
    """
    text = written if isinstance(written, str) else ""
    inches, metric = bool(_INCHES.search(text)), bool(_METRIC.search(text))
    return otherwise if inches == metric else inches


def _feet_then_inches(terms: list[tuple[Fraction, str | None]]) -> bool:
    first, second = terms[0][1], terms[1][1]
    return first in _FEET and (second is None or _UNITS[second] == MM_PER_INCH)
