"""A stick no board is wide enough for is glued up from strips, and the plan says so."""

from __future__ import annotations

from pathlib import Path

import pytest

from scantling.errors import Finding
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.timber.needs import cutting_of
from scantling.stock import verify_layout
from tests.plan.peg_rail import SHOP, peg_job

SHELF = """
scantling: 1
title: A shelf of one board
units: mm
parts:
  shelf:
    kind: stick
    species: white oak
    from: [-300 mm, 0, 500 mm]
    to: [300 mm, 0, 500 mm]
    section: [260 mm, 20 mm]
    width_toward: back
"""
RACK = "name,species,thickness,length,width,price\nA,white oak,5/4,1500,%d,30\nB,white oak,5/4,700,170,30\n"


def planned(folder: Path, *, widest_mm: int, rack: bool = True, **words: str) -> Plan:
    """The plan of the shelf."""
    piece = SHELF
    for old, new in words.items():
        piece = piece.replace(old, new)
    boards = RACK % widest_mm if rack else None
    job = peg_job(folder, piece=piece, rack=boards)
    plan = make_plan(job)
    if plan.timber.layout is not None and job.rack is not None:
        found = verify_layout(
            plan.timber.layout,
            boards=job.rack.boards,
            blanks=plan.timber.blanks,
            panels=plan.timber.panels,
            cutting=cutting_of(job.shop),
        )
        assert found == ()
    return plan


def told(plan: Plan, code: str) -> list[Finding]:
    """Findings of one code."""
    return [f for f in plan.findings if f.code == code]


def test_too_wide_for_every_board_it_becomes_a_panel(tmp_path: Path) -> None:
    """266.3 mm are wanted rough (260, 0.3 to scrape, 1 to settle, 5 at the edges); a board of 274 gives 266.

    The width a board loses: 5 mm to straighten its lower edge, 3 mm at the far one.
    """
    plan = planned(tmp_path, widest_mm=274)
    layout = plan.timber.layout
    assert layout is not None
    assert layout.complete
    assert [p.name for p in plan.timber.panels] == ["shelf"]
    assert sum(layout.strips[0].widths_mm) >= 260
    assert plan.milling[0].strips is not None
    finding = told(plan, "T12")[0]
    assert finding.numbers == {"wanted_mm": pytest.approx(266.3), "widest_mm": pytest.approx(266)}
    assert any(step.title.startswith("Glue up") for step in plan.order.steps)


def test_a_board_just_wide_enough_keeps_it_whole(tmp_path: Path) -> None:
    """275 mm give 267."""
    plan = planned(tmp_path, widest_mm=275)
    assert plan.milling[0].strips is None
    assert not told(plan, "T12")


def test_a_part_that_must_be_whole_says_which_board_would_do(tmp_path: Path) -> None:
    """T02 with the smallest board: 266.3 mm and the 8 mm its edges lose."""
    plan = planned(tmp_path, widest_mm=200, species="whole: true\n    species")
    finding = told(plan, "T02")[0]
    assert "275 mm wide" in (finding.advice or "")
    assert not told(plan, "T12")
    assert plan.milling[0].strips is None


def test_without_a_rack_the_widest_board_of_the_yard_counts(tmp_path: Path) -> None:
    """A yard with boards of 300 mm gives 292: the shelf is one board; of 340 mm it would be a panel."""
    assert not told(planned(tmp_path, widest_mm=0, rack=False), "T12")
    wide = {"260 mm": "340 mm"}
    assert told(planned(tmp_path, widest_mm=0, rack=False, **wide), "T12")
    assert "widest_board" not in SHOP
