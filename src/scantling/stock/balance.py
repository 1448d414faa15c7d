"""How the time of a search is shared between better answers and a better bound."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["Balance"]

SHARE = 2.0
"""Time for better answers, as a multiple of the time for the bound."""
TURNS = 2
"""Renewals to a step for the bound, where no clock runs."""


@dataclass(slots=True)
class _Spent:
    """Time spent on one thing: a context that adds to it."""

    clock: Callable[[], float] | None
    total_s: float = 0.0
    begun_s: float = 0.0

    def __enter__(self) -> None:
        self.begun_s = self.clock() if self.clock else 0.0

    def __exit__(self, *_: object) -> None:
        self.total_s += self.clock() - self.begun_s if self.clock else 0.0


class Balance:
    """Keeps twice the time for renewals that the bound takes; without a clock, renewals come two to a step.

    Parameters
    ----------
    clock
        In seconds; None where only the number of rounds counts.
    """

    def __init__(self, clock: Callable[[], float] | None) -> None:
        self.proving, self.renewing = _Spent(clock), _Spent(clock)
        self._clock, self._turn = clock, 0

    @property
    def renewing_is_due(self) -> bool:
        """Whether another renewal comes before the next step for the bound."""
        if self._clock is not None:
            return self.renewing.total_s < SHARE * self.proving.total_s
        self._turn = (self._turn + 1) % TURNS
        return self._turn != 0
