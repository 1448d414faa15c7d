"""The order of cuts: everything that is ready at one saw before anything is carried to the next."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import takewhile

from scantling.stock.layouts.layout import BoardLayout, Cut, CutKind

__all__ = ["Visit", "by_saw", "visits"]

_ROUND = (CutKind.CROSSCUT, CutKind.STRAIGHTEN, CutKind.RIP)
"""The way round the shop."""


def _after(kind: CutKind) -> tuple[CutKind, ...]:
    """The kinds in the order they are walked to from one of them, that one last."""
    at = _ROUND.index(kind) + 1
    return (*_ROUND[at:], *_ROUND[:at])


def _needs(cuts: Sequence[Cut]) -> list[int | None]:
    """For each cut, the cut that leaves the piece it is made in; None where that is the board.

    What is left of a piece keeps its name, so the last cut before that leaves a piece of the name counts.
    """
    left_by: dict[str, int] = {}
    found: list[int | None] = []
    for number, cut in enumerate(cuts):
        found.append(left_by.get(cut.piece))
        left_by |= {name: number for name in cut.yields if name}
    return found


def by_saw(cuts: Sequence[Cut]) -> tuple[Cut, ...]:
    """Cuts of one board put in the order of the fewest walks from saw to saw, numbered from 1.

    Parameters
    ----------
    cuts
        In an order that can be carried out.

    Returns
    -------
    tuple of Cut
        The same cuts; each still finds the piece it is made in.
    """
    if not cuts:
        return ()
    needs = _needs(cuts)
    done: list[int] = []
    left = list(range(len(cuts)))
    kind = cuts[0].kind
    while left:
        ready = (n for n in left if cuts[n].kind is kind and (needs[n] is None or needs[n] in done))
        chosen = next(ready, None)
        if chosen is None:
            there = {cuts[n].kind for n in left if needs[n] is None or needs[n] in done}
            kind = next(k for k in _after(kind) if k in there)
            continue
        done.append(chosen)
        left.remove(chosen)
    return tuple(replace(cuts[n], order=order) for order, n in enumerate(done, start=1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One stand at a saw: cuts of one kind, board by board."""

    kind: CutKind
    boards: tuple[tuple[str, tuple[Cut, ...]], ...]


def _first_of(kind: CutKind, cuts: Sequence[Cut]) -> tuple[Cut, ...]:
    return tuple(takewhile(lambda cut: cut.kind is kind, cuts))


def visits(boards: Iterable[BoardLayout]) -> tuple[Visit, ...]:
    """The cuts of all boards as stands at the saws, each board's own order kept.

    Parameters
    ----------
    boards
        Boards with their cuts in order.

    Returns
    -------
    tuple of Visit
        Together they hold every cut once.
    """
    left = [(board.board.name, list(board.cuts)) for board in boards if board.cuts]
    found: list[Visit] = []
    kind = CutKind.RIP  # the one before the crosscuts
    while left:
        there = {cuts[0].kind for _, cuts in left}
        kind = next(k for k in _after(kind) if k in there)
        taken = [(name, _first_of(kind, cuts)) for name, cuts in left]
        found.append(Visit(kind=kind, boards=tuple((name, cuts) for name, cuts in taken if cuts)))
        left = [
            (name, cuts[len(now) :])
            for (name, cuts), (_, now) in zip(left, taken, strict=True)
            if len(cuts) > len(now)
        ]
    return tuple(found)
