"""Whether a layout grants the wishes between blanks."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.piece.matching import WishKind
from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.wish import Wish, WishAnswer, neighbors, pairs
from scantling.stock.boards.board import Board
from scantling.stock.layouts.layout import Layout

__all__ = ["answered"]

_Place = tuple[Board, tuple[str, ...]]
"""A board, and the names of the blanks cut as one with this; empty for one on its own."""


def _one_flitch(boards: Sequence[Board]) -> bool:
    flitches = {b.flitch for b in boards}
    return len({b.name for b in boards}) < 2 or (len(flitches) == 1 and flitches != {""})


def answered(
    layout: Layout,
    wishes: tuple[Wish, ...],
    *,
    blanks: Sequence[Blank],
    panels: Sequence[FreeWidthPanel],
) -> tuple[WishAnswer, ...]:
    """Each wish with whether the layout grants it.

    Parameters
    ----------
    layout
        The layout.
    wishes
        What is wished.
    blanks, panels
        What was asked for, unfolded.
    """
    places: dict[str, list[_Place]] = {need.name: [] for need in blanks}
    places.update({need.name: [] for need in panels})
    for laid in layout.boards:
        for placed in laid.placed:
            whole = placed.blank.name in places  # asked for as it is, whatever is cut out of it later
            names = () if whole else tuple(m.name for m in placed.blank.members)
            for name in names or (_owner(placed.blank.name, places),):
                places[name].append((laid.board, names))
    short = {s.panel for s in layout.strips if s.missing_mm > 1e-6}
    return tuple(_answer(wish, places, short) for wish in wishes)


def _owner(name: str, known: dict[str, list[_Place]]) -> str:
    """The blank, or the panel of a strip."""
    return name if name in known else name.rpartition(" strip ")[0]


def _answer(wish: Wish, places: dict[str, list[_Place]], short: set[str]) -> WishAnswer:
    own = [place for member in wish.members for place in places[member]]
    there = all(places[m] and m not in short for m in wish.members)
    sound = _sound(wish, own)
    return WishAnswer(
        wish=wish,
        granted=there and sound,
        broken=not sound,
        boards=tuple(dict.fromkeys(board.name for board, _ in own)),
    )


def _sound(wish: Wish, places: list[_Place]) -> bool:
    """Whether the members that are laid out lie as wished."""
    boards = [board for board, _ in places]
    match wish.kind:
        case WishKind.SAME_BOARD:
            return len({b.name for b in boards}) < 2
        case WishKind.SAME_FLITCH:
            return _one_flitch(boards)
        case WishKind.ALIKE:
            return neighbors(boards)
        case WishKind.BOOK | WishKind.RESAWN:
            return all(names in pairs(wish.members) for _, names in places)
    return len(wish.members) < 2 or all(names == wish.members for _, names in places)
