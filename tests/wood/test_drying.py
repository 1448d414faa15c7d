"""How long boards dry: against the published series, against air that never dries them, and by thickness."""

from __future__ import annotations

import math

import pytest

from scantling.errors import InputError
from scantling.wood.diffusion import Slab
from scantling.wood.drying import drying_days
from scantling.wood.moisture import emc_pct, relative_humidity_for_emc

NO_FILM = 1e-9
"""A face that is at once as dry as the air. [s/mm]"""


def at_six_pct() -> float:
    """Air at 20 C in which wood settles at 6 %. [%]"""
    return 100.0 * relative_humidity_for_emc(20.0, 6.0)


@pytest.mark.parametrize(
    ("share", "dimensionless"), [(0.22568, 0.01), (0.31915, 0.02), (0.50004, 0.04919), (0.8874, 0.2)]
)
def test_a_slab_dries_by_the_published_series(share: float, dimensionless: float) -> None:
    """J. Crank, The Mathematics of Diffusion, plane sheet: share of the way at D t / l^2, l 25 mm, D 3e-5.

    Half of it takes 11.86 days.
    """
    board = Slab(thickness_mm=25.0, diffusivity_mm2_s=3e-5, film_s_mm=NO_FILM, mc_pct=12.0)
    [days] = drying_days(
        [board], target_mc_pct=12.0 - 6.0 * share, temperature_c=20.0, humidity_pct=at_six_pct()
    )
    assert days == pytest.approx(dimensionless * 25.0**2 / 3e-5 / 86_400.0, rel=0.01)


def test_twice_as_thick_takes_four_times_as_long() -> None:
    """Time goes by the square of the thickness where the air film does not hold it up."""
    boards = [
        Slab(thickness_mm=size, basic_specific_gravity=0.6, mc_pct=12.0, film_s_mm=NO_FILM)
        for size in (27, 54)
    ]
    short, long = drying_days(boards, target_mc_pct=9.0, temperature_c=20.0, humidity_pct=40.0)
    assert long / short == pytest.approx(4.0, rel=0.01)


def test_air_that_holds_wood_wetter_never_dries_it() -> None:
    """At 65 % wood settles at 12 %: 9 is never reached, 13 is; and what is dry already waits for nothing."""
    assert emc_pct(20.0, 0.65) > 11.9
    wet, dry = Slab(thickness_mm=27.0, mc_pct=12.5), Slab(thickness_mm=27.0, mc_pct=9.0)
    assert drying_days([wet, dry], target_mc_pct=9.0, temperature_c=20.0, humidity_pct=65.0) == (
        math.inf,
        0.0,
    )
    assert drying_days([dry], target_mc_pct=9.0, temperature_c=20.0, humidity_pct=40.0) == (0.0,)
    assert drying_days([], target_mc_pct=9.0, temperature_c=20.0, humidity_pct=40.0) == ()


def test_a_board_dries_as_long_alone_as_among_thicker_ones() -> None:
    """A thick one that takes longer than the first month looked at leaves the thin one as it is."""
    thin, thick = (Slab(thickness_mm=size, basic_specific_gravity=0.6, mc_pct=12.0) for size in (25.4, 76.2))
    air = {"target_mc_pct": 9.7, "temperature_c": 20.0, "humidity_pct": 40.0}
    together = drying_days([thick, thin], **air)
    assert together == pytest.approx((*drying_days([thick], **air), *drying_days([thin], **air)))
    assert together[0] > 128.0 > 32.0 > together[1]


def test_air_there_is_not_is_refused() -> None:
    """More than all the water air can hold."""
    with pytest.raises(InputError):
        drying_days([Slab(thickness_mm=27.0)], target_mc_pct=6.0, temperature_c=20.0, humidity_pct=140.0)
