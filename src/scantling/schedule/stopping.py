"""When a search stops."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["Stop"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Stops after a number of tries or seconds, whichever comes first.

    Parameters
    ----------
    tries
        Orders tried. [1] With tries alone the answer is the same on every machine.
    seconds
        None sets no limit. [s]
    clock
        Where the time comes from.
    """

    tries: int = 300
    seconds: float | None = None
    clock: Callable[[], float] = time.monotonic

    def starting(self) -> Callable[[int], bool]:
        """A question to ask with the number of tries made: whether to stop."""
        began = self.clock()

        def over(made: int) -> bool:
            late = self.seconds is not None and self.clock() - began >= self.seconds
            return made >= self.tries or late

        return over
