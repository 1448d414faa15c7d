"""Boards that are too wet wait before they are cut: in which air, how long, and where the plan says so."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from scantling.plan.drying import told_days
from scantling.plan.planner import Planner
from scantling.plan.result import Plan
from scantling.plan.timber_steps import DRY_BOARDS
from tests.plan.jobs import shipped_job


@cache
def chest(*, rack: bool = True) -> Plan:
    """The blanket chest, whose boards read 11 to 13 % in a flat at 48 %."""
    return Planner().plan(shipped_job("blanket_chest", rack=rack))


def test_boards_alike_dry_together_the_longest_first() -> None:
    """Alike in wood, thickness and reading; the wait is that of the last."""
    drying = chest().drying
    assert drying is not None
    assert drying.in_shop
    assert [one.days for one in drying.boards] == sorted((one.days for one in drying.boards), reverse=True)
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
    assert "P4: 13.0 % now, dry in about " in " ".join(waiting.details)
    [told] = [f for f in plan.findings if f.code == "F35"]
    assert told.message.endswith(f"dry in {told_days(plan.drying.days)} in the shop's air")


def test_without_readings_nothing_waits() -> None:
    """Without boards none is known to be wet, and of boards that read 8 % none is."""
    assert chest(rack=False).drying is None
    assert DRY_BOARDS not in {step.title for step in chest(rack=False).order.steps}
    drawers = Planner().plan(shipped_job("bookcase"))
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
