"""Arithmetic that keeps watch over kinds: lengths with lengths, angles with angles.

The one rule for figures without a unit: beside a length, a bare number is in the file's unit; beside an
angle, it is in degrees. A bare number is one made of written figures alone. A name that stands for a
number is not bare: adding it to a length is a fault.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from scantling.piece.expressions.quantity import ANGLE, LENGTH, NUMBER, TRUTH, Kind
from scantling.units import parse_length_mm, show_number

__all__ = ["SAME_MM", "Refusal", "Value", "alike", "as_angle", "as_kind", "combined", "compared", "raised"]

SAME_MM = 1e-6
"""Two values this near count as equal in a comparison: far below any tool, far above rounding. [mm]"""
_MOST = 1e15
_MOST_POWER = 6


@dataclass(frozen=True, slots=True)
class Value:
    """An intermediate value.

    Parameters
    ----------
    value
        In mm to the power, degrees, or as it is.
    kind
        What it is.
    bare
        Whether it is made of figures without units only.
    fraction
        How it is written, where it is a fraction standing alone.
    """

    value: float
    kind: Kind
    bare: bool = False
    fraction: str = ""


class Refusal(Exception):  # noqa: N818 - not an error a caller sees: the evaluator adds the place and raises one
    """Why an operation cannot be done."""

    def __init__(self, code: str, rule: str, remedy: str = "", *, value: str = "") -> None:
        super().__init__(rule)
        self.code, self.rule, self.remedy, self.value = code, rule, remedy, value


def checked(value: float, kind: Kind, *, bare: bool = False) -> Value:
    """A value, unless it has left the world of sizes.

    Raises
    ------
    Refusal
        ``too_large``.
    """
    if not math.isfinite(value) or abs(value) > _MOST:
        raise Refusal("too_large", f"must come to less than {_MOST:g}", "Check the divisions and powers.")
    if abs(kind.length) > _MOST_POWER:
        raise Refusal("wrong_dimension", f"must not go beyond a length to the power {_MOST_POWER}")
    return Value(value, kind, bare)


def as_kind(value: Value, kind: Kind, *, unit: str) -> Value:
    """A bare number as a length in the file's unit or as degrees, where that is wanted; else as it is.

    Raises
    ------
    Refusal
        ``fraction_of_millimeter``: fractions are of inches; no rule is divided so.
    """
    if not value.bare or kind == value.kind:
        return value
    if kind == LENGTH:
        if value.fraction and unit != "in":
            decimal = show_number(value.value, digits=4)
            raise Refusal(
                "fraction_of_millimeter",
                f"must have a unit: a fraction without one is read in the file's {unit}",
                f"Did you mean {value.fraction} in? Else write {decimal} {unit}.",
            )
        return Value(float(Fraction(value.value) * _mm_per(unit)), LENGTH)
    return Value(value.value, ANGLE) if kind == ANGLE else value


@lru_cache(maxsize=8)
def _mm_per(unit: str) -> Fraction:
    return Fraction(str(parse_length_mm(f"1 {unit}")))


def alike(values: Sequence[Value], *, unit: str, doing: str) -> list[Value]:
    """Values brought to one kind, bare numbers taking the kind of the others.

    Raises
    ------
    Refusal
        ``wrong_dimension``.
    """
    wanted = next((value.kind for value in values if not value.bare), NUMBER)
    same = [as_kind(value, wanted, unit=unit) for value in values]
    other = next((value for value in same if value.kind != wanted), None)
    if other is not None:
        first, second = str(wanted), str(other.kind)
        raise Refusal(
            "wrong_dimension",
            f"cannot {doing} {first} and {second}",
            f"Give the number a unit, or multiply it by a length such as 1 {unit}."
            if {"a number", "a length"} == {first, second}
            else "Check what each part of it is.",
        )
    return same


def combined(left: Value, sign: str, right: Value, *, unit: str) -> Value:
    """Two values joined by ``+ - * /``, ``and`` or ``or``.

    Raises
    ------
    Refusal
        ``wrong_dimension``, ``division_by_zero``, ``too_large``.
    """
    if sign in ("and", "or"):
        if left.kind != TRUTH or right.kind != TRUTH:
            raise Refusal(
                "wrong_dimension", f"must have a comparison on both sides of '{sign}'", "Write A > B."
            )
        yes = (left.value and right.value) if sign == "and" else (left.value or right.value)
        return Value(yes, TRUTH)
    if TRUTH in (left.kind, right.kind):
        raise Refusal("wrong_dimension", "cannot reckon with a yes or no", "Use if A > B then C else D.")
    bare = left.bare and right.bare
    if sign in "+-":
        doing = "add" if sign == "+" else "subtract"
        first, second = alike((left, right), unit=unit, doing=doing)
        total = first.value + second.value if sign == "+" else first.value - second.value
        return checked(total, first.kind, bare=bare)
    if sign == "*":
        return checked(left.value * right.value, _product(left.kind, right.kind, 1), bare=bare)
    if right.value == 0:
        raise Refusal("division_by_zero", "must not be divided by zero", "Check the divisor.")
    return checked(left.value / right.value, _product(left.kind, right.kind, -1), bare=bare)


def _product(left: Kind, right: Kind, way: int) -> Kind:
    angle = left.angle + way * right.angle
    length = left.length + way * right.length
    if angle not in (0, 1) or (angle and length):
        verb = "multiply" if way > 0 else "divide"
        raise Refusal(
            "wrong_dimension",
            f"cannot {verb} {left} {'and' if way > 0 else 'by'} {right}",
            "For slopes use sin, cos or tan of the angle.",
        )
    return Kind(length=length, angle=angle)


def raised(base: Value, exponent: int) -> Value:
    """A value to a small whole power.

    Raises
    ------
    Refusal
        ``wrong_dimension``, ``too_large``.
    """
    if base.kind.angle or base.kind.truth:
        raise Refusal("wrong_dimension", f"cannot take a power of {base.kind}")
    try:
        power = base.value**exponent
    except OverflowError:
        power = math.inf
    return checked(power, Kind(length=base.kind.length * exponent), bare=base.bare)


def compared(left: Value, sign: str, right: Value, *, unit: str) -> Value:
    """Yes or no of a comparison; values within :data:`SAME_MM` count as equal.

    Raises
    ------
    Refusal
        ``wrong_dimension``.
    """
    if TRUTH in (left.kind, right.kind):
        raise Refusal("wrong_dimension", "cannot compare a yes or no", "Join comparisons by and, or.")
    first, second = alike((left, right), unit=unit, doing="compare")
    gap = first.value - second.value
    same = abs(gap) <= SAME_MM
    answers = {
        "=": same,
        "!=": not same,
        "<": gap < 0 and not same,
        ">": gap > 0 and not same,
        "<=": gap < 0 or same,
        ">=": gap > 0 or same,
    }
    return Value(float(answers[sign]), TRUTH)


def as_angle(value: Value, *, function: str) -> float:
    """Degrees of an angle or a bare number.

    Raises
    ------
    Refusal
        ``wrong_dimension``.
    """
    angle = as_kind(value, ANGLE, unit="mm")
    if angle.kind != ANGLE:
        raise Refusal(
            "wrong_dimension",
            f"{function} must be given an angle, not {value.kind}",
            "Write, for example, 7 deg.",
        )
    return angle.value


def negative(value: Value) -> Value:
    """The negative of a value.

    Raises
    ------
    Refusal
        ``wrong_dimension``.
    """
    if value.kind == TRUTH:
        raise Refusal("wrong_dimension", "cannot reckon with a yes or no", "Use not.")
    return replace(value, value=-value.value, fraction=f"-{value.fraction}" if value.fraction else "")
