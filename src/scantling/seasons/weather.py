"""From twelve monthly means to air by the hour, as a smooth year that can be repeated."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scantling.seasons.air import AirYear

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["DAYS_PER_YEAR", "mid_month_day", "weather_series"]

DAYS_PER_YEAR = 365
_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def mid_month_day(month_number: int) -> float:
    """Day of the year at the middle of a month, January being 0. [days]

    Examples
    --------
    >>> mid_month_day(0), mid_month_day(11)
    (15.5, 349.5)
    """
    return sum(_LENGTHS[:month_number]) + 0.5 * _LENGTHS[month_number]


def weather_series(
    year: AirYear, *, first_day: float, days: int, steps_per_day: int = 24
) -> tuple[Array, Array]:
    """Temperature and relative humidity at every step of a stretch of days.

    Straight between the middles of the months, the year going round; days and nights and single spells
    of weather are left out, as they reach a few millimeters into the wood only.

    Parameters
    ----------
    year
        Monthly means.
    first_day
        Day of the year to begin with. [days]
    days
        Length of the stretch. [days]
    steps_per_day
        Steps a day. [1]

    Returns
    -------
    tuple of arrays
        Temperature and relative humidity. [degC], [1] shape (days * steps_per_day + 1,)
    """
    import numpy as np

    at = first_day + np.arange(days * steps_per_day + 1) / steps_per_day
    middles = [mid_month_day(number) for number in range(12)]
    temperature = np.interp(at, middles, year.temperature_c, period=DAYS_PER_YEAR)
    humidity = np.interp(at, middles, year.relative_humidity, period=DAYS_PER_YEAR)
    return temperature, humidity
