"""Once a layout is sawn: its boards out of the stockroom, and what is worth keeping of them back in."""

from __future__ import annotations

from scantling.errors import InputError
from scantling.stock.layout import Layout
from scantling.stock.leftover import leftover_boards
from scantling.store.stock_log import Change
from scantling.store.stockroom import StockKind, Stockroom

__all__ = ["changes_of_layout"]


def changes_of_layout(room: Stockroom, layout: Layout | None, *, title: str) -> list[Change]:
    """What sawing a layout changes: one act, to be kept whole or not at all.

    Parameters
    ----------
    room
        The timber there is.
    layout
        Laid out on it; None for a piece without boards.
    title
        The piece it is for.

    Returns
    -------
    list[Change]
        Each board cut goes out, then its usable offcuts come in, named as the layout chalks them.

    Raises
    ------
    InputError
        ``nothing_cut``; ``unknown_board`` for a board that is not in the stockroom.
    """
    if layout is None or not layout.boards:
        raise InputError(
            code="nothing_cut",
            field="piece",
            value=title,
            rule="must be cut from boards of the stockroom; its plan cuts none",
            remedy="Look at the boards sheet: scantling plan PIECE --rack stockroom --sheet boards.",
        )
    changes: list[Change] = []
    for cut in layout.boards:
        number = room.find(cut.board.name).number
        changes.append(Change(kind=StockKind.USED, board=number, party=title[:200]))
        changes += [
            Change(kind=StockKind.KEPT, row=offcut, came_from=number) for offcut in leftover_boards(cut)
        ]
    return changes
