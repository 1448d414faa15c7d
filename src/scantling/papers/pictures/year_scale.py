"""Scales of pictures of a year: months as even steps, ends and ticks of a band."""

from __future__ import annotations

import math
from collections.abc import Sequence

__all__ = ["half_months", "scale_of", "step_of"]


def half_months(values: Sequence[float]) -> tuple[float, ...]:
    """Twelve values in the middle of their months as 25 even steps, straight lines between them.

    Examples
    --------
    >>> half_months([0.0, 2.0] * 6)[:4]
    (1.0, 0.0, 1.0, 2.0)
    """
    steps = []
    for k in range(25):
        month, odd = divmod(k - 1, 2)
        here = values[month % 12]
        steps.append(here if odd == 0 else (here + values[(month + 1) % 12]) / 2.0)
    return tuple(steps)


def scale_of(values: Sequence[float], step: float) -> tuple[float, float, tuple[float, ...]]:
    """The ends of a scale that holds some values, at whole steps, and the ticks between.

    Examples
    --------
    >>> scale_of([5.2, 9.9], 2.0)
    (4.0, 10.0, (4.0, 6.0, 8.0, 10.0))
    """
    low, high = math.floor(min(values) / step) * step, math.ceil(max(values) / step) * step
    high = high if high > low else low + step
    count = round((high - low) / step)
    return low, high, tuple(round(low + i * step, 6) for i in range(count + 1))


def step_of(values: Sequence[float], steps: Sequence[float]) -> float:
    """The smallest of some steps that makes five or fewer of the spread of some values."""
    spread = max(values) - min(values)
    return next((s for s in steps if spread / s <= 5.0), steps[-1])
