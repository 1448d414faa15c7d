"""Hours that two ways of reckoning disagree on are priced both ways."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.papers.sheets.business import money_sheet
from scantling.papers.sheets.model import Words
from tests.plan.jobs import demo_plan


def test_the_second_price_is_that_of_the_second_hours() -> None:
    """By hand: each hour more costs its wage and overhead, and the margin is a share of the price."""
    pricing = demo_plan().pricing
    wage, overhead = (
        sum(line.amount for line in pricing.quote.lines if line.kind.value == kind) / pricing.quote.hours
        for kind in ("work", "overhead")
    )
    more = (pricing.second_opinion.likely_h - pricing.quote.hours) * (wage + overhead)
    assert pricing.second_price == pytest.approx(
        (pricing.quote.cost + more) / (1.0 - pricing.quote.margin_pct / 100.0)
    )


@pytest.mark.parametrize(
    ("low_h", "high_h", "says"), [(90.0, 99.0, "below"), (1.0, 2.0, "above"), (1.0, 99.0, "")]
)
def test_hours_out_of_the_second_range_are_told_with_the_reason(
    low_h: float, high_h: float, says: str
) -> None:
    """Below it the price to ask stands there; within it nothing more is said."""
    plan = demo_plan()
    second = replace(plan.pricing.second_opinion, low_h=low_h, high_h=high_h)
    shown = money_sheet(replace(plan, pricing=replace(plan.pricing, second_opinion=second)))
    text = " ".join(line for block in shown.blocks if isinstance(block, Words) for line in block.lines)
    assert ("stands in the order of work" in text) is bool(says)
    assert (f"lie {says} that" in text) is bool(says)
    assert (f"ask {plan.pricing.second_price:,.0f}" in text) is (says == "below")
