"""The way in, in words, for every face."""

from __future__ import annotations

from collections.abc import Callable

from scantling.plan.standing.moving import Load
from scantling.structure.doorway import PADDING_MM

__all__ = ["alone_words", "padding_words", "way_words"]


def way_words(load: Load, length: Callable[[float], str]) -> str:
    """How a load is held at each opening, and what is to spare at the tightest.

    Parameters
    ----------
    load
        What is carried.
    length
        Writes a length [mm] with its unit.
    """
    way = load.way
    if way is None:
        return "no door given"
    if not way.passes:
        return f"stuck at {way.blocked_at}, {length(way.short_by_mm)} too big"
    steps = (f"{s.passage}: {s.before + ', ' if s.before else ''}{s.stance}" for s in way.steps)
    return f"{'; '.join(steps)} ({length(way.spare_mm)} to spare)"


def alone_words(load: Load) -> str:
    """What one person can do with it."""
    lifts = "can lift it" if load.lift.alone_lifts else "cannot lift it"
    return f"{lifts}, {'can' if load.lift.alone_turns else 'cannot'} turn it"


def padding_words(length: Callable[[float], str]) -> str:
    """What is taken for blankets, as a sentence."""
    return f"What is to spare at an opening is reckoned with {length(PADDING_MM)} of wrapping on every side."
