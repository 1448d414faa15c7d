"""Short parts are laid out and milled in one length, and crosscut apart later."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from scantling.papers.sheets.parts import milling_sheet, parts_sheet
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.timber.needs import cutting_of
from scantling.shop.milling.ledger import Stage
from scantling.stock import verify_layout
from scantling.stock.layouts.layout import Layout
from tests.plan.peg_rail import BY_HAND, PEG_RAIL, peg_job

WISH = """
matching:
  cleats: {wish: %s, parts: [cleat_1, cleat_2]}
"""


def codes(plan: Plan) -> set[tuple[str, str]]:
    """What is found, and where."""
    return {(f.code, f.where) for f in plan.findings}


def laid(plan: Plan) -> Layout:
    """The layout there must be."""
    assert plan.timber.layout is not None
    return plan.timber.layout


def test_cleats_are_milled_with_the_rail_and_pegs_together(tmp_path: Path) -> None:
    """Two cleats make up 277 of 320 mm, so the rail goes with them: 2 x 124 + 644 + 2 x 3 + 2 x 13 = 924 mm.

    Five pegs make up 5 x 94 + 4 x 3 + 2 x 13 = 508 mm, long enough by themselves (by hand: 2 mm are left to
    square each inner end, and 15 mm at each end of the length, 2 of which are the part's own).
    """
    plan = make_plan(peg_job(tmp_path))
    lengths = {gang.name: (gang.length_mm, gang.tail_mm) for gang in plan.timber.gangs}
    assert lengths == {
        "cleat_1 + cleat_2 + rail": (pytest.approx(924), 0),
        "peg_1 + peg_2 + peg_3 + peg_4 + peg_5": (pytest.approx(508), 0),
    }
    assert "F23" not in {f.code for f in plan.findings}
    placed = {p.blank.name: p.length_mm for b in laid(plan).boards for p in b.placed}
    assert placed == {name: pytest.approx(length) for name, (length, _) in lengths.items()}


def test_a_lone_short_part_keeps_a_tail(tmp_path: Path) -> None:
    """One cleat of another thickness than the rail is milled 320 mm long, 170 of them to be sawn off."""
    alone = PEG_RAIL.replace("section: [90 mm, 22 mm]", "section: [90 mm, 20 mm]", 1)
    alone = alone.replace("repeat: {count: 2, step: [480 mm, 0, 0]}", "note: alone")
    plan = make_plan(peg_job(tmp_path, piece=alone))
    gang = next(g for g in plan.timber.gangs if g.parts == ("cleat",))
    assert (gang.length_mm, gang.tail_mm) == (pytest.approx(320), pytest.approx(320 - 124 - 26))
    ledger = next(x for x in plan.milling if x.part == "cleat")
    assert "170 mm of it a tail" in ledger.notes[-1]
    assert "F23" not in {f.code for f in plan.findings}


def test_the_milling_is_told_whole_and_then_apart(tmp_path: Path) -> None:
    """Every pass before the parting is done to 924 mm; the part comes out of it with 2 mm at each end."""
    plan = make_plan(peg_job(tmp_path))
    cleat = next(x for x in plan.milling if x.part == "cleat_1")
    whole = [one for one in cleat.passes if one.stage is Stage.LENGTH]
    assert {round(one.before.length_mm, 6) for one in whole} == {924}
    parting = cleat.passes[len(whole)]
    assert (parting.operation.value, parting.after.length_mm) == ("crosscut the parts out of the length", 124)
    assert cleat.passes[-1].after == cleat.finished
    milling = [s for s in plan.order.steps if s.phase == "milling"]
    assert any("Leave in one length: peg_1" in line for line in milling[0].details)
    assert any("crosscut them apart only then" in line for line in milling[-1].details)
    assert all(any("Short parts stay" in c for c in s.cautions) for s in milling[1:])
    assert "(shared)" in repr(parts_sheet(plan))
    assert "milled in a length of 924 mm" in repr(milling_sheet(plan))


def test_the_checker_wants_room_for_all_parts_of_a_length(tmp_path: Path) -> None:
    """A length one millimeter too short for its pegs and kerfs is caught."""
    job = peg_job(tmp_path)
    plan = make_plan(job)
    assert job.rack is not None
    cutting = cutting_of(job.shop)

    def broken(layout: Layout, blanks: tuple[object, ...]) -> set[str]:
        found = verify_layout(layout, boards=job.rack.boards, blanks=blanks, cutting=cutting)  # type: ignore
        return {one.code for one in found}

    layout, blanks = laid(plan), plan.timber.blanks
    assert broken(layout, blanks) == set()
    pegs = next(b for b in blanks if b.name.startswith("peg"))
    longer = replace(pegs, members=tuple(replace(m, length_mm=m.length_mm + 5.5) for m in pegs.members))
    swapped = tuple(longer if b is pegs else b for b in blanks)
    boards = tuple(
        replace(b, placed=tuple(replace(p, blank=longer) if p.blank == pegs else p for p in b.placed))
        for b in layout.boards
    )
    assert broken(replace(layout, boards=boards), swapped) == {"length_size"}


def test_small_parts_alike_are_one_length_by_hand_too(tmp_path: Path) -> None:
    """Without machines nothing asks for a length, but nobody holds a peg of 90 mm to plane it."""
    plan = make_plan(peg_job(tmp_path, shop=BY_HAND))
    assert [g.machine for g in plan.timber.gangs] == [""]
    assert plan.timber.gangs[0].parts == ("peg_1", "peg_2", "peg_3", "peg_4", "peg_5")


def test_wishes_follow_their_parts_into_the_length(tmp_path: Path) -> None:
    """Cleats of one board are in one length anyway; cleats whose grain runs through are not ganged twice."""
    plan = make_plan(peg_job(tmp_path, piece=PEG_RAIL + WISH % "same board"))
    assert [(a.wish.members, a.granted) for a in laid(plan).wishes] == [(("cleat_1 + cleat_2",), True)]
    plan = make_plan(peg_job(tmp_path, piece=PEG_RAIL + WISH % "grain runs through"))
    assert [(a.wish.members, a.granted) for a in laid(plan).wishes] == [(("cleat_1", "cleat_2"), True)]
    found = next(f for f in plan.findings if f.code == "F23")
    assert (found.where, found.numbers["length_mm"]) == ("cleat_1, cleat_2", pytest.approx(303))


def test_grain_that_runs_through_is_milled_in_one_length(tmp_path: Path) -> None:
    """Three cleats of 150 mm and two kerfs of 3 are 456 mm, so nothing is too short (by hand)."""
    three = PEG_RAIL.replace("count: 2, step: [480 mm, 0, 0]", "count: 3, step: [240 mm, 0, 0]")
    wish = WISH.replace("cleat_2]", "cleat_2, cleat_3]") % "grain runs through"
    plan = make_plan(peg_job(tmp_path, piece=three + wish))
    assert "F23" not in {f.code for f in plan.findings}
    cleat = next(x for x in plan.milling if x.part == "cleat_2")
    assert cleat.gang is not None
    assert (cleat.gang.length_mm, cleat.rough.length_mm) == (pytest.approx(456), pytest.approx(150))
    assert "their grain runs through" in cleat.notes[-1]
    assert cleat.passes[-1].after == cleat.finished


def test_without_a_rack_lengths_are_bought(tmp_path: Path) -> None:
    """The wood to ask for holds a board as long as the cleats and the rail together."""
    plan = make_plan(peg_job(tmp_path, rack=None))
    assert max(p.longest_mm for p in plan.timber.to_buy) == pytest.approx(924)


def test_what_is_cut_keeps_its_length_and_the_rest_finds_another(tmp_path: Path) -> None:
    """The pegs are cut as one, named so in the notes; cleats and rail go on what is left."""
    (tmp_path / "rack.bench.yaml").write_text(
        "cut: {O1: [peg_1 + peg_2 + peg_3 + peg_4 + peg_5]}\nleft: {O1: 980 mm x 150 mm}\n", encoding="utf-8"
    )
    plan = make_plan(peg_job(tmp_path))
    assert {p.blank.name for b in laid(plan).boards for p in b.placed} == {"cleat_1 + cleat_2 + rail"}
    assert not {c for c, _ in codes(plan)} & {"T11", "F23"}
