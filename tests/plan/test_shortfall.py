"""How much wood to ask for without a rack: the curve, what is read off it, and where it is shown."""

from __future__ import annotations

from pathlib import Path

import pytest

from scantling.cli.job import job_from_files
from scantling.errors import FileFaults
from scantling.papers.sheets.model import Picture
from scantling.papers.sheets.timber import timber_sheet
from scantling.plan.planner import Planner, make_plan
from scantling.plan.timber.shortfall import CHANCE, Shortfall
from scantling.shop.profile.profile_file import parse_shop
from tests.plan.jobs import EXAMPLES, demo_job, shipped_job


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
    """A picture each, with words; the assumption is stated, and none is drawn where a rack holds all."""
    plan = planner.plan(demo_job(rack=False))
    keys = {(p.species, p.quarters) for p in plan.timber.to_buy}
    assert {(s.species, s.quarters) for s in plan.timber.shortfalls} == keys
    sheet = timber_sheet(plan)
    drawn = [b for b in sheet.blocks if isinstance(b, Picture)]
    assert len(drawn) == len(keys)
    assert all("<svg" in p.svg and "fall short at most 5 times" in p.words for p in drawn)
    assert "Assumed, not measured: FAS boards, 8 to 12 ft long" in repr(sheet)
    assert planner.plan(shipped_job("hall_bench")).timber.shortfalls == ()


def test_the_curve_is_kept_while_the_wood_asked_for_is_the_same(planner: Planner) -> None:
    """The second plan works none out anew."""
    planner.plan(demo_job(rack=False))
    before = planner.cache.worked.get("shortfall", 0)
    planner.plan(demo_job(rack=False))
    assert planner.cache.worked["shortfall"] == before > 0


def test_the_yard_of_the_shop_decides_how_boards_scatter(tmp_path: Path) -> None:
    """Short narrow boards with more marks ask for more of the same blanks, and the grade is named."""
    shop = (EXAMPLES / "shops" / "hall-bench.yaml").read_text(encoding="utf-8")
    poor = shop.replace(
        "names: [6/4, 8/4]",
        "names: [6/4, 8/4]\n  boards: {name: No. 1 Common, narrowest: 90, usual: 150, widest: 220, "
        "shortest: 1300, longest: 3000, fewest_marks: 1, most_marks: 4}",
    )
    assert poor != shop
    asked = []
    for text in (shop, poor):
        (tmp_path / "shop.yaml").write_text(text, encoding="utf-8")
        plan = make_plan(job_from_files(EXAMPLES / "hall_bench.yaml", shop=tmp_path / "shop.yaml"))
        asked.append({s.quarters: s for s in plan.timber.shortfalls})
    assert asked[1][8].grade.startswith("No. 1 Common boards, 4 to 10 ft long")
    assert asked[1][8].half_board_feet > asked[0][8].half_board_feet


def test_a_scatter_out_of_order_is_refused() -> None:
    """A widest below the usual width is told with all three."""
    text = "name: Shed\nunits: mm\nyard: {boards: {narrowest: 100, usual: 200, widest: 150}}\n"
    with pytest.raises(FileFaults) as caught:
        parse_shop(text, file="shop.yaml")
    assert "narrowest, usual and widest in rising order, got 100, 200, 150" in str(caught.value)
