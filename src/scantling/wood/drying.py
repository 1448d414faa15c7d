"""Drying by the scales: what a board weighs at a moisture content it has not reached yet."""

from __future__ import annotations

from scantling.errors import InputError

__all__ = ["mass_at_moisture_kg"]


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
