"""Screws and nails in wood: what pulls them out and what moves them sideways.

Ultimate loads in side grain of seasoned wood, averages of tests; a design divides by a factor of safety.
"""

from __future__ import annotations

from bisect import bisect_right
from enum import Enum

from scantling.errors import InputError

__all__ = [
    "Fastener",
    "design_withdrawal_nds_n",
    "dowel_bearing_mpa",
    "end_grain_share",
    "lateral_n",
    "withdrawal_n",
]


class Fastener(Enum):
    """Kinds of fastener, with the constants of their withdrawal.

    The value holds factor, exponent of specific gravity and exponent of diameter, for N and mm.
    """

    NAIL = (54.12, 2.5, 1.0)
    WOOD_SCREW = (108.25, 2.0, 1.0)
    LAG_SCREW = (125.4, 1.5, 0.75)


# Withdrawal constants of design, pounds and inches, with the exponents of gravity and diameter.
_DESIGN = {
    Fastener.NAIL: (1380.0, 2.5, 1.0),
    Fastener.WOOD_SCREW: (2850.0, 2.0, 1.0),
    Fastener.LAG_SCREW: (1800.0, 1.5, 0.75),
}
_LBF_N, _INCH_MM = 4.4482216152605, 25.4

# Lateral constants, N and mm, by class of specific gravity: Wood Handbook, ch. 8 (recalled).
_HARDWOOD_FROM = (0.33, 0.48, 0.57)
_SOFTWOOD_FROM = (0.29, 0.43, 0.48)
_LATERAL = {
    (Fastener.NAIL, True): (50.04, 69.50, 94.52),
    (Fastener.NAIL, False): (50.04, 62.55, 76.45),
    (Fastener.WOOD_SCREW, True): (23.17, 31.99, 44.13),
    (Fastener.WOOD_SCREW, False): (23.17, 29.79, 36.40),
}


def _positive(**values: float) -> None:
    for field, value in values.items():
        if not value > 0.0:
            raise InputError(code="not_positive", field=field, value=value, rule="must be greater than 0")


def withdrawal_n(
    fastener: Fastener, *, specific_gravity_12: float, diameter_mm: float, penetration_mm: float
) -> float:
    r"""Ultimate withdrawal load from side grain.

    Parameters
    ----------
    fastener
        Kind of fastener.
    specific_gravity_12
        Ovendry mass over volume at 12 % moisture. [1] > 0.
    diameter_mm
        Shank diameter. [mm] > 0.
    penetration_mm
        Of the nail, or of the thread, in the wood that holds the point. [mm] > 0.

    Returns
    -------
    float
        Average ultimate load. [N]

    Raises
    ------
    InputError
        ``not_positive``.

    Notes
    -----
    .. math:: p = 54.12\,G^{5/2}DL\quad p = 108.25\,G^2DL\quad p = 125.4\,G^{3/2}D^{3/4}L

    for nails, wood screws (constant recalled; it is the inch-pound 15,700 converted) and lag screws.

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 8.

    Examples
    --------
    >>> round(withdrawal_n(Fastener.WOOD_SCREW, specific_gravity_12=0.5, diameter_mm=4.2,
    ...     penetration_mm=16))
    1819
    """
    _positive(specific_gravity_12=specific_gravity_12, diameter_mm=diameter_mm, penetration_mm=penetration_mm)
    factor, gravity_power, diameter_power = fastener.value
    load: float = factor * specific_gravity_12**gravity_power * diameter_mm**diameter_power * penetration_mm
    return load


def design_withdrawal_nds_n(
    fastener: Fastener, *, specific_gravity_ovendry: float, diameter_mm: float, penetration_mm: float
) -> float:
    r"""Reference design value of withdrawal from side grain: what a design may count on.

    Parameters
    ----------
    fastener
        Kind of fastener.
    specific_gravity_ovendry
        Ovendry mass over ovendry volume. [1] > 0. A little more than the one at 12 %.
    diameter_mm
        Shank diameter. [mm] > 0.
    penetration_mm
        Of the nail, or of the thread. [mm] > 0.

    Returns
    -------
    float
        Reference design value, before the adjustments for duration and the rest. [N]

    Raises
    ------
    InputError
        ``not_positive``.

    Notes
    -----
    In pounds an inch, with inches: :math:`1380\,G^{5/2}D` for nails (recalled), :math:`2850\,G^2D` for wood
    screws, :math:`1800\,G^{3/2}D^{3/4}` for lag screws.

    References
    ----------
    .. [1] American Wood Council, *National Design Specification for Wood Construction*, ch. 12.

    Examples
    --------
    >>> round(design_withdrawal_nds_n(Fastener.WOOD_SCREW, specific_gravity_ovendry=0.45,
    ...     diameter_mm=4.826, penetration_mm=25.4))
    488
    """
    _positive(
        specific_gravity_ovendry=specific_gravity_ovendry,
        diameter_mm=diameter_mm,
        penetration_mm=penetration_mm,
    )
    factor, gravity_power, diameter_power = _DESIGN[fastener]
    per_inch_lbf: float = (
        factor * specific_gravity_ovendry**gravity_power * (diameter_mm / _INCH_MM) ** diameter_power
    )
    return per_inch_lbf * _LBF_N * penetration_mm / _INCH_MM


