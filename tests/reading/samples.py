"""A small file model with most kinds of field, a file that fits it, and a way to get at its faults."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Literal

from pydantic import Field

from scantling.errors import Fault, FileFaults
from scantling.reading import AngleDeg, FileModel, LengthMm, Percent

GOOD = """\
units: in
name: hall bench
parts:
  leg:
    kind: stick
    section: [1 1/2, 38 mm]
    length: 2' 4-1/2"
    rake: 7 deg
  seat:
    kind: panel
    width: 13
    strips: 3
moisture: 8.5
"""


class Stick(FileModel):
    """A stick."""

    kind: Literal["stick"]
    section: tuple[LengthMm, LengthMm]
    length: Annotated[LengthMm, Field(gt=0, le=5000)]
    rake: AngleDeg = 0.0
    grain: Literal["x", "y", "z"] = "x"
    from_: LengthMm | Literal["auto"] = Field("auto", alias="from")


class Panel(FileModel):
    """A panel."""

    kind: Literal["panel"]
    width: LengthMm = Field(gt=0)
    strips: int = Field(3, ge=1)


class Piece(FileModel):
    """A piece of parts."""

    units: Literal["mm", "cm", "in"] = "mm"
    name: str = Field(max_length=40)
    parts: dict[str, Annotated[Stick | Panel, Field(discriminator="kind")]] = Field(min_length=1)
    moisture: Percent = Field(8.0, ge=0, le=30)
    joints: tuple[str, ...] = ()
    shown: bool = True


def faults_of(call: Callable[[], object]) -> tuple[Fault, ...]:
    """The faults a call raises; none when it succeeds."""
    try:
        call()
    except FileFaults as error:
        return error.faults
    return ()


def said(fault: Fault) -> tuple[str, int, int, str, str]:
    """Code, line, column, field and value of a fault."""
    return (fault.code, fault.line, fault.column, fault.field, fault.value)
