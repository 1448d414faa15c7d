"""What stands between the air and the wood: a film of still air, and the finish."""

from __future__ import annotations

import math

from scantling.wood.moisture import emc_pct

__all__ = ["AIR_FILM_S_MM", "saturated_vapour_kg_mm3", "sorption_slope_pct", "surface_coefficient_mm_s"]

AIR_FILM_S_MM = 0.4
"""Resistance of still room air to water vapour. [s/mm] From a convection of 3 W/m2K and the analogy of
heat and mass transfer, h/(rho cp) = 2.5 mm/s: common practice for still air indoors."""


def saturated_vapour_kg_mm3(temperature_c: float) -> float:
    """Water in a volume of saturated air. [kg/mm3]

    References
    ----------
    .. [1] Magnus form of the saturation pressure, 611.2 exp(17.62 t / (243.12 + t)) Pa, WMO No. 8.

    Examples
    --------
    >>> round(saturated_vapour_kg_mm3(20.0) * 1e12, 1)
    17.2
    """
    pressure_pa = 611.2 * math.exp(17.62 * temperature_c / (243.12 + temperature_c))
    return pressure_pa / (461.5 * (temperature_c + 273.15)) * 1e-9


def sorption_slope_pct(temperature_c: float, relative_humidity: float) -> float:
    """Slope of the moisture content the wood settles at over relative humidity. [% MC per 1]"""
    low = min(max(relative_humidity - 0.02, 0.0), 0.94)
    return (emc_pct(temperature_c, low + 0.04) - emc_pct(temperature_c, low)) / 0.04


def surface_coefficient_mm_s(
    *, dry_density_kg_mm3: float, temperature_c: float, slope_pct: float, resistance_s_mm: float
) -> float:
    r"""Surface coefficient on moisture content, from the resistance to vapour.

    Parameters
    ----------
    dry_density_kg_mm3
        Ovendry mass over volume of the wood. [kg/mm3]
    temperature_c
        Temperature of the air. [degC]
    slope_pct
        Slope of the sorption curve there. [% MC per 1 of humidity]
    resistance_s_mm
        Air film and finish together. [s/mm]

    Returns
    -------
    float
        ``S``, so that the flux of moisture is ``S`` times the difference of moisture content. [mm/s]

    Notes
    -----
    .. math:: S = \frac{c_{sat}}{\rho_0\,(dM/dh)\,R}

    Examples
    --------
    >>> round(surface_coefficient_mm_s(dry_density_kg_mm3=5e-7, temperature_c=20.0,
    ...     slope_pct=15.5, resistance_s_mm=0.4) * 1e4, 2)
    5.55
    """
    saturated = saturated_vapour_kg_mm3(temperature_c)
    return saturated / (dry_density_kg_mm3 * slope_pct / 100.0 * resistance_s_mm)
