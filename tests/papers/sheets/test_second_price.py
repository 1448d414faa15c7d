"""Hours are counted in two ways; the price stands on the greater, and the sheet says so."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.papers.sheets.all import overview_sheet, sheet_of
from scantling.papers.sheets.business import money_sheet
from scantling.papers.sheets.model import Facts, Table
from scantling.papers.words.hours_words import standing_words
from scantling.plan.job import Job
from scantling.plan.planner import make_plan
from scantling.plan.pricing import Pricing
from scantling.plan.result import Plan
from tests.plan.jobs import demo_plan, shipped_job


def wage_and_overhead(pricing: Pricing) -> float:
    """Of one hour. [currency/h]"""
    return sum(
        line.amount / pricing.quote.hours
        for line in pricing.quote.lines
        if line.kind.value in ("work", "overhead")
    )


def test_the_price_stands_on_the_greater_hours() -> None:
    """The reading table has fewer hours by steps than by operation: it is priced by operation."""
    plan = demo_plan()
    pricing = plan.pricing
    assert pricing.steps_h == pytest.approx(plan.order.hours)
    assert pricing.steps_h < pricing.second_opinion.likely_h == pricing.quote.hours
    assert pricing.second_price == pytest.approx(pricing.quote.price)


def test_the_other_price_is_that_of_the_other_hours() -> None:
    """By hand: each hour less takes off its wage and overhead, and the margin is a share of the price."""
    pricing = demo_plan().pricing
    less = (pricing.quote.hours - pricing.steps_h) * wage_and_overhead(pricing)
    assert pricing.steps_price == pytest.approx(
        (pricing.quote.cost - less) / (1.0 - pricing.quote.margin_pct / 100.0)
    )


def glance(plan: Plan) -> dict[str, str]:
    """The figures that stand under the title."""
    [facts] = [block for block in sheet_of(plan, overview_sheet).blocks if isinstance(block, Facts)]
    return dict(facts.items)


def test_hours_shown_beside_a_price_of_others_say_so() -> None:
    """At a glance 30 h stand beside a price for 38: each says how its hours are counted."""
    plan, pricing = demo_plan(), demo_plan().pricing
    shown = glance(plan)
    assert shown["Hands on"] == f"{plan.order.hours:.0f} h, counted by steps"
    assert shown["Price"] == (
        f"{pricing.quote.price:,.0f} {pricing.currency}, for {pricing.quote.hours:.0f} h counted by operation"
    )


def shop_of_many_grits() -> Job:
    """A hall bench whose shop sands so slowly that its steps take more hours than operations do."""
    job = shipped_job("hall_bench", rack=False)
    grits = tuple(
        type(one)(grit=one.grit, minutes_per_m2=120.0, m2_per_sheet=one.m2_per_sheet)
        for one in job.shop.grits()
    )
    return replace(job, shop=job.shop.model_copy(update={"abrasives": grits}))


def test_steps_are_priced_where_they_are_the_greater() -> None:
    """Hours of one's own slow sanding stand in the steps alone; they are the ones asked for."""
    plan = make_plan(shop_of_many_grits())
    pricing = plan.pricing
    assert pricing.quote.hours == pytest.approx(plan.order.hours)
    assert pricing.quote.hours > pricing.second_opinion.likely_h
    assert "by steps" in str(money_sheet(plan).blocks[0])
    assert standing_words(pricing) == ""
    assert "counted" not in str(glance(plan))


def test_the_sheet_shows_both_countings_and_which_is_asked() -> None:
    """One row each with its hours and its price; the note names the one taken and the reason."""
    plan = demo_plan()
    pricing = plan.pricing
    sheet = money_sheet(plan)
    (table,) = (b for b in sheet.blocks if isinstance(b, Table) and b.title == "Hours, counted twice")
    assert [row[2:] for row in table.rows] == [
        (f"{pricing.steps_h:.0f}", f"{pricing.steps_price:,.0f}"),
        (f"{pricing.second_opinion.likely_h:.0f}", f"{pricing.second_price:,.0f}"),
    ]
    assert "the greater, by operation" in table.note
    assert "cannot be raised" in table.note
    facts = sheet.blocks[0]
    assert isinstance(facts, Facts)
    assert dict(facts.items)["Hours in the price"].endswith("by operation")
