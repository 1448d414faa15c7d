"""Questions of timber: what stands in the rack."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scantling.stock.rack import Rack

__all__ = ["rack"]


def rack(options: argparse.Namespace) -> int:
    """Print a rack, tallied and priced."""
    from scantling.cli.show import print_sheets
    from scantling.papers.sheets.rack import rack_sheet
    from scantling.papers.sheets.show import Show
    from scantling.shop.profile_file import default_shop, read_shop
    from scantling.stock.findings import findings_of_rack
    from scantling.stock.rack import read_rack

    boards = read_rack(Path(options.rack))
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
