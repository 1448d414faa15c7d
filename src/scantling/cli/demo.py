"""The demo: the whole job on one real piece."""

from __future__ import annotations

import argparse
import webbrowser

from scantling.cli.job import job_from_files
from scantling.cli.writing import refuse_output, write_bytes
from scantling.piece.forms import demo_files

__all__ = ["demo"]


def demo(options: argparse.Namespace) -> int:
    """Plan the demo piece, write its packet, open its page."""
    from scantling.cli.show import print_sheets
    from scantling.papers.packet import Paper
    from scantling.papers.pages.packet_pdf import packet_pdf
    from scantling.papers.sheets.all import overview_sheet, sheet_of
    from scantling.papers.sheets.business import findings_sheet
    from scantling.plan.planner import Planner

    refuse_output(options.output, ending=".pdf", force=True)
    paths = demo_files()
    job = job_from_files(paths["piece"], shop=paths["shop"], rack=paths["rack"], room=str(paths["room"]))
    planner = Planner()
    plan = planner.plan(job)
    print_sheets((sheet_of(plan, overview_sheet), sheet_of(plan, findings_sheet)))
    write_bytes(
        options.output,
        packet_pdf(job, planner, paper=Paper.LETTER if options.paper == "letter" else Paper.A4),
    )
    print(f"\nPacket: {options.output}")
    if options.no_serve:
        return 0
    from scantling.web.serving import serve

    opened = (lambda _address: None) if options.no_browser else webbrowser.open
    serve(
        paths["piece"],
        rack=paths["rack"],
        shop=paths["shop"],
        room=paths["room"],
        port=options.port or None,
        opened=opened,
    )
    return 0
