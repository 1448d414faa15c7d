"""Equilibrium moisture content of wood in air, and its inverse."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, overload

from scantling.errors import InputError

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = [
    "MoistureRange",
    "emc_hailwood_horrobin",
    "emc_hailwood_horrobin_inch_pound",
    "emc_pct",
    "relative_humidity_for_emc",
]

TEMPERATURE_RANGE_C = (-40.0, 133.0)
"""Temperatures taken. [degC] The published table runs from -1.1 to 132.2; below it is extrapolation."""

_NEWTON_STEPS = 7
_BLOCK = 16_384


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureRange:
    """Moisture content when built, and the driest and wettest of the year after. [%]"""

    build_pct: float
    dry_pct: float
    wet_pct: float

    @property
    def shrink_pct(self) -> float:
        """How far the wood dries below its state when built. [% MC] >= 0."""
        return max(self.build_pct - self.dry_pct, 0.0)

    @property
    def swell_pct(self) -> float:
        """How far the wood wets above its state when built. [% MC] >= 0."""
        return max(self.wet_pct - self.build_pct, 0.0)

    @property
    def swing_pct(self) -> float:
        """From the driest to the wettest. [% MC] >= 0."""
        return self.wet_pct - self.dry_pct


def _check(name: str, value: float | Array, *, low: float, high: float, remedy: str) -> None:
    if isinstance(value, int | float):
        bad: float | None = None if low <= value <= high else float(value)
    else:
        import numpy as np  # a single question needs no arrays

        wrong = ~((value >= low) & (value <= high))
        bad = float(np.asarray(value)[wrong].flat[0]) if wrong.any() else None
    if bad is not None:
        unit = " degC" if name.endswith("_c") else ""
        raise InputError(
            code="temperature_out_of_range" if unit else "humidity_out_of_range",
            field=name,
            value=bad,
            rule=f"must lie in {low:g}..{high:g}{unit}",
            remedy=remedy,
        )


def _check_air(temperature_c: float | Array, relative_humidity: float | Array) -> None:
    _check(
        "temperature_c",
        temperature_c,
        low=TEMPERATURE_RANGE_C[0],
        high=TEMPERATURE_RANGE_C[1],
        remedy="The sorption equation is published from -1 to 132 degC: wood at -40..133 degC is taken.",
    )
    _check(
        "relative_humidity",
        relative_humidity,
        low=0.0,
        high=1.0,
        remedy="Relative humidity is a share of 1: write 0.45 for 45 %.",
    )


def _hydrates(
    w: float | Array, k: float | Array, k1: float | Array, k2: float | Array, h: float | Array
) -> float | Array:
    """Wood Handbook eq. 4-5; ``h`` is the relative humidity, the rest its temperature terms."""
    kh = k * h
    one = k1 * kh
    two = k1 * k2 * kh * kh
    return 1800.0 / w * (kh / (1.0 - kh) + (one + 2.0 * two) / (1.0 + one + two))


@overload
def _temperature_terms(t: float) -> tuple[float, float, float, float]: ...
@overload
def _temperature_terms(t: Array) -> tuple[Array, Array, Array, Array]: ...
def _temperature_terms(t: float | Array) -> tuple[float | Array, ...]:
    """``W``, ``K``, ``K1`` and ``K2`` of eq. 4-5 at a temperature in degC."""
    w = 349.0 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 0.000736 * t - 0.00000273 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    return w, k, k1, k2


@overload
def emc_hailwood_horrobin(temperature_c: float, relative_humidity: float) -> float: ...
@overload
def emc_hailwood_horrobin(temperature_c: Array, relative_humidity: Array | float) -> Array: ...
@overload
def emc_hailwood_horrobin(temperature_c: float, relative_humidity: Array) -> Array: ...
def emc_hailwood_horrobin(temperature_c: float | Array, relative_humidity: float | Array) -> float | Array:
    r"""Equilibrium moisture content by the two-hydrate sorption model, metric coefficients.

    Parameters
    ----------
    temperature_c
        Air temperature. [degC] -40..133; below -1 the published table ends. Number or array.
    relative_humidity
        Relative humidity. [1] 0..1. Number or array of the same shape.

    Returns
    -------
    float or array
        Moisture content the wood settles at. [% of ovendry mass]

    Raises
    ------
    InputError
        ``temperature_out_of_range``, ``humidity_out_of_range``.

    Notes
    -----
    .. math:: M = \frac{1800}{W}\left[\frac{Kh}{1-Kh}
              + \frac{K_1Kh + 2K_1K_2K^2h^2}{1+K_1Kh+K_1K_2K^2h^2}\right]   (eq. 4-5 of [2]_)

    References
    ----------
    .. [1] A. J. Hailwood and S. Horrobin, "Absorption of water by polymers: analysis in terms of a
       simple model", *Trans. Faraday Soc.* 42B, 1946, 84-102.
    .. [2] *Wood Handbook*, FPL-GTR-190, eq. 4-5 and Table 4-2.

    Examples
    --------
    >>> round(emc_hailwood_horrobin(20.0, 0.50), 4)
    9.2711
    """
    _check_air(temperature_c, relative_humidity)
    w, k, k1, k2 = _temperature_terms(temperature_c)
    return _hydrates(w, k, k1, k2, relative_humidity)


def emc_hailwood_horrobin_inch_pound(temperature_f: float, relative_humidity: float) -> float:
    """The same model with the inch-pound coefficients, as the published table was made.

    Parameters
    ----------
    temperature_f
        Air temperature. [degF]
    relative_humidity
        Relative humidity. [1] 0..1.

    Returns
    -------
    float
        Moisture content. [%] Within 0.02 points of the metric form from 30 to 100 degF.

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, eq. 4-5.

    Examples
    --------
    >>> round(emc_hailwood_horrobin_inch_pound(70.0, 0.30), 2)
    6.17
    """
    _check_air((temperature_f - 32.0) / 1.8, relative_humidity)
    t, h = temperature_f, relative_humidity
    w = 330.0 + 0.452 * t + 0.00415 * t * t
    k = 0.791 + 0.000463 * t - 0.000000844 * t * t
    k1 = 6.34 + 0.000775 * t - 0.0000935 * t * t
    k2 = 1.09 + 0.0284 * t - 0.0000904 * t * t
    return float(_hydrates(w, k, k1, k2, h))


emc_pct = emc_hailwood_horrobin
"""The model used everywhere; to change it, change this line."""


@overload
def relative_humidity_for_emc(temperature_c: float, mc_pct: float) -> float: ...
@overload
def relative_humidity_for_emc(temperature_c: Array, mc_pct: Array | float) -> Array: ...
@overload
def relative_humidity_for_emc(temperature_c: float, mc_pct: Array) -> Array: ...
def relative_humidity_for_emc(temperature_c: float | Array, mc_pct: float | Array) -> float | Array:
    """Relative humidity in which wood of a moisture content neither gains nor loses.

    Parameters
    ----------
    temperature_c
        Air temperature. [degC] Number or array.
    mc_pct
        Moisture content. [%] from 0 to that of saturated air. Number or array.

    Returns
    -------
    float or array
        Relative humidity, to 1e-9. [1]

    Raises
    ------
    InputError
        ``mc_out_of_range``, ``temperature_out_of_range``.

    Examples
    --------
    >>> round(relative_humidity_for_emc(20.0, 9.2711), 4)
    0.5
    """
    if isinstance(temperature_c, int | float) and isinstance(mc_pct, int | float):
        return _humidity_of_one(float(temperature_c), float(mc_pct))
    import numpy as np  # a single question needs no arrays

    temperature, target = np.broadcast_arrays(
        np.asarray(temperature_c, dtype=float), np.asarray(mc_pct, dtype=float)
    )
    _check_emc(target, emc_pct(temperature, np.ones_like(temperature)))
    humidity = np.empty_like(target)
    for start in range(0, target.size, _BLOCK):  # blocks that fit a processor's cache
        block = slice(start, start + _BLOCK)
        humidity.flat[block] = _humidity_of_block(temperature.flat[block], target.flat[block])
    return humidity


def _humidity_of_block(temperature_c: Array, mc_pct: Array) -> Array:
    """Newton steps on the two-hydrate equation, from the humidity that would do at 20 degC."""
    import numpy as np

    w, k, k1, k2 = _temperature_terms(temperature_c)
    grid = np.linspace(0.0, 1.0, 129)
    share = k * np.interp(mc_pct, emc_pct(20.0, grid), grid)
    target, two = mc_pct * w / 1800.0, k1 * k2
    for _ in range(_NEWTON_STEPS):
        dissolved, bound = 1.0 - share, 1.0 + share * (k1 + two * share)
        excess = share / dissolved + share * (k1 + 2.0 * two * share) / bound - target
        slope = 1.0 / dissolved**2 + (k1 + share * two * (4.0 + k1 * share)) / bound**2
        share = np.clip(share - excess / slope, 0.0, k)
    humidity: Array = share / k
    return humidity


def _humidity_of_one(temperature_c: float, mc_pct: float) -> float:
    _check_emc(mc_pct, emc_pct(temperature_c, 1.0))
    low, high = 0.0, 1.0
    for _ in range(40):
        middle = 0.5 * (low + high)
        if emc_pct(temperature_c, middle) < mc_pct:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def _check_emc(mc_pct: float | Array, saturated_pct: float | Array) -> None:
    wrong = (mc_pct < 0.0) | (mc_pct > saturated_pct) | (mc_pct != mc_pct)
    if wrong if isinstance(wrong, bool) else wrong.any():
        raise InputError(
            code="mc_out_of_range",
            field="mc_pct",
            value=mc_pct,
            rule="must lie between 0 and the moisture content in saturated air, about 30 %",
            remedy="Wetter wood is green: no air humidity holds it there.",
        )
