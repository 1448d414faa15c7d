"""Glues by chemistry: how long there is, how long in clamps, how much, how hard to press."""

from __future__ import annotations

from enum import StrEnum
from functools import cache

from pydantic import Field

from scantling.reading import Minutes, TemperatureC
from scantling.shop.profile.section import ProfileSection
from scantling.shop.profile.tables import table

__all__ = ["Glue", "GlueKind", "shipped_glues"]


class GlueKind(StrEnum):
    """Chemistry of a glue."""

    PVA = "pva"
    HIDE = "hide"
    POLYURETHANE = "polyurethane"
    EPOXY = "epoxy"
    UREA_FORMALDEHYDE = "urea-formaldehyde"

    @property
    def wants_pressure(self) -> bool:
        """Whether the bond needs the full clamp pressure; epoxy wants only contact (common practice)."""
        return self is not GlueKind.EPOXY


class Glue(ProfileSection):
    """One glue; its own data sheet goes before these figures."""

    name: str
    kind: GlueKind
    open_min: Minutes = Field(gt=0)
    """From spreading to closing the joint, at 20 C. Nothing is computed from it yet."""
    working_min: Minutes = Field(gt=0)
    """From spreading to full pressure, at 20 C."""
    clamp_min: Minutes = Field(ge=0)
    """In clamps, an unstressed joint."""
    cure_min: Minutes = Field(ge=0)
    """Before it is machined or loaded."""
    min_temperature_c: TemperatureC = Field(ge=-20, le=60)
    spread_g_m2: float = Field(gt=0)
    water_resistance: str = ""
    """Nothing is computed from it yet."""
    source: str = ""

    def working_at(self, temperature_c: float) -> float:
        """Working time at a shop temperature. [min]

        Shorter by 45 % for each 10 degC above 20 (40 to 50 %, from memory), and not made longer below it:
        the cold side is no promise.
        """
        return float(self.working_min * 0.55 ** max(0.0, (temperature_c - 20.0) / 10.0))


@cache
def shipped_glues() -> tuple[Glue, ...]:
    """Every glue shipped."""
    return tuple(Glue.model_validate(row) for row in table("glues"))
