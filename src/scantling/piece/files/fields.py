"""Fields of a piece file that hold an expression: read first for its grammar, then for its value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, StringConstraints
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from scantling.errors import InputError
from scantling.piece.expressions import evaluate, parse
from scantling.units import Dimension, show_limit

__all__ = [
    "FOUND",
    "LOOKUP",
    "UNIT",
    "WORK_OUT",
    "Angle",
    "Count",
    "ExpressionField",
    "Length",
    "Name",
    "Number",
]

LOOKUP = "lookup"
"""Key in the validation context: gives a name's value; absent while only the grammar is read."""
WORK_OUT = "work_out"
"""Key in the validation context: works an expression out, or refuses all that is wrong with its names."""
UNIT = "length_unit"
"""Key in the validation context: the file's unit of length."""
FOUND = "found"
"""Key in the validation context: keeps what each expression came to, by its text, for faults to say."""


class _StandIn(float):
    """A number that is within every limit."""

    __slots__ = ()

    def _within(self, _limit: object) -> bool:
        return True

    __lt__ = __le__ = __gt__ = __ge__ = _within


STAND_IN = _StandIn(1.0)
"""What an expression with names counts as while only its grammar is read: no limit refuses it."""
Name = Annotated[
    str,
    StringConstraints(pattern=r"^[a-z][a-z0-9_]{0,39}$"),
]
"""A name in a piece file: small letters, digits and underscores, beginning with a letter."""


@dataclass(frozen=True, slots=True)
class ExpressionField:
    """Marks a float field that is written as a number, a length or an expression.

    Parameters
    ----------
    dimension
        The kind of quantity the expression must come to.
    what
        Sentence for the schema.
    whole
        Whether the value must be a whole number.
    """

    dimension: Dimension
    what: str
    whole: bool = False

    def read(self, value: object, context: dict[str, Any]) -> float:
        """The value in the internal unit; :data:`STAND_IN` where names are not known yet."""
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise self._refuse(value)
        expression = parse(value if isinstance(value, str) else repr(value))
        lookup = context.get(LOOKUP)
        if lookup is None:
            if expression.names():
                return STAND_IN
            lookup = {}
        unit = context.get(UNIT, "mm")
        if WORK_OUT in context:
            number = context[WORK_OUT](expression, want=self.dimension).value
        else:
            number = evaluate(expression, lookup, default_unit=unit, want=self.dimension).value
        if self.whole and abs(number - round(number)) > 1e-9:
            raise InputError(
                code="not_whole",
                field="value",
                value=f"{value} = {number:g}",
                rule="must be a whole number",
                remedy="Use floor(), ceil() or round_to(..., 1).",
            )
        found = float(round(number)) if self.whole else number
        context.get(FOUND, {})[str(value)] = self._said(found, inch=unit == "in")
        return found

    @property
    def unit(self) -> str:
        """The internal unit; empty for plain numbers."""
        return {Dimension.LENGTH: "mm", Dimension.ANGLE: "deg"}.get(self.dimension, "")

    def unit_in(self, context: object) -> str:
        """Unit of a bare number under a validation context."""
        if self.dimension is Dimension.LENGTH and isinstance(context, Mapping):
            return str(context.get(UNIT, self.unit))
        return self.unit

    def _said(self, number: float, *, inch: bool) -> str:
        """A value with its unit, for a fault that says what an expression came to."""
        if self.dimension is Dimension.LENGTH:
            return show_limit(number, inch=inch)
        return f"{number:.6g} {self.unit}".strip()

    def _refuse(self, value: object) -> InputError:
        return InputError(
            code=f"not_a_{self.dimension.value}",
            field="value",
            value="nothing" if value is None else repr(value),
            rule=f"must be a {self.dimension.value} or an expression that comes to one",
            remedy="Write a number, a length such as 28 3/4 in, "
            "or an expression such as length - 2 * overhang.",
        )

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(
            value: object,
            inner: core_schema.ValidatorFunctionWrapHandler,
            info: core_schema.ValidationInfo[Any],
        ) -> float:
            found = self.read(value, info.context or {})
            return found if found is STAND_IN else float(inner(found))  # limits of the field may be inside

        return core_schema.with_info_wrap_validator_function(read, handler(source))

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        return {"description": self.what, "anyOf": [{"type": "number"}, {"type": "string", "maxLength": 500}]}


Length = Annotated[
    float,
    ExpressionField(
        Dimension.LENGTH,
        "A length: a number in the file's units, a text such as 28 3/4 in, or an expression over parameters, "
        "values and other parts' sizes.",
    ),
]
"""A length. [mm]"""
Angle = Annotated[float, ExpressionField(Dimension.ANGLE, "An angle in degrees, or an expression.")]
"""An angle. [deg]"""
Number = Annotated[float, ExpressionField(Dimension.NUMBER, "A plain number, or an expression.")]
"""A plain number. [1]"""
Count = Annotated[
    float,
    ExpressionField(Dimension.NUMBER, "A whole number, or an expression that comes to one.", whole=True),
]
"""A whole number. [1]"""
