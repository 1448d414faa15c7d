"""Which way to lean the bit stands on every face: sheet, packet and table."""

from __future__ import annotations

import csv
import io

import pytest

from scantling.papers.exports.tables import marks_csv
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import joint_sheets, marked_parts
from scantling.papers.sheets.joints import joints_sheet
from scantling.papers.sheets.model import Table, Words
from scantling.papers.words.sight_words import sight_words
from scantling.plan.planner import make_plan
from scantling.units import LengthStyle
from tests.plan.jobs import shipped_job

JOB = shipped_job("hall_bench", rack=False)
PLAN = make_plan(JOB)
WAYS = {
    f"sight line 33.5° off the length, leaning toward {x} and {y}"
    for x in ("left", "right")
    for y in ("front", "back")
}


def test_the_bench_tells_each_of_its_four_sight_lines() -> None:
    """Four holes, four ways to lean, one angle."""
    marks = [m for work in PLAN.joints for m in work.marks if m.part == "seat"]
    assert {sight_words(mark) for mark in marks} == WAYS


def test_the_sheet_tells_them() -> None:
    """The seat's table has one row for each way, and says that marking and boring are on one face."""
    sheet = joints_sheet(PLAN)
    [seat] = [block for block in sheet.blocks if isinstance(block, Table) and block.title == "Seat"]
    assert {way for way in WAYS for row in seat.rows if way in row[-1]} == WAYS
    assert {row[1] for row in seat.rows} == {"bottom face"}
    titles = [block.title for block in sheet.blocks if isinstance(block, Words)]
    assert len(titles) == len(set(titles))
    assert "Cutting a round tenon: Leg to seat" in titles


def test_the_packet_tells_them() -> None:
    """On the seat's marking sheet; a leg's sheet keeps the steps of its two joints apart."""
    figures = Figures(style=LengthStyle())
    sheets = joint_sheets(marked_parts(JOB.piece, PLAN.joints, figures=figures), figures=figures)
    seat = next(sheet for sheet in sheets if sheet.title == "Seat")
    assert {way for way in WAYS for row in seat.marks if way in row.what} == WAYS
    leg = next(sheet for sheet in sheets if "leg" in sheet.title)
    assert any(line.startswith("Leg to seat: Bore from the bottom face") for line in leg.steps)
    assert any(line.startswith("Stretcher to leg: Lay the round part") for line in leg.steps)


def test_the_table_for_other_programs_has_the_angle_and_the_way() -> None:
    """33.47 degrees and the two ways, a column each."""
    rows = list(csv.DictReader(io.StringIO(marks_csv(PLAN.joints).decode("utf-8-sig"))))
    holes = [row for row in rows if row["part"] == "seat"]
    assert [float(row["angle_deg"]) for row in holes] == pytest.approx([33.47] * 4, abs=0.01)
    assert {row["toward"] for row in holes} == {"left front", "right front", "left back", "right back"}
