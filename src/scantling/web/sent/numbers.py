"""Numbers of what is kept, and times, as they come in bodies and addresses: none larger than can be kept."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated

from fastapi import Path
from pydantic import AfterValidator, AwareDatetime, Field
from starlette.convertors import IntegerConvertor, register_url_convertor

__all__ = ["Number", "PieceNumber", "ProfileNumber", "Step", "VersionNumber", "When"]

_GREATEST = 2**31 - 1
_YEARS = range(1900, 2200)


def _in_utc(at: datetime) -> datetime:
    if at.year not in _YEARS:
        raise ValueError(f"must lie in the years {_YEARS[0]} to {_YEARS[-1]}")
    return at.astimezone(UTC)


class _Counted(IntegerConvertor):
    """A number in an address; one of thousands of figures, which is not even read, is none."""

    regex = "[0-9]{1,100}"


register_url_convertor("number", _Counted())

Number = Annotated[int, Field(ge=1, le=_GREATEST)]
"""Of a piece, a version, a board, an event: of anything that is kept."""
Step = Annotated[int, Field(ge=0, le=_GREATEST)]
"""Of one step of many, none of them taken included."""
When = Annotated[AwareDatetime, AfterValidator(_in_utc)]
"""When something happened; in UTC, however it was told."""
PieceNumber = Annotated[int, Path(ge=1, le=_GREATEST, description="Number of the piece.")]
VersionNumber = Annotated[int, Path(ge=1, le=_GREATEST, description="Number of the version.")]
ProfileNumber = Annotated[int, Path(ge=1, le=_GREATEST, description="Number it is kept under.")]
