"""Air and its year: impossible air is refused, and a swing has exactly the ends it was given."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.seasons.air import Air, AirYear, Month, year_between
from scantling.seasons.weather import DAYS_PER_YEAR, mid_month_day, weather_series


@pytest.mark.parametrize(
    ("celsius", "said"),
    [
        (68.0, "If it is in Fahrenheit write 68 F, which is 20.0 C."),
        (-60.0, "must lie in -40..60 C, got -60 C"),
    ],
)
def test_a_temperature_in_the_wrong_unit_is_told(celsius: float, said: str) -> None:
    """A Fahrenheit figure is recognised for what it is."""
    with pytest.raises(InputError) as caught:
        Air(temperature_c=celsius, relative_humidity=0.5)
    assert caught.value.code == "temperature_out_of_range"
    assert said in str(caught.value)


@pytest.mark.parametrize("humidity", [1.5, -0.01, float("nan")])
def test_humidity_beyond_air_is_refused(humidity: float) -> None:
    """150 %, less than none and no number."""
    with pytest.raises(InputError, match=r"humidity: must lie in 0\.\.100 %, got") as caught:
        Air(temperature_c=20.0, relative_humidity=humidity)
    assert caught.value.code == "humidity_out_of_range"


@given(winter=st.floats(0.15, 0.8), summer=st.floats(0.15, 0.8), month=st.sampled_from(list(Month)))
def test_a_swing_has_the_ends_it_was_given(winter: float, summer: float, month: Month) -> None:
    """No month is drier or damper for wood than the two extremes, and both are reached."""
    first = Air(temperature_c=19.0, relative_humidity=winter)
    last = Air(temperature_c=23.0, relative_humidity=summer)
    year = year_between(first, last, winter_month=month)
    low, high = sorted((first.emc_pct, last.emc_pct))
    assert min(year.emc_pct) == pytest.approx(low, abs=1e-6)
    assert max(year.emc_pct) == pytest.approx(high, abs=1e-6)
    assert year.air_in(month).relative_humidity == pytest.approx(winter, abs=1e-6)


def test_eleven_months_are_no_year() -> None:
    """A year has twelve."""
    air = Air(temperature_c=20.0, relative_humidity=0.5)
    with pytest.raises(InputError, match="must hold twelve months, got 11") as caught:
        AirYear(months=(air,) * 11)
    assert caught.value.code == "months_missing"


def test_the_weather_passes_through_the_middle_of_every_month() -> None:
    """Hour by hour, the mean of a month stands at its middle, and the year closes on itself."""
    year = year_between(
        Air(temperature_c=18.0, relative_humidity=0.3), Air(temperature_c=24.0, relative_humidity=0.6)
    )
    temperature, humidity = weather_series(year, first_day=0.0, days=DAYS_PER_YEAR)
    assert temperature.size == DAYS_PER_YEAR * 24 + 1
    assert temperature[0] == pytest.approx(temperature[-1])
    for month in Month:
        at = int(mid_month_day(month.number) * 24)
        assert temperature[at] == pytest.approx(year.air_in(month).temperature_c)
        assert humidity[at] == pytest.approx(year.air_in(month).relative_humidity)
