"""Labels of the boards in the stockroom."""

from __future__ import annotations

import argparse

__all__ = ["labels"]


def labels(options: argparse.Namespace) -> int:
    """Write labels for the boards named, for all that are there if none is."""
    from scantling.cli.records import opened
    from scantling.cli.writing import refuse_output, write_bytes
    from scantling.papers.labels import board_label, labels_pdf
    from scantling.papers.packet import Paper
    from scantling.store.stock_log import stockroom
    from scantling.web.routes.origins import origin_of

    refuse_output(options.output, ending=".pdf", force=options.force)
    with opened() as database, database.reading() as records:
        room = stockroom(records)
    boards = [room.find(called) for called in options.boards] or list(room.present)
    room.rack()  # an empty stockroom says how to fill it
    paper = Paper.LETTER if options.paper == "letter" else Paper.A4
    made = [board_label(kept.board, origin_of(kept, room), units=options.units) for kept in boards]
    write_bytes(options.output, labels_pdf(made, paper=paper))
    print(f"{options.output}: {len(boards)} label{'s' if len(boards) != 1 else ''}. Print it at 100 %.")
    return 0
