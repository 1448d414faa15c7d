"""J. Crank, The Mathematics of Diffusion, 2nd ed., Oxford, 1975: moisture entering a plane sheet.

The series is the book's (recalled); its values are computed from it. The solver of the product must meet
them within half a percent.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from scantling.wood.diffusion import Slab, simulate
from scantling.wood.diffusion_series import uptake_crank, uptake_crank_film
from scantling.wood.moisture import emc_pct
from scantling.wood.surface import surface_coefficient_mm_s
from tests.published.value import Published

BOOK = "Crank, The Mathematics of Diffusion (1975), plane sheet"
SERIES = [
    # D t / l^2 and share of the final change
    (0.001, 0.07136),
    (0.005, 0.15958),
    (0.01, 0.22568),
    (0.02, 0.31915),
    (0.04919, 0.50004),
    (0.05, 0.50409),
    (0.10, 0.69788),
    (0.20, 0.88740),
    (0.30, 0.95803),
]
DIFFUSIVITY_MM2_S = 3e-5
BARE_FILM_S_MM = 1e-5
"""So thin a film that the face is at once in balance with the air, as the series has it."""


def _share(
    fourier: float, *, thickness_mm: float, sealed_back: bool = False, film: float = BARE_FILM_S_MM
) -> float:
    """Share of the final change the solver has made at a time, from a step of the air."""
    steps = 200
    slab = Slab(
        thickness_mm=thickness_mm,
        mc_pct=5.0,
        film_s_mm=film,
        finish_back_s_mm=math.inf if sealed_back else 0.0,
        diffusivity_mm2_s=DIFFUSIVITY_MM2_S,
    )
    past = simulate(
        [slab],
        temperature_c=np.full(steps + 1, 20.0),
        relative_humidity=np.full(steps + 1, 0.60),
        step_s=fourier * thickness_mm**2 / DIFFUSIVITY_MM2_S / steps,
        record_every=steps,
    )
    return float((past.mean_pct[-1, 0] - 5.0) / (emc_pct(20.0, 0.60) - 5.0))


@pytest.mark.parametrize(("fourier", "share"), SERIES)
def test_the_series_sums_to_its_table(fourier: float, share: float) -> None:
    """Our sum of the series gives the table to its last digit."""
    Published(value=share, absolute=1e-5, source=BOOK, where="series", why="last digit").check(
        uptake_crank(fourier)
    )


@pytest.mark.parametrize(("fourier", "share"), SERIES)
@pytest.mark.parametrize("thickness_mm", [6.0, 25.0, 70.0])
def test_the_solver_meets_the_series(fourier: float, share: float, thickness_mm: float) -> None:
    """Whatever the thickness, within half a percent of the series from the first hours on."""
    Published(value=share, rel=0.005, source=BOOK, where="series", why="the aim we set ourselves").check(
        _share(fourier, thickness_mm=thickness_mm)
    )


@pytest.mark.parametrize(("fourier", "share"), SERIES)
def test_a_sheet_open_on_one_face_is_half_a_sheet_of_twice_the_thickness(
    fourier: float, share: float
) -> None:
    """With the back sealed, the series holds with twice the thickness, so a quarter of its time."""
    Published(value=share, rel=0.005, source=BOOK, where="series", why="the aim we set ourselves").check(
        _share(4.0 * fourier, thickness_mm=25.0, sealed_back=True)
    )


@pytest.mark.parametrize("fourier", [0.001, 0.002, 0.01, 0.05])
def test_the_short_time_law(fourier: float) -> None:
    """At first the share grows as 4 sqrt(D t / pi l^2), good to a third of a percent up to half way."""
    law = 4.0 / math.sqrt(math.pi) * math.sqrt(fourier)
    Published(value=law, rel=0.0035, source=BOOK, where="short times", why="the law's own error").check(
        _share(fourier, thickness_mm=25.0)
    )


@pytest.mark.parametrize("fourier", [0.01, 0.05, 0.2, 0.8])
@pytest.mark.parametrize("film_s_mm", [4.0, 40.0, 400.0])
def test_a_resistance_at_the_faces(fourier: float, film_s_mm: float) -> None:
    """Crank's second series, for a sheet with a resistance at both faces, is met as well."""
    thickness = 25.0
    slope = (emc_pct(20.0, 0.62) - emc_pct(20.0, 0.58)) / 0.04
    gravity = 0.5 / (1.0 - 0.265 * (20.0 / 30.0) * 0.5)
    surface = surface_coefficient_mm_s(
        dry_density_kg_mm3=np.array([gravity * 1e-6]),
        temperature_c=20.0,
        slope_pct=slope,
        resistance_s_mm=np.array([film_s_mm]),
    )
    biot = float(surface[0]) * thickness / 2.0 / DIFFUSIVITY_MM2_S
    expected = uptake_crank_film(fourier, biot=biot)
    Published(value=expected, rel=0.005, source=BOOK, where="eq. 4.53", why="the aim we set ourselves").check(
        _share(fourier, thickness_mm=thickness, film=film_s_mm)
    )


def test_the_half_time_of_an_inch_board() -> None:
    """25 mm with 3e-11 m2/s is half way after 11.86 days (worked by hand from D t / l^2 = 0.04919)."""
    days = 0.04919 * 25.0**2 / DIFFUSIVITY_MM2_S / 86_400.0
    Published(value=11.86, rel=0.001, source=BOOK, where="half time", why="printed to 0.01 d").check(days)
    assert _share(days * 86_400.0 * DIFFUSIVITY_MM2_S / 625.0, thickness_mm=25.0) == pytest.approx(
        0.5, abs=0.001
    )
