"""Our words for what a model's validation found: one rule and one remedy for each kind of error."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Any, Literal, get_args, get_origin

from scantling.reading.documents import shown
from scantling.reading.shapes import Shape
from scantling.units import Dimension, Round, is_in_inches, show_limit, show_number

__all__ = ["Wording", "did_you_mean", "either", "nearest", "word"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """Code, rule and remedy of one fault."""

    code: str
    rule: str
    remedy: str = ""


_TYPES: dict[str, str] = {
    "string": "text",
    "int": "a whole number",
    "float": "a number",
    "bool": "true or false",
    "list": "a list",
    "tuple": "a list",
    "set": "a list",
    "frozen_set": "a list",
    "dict": "a block of 'name: value' lines",
    "model": "a block of 'name: value' lines",
    "model_attributes": "a block of 'name: value' lines",
    "mapping": "a block of 'name: value' lines",
    "date": "a date such as 2026-11-25",
    "datetime": "a date and time such as 2026-11-25 14:30",
    "time": "a time of day such as 14:30",
    "none_required": "left empty",
    "decimal": "a number",
}
_REMEDIES: dict[str, str] = {
    "string": "Put it in quotes.",
    "tuple": "Write its items in brackets, [a, b], or one a line after '- '.",
    "list": "Write its items in brackets, [a, b], or one a line after '- '.",
    "model": "Put its fields on lines below, indented by two spaces.",
    "model_attributes": "Put its fields on lines below, indented by two spaces.",
    "dict": "Put its fields on lines below, indented by two spaces.",
    "int": "Write it without decimals or unit.",
    "float": "Write it without a unit.",
}
_LISTED = 20
"""Most names listed in one sentence. [1]"""
_LIMITS: dict[str, str] = {
    "greater_than": "gt",
    "greater_than_equal": "ge",
    "less_than": "lt",
    "less_than_equal": "le",
}
_LIMIT_WORDS: dict[str, str] = {
    "gt": "must be more than {}",
    "ge": "must be at least {}",
    "lt": "must be less than {}",
    "le": "must be at most {}",
}


def nearest(name: str, allowed: Iterable[str]) -> str:
    """The allowed name most like a misspelt one; empty when none is near.

    Examples
    --------
    >>> nearest("lenght", ["length", "width"])
    'length'
    """
    names = list(allowed)
    folded = {item.casefold().replace("-", "_").replace(" ", "_"): item for item in names}
    plain = name.casefold().replace("-", "_").replace(" ", "_")
    close = difflib.get_close_matches(plain[:80], list(folded), n=1, cutoff=0.6)
    return folded[close[0]] if close else ""


def did_you_mean(name: str, allowed: Iterable[str], *, otherwise: str = "") -> str:
    """Remedy for a misspelt name."""
    near = nearest(name, allowed)
    return f"Did you mean {near}?" if near else otherwise


def word(error: Mapping[str, Any], shapes: tuple[Shape, ...], *, context: object, value: object) -> Wording:
    """Words for one validation error.

    Parameters
    ----------
    error
        One entry of ``ValidationError.errors()``.
    shapes
        What the model allows at that place; for an unknown field, at the block that holds it.
    context
        Validation context, for the file's unit.
    value
        What was found.
    """
    kind: str = error["type"]
    given: Mapping[str, Any] = error.get("ctx") or {}
    if kind == "missing":
        return _missing(error["loc"])
    if kind == "union_tag_not_found":
        return Wording(code="field_missing", rule="must be given", remedy="Say which kind of block this is.")
    if kind == "extra_forbidden":
        return _unknown_field(str(error["loc"][-1]), shapes)
    if kind in ("literal_error", "enum"):
        return _choice(str(value), _words(shapes) or _choices(str(given.get("expected", ""))))
    if kind == "union_tag_invalid":
        return _choice(str(given.get("tag", "")), _choices(str(given.get("expected_tags", ""))))
    if kind in _LIMITS:
        limit = _LIMITS[kind]
        direction = Round.UP if limit.startswith("g") else Round.DOWN
        amount = _amount(given[limit], shapes, context, value=value, direction=direction)
        return Wording(
            code="out_of_range",
            rule=_LIMIT_WORDS[limit].format(amount),
            remedy=_fahrenheit(value, shapes) if limit == "le" else "",
        )
    if kind == "multiple_of":
        amount = _amount(given["multiple_of"], shapes, context, value=value, direction=Round.NEAREST)
        return Wording(code="out_of_range", rule=f"must be a multiple of {amount}")
    if kind in ("too_short", "too_long", "string_too_short", "string_too_long"):
        return _count(kind, given)
    return _type(kind) or _other(error, given)


def _missing(way: Sequence[object]) -> Wording:
    """A field left out; of a list that is too short, the comma that may be missing."""
    last = way[-1] if way else ""
    remedy = "Add it."
    if way == ("scantling",):
        remedy = "Write 'scantling: 1' as the first line: the form of the file."
    elif isinstance(last, int) and last > 0:
        remedy = f"Write {last + 1} entries with a comma between them, such as [a, b{', c' * (last > 1)}]."
    return Wording(code="field_missing", rule="must be given", remedy=remedy)


def _type(kind: str) -> Wording | None:
    if kind == "finite_number":
        return Wording(code="wrong_type", rule="must be a finite number")
    stem = kind
    for ending in ("_type", "_parsing", "_from_float", "_from_datetime_inexact", "_from_date_parsing"):
        stem = stem.removesuffix(ending)
    if kind == "none_required":
        stem = kind
    elif stem == kind or stem not in _TYPES:
        return None
    return Wording(code="wrong_type", rule=f"must be {_TYPES[stem]}", remedy=_REMEDIES.get(stem, ""))


def _other(error: Mapping[str, Any], given: Mapping[str, Any]) -> Wording:
    kind: str = error["type"]
    if "rule" in given:
        return Wording(code=kind, rule=str(given["rule"]), remedy=str(given.get("remedy", "")))
    if kind == "string_pattern_mismatch":
        return _form(str(given.get("pattern", "")))
    text = str(error.get("msg", "is not valid")).rstrip(".")
    for opening in ("Value error, ", "Assertion failed, "):
        text = text.removeprefix(opening)
    return Wording(code="not_valid", rule=text[:1].lower() + text[1:] if text else "is not valid")


def _form(pattern: str) -> Wording:
    if pattern.startswith("^[a-z][a-z0-9_]"):
        return Wording(
            code="wrong_form",
            rule="must begin with a small letter and hold only small letters, digits and _",
            remedy="Write it like front_apron or leg2; keep it short.",
        )
    return Wording(code="wrong_form", rule=f"must have the form {pattern}")


def either(rules: list[str]) -> str:
    """One rule of several, any of which would do: ``must be text, or a number``."""
    if "must be a number" in rules and "must be a whole number" in rules:
        rules = [rule for rule in rules if rule != "must be a whole number"]
    return ", or ".join([rules[0], *(rule.removeprefix("must be ") for rule in rules[1:])])


def _unknown_field(name: str, shapes: tuple[Shape, ...]) -> Wording:
    allowed = sorted({field for shape in shapes for field in shape.fields})
    names = f"; known here: {_some(allowed)}" if allowed else ""
    return Wording(
        code="unknown_field",
        rule=f"is not a known field{names}",
        remedy=did_you_mean(name, allowed, otherwise="Delete it or correct its name."),
    )


def _some(names: list[str]) -> str:
    """Names in a sentence; of many only the first."""
    return ", ".join(names if len(names) <= _LISTED else [*names[:_LISTED], "…"])


def _words(shapes: tuple[Shape, ...]) -> list[str]:
    """The fixed words a value may be."""
    words: list[str] = []
    for shape in shapes:
        if get_origin(shape.kind) is Literal:
            words.extend(str(word) for word in get_args(shape.kind))
        elif isinstance(shape.kind, type) and issubclass(shape.kind, Enum):
            words.extend(str(member.value) for member in shape.kind)
    return words


def _choices(text: str) -> list[str]:
    """Take the choices back out of the validator's sentence: ``'a', 'b' or 'c'``."""
    parts = text.replace(" or ", ", ").split(", ")
    return [part.strip().strip("'\"") for part in parts if part.strip()]


