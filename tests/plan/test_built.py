"""What is made and no longer fits is told with figures and a way out; papers show old figures by the new."""

from __future__ import annotations

from pathlib import Path

import pytest

from scantling.cli.job import job_from_files
from scantling.errors import FileFaults, Finding
from scantling.papers.sheets.all import sheet_of
from scantling.papers.sheets.model import Table
from scantling.papers.sheets.parts import parts_sheet
from scantling.plan.planner import Planner
from scantling.plan.result import Plan

EXAMPLES = Path(__file__).parents[2] / "examples"
PLANNER = Planner()


def planned(tmp_path: Path, notes: str, *, piece: str = "reading_table", **given: str) -> Plan:
    """An example planned with what is written of its making, and with sizes given after it."""
    file = tmp_path / "made.yaml"
    file.write_text(notes)
    return PLANNER.plan(job_from_files(EXAMPLES / f"{piece}.yaml", measured=file, given=given))


def told(plan: Plan, code: str) -> list[Finding]:
    """Findings of one code."""
    return [finding for finding in plan.findings if finding.code == code]


def test_an_apron_cut_short_is_serious_and_has_three_ways_out(tmp_path: Path) -> None:
    """Drawn 964.0 mm, cut 962.0: shim 1.0 mm at each end, make it anew, or a table of 1368 mm."""
    plan = planned(tmp_path, "measured: {apron_front: {length: 962.04 mm}}")
    (found,) = told(plan, "M01")
    assert found.is_error
    assert "2.0 mm too short" in found.message
    assert "964.0 mm long" in found.advice
    assert "shim 1.0 mm at each end" in found.advice
    assert "let length be 1368.0 mm" in found.advice


def test_an_apron_cut_long_is_trimmed(tmp_path: Path) -> None:
    """3 mm too long is no more than 3 mm to trim."""
    plan = planned(tmp_path, "measured: {apron_front: {length: 967.04 mm}}")
    (found,) = told(plan, "M01")
    assert not found.is_error
    assert found.advice.startswith("Trim 3.0 mm off it")


def test_the_parts_sheet_shows_old_and_new_side_by_side(tmp_path: Path) -> None:
    """The narrower top, and the ends that follow it, beside what the file draws."""
    sheet = sheet_of(planned(tmp_path, "measured: {top: {width: 657 mm}}"), parts_sheet)
    sizes, made = [block for block in sheet.blocks if isinstance(block, Table)]
    assert ("Top", "657 *") in [(row[0], row[4]) for row in sizes.rows]
    assert ("Top", "Width", "660", "657", "measured", "657") in made.rows
    assert ("End left and right", "Length", "660", "657", "follows", "657") in made.rows


def test_what_does_not_fit_stands_as_it_is_and_not_as_it_should_be(tmp_path: Path) -> None:
    """The apron that is cut short has a line of its own, 962 long; its pair keeps 964."""
    sheet = sheet_of(planned(tmp_path, "measured: {apron_front: {length: 962.04 mm}}"), parts_sheet)
    sizes = next(block for block in sheet.blocks if isinstance(block, Table))
    lengths = {row[0]: row[3] for row in sizes.rows}
    assert lengths["Apron front"] == "962 *"
    assert lengths["Apron back"] == "964"


def test_slots_and_mortises_are_computed_from_the_size_measured(tmp_path: Path) -> None:
    """A top 60 mm narrower moves less: 600/660 of its travel between the outer pin and the middle."""
    drawn = planned(tmp_path, "measured: {apron_front: {width: 90 mm}}")
    narrow = planned(tmp_path, "measured: {top: {width: 600 mm}}\ndone: [apron_left, apron_right]")
    wide, small = ({p.part: p for p in plan.seasons.parts}["top"] for plan in (drawn, narrow))
    share = (small.widest_mm - small.narrowest_mm) / (wide.widest_mm - wide.narrowest_mm)
    assert share == pytest.approx(600.0 / 660.0, rel=1e-3)


def test_a_leg_measured_beside_others_that_are_made_counts_for_itself(tmp_path: Path) -> None:
    """A note says so, and names what to measure if it is to hold for all."""
    plan = planned(tmp_path, "measured: {leg_fl: {width: 47 mm}}\ndone: [leg_fr, leg_bl, leg_br]")
    (found,) = told(plan, "M03")
    assert "write leg itself" in found.advice


def test_more_than_the_blank_had_is_doubted(tmp_path: Path) -> None:
    """The end's blank is 81.5 mm wide; 90 mm cannot have come out of it."""
    plan = planned(tmp_path, "measured: {end_left: {width: 90 mm}}")
    (found,) = told(plan, "M06")
    assert found.numbers["measured_mm"] == 90.0
    assert found.numbers["rough_mm"] == pytest.approx(81.5, abs=0.5)


