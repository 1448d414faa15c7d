"""The place and the people: room to work in, its air, who can lift what, how exactly is worked."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from scantling.reading import MassKg, Percent, TemperatureC
from scantling.shop.profile.section import PositiveMm, ProfileSection, SawAngleDeg

__all__ = ["Accuracy", "Climate", "People", "Space"]


MonthName = Literal["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]
"""A month, by its first three letters."""


class Climate(ProfileSection):
    """The shop's air."""

    temperature_c: TemperatureC = Field(default=20.0, ge=-10, le=45)
    humidity_pct: Percent = Field(default=45.0, ge=15, le=95)
    """40 to 50 %, a PVA maker's guide. Between 15 and 95 % wood settles where furniture can be built."""
    driest_pct: Percent | None = Field(default=None, ge=1, le=100)
    wettest_pct: Percent | None = Field(default=None, ge=1, le=100)
    wood_pct: Percent | None = Field(default=None, ge=3, le=25)
    """Moisture measured in the wood the day it is milled to size; left out, what the shop's air holds."""
    milled_in: MonthName | None = None
    """Month of that day, jan to dec: where the year of the piece begins; left out, January, which is told."""


class People(ProfileSection):
    """Who works here."""

    count: int = Field(default=1, ge=1, le=100)
    max_lift_kg: MassKg = Field(default=23.0, gt=0, le=200)
    """Each person; 23 kg is the load constant of the revised lifting equation (NIOSH Pub. 94-110)."""
    hours_per_week: float = Field(default=40.0, gt=0, le=168)
    """Nothing is computed from it yet."""
    hours_per_day: float = Field(default=8.0, gt=0, le=24)


class Accuracy(ProfileSection):
    """How exactly work comes out."""

    saw_angle_deg: SawAngleDeg = 0.1
    """Common practice: repeats to 0.1 to 0.2 deg. Nothing is computed from it yet."""
    thickness_mm: PositiveMm = 0.1
    """Common practice: 0.05 to 0.1 in a set. Nothing is computed from it yet."""
    length_mm: PositiveMm = 0.3
    """Common practice, off a stop. Nothing is computed from it yet."""
    mark_mm: PositiveMm = 0.2
    """Common practice, with a knife. Nothing is computed from it yet."""


class Space(ProfileSection):
    """Room to work in."""

    door_width_mm: PositiveMm = 800.0
    """Common internal door, from memory. Nothing is computed from it yet."""
    door_height_mm: PositiveMm = 2000.0
    """From memory. Nothing is computed from it yet."""
    ceiling_mm: PositiveMm = 2400.0
    """From memory. Nothing is computed from it yet."""
    bench_length_mm: PositiveMm = 1800.0
    """Common practice. Nothing is computed from it yet."""
    bench_width_mm: PositiveMm = 900.0
    """Common practice, with an assembly table. Nothing is computed from it yet."""
    run_out_mm: PositiveMm = 2600.0
    """Free length before and behind the machines (common practice)."""
