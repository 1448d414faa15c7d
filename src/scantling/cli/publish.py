"""``scantling publish``: the plan for readers, as one file."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

__all__ = ["publish"]


def publish(options: argparse.Namespace) -> int:
    """Write it."""
    from scantling.cli.job import given_values, job_of, piece_path
    from scantling.cli.writing import refuse_output, write_bytes
    from scantling.web.designs.designing import PieceDesigner
    from scantling.web.designs.session import Session
    from scantling.web.designs.sources import FileSources
    from scantling.web.kept.desk import desk_of

    refuse_output(options.output, ending=".html", force=options.force)
    job_of(options)  # tells everything that is wrong with it at once, as every other verb does
    piece = piece_path(options.piece)
    rack, shop, measured = (
        Path(named) if named else None for named in (options.rack, options.shop, options.measured)
    )
    sources = FileSources(
        piece,
        rack=rack,
        shop=shop,
        room=options.room,
        stockroom=desk_of(os.environ).rack,
        measured=measured,
        fractions=options.fractions,
    )
    given = given_values(options.given) | ({"units": options.units} if options.units else {})
    taken = Session(piece, designer=PieceDesigner(sources)).published(given)
    write_bytes(options.output, taken.content)
    print(f"{options.output}: {len(taken.content) / 1e6:.1f} MB, opens in any browser without a network")
    return 0
