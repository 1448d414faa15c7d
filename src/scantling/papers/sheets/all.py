"""All sheets of a plan, in the order a maker asks for them."""

from __future__ import annotations

from collections.abc import Callable

from scantling.papers.sheets.business import findings_sheet, money_sheet, moving_sheet
from scantling.papers.sheets.joints import hardware_sheet, joints_sheet
from scantling.papers.sheets.making import finish_sheet, gluing_sheet, order_sheet
from scantling.papers.sheets.model import Facts, Sheet, Words
from scantling.papers.sheets.parts import milling_sheet, parts_sheet
from scantling.papers.sheets.sawing import sawing_sheet
from scantling.papers.sheets.seasons import seasons_sheet
from scantling.papers.sheets.show import Show
from scantling.papers.sheets.sources import sources_sheet
from scantling.papers.sheets.strength import strength_sheet
from scantling.papers.sheets.timber import timber_sheet
from scantling.papers.words.hours_words import standing_words
from scantling.papers.words.joint_naming import words_of
from scantling.papers.words.sentence_units import in_style
from scantling.papers.words.severity_words import serious_told
from scantling.plan.result import Plan

__all__ = ["overview_sheet", "sheet_of", "sheets_of"]


def overview_sheet(plan: Plan) -> Sheet:
    """The few figures that matter most."""
    show = Show.of(plan)
    size = plan.moving.whole.size_mm
    facts = (
        ("Size", show.by(*size, unit=True)),
        ("Weight", show.mass(plan.moving.mass_kg)),
        ("Hands on", _hands_on(plan)),
        ("From first to last day", f"{plan.order.timetable.last_day} days"),
        ("Price", _price(plan)),
        ("Serious findings", serious_told(plan.findings)),
    )
    return Sheet(
        id="overview",
        title=plan.title,
        lead=plan.about.strip(),
        blocks=(
            Facts(title="At a glance", items=facts),
            Words(title="Planned for", lines=(f"Shop: {plan.shop}", f"Room: {plan.room}")),
        ),
    )


def sheet_of(plan: Plan, make: Callable[[Plan], Sheet]) -> Sheet:
    """One sheet, in the words and units of its plan.

    Parameters
    ----------
    plan
        The plan.
    make
        Makes the sheet.
    """
    with words_of(plan):
        sheet = make(plan)
    return in_style(sheet, plan.style)


def sheets_of(plan: Plan) -> tuple[Sheet, ...]:
    """Every sheet.

    Parameters
    ----------
    plan
        The plan.
    """
    makers = (
        overview_sheet,
        findings_sheet,
        parts_sheet,
        timber_sheet,
        milling_sheet,
        sawing_sheet,
        joints_sheet,
        hardware_sheet,
        seasons_sheet,
        gluing_sheet,
        finish_sheet,
        order_sheet,
        strength_sheet,
        moving_sheet,
        money_sheet,
        sources_sheet,
    )
    with words_of(plan):
        sheets = tuple(make(plan) for make in makers)
    return in_style(sheets, plan.style)


def _hands_on(plan: Plan) -> str:
    """The hours of the steps; named so where the price stands on others."""
    hours = f"{plan.order.hours:.0f} h"
    return f"{hours}, counted by steps" if standing_words(plan.pricing) else hours


def _price(plan: Plan) -> str:
    """The price asked, with the hours it stands on; one that something is missing from says so."""
    price = f"{plan.pricing.quote.price:,.0f} {plan.pricing.currency}"
    lacking = "not all priced" if plan.pricing.unpriced else ""
    return ", ".join(each for each in (price, standing_words(plan.pricing), lacking) if each)
