"""Specific gravity and density at any moisture content."""

from __future__ import annotations

from scantling.errors import InputError
from scantling.wood.species import FIBER_SATURATION_PCT, Species

__all__ = ["basic_specific_gravity", "density_kg_m3", "specific_gravity"]

WATER_KG_M3 = 1000.0
_VOLUME_FACTOR = 0.265


def specific_gravity(basic: float, *, mc_pct: float) -> float:
    r"""Specific gravity on the volume at a moisture content.

    Parameters
    ----------
    basic
        Specific gravity on the green volume. [1]
    mc_pct
        Moisture content. [%] at or above 30 the volume is the green one.

    Returns
    -------
    float
        Ovendry mass over the volume at ``mc_pct``, relative to water. [1]

    Notes
    -----
    .. math:: G_M = G_b / (1 - 0.265\,a\,G_b),\quad a = (30 - M)/30

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 4 (density and specific gravity).

    Examples
    --------
    >>> round(specific_gravity(0.56, mc_pct=12), 4)
    0.6147
    """
    share = max(FIBER_SATURATION_PCT - mc_pct, 0.0) / FIBER_SATURATION_PCT
    return basic / (1.0 - _VOLUME_FACTOR * share * basic)


def basic_specific_gravity(species: Species) -> float:
    """Specific gravity on the green volume: the published one, or from that at 12 %. [1]

    Raises
    ------
    InputError
        ``density_unknown`` where neither is published.
    """
    if species.specific_gravity_12 is not None:
        # Equation of `specific_gravity` turned round at 12 %: both are tabulated, but the one at 12 %
        # is nearer to furniture, so it is the one that must come out as printed.
        share = (FIBER_SATURATION_PCT - 12.0) / FIBER_SATURATION_PCT
        return species.specific_gravity_12 / (1.0 + _VOLUME_FACTOR * share * species.specific_gravity_12)
    if species.specific_gravity_green is not None:
        return species.specific_gravity_green
    raise InputError(
        code="density_unknown",
        field="species",
        value=species.name,
        rule="must have a published specific gravity",
        remedy="Choose another wood, or give its specific_gravity_12 in a file of your own woods.",
    )


def density_kg_m3(species: Species, *, mc_pct: float = 12.0) -> float:
    r"""Density of a wood at a moisture content, water included.

    Parameters
    ----------
    species
        The wood; its specific gravity at 12 % is used, else that on the green volume.
    mc_pct
        Moisture content. [%] 0..200.

    Returns
    -------
    float
        Density. [kg/m3]

    Raises
    ------
    InputError
        ``density_unknown``, ``mc_out_of_range``.

    Notes
    -----
    .. math:: \rho_M = 1000\,G_M\,(1 + M/100)

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 4.

    Examples
    --------
    >>> from scantling.wood.species import find_species
    >>> round(density_kg_m3(find_species("black cherry")), 1)
    560.0
    """
    if not 0.0 <= mc_pct <= 200.0:
        raise InputError(
            code="mc_out_of_range",
            field="mc_pct",
            value=mc_pct,
            rule="must lie in 0..200 %",
            remedy="Moisture content is in percent of the ovendry mass.",
        )
    gravity = specific_gravity(basic_specific_gravity(species), mc_pct=mc_pct)
    return WATER_KG_M3 * gravity * (1.0 + mc_pct / 100.0)
