"""The functions an expression may use; there are no others."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from scantling.piece.expressions.quantity import ANGLE, NUMBER, TRUTH, Kind
from scantling.piece.expressions.values import Refusal, Value, alike, as_angle, checked

__all__ = ["FUNCTIONS", "Function"]

_NEAR = 1e-9
Apply = Callable[[Sequence[Value], str], Value]


@dataclass(frozen=True, slots=True, kw_only=True)
class Function:
    """One function.

    Parameters
    ----------
    form
        How it is written.
    about
        What it gives, one sentence.
    least, most
        Number of arguments.
    apply
        Works it out from its arguments and the file's unit of length.
    """

    form: str
    about: str
    least: int
    most: int
    apply: Apply


def _extreme(pick: Callable[[Sequence[float]], float]) -> Apply:
    def apply(values: Sequence[Value], unit: str) -> Value:
        same = alike(_sizes(values), unit=unit, doing="compare")
        bare = all(value.bare for value in values)
        return Value(pick([value.value for value in same]), same[0].kind, bare)

    return apply


def _sizes(values: Sequence[Value]) -> Sequence[Value]:
    if any(value.kind == TRUTH for value in values):
        raise Refusal("wrong_dimension", "cannot reckon with a yes or no", "Use if A > B then C else D.")
    return values


def _stepped(pick: Callable[[float], float]) -> Apply:
    """Rounding to whole steps; a length needs the step named, since it has no whole by itself."""

    def apply(values: Sequence[Value], unit: str) -> Value:
        if len(values) == 1:
            if values[0].kind != NUMBER:
                raise Refusal(
                    "wrong_dimension",
                    f"must be told the step when rounding {values[0].kind}",
                    f"Add it: floor(x, 1 {unit}), ceil(x, 1 {unit}).",
                )
            return replace(values[0], value=pick(values[0].value))
        value, step = alike(_sizes(values), unit=unit, doing="round")
        if step.value <= 0:
            raise Refusal("out_of_domain", "must have a step above zero", "Write, for example, 1 mm.")
        bare = values[0].bare and values[1].bare
        return checked(pick(value.value / step.value) * step.value, value.kind, bare=bare)

    return apply


def _root(values: Sequence[Value], unit: str) -> Value:
    del unit
    [base] = _sizes(values)
    if base.value < 0:
        raise Refusal("out_of_domain", "must not be the root of a negative", value=f"sqrt of {base.value:g}")
    if base.kind.angle or base.kind.length % 2:
        raise Refusal(
            "wrong_dimension",
            f"cannot take the square root of {base.kind}",
            "It needs a number or an area, such as a ^ 2 + b ^ 2.",
        )
    return Value(math.sqrt(base.value), Kind(length=base.kind.length // 2), base.bare)


def _absolute(values: Sequence[Value], unit: str) -> Value:
    del unit
    [size] = _sizes(values)
    return replace(size, value=abs(size.value))


def _of_angle(name: str, work: Callable[[float], float]) -> Apply:
    def apply(values: Sequence[Value], unit: str) -> Value:
        del unit
        radians = math.radians(as_angle(values[0], function=name))
        if name == "tan" and abs(math.cos(radians)) < 1e-12:
            raise Refusal("out_of_domain", "tan has no value at a right angle", "Check the angle.")
        return checked(work(radians), NUMBER)

    return apply


def _to_angle(name: str, work: Callable[[float], float]) -> Apply:
    def apply(values: Sequence[Value], unit: str) -> Value:
        del unit
        [ratio] = values
        if ratio.kind != NUMBER:
            raise Refusal(
                "wrong_dimension",
                f"{name} must be given a number, not {ratio.kind}",
                "Divide one length by another.",
            )
        value = ratio.value
        if name != "atan" and 1.0 < abs(value) <= 1.0 + _NEAR:
            value = math.copysign(1.0, value)  # rounding only
        if name != "atan" and abs(value) > 1.0:
            raise Refusal("out_of_domain", f"{name} must be given a number from -1 to 1", value=f"{value:g}")
        return Value(math.degrees(work(value)), ANGLE)

    return apply


def _atan2(values: Sequence[Value], unit: str) -> Value:
    up, along = alike(_sizes(values), unit=unit, doing="take the slope of")
    if up.value == 0 and along.value == 0:
        raise Refusal("out_of_domain", "atan2 has no value for 0, 0", "Check the two sizes.")
    return Value(math.degrees(math.atan2(up.value, along.value)), ANGLE)


def _angle_function(name: str, what: str, work: Callable[[float], float]) -> Function:
    return Function(
        form=f"{name}(angle)", about=f"The {what} of an angle.", least=1, most=1, apply=_of_angle(name, work)
    )


def _inverse_function(name: str, what: str, work: Callable[[float], float]) -> Function:
    return Function(
        form=f"{name}(number)",
        about=f"The angle with this {what}.",
        least=1,
        most=1,
        apply=_to_angle(name, work),
    )


FUNCTIONS: dict[str, Function] = {
    "min": Function(form="min(a, b, ...)", about="The least of them.", least=1, most=20, apply=_extreme(min)),
    "max": Function(
        form="max(a, b, ...)", about="The greatest of them.", least=1, most=20, apply=_extreme(max)
    ),
    "abs": Function(form="abs(a)", about="The size without its sign.", least=1, most=1, apply=_absolute),
    "sqrt": Function(
        form="sqrt(a)", about="The square root of a number or an area.", least=1, most=1, apply=_root
    ),
    "round_to": Function(
        form="round_to(a, step)",
        about="The nearest whole number of steps, a half upwards.",
        least=2,
        most=2,
        apply=_stepped(lambda steps: math.floor(steps + 0.5 + _NEAR)),
    ),
    "floor": Function(
        form="floor(a) or floor(a, step)",
        about="Down to a whole number of steps.",
        least=1,
        most=2,
        apply=_stepped(lambda steps: math.floor(steps + _NEAR)),
    ),
    "ceil": Function(
        form="ceil(a) or ceil(a, step)",
        about="Up to a whole number of steps.",
        least=1,
        most=2,
        apply=_stepped(lambda steps: math.ceil(steps - _NEAR)),
    ),
    "sin": _angle_function("sin", "sine", math.sin),
    "cos": _angle_function("cos", "cosine", math.cos),
    "tan": _angle_function("tan", "tangent", math.tan),
    "asin": _inverse_function("asin", "sine", math.asin),
    "acos": _inverse_function("acos", "cosine", math.acos),
    "atan": _inverse_function("atan", "tangent", math.atan),
    "atan2": Function(form="atan2(up, along)", about="The angle of a slope.", least=2, most=2, apply=_atan2),
}
"""By name. Angles are in degrees throughout."""
