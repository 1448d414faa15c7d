"""How much wood to ask for without a rack: the curve, what is read off it, and where it is shown."""

from __future__ import annotations

import pytest

from scantling.papers.sheets.model import Picture
from scantling.papers.sheets.timber import timber_sheet
from scantling.plan.planner import Planner
from scantling.plan.shortfall import CHANCE, Shortfall
from tests.plan.jobs import demo_job


@pytest.fixture(scope="module")
def planner() -> Planner:
    """One cache for all."""
    return Planner()


def chance(found: Shortfall, feet: float) -> float:
    """Chance to fall short with so much, read off the corners."""
    return next((c for f, c in reversed(found.points) if f <= feet), 1.0)


def test_the_amount_to_ask_for_falls_short_five_times_in_a_hundred(planner: Planner) -> None:
    """At the amount named the chance is 5 % at most, one corner earlier it is more; the curve only falls."""
    for found in planner.plan(demo_job(rack=False)).timber.shortfalls:
        feet = [f for f, _ in found.points]
        chances = [c for _, c in found.points]
        assert (feet, chances) == (sorted(feet), sorted(chances, reverse=True))
        assert chance(found, found.ask_board_feet) <= CHANCE
        earlier = [f for f in feet if f < found.ask_board_feet]
        assert not earlier or chance(found, earlier[-1]) > CHANCE
        assert found.net_board_feet < found.half_board_feet <= found.ask_board_feet
        assert chances[-1] == 0


def test_every_wood_and_thickness_to_buy_has_its_curve_drawn(planner: Planner) -> None:
    """A picture each, with words; the assumption is stated, and none is drawn where there is a rack."""
    plan = planner.plan(demo_job(rack=False))
    keys = {(p.species, p.quarters) for p in plan.timber.to_buy}
    assert {(s.species, s.quarters) for s in plan.timber.shortfalls} == keys
    sheet = timber_sheet(plan)
    drawn = [b for b in sheet.blocks if isinstance(b, Picture)]
    assert len(drawn) == len(keys)
    assert all("<svg" in p.svg and "fall short at most 5 times" in p.words for p in drawn)
    assert "Assumed, not measured: FAS boards, 8 to 12 ft long" in repr(sheet)
    assert planner.plan(demo_job()).timber.shortfalls == ()


def test_the_curve_is_kept_while_the_wood_asked_for_is_the_same(planner: Planner) -> None:
    """The second plan works none out anew."""
    planner.plan(demo_job(rack=False))
    before = planner.cache.worked.get("shortfall", 0)
    planner.plan(demo_job(rack=False))
    assert planner.cache.worked["shortfall"] == before > 0
