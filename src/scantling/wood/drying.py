"""Drying: what a board weighs at a moisture content it has not reached yet, and how long it is until then."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from scantling.errors import InputError
from scantling.wood.diffusion import Slab, simulate
from scantling.wood.moisture import emc_pct
from scantling.wood.species import FIBER_SATURATION_PCT

__all__ = ["drying_days", "mass_at_moisture_kg"]

_STEP_S = 4 * 3600.0
_A_DAY = 6
_FIRST_DAYS, _MOST_DAYS = 32, 2048


def drying_days(
    boards: Sequence[Slab], *, target_mc_pct: float, temperature_c: float, humidity_pct: float
) -> tuple[float, ...]:
    """Days until boards on stickers hold, on average, no more than a moisture content in unchanging air.

    Parameters
    ----------
    boards
        With the moisture they hold now, even through the thickness; both faces open to the air.
    target_mc_pct
        Moisture wanted, mean through the thickness. [% of ovendry mass]
    temperature_c, humidity_pct
        The air. [degC], [%]

    Returns
    -------
    tuple of float
        One for each board; 0 where it is dry enough, infinite where it is not within 2048 days, or never in
        that air. [days] An estimate, by :func:`~scantling.wood.diffusion.simulate`: boards of one species
        differ by half or double. A board wetter than fiber saturation is reckoned from there on, so its days
        are the least: above it water moves otherwise.

    Raises
    ------
    InputError
        ``temperature_out_of_range``, ``humidity_out_of_range``.

    Examples
    --------
    >>> pine = Slab(thickness_mm=31.75, basic_specific_gravity=0.34, mc_pct=13.0)
    >>> [round(days) for days in drying_days([pine], target_mc_pct=9.7, temperature_c=20, humidity_pct=48)]
    [23]
    """
    import numpy as np

    boards = [replace(board, mc_pct=min(board.mc_pct, FIBER_SATURATION_PCT)) for board in boards]
    days = [0.0 if board.mc_pct <= target_mc_pct else float("inf") for board in boards]
    if emc_pct(temperature_c, humidity_pct / 100.0) >= target_mc_pct:
        return tuple(days)
    wet = [at for at, board in enumerate(boards) if board.mc_pct > target_mc_pct]
    span = _FIRST_DAYS
    while wet and span <= _MOST_DAYS:
        air = np.ones(span * _A_DAY + 1)
        past = simulate(
            [boards[at] for at in wet],
            temperature_c=air * temperature_c,
            relative_humidity=air * (humidity_pct / 100.0),
            step_s=_STEP_S,
            record_every=_A_DAY,
        )
        means = past.mean_pct
        for at, mean in zip(wet, means.T, strict=True):
            if mean[-1] <= target_mc_pct:
                # Between records the loss goes with the root of time, so its square is nearly straight.
                lost = (boards[at].mc_pct - mean) ** 2
                wanted = (boards[at].mc_pct - target_mc_pct) ** 2
                days[at] = float(np.interp(wanted, lost, past.time_s)) / 86_400.0
        wet = [at for at in wet if days[at] == float("inf")]
        span *= 4
    return tuple(days)


def mass_at_moisture_kg(mass_kg: float, *, mc_pct: float, target_mc_pct: float) -> float:
    r"""Mass of the same wood at another moisture content.

    Parameters
    ----------
    mass_kg
        Mass now. [kg] > 0.
    mc_pct, target_mc_pct
        Moisture content now, and the one wanted. [% of ovendry mass] 0..200.

    Returns
    -------
    float
        Mass at the target. [kg]

    Raises
    ------
    InputError
        ``mass_not_positive``, ``mc_out_of_range``.

    Notes
    -----
    .. math:: m^* = m\,\frac{1 + M^*}{1 + M}

    Examples
    --------
    >>> round(mass_at_moisture_kg(8.20, mc_pct=11, target_mc_pct=7), 3)
    7.905
    """
    if not mass_kg > 0.0:
        raise InputError(
            code="mass_not_positive", field="mass_kg", value=mass_kg, rule="must be greater than 0 kg"
        )
    for field, value in (("mc_pct", mc_pct), ("target_mc_pct", target_mc_pct)):
        if not 0.0 <= value <= 200.0:
            raise InputError(
                code="mc_out_of_range",
                field=field,
                value=value,
                rule="must lie in 0..200 %",
                remedy="Moisture content is in percent of the ovendry mass.",
            )
    return mass_kg * (100.0 + target_mc_pct) / (100.0 + mc_pct)
