"""Cup of a board: from its growth rings, and from one face wetter than the other."""

from __future__ import annotations

import math

from scantling.errors import InputError

__all__ = ["cup_from_rings_mm", "cup_from_tilt_mm"]


def _check(**sizes: float) -> None:
    for field, value in sizes.items():
        if not value > 0.0:
            raise InputError(
                code="size_not_positive", field=field, value=value, rule="must be greater than 0 mm"
            )


def cup_from_rings_mm(
    width_mm: float,
    *,
    pith_distance_mm: float,
    tangential_strain: float,
    radial_strain: float,
    ring_angle_deg: float = 0.0,
) -> float:
    r"""Cup of a board that dries or wets evenly, from the curve of its rings.

    Parameters
    ----------
    width_mm
        Width of the board. [mm] > 0.
    pith_distance_mm
        From the pith to the middle of the face looked at. [mm] > 0.
    tangential_strain, radial_strain
        Change along and across the rings as a share of the size, negative when drying. [1]
    ring_angle_deg
        Angle between the width and the rings at the middle. [deg] 0 flat-sawn, 90 quarter-sawn.

    Returns
    -------
    float
        Height of the middle against the edges. [mm] Positive: the bark side goes hollow, as on drying.

    Raises
    ------
    InputError
        ``size_not_positive``.

    Notes
    -----
    The section free of stress: every ring keeps its own strain, so that a place at distance :math:`R` and
    angle :math:`\varphi` from the pith goes to :math:`R(1+\varepsilon_R)` and
    :math:`\varphi(1+\varepsilon_T)/(1+\varepsilon_R)`. For a flat-sawn board that is within a percent of

    .. math:: s = \frac{W}{2}\,\arctan\frac{W}{2r}\;(\varepsilon_R - \varepsilon_T)

    A quarter-sawn board lies along a ray and stays flat. A board held by its neighbours cups less and is
    stressed instead.

    Examples
    --------
    >>> round(cup_from_rings_mm(250, pith_distance_mm=100, tangential_strain=-4 * 0.00369,
    ...     radial_strain=-4 * 0.00158), 3)
    0.942
    """
    _check(width_mm=width_mm, pith_distance_mm=pith_distance_mm)
    turned = math.radians(ring_angle_deg)
    across, out = pith_distance_mm * math.sin(turned), pith_distance_mm * math.cos(turned)

    def goes_to(x_mm: float) -> tuple[float, float]:
        distance = math.hypot(across + x_mm, out) * (1.0 + radial_strain)
        angle = math.atan2(across + x_mm, out) * (1.0 + tangential_strain) / (1.0 + radial_strain)
        return distance * math.sin(angle), distance * math.cos(angle)

    (x0, y0), (x1, y1), (xm, ym) = (goes_to(share * width_mm) for share in (-0.5, 0.5, 0.0))
    chord = math.hypot(x1 - x0, y1 - y0)
    return ((y0 - ym) * (x1 - x0) - (x0 - xm) * (y1 - y0)) / chord


def cup_from_tilt_mm(width_mm: float, *, thickness_mm: float, coefficient: float, tilt_pct: float) -> float:
    r"""Cup of a board whose faces differ in moisture.

    Parameters
    ----------
    width_mm, thickness_mm
        Size of the board. [mm] > 0.
    coefficient
        Dimensional change coefficient across the width. [1 per % MC]
    tilt_pct
        Moisture of the front face less that of the back, of the straight gradient that bends alike. [%]

    Returns
    -------
    float
        Height of the middle against the edges. [mm] Positive: the front face crowns, being the wetter.

    Raises
    ------
    InputError
        ``size_not_positive``.

    Notes
    -----
    A straight gradient of strain bends a free strip to the radius :math:`t/(C\,\Delta m)`:

    .. math:: s = \frac{W^2 C\,\Delta m}{8t}

    Examples
    --------
    >>> round(cup_from_tilt_mm(250, thickness_mm=20, coefficient=0.00369, tilt_pct=1.0), 2)
    1.44
    """
    _check(width_mm=width_mm, thickness_mm=thickness_mm)
    return width_mm**2 * coefficient * tilt_pct / (8.0 * thickness_mm)
