"""The part of a board's load that may come on each of the parts that carry it, by where they stand."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.piece.convex import body_of
from scantling.piece.geometry import Vec
from scantling.piece.model import Part
from scantling.structure.continuous import worst_shares

__all__ = ["shares_of"]

_ALONG = 0.5
"""From this part of the board's length on, a support runs along it and does not cross it. [1]"""
_WHOLE = 1e-9


def shares_of(board: Part, supports: Sequence[Part]) -> dict[str, float]:
    """The most of what lies on a board that may come on each support, by name. [1]

    Parameters
    ----------
    board
        The board; its load is spread evenly over as much of it as is filled.
    supports
        Parts that carry it, each once.

    Notes
    -----
    Supports that cross the board carry it as a beam along its grain, those that all run along it as one
    across. Those on one line across that beam share what comes on the line as a beam on their places along
    it does. Where some cross the board and some run along, it is a plate held all round: half on any of them.
    """
    if len(supports) < 2:
        return {one.name: 1.0 for one in supports}
    ways = ((board.frame.grain, board.length_mm), (board.frame.width, board.width_mm))
    reaches = [[_reach(board, one, way, size) for one in supports] for way, size in ways]
    runs = [high - low > _ALONG * board.length_mm for low, high in reaches[0]]
    if any(runs) and not all(runs):
        return {one.name: 0.5 for one in supports}
    order = (1, 0) if all(runs) else (0, 1)
    sizes = [ways[at][1] for at in order]
    places = [[_place(reach, ways[at][1]) for reach in reaches[at]] for at in order]
    found: dict[str, float] = {}
    for line, on_line in _by_place(sizes[0], places[0], range(len(supports)), apart=board.thickness_mm):
        across = [places[1][at] for at in line]
        for spot, on_spot in _by_place(sizes[1], across, line, apart=board.thickness_mm):
            for at in spot:
                found[supports[at].name] = round(on_line * on_spot / len(spot), 9)
    return found


def _by_place(
    size_mm: float, places_mm: Sequence[float], which: Sequence[int], *, apart: float
) -> list[tuple[list[int], float]]:
    """Supports in groups by where they stand, each with the most of the load that may come on the group. [1]

    Supports nearer to each other than the board is thick stand in one place, in the middle of them.
    """
    groups: list[list[tuple[float, int]]] = []
    for one in sorted(zip(places_mm, which, strict=True)):
        if groups and one[0] - groups[-1][-1][0] < apart:
            groups[-1].append(one)
        else:
            groups.append([one])
    middles = tuple(round((group[0][0] + group[-1][0]) / 2.0, 6) for group in groups)
    shares = worst_shares(round(size_mm, 6), middles) if len(groups) > 1 else (1.0,)
    return [([at for _, at in group], share) for group, share in zip(groups, shares, strict=True)]


def _reach(board: Part, support: Part, way: Vec, length_mm: float) -> tuple[float, float]:
    """Where a support lies under the board along a way, from the board's beginning. [mm]"""
    base = body_of(board).extent(way)[0]
    low, high = body_of(support).extent(way)
    return (min(max(low - base, 0.0), length_mm), min(max(high - base, 0.0), length_mm))


def _place(reach: tuple[float, float], length_mm: float) -> float:
    """Middle of a support; one that reaches the board's one end holds that end. [mm]"""
    low, high = reach
    begins, ends = low <= _WHOLE, high >= length_mm - _WHOLE
    if begins is not ends:
        return 0.0 if begins else length_mm
    return (low + high) / 2.0