def _choice(found: str, allowed: list[str]) -> Wording:
    return Wording(
        code="unknown_choice",
        rule=f"must be {'one of ' if len(allowed) > 1 else ''}{_some(allowed)}",
        remedy=did_you_mean(found, allowed),
    )


def _count(kind: str, given: Mapping[str, Any]) -> Wording:
    least = kind.endswith("short")
    limit = given.get("min_length" if least else "max_length", 0)
    if kind.startswith("string"):
        noun = "character" if limit == 1 else "characters"
    else:
        noun = "entry" if limit == 1 else "entries"
    rule = f"must have at {'least' if least else 'most'} {limit} {noun}"
    return Wording(code="wrong_count", rule=rule)


def _fahrenheit(value: object, shapes: tuple[Shape, ...]) -> str:
    """The remedy for a temperature too high in Celsius that may be meant in Fahrenheit."""
    quantity = next((shape.quantity for shape in shapes if shape.quantity), None)
    if quantity is None or quantity.dimension is not Dimension.TEMPERATURE or not _is_number(value):
        return ""
    return f"A number alone is in Celsius: for Fahrenheit write {value} F."


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _amount(
    limit: object, shapes: tuple[Shape, ...], context: object, *, value: object, direction: Round
) -> str:
    """A limit with its unit; of a length, the unit the value is written in."""
    quantity = next((shape.quantity for shape in shapes if shape.quantity), None)
    if quantity is None or not isinstance(limit, int | float):
        return shown(limit) if not isinstance(limit, float) else show_number(limit, digits=6)
    if quantity.dimension is Dimension.LENGTH:
        inch = is_in_inches(value, otherwise=quantity.unit_in(context) == "in")
        return show_limit(limit, inch=inch, direction=direction)
    return f"{show_number(limit, digits=6)} {quantity.unit}".strip()
