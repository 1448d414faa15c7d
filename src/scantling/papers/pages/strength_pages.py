"""The packet's sheet of strength, from the same words as the page's."""

from __future__ import annotations

from scantling.papers.packet.blocks import Section
from scantling.papers.packet.sections.strength import BearingLine, CheckLine, strength_section
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.show import Show, joints_words, word
from scantling.papers.sheets.strength import BEHIND, check_rows
from scantling.papers.words.strength_words import bearing_rows, bearing_sources
from scantling.plan.result import Plan

__all__ = ["strength_sheet_of"]


def strength_sheet_of(plan: Plan, *, figures: Figures) -> Section:
    """What was checked and what the joints bear.

    Parameters
    ----------
    plan
        The plan.
    figures
        How figures are written.
    """
    show = Show.in_style(figures.style)
    bearing = bearing_rows(plan.joints, force=show.force, inch=show.style.inch)
    return strength_section(
        tuple(CheckLine(check=c, how=h, result=r) for c, h, r in check_rows(plan.strength, show)),
        tuple(
            BearingLine(
                joints=joints_words(row.joints),
                pull=row.pull,
                shear=row.shear,
                moment=row.moment,
                turns=row.turns,
                known=row.known,
            )
            for row in bearing
        ),
        unjudged=tuple(map(word, plan.strength.unjudged)),
        sources=bearing_sources(plan.joints),
        caution=" ".join(BEHIND),
    )
