"""Once something is sawn: boards out of the stockroom, and what is worth keeping of them back in."""

from __future__ import annotations

from scantling.errors import InputError
from scantling.plan.made.bench import BenchState
from scantling.stock.layouts.layout import BoardLayout, Layout
from scantling.stock.layouts.leftover import leftover_boards, offcut_board
from scantling.store.stock_log import Change
from scantling.store.stockroom import StockBoard, StockKind, Stockroom

__all__ = ["changes_of_layout", "gone_for", "offcut_change"]


def changes_of_layout(
    room: Stockroom,
    layout: Layout | None,
    *,
    title: str,
    piece: int | None = None,
    bench: BenchState | None = None,
) -> list[Change]:
    """What sawing a layout changes: one act, to be kept whole or not at all.

    Parameters
    ----------
    room
        The timber there is.
    layout
        Laid out on it; None for a piece without boards.
    title, piece
        The piece it is for, and its number where it is kept.
    bench
        What has been cut and pinned: boards begun go out too, and of one that pins part, the pieces left.

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
            remedy="Look at its boards: are they of the stockroom?",
        )
    changes: list[Change] = []
    for root, cuts in _by_board(layout, bench).items():
        number = room.find(root).number
        changes.append(Change(kind=StockKind.USED, board=number, party=title[:200], piece=piece))
        again = {cut.board.name for cut in cuts}
        changes += [
            Change(kind=StockKind.KEPT, row=offcut, came_from=number)
            for cut in cuts
            for offcut in leftover_boards(cut)
            if offcut.name not in again
        ]
    return changes


def _by_board(layout: Layout, bench: BenchState | None) -> dict[str, list[BoardLayout]]:
    """What is cut of each board of the stockroom: it, and the pieces that pins have parted off it."""
    parted, roots = (bench.parted, dict(bench.roots)) if bench else ((), {})
    found: dict[str, list[BoardLayout]] = {}
    for cut in (*parted, *layout.boards):
        name = cut.board.name
        if bench is not None and name.endswith(" rest") and name.removesuffix(" rest") in bench.begun:
            name = name.removesuffix(" rest")
        found.setdefault(roots.get(name, name), []).append(cut)
    return found


def offcut_change(board: StockBoard, *, length_mm: float, width_mm: float, name: str = "") -> Change:
    """An offcut put in as it was measured at the bench.

    Parameters
    ----------
    board
        What it was cut from.
    length_mm, width_mm
        Its size. [mm]
    name
        What is chalked on it; the board's name and the word offcut if empty.

    Raises
    ------
    InputError
        ``not_positive``, ``larger_than_board``.
    """
    called = name.strip() or f"{board.board.name} offcut"
    row = offcut_board(board.board, name=called, length_mm=length_mm, width_mm=width_mm)
    return Change(kind=StockKind.KEPT, row=row, came_from=board.number)


def gone_for(room: Stockroom, title: str) -> tuple[StockBoard, ...]:
    """Boards that went out for a piece earlier: what is sawn is not to be taken out a second time."""
    return tuple(
        kept for kept in room.boards.values() if kept.went is StockKind.USED and kept.went_to == title[:200]
    )
