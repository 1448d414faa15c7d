"""Base of the sections of a shop profile: immutable, and units left out of the file's keys."""

from __future__ import annotations

from typing import Annotated

from pydantic import AliasGenerator, ConfigDict, Field

from scantling.reading import AngleDeg, FileModel, LengthMm

__all__ = ["AllowanceMm", "PositiveMm", "ProfileSection", "SawAngleDeg", "ScaleDeg", "file_key"]

PositiveMm = Annotated[LengthMm, Field(gt=0)]
"""A length above nothing. [mm]"""
AllowanceMm = Annotated[LengthMm, Field(ge=0, le=150)]
"""Wood left on. [mm]"""
SawAngleDeg = Annotated[AngleDeg, Field(ge=0, lt=90)]
ScaleDeg = Annotated[AngleDeg, Field(gt=0, le=5)]
"""How far a saw turns or tilts. [deg]"""

_UNITS = ("_min", "_deg", "_pct", "_mm", "_kg", "_n", "_c")
"""Units of quantities that may be given as a text with its own unit."""


def file_key(name: str) -> str:
    """Key in the file of a field: its name without the unit, where the value may carry one.

    Examples
    --------
    >>> file_key("max_width_mm"), file_key("min_temperature_c"), file_key("recoat_h")
    ('max_width', 'min_temperature', 'recoat_h')
    """
    for unit in _UNITS:
        if name.endswith(unit):
            return name.removesuffix(unit)
    return name


class ProfileSection(FileModel):
    """One section of the profile. Its field names carry units; the keys of a file may leave them out."""

    model_config = ConfigDict(
        validate_by_name=True,
        validate_by_alias=True,
        serialize_by_alias=False,
        alias_generator=AliasGenerator(alias=file_key),
        use_attribute_docstrings=True,
    )
