"""What stands between the air and the wood: a film of still air, and the finish."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["AIR_FILM_S_MM", "saturated_vapour_kg_mm3", "surface_coefficient_mm_s"]

AIR_FILM_S_MM = 0.4
"""Resistance of still room air to water vapour. [s/mm] From a convection of 3 W/m2K and the analogy of
heat and mass transfer, h/(rho cp) = 2.5 mm/s: common practice for still air indoors."""


def saturated_vapour_kg_mm3(temperature_c: float | Array) -> float | Array:
    """Water in a volume of saturated air. [kg/mm3] shape of the temperatures

    References
    ----------
    .. [1] Magnus form of the saturation pressure, 611.2 exp(17.62 t / (243.12 + t)) Pa, WMO No. 8.

    Examples
    --------
    >>> round(float(saturated_vapour_kg_mm3(20.0)) * 1e12, 1)
    17.2
    """
    import numpy as np

    pressure_pa: float | Array = 611.2 * np.exp(17.62 * temperature_c / (243.12 + temperature_c))
    return pressure_pa / (461.5 * (temperature_c + 273.15)) * 1e-9


def surface_coefficient_mm_s(
    *,
    dry_density_kg_mm3: Array,
    temperature_c: float | Array,
    slope_pct: float | Array,
    resistance_s_mm: Array,
) -> Array:
    r"""Surface coefficient on moisture content, from the resistance to vapour.

    Parameters
    ----------
    dry_density_kg_mm3
        Ovendry mass over volume of the wood. [kg/mm3] All shapes fit one another.
    temperature_c
        Temperature of the air. [degC]
    slope_pct
        Slope of the moisture content wood settles at over relative humidity. [% MC per 1]
    resistance_s_mm
        Air film and finish together. [s/mm]

    Returns
    -------
    array
        ``S``, so that the flux of moisture is ``S`` times the difference of moisture content. [mm/s]

    Notes
    -----
    .. math:: S = \frac{c_{sat}}{\rho_0\,(dM/dh)\,R}

    Examples
    --------
    >>> import numpy as np
    >>> one = surface_coefficient_mm_s(dry_density_kg_mm3=np.array([5e-7]), temperature_c=20.0,
    ...     slope_pct=15.5, resistance_s_mm=np.array([0.4]))
    >>> round(float(one[0]) * 1e4, 2)
    5.56
    """
    stored = dry_density_kg_mm3 * slope_pct / 100.0
    coefficient: Array = saturated_vapour_kg_mm3(temperature_c) / (stored * resistance_s_mm)
    return coefficient