def lateral_n(fastener: Fastener, *, specific_gravity_12: float, diameter_mm: float, hardwood: bool) -> float:
    r"""Lateral load of a nail or wood screw in side grain at a slip of 0.38 mm.

    Parameters
    ----------
    fastener
        ``NAIL`` or ``WOOD_SCREW``.
    specific_gravity_12
        Ovendry mass over volume at 12 % moisture. [1] At or above the least class published.
    diameter_mm
        Shank diameter. [mm] > 0.
    hardwood
        Whether the wood is a hardwood.

    Returns
    -------
    float
        Load. [N] An estimate: the constants are recalled.

    Raises
    ------
    InputError
        ``not_positive``, ``gravity_out_of_range``, ``fastener_without_table``.

    Notes
    -----
    .. math:: p = K D^{3/2}\ \text{(nails)}\qquad p = K D^2\ \text{(screws)}

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 8 (recalled).

    Examples
    --------
    >>> round(lateral_n(Fastener.WOOD_SCREW, specific_gravity_12=0.60, diameter_mm=4.0, hardwood=True))
    706
    """
    _positive(diameter_mm=diameter_mm)
    constants = _LATERAL.get((fastener, hardwood))
    if constants is None:
        raise InputError(
            code="fastener_without_table",
            field="fastener",
            value=fastener.name,
            rule="must be a nail or a wood screw",
        )
    bounds = _HARDWOOD_FROM if hardwood else _SOFTWOOD_FROM
    place = bisect_right(bounds, specific_gravity_12) - 1
    if place < 0:
        raise InputError(
            code="gravity_out_of_range",
            field="specific_gravity_12",
            value=specific_gravity_12,
            rule=f"must be at least {bounds[0]}",
            remedy="Nothing is published for lighter wood.",
        )
    power = 1.5 if fastener is Fastener.NAIL else 2.0
    return float(constants[place] * diameter_mm**power)


def end_grain_share() -> float:
    """Withdrawal from end grain over that from side grain. [1] About 0.75 and erratic (recalled)."""
    return 0.75


_QUARTER_INCH_MM = 6.35
_PSI_MPA = 0.0068947572931683


def dowel_bearing_mpa(specific_gravity: float, *, diameter_mm: float) -> float:
    r"""Strength of wood pressed along the grain by a round pin or bolt in a hole that fits it. [MPa]

    Parameters
    ----------
    specific_gravity
        Ovendry mass over ovendry volume. [1] > 0. The one at 12 % is a little less, and on the safe side.
    diameter_mm
        Of the pin. [mm] > 0.

    Raises
    ------
    InputError
        ``not_positive``.

    Notes
    -----
    .. math:: F = 11\,200\,G \quad (d \ge 1/4\,in), \qquad F = 16\,000\,G^{1.84} \quad (d < 1/4\,in)

    in pounds per square inch. The thinner pins' factor is 16 600 in the standard (recalled); the printed one
    is taken, which is less.

    References
    ----------
    .. [1] American Wood Council, *National Design Specification for Wood Construction*, dowel bearing
       strengths, as printed by engineersedge.com, wood dowel bearing strength.

    Examples
    --------
    >>> round(dowel_bearing_mpa(0.63, diameter_mm=6.35), 1)
    48.6
    """
    _positive(specific_gravity=specific_gravity, diameter_mm=diameter_mm)
    if diameter_mm >= _QUARTER_INCH_MM - 1e-9:
        return 11_200.0 * specific_gravity * _PSI_MPA
    return float(16_000.0 * specific_gravity**1.84 * _PSI_MPA)
