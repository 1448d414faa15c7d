"""Command line, page and packet count, number and name the same things alike."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from scantling.cli.job import job_from_files
from scantling.papers.pages.closing_pages import source_rows
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.timber_pages import rough_rows
from scantling.papers.pages.work_pages import glue_stages, order_facts
from scantling.papers.sheets.all import overview_sheet, sheet_of, sheets_of
from scantling.papers.sheets.model import Facts, Sheet, Table
from scantling.papers.sheets.seasons import _when
from scantling.papers.words.order_rows import likes_of
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.seasons.air import Month
from scantling.units import LengthStyle

EXAMPLES = Path(__file__).parents[3] / "examples"
FIGURES = Figures(style=LengthStyle())


@cache
def _plan(shop: str = "") -> Plan:
    given = EXAMPLES / "shops" / shop if shop else None
    return make_plan(job_from_files(EXAMPLES / "reading_table.yaml", shop=given))


@cache
def _sheets() -> dict[str, Sheet]:
    return {sheet.id: sheet for sheet in sheets_of(_plan())}


def _table(name: str, at: int = 0) -> Table:
    return [block for block in _sheets()[name].blocks if isinstance(block, Table)][at]


def test_glue_ups_are_counted_once() -> None:
    """The sheet's lead, its highest number, the glue to buy and the packet's last number are one count."""
    count = _plan().gluing.count
    stages = glue_stages(_plan().gluing, figures=FIGURES)
    numbers = [row[0] for row in _table("gluing").rows if row[0] != "dry"]
    bought = [
        cell
        for block in _sheets()["hardware"].blocks
        if isinstance(block, Table)
        for row in block.rows
        for cell in row
        if "glue-ups" in cell
    ]
    assert 0 < count < len(_plan().gluing.stages)
    assert numbers == [str(n + 1) for n in range(count)]
    assert _sheets()["gluing"].lead.startswith(f"{count} glue-ups")
    assert bought == [f"{count} glue-ups"]
    assert [s.numbers for s in stages if s.numbers][-1] == str(count)


def test_strips_are_told_in_the_same_words() -> None:
    """The rough size of a part of several strips is that of the widest, and each face says so."""
    words = {row.note for row in rough_rows(_plan().milling, figures=FIGURES) if "strips" in row.note}
    assert words == {"strips, width of the widest"}
    assert "strips, width of the widest" in _table("parts").note
    assert any(row[6].startswith("5 × ") for row in _table("parts").rows)


def test_every_face_tells_the_same_days() -> None:
    """Cover, order sheet, overview and command line count days alike, and the bound as the days it takes."""
    table = _plan().order.timetable
    fact = next(
        f for f in order_facts(_plan().order, likes_of(_plan().parts), figures=FIGURES) if "faster" in f.label
    )
    assert fact.value == f"{table.bound_day} days"
    assert table.bound_day <= table.last_day
    [sheet] = [sheet for sheet in sheets_of(_plan()) if sheet.id == "order"]
    assert sheet.lead.endswith(f"over {table.last_day} days; drying time is used for other work.")
    facts = {label: text for block in sheet.blocks if isinstance(block, Facts) for label, text in block.items}
    assert facts["From first to last day"].startswith(f"{table.last_day} days")
    assert facts["No order takes less than"].startswith(f"{table.bound_day} days")
    [glance] = [block for block in sheet_of(_plan(), overview_sheet).blocks if isinstance(block, Facts)]
    assert dict(glance.items)["From first to last day"] == f"{table.last_day} days"


def test_a_price_nobody_gave_is_a_default() -> None:
    """Without a shop no line of the bill comes from its profile; with one its hourly rate does."""
    assert not [line for line in _plan().pricing.quote.lines if "shop profile" in line.source]
    with_shop = _plan("reading-table.yaml").pricing.quote.lines
    assert [line.source for line in with_shop if line.kind.value == "work"] == ["shop profile"]


def test_sources_give_units_and_words() -> None:
    """No raw name of a standing, and a stiffness with its unit."""
    rows = source_rows(_plan(), figures=FIGURES)
    assert not [row for row in rows if row.standing in ("read", "read-secondary", "memory")]
    stiff = [row.value for row in rows if row.figure.endswith("stiffness")]
    assert stiff
    assert all(value.endswith(" MPa") for value in stiff)


@pytest.mark.parametrize(
    ("months", "words"),
    [
        (tuple(Month), "all year"),
        ((Month.JAN, Month.FEB, Month.OCT, Month.NOV, Month.DEC), "in Oct to Feb"),
        ((Month.MAR, Month.JUN, Month.JUL), "in Mar, Jun, Jul"),
        ((Month.APR, Month.MAY, Month.JUN, Month.SEP), "in Apr to Jun, Sep"),
    ],
)
def test_months_are_told_as_runs(months: tuple[Month, ...], words: str) -> None:
    """A run may go over the new year; twelve months are the whole year."""
    assert _when(months) == words


def test_findings_have_one_name() -> None:
    """The sheet is called as in the packet, and nothing shown speaks of faults or remarks."""
    assert _sheets()["faults"].title == "Findings"
    assert "remark" not in _sheets()["faults"].lead.lower()
