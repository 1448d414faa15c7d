"""Questions of timber: what stands in the rack, and how well it can be used."""

from __future__ import annotations

import argparse
import json
import math
import sys
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scantling.stock.rack import Rack
    from scantling.stock.solve import LayoutAnswer

__all__ = ["Progress", "boards", "rack"]


def rack(options: argparse.Namespace) -> int:
    """Print a rack, tallied and priced."""
    from scantling.cli.records import rack_of
    from scantling.cli.show import print_sheets
    from scantling.papers.sheets.rack import rack_sheet
    from scantling.papers.sheets.show import Show
    from scantling.shop.profile_file import default_shop, read_shop
    from scantling.stock.findings import findings_of_rack

    boards = rack_of(options.rack)
    if options.json:
        print(json.dumps(_rack_json(boards), indent=1))
        return 0
    shop = read_shop(options.shop) if options.shop else default_shop()
    sheet = rack_sheet(
        boards,
        show=Show.in_units(options.units),
        currency=shop.rates.currency,
        findings=findings_of_rack(boards.boards).findings,
    )
    print_sheets((sheet,))
    return 0


def _rack_json(rack_: Rack) -> object:
    """Boards, with what they tally."""
    from dataclasses import asdict

    from scantling.stock.tally import tally_boards

    return [
        {
            **asdict(t.board),
            "tally_board_feet": t.board.tally_board_feet,
            "board_feet": t.board.board_feet,
            "volume_m3": t.board.volume_m3,
            "price_total": t.price,
            "free_pct": t.free_pct,
        }
        for t in tally_boards(rack_.boards)
    ]


def boards(options: argparse.Namespace) -> int:
    """Lay the boards out for as long as is given, and print the best layout; an interrupt ends the search."""
    from dataclasses import replace

    from scantling.cli.job import job_of
    from scantling.cli.run import is_run, run_boards
    from scantling.cli.show import print_sheets
    from scantling.errors import InputError
    from scantling.papers.sheets.all import sheets_of
    from scantling.plan.planner import Planner

    if not math.isfinite(options.seconds) or options.seconds <= 0:
        raise InputError(
            code="not_positive",
            field="--seconds",
            value=f"{options.seconds:g}",
            rule="must be a time above 0",
            remedy="Write, for example, --seconds 60.",
        )
    if options.rack is not None and is_run(options):
        return run_boards(options)
    options.piece = options.piece[0]
    job = job_of(options)
    if job.rack is None:
        raise InputError(
            code="no_rack",
            field="--rack",
            value="nothing",
            rule="must name a rack to lay out",
            remedy="Write --rack boards.csv; without one, scantling plan says what to buy.",
        )
    planner = Planner(told=Progress(job.shop.rates.currency))
    plan = planner.plan(replace(job, layout_s=options.seconds))
    print_sheets(tuple(s for s in sheets_of(plan) if s.id == "boards"))
    return 0


class Progress:
    """Says on standard error how good the best layout is, whenever there is a better one."""

    def __init__(self, currency: str) -> None:
        self.currency, self.begun = currency, time.monotonic()

    def __call__(self, answer: LayoutAnswer) -> None:
        """Tell of an answer."""
        layout = answer.layout
        missing = len(layout.unplaced) + sum(s.missing_mm > 1e-6 for s in layout.strips)
        said = [f"{missing} without wood" if missing else "every blank has its place"]
        if layout.price is not None:
            said.append(f"{layout.price:,.2f} {self.currency}")
        if layout.gap_pct is not None:
            said.append("proven best" if answer.proven else f"at most {layout.gap_pct:.1f} % above the best")
        print(f"{time.monotonic() - self.begun:5.1f} s: {', '.join(said)}", file=sys.stderr, flush=True)
