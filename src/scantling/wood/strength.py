"""Strength of clear wood: at another moisture, at an angle to the grain, in another size, over years.

Estimates from small clear specimens. What holds people up is for tests and licensed practice to judge.
"""

from __future__ import annotations

import math
from enum import StrEnum

from scantling.errors import InputError

__all__ = [
    "BENDING_TO_AXIAL",
    "GrainAngleProperty",
    "axial_modulus_mpa",
    "hankinson",
    "size_factor_bending",
    "strength_at_moisture",
]

BENDING_TO_AXIAL = 1.10
"""Modulus along the grain over the tabulated one in bending, which holds some shear. [1]
Wood Handbook, ch. 5 (recalled)."""


class GrainAngleProperty(StrEnum):
    """A property that falls as the load leaves the grain."""

    TENSION = "tension"
    COMPRESSION = "compression"
    BENDING = "bending"
    ELASTICITY = "elasticity"
    TOUGHNESS = "toughness"

    @property
    def exponent(self) -> float:
        """Exponent of Hankinson's formula, middle of the published range. [1]

        Wood Handbook, ch. 5 (recalled): tension, bending, toughness 1.5 to 2; compression 2 to 2.5;
        elasticity 2.
        """
        return _EXPONENTS[self]


_EXPONENTS = {
    GrainAngleProperty.TENSION: 1.75,
    GrainAngleProperty.COMPRESSION: 2.25,
    GrainAngleProperty.BENDING: 1.75,
    GrainAngleProperty.ELASTICITY: 2.0,
    GrainAngleProperty.TOUGHNESS: 1.75,
}


def _positive(**values: float) -> None:
    for field, value in values.items():
        if not value > 0.0:
            raise InputError(code="not_positive", field=field, value=value, rule="must be greater than 0")


def strength_at_moisture(
    at_12: float, *, green: float, mc_pct: float, intersection_mc_pct: float = 25.0
) -> float:
    r"""Strength or stiffness at a moisture content.

    Parameters
    ----------
    at_12, green
        The property at 12 % and green, in any one unit. > 0.
    mc_pct
        Moisture content. [%] 4..30; above the intersection the property is the green one.
    intersection_mc_pct
        Moisture content at which drying starts to change it. [%] 25 unless the species is listed: white
        ash and chestnut 24, yellow birch 27, redwood 21, red and Sitka spruce 27.

    Returns
    -------
    float
        The property, in the unit given.

    Raises
    ------
    InputError
        ``mc_out_of_range``, ``not_positive``.

    Notes
    -----
    .. math:: P = P_{12}\left(\frac{P_{12}}{P_g}\right)^{(12 - M)/(M_p - 12)}

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, eq. 5-3 (recalled).

    Examples
    --------
    >>> round(strength_at_moisture(103_000, green=66_000, mc_pct=8, intersection_mc_pct=24))
    119473
    """
    _positive(at_12=at_12, green=green)
    if not 4.0 <= mc_pct <= 200.0:
        raise InputError(
            code="mc_out_of_range",
            field="mc_pct",
            value=mc_pct,
            rule="must be at least 4 %",
            remedy="The formula is not published for drier wood.",
        )
    moisture = min(mc_pct, intersection_mc_pct)
    return at_12 * math.pow(at_12 / green, (12.0 - moisture) / (intersection_mc_pct - 12.0))


def axial_modulus_mpa(moe_mpa: float) -> float:
    """Modulus of elasticity along the grain, from that of the bending test. [MPa]

    Examples
    --------
    >>> round(axial_modulus_mpa(10_000))
    11000
    """
    return BENDING_TO_AXIAL * moe_mpa


def hankinson(parallel: float, *, perpendicular: float, angle_deg: float, exponent: float = 2.0) -> float:
    r"""A property at an angle to the grain.

    Parameters
    ----------
    parallel, perpendicular
        The property along and across the grain, in one unit. > 0.
    angle_deg
        Angle between the load and the grain. [deg] 0..90.
    exponent
        See :class:`GrainAngleProperty`. [1]

    Raises
    ------
    InputError
        ``angle_out_of_range``, ``not_positive``.

    Notes
    -----
    .. math:: N = \frac{PQ}{P\sin^n\theta + Q\cos^n\theta}

    References
    ----------
    .. [1] R. L. Hankinson, "Investigation of crushing strength of spruce at varying angles of grain",
       Air Service Information Circular 3(259), 1921; *Wood Handbook*, FPL-GTR-190, eq. 5-4.

    Examples
    --------
    >>> round(hankinson(50.0, perpendicular=10.0, angle_deg=45.0), 3)
    16.667
    """
    _positive(parallel=parallel, perpendicular=perpendicular)
    if not 0.0 <= angle_deg <= 90.0:
        raise InputError(
            code="angle_out_of_range", field="angle_deg", value=angle_deg, rule="must lie in 0..90 deg"
        )
    sine, cosine = math.sin(math.radians(angle_deg)), math.cos(math.radians(angle_deg))
    across, along = math.pow(sine, exponent), math.pow(max(cosine, 0.0), exponent)
    return parallel * perpendicular / (parallel * across + perpendicular * along)


def size_factor_bending(*, depth_mm: float, span_mm: float) -> float:
    r"""Bending strength of a size over that of the test specimen, 51 mm deep on a 711 mm span.

    Parameters
    ----------
    depth_mm, span_mm
        Size of the beam. [mm] > 0.

    Notes
    -----
    .. math:: R/R_0 = (h_0L_0/(hL))^{1/18}

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 9 (recalled).

    Examples
    --------
    >>> size_factor_bending(depth_mm=51, span_mm=711)
    1.0
    """
    _positive(depth_mm=depth_mm, span_mm=span_mm)
    return math.pow(51.0 * 711.0 / (depth_mm * span_mm), 1.0 / 18.0)
