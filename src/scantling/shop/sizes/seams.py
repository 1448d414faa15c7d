"""Seams of a panel placed clear of edges and fasteners, with strips as even as that allows."""

from __future__ import annotations

from collections.abc import Callable, Sequence

__all__ = ["seams_clear_of"]

_GRID_MM = 2.0

Rows = dict[float, tuple[float, tuple[float, ...]]]
"""By the place of the last seam: unevenness so far, and the seams."""


def seams_clear_of(
    width_mm: float,
    lines_mm: Sequence[float],
    *,
    count: int,
    clear_mm: float,
    ends_mm: float,
    limits_mm: tuple[float, float],
) -> tuple[float, ...] | None:
    r"""The seams of ``count`` strips, the most even ones that keep clear; None if none do.

    Exact over a grid of 2 mm, by dynamic programming over the seams from one edge to the other.

    Parameters
    ----------
    width_mm
        Finished width. [mm]
    lines_mm
        Lines to keep clear of, from one finished edge. [mm]
    count
        Strips. >= 2
    clear_mm
        Least distance from edges and lines. [mm]
    ends_mm
        Extra width of each outer strip, to be trimmed. [mm]
    limits_mm
        Least and greatest width of a strip. [mm]

    Notes
    -----
    Minimizes :math:`\sum (w_i - \bar w)^2`.

    Examples
    --------
    >>> seams_clear_of(400, [200], count=2, clear_mm=25, ends_mm=6, limits_mm=(50, 300))
    (174.0,)
    """
    places = [
        at
        for step in range(1, int(width_mm / _GRID_MM))
        if clear_mm <= (at := step * _GRID_MM) <= width_mm - clear_mm
        and all(abs(at - line) >= clear_mm for line in lines_mm)
    ]
    even = (width_mm + 2.0 * ends_mm) / count
    least, most = limits_mm

    def cost(strip_mm: float) -> float | None:
        return (strip_mm - even) ** 2 if least - 1e-9 <= strip_mm <= most + 1e-9 else None

    best: Rows = {at: (c, (at,)) for at in places if (c := cost(at + ends_mm)) is not None}
    for _ in range(count - 2):
        best = _next_seams(best, places, most, cost)
    ended = [
        (total + last, seams)
        for at, (total, seams) in best.items()
        if (last := cost(width_mm - at + ends_mm)) is not None
    ]
    return min(ended)[1] if ended else None


def _next_seams(
    best: Rows,
    places: Sequence[float],
    most_mm: float,
    cost: Callable[[float], float | None],
) -> Rows:
    """One more seam: for every place, the cheapest row of seams that ends there."""
    found: Rows = {}
    for at in places:
        for before, (total, seams) in best.items():
            if not 0.0 < at - before <= most_mm + 1e-9:
                continue
            step = cost(at - before)
            if step is not None and (at not in found or total + step < found[at][0]):
                found[at] = (total + step, (*seams, at))
    return found
