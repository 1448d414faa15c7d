"""From outdoors to indoors: the water in the air is kept account of."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.seasons import psychrometrics
from scantling.seasons.air import Air
from scantling.seasons.indoors import COIL_DEW_POINT_C, House, indoor_air

SEALEVEL_PA = psychrometrics.pressure_pa(0.0)


def _ratio(air: Air) -> float:
    return psychrometrics.humidity_ratio(air.temperature_c, air.relative_humidity, pressure_pa=SEALEVEL_PA)


@given(celsius=st.floats(-25.0, 15.0), humidity=st.floats(0.2, 0.9))
def test_heating_alone_keeps_the_water(celsius: float, humidity: float) -> None:
    """With nobody at home, the heated air carries what it carried outdoors, and is drier for it."""
    outdoors = Air(temperature_c=celsius, relative_humidity=humidity)
    indoors = indoor_air(outdoors, House(moisture_kg_per_day=0.0))
    assert _ratio(indoors) == pytest.approx(_ratio(outdoors), rel=1e-6)
    assert indoors.relative_humidity < humidity


def test_people_add_their_water_to_the_fresh_air() -> None:
    """8 kg a day into 125 m3 of fresh air an hour: about 2.2 g on every kilogram (worked by hand)."""
    outdoors = Air(temperature_c=0.0, relative_humidity=0.8)
    gained = _ratio(indoor_air(outdoors, House())) - _ratio(outdoors)
    assert gained == pytest.approx(8.0 / 24.0 / (125.0 * 1.2), rel=0.01)


def test_a_frosty_week_dries_a_house_and_a_humidifier_holds_it() -> None:
    """At -15 degC outdoors under a quarter indoors; a humidifier set to 40 % holds 40."""
    frost = Air(temperature_c=-15.0, relative_humidity=0.8)
    assert indoor_air(frost, House()).relative_humidity < 0.25
    assert indoor_air(frost, House(humidify_to=0.40)).relative_humidity == 0.40


def test_air_conditioning_dries_to_its_coil() -> None:
    """A sultry month behind a cooling coil carries no more than air saturated at the coil's dew point."""
    sultry = Air(temperature_c=30.0, relative_humidity=0.75)
    cooled = indoor_air(sultry, House(cooling_c=24.0))
    assert cooled.temperature_c == 24.0
    coil = psychrometrics.humidity_ratio_at_dew_point(COIL_DEW_POINT_C, pressure_pa=SEALEVEL_PA)
    assert _ratio(cooled) == pytest.approx(coil, rel=1e-6)
    assert indoor_air(sultry, House()).relative_humidity > 0.6


def test_a_dehumidifier_holds_its_mark() -> None:
    """A damp summer without cooling."""
    damp = Air(temperature_c=22.0, relative_humidity=0.8)
    assert indoor_air(damp, House(dehumidify_to=0.55)).relative_humidity == 0.55


def test_air_never_holds_more_than_it_can() -> None:
    """A crowd in a closed cold store ends at 100 %, not beyond."""
    crowd = House(heating_c=2.0, moisture_kg_per_day=60.0, air_changes_per_h=0.05, volume_m3=100.0)
    assert indoor_air(Air(temperature_c=-2.0, relative_humidity=0.9), crowd).relative_humidity == 1.0


def test_fresh_air_dries_in_winter() -> None:
    """Twice the fresh air, half the gain."""
    outdoors = Air(temperature_c=0.0, relative_humidity=0.8)
    house = House()
    draughty = replace(house, air_changes_per_h=2 * house.air_changes_per_h)
    gain, less = (_ratio(indoor_air(outdoors, h)) - _ratio(outdoors) for h in (house, draughty))
    assert less == pytest.approx(gain / 2, rel=1e-3)


def test_windows_open_as_the_months_grow_mild() -> None:
    """A month that needs no heating has the fresh air of open windows, so people's water hardly counts."""
    house = House()
    gains = [
        _ratio(indoor_air(air, house)) - _ratio(air)
        for air in (Air(temperature_c=c, relative_humidity=0.6) for c in (5.0, 14.0, 16.0, 22.0))
    ]
    assert gains == sorted(gains, reverse=True)
    assert gains[0] / gains[-1] == pytest.approx(6.0, rel=0.05)


def test_ashrae_air_at_twenty_degrees() -> None:
    """At 20 degC and 50 % a kilogram of dry air carries 7.26 g (ASHRAE Fundamentals, through PsychroLib)."""
    assert _ratio(Air(temperature_c=20.0, relative_humidity=0.5)) == pytest.approx(0.00726, abs=5e-6)
