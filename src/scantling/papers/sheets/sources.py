"""The sources sheet: where the numbers come from, and the usual cautions."""

from __future__ import annotations

from scantling.papers.pages.closing_pages import caution_rows, source_rows
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.model import Align, Column, Sheet, Table, Words
from scantling.papers.sheets.show import Show
from scantling.plan.result import Plan

__all__ = ["sources_sheet"]


def sources_sheet(plan: Plan) -> Sheet:
    """Every figure that was not worked out here, with its source and standing."""
    figures = Table(
        title="Figures taken over",
        columns=(
            Column(title="Figure"),
            Column(title="Value", align=Align.RIGHT),
            Column(title="From"),
            Column(title="Standing"),
        ),
        rows=tuple(
            (row.figure, row.value, row.source, row.standing)
            for row in source_rows(plan, figures=Figures(style=Show.of(plan).style))
        ),
        note="Anything from memory or common practice is there to be replaced by your own figure.",
    )
    cautions = Words(title="The usual cautions", lines=tuple(f"{op}: {text}" for op, text in caution_rows()))
    return Sheet(
        id="sources",
        title="Sources",
        lead="Where the numbers come from and how far to trust them. The maker decides; the machine's "
        "manual, the product's label and the law of the place come first.",
        blocks=(figures, cautions),
    )
