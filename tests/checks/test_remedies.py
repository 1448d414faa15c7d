"""Each remedy, written into a design that trips its rule, mends it there and trips nothing else serious."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from scantling.checks.remedies import REMEDIED, length_text
from scantling.errors import Finding, InputError, Severity
from scantling.joinery import look_at_text
from scantling.papers.sheets.all import sheet_of
from scantling.papers.sheets.business import findings_sheet
from scantling.papers.sheets.model import Table
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.plan.refusals import DEFAULT_ROOM, every_fault
from scantling.plan.result import Plan
from scantling.reading.editing import added, changed, removed
from scantling.seasons.room_file import find_room
from scantling.shop.profile.profile_file import default_shop

EXAMPLES = Path(__file__).parents[2] / "examples"
_PLANNER = Planner()

_BREADBOARD, _TENON, _CLIPS = (("joints", name) for name in ("breadboard", "apron_to_leg", "clips"))
FAILING: dict[str, tuple[str, str, tuple[tuple[tuple[str, ...], str], ...]]] = {
    "F02": ("F02", "sideboard", ((("joints", "side_panel_in_frame", "depth"), "9.7 mm"),)),
    "F05": ("F05", "reading_table", (((*_BREADBOARD, "slot"), "7 mm"),)),
    "F06": ("F06", "reading_table", (((*_BREADBOARD, "mortise_over"), "1 mm"),)),
    "F08": ("F08", "trestle_desk", ((("joints", "batten_to_top", "slot"), "6 mm"),)),
    "F09": ("F09", "reading_table", (((*_CLIPS, "depth"), "9 mm"),)),
    "F10": ("F10", "reading_table", (((*_CLIPS, "engaged"), "3 mm"),)),
    "F15": (
        "F15",
        "reading_table",
        (((*_TENON, "thickness"), "12 mm"), (("parameters", "apron_thickness", "default"), "22 mm")),
    ),
    "F15 tongue": ("F15", "reading_table", (((*_BREADBOARD, "tongue_thickness"), "14 mm"),)),
    "F17 too thick": ("F17", "reading_table", (((*_TENON, "thickness"), "11 mm"),)),
    "F17 too thin": ("F17", "reading_table", (((*_TENON, "thickness"), "4 mm"),)),
    "F17 tongue": ("F17", "reading_table", (((*_BREADBOARD, "tongue_thickness"), "14 mm"),)),
    "F18": ("F18", "reading_table", ((("accept",), ""),)),
    "F19": ("F19", "reading_table", (((*_BREADBOARD, "pin_from_shoulder"), "40 mm"),)),
    "F49": ("F49", "sideboard", ((("joints", "drawer_gap", "gap"), "1 mm"),)),
    "F52": (
        "F52",
        "reading_table",
        ((("finish", "hidden_coats"), "0"), (("parts", "top", "show"), "[top]")),
    ),
}
"""Designs that trip a rule: the rule, an example, and what is written otherwise in it; empty takes it out."""


def written(text: str, path: tuple[str, ...], value: str) -> str:
    """The file with one field written, there or not."""
    if not value:
        return removed(text, path)
    try:
        return changed(text, path, value)
    except InputError:
        return added(text, path[:-1], path[-1], value)


@cache
def planned(text: str) -> Plan:
    """The plan of a file in the usual shop and room; it must be one that can be made."""
    shop, room = default_shop(), find_room(DEFAULT_ROOM)
    reading = look_at_text(text)
    assert every_fault(reading, shop=shop, room=room) == ()
    return _PLANNER.plan(Job(piece=reading.piece, shop=shop, room=room))


def failing(case: str) -> tuple[str, tuple[Finding, ...]]:
    """A design that trips a rule, and what that rule says of it."""
    code, example, edits = FAILING[case]
    text = (EXAMPLES / f"{example}.yaml").read_text(encoding="utf-8")
    for path, value in edits:
        text = written(text, path, value)
    return text, tuple(found for found in planned(text).findings if found.code == code)


@pytest.mark.parametrize("case", FAILING)
def test_a_remedy_mends_what_it_is_offered_for_and_nothing_else_breaks(case: str) -> None:
    """Written into the file, the rule is silent there, and nothing serious is new."""
    text, found = failing(case)
    assert found
    serious = {(each.code, each.where) for each in planned(text).errors}
    remedies = {remedy for each in found for remedy in each.remedies}
    assert remedies
    for remedy in remedies:
        mended = planned(written(text, remedy.path, remedy.text))
        places = {place for each in found if remedy in each.remedies for place in each.where.split(", ")}
        still = [
            each
            for each in mended.findings
            if each.code == found[0].code
            and each.severity is not Severity.NOTE
            and places & set(each.where.split(", "))
        ]
        assert still == []
        assert {(each.code, each.where) for each in mended.errors} <= serious


def test_every_rule_with_a_remedy_has_a_design_that_shows_it() -> None:
    """None is claimed that is not tried."""
    assert {code for code, _, _ in FAILING.values()} == set(REMEDIED)


def test_a_deeper_tenon_is_not_offered_where_it_could_run_into_another() -> None:
    """Two aprons meet in each leg of the reading table: thinner is offered, deeper is not."""
    _, found = failing("F18")
    assert {remedy.path[-1] for each in found for remedy in each.remedies} == {"thickness"}


def test_a_tenon_is_made_as_thick_as_a_usual_cutter() -> None:
    """A third of 22 mm is 7.3: no cutter is 7 or 7.5 mm, so 6 is offered."""
    _, found = failing("F18")
    assert {remedy.text for each in found for remedy in each.remedies} == {"6 mm"}


def test_the_sheet_of_findings_says_the_line_to_write() -> None:
    """What `scantling check` prints: the change in words, and where it is written."""
    text, _ = failing("F17 tongue")
    (table,) = sheet_of(planned(text), findings_sheet).blocks
    assert isinstance(table, Table)
    told = " ".join(row[4] for row in table.rows if row[0] == "F17")
    assert "Set tongue thickness of breadboard to 12 mm" in told
    assert "(write joints.breadboard: tongue_thickness: 12mm)" in told


def test_what_is_set_aside_has_no_remedy() -> None:
    """The maker gave a reason: no key is offered to undo it."""
    text = (EXAMPLES / "reading_table.yaml").read_text(encoding="utf-8")
    (found,) = [each for each in planned(text).findings if each.code == "F18"]
    assert found.remedies == ()


@pytest.mark.parametrize(
    ("mm", "units", "up", "text"),
    [
        (9.7, "mm", True, "10 mm"),
        (10.0, "mm", True, "10 mm"),
        (9.7, "mm", False, "9.5 mm"),
        (10.0, "in", True, "7/16 in"),
        (25.4, "in", False, "1 in"),
        (30.0, "in", False, "1 1/8 in"),
    ],
)
def test_sizes_are_written_on_the_side_that_mends(mm: float, units: str, up: bool, text: str) -> None:
    """To half a millimeter or a sixteenth, on the side wanted: 30 mm are 1.181 in, so 1 1/8 at most."""
    assert length_text(mm, units, up=up) == text
