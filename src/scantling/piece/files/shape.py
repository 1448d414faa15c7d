"""The shape of a piece file together with the joint families at hand, and its JSON Schema."""

from __future__ import annotations

from collections.abc import Mapping
from functools import reduce
from operator import or_
from typing import Annotated, Any

from pydantic import BaseModel, Field, create_model

from scantling.piece.files.fields import Name
from scantling.piece.files.spec import PieceSpec

__all__ = ["piece_model", "piece_schema"]

_made: dict[tuple[tuple[str, type[BaseModel]], ...], type[PieceSpec]] = {}


def piece_model(families: Mapping[str, type[BaseModel]]) -> type[PieceSpec]:
    """The model of a piece file whose joints may be of these families.

    Parameters
    ----------
    families
        Options model by family; each has ``kind: Literal[...]`` and ``between``.
    """
    key = tuple(sorted(families.items(), key=lambda item: item[0]))
    if key not in _made:
        joint: Any = reduce(or_, families.values())
        if len(families) > 1:
            joint = Annotated[joint, Field(discriminator="kind")]
        _made[key] = create_model(
            "PieceFile",
            __base__=PieceSpec,
            __doc__=PieceSpec.__doc__,
            joints=(dict[Name, joint], Field(default={}, max_length=300, description="The joints, by name.")),
        )
    return _made[key]


def piece_schema(families: Mapping[str, type[BaseModel]]) -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a piece file, for editors to complete and check by."""
    schema = piece_model(families).model_json_schema(by_alias=True)
    _close(schema)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema, "title": "Piece file"}


def _close(node: Any) -> None:
    """Refuse names of another form wherever a block is kept by name."""
    if isinstance(node, dict):
        if "patternProperties" in node:
            node.setdefault("additionalProperties", False)
        for inner in node.values():
            _close(inner)
    elif isinstance(node, list):
        for inner in node:
            _close(inner)
