"""Sheet parts are laid out on the sheets of the rack, along their grain, by cuts from edge to edge."""

from __future__ import annotations

from pathlib import Path

import pytest

from scantling.errors import FileFaults
from scantling.papers.sheets.timber import timber_sheet
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.timber.needs import SheetNeed
from scantling.plan.timber.sheets import SheetPlan, sheet_cutting, sheet_request
from scantling.shop.profile.profile_file import default_shop
from scantling.stock import Board, parse_rack, verify_layout
from tests.plan.peg_rail import SHOP, peg_job

CUPBOARD = """
scantling: 1
title: A back and two shelves
units: mm
parts:
  back:
    kind: sheet
    species: %(material)s
    center: [0, 0, 500 mm]
    along: top
    length: 790 mm
    section: [490 mm, 6 mm]
    width_toward: right
  shelf:
    kind: sheet
    species: %(material)s
    center: [0, 200 mm, 300 mm]
    along: right
    length: 490 mm
    section: [290 mm, 6 mm]
    width_toward: back
    repeat: {count: 2, step: [0, 0, 300 mm]}
"""
HEAD = "name,species,thickness,length,width,price\n"
TRACK = SHOP.replace("table_saw: {kerf: 3}", "table_saw: {kerf: 3}\n  track_saw: {kerf: 2}")


def planned(folder: Path, rack: str, *, material: str = "birch plywood", notes: str = "") -> Plan:
    """The plan; what lies on sheets is sound by the checker."""
    if notes:
        (folder / "rack.bench.yaml").write_text(notes, encoding="utf-8")
    job = peg_job(folder, piece=CUPBOARD % {"material": material}, shop=TRACK, rack=HEAD + rack)
    plan = make_plan(job)
    assert job.rack is not None
    request = sheet_request(plan.timber.sheets, job.rack.sheets, job.shop)
    if plan.timber.on_sheets is not None and not notes:
        found = verify_layout(
            plan.timber.on_sheets.layout,
            boards=request.boards,
            blanks=request.blanks,
            cutting=sheet_cutting(job.shop),
        )
        assert found == ()
        thick = {need.part: need.thickness_mm for need in plan.timber.sheets}
        for laid in plan.timber.on_sheets.layout.boards:
            near = [abs(laid.board.rough_thickness_mm - thick[p.blank.name]) for p in laid.placed]
            assert max(near) <= 0.8
    return plan


def on_sheets(plan: Plan) -> SheetPlan:
    """What there must be."""
    assert plan.timber.on_sheets is not None
    return plan.timber.on_sheets


def placed(plan: Plan) -> dict[str, tuple[float, float]]:
    """Parts with their sizes along and across the grain."""
    return {p.blank.name: (p.length_mm, p.width_mm) for b in on_sheets(plan).layout.boards for p in b.placed}


def told(plan: Plan) -> dict[str, str]:
    """Codes of findings of sheets, with where and the way out."""
    return {f.code: f"{f.where}: {f.message} {f.advice}" for f in plan.findings if f.code.startswith("T1")}


def test_parts_of_one_sheet_with_kerf_and_trimmed_edges(tmp_path: Path) -> None:
    """800 x 500 and two of 500 x 300 (10 mm over size each way), kerf 2, edges 5.

    800 + 2 + 500 and two edges are 1312 mm; two shelves side by side, 300 + 2 + 300 and two edges 612 mm.
    """
    plan = planned(tmp_path, "S,birch plywood,6 mm,1312,612,30\n")
    assert placed(plan) == {
        "back": (pytest.approx(800), pytest.approx(500)),
        "shelf_1": (pytest.approx(500), pytest.approx(300)),
        "shelf_2": (pytest.approx(500), pytest.approx(300)),
    }
    assert not told(plan)
    assert len(placed(planned(tmp_path, "S,birch plywood,6 mm,1311,612,30\n"))) < 3
    assert len(placed(planned(tmp_path, "S,birch plywood,6 mm,1312,611,30\n"))) < 3


def test_grain_is_respected_where_there_is_any(tmp_path: Path) -> None:
    """A back of 800 along the grain does not lie across a sheet of 520 x 820; hardboard has no grain."""
    sheet = "S,%s,6 mm,520,820,30\n"
    assert "back" not in placed(planned(tmp_path, sheet % "birch plywood"))
    assert "back" in placed(planned(tmp_path, sheet % "hardboard", material="hardboard"))