@pytest.mark.parametrize(
    ("notes", "code"),
    [
        ("measured: {tip: {width: 657 mm}}", "not_in_piece"),
        ("measured: {top: {depth: 657 mm}}", "not_in_piece"),
        ("measured: {top: {width: 657}}", "unit_missing"),
        ("measured: {top: {width: 65.7 mm}}", "not_believable"),
        ("measured: {top: {width: 6600 mm}}", "not_believable"),
        ("measured: {splay: 7 mm}", "not_in_piece"),
        ("measured: [top]", "not_a_block"),
        ("measured: {}\ndone: [topp]", "not_in_piece"),
        ("measured: {}\ndone: [rail_*]", "not_in_piece"),
        ("measured: {apron_front: {length: 964 mm, shoulders: 905 mm}}", "two_lengths"),
        ("measured: {top: {shoulders: 1218.6 mm, length: 1314 mm}}", "two_lengths"),
        ("mesured: {top: {width: 657 mm}}", "unknown_field"),
        ("leave: [C1]", "nothing_measured"),
    ],
)
def test_a_measure_that_cannot_be_is_refused_with_its_line_and_a_remedy(
    tmp_path: Path, notes: str, code: str
) -> None:
    """Each fault names file and line, the rule, and what to write."""
    with pytest.raises(FileFaults) as refused:
        planned(tmp_path, notes)
    (fault,) = refused.value.faults
    assert fault.code == code
    assert fault.file.endswith("made.yaml")
    assert fault.line >= 1
    assert fault.remedy


def test_length_and_shoulders_of_one_part_are_one_measure(tmp_path: Path) -> None:
    """1314 mm over tenons of 2 x 48 mm leaves 1218 mm: half a millimeter off is read so, more is not."""
    planned(tmp_path, "measured: {top: {length: 1314 mm, shoulders: 1218.4 mm}}")
    with pytest.raises(FileFaults) as refused:
        planned(tmp_path, "measured: {top: {length: 1314 mm, shoulders: 1220 mm}}")
    (fault,) = refused.value.faults
    assert "must be 1218 mm, the length less 96 mm of tenons" in fault.rule
    assert "one of the two" in fault.remedy


def test_all_that_is_wrong_is_told_at_once(tmp_path: Path) -> None:
    """Three slips, three faults, in the order of the file."""
    with pytest.raises(FileFaults) as refused:
        planned(tmp_path, "measured:\n  top: {width: 657, length: 1 km}\n  tip: {width: 3 mm}\n")
    assert [fault.line for fault in refused.value.faults] == [2, 2, 3]


def test_notes_beside_the_rack_are_read_with_it(tmp_path: Path) -> None:
    """What is measured may stand with what is cut; the rack and its other notes are read as before."""
    rack = tmp_path / "cherry.csv"
    rack.write_bytes((EXAMPLES / "racks/reading-table.csv").read_bytes())
    (tmp_path / "cherry.bench.yaml").write_text("measured: {top: {width: 657 mm}}\n")
    job = job_from_files(EXAMPLES / "reading_table.yaml", rack=rack)
    assert job.piece.parts["end_left"].length_mm == pytest.approx(657.0)


def test_a_part_that_cannot_be_drawn_as_measured_is_a_fault(tmp_path: Path) -> None:
    """A leg thinner than the foot it tapers to."""
    with pytest.raises(FileFaults) as refused:
        planned(tmp_path, "measured: {leg_fl: {width: 29 mm}}\ndone: [leg_fr, leg_bl, leg_br]")
    assert refused.value.faults[0].code == "taper_not_possible"
    assert "measure again" in refused.value.faults[0].remedy


def test_a_part_done_stays_as_it_was_cut_when_a_size_is_set_later(tmp_path: Path) -> None:
    """The top is cut 660 wide as the file draws it; 680 given later is told, and the ends follow the top."""
    plan = planned(tmp_path, "done: [top]", width="680 mm")
    widths = {part.name: part.width_mm for part in plan.parts}
    lengths = {part.name: part.length_mm for part in plan.parts}
    assert widths["top"] == pytest.approx(660.0)
    assert lengths["end_left"] == pytest.approx(660.0)
    (found,) = told(plan, "M08")
    assert found.where == "top"
    assert "660.0 mm in width" in found.message
    assert "asks for 680.0 mm" in found.message
    assert told(planned(tmp_path, "done: [top]"), "M08") == []


def test_an_apron_done_is_too_short_for_a_longer_table(tmp_path: Path) -> None:
    """Cut 964 for a table of 1370: one of 1400 asks for 30 more, told once, as M01."""
    plan = planned(tmp_path, "done: [apron_front]", length="1400 mm")
    (found,) = told(plan, "M01")
    assert "30.0 mm too short" in found.message
    assert told(plan, "M08") == []
