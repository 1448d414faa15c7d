"""Where the boards of the stockroom are from, as their labels tell it."""

from __future__ import annotations

from scantling.papers.labels import Origin
from scantling.store.stockroom import StockBoard, Stockroom

__all__ = ["origin_of"]


def origin_of(kept: StockBoard, room: Stockroom) -> Origin:
    """Where a board is from.

    Parameters
    ----------
    kept
        The board.
    room
        The stockroom, which knows the board an offcut was cut from.
    """
    words = f"from {kept.party}" if kept.party else ""
    if kept.came_from is not None:
        words = f"from {room.boards[kept.came_from].board.name}"
    read_on = kept.readings[-1][0].date() if kept.readings else None
    return Origin(number=kept.number, since=kept.since.date(), words=words, read_on=read_on)
