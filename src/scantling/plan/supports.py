"""The part of a board's load that may come on each of the parts that carry it, by where they stand."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.piece.convex import body_of
from scantling.piece.geometry import Vec
from scantling.piece.model import Part
from scantling.structure.continuous import beside_share, worst_shares

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
    across. Where some cross it and some run along, it is a plate held all round: half on any of them.
    """
    if len(supports) < 2:
        return {one.name: 1.0 for one in supports}
    along = [_reach(board, one, board.frame.grain, board.length_mm) for one in supports]
    runs = [high - low > _ALONG * board.length_mm for low, high in along]
    if any(runs) and not all(runs):
        return {one.name: 0.5 for one in supports}
    length, reaches = board.length_mm, along
    if all(runs):
        length = board.width_mm
        reaches = [_reach(board, one, board.frame.width, length) for one in supports]
    names = [one.name for one in supports]
    return _beam(length, [_place(reach, length) for reach in reaches], names, apart=board.thickness_mm)


def _beam(length_mm: float, places_mm: list[float], names: list[str], *, apart: float) -> dict[str, float]:
    """Shares by place; supports nearer than the board is thick are one place and share what comes on it."""
    beside: list[list[tuple[float, str]]] = []
    for place, name in sorted(zip(places_mm, names, strict=True)):
        if beside and place - beside[-1][0][0] < apart:
            beside[-1].append((place, name))
        else:
            beside.append([(place, name)])
    places = tuple(round(group[0][0], 6) for group in beside)
    shares = worst_shares(round(length_mm, 6), places) if len(places) > 1 else (1.0,)
    return {
        name: round(share * beside_share(len(group)), 9)
        for share, group in zip(shares, beside, strict=True)
        for _, name in group
    }


def _reach(board: Part, support: Part, way: Vec, length_mm: float) -> tuple[float, float]:
    """Where a support lies under the board along a way, from the board's beginning. [mm]"""
    base = body_of(board).extent(way)[0]
    low, high = body_of(support).extent(way)
    return (min(max(low - base, 0.0), length_mm), min(max(high - base, 0.0), length_mm))


def _place(reach: tuple[float, float], length_mm: float) -> float:
    """Middle of a support; one that reaches the board's end holds the end. [mm]"""
    low, high = reach
    if low <= _WHOLE:
        return 0.0
    return length_mm if high >= length_mm - _WHOLE else (low + high) / 2.0
