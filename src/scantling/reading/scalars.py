"""Plain words and numbers of a file: what is a number, what stays text."""

from __future__ import annotations

import math
import re

__all__ = ["plain_value"]

_INTEGER = re.compile(r"[-+]?[0-9]{1,15}")
_DECIMAL = re.compile(r"[-+]?(?:[0-9]{1,15}(?:\.[0-9]{0,40})?|\.[0-9]{1,40})(?:[eE][-+]?[0-9]{1,3})?")
_WORDS: dict[str, bool | None] = {
    "": None,
    "~": None,
    "null": None,
    "Null": None,
    "NULL": None,
    "true": True,
    "True": True,
    "TRUE": True,
    "false": False,
    "False": False,
    "FALSE": False,
}


def plain_value(text: str) -> str | int | float | bool | None:
    """What an unquoted word of a file stands for.

    A decimal number is a number; ``true``, ``false`` and ``null`` are what they say; anything else is
    text: a fraction, a length with a unit, an expression, a date, ``yes`` and ``no``. Infinity and
    not-a-number are never numbers here, and whole numbers beyond fifteen digits stay text, since no length
    needs them.

    Parameters
    ----------
    text
        The word as written.

    Returns
    -------
    str | int | float | bool | None
        Its value.

    References
    ----------
    .. [1] *YAML Ain't Markup Language, version 1.2.2*, 2021, section 10.3, core schema, without its
       octal, hexadecimal, infinite and not-a-number forms.

    Examples
    --------
    >>> plain_value("730"), plain_value("7/8"), plain_value("1.5e1"), plain_value("no"), plain_value("~")
    (730, '7/8', 15.0, 'no', None)
    """
    if text in _WORDS:
        return _WORDS[text]
    if _INTEGER.fullmatch(text):
        return int(text)
    if _DECIMAL.fullmatch(text):
        number = float(text)
        return number if math.isfinite(number) else text
    return text
