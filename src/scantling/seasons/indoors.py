"""From the air outdoors to the air of a heated room: the water in the air is followed, not the humidity."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.seasons import psychrometrics
from scantling.seasons.air import Air, AirYear

__all__ = ["House", "indoor_air", "indoor_year"]

COIL_DEW_POINT_C = 12.0
"""Dew point of air that has passed a cooling coil. [degC] Common practice: 11 to 13."""

MILD_K = 6.0
"""Windows begin to be opened so far below the temperature the heating keeps. [K] An assumption."""


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """What a house does to the air it takes in. The defaults are assumptions to be overridden.

    Parameters
    ----------
    heating_c
        Temperature the heating keeps; no month is colder. [degC]
    cooling_c
        Temperature the air conditioning keeps, ``None`` without one. [degC]
    gain_k
        How much warmer than outdoors the unheated house is, from sun and people. [K]
    volume_m3
        Volume of air. [m3]
    air_changes_per_h
        Fresh air, in volumes an hour. [1/h]
    window_air_changes_per_h
        Fresh air with the windows open, in months that need no heating and are not cooled. [1/h]
    moisture_kg_per_day
        Water given off by people, cooking and washing. [kg/day] About 2 to 3 a person (recalled).
    humidify_to
        Relative humidity a humidifier keeps at least, ``None`` without one. [1]
    dehumidify_to
        Relative humidity a dehumidifier keeps at most, ``None`` without one. [1]
    altitude_m
        Height above the sea, for the air's pressure. [m]
    """

    heating_c: float = 20.0
    cooling_c: float | None = None
    gain_k: float = 2.0
    volume_m3: float = 250.0
    air_changes_per_h: float = 0.5
    window_air_changes_per_h: float = 3.0
    moisture_kg_per_day: float = 8.0
    humidify_to: float | None = None
    dehumidify_to: float | None = None
    altitude_m: float = 0.0


def _air_changes_per_h(free_c: float, house: House, *, cooled: bool) -> float:
    """Fresh air: as built when heated or cooled; the milder the month, the more the windows stand open."""
    share = (free_c - house.heating_c) / MILD_K + 1.0
    opened = 0.0 if cooled else min(max(share, 0.0), 1.0)
    return house.air_changes_per_h + opened * (house.window_air_changes_per_h - house.air_changes_per_h)


def indoor_air(outdoors: Air, house: House) -> Air:
    r"""Air of a house in balance with its ventilation and its moisture gains.

    Parameters
    ----------
    outdoors
        Mean air of the month outdoors.
    house
        Heating, ventilation and the rest.

    Returns
    -------
    Air
        Mean air indoors.

    Notes
    -----
    The temperature is that outdoors plus the gain, but no less than the heating's and no more than the
    cooling's. Each kilogram of dry air brings its water in and takes the gains along:

    .. math:: W_{in} = W_{out} + \frac{G}{\rho\,n\,V}

    Where the cooling runs, the coil dries the air to its dew point. Water stored in walls and furniture
    evens out days, not months, and is left out.

    References
    ----------
    .. [1] ASHRAE, *Handbook - Fundamentals*, 2017, ch. 1 (psychrometrics, through PsychroLib).

    Examples
    --------
    >>> air = indoor_air(Air(temperature_c=0, relative_humidity=0.8), House())
    >>> round(air.temperature_c, 1), round(air.relative_humidity, 2)
    (20.0, 0.36)
    """
    pressure = psychrometrics.pressure_pa(house.altitude_m)
    free_c = outdoors.temperature_c + house.gain_k
    temperature = max(free_c, house.heating_c)
    cooled = house.cooling_c is not None and temperature > house.cooling_c
    if house.cooling_c is not None:
        temperature = min(temperature, house.cooling_c)
    ratio = psychrometrics.humidity_ratio(
        outdoors.temperature_c, outdoors.relative_humidity, pressure_pa=pressure
    )
    density = psychrometrics.dry_air_kg_m3(temperature, ratio, pressure_pa=pressure)
    fresh_kg_per_h = density * _air_changes_per_h(free_c, house, cooled=cooled) * house.volume_m3
    ratio += house.moisture_kg_per_day / 24.0 / fresh_kg_per_h
    if cooled:
        coil = psychrometrics.humidity_ratio_at_dew_point(COIL_DEW_POINT_C, pressure_pa=pressure)
        ratio = min(ratio, coil)
    humidity = psychrometrics.relative_humidity(temperature, ratio, pressure_pa=pressure)
    if house.humidify_to is not None:
        humidity = max(humidity, house.humidify_to)
    if house.dehumidify_to is not None:
        humidity = min(humidity, house.dehumidify_to)
    return Air(temperature_c=temperature, relative_humidity=humidity)


def indoor_year(outdoors: AirYear, house: House) -> AirYear:
    """The year indoors that belongs to a year outdoors."""
    return AirYear(months=tuple(indoor_air(air, house) for air in outdoors.months))
