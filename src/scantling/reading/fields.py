"""Field types for file models: quantities given as a number or as a maker writes them.

A number is in the unit of the file (``units: mm`` or ``units: in`` for lengths) or in the internal unit
of its kind; a text carries its own unit. Inside the model the value is a float in the internal unit.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any, Protocol, runtime_checkable

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from scantling.errors import InputError
from scantling.reading.documents import shown
from scantling.units import Dimension, is_bare_fraction, parse_quantity

__all__ = [
    "LENGTH_UNIT",
    "AngleDeg",
    "ForceN",
    "LengthMm",
    "MassKg",
    "Measure",
    "Minutes",
    "Percent",
    "QuantityField",
    "TemperatureC",
]

LENGTH_UNIT = "length_unit"
"""Key in the validation context that holds the file's unit of length, ``mm`` or ``in``."""
_BOUNDS = {"gt": "exclusiveMinimum", "ge": "minimum", "lt": "exclusiveMaximum", "le": "maximum"}


@runtime_checkable
class Measure(Protocol):
    """What marks a field as a quantity, for faults that tell its limits."""

    @property
    def dimension(self) -> Dimension:
        """The kind of quantity."""

    @property
    def unit(self) -> str:
        """Its internal unit; empty for plain numbers."""

    def unit_in(self, context: object) -> str:
        """Unit of a bare number under a validation context."""


@dataclass(frozen=True, slots=True)
class QuantityField:
    """Marks a float field as a quantity read from a number or a text with a unit.

    Parameters
    ----------
    dimension
        The kind of quantity.
    unit
        Unit of a bare number; for lengths the file's unit goes before it.
    what
        Sentence for the schema.
    examples
        As a maker writes it.
    """

    dimension: Dimension
    unit: str
    what: str
    examples: tuple[str | float, ...]

    def read(self, value: object, context: object) -> float:
        """The value in the internal unit.

        Raises
        ------
        InputError
            ``not_a_<dimension>``, ``unit_missing``, ``fraction_of_millimeter``.
        """
        unit = self.unit_in(context)
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise self._refuse(value)
        if isinstance(value, str):
            found = parse_quantity(value, self.dimension, default_unit=unit)
            if self.dimension is Dimension.LENGTH and unit != "in" and is_bare_fraction(value):
                raise self._fraction(value, unit)
            return found
        if not math.isfinite(value):
            raise self._refuse(value)
        if self.dimension is Dimension.LENGTH and unit != "mm":
            one = Fraction(str(parse_quantity("1", Dimension.LENGTH, default_unit=unit)))
            return float(Fraction(str(value)) * one)
        return float(value)

    def unit_in(self, context: object) -> str:
        """Unit of a bare number under a validation context."""
        if self.dimension is Dimension.LENGTH and isinstance(context, Mapping):
            return str(context.get(LENGTH_UNIT, self.unit))
        return self.unit

    @staticmethod
    def _fraction(value: str, unit: str) -> InputError:
        return InputError(
            code="fraction_of_millimeter",
            field="value",
            value=value,
            rule=f"must have a unit: a fraction without one is read in the file's {unit}",
            remedy=f"Did you mean {value.strip()} in? Else write the decimal.",
        )

    def _refuse(self, value: object) -> InputError:
        article = "an" if self.dimension is Dimension.ANGLE else "a"
        return InputError(
            code=f"not_{article}_{self.dimension.value}",
            field="value",
            value=shown(value),
            rule=f"must be {article} {self.dimension.value}, a number or a text with its unit",
            remedy=f"Write, for example, {self.examples[0]}.",
        )

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(value: object, info: core_schema.ValidationInfo[Any]) -> float:
            return self.read(value, info.context)

        return core_schema.with_info_before_validator_function(read, handler(source))

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        bounds = {_BOUNDS.get(key, key): bound for key, bound in handler(schema).items()}
        if self.dimension is Dimension.LENGTH:  # bounds are in mm, a number may be in inches
            bounds = {key: bound for key, bound in bounds.items() if bound == 0}
        number = {**bounds, "type": "number"}
        described: dict[str, Any] = {
            "description": self.what,
            "anyOf": [number, {"type": "string", "maxLength": 60}],
            "examples": list(self.examples),
        }
        return described


LengthMm = Annotated[
    float,
    QuantityField(
        Dimension.LENGTH,
        "mm",
        "A length: a number in the file's units, or a text such as 730 mm, 28 3/4 in, 2' 4-1/2\".",
        ("730 mm", "28 3/4 in", "2' 4-1/2\"", 730),
    ),
]
"""A length. [mm]"""
AngleDeg = Annotated[float, QuantityField(Dimension.ANGLE, "deg", "An angle in degrees.", ("7 deg", "7°", 7))]
"""An angle. [deg]"""
Percent = Annotated[float, QuantityField(Dimension.PERCENT, "%", "A percentage.", ("45 %", 45))]
"""A percentage, as printed: 45 for 45 %. [%]"""
TemperatureC = Annotated[
    float,
    QuantityField(
        Dimension.TEMPERATURE,
        "C",
        "A temperature: a number in degrees Celsius, or a text such as 68 F.",
        ("20 C", "68 F", 20),
    ),
]
"""A temperature. [degC]"""
Minutes = Annotated[
    float,
    QuantityField(
        Dimension.TIME,
        "min",
        "A time: a number of minutes, or a text such as 90 min, 24 h, 3 days.",
        ("90 min", "24 h", "3 days", 90),
    ),
]
"""A time. [min]"""
MassKg = Annotated[
    float,
    QuantityField(
        Dimension.MASS,
        "kg",
        "A mass: a number of kilograms, or a text such as 55 lb.",
        ("25 kg", "55 lb", 25),
    ),
]
"""A mass. [kg]"""
ForceN = Annotated[
    float,
    QuantityField(
        Dimension.FORCE,
        "N",
        "A force: a number of newtons, or a text such as 900 lbf.",
        ("4 kN", "900 lbf", 450),
    ),
]
"""A force. [N]"""
