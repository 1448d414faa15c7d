"""The air of a place, month by month."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from scantling.errors import InputError
from scantling.wood.moisture import emc_pct, relative_humidity_for_emc

__all__ = ["Air", "AirYear", "Month", "year_between"]


class Month(StrEnum):
    """A month of the year, by the three letters a room file uses."""

    JAN = "jan"
    FEB = "feb"
    MAR = "mar"
    APR = "apr"
    MAY = "may"
    JUN = "jun"
    JUL = "jul"
    AUG = "aug"
    SEP = "sep"
    OCT = "oct"
    NOV = "nov"
    DEC = "dec"

    @property
    def number(self) -> int:
        """0 for January. [1]"""
        return list(Month).index(self)

    @property
    def full_name(self) -> str:
        """The month's name in full."""
        return _NAMES[self.number]


_NAMES = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """Temperature and relative humidity of air.

    Parameters
    ----------
    temperature_c
        Dry-bulb temperature. [degC] -40..60.
    relative_humidity
        Relative humidity. [1] 0..1.

    Raises
    ------
    InputError
        ``temperature_out_of_range``, ``humidity_out_of_range``.
    """

    temperature_c: float
    relative_humidity: float

    def __post_init__(self) -> None:
        if not -40.0 <= self.temperature_c <= 60.0:
            as_c = (self.temperature_c - 32.0) / 1.8
            raise InputError(
                code="temperature_out_of_range",
                field="temperature",
                value=f"{self.temperature_c:g} C",
                rule="must lie in -40..60 C",
                remedy=f"If it is in Fahrenheit write {self.temperature_c:g} F, which is {as_c:.1f} C."
                if 60.0 < self.temperature_c <= 130.0
                else "",
            )
        if not 0.0 <= self.relative_humidity <= 1.0:
            raise InputError(
                code="humidity_out_of_range",
                field="humidity",
                value=f"{self.relative_humidity * 100:g} %",
                rule="must lie in 0..100 %",
                remedy="Air holds at most 100 %.",
            )

    @property
    def emc_pct(self) -> float:
        """Moisture content that wood settles at in this air. [%]"""
        return emc_pct(self.temperature_c, self.relative_humidity)


@dataclass(frozen=True, slots=True, kw_only=True)
class AirYear:
    """The mean air of each month, January first.

    Parameters
    ----------
    months
        Twelve airs.

    Raises
    ------
    InputError
        ``months_missing``.
    """

    months: tuple[Air, ...]

    def __post_init__(self) -> None:
        if len(self.months) != 12:
            raise InputError(
                code="months_missing",
                field="months",
                value=len(self.months),
                rule="must hold twelve months",
                remedy="Give every month from jan to dec.",
            )

    @property
    def temperature_c(self) -> tuple[float, ...]:
        """Temperatures, January first. [degC]"""
        return tuple(air.temperature_c for air in self.months)

    @property
    def relative_humidity(self) -> tuple[float, ...]:
        """Relative humidities, January first. [1]"""
        return tuple(air.relative_humidity for air in self.months)

    @property
    def emc_pct(self) -> tuple[float, ...]:
        """Moisture contents wood settles at, January first. [%]"""
        return tuple(air.emc_pct for air in self.months)

    def air_in(self, month: Month) -> Air:
        """The air of one month."""
        return self.months[month.number]

    def extreme(self, *, wettest: bool) -> Month:
        """Month in which wood is driest, or wettest."""
        values = self.emc_pct
        return list(Month)[values.index(max(values) if wettest else min(values))]


def _wave(first: float, last: float, *, at: Sequence[float]) -> list[float]:
    """From ``first`` at 0 to ``last`` at 0.5 and back at 1, as a cosine."""
    return [0.5 * (first + last) + 0.5 * (first - last) * math.cos(2.0 * math.pi * x) for x in at]


def year_between(winter: Air, summer: Air, *, winter_month: Month = Month.JAN) -> AirYear:
    """A year that swings smoothly between a winter and a summer.

    Moisture content, not humidity, follows the cosine, so that the extremes of the wood are exactly
    those of the two airs given.

    Parameters
    ----------
    winter, summer
        The two extremes, half a year apart.
    winter_month
        Month of the winter extreme: July in the south.

    Examples
    --------
    >>> year = year_between(Air(temperature_c=20, relative_humidity=0.20),
    ...                     Air(temperature_c=20, relative_humidity=0.45))
    >>> [round(value, 2) for value in year.emc_pct][::6]
    [4.51, 8.49]
    """
    at = [(month.number - winter_month.number) / 12.0 for month in Month]
    temperatures = _wave(winter.temperature_c, summer.temperature_c, at=at)
    moistures = _wave(winter.emc_pct, summer.emc_pct, at=at)
    humidities = [
        relative_humidity_for_emc(temperature, moisture)
        for temperature, moisture in zip(temperatures, moistures, strict=True)
    ]
    return AirYear(
        months=tuple(
            Air(temperature_c=temperature, relative_humidity=humidity)
            for temperature, humidity in zip(temperatures, humidities, strict=True)
        )
    )
