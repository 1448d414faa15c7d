"""How soon the air becomes moisture and moisture becomes movement: cost against parts and hours.

Run by itself (``python benchmarks/seasons.py``) it prints the cost of diffusion by parts and hours,
and the powers it follows: 1 is linear, so that twice the parts or hours cost twice and not more.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from scantling.seasons.air import Air, year_between
from scantling.seasons.room import Room
from scantling.seasons.year import Built, WoodPart, part_years
from scantling.wood.diffusion import Slab, simulate
from scantling.wood.moisture import emc_pct, relative_humidity_for_emc
from scantling.wood.species import find_species
from timing import Timing, measure

__all__ = ["cost_table", "fitted_powers", "main", "timings"]

HOURS_PER_YEAR = 8760
LIMITS_S = {(50, 1.0): 1.0}
"""What is promised: fifty parts through a year by the hour."""
TABLE_PARTS = (25, 50, 100, 200)
TABLE_YEARS = (0.5, 1.0, 2.0)


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


def fitted_powers(costs_s: Mapping[tuple[int, int], float]) -> tuple[float, float]:
    """Powers of parts and of hours that costs follow, by least squares on the logarithms. [1] 1 is linear.

    Parameters
    ----------
    costs_s
        Seconds by (parts, hours).

    Examples
    --------
    >>> made = {(parts, hours): 2e-6 * parts * hours**2 for parts in (1, 10) for hours in (100, 200)}
    >>> [round(power, 6) for power in fitted_powers(made)]
    [1.0, 2.0]
    """
    sizes = np.log([[parts, hours] for parts, hours in costs_s])
    table = np.column_stack([np.ones(len(sizes)), sizes])
    answer, *_ = np.linalg.lstsq(table, np.log(list(costs_s.values())), rcond=None)
    return float(answer[1]), float(answer[2])


def cost_table(*, runs: int = 3) -> dict[tuple[int, int], float]:
    """Least seconds of a few runs, by parts and hours."""
    costs = {}
    for parts in TABLE_PARTS:
        for years in TABLE_YEARS:
            hours = int(HOURS_PER_YEAR * years)
            timed = measure("", lambda p=parts, y=years: _simulate(p, y), runs=runs)
            costs[parts, hours] = timed.least_s
    return costs


def main() -> None:
    """Print the table and the fit."""
    costs = cost_table()
    hours = sorted({hour for _, hour in costs})
    print(f"{'s':<10}" + "".join(f"{hour:>9} h" for hour in hours) + f"{'us a part and hour':>22}")
    for parts in TABLE_PARTS:
        row = [costs[parts, hour] for hour in hours]
        each = 1e6 * row[-1] / (parts * hours[-1])
        print(f"{parts:>4} parts" + "".join(f"{s:>11.3f}" for s in row) + f"{each:>22.2f}")
    of_parts, of_hours = fitted_powers(costs)
    print(f"cost goes as parts^{of_parts:.2f} x hours^{of_hours:.2f}; 1 is linear")


if __name__ == "__main__":
    main()
