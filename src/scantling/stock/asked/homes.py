"""Where the members of a wish may come from: boards, flitches, neighbors in a flitch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from scantling.piece.matching import WishKind
from scantling.stock.asked.blank import Blank, FreeWidthPanel, accepts_board
from scantling.stock.asked.wish import Wish, neighbors
from scantling.stock.boards.board import Board

__all__ = ["Home", "homes_for", "housed"]

Home = tuple[str, ...]
"""Names of boards, in the order of the rack."""


def _groups(kind: WishKind, boards: Sequence[Board]) -> Iterator[tuple[Board, ...]]:
    yield from ((b,) for b in boards)
    if kind is WishKind.SAME_FLITCH:
        for flitch in dict.fromkeys(b.flitch for b in boards if b.flitch):
            yield tuple(b for b in boards if b.flitch == flitch)
    elif kind is WishKind.ALIKE:
        yield from (pair for pair in combinations(boards, 2) if neighbors(pair))


def homes_for(wish: Wish, needs: Sequence[Blank | FreeWidthPanel], boards: Sequence[Board]) -> list[Home]:
    """Homes that could hold all members by area, the tightest first; where there is none, the roomiest.

    Parameters
    ----------
    wish
        The wish; not one that is folded.
    needs
        Its members.
    boards
        The rack.
    """
    wanted = sum(n.area_mm2 for n in needs)
    found: list[tuple[float, Home]] = []
    for group in _groups(wish.kind, boards):
        fit = [b for b in group if any(accepts_board(n, b) for n in needs)]
        if not fit or not all(any(accepts_board(n, b) for b in fit) for n in needs):
            continue
        room = sum(b.mean_width_mm * (b.length_mm - b.left_trim_mm - b.right_trim_mm) for b in fit)
        found.append((room, tuple(b.name for b in fit)))
    roomy = sorted({h: r for r, h in found if r >= wanted}.items(), key=lambda pair: pair[1])
    if roomy:
        return [home for home, _ in roomy]
    return [max(found)[1]] if found else []


def housed(need: Blank | FreeWidthPanel, home: Home) -> Blank | FreeWidthPanel:
    """A need that may only come from a home."""
    boards = tuple(n for n in home if not need.boards or n in need.boards)
    return replace(need, boards=boards) if boards else need
