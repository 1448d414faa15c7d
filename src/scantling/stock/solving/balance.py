"""How the time of a search is shared between better answers and a better bound."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["FIRST_SHARE", "SHARE", "Balance"]

FIRST_SHARE, SHARE = 0.5, 2.0
"""Time for better answers as a multiple of that for the bound: at first, and once the bound helps them."""
TURNS = 2
"""Attempts at a better answer to a step for the bound, where no clock runs."""


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
    """Shares time between better answers and the bound; without a clock, two attempts come to a step.

    Parameters
    ----------
    clock
        In seconds; None where only the number of rounds counts.
    """

    def __init__(self, clock: Callable[[], float] | None) -> None:
        self.proving, self.bettering = _Spent(clock), _Spent(clock)
        self._clock, self._turn, self._ended = clock, TURNS, False
        self.share = FIRST_SHARE

    @property
    def proving_is_due(self) -> bool:
        """Whether a step for the bound comes next."""
        if self._clock is not None:
            return not self._ended and self.bettering.total_s >= self.share * self.proving.total_s
        self._turn = (self._turn + 1) % (TURNS + 1)
        return self._turn == 0

    def proved(self) -> None:
        """There is nothing more to do for the bound."""
        self._ended = True

    @property
    def round_is_over(self) -> bool:
        """Whether what was done is a round: whatever it was by a clock, else a step and its attempts."""
        return self._clock is not None or self._turn == TURNS
