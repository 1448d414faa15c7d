"""Humid air, through the general-purpose library of the ASHRAE equations, in SI units.

The library keeps its unit system in a global; it is set to SI here and used nowhere else.
"""

from __future__ import annotations

from functools import cache
from types import ModuleType

__all__ = [
    "dry_air_kg_m3",
    "humidity_ratio",
    "humidity_ratio_at_dew_point",
    "pressure_pa",
    "relative_humidity",
]


@cache
def _library() -> ModuleType:
    import psychrolib  # not wanted by the small questions

    psychrolib.SetUnitSystem(psychrolib.SI)
    module: ModuleType = psychrolib
    return module


def pressure_pa(altitude_m: float) -> float:
    """Standard pressure at an altitude. [Pa]

    Examples
    --------
    >>> round(pressure_pa(0.0))
    101325
    """
    return float(_library().GetStandardAtmPressure(altitude_m))


def humidity_ratio(temperature_c: float, relative_humidity: float, *, pressure_pa: float) -> float:
    """Mass of water a kilogram of dry air carries. [kg/kg]

    References
    ----------
    .. [1] ASHRAE, *Handbook - Fundamentals*, 2017, ch. 1, through PsychroLib.

    Examples
    --------
    >>> round(humidity_ratio(20.0, 0.5, pressure_pa=101325), 5)
    0.00726
    """
    return float(_library().GetHumRatioFromRelHum(temperature_c, relative_humidity, pressure_pa))


def humidity_ratio_at_dew_point(dew_point_c: float, *, pressure_pa: float) -> float:
    """Mass of water a kilogram of dry air carries when saturated at a temperature. [kg/kg]"""
    return float(_library().GetHumRatioFromTDewPoint(dew_point_c, pressure_pa))


def relative_humidity(temperature_c: float, ratio: float, *, pressure_pa: float) -> float:
    """Relative humidity of air that carries ``ratio`` kilograms of water a kilogram; at most 1. [1]"""
    saturated = float(_library().GetSatHumRatio(temperature_c, pressure_pa))
    if ratio >= saturated:
        return 1.0
    return float(_library().GetRelHumFromHumRatio(temperature_c, ratio, pressure_pa))


def dry_air_kg_m3(temperature_c: float, ratio: float, *, pressure_pa: float) -> float:
    """Dry air in a cubic meter of humid air. [kg/m3]"""
    return 1.0 / float(_library().GetMoistAirVolume(temperature_c, ratio, pressure_pa))
