"""Growth rings in a piece file: one of the yard's three names, or the angle seen in the end of the board."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from scantling.errors import FileFaults, InputError
from scantling.piece.files.fields import ExpressionField
from scantling.reading import did_you_mean
from scantling.units import Dimension
from scantling.wood.ring import RING_NAMES, RING_RULE, Ring, ring_at

__all__ = ["RingField", "Rings"]

_ANGLE = ExpressionField(Dimension.ANGLE, "")
_REMEDY = (
    "Write a name, or the angle between the wide face and the rings in the middle of the end, such as 30 deg."
)


class RingField:
    """Marks a field that says how the rings stand."""

    def read(self, value: object, context: dict[str, Any]) -> Ring:
        """The rings of a name, an angle, or an expression that comes to one.

        Raises
        ------
        InputError
            ``ring_angle_out_of_range``, ``unknown_choice`` for a word that is neither a name of rings nor
            of a parameter or value, and the faults of expressions.
        FileFaults
            ``unknown_name`` in an expression.
        """
        if isinstance(value, Ring):
            return value
        if isinstance(value, str) and value.strip() in RING_NAMES:
            return RING_NAMES[value.strip()]
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise _refused(value)
        try:
            angle = _ANGLE.read(value, context)
        except FileFaults as error:
            if isinstance(value, str) and value.strip().isidentifier():
                raise _refused(value) from error  # a lone word nothing is called: likelier a name misspelt
            raise
        return ring_at(angle, written=str(value))

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(value: object, info: core_schema.ValidationInfo[Any]) -> Ring:
            return self.read(value, info.context or {})

        return core_schema.with_info_plain_validator_function(read)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        return {
            "anyOf": [
                {"enum": list(RING_NAMES)},
                {"type": "number", "minimum": 0, "maximum": 90},
                {"type": "string", "maxLength": 500},
            ]
        }


def _refused(value: object) -> InputError:
    """A value that is no rings, with the name that was meant where one is near."""
    return InputError(
        code="unknown_choice",
        field="rings",
        value=str(value),
        rule=RING_RULE,
        remedy=did_you_mean(str(value), RING_NAMES, otherwise=_REMEDY),
    )


Rings = Annotated[Ring, RingField()]
"""Growth rings as seen in the end of a board."""
