"""Moisture of wood in air: the model behaves as sorption does, both ways round, and refuses rubbish."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.wood.moisture import MoistureRange, emc_pct, relative_humidity_for_emc

ROOM_C = st.floats(-5.0, 45.0)
HUMIDITY = st.floats(0.0, 1.0)


@given(celsius=ROOM_C, humidity=HUMIDITY)
def test_the_inverse_leads_back(celsius: float, humidity: float) -> None:
    """Humidity to moisture and back."""
    assert relative_humidity_for_emc(celsius, emc_pct(celsius, humidity)) == pytest.approx(humidity, abs=1e-9)


@given(celsius=ROOM_C, low=HUMIDITY, high=HUMIDITY)
def test_damper_air_never_dries_wood(celsius: float, low: float, high: float) -> None:
    """Moisture grows with humidity."""
    low, high = sorted((low, high))
    assert emc_pct(celsius, low) <= emc_pct(celsius, high) + 1e-12


def test_dry_air_dries_wood_bone_dry() -> None:
    """No humidity, no moisture."""
    assert emc_pct(20.0, 0.0) == 0.0


def test_arrays_and_numbers_agree() -> None:
    """An array gives what its members give, and the inverse too."""
    humidity = np.linspace(0.0, 1.0, 11)
    celsius = np.full(11, 21.5)
    moisture = emc_pct(celsius, humidity)
    assert moisture.tolist() == [emc_pct(21.5, float(h)) for h in humidity]
    back = relative_humidity_for_emc(celsius, moisture)
    assert back == pytest.approx(humidity, abs=1e-9)


@pytest.mark.parametrize("humidity", [1.5, 45.0, -0.1, math.nan])
def test_impossible_humidity_is_refused(humidity: float) -> None:
    """150 %, 45 written for 0.45, a negative and no number, alone and in an array."""
    for given_humidity in (humidity, np.array([0.5, humidity])):
        with pytest.raises(InputError, match=r"relative_humidity: must lie in 0\.\.1, got") as caught:
            emc_pct(20.0, given_humidity)
        assert caught.value.code == "humidity_out_of_range"


@pytest.mark.parametrize("celsius", [-80.0, 450.0, math.inf])
def test_impossible_temperature_is_refused(celsius: float) -> None:
    """Temperatures no table reaches."""
    with pytest.raises(InputError, match="temperature_c: must lie in") as caught:
        emc_pct(celsius, 0.5)
    assert caught.value.code == "temperature_out_of_range"


@pytest.mark.parametrize("moisture", [-1.0, 60.0, math.nan])
def test_moisture_no_air_gives_is_refused(moisture: float) -> None:
    """Green wood has no humidity of its own."""
    for given_moisture in (moisture, np.array([8.0, moisture])):
        with pytest.raises(InputError) as caught:
            relative_humidity_for_emc(20.0, given_moisture)
        assert caught.value.code == "mc_out_of_range"


def test_a_range_that_never_dries_below_its_build_shrinks_nothing() -> None:
    """Shrinking and swelling are counted from the build and are never negative."""
    moisture = MoistureRange(build_pct=5.0, dry_pct=6.0, wet_pct=10.0)
    assert (moisture.shrink_pct, moisture.swell_pct, moisture.swing_pct) == (0.0, 5.0, 4.0)
