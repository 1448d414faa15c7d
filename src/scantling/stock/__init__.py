"""Timber: the boards in the rack, what a piece asks of them, and where each blank comes from."""

from scantling.stock.asked.blank import Blank, FreeWidthPanel, accepts_board
from scantling.stock.asked.cutting import Cutting
from scantling.stock.boards.board import Board, Defect, DefectKind, Face, FirstCut, Price, PriceBasis
from scantling.stock.boards.tally import BoardTally, StackTally, tally_boards, tally_stacks
from scantling.stock.buying.measure import DEFAULT_YIELD, Purchase, Yield, boards_to_buy, buy_board_feet
from scantling.stock.buying.yard import Needs, Verdict, YardAnswer, judge_board
from scantling.stock.checking.findings import findings_after, findings_before
from scantling.stock.checking.verify import Violation, verify_layout
from scantling.stock.layouts.layout import BoardLayout, Cut, CutKind, Layout, Offcut, Placed, StripWidths
from scantling.stock.racks.benchnotes import BenchNotes, begun_by
from scantling.stock.racks.rack import Rack, parse_rack, read_rack
from scantling.stock.solving.engine import Method
from scantling.stock.solving.solve import LayoutAnswer, LayoutRequest, StopRule, lay_out, solve

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
