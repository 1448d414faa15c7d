"""Rough blanks and cuts of a plan as tables for other programs: millimeters, one row a thing."""

from __future__ import annotations

from scantling.papers.exports.workbook import WorkbookTable
from scantling.papers.words.chalk_list import boards_to_cut
from scantling.plan.result import Plan
from scantling.stock.layouts.cutorder import visits

__all__ = ["blanks_table", "cuts_table"]

_BLANKS = (
    "part",
    "pieces",
    "stock",
    "rough_length_mm",
    "rough_width_mm",
    "rough_thickness_mm",
    "milled_length_mm",
    "milled_width_mm",
    "milled_thickness_mm",
    "finished_length_mm",
    "finished_width_mm",
    "finished_thickness_mm",
)
_CUTS = (
    "stand",
    "board",
    "order",
    "cut",
    "piece",
    "setting_mm",
    "from_left_end_mm",
    "from_lower_edge_mm",
    "near_piece",
    "far_piece",
)


def blanks_table(plan: Plan) -> WorkbookTable:
    """One row a part: rough, milled and finished size.

    Parameters
    ----------
    plan
        The plan.
    """
    rows = tuple(
        {
            "part": ledger.part,
            "pieces": ledger.pieces,
            "stock": ledger.nominal,
            **{
                f"{name}_{axis}_mm": getattr(size, f"{axis}_mm")
                for name, size in (
                    ("rough", ledger.rough),
                    ("milled", ledger.milled),
                    ("finished", ledger.finished),
                )
                for axis in ("length", "width", "thickness")
            },
        }
        for ledger in plan.milling
    )
    return WorkbookTable(title="Blanks", columns=_BLANKS, rows=rows)


def cuts_table(plan: Plan) -> WorkbookTable:
    """One row a cut of the rough stage, stand by stand; no rows without a rack.

    Parameters
    ----------
    plan
        The plan.
    """
    layout = plan.timber.layout
    boards = boards_to_cut(layout, plan.timber.bench) if layout else ()
    rows = tuple(
        {
            "stand": number,
            "board": name,
            "order": cut.order,
            "cut": cut.kind.value,
            "piece": cut.piece,
            "setting_mm": cut.at_mm,
            "from_left_end_mm": cut.x_mm,
            "from_lower_edge_mm": cut.y_mm,
            "near_piece": cut.yields[0],
            "far_piece": cut.yields[1],
        }
        for number, visit in enumerate(visits(boards), start=1)
        for name, cuts in visit.boards
        for cut in cuts
    )
    return WorkbookTable(title="Cuts", columns=_CUTS, rows=rows)
