"""Options every joint has: its kind, and the pairs of parts it joins."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from scantling.piece.files import Length

__all__ = ["JointOptions", "PositiveLength"]

PositiveLength = Annotated[Length, Field(gt=0)]
"""A length in a pair of lengths that must be more than nothing."""

_Pair = tuple[str, str]


class JointOptions(BaseModel):
    """What all joints have."""

    model_config = ConfigDict(extra="forbid", frozen=True, use_attribute_docstrings=True)

    between: Annotated[tuple[_Pair, ...], Field(min_length=1, max_length=200)]
    """Pairs of parts, the one that enters first: PART, PART.start, PART.end or PART.FACE."""
    note: str = ""
    """Anything the maker should know."""
