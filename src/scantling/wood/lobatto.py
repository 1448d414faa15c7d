"""Points through a thickness at which a smooth curve is best held: closest together at the faces."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["LobattoRule", "lobatto_rule"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LobattoRule:
    """Gauss-Lobatto points of the interval 0..1.

    Parameters
    ----------
    points
        From 0 to 1, both included. [1] shape (n,)
    weights
        Of the quadrature, adding up to 1. [1] shape (n,)
    derivative
        Matrix from values at the points to slopes there. [1] shape (n, n)
    """

    points: Array
    weights: Array
    derivative: Array


@cache
def lobatto_rule(count: int) -> LobattoRule:
    """The rule with ``count`` points, exact for polynomials up to degree ``2 count - 3``.

    Parameters
    ----------
    count
        Number of points. [1] >= 3.

    References
    ----------
    .. [1] C. Canuto, M. Y. Hussaini, A. Quarteroni, T. A. Zang, *Spectral Methods: Fundamentals in
       Single Domains*, Springer, 2006, sec. 2.3.

    Examples
    --------
    >>> [round(float(w), 6) for w in lobatto_rule(3).weights]
    [0.166667, 0.666667, 0.166667]
    """
    import numpy as np
    from numpy.polynomial import legendre

    top = np.zeros(count)
    top[-1] = 1.0
    inside = np.sort(legendre.legroots(legendre.legder(top)))
    x = np.concatenate(([-1.0], inside, [1.0]))
    value = np.asarray(legendre.legval(x, top), dtype=np.float64)
    weights = 2.0 / (count * (count - 1) * value**2)
    apart = x[:, None] - x[None, :] + np.eye(count)
    slope = value[:, None] / value[None, :] / apart
    np.fill_diagonal(slope, 0.0)
    slope[0, 0], slope[-1, -1] = -count * (count - 1) / 4.0, count * (count - 1) / 4.0
    return LobattoRule(points=(x + 1.0) / 2.0, weights=weights / 2.0, derivative=2.0 * slope)
