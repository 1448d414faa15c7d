"""Other quantities a piece, shop or room file holds: angles, temperatures, times, masses, money."""

from __future__ import annotations

import re
from enum import StrEnum

from scantling.errors import InputError
from scantling.units.lengths import parse_length_mm

__all__ = ["Dimension", "parse_quantity"]


class Dimension(StrEnum):
    """What kind of quantity a value is; the internal unit stands in :data:`INTERNAL_UNIT`."""

    LENGTH = "length"
    ANGLE = "angle"
    NUMBER = "number"
    PERCENT = "percent"
    TEMPERATURE = "temperature"
    TIME = "time"
    MASS = "mass"
    FORCE = "force"


_FACTORS: dict[Dimension, dict[str, float]] = {
    Dimension.ANGLE: {"deg": 1.0, "°": 1.0, "degrees": 1.0},
    Dimension.NUMBER: {"": 1.0},
    Dimension.PERCENT: {"%": 1.0, "pct": 1.0},
    Dimension.TIME: {
        "min": 1.0,
        "h": 60.0,
        "days": 1440.0,
        "s": 1.0 / 60.0,
        "minutes": 1.0,
        "hour": 60.0,
        "hours": 60.0,
        "d": 1440.0,
        "day": 1440.0,
        "weeks": 10080.0,
        "week": 10080.0,
    },
    Dimension.MASS: {"kg": 1.0, "g": 0.001, "lb": 0.45359237, "oz": 0.028349523125, "lbs": 0.45359237},
    Dimension.FORCE: {"N": 1.0, "kN": 1000.0, "lbf": 4.4482216152605},
}
_SPLIT = re.compile(r"([-+−]?\s*(?:[0-9]{1,9}(?:\.[0-9]{0,20})?|\.[0-9]{1,20}))\s*([^0-9.\s][^0-9.]*)?")
"""Number and unit of a text without space around it: no two parts of it take the same space."""
_NAMED = 4
"""How many of the units an error names; the others are other spellings. [1]"""


def parse_quantity(text: str, dimension: Dimension, *, default_unit: str = "", field: str = "value") -> float:
    """Read a quantity of a known kind into its internal unit.

    Lengths come back in mm, angles in degrees, percents as percent, temperatures in degC, times in
    minutes, masses in kg, forces in N, numbers as they are.

    Parameters
    ----------
    text
        A number with a unit (``7 deg``, ``68 F``, ``20 C``, ``45 %``, ``24 h``).
    dimension
        The kind wanted.
    default_unit
        Unit of a bare number; empty refuses one, except for numbers.
    field
        Name used in the error.

    Raises
    ------
    InputError
        ``not_a_<dimension>`` (``not_an_angle``), ``unit_missing``.

    Examples
    --------
    >>> parse_quantity("68 F", Dimension.TEMPERATURE)
    20.0
    """
    if dimension is Dimension.LENGTH:
        return parse_length_mm(text, default_unit=default_unit, field=field)
    match = _SPLIT.fullmatch(text.strip())
    if match is None:
        raise _refuse(text, dimension, field)
    value = float(match[1].replace(" ", "").replace("−", "-"))
    unit = match[2] or default_unit
    if not unit and dimension is not Dimension.NUMBER:
        raise _refuse(text, dimension, field, code="unit_missing")
    if dimension is Dimension.TEMPERATURE:
        return _celsius(value, unit, text=text, field=field)
    factor = _FACTORS[dimension].get(unit)
    if factor is None:
        raise _refuse(text, dimension, field)
    return value * factor


def _celsius(value: float, unit: str, *, text: str, field: str) -> float:
    name = unit.removeprefix("°").removeprefix("deg").strip()
    if name == "C":
        return value
    if name == "F":
        return (value - 32.0) * 5.0 / 9.0
    raise _refuse(text, Dimension.TEMPERATURE, field)


def _refuse(text: str, dimension: Dimension, field: str, *, code: str = "") -> InputError:
    article = "an" if dimension is Dimension.ANGLE else "a"
    if dimension is Dimension.NUMBER:
        return InputError(
            code="not_a_number",
            field=field,
            value=text,
            rule="must be a plain number",
            remedy="Write figures only, such as 3 or 2.5.",
        )
    known = ["C", "F"] if dimension is Dimension.TEMPERATURE else list(_FACTORS[dimension])[:_NAMED]
    return InputError(
        code=code or f"not_{article}_{dimension.value}",
        field=field,
        value=text,
        rule=f"must be {article} {dimension.value} with a unit ({', '.join(known)})",
        remedy=f"Write, for example, 20 {known[0]}.",
    )
