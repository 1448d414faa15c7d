"""Lengths in both units: the piece file's first, the same behind it in square brackets, on every face."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from scantling.joinery import load_piece_text
from scantling.papers.drawing.dimension import LinearDimension, draw_dimension
from scantling.papers.drawing.items import Text
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.parts import parts_sheet
from scantling.papers.sheets.show import Show
from scantling.papers.words.chains import FIT, chain_links
from scantling.plan.planner import Planner
from scantling.units import LengthStyle, leading, other_unit, parse_length_mm
from tests.papers.faces import packet_texts, page_texts
from tests.plan.jobs import EXAMPLES, demo_job

__all__: list[str] = []

_FIGURE = r"(?:\d+ )?\d+(?:/\d+|\.\d+)?"
_METRIC_FIRST = re.compile(rf"({_FIGURE}) mm \[({_FIGURE}) in\]")
_BARE = re.compile(rf"({_FIGURE}) \[({_FIGURE})\]")
_ALONE = re.compile(r"(?<![\w.,/\[-])\d+(?:\.\d+)? mm(?! \[|[\w²³/\]])")
_APART_MM = 0.5 + 25.4 / 32.0
"""A whole step of each unit, both rounded the way that is safe. [mm]"""
_KEPT_OFF = {("300", "12"), ("150", "6")}
"""Distances of cautions, round in each unit and up to 5 mm apart: about so far off hands are kept."""


def _mm(text: str, unit: str) -> float:
    return parse_length_mm(f"{text} {unit}", default_unit=unit, field="size")


@pytest.mark.parametrize("piece", ["reading_table", "sideboard", "trestle_desk"])
def test_every_length_of_the_page_and_of_its_sentences_is_told_twice(piece: str) -> None:
    """Not one length in millimeters stands alone, and what stands in brackets is the same length."""
    texts = page_texts(piece, "both", leave=frozenset({"parameters"}))  # those are fields to write in
    assert [text for text in texts if _ALONE.search(text)] == []
    told = [pair for text in texts for pair in _METRIC_FIRST.findall(text)]
    assert len(told) > 60
    apart = {(a, b) for a, b in told if abs(_mm(a, "mm") - _mm(b, "in")) > _APART_MM}
    assert apart <= _KEPT_OFF


def test_the_packet_tells_them_too_and_names_both_units_in_its_headings() -> None:
    """Figures of the tables without a unit as well."""
    texts = packet_texts("reading_table", "both")
    bars = {"200 mm", "150 mm"}  # on templates, beside others of 8 and 6 in: for proving the printer
    assert [text for text in texts if _ALONE.search(text) and text not in bars] == []
    told = [pair for text in texts for pair in _BARE.findall(text)]
    assert len(told) > 100
    assert [(a, b) for a, b in told if abs(_mm(a, "mm") - _mm(b, "in")) > _APART_MM] == []


def test_sizes_of_the_cutting_list_stand_in_both_under_a_heading_with_both() -> None:
    """The leg of the demo is 734 mm, which is 28.898 in: 28 29/32 in on a tape."""
    job = demo_job()
    plan = replace(Planner().plan(job), both_units=True)
    table = next(block for block in parts_sheet(plan).blocks if "Length mm [in]" in str(block))
    assert "734 [28 29/32]" in str(table)
    show = Show.of(plan)
    assert show.by(734.0, 60.0) == "734 × 60 [28 29/32 × 2 3/8]"
    assert show.gap(3.2, sign="−") == "−3.2 [−1/8]"


def test_the_unit_of_the_file_leads() -> None:
    """Asked for both, a file in inches shows inches first; a file can ask for both itself."""
    text = (EXAMPLES / "reading_table.yaml").read_text(encoding="utf-8")
    piece = load_piece_text(text)
    assert piece.shown_in("both").style.heading == "mm [in]"
    assert replace(piece, units="in").shown_in("both").style.heading == "in [mm]"
    assert load_piece_text(text.replace("units: mm", "units: mm\nboth_units: true", 1)).style.both
    assert not piece.shown_in("both").shown_in("in").style.both


def test_a_chain_adds_up_in_both_units_or_is_fitted() -> None:
    """Three of 100 mm are 3 15/16 in, in all 11 13/16; three of 10.5 mm are 13.2 32nds each, 39.7 in all."""
    one, both = (Figures(style=LengthStyle(both=both)) for both in (False, True))
    breaks = [0.0, 100.0, 200.0, 300.0]
    assert [link.text for link in chain_links(breaks, figures=one)] == ["100", "100", "100"]
    assert [link.text for link in chain_links(breaks, figures=both)] == ["100 [3 15/16]"] * 3
    odd = [0.0, 10.5, 21.0, 31.5]
    assert FIT not in [link.text for link in chain_links(odd, figures=one)]
    assert [link.text for link in chain_links(odd, figures=both)].count(FIT) == 1


def test_a_dimension_carries_one_unit_over_its_line_and_the_other_under_it() -> None:
    """Both in the middle of the line, the one that leads above it and larger."""
    d = LinearDimension(start=(0.0, 0.0), end=(60.0, 0.0), text="734 [28 29/32]", offset_mm=8.0)
    above, below = (item for item in draw_dimension(d) if isinstance(item, Text))
    assert (above.text, below.text) == (leading(d.text), other_unit(d.text)) == ("734", "[28 29/32]")
    assert above.at[0] == below.at[0] == 30.0
    assert above.at[1] < 8.0 < below.at[1]
    assert below.size_mm < above.size_mm
