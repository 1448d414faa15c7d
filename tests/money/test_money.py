"""Hours, quotes and their refusals."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from money.test_worked import table
from scantling.errors import InputError
from scantling.money import (
    Count,
    Hours,
    Kind,
    Line,
    Quote,
    Rates,
    estimate,
    quote,
    rates,
)


def test_lines_add_up_to_the_cost_and_each_says_where_from() -> None:
    """Nothing is in the cost that is not in a line, and no line is without a source."""
    made = table()
    assert sum(line.amount for line in made.lines) == pytest.approx(made.cost)
    assert sum(made.of_kind(kind) for kind in Kind) == pytest.approx(made.cost)
    assert all(line.source and line.reckoned for line in made.lines)


@given(margin=st.floats(0.0, 90.0), hours=st.floats(0.0, 500.0))
def test_what_is_left_is_the_margin_of_the_price(margin: float, hours: float) -> None:
    """For any margin and hours, price less cost is that share of the price."""
    line = Line(kind=Kind.TIMBER, what="oak", amount=100.0, reckoned="", source="")
    made = quote([line], hours=hours, rates=Rates(hour=40.0, overhead_hour=8.0, margin_pct=margin))
    assert made.cost == pytest.approx(100.0 + 48.0 * hours)
    assert made.margin == pytest.approx(made.price * margin / 100.0, abs=1e-6)


def test_consumables_are_reckoned_on_goods() -> None:
    """Five percent of timber and hardware, not of delivery."""
    lines = [
        Line(kind=kind, what=kind.value, amount=100.0, reckoned="", source="")
        for kind in (Kind.TIMBER, Kind.HARDWARE, Kind.DELIVERY)
    ]
    made = quote(lines, hours=0.0, rates=Rates(hour=40.0, consumables_pct=5.0))
    assert made.of_kind(Kind.CONSUMABLES) == pytest.approx(10.0)


def test_like_joints_go_faster_down_to_a_floor() -> None:
    """Each further joint saves 5 % of the first, down to 70 %: ten cost 1 + .95 + ... + .70 four times."""
    rate = rates()["joint"]
    assert rate.times(1) == 1.0
    assert rate.times(10) == pytest.approx(1.0 + 0.95 + 0.9 + 0.85 + 0.8 + 0.75 + 4 * 0.7)


def test_hours_have_a_range_round_them() -> None:
    """Twelve joints and a panel: the range holds the likely hours, and is narrower than the sum "
    "of extremes.
    """
    hours = estimate([Count(operation="joint", count=12), Count(operation="glue_panel", count=1)])
    assert hours.low_h < hours.likely_h < hours.high_h
    assert hours.high_h < sum(line.most_h for line in hours.lines)
    assert hours.lines[1].likely_h == pytest.approx(0.75)


def test_rates_that_come_with_the_program_are_in_order() -> None:
    """Least, likely, most, for every operation, marked as common practice."""
    assert all(r.least_min < r.likely_min < r.most_min for r in rates().values())
    assert {r.source for r in rates().values()} == {"common practice"}


@pytest.mark.parametrize(
    ("make", "code"),
    [
        (lambda: estimate([Count(operation="gild", count=1)]), "unknown_operation"),
        (lambda: estimate([Count(operation="joint", count=-1)]), "count_negative"),
        (lambda: Rates(hour=-1.0), "rate_negative"),
        (lambda: Rates(hour=1.0, margin_pct=100.0), "margin_out_of_range"),
        (lambda: quote([], hours=-1.0, rates=Rates(hour=1.0)), "hours_negative"),
    ],
)
def test_impossible_money_is_refused(make: object, code: str) -> None:
    """Each with its code."""
    assert callable(make)
    with pytest.raises(InputError) as caught:
        make()
    assert caught.value.code == code


def test_results_go_to_json_and_back() -> None:
    """Plain values only."""
    for kind, value in ((Quote, table()), (Hours, estimate([Count(operation="joint", count=3)]))):
        adapter: TypeAdapter[object] = TypeAdapter(kind)
        assert adapter.validate_json(adapter.dump_json(value)) == value
