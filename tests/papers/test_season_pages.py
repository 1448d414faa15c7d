"""Seasons on sheet and packet: bands, edges by month, cup in words, and the tightest joint in the picture."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from scantling.papers.pages.figures import Figures
from scantling.papers.pages.season_pages import movement_rows, season_notes, year_picture
from scantling.papers.sheets.model import Facts, Table, Words
from scantling.papers.sheets.seasons import seasons_sheet
from scantling.plan.year.seasons import Verdict
from scantling.seasons.air import Month
from scantling.units import LengthStyle
from tests.plan.jobs import demo_job, demo_plan

MM = Figures(style=LengthStyle(step_mm=0.5))


def table(title: str) -> Table:
    """A table of the seasons sheet."""
    blocks = seasons_sheet(demo_plan()).blocks
    return next(block for block in blocks if isinstance(block, Table) and block.title.startswith(title))


def test_a_width_is_given_with_its_band() -> None:
    """Sheet and packet say 6.5 mm and between which figures nine boards in ten lie."""
    top = next(part for part in demo_plan().seasons.parts if part.part == "top")
    near, far = (f"{abs(mm):.1f}" for mm in (top.narrowest_near_mm, top.narrowest_low_mm))
    [row] = [row for row in table("Width of the parts").rows if row[0] == "Top"]
    assert row[3] == f"−{abs(top.narrowest_mm):.1f} ({near} to {far})"
    [printed] = [
        r for r in movement_rows(demo_plan().seasons, demo_job().piece, figures=MM) if r.part == "Top"
    ]
    assert printed.year == f"{abs(top.narrowest_mm):.1f} ({near} to {far})"


def test_the_edges_stand_in_the_sheet_and_the_notes_month_by_month() -> None:
    """Twelve months, driest and wettest; the packet's note has the same twelve figures."""
    edges = table("Edges against the breadboard ends, mm")
    assert [row[0] for row in edges.rows] == [*(m.value.capitalize() for m in Month), "Driest", "Wettest"]
    [front, _] = demo_plan().year.edges
    shown = [float(row[1].replace("−", "-")) for row in edges.rows[:12]]
    assert shown == pytest.approx(list(front.steps_mm), abs=0.051)
    notes = season_notes(demo_plan().seasons, demo_plan().year, figures=MM)
    [note] = [note for note in notes if "edge" in note]
    told = re.findall(r"[A-Z][a-z]{2} ([−+]?\d+(?:\.\d+)?)", note)
    assert [float(figure.replace("−", "-")) for figure in told] == pytest.approx(
        list(front.steps_mm), abs=0.051
    )


def test_the_verdict_of_the_plan_is_the_one_shown() -> None:
    """Free, tight and bound places, and how many are tight in the lead."""
    joints = demo_plan().seasons.joints
    assert "tight" not in seasons_sheet(demo_plan()).lead
    close = tuple(replace(joint, verdict=Verdict.TIGHT) for joint in joints[:3])
    some = replace(demo_plan(), seasons=replace(demo_plan().seasons, joints=(*close, *joints[3:])))
    assert "3 places are tight" in seasons_sheet(some).lead
    assert {row[-1] for row in table("Places that must be free").rows} == {j.verdict.value for j in joints}
    bound = replace(joints[0], verdict=Verdict.BINDS, spare_mm=-1.0)
    plan = replace(demo_plan(), seasons=replace(demo_plan().seasons, joints=(bound, *joints[1:])))
    assert "1 place binds: see below." in seasons_sheet(plan).lead


def test_the_picture_ends_with_the_room_at_the_tightest_place() -> None:
    """Its line goes through the room of each month, its spot stands in the worst, and build day is marked."""
    plan = demo_plan()
    picture = year_picture(plan.seasons, plan.year, figures=MM)
    tightest = plan.year.tightest_of_year
    assert tightest is not None
    assert len(picture.panels) == 4
    last = picture.panels[-1]
    assert last.title.startswith(f"Tightest: {tightest.what}")
    assert last.lines[0].values[1::2] == pytest.approx(tightest.rooms_mm)
    assert last.spot is not None
    assert last.spot.text.endswith(f": {min(tightest.rooms_mm):.1f} left")
    assert picture.marks[0].text == "built in January, assumed"
    short = replace(tightest, rooms_mm=tuple(room - 1.0 for room in tightest.rooms_mm))
    binding = year_picture(plan.seasons, replace(plan.year, places=(short,)), figures=MM).panels[-1]
    assert binding.limit == 0.0
    assert binding.spot is not None
    assert binding.spot.text.partition(": ")[2].startswith("binds by")


def test_the_cup_is_told_in_words() -> None:
    """The strip's own by its rings, hollow on the bark side when driest."""
    notes = " ".join(season_notes(demo_plan().seasons, demo_plan().year, figures=MM))
    cup = next(part for part in demo_plan().seasons.parts if part.part == "top").ring_cup
    assert cup is not None
    assert f"{cup.dry_mm:.1f} hollow on the bark side when driest" in notes


def test_a_month_of_milling_is_said_to_be_assumed_until_the_shop_names_one() -> None:
    """Sheet and picture say January, assumed, and how to name another; October given is October."""
    plan = demo_plan()
    assert plan.seasons.built_month_assumed
    sheet = seasons_sheet(plan)
    words = " ".join(line for block in sheet.blocks if isinstance(block, Words) for line in block.lines)
    assert "January is assumed" in words
    given = replace(plan.seasons, built_month=Month.OCT, built_month_assumed=False)
    told = seasons_sheet(replace(plan, seasons=given))
    [facts] = [block for block in told.blocks if isinstance(block, Facts)]
    assert facts.items[0][0] == "When built, October"
    assert "assumed" not in repr(told)
    assert year_picture(given, plan.year, figures=MM).marks[0].text == "built in October"
