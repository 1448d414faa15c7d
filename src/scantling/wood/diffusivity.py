"""How fast moisture moves through wood across the grain."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["transverse_diffusivity_siau_mm2_s"]

_GAS_J_MOL_K = 8.314
_ZERO_C_K = 273.15


def transverse_diffusivity_siau_mm2_s(
    specific_gravity: NDArray[np.float64], *, mc_pct: NDArray[np.float64], temperature_c: float
) -> NDArray[np.float64]:
    r"""Diffusion coefficient of gross wood across the grain, on moisture content.

    Parameters
    ----------
    specific_gravity
        Ovendry mass over the volume at ``mc_pct``. [1] any shape.
    mc_pct
        Moisture content. [%] same shape.
    temperature_c
        Temperature of the wood. [degC]

    Returns
    -------
    array
        Diffusion coefficient. [mm2/s] An estimate: boards of one species differ by half or double.

    Notes
    -----
    Bound water in the cell wall, and a cell wall round a square lumen of the share of voids:

    .. math:: D_{BT} = 7\cdot10^{-6}\,e^{-(38500 - 290 M)/RT}\ \mathrm{m^2/s},\quad
              D_T = \frac{D_{BT}}{(1-a^2)(1-a)},\quad a = \sqrt{1 - G\,(0.667 + 0.01 M)}

    References
    ----------
    .. [1] J. F. Siau, *Transport Processes in Wood*, Springer, 1984 (formulas recalled, not read).

    Examples
    --------
    >>> import numpy as np
    >>> one = transverse_diffusivity_siau_mm2_s(np.array([0.5]), mc_pct=np.array([8.0]), temperature_c=20.0)
    >>> round(float(one[0]) * 1e5, 2)
    3.21
    """
    import numpy as np

    per_mol_j = 1.0 / (_GAS_J_MOL_K * (temperature_c + _ZERO_C_K))
    wall_mm2_s = 7e-6 * 1e6 * np.exp(mc_pct * (290.0 * per_mol_j) - 38_500.0 * per_mol_j)
    solid = np.minimum(np.maximum(specific_gravity * (0.01 * mc_pct + 0.667), 0.02), 1.0)
    gross: NDArray[np.float64] = wall_mm2_s / (solid * (1.0 - np.sqrt(1.0 - solid)))
    return gross
