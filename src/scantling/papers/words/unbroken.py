"""What must not be parted at the end of a line: a mixed number, and a figure from its unit."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TypeVar

from scantling.papers.words.rewriting import rewritten

__all__ = ["NO_BREAK", "all_unbroken", "unbroken"]

NO_BREAK = "\u00a0"
"""The space at which no line ends."""
_MIXED = re.compile(r"(?<=\d) (?=\d{1,2}/\d{1,2}(?!\d))")
_UNITS = (
    "mm|cm|m|in|ft|m²|ft²|in²|cm²|m³|in³|cm³|kg|g|lb|oz|L|qt|gal|fl oz|bf|bd ft|N|kN|N m|lbf|lbf ft|MPa|psi"
    "|g/m²|oz/ft²|%|°C|°F|h|min|s"
)
_OF_UNIT = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?![\w²³/]))")
_TWO_WORDS = re.compile(r"(?<=\d\u00a0)(fl oz|bd ft|N m|lbf ft)(?!\w)")
Shown = TypeVar("Shown")


@lru_cache(maxsize=32_768)
def unbroken(text: str) -> str:
    """A sentence with no-break spaces inside mixed numbers and between figures and units.

    Parameters
    ----------
    text
        As shown.

    Returns
    -------
    str
        Of the same length.

    Examples
    --------
    >>> unbroken("70 7/8 × 29 17/32 in wide").replace(NO_BREAK, "~")
    '70~7/8 × 29~17/32~in wide'
    >>> unbroken("12.5 bd ft in 3 boards, 8.3 %").replace(NO_BREAK, "~")
    '12.5~bd~ft in 3 boards, 8.3~%'
    """
    held = _OF_UNIT.sub(NO_BREAK, _MIXED.sub(NO_BREAK, text))
    return _TWO_WORDS.sub(lambda unit: unit[0].replace(" ", NO_BREAK), held)


def all_unbroken(value: Shown) -> Shown:
    """A packet with every sentence in it unbroken, but the drawings, whose lines do not wrap.

    Parameters
    ----------
    value
        A frozen dataclass, or tuples of them.

    Returns
    -------
    Shown
        Of the same type.
    """
    return rewritten(value, unbroken)
