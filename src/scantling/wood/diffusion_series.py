"""The series solution of moisture change in a board whose faces change at once."""

from __future__ import annotations

import math

__all__ = ["uptake_crank", "uptake_crank_film"]


def uptake_crank(fourier: float) -> float:
    r"""Share of the final change that a sheet has made, both faces held at the new value.

    Parameters
    ----------
    fourier
        Dimensionless time :math:`Dt/l^2`, with the whole thickness ``l``. [1] > 0.

    Returns
    -------
    float
        :math:`E` between 0 and 1. [1]

    Notes
    -----
    .. math:: E = 1 - \frac{8}{\pi^2}\sum_{n\ge0}\frac{e^{-(2n+1)^2\pi^2Dt/l^2}}{(2n+1)^2}

    References
    ----------
    .. [1] J. Crank, *The Mathematics of Diffusion*, 2nd ed., Oxford, 1975, plane sheet, ch. 4.

    Examples
    --------
    >>> round(uptake_crank(0.1), 5)
    0.69788
    """
    total = 0.0
    for n in range(2000):
        odd = 2 * n + 1
        term = math.exp(-((odd * math.pi) ** 2) * fourier) / odd**2
        total += term
        if term < 1e-14:
            break
    return 1.0 - 8.0 / math.pi**2 * total


def _film_roots(biot: float, count: int) -> list[float]:
    """Positive roots of ``x tan x = biot``, one in each interval of pi."""
    roots = []
    for n in range(count):
        low, high = n * math.pi, n * math.pi + math.pi / 2.0
        for _ in range(80):
            middle = 0.5 * (low + high)
            if middle * math.tan(middle) < biot:
                low = middle
            else:
                high = middle
        roots.append(0.5 * (low + high))
    return roots


def uptake_crank_film(fourier: float, *, biot: float) -> float:
    r"""The same with a resistance at both faces.

    Parameters
    ----------
    fourier
        Dimensionless time :math:`Dt/l^2`, with the whole thickness ``l``. [1] > 0.
    biot
        :math:`L = S\,(l/2)/D` with the surface coefficient ``S``. [1] > 0.

    Notes
    -----
    .. math:: E = 1 - \sum_n \frac{2L^2\,e^{-4\beta_n^2Dt/l^2}}{\beta_n^2(\beta_n^2+L^2+L)},
              \quad \beta\tan\beta = L

    References
    ----------
    .. [1] J. Crank, *The Mathematics of Diffusion*, 2nd ed., Oxford, 1975, eq. 4.53.

    Examples
    --------
    >>> round(uptake_crank_film(0.1, biot=1e7), 4)
    0.6979
    """
    total = 0.0
    for root in _film_roots(biot, 200):
        weight = 2.0 * biot**2 / (root**2 * (root**2 + biot**2 + biot))
        total += weight * math.exp(-4.0 * root**2 * fourier)
    return 1.0 - total
