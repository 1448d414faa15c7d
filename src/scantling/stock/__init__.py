"""Timber: the boards in the rack, what a piece asks of them, and where each blank comes from."""

from scantling.stock.blank import Blank, FreeWidthPanel, accepts_board
from scantling.stock.board import Board, Defect, DefectKind, Face, FirstCut, Price, PriceBasis
from scantling.stock.cutting import Cutting
from scantling.stock.engine import Method
from scantling.stock.findings import findings_after, findings_before
from scantling.stock.layout import BoardLayout, Cut, CutKind, Layout, Offcut, Placed, StripWidths
from scantling.stock.measure import DEFAULT_YIELD, Purchase, Yield, boards_to_buy, buy_board_feet
from scantling.stock.rack import Rack, parse_rack, read_rack
from scantling.stock.solve import LayoutAnswer, LayoutRequest, StopRule, lay_out, solve
from scantling.stock.verify import Violation, verify_layout

__all__ = [
    "DEFAULT_YIELD",
    "Blank",
    "Board",
    "BoardLayout",
    "Cut",
    "CutKind",
    "Cutting",
    "Defect",
    "DefectKind",
    "Face",
    "FirstCut",
    "FreeWidthPanel",
    "Layout",
    "LayoutAnswer",
    "LayoutRequest",
    "Method",
    "Offcut",
    "Placed",
    "Price",
    "PriceBasis",
    "Purchase",
    "Rack",
    "StopRule",
    "StripWidths",
    "Violation",
    "Yield",
    "accepts_board",
    "boards_to_buy",
    "buy_board_feet",
    "findings_after",
    "findings_before",
    "lay_out",
    "parse_rack",
    "read_rack",
    "solve",
    "verify_layout",
]
