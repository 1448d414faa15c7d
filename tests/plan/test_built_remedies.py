"""What is offered beside a finding about the making mends it, and nothing serious comes of it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
import yaml

from scantling.cli.job import job_from_files
from scantling.errors import Finding, Remedy
from scantling.papers.sheets.all import sheet_of
from scantling.papers.sheets.business import findings_sheet
from scantling.papers.sheets.model import Table
from scantling.plan.made.built import BUILT_CODES
from scantling.plan.made.built_remedies import BUILT_REMEDIED
from scantling.plan.planner import Planner
from scantling.plan.result import Plan

__all__: list[str] = []

EXAMPLES = Path(__file__).parents[2] / "examples"
PLANNER = Planner()
Notes = dict[str, dict[str, object] | list[str]]

CASES: dict[str, tuple[str, Notes, list[str]]] = {
    "too short": (
        "M01",
        {"measured": {"apron_front": {"length": "962 mm"}}},
        ["Set length to 1368 mm", "Make apron_front anew: take back its length as measured"],
    ),
    "too short between the shoulders": (
        "M01",
        {"measured": {"apron_front": {"shoulders": "962 mm"}}},
        [
            "Set length to 1368 mm",
            "Make apron_front anew: take back its length between the shoulders as measured",
        ],
    ),
    "too long": ("M01", {"measured": {"apron_front": {"length": "966 mm"}}}, ["Set length to 1372 mm"]),
    "an opening": (
        "M04",
        {"measured": {"length": "1366 mm"}, "done": ["apron_front"]},
        ["Take back length as measured"],
    ),
    "too large": (
        "M06",
        {"measured": {"end_left": {"width": "90 mm"}}},
        ["Take back the width of end_left as measured"],
    ),
    "a joint": (
        "M07",
        {"measured": {"top": {"thickness": "14 mm"}}},
        ["Make top anew: take back its thickness as measured"],
    ),
}
"""What is written of the making, the finding it gives, and what is offered."""


def planned(tmp_path: Path, notes: Notes, *, given: dict[str, str] | None = None, units: str = "mm") -> Plan:
    """The reading table with what is written of its making."""
    made = tmp_path / "made.yaml"
    made.write_text(yaml.safe_dump(notes), encoding="utf-8")
    job = job_from_files(EXAMPLES / "reading_table.yaml", measured=made, given=given)
    return PLANNER.plan(replace(job, piece=job.piece.shown_in(units)))


def told(plan: Plan, code: str) -> list[Finding]:
    """Findings of one code."""
    return [finding for finding in plan.findings if finding.code == code]


def mended(tmp_path: Path, notes: Notes, remedy: Remedy) -> Plan:
    """The plan after a remedy, as its path and text say it."""
    if not remedy.taken_back:
        return planned(tmp_path, notes, given={remedy.parameter: remedy.text})
    left = yaml.safe_load(yaml.safe_dump(notes))
    *block, last = remedy.path
    holder = left
    for step in block:
        holder = holder[step]
    del holder[last]
    return planned(tmp_path, left)


@pytest.mark.parametrize("case", CASES)
def test_what_is_offered_mends_it_and_nothing_serious_comes(case: str, tmp_path: Path) -> None:
    """Each key by itself."""
    code, notes, words = CASES[case]
    plan = planned(tmp_path, notes)
    (found,) = told(plan, code)
    assert [remedy.words for remedy in found.remedies] == words
    serious = {(each.code, each.where) for each in plan.errors}
    for remedy in found.remedies:
        after = mended(tmp_path, notes, remedy)
        assert told(after, code) == []
        assert {(each.code, each.where) for each in after.errors} <= serious


def test_every_finding_with_a_remedy_is_tried() -> None:
    """M05 comes of a piece that changed after it was measured: it is tried where pieces are kept."""
    assert {code for code, _, _ in CASES.values()} | {"M05"} == set(BUILT_REMEDIED)
    assert set(BUILT_REMEDIED) < BUILT_CODES


def test_shown_in_inches_the_parameter_is_set_in_inches(tmp_path: Path) -> None:
    """1368 mm is 53.858 in: within 0.02 mm, where a gap of 0.3 shows."""
    _, notes, _ = CASES["too short"]
    (found,) = told(planned(tmp_path, notes, units="in"), "M01")
    remedy = found.remedies[0]
    assert remedy.words == "Set length to 53.858 in"
    assert told(mended(tmp_path, notes, remedy), "M01") == []


def test_with_two_sizes_measured_none_is_said_to_be_at_fault(tmp_path: Path) -> None:
    """Which of the two keeps the clips from being made is not plain."""
    notes: Notes = {"measured": {"top": {"thickness": "14 mm", "width": "659 mm"}}}
    (found,) = told(planned(tmp_path, notes), "M07")
    assert found.remedies == ()


def test_a_thin_part_is_not_called_short(tmp_path: Path) -> None:
    """Where a joint cannot be made the plan goes on as drawn; no length is off by it."""
    _, notes, _ = CASES["a joint"]
    plan = planned(tmp_path, notes)
    assert told(plan, "M01") == []
    assert len(told(plan, "M07")) == 1


def test_the_sheet_of_findings_says_what_to_take_out_of_the_notes(tmp_path: Path) -> None:
    """What `scantling check` prints for whoever works with files."""
    _, notes, _ = CASES["too short"]
    (table,) = sheet_of(planned(tmp_path, notes), findings_sheet).blocks
    assert isinstance(table, Table)
    (row,) = [row for row in table.rows if row[0] == "M01"]
    assert "Set length to 1368 mm (write parameters.length: default: 1368mm)." in row[4]
    assert "take back its length as measured (take measured.apron_front.length out of the notes)." in row[4]
