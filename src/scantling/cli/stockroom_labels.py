"""Labels of the boards in the stockroom."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scantling.papers.labels import Origin
    from scantling.store.stockroom import StockBoard, Stockroom

__all__ = ["labels"]


def labels(options: argparse.Namespace) -> int:
    """Write labels for the boards named, for all that are there if none is."""
    from scantling.cli.records import opened
    from scantling.cli.writing import refuse_output, write_bytes
    from scantling.papers.labels import board_label, labels_pdf
    from scantling.papers.packet import Paper
    from scantling.store.stock_log import stockroom

    refuse_output(options.output, ending=".pdf", force=options.force)
    with opened() as database, database.reading() as records:
        room = stockroom(records)
    boards = [room.find(called) for called in options.boards] or list(room.present)
    room.rack()  # an empty stockroom says how to fill it
    paper = Paper.LETTER if options.paper == "letter" else Paper.A4
    made = [board_label(kept.board, _origin(kept, room), units=options.units) for kept in boards]
    write_bytes(options.output, labels_pdf(made, paper=paper))
    print(f"{options.output}: {len(boards)} label{'s' if len(boards) != 1 else ''}. Print it at 100 %.")
    return 0


def _origin(kept: StockBoard, room: Stockroom) -> Origin:
    from scantling.papers.labels import Origin

    words = f"from {kept.party}" if kept.party else ""
    if kept.came_from is not None:
        words = f"from {room.boards[kept.came_from].board.name}"
    read_on = kept.readings[-1][0].date() if kept.readings else None
    return Origin(number=kept.number, since=kept.since.date(), words=words, read_on=read_on)
