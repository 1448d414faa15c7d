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
    width_mm: float, *, pith_distance_mm: float, tangential_strain: float, radial_strain: float
) -> float:
    r"""Cup of a flat-sawn board that dries or wets evenly, from the curve of its rings.

    Parameters
    ----------
    width_mm
        Width of the board, centered before the pith. [mm] > 0.
    pith_distance_mm
        From the pith to the face looked at. [mm] > 0.
    tangential_strain, radial_strain
        Change along and across the rings as a share of the size, negative when drying. [1]

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
    .. math:: s = \frac{W}{2}\,\arctan\frac{W}{2r}\;(\varepsilon_R - \varepsilon_T)

    Follows from turning each bit of the section with its rings, to first order in the strain; the exact
    mapping of the section, free of stress, agrees within a percent. A board held flat by its neighbours
    cups less and is stressed instead.

    Examples
    --------
    >>> round(cup_from_rings_mm(250, pith_distance_mm=100, tangential_strain=-4 * 0.00369,
    ...     radial_strain=-4 * 0.00158), 3)
    0.945
    """
    _check(width_mm=width_mm, pith_distance_mm=pith_distance_mm)
    half = 0.5 * width_mm
    return half * math.atan(half / pith_distance_mm) * (radial_strain - tangential_strain)


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
