"""Boards that are too wet wait before they are cut: in which air, how long, and where the plan says so."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from scantling.plan.cache import Cache
from scantling.plan.planner import Planner
from scantling.plan.result import Plan
from scantling.plan.steps.timber_steps import DRY_BOARDS
from scantling.plan.timber.drying import drying_of, told_days
from tests.plan.jobs import shipped_job, shipped_plan


@cache
def chest(*, rack: bool = True) -> Plan:
    """The blanket chest, whose boards read 11 to 13 % in a flat at 48 %."""
    return shipped_plan("blanket_chest", rack=rack)


def test_boards_alike_dry_together_the_longest_first() -> None:
    """Alike in wood, thickness and reading; the wait is that of the last."""
    drying = chest().drying
    assert drying is not None
    assert drying.in_shop
    days = [one.days for one in drying.boards if one.days is not None]
    assert len(days) == len(drying.boards)
    assert days == sorted(days, reverse=True)
    assert drying.days == drying.boards[0].days
    names = [name for one in drying.boards for name in one.boards]
    assert len(names) == len(set(names))
    layout = chest().timber.layout
    assert layout is not None
    cut = {one.board.name: one.board for one in layout.boards if one.placed}
    wet = {n for n, board in cut.items() if (board.moisture_pct or 0.0) > drying.wanted_pct + 0.05}
    assert set(names) == wet
    for one in drying.boards:
        assert one.mass_share_pct == pytest.approx(100.0 * (100.0 + drying.wanted_pct) / (100.0 + one.mc_pct))


def test_nothing_is_cut_before_the_last_board_is_dry() -> None:
    """The step waits as long as the last board dries, and the blanks come after it."""
    plan = chest()
    assert plan.drying is not None
    steps = {step.title: step for step in plan.order.steps}
    waiting = steps[DRY_BOARDS]
    assert waiting.wait_min == pytest.approx(plan.drying.days * 1440.0)
    assert DRY_BOARDS in steps["Cut the blanks out of the boards"].needs
    when = {entry.task: entry for entry in plan.order.timetable.entries}
    start = when["Cut the blanks out of the boards"].start_min
    assert start >= when[DRY_BOARDS].end_min + waiting.wait_min - 1e-6
    assert "P4: 13.0 % now; about " in " ".join(waiting.details)
    [told] = [f for f in plan.findings if f.code == "F35"]
    assert told.message.endswith(f"The last to dry, in the shop's air: {told_days(plan.drying.days)}")


def test_without_readings_nothing_waits() -> None:
    """Without boards none is known to be wet, and of boards that read 8 % none is."""
    assert chest(rack=False).drying is None
    assert DRY_BOARDS not in {step.title for step in chest(rack=False).order.steps}
    drawers = shipped_plan("bookcase")
    assert drawers.drying is None


def test_a_shop_too_damp_to_dry_them_gets_a_closed_corner() -> None:
    """At 65 % wood holds 12 %: the boards wait in air at which it holds what it swings about at home, 8.6 %.

    Forty-six percent at 20 C by the Wood Handbook's table 4-2, where 45 give 8.5 and 50 give 9.2.
    """
    job = shipped_job("blanket_chest")
    climate = job.shop.climate.model_copy(update={"humidity_pct": 65.0})
    plan = Planner().plan(replace(job, shop=job.shop.model_copy(update={"climate": climate})))
    drying = plan.drying
    assert drying is not None
    assert not drying.in_shop
    assert drying.humidity_pct == pytest.approx(46.0, abs=1.0)
    assert 0.0 < drying.days < 200.0
    [step] = [step for step in plan.order.steps if step.title == DRY_BOARDS]
    assert "in a closed corner kept at" in step.details[0]


@pytest.mark.parametrize(
    ("days", "words"),
    [
        (0.3, "about a day"),
        (1.0, "about a day (1 to 2)"),
        (6.0, "about 6 days (3 to 12)"),
        (23.0, "about 3 weeks (2 to 7)"),
    ],
)
def test_a_wait_is_told_with_its_scatter(days: float, words: str) -> None:
    """Half to double, in days up to ten of them, then in weeks."""
    assert told_days(days) == words


def of_one_board(**told: object) -> Plan:
    """The blanket chest with one of its boards otherwise."""
    job = shipped_job("blanket_chest")
    assert job.rack is not None
    boards = tuple(replace(one, **told) if one.name == "P4" else one for one in job.rack.boards)  # type: ignore[arg-type]
    return Planner().figures(replace(job, rack=replace(job.rack, boards=boards)))


def test_what_green_wood_loses_above_saturation_is_not_reckoned() -> None:
    """At 80 % it takes as long as at 30 %, and it is said that more comes before."""
    green, saturated = of_one_board(moisture_pct=80.0).drying, of_one_board(moisture_pct=30.0).drying
    assert green is not None
    assert saturated is not None
    assert green.days == pytest.approx(saturated.days)
    assert green.wait == f"in the shop's air: {told_days(green.days)}, and what it loses above 30 % before"
    assert "above" not in saturated.wait


def test_a_board_that_is_not_dry_in_years_is_not_waited_for() -> None:
    """600 mm thick: told first, and the step waits for the others alone."""
    job, layout = shipped_job("blanket_chest"), chest().timber.layout
    assert layout is not None
    boards = tuple(
        replace(one, board=replace(one.board, thickness_mm=600.0, quarters=None))
        if one.board.name == "P4"
        else one
        for one in layout.boards
    )
    drying = drying_of(replace(layout, boards=boards), chest().seasons.moisture, job.shop, Cache())
    assert drying is not None
    thick, *others = drying.boards
    assert (thick.boards, thick.days) == (("P4",), None)
    assert drying.days == max(one.days for one in others if one.days is not None)
    assert drying.wait == "in the shop's air: not within five years"
