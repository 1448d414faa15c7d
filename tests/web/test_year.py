"""The year as the page is sent it: figures of the plan, in words and as stretches."""

from __future__ import annotations

import re

import pytest

from scantling.web.designs.year import year_view
from tests.plan.jobs import demo_plan

__all__: list[str] = []


def test_the_words_of_a_month_hold_the_figures_of_the_plan() -> None:
    """Width of the top and least room in February, read back from the sentences."""
    plan = demo_plan()
    rooms = plan.year
    february = year_view(plan).months[2]
    top = next(part for part in plan.seasons.parts if part.part == "top")
    (narrower,) = re.findall(r"Top is ([\d.]+) mm narrower", february.words)
    assert float(narrower) == pytest.approx(-top.months[1].width_change_mm, abs=0.051)
    tightest = rooms.tightest(1)
    assert tightest is not None
    (left,) = re.findall(r"Room left ([\d.]+) mm", february.tight)
    assert float(left) == pytest.approx(tightest.rooms_mm[1], abs=0.101)
    assert float(left) <= tightest.rooms_mm[1]


def test_as_built_nothing_is_stretched_and_each_month_is_as_in_the_plan() -> None:
    """Thirteen stretches: none at first, then the change of width over the width."""
    plan = demo_plan()
    view = year_view(plan)
    assert len(view.months) == 13
    by_name = {part.part: part for part in plan.seasons.parts}
    for part in view.parts:
        season = by_name[part.name]
        assert part.stretches[0] == 0.0
        for stretch, month in zip(part.stretches[1:], season.months, strict=True):
            assert stretch * season.width_mm == pytest.approx(month.width_change_mm, abs=1e-3)
