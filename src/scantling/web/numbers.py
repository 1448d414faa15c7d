"""Numbers of what is kept, as they come in bodies and addresses; none is larger than a database counts."""

from __future__ import annotations

from typing import Annotated

from fastapi import Path
from pydantic import Field

__all__ = ["Number", "PieceNumber", "ProfileNumber", "Step", "VersionNumber"]

_GREATEST = 2**31 - 1

Number = Annotated[int, Field(ge=1, le=_GREATEST)]
"""Of a piece, a version, a board, an event: of anything that is kept."""
Step = Annotated[int, Field(ge=0, le=_GREATEST)]
"""Of one step of many, none of them taken included."""
PieceNumber = Annotated[int, Path(ge=1, le=_GREATEST, description="Number of the piece.")]
VersionNumber = Annotated[int, Path(ge=1, le=_GREATEST, description="Number of the version.")]
ProfileNumber = Annotated[int, Path(ge=1, le=_GREATEST, description="Number it is kept under.")]
