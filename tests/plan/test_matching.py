"""Wishes of a piece file, from the file to the plan and its findings."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from scantling.cli.job import job_from_files
from scantling.papers.sheets.timber import timber_sheet
from scantling.piece.matching import Looks
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from tests.plan.jobs import EXAMPLES, shipped_job

WISHES = """
matching:
  legs: {wish: alike, parts: [leg_fl]}
  aprons: {wish: grain runs through, parts: [apron_front, apron_left]}
  ends: {wish: book-matched, parts: [end_left, end_right], worth: 40}
"""


def planned(tmp_path: Path, *, rack: bool = True, **changed: str) -> Plan:
    """The reading table with wishes."""
    text = (EXAMPLES / "reading_table.yaml").read_text(encoding="utf-8")
    for old, new in changed.items():
        text = text.replace(old, new)
    path = tmp_path / "table.yaml"
    path.write_text(text + WISHES, encoding="utf-8")
    return make_plan(
        job_from_files(
            path,
            shop=EXAMPLES / "shops" / "reading-table.yaml",
            rack=EXAMPLES / "racks" / "reading-table.csv" if rack else None,
        )
    )


def said(plan: Plan) -> str:
    """The boards sheet as text."""
    return repr(timber_sheet(plan))


def test_wishes_reach_the_layout_and_its_sheet(tmp_path: Path) -> None:
    """Legs from one board, aprons as one blank; leaves cannot be resawn in a shop without the saw (T08)."""
    plan = planned(tmp_path)
    layout = plan.timber.layout
    assert layout is not None
    assert {a.wish.name: a.granted for a in layout.wishes} == {"legs": True, "aprons": True, "ends": False}
    assert "Mill the piece from" in said(plan)
    found = next(f for f in plan.findings if f.code == "T08")
    assert (found.where, "no saw to resaw" in found.message) == ("ends", True)


def test_without_a_rack_it_says_what_to_look_for(tmp_path: Path) -> None:
    """The aprons run through: the wood to ask for holds a board as long as both."""
    plan = planned(tmp_path, rack=False)
    assert "one board long enough for all of them" in said(plan)
    longest = max(p.longest_mm for p in plan.timber.to_buy)
    blank = next(b for b in plan.timber.blanks if b.name == "apron_front")
    side = next(b for b in plan.timber.blanks if b.name == "apron_left")
    assert longest == pytest.approx(blank.length_mm + side.length_mm, abs=10)


def test_a_part_seen_from_both_sides_hides_nothing() -> None:
    """Show face clear on a part whose both wide faces are seen is laid out clear, and said (T10)."""
    job = shipped_job("reading_table")
    parts = {n: replace(p, looks=Looks.SHOW_CLEAR) for n, p in job.piece.parts.items()}
    plan = make_plan(replace(job, piece=replace(job.piece, parts=parts)))
    told = {name for f in plan.findings if f.code == "T10" for name in f.where.split(", ")}
    looks = {b.part: b.looks for b in (*plan.timber.blanks, *plan.timber.panels)}
    assert {"top", "end_left"} <= told
    assert looks["apron_front"] is Looks.SHOW_CLEAR
    assert all((looks[name] is Looks.CLEAR) is (name in told) for name in looks)
