"""How soon the air becomes moisture and moisture becomes movement: cost against parts and hours."""

from __future__ import annotations

import numpy as np

from scantling.seasons.air import Air, year_between
from scantling.seasons.room import Room
from scantling.seasons.year import Built, WoodPart, part_years
from scantling.wood.diffusion import Slab, simulate
from scantling.wood.moisture import emc_pct, relative_humidity_for_emc
from scantling.wood.species import find_species
from timing import Timing, measure

__all__ = ["timings"]

HOURS_PER_YEAR = 8760
LIMITS_S = {(50, 1.0): 1.0}
"""What is promised: fifty parts through a year by the hour."""


def _simulate(parts: int, years: float) -> None:
    hours = int(HOURS_PER_YEAR * years)
    humidity = 0.40 + 0.15 * np.cos(2.0 * np.pi * np.arange(hours + 1) / HOURS_PER_YEAR)
    slabs = [Slab(thickness_mm=10.0 + part % 40) for part in range(parts)]
    simulate(slabs, temperature_c=np.full(hours + 1, 20.0), relative_humidity=humidity)


def _plan(parts: int) -> None:
    dry, damp = (Air(temperature_c=20.0, relative_humidity=h) for h in (0.25, 0.55))
    room = Room(name="house", year=year_between(dry, damp))
    cherry = find_species("cherry")
    woods = [
        WoodPart(name=str(part), species=cherry, width_mm=100.0, thickness_mm=15.0 + part)
        for part in range(parts)
    ]
    part_years(woods, room, built=Built(mc_pct=8.0))


def timings() -> list[Timing]:
    """Time the equation, its inverse, and diffusion over parts and hours."""
    humidity = np.linspace(0.0, 1.0, 1_000_000)
    moisture = emc_pct(20.0, humidity)
    made = [
        measure("moisture of 1 000 000 airs", lambda: emc_pct(20.0, humidity), limit_s=0.5),
        measure("air of 1 000 000 moistures", lambda: relative_humidity_for_emc(20.0, moisture), limit_s=0.5),
        measure("three years of a piece of 20 parts", lambda: _plan(20)),
    ]
    for parts, years in ((1, 1.0), (10, 1.0), (50, 1.0), (200, 1.0), (50, 0.5), (50, 2.0)):
        name = f"diffusion, {parts} parts, {int(HOURS_PER_YEAR * years)} hours"
        limit_s = LIMITS_S.get((parts, years))
        made.append(measure(name, lambda p=parts, y=years: _simulate(p, y), limit_s=limit_s))
    return made
