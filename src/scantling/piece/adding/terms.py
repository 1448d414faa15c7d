"""Expressions put together from others as a maker would write them: no bracket and no zero too many."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from scantling.reading.nodes import source_of
from scantling.units import MM_PER_INCH

__all__ = ["halved", "listed", "literal", "minus", "negated", "plus", "times"]

_SIXTY_FOURTH = 64
_HALF = " / 2"
_FIGURE = re.compile(r"-?\d+(\.\d+)?")


def plus(one: str, other: str) -> str:
    """The sum.

    Examples
    --------
    >>> plus("rise + thick / 2", "thick / 2"), plus("-a / 2", "a / 2")
    ('rise + thick', '-a / 2 + a / 2')
    >>> plus("rise", "thick / 2"), plus("rise", "-thick"), plus("0", "a - b"), plus("a", "-(b - c)")
    ('rise + thick / 2', 'rise - thick', 'a - b', 'a - (b - c)')
    >>> plus("rise + thick / 2", "-thick / 2"), plus("rise + thick", "-(rise)")
    ('rise', 'rise + thick - (rise)')
    >>> plus("inset + pitch / 2", "inset + pitch / 2"), plus("a + b + c / 2", "b + c / 2")
    ('inset + pitch / 2 + inset + pitch / 2', 'a + b + c / 2 + b + c / 2')
    """
    if _is_nothing(other):
        return one
    if _is_nothing(one):
        return other
    if other.startswith("-") and one.endswith(f" + {other[1:]}") and not _is_sum(other[1:]):
        return one.removesuffix(f" + {other[1:]}")  # what was added is taken off again
    if other.startswith("-"):
        return f"{one} - {other[1:].strip()}"
    if other.endswith(_HALF) and not _is_sum(other) and (one == other or one.endswith(f" + {other}")):
        return one.removesuffix(_HALF)  # two halves
    return f"{one} + {other}"


def minus(one: str, other: str) -> str:
    """The difference.

    Examples
    --------
    >>> minus("a", "b + c"), minus("0", "b"), minus("a", "-b"), minus("a / 2", "-a / 2")
    ('a - (b + c)', '-b', 'a + b', 'a')
    """
    if negated(one) == other and one.endswith(_HALF) and not _is_sum(one):
        return one.removesuffix(_HALF)  # from one side to the other
    return plus(one, negated(other))


def negated(text: str) -> str:
    """The same with the other sign.

    Examples
    --------
    >>> negated("-(width - side) / 2"), negated("a + b"), negated("-a + b"), negated("0")
    ('(width - side) / 2', '-(a + b)', '-(-a + b)', '0')
    """
    if _is_nothing(text):
        return text
    if text.startswith("-") and not _is_sum(text[1:]):
        return text[1:].strip()
    return f"-({text})" if _is_sum(text) else f"-{text}"


def halved(text: str) -> str:
    """Half of it.

    Examples
    --------
    >>> halved("side"), halved("28 3/4 in"), halved("a - b")
    ('side / 2', '(28 3/4 in) / 2', '(a - b) / 2')
    """
    return text if _is_nothing(text) else f"{_held(text)} / 2"


def times(count: int, text: str) -> str:
    """So many of it.

    Examples
    --------
    >>> times(1, "pitch"), times(3, "pitch"), times(2, "a - b"), times(2, "-100"), times(2, "0")
    ('pitch', '3 * pitch', '2 * (a - b)', '-200', '0')
    """
    if _FIGURE.fullmatch(text):
        return _shortened(f"{count * float(text):.2f}")
    return text if count == 1 or _is_nothing(text) else f"{count} * {_held(text)}"


def listed(items: Iterable[str]) -> str:
    """A list as it stands on one line of a file.

    Examples
    --------
    >>> listed(["0", "depth / 2", "max(a, b)"])
    '[0, depth / 2, "max(a, b)"]'
    """
    return f"[{', '.join(source_of(item) for item in items)}]"


def literal(mm: float, units: str) -> str:
    """A length as a figure, in the unit of a file: in inches as a fraction where it is one.

    Examples
    --------
    >>> literal(-379.998, "mm"), literal(400.05, "in"), literal(10.0, "in"), literal(-0.001, "mm")
    ('-380', '15 3/4 in', '0.3937 in', '0')
    """
    if units != "in":
        return _shortened(f"{mm:.2f}")
    inches = mm / float(MM_PER_INCH)
    parts = round(inches * _SIXTY_FOURTH)
    if abs(inches * _SIXTY_FOURTH - parts) > 1e-4:
        return f"{_shortened(f'{inches:.4f}')} in"
    whole, rest = divmod(abs(parts), _SIXTY_FOURTH)
    fraction = Fraction(rest, _SIXTY_FOURTH)
    told = " ".join(
        each for each in (str(whole) if whole or not rest else "", str(fraction) if rest else "") if each
    )
    return "0" if not parts else f"{'-' if parts < 0 else ''}{told} in"


def _shortened(figure: str) -> str:
    short = figure.rstrip("0").rstrip(".")
    return "0" if short in {"-0", ""} else short


def _is_nothing(text: str) -> bool:
    return text.strip() in {"0", "0 mm", "0 in", "0.0"}


def _held(text: str) -> str:
    """In brackets, unless it is one word or already a product."""
    return f"({text})" if _is_sum(text) or " " in text.strip() else text


def _is_sum(text: str) -> bool:
    """Whether terms are added or taken off outside of all brackets, or a sign leads."""
    depth = 0
    for letter in text:
        depth += (letter == "(") - (letter == ")")
        if depth == 0 and letter in "+-":
            return True
    return False