def test_parts_lie_on_sheets_of_their_own_thickness(tmp_path: Path) -> None:
    """Only the sheet of 6 mm is cut, though the one of 12 costs less, and nothing is called pinned."""
    rack = "S,birch plywood,6 mm,2440,1220,30\nT,birch plywood,12 mm,2440,1220,5\n"
    plan = planned(tmp_path, rack)
    assert [b.board.name for b in on_sheets(plan).layout.boards] == ["S"]
    assert "pinned" not in repr(timber_sheet(plan))


def test_what_no_sheet_can_give_is_named_with_the_smallest_that_would_do(tmp_path: Path) -> None:
    """No material or thickness (T13), larger than every sheet (T14), no place left (T15)."""
    none = told(planned(tmp_path, "S,birch plywood,12 mm,2440,1220,30\n"))
    assert "holds no birch plywood 6 mm; its sheets are birch plywood 12 mm" in none["T13"]
    small = told(planned(tmp_path, "S,birch plywood,6 mm,800,1220,30\n"))
    assert "back: Needs 800 × 500 mm" in small["T14"]
    assert "at least 810 mm along the grain and 510 mm wide" in small["T14"]
    full = told(planned(tmp_path, "S,birch plywood,6 mm,820,520,30\n"))
    assert "T15" in full
    assert "T14" not in full


def test_sheets_that_are_cut_are_paid_for_and_the_rest_by_area(tmp_path: Path) -> None:
    """One sheet of 30 with a tenth for picking: 33; without one the parts are told as unpriced."""
    plan = planned(tmp_path, "S,birch plywood,6 mm,1312,612,30\n")
    line = next(line for line in plan.pricing.quote.lines if "sheet of the rack" in line.what)
    assert line.amount == pytest.approx(33)
    none = planned(tmp_path, "S,birch plywood,12 mm,2440,1220,30\n")
    assert any("birch plywood 6 mm" in what for what in none.pricing.unpriced)


def test_sheets_have_their_pictures_cuts_and_step(tmp_path: Path) -> None:
    """The boards sheet draws the sheet and lists its cuts; the order of work cuts the parts."""
    plan = planned(tmp_path, "S,birch plywood,6 mm,1312,612,30\n")
    said = repr(timber_sheet(plan))
    assert "Chalk list of the sheets" in said
    step = next(s for s in plan.order.steps if s.title == "Cut the sheet parts")
    assert step.parts == ("back", "shelf_1", "shelf_2")


def test_the_bench_notes_hold_for_sheets_too(tmp_path: Path) -> None:
    """The back is cut and 510 x 620 mm are left: a shelf comes from the rest, nothing is told as unknown."""
    notes = "cut: {S: [back]}\nleft: {S: 510 mm x 612 mm}\n"
    plan = planned(tmp_path, "S,birch plywood,6 mm,1312,612,30\n", notes=notes)
    assert "back" not in placed(plan)
    assert not {code for code in told(plan) if code == "T11"}
    assert on_sheets(plan).layout.price == 30


def test_a_sheet_is_written_by_its_thickness() -> None:
    """Quarters are for boards; a sheet in the rack is no board of it."""
    with pytest.raises(FileFaults) as caught:
        parse_rack(HEAD + "S,plywood,3/4,2440,1220,30\n", file="rack.csv")
    assert "sheets are sold by their thickness" in str(caught.value)
    rack = parse_rack(HEAD + "S,plywood,18 mm,2440,1220,30\n", file="rack.csv")
    assert (rack.boards, [s.species for s in rack.sheets]) == ((), ["birch plywood"])


def test_a_thickness_as_sold_counts_as_its_nominal() -> None:
    """18.3 mm and 17.5 mm serve for 18; 19 does not."""
    need = SheetNeed(part="a", material="MDF", length_mm=300, width_mm=200, thickness_mm=18)
    for thickness, serves in ((17.5, True), (18.3, True), (19.0, False)):
        sheet = Board(name="S", species="MDF", width_mm=1220, length_mm=2440, thickness_mm=thickness)
        assert bool(sheet_request((need,), (sheet,), default_shop()).blanks) is serves


def test_a_whole_sheet_written_in_feet_and_inches_serves(tmp_path: Path) -> None:
    """8 by 4 feet, 2438 x 1219 mm: the back, 790 x 490 and 10 mm over, and both shelves come from it."""
    head = "name,species,thickness,length (ft),width (in),price\n"
    piece = CUPBOARD % {"material": "birch plywood"}
    plan = make_plan(
        peg_job(tmp_path, piece=piece, shop=TRACK, rack=head + "P1,birch plywood,6 mm,8,48,38\n")
    )
    assert placed(plan)["back"] == (pytest.approx(800), pytest.approx(500))
    [sheet] = on_sheets(plan).layout.boards
    assert (sheet.board.length_mm, sheet.board.width_mm) == pytest.approx((2438.4, 1219.2))
