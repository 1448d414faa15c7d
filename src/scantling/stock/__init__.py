"""Timber: the boards in the rack, what a piece asks of them, and where each blank comes from."""

from scantling.stock.benchnotes import BenchNotes, begun_by
from scantling.stock.blank import Blank, FreeWidthPanel, accepts_board
from scantling.stock.board import Board, Defect, DefectKind, Face, FirstCut, Price, PriceBasis
from scantling.stock.cutting import Cutting
from scantling.stock.engine import Method
from scantling.stock.findings import findings_after, findings_before
from scantling.stock.layout import BoardLayout, Cut, CutKind, Layout, Offcut, Placed, StripWidths
from scantling.stock.measure import DEFAULT_YIELD, Purchase, Yield, boards_to_buy, buy_board_feet
from scantling.stock.rack import Rack, parse_rack, read_rack
from scantling.stock.solve import LayoutAnswer, LayoutRequest, StopRule, lay_out, solve
from scantling.stock.tally import BoardTally, StackTally, tally_boards, tally_stacks
from scantling.stock.verify import Violation, verify_layout
from scantling.stock.yard import Needs, Verdict, YardAnswer, judge_board

__all__ = [
    "DEFAULT_YIELD",
    "BenchNotes",
    "Blank",
    "Board",
    "BoardLayout",
    "BoardTally",
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
    "Needs",
    "Offcut",
    "Placed",
    "Price",
    "PriceBasis",
    "Purchase",
    "Rack",
    "StackTally",
    "StopRule",
    "StripWidths",
    "Verdict",
    "Violation",
    "YardAnswer",
    "Yield",
    "accepts_board",
    "begun_by",
    "boards_to_buy",
    "buy_board_feet",
    "findings_after",
    "findings_before",
    "judge_board",
    "lay_out",
    "parse_rack",
    "read_rack",
    "solve",
    "tally_boards",
    "tally_stacks",
    "verify_layout",
]
