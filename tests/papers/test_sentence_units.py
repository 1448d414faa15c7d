"""Findings, setups and notes speak the units that are shown."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, fields, is_dataclass, replace
from enum import StrEnum
from pathlib import Path

import pytest

from scantling.cli.job import job_from_files
from scantling.papers.drawing import Sheet as Drawing
from scantling.papers.sentence_units import in_inches, sentence_in_inches
from scantling.papers.sheets.all import sheets_of
from scantling.plan.planner import make_plan

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.mark.parametrize(
    ("metric", "inches"),
    [
        ("19.05 mm bit", "3/4 in bit"),
        ("10 mm cutter, 32 mm deep", "25/64 in cutter, 1 1/4 in deep"),
        ("through the 330 mm planer", "through the 13 in planer"),
        ("center 0.5 mm away", "center 0.02 in away"),
        ("1 to 1.5 mm a cut", "0.04 to 0.06 in a cut"),
        ("41.0 kg each, at most 23 kg", "90.4 lb each, at most 51 lb"),
        ("50 N m on each of 4 joints", "37 lbf ft on each of 4 joints"),
        ("give 0.65 of 1.38 MPa", "give 94 of 200 psi"),
        ("4 of at least 818 mm make 2", "4 of at least 32 7/32 in make 2"),
    ],
)
def test_a_sentence_is_told_in_inches(metric: str, inches: str) -> None:
    """Each by hand: 1 in is 25.4 mm, 1 lb 0.45359 kg, 1 lbf ft 1.3558 N m, 1 psi 6.895 kPa."""
    assert sentence_in_inches(metric) == inches


@pytest.mark.parametrize("text", ["180 mm² of glue", "F29 is 7.0 degrees off", "5/16 in", "2 of 3 joints"])
def test_what_is_no_length_is_left(text: str) -> None:
    """Areas, codes, degrees, counts and inches stay as they are."""
    assert sentence_in_inches(text) == text


class _Kind(StrEnum):
    WIDE = "300 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    lines: tuple[str, ...]
    kind: _Kind = _Kind.WIDE
    inner: _Told | None = None
    drawn: Drawing | None = field(default=None)


def test_every_sentence_of_a_sheet_is_told() -> None:
    """Strings in tuples and in inner blocks, but neither names of kinds nor pictures."""
    svg = '<svg width="3 mm"/>'
    told = in_inches(_Told(lines=("6 mm", svg), inner=_Told(lines=("330 mm",))))
    assert told.lines == ("15/64 in", svg)
    assert told.kind is _Kind.WIDE
    assert told.inner is not None
    assert told.inner.lines == ("13 in",)


def test_an_inch_plan_shows_no_metric_figure() -> None:
    """Every sheet of the reading table in inches: no length in mm, moment in N m or weight in kg is left."""
    job = job_from_files(EXAMPLES / "reading_table.yaml")
    sheets = sheets_of(make_plan(replace(job, piece=replace(job.piece, units="in"))))
    left = [text for text in _texts(sheets) if re.search(r"\d (mm|N m|kg|MPa)\b", text)]
    assert [sheet.id for sheet in sheets]
    assert left == []


def _texts(value: object) -> list[str]:
    if isinstance(value, str):
        return [] if value.startswith("<svg") else [value]
    if isinstance(value, tuple):
        return [text for each in value for text in _texts(each)]
    if is_dataclass(value):
        return [text for each in fields(value) for text in _texts(getattr(value, each.name))]
    return []
