"""Words of an expression: lengths as a maker writes them, numbers, names, signs.

A hyphen or slash without spaces belongs to the inches it stands in (``2'-4 1/2"``, ``28-3/4 in``,
``7/8 in``); with spaces it is minus or divided by. Where both readings are possible, it is refused.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import StrEnum

from scantling.errors import InputError
from scantling.piece.expressions.problems import ExpressionError, Span
from scantling.piece.expressions.quantity import ANGLE, LENGTH, NUMBER, Kind
from scantling.units import FRACTION_SLASH, parse_length_mm

__all__ = ["KEYWORDS", "MAX_LENGTH", "Sort", "Token", "tokens"]

MAX_LENGTH = 500
"""Longest expression. [characters]"""
KEYWORDS = frozenset({"if", "then", "else", "and", "or", "not"})


class Sort(StrEnum):
    """Sort of a word."""

    LITERAL = "literal"
    NAME = "name"
    SIGN = "sign"
    END = "end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Token:
    """One word of an expression.

    Parameters
    ----------
    sort, span
        What it is and where it stands.
    word
        The name, keyword or sign, in its plain form; empty for literals.
    value, kind
        Of a literal, in mm or degrees where it has a unit.
    """

    sort: Sort
    span: Span
    word: str = ""
    value: float = 0.0
    kind: Kind = NUMBER


_VULGAR = "[½¼¾⅛⅜⅝⅞]"
_WHOLE = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_PART = rf"(?:[0-9]+/[0-9]+|{_VULGAR})"
_MIXED = rf"(?:[0-9]+(?:[ \t]+[0-9]+/[0-9]+|-[0-9]+/[0-9]+|[ \t]*{_VULGAR})|{_PART}|{_WHOLE}(?!/[0-9]))"
_FOOT = r"(?:(?:feet|foot|ft)(?![A-Za-z_])|'(?!')|′(?!′)|’(?!’))"
_INCH = r"(?:(?:inches|inch|in)(?![A-Za-z0-9_.])|in\.(?![A-Za-z0-9_])|''|′′|’’|[\"″”])"
_METRIC = r"(?:mm|cm|m)(?![A-Za-z0-9_.])"
_INCHES = rf"{_MIXED}(?:[ \t]*{_INCH}|(?![ \t]*(?:{_METRIC}|{_FOOT}|[0-9./])))"
_LENGTH = re.compile(
    rf"{_WHOLE}[ \t]*{_FOOT}(?:[ \t]*|-){_INCHES}|{_MIXED}[ \t]*(?:{_FOOT}|{_INCH}|{_METRIC})"
)
_ANGLE = re.compile(rf"(?P<size>{_MIXED})[ \t]*(?:(?:deg|degrees)(?![A-Za-z0-9_.])|°)")
_NUMBER = re.compile(
    rf"[0-9]+[ \t]+[0-9]+/[0-9]+|[0-9]*[ \t]*{_VULGAR}|[0-9]+/[0-9]+|{_WHOLE}(?:[eE][-+]?[0-9]+)?"
)
_HYPHEN = re.compile(r"(?P<whole>[0-9]{1,9})-(?P<top>[0-9]{1,9})/(?P<bottom>[0-9]{1,9})")
_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z_][A-Za-z0-9_]*)*")
_SIGN = re.compile(r"\*\*|<=|>=|!=|==|[-+*/^(),<>=×·÷−≤≥≠]")
_PLAIN = {"**": "^", "==": "=", "×": "*", "·": "*", "÷": "/", "−": "-", "≤": "<=", "≥": ">=", "≠": "!="}
_SPACE = re.compile(r"\s*")


def tokens(text: str) -> tuple[Token, ...]:
    """Split an expression into words.

    Parameters
    ----------
    text
        The expression.

    Raises
    ------
    ExpressionError
        ``expression_too_long``, ``unknown_sign``, ``number_out_of_range``, ``two_readings``.
    """
    text = text.replace(FRACTION_SLASH, "/")
    if len(text) > MAX_LENGTH:
        raise ExpressionError(
            code="expression_too_long",
            span=Span(text[: MAX_LENGTH + 1], MAX_LENGTH, MAX_LENGTH + 1),
            rule=f"must have at most {MAX_LENGTH} characters",
            remedy="Give parts of it names under values.",
            value=f"{len(text)} characters",
        )
    words: list[Token] = []
    at = _skip(text, 0)
    while at < len(text):
        word = _literal(text, at) or _word(text, at)
        _check_slash(words, word)
        words.append(word)
        at = _skip(text, word.span.end)
    words.append(Token(sort=Sort.END, span=Span(text, len(text), len(text))))
    return tuple(words)


def _skip(text: str, at: int) -> int:
    match = _SPACE.match(text, at)
    return match.end() if match else at


def _literal(text: str, at: int) -> Token | None:
    length = _LENGTH.match(text, at)
    _check_hyphen(text, at, length[0] if length else "")
    if length:
        return _sized(Span(text, at, length.end()), length[0], LENGTH)
    angle = _ANGLE.match(text, at)
    if angle:
        return _sized(Span(text, at, angle.end()), angle["size"], ANGLE)
    number = _NUMBER.match(text, at)
    return _sized(Span(text, at, number.end()), number[0], NUMBER) if number else None


def _check_hyphen(text: str, at: int, length: str) -> None:
    """Refuse ``4-1/2`` unless it is a proper fraction of an inch, which nobody means as a subtraction."""
    doubtful = _HYPHEN.match(text, at)
    if doubtful is None:
        return
    proper = int(doubtful["top"]) < int(doubtful["bottom"])
    if proper and length and not length.endswith("m"):
        return
    whole, part = doubtful["whole"], f"{doubtful['top']}/{doubtful['bottom']}"
    raise ExpressionError(
        code="two_readings",
        span=Span(text, at, doubtful.end()),
        rule="can be read as a mixed number and as a subtraction",
        remedy=f"Write {whole} {part} or {whole} - {part}.",
    )


def _sized(span: Span, written: str, kind: Kind) -> Token:
    try:
        plain = kind is NUMBER and "/" not in written and written.isascii()
        value = float(written) if plain else _parsed(written, kind)
    except InputError:
        value = math.nan
    if re.search(r"/0+(?![0-9])", written):
        raise ExpressionError(code="division_by_zero", span=span, rule="must not be a fraction over zero")
    if not math.isfinite(value) or abs(value) > 1e12:
        raise ExpressionError(
            code="number_out_of_range",
            span=span,
            rule="must be a number below 1e12 of at most 20 figures",
        )
    return Token(sort=Sort.LITERAL, span=span, value=value, kind=kind)


def _parsed(written: str, kind: Kind) -> float:
    return parse_length_mm(written, default_unit="" if kind is LENGTH else "mm")


def _word(text: str, at: int) -> Token:
    name = _NAME.match(text, at)
    if name:
        return Token(sort=Sort.NAME, span=Span(text, at, name.end()), word=name[0])
    sign = _SIGN.match(text, at)
    if sign:
        return Token(sort=Sort.SIGN, span=Span(text, at, sign.end()), word=_PLAIN.get(sign[0], sign[0]))
    raise ExpressionError(
        code="unknown_sign",
        span=Span(text, at, at + 1),
        rule="must be made of numbers, lengths, names, functions and + - * / ^ ( )",
    )


def _check_slash(words: list[Token], word: Token) -> None:
    """Refuse ``a / 3/4`` and ``3/4 ^ 2``, which read two ways."""
    if not words:
        return
    last = words[-1]
    after_slash = last.word == "/" and _is_fraction(word)
    under_power = word.word == "^" and _is_fraction(last)
    if after_slash or under_power:
        fraction = word if after_slash else last
        written = fraction.span.text[fraction.span.at : fraction.span.end]
        raise ExpressionError(
            code="two_readings",
            span=fraction.span,
            rule="can be read in two ways beside another sign",
            remedy=f"Write ({written}), or put spaces around its slash.",
        )


def _is_fraction(word: Token) -> bool:
    written = word.span.text[word.span.at : word.span.end]
    return word.sort is Sort.LITERAL and re.match(r"[0-9]+/[0-9]+", written) is not None
