"""Wood Handbook, FPL-GTR-190 (2010) and FPL-GTR-282 (2021), chapter 4: equilibrium moisture content.

Cells of Table 4-2 marked read were seen in a transcription of the 2021 edition; the rest were recalled and
agree with eq. 4-5, so they guard the equation over its whole range but prove nothing by themselves.
"""

from __future__ import annotations

import numpy as np
import pytest

from scantling.wood.moisture import (
    emc_hailwood_horrobin,
    emc_hailwood_horrobin_inch_pound,
    relative_humidity_for_emc,
)
from tests.published.tables import printed_rows
from tests.published.value import Published

BOOK = "Wood Handbook, FPL-GTR-282 (2021)"
GRID = printed_rows("wood_handbook", "emc_table.csv")
READ = [row for row in GRID if row["provenance"] == "read"]


def _name(row: dict[str, str]) -> str:
    return f"{row['temperature_f']}F-{row['relative_humidity_pct']}pct"


def _air(row: dict[str, str]) -> tuple[float, float]:
    return (float(row["temperature_f"]) - 32.0) / 1.8, float(row["relative_humidity_pct"]) / 100.0


@pytest.mark.parametrize("row", READ, ids=_name)
def test_cells_that_were_read_come_out_as_printed(row: dict[str, str]) -> None:
    """The metric equation gives the printed cell to a tenth, which is all the table prints."""
    why = "printed to 0.1; the table was made with unrounded coefficients"
    printed = Published(value=float(row["emc_pct"]), absolute=0.06, source=BOOK, where="Table 4-2", why=why)
    printed.check(emc_hailwood_horrobin(*_air(row)))


def test_ten_cells_were_read() -> None:
    """The check above has something to check."""
    assert len(READ) == 10


@pytest.mark.parametrize("row", GRID, ids=_name)
def test_every_cell_of_the_grid_is_met(row: dict[str, str]) -> None:
    """Both forms of the equation stay within 0.08 points of every cell, read or recalled."""
    cell = float(row["emc_pct"])
    celsius, humidity = _air(row)
    assert abs(emc_hailwood_horrobin_inch_pound(float(row["temperature_f"]), humidity) - cell) <= 0.08
    assert abs(emc_hailwood_horrobin(celsius, humidity) - cell) <= 0.08


def test_the_grid_is_met_by_arrays_as_by_numbers() -> None:
    """All cells at once give the same as one by one, bit for bit."""
    airs = [_air(row) for row in GRID]
    together = emc_hailwood_horrobin(np.array([t for t, _ in airs]), np.array([h for _, h in airs]))
    assert together.tolist() == [emc_hailwood_horrobin(t, h) for t, h in airs]


CHECKS = [
    # degC, humidity, moisture printed, tolerance, where it is printed
    (20.0, 0.50, 9.271141, 1e-4, "help page of a published package"),
    (20.0, 0.65, 12.00, 0.01, "printed check values"),
    (20.0, 0.75, 14.45, 0.01, "printed check values"),
    (20.0, 0.85, 18.00, 0.01, "printed check values"),
    (20.0, 0.95, 23.94, 0.01, "printed check values"),
    (5.0, 0.85, 18.47, 0.01, "printed check values"),
    (2.0, 0.83, 17.66, 0.01, "printed check values"),
    (26.4, 0.78, 15.07, 0.01, "printed for the metric form"),
    (70.0 / 1.8 - 32.0 / 1.8, 0.50, 9.24, 0.01, "printed beside the table's 9.2"),
    (70.0 / 1.8 - 32.0 / 1.8, 0.85, 17.95, 0.01, "printed beside the table's 17.9"),
]


@pytest.mark.parametrize(("celsius", "humidity", "value", "tolerance", "where"), CHECKS)
def test_printed_check_values_of_the_equation(
    celsius: float, humidity: float, value: float, tolerance: float, where: str
) -> None:
    """Values that others printed for the equation come out to their last digit."""
    source = "reproductions of Wood Handbook eq. 4-5"
    Published(value=value, absolute=tolerance, source=source, where=where, why="last digit printed").check(
        emc_hailwood_horrobin(celsius, humidity)
    )


def test_the_printed_example_of_hot_damp_air() -> None:
    """140 degF and 55 % give 8.4 % in the table."""
    printed = Published(
        value=8.4, absolute=0.05, source=BOOK, where="Table 4-2, 140 F, 55 %", why="printed to 0.1"
    )
    printed.check(emc_hailwood_horrobin_inch_pound(140.0, 0.55))


@pytest.mark.parametrize("row", READ, ids=_name)
def test_the_inverse_finds_the_humidity_of_a_printed_cell(row: dict[str, str]) -> None:
    """Turned round, a printed moisture gives the humidity of its column."""
    celsius, humidity = _air(row)
    why = "the cell is printed to 0.1, worth up to 1.5 % of the humidity"
    Published(value=humidity, rel=0.02, source=BOOK, where="Table 4-2", why=why).check(
        relative_humidity_for_emc(celsius, float(row["emc_pct"]))
    )
