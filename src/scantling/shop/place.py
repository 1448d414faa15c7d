"""The place and the people: room to work in, its air, who can lift what, how exactly is worked."""

from __future__ import annotations

from pydantic import Field

from scantling.reading import AngleDeg, LengthMm, MassKg, Percent, TemperatureC
from scantling.shop.section import ProfileSection

__all__ = ["Accuracy", "Climate", "People", "Space"]


class Climate(ProfileSection):
    """The shop's air."""

    temperature_c: TemperatureC = 20.0
    humidity_pct: Percent = Field(default=45.0, gt=0, lt=100)  # 40 to 50 %, a PVA maker's guide
    driest_pct: Percent | None = Field(default=None, gt=0, lt=100)
    wettest_pct: Percent | None = Field(default=None, gt=0, lt=100)


class People(ProfileSection):
    """Who works here."""

    count: int = Field(default=1, ge=1)
    max_lift_kg: MassKg = 23.0
    """Each person; 23 kg is the load constant of the revised lifting equation (NIOSH Pub. 94-110)."""
    hours_per_week: float = Field(default=40.0, gt=0)
    hours_per_day: float = Field(default=8.0, gt=0, le=24)


class Accuracy(ProfileSection):
    """How exactly work comes out."""

    saw_angle_deg: AngleDeg = 0.1  # common practice: repeats to 0.1 to 0.2 deg
    thickness_mm: LengthMm = 0.1  # common practice: 0.05 to 0.1 in a set
    length_mm: LengthMm = 0.3  # common practice, off a stop
    mark_mm: LengthMm = 0.2  # common practice, with a knife


class Space(ProfileSection):
    """Room to work in."""

    door_width_mm: LengthMm = 800.0  # common internal door, from memory
    door_height_mm: LengthMm = 2000.0  # from memory
    ceiling_mm: LengthMm = 2400.0  # from memory
    bench_length_mm: LengthMm = 1800.0  # common practice
    bench_width_mm: LengthMm = 900.0  # common practice, with an assembly table
    run_out_mm: LengthMm = 2600.0
    """Free length before and behind the machines (common practice)."""
