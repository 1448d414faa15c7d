"""Questions of timber: what stands in the rack, and how well it can be used."""

from __future__ import annotations

import argparse
import json
import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scantling.stock.racks.rack import Rack

__all__ = ["boards", "rack"]


def rack(options: argparse.Namespace) -> int:
    """Print a rack, tallied and priced."""
    from scantling.cli.records import rack_of
    from scantling.cli.show import print_sheets
    from scantling.papers.sheets.rack import rack_sheet
    from scantling.papers.sheets.show import Show
    from scantling.shop.profile.profile_file import default_shop, read_shop
    from scantling.stock.checking.findings import findings_of_rack

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

    from scantling.stock.boards.tally import tally_boards

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
    from scantling.cli.progress import Progress
    from scantling.cli.run import is_run, run_boards, workers_of
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
    workers = workers_of(options)
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
    plan = planner.plan(replace(job, layout_s=options.seconds, layout_workers=workers))
    print_sheets(tuple(s for s in sheets_of(plan) if s.id == "boards"))
    return 0
