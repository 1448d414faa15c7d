"""Where the ends of a part are when it is marked out: at its shoulders, short of its tenons and tails."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from scantling.joinery.work import JointWork
from scantling.piece.model import End

__all__ = ["shoulder_words"]


def shoulder_words(
    part: str, works: Iterable[JointWork], *, length: Callable[[float], str], end: Callable[[End], str]
) -> str:
    """A sentence on what stands past the shoulders of a part; empty if nothing does.

    Parameters
    ----------
    part
        Its name.
    works
        All joints.
    length
        How lengths are written, with their unit.
    end
        How the part's ends are called: ``left end``.
    """
    beyond: dict[End, float] = {}
    for work in works:
        for one in work.extensions:
            if one.part == part and one.length_mm > 0.05:
                beyond[one.end] = max(one.length_mm, beyond.get(one.end, 0.0))
    if not beyond:
        return ""
    told = {place: length(amount) for place, amount in beyond.items()}
    past = " and ".join(f"{amount} past the {end(place)}" for place, amount in told.items())
    if len(told) == 2 and len(set(told.values())) == 1:
        past = f"{next(iter(told.values()))} past each"
    return f"Distances from an end are from its shoulder; what goes into the other part stands {past}."
