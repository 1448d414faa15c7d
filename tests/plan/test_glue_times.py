"""Hours between milling and gluing, and back to the planer, on a timetable whose entries are moved."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import Finding, Severity
from scantling.plan.steps.glue_times import glue_time_findings
from scantling.plan.steps.timber_steps import MILL_TO_SIZE
from scantling.schedule.timetable import Entry
from tests.plan.jobs import demo_plan

FIRST = "Glue up top: sub-panel 1"
LAST = "Glue up top: last joints"
FLATTEN = "Flatten and trim the panels"


def entry(task: str) -> Entry:
    """Where a step stands in the demo piece's timetable."""
    [found] = [each for each in demo_plan().order.timetable.entries if each.task == task]
    return found


def moved(task: str, start_min: int) -> list[Finding]:
    """Findings with one step begun at another time and nothing else changed."""
    plan = demo_plan()
    table = plan.order.timetable
    entries = tuple(replace(e, start_min=start_min) if e.task == task else e for e in table.entries)
    order = replace(plan.order, timetable=replace(table, entries=entries))
    return glue_time_findings(order, plan.gluing.inner)


def test_the_demo_piece_is_glued_in_time_and_planed_late_enough() -> None:
    """Its last joints wait for their sub-panels to cure, which is no wait the order could spare."""
    plan = demo_plan()
    assert glue_time_findings(plan.order, plan.gluing.inner) == []
    assert entry(LAST).start_min - entry(MILL_TO_SIZE).end_min > 24 * 60


def test_edges_older_than_a_day_when_glued_are_told() -> None:
    """24 h after the last milling is in time, 24.1 h is not; the note says what to do on the day."""
    milled = entry(MILL_TO_SIZE).end_min
    assert moved(FIRST, milled + 24 * 60) == []
    [found] = moved(FIRST, milled + 24 * 60 + 6)
    assert (found.code, found.where, found.severity) == ("F37", "top", Severity.NOTE)
    assert "24.1 h after it was milled, at most 24 h" in found.message
    assert "day of gluing" in found.advice
    assert found.numbers["wait_h"] == pytest.approx(24.1)


def test_a_panel_planed_within_a_day_of_its_glue_is_told() -> None:
    """24 h after the last glue-up is enough, 23.5 h is half an hour short."""
    glued = entry(LAST).end_min
    assert moved(FLATTEN, glued + 24 * 60) == []
    [found] = moved(FLATTEN, glued + 24 * 60 - 30)
    assert (found.code, found.where, found.severity) == ("F38", "top", Severity.MEDIUM)
    assert "top comes to it 23.5 h after gluing, at least 24 h" in found.message
    assert "0.5 h longer" in found.advice
