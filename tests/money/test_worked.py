"""The worked price of a table. Structure common practice; the sums were worked by hand."""

from __future__ import annotations

import pytest

from scantling.money import Kind, Line, Quote, Rates, price_from_markup, quote


def table(margin_pct: float = 20.0) -> Quote:
    """95.4 board feet at 9.5, 120 hardware, 85 consumables, 62 h at 48, 180 delivery."""
    lines = [
        Line(kind=Kind.TIMBER, what="cherry", amount=95.4 * 9.5, reckoned="95.4 bf at 9.5", source="yard"),
        Line(kind=Kind.HARDWARE, what="clips", amount=120.0, reckoned="as listed", source="shop"),
        Line(kind=Kind.CONSUMABLES, what="abrasives", amount=85.0, reckoned="as listed", source="shop"),
        Line(kind=Kind.DELIVERY, what="van", amount=180.0, reckoned="as quoted", source="carrier"),
    ]
    return quote(lines, hours=62.0, rates=Rates(hour=48.0, margin_pct=margin_pct))


def test_cost_and_price() -> None:
    """Cost 4 267; a 20 % margin asks 5 334, a 20 % mark-up only 5 120: 213 short."""
    made = table()
    assert made.cost == pytest.approx(4267, abs=0.5)
    assert made.price == pytest.approx(5334, abs=0.5)
    assert made.price_if_markup == pytest.approx(5120, abs=1.0)
    assert made.price - made.price_if_markup == pytest.approx(213, abs=0.5)


def test_a_fifth_more_hours_eats_the_margin() -> None:
    """At the same price 20 % more hours leave 8.8 %."""
    left = {row.what: row.margin_pct for row in table().sensitivity}
    assert left["20 % more hours"] == pytest.approx(8.8, abs=0.05)


def test_margin_and_markup_are_told_apart() -> None:
    """A margin of a fifth is a mark-up of a quarter."""
    made = table()
    assert made.markup_pct == pytest.approx(25.0)
    assert price_from_markup(made.cost, made.markup_pct) == pytest.approx(made.price)
