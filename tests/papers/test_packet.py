"""The packet as printed: both papers, every sheet, its figures, its margins, its bytes."""

from __future__ import annotations

from functools import cache
from io import BytesIO

import pdfplumber
import pytest
from pdfplumber.page import Page

from scantling.papers.packet import Paper, compile_packet
from scantling.papers.packet.blocks import BOTTOM_MM, LEFT_MM, RIGHT_MM, TOP_MM
from tests.papers.reading_packet import packet

MM = 72.0 / 25.4
BOTH = pytest.mark.parametrize("paper", list(Paper))


@cache
def _pdf(paper: Paper) -> bytes:
    return compile_packet(packet(paper), paper=paper)


@cache
def _pages(paper: Paper) -> list[Page]:
    return list(pdfplumber.open(BytesIO(_pdf(paper))).pages)


def _is_template(page: Page) -> bool:
    return "Print at 100 %" in page.extract_text()


@BOTH
def test_the_same_packet_gives_the_same_bytes(paper: Paper) -> None:
    """Two compilations differ in no byte."""
    assert compile_packet(packet(paper), paper=paper) == _pdf(paper)


@BOTH
def test_sheets_are_of_the_paper(paper: Paper) -> None:
    """Every sheet has the size the standard gives the paper (ISO 216 A4; ANSI letter 8.5 x 11 in)."""
    wanted = {Paper.A4: (210.0, 297.0), Paper.LETTER: (8.5 * 25.4, 11.0 * 25.4)}[paper]
    for page in _pages(paper):
        assert float(page.width) / MM == pytest.approx(wanted[0], abs=0.01)
        assert float(page.height) / MM == pytest.approx(wanted[1], abs=0.01)


@BOTH
def test_no_sheet_is_empty(paper: Paper) -> None:
    """Every sheet says something besides its foot."""
    for page in _pages(paper):
        assert len(page.extract_text()) > 120, page.page_number


@BOTH
def test_nothing_is_set_in_the_margins(paper: Paper) -> None:
    """Letters of every sheet but the templates keep within the margins; only the foot lies below."""
    width, height = paper.size_mm
    for page in _pages(paper):
        if _is_template(page):
            continue
        for char in page.chars:
            if char["text"] == " ":
                continue
            assert char["x0"] / MM >= LEFT_MM - 0.6, (page.page_number, char["text"])
            assert char["x1"] / MM <= width - RIGHT_MM + 0.6, (page.page_number, char["text"])
            assert char["top"] / MM >= TOP_MM - 3.0, (page.page_number, char["text"])
            assert char["bottom"] / MM <= height - 8.0, (page.page_number, char["text"])
        body = [c for c in page.chars if c["bottom"] / MM > height - BOTTOM_MM + 0.6]
        assert "plan 3f9c2a" in "".join(c["text"] for c in body)


@BOTH
def test_templates_keep_clear_of_the_edge(paper: Paper) -> None:
    """A printer that leaves 5 mm bare prints all letters of a template sheet."""
    width, height = paper.size_mm
    pages = [p for p in _pages(paper) if _is_template(p)]
    assert pages
    for char in (c for page in pages for c in page.chars):
        assert char["x0"] / MM > 5.0
        assert char["x1"] / MM < width - 5.0
        assert char["top"] / MM > 5.0
        assert char["bottom"] / MM < height - 5.0


@BOTH
def test_the_figures_can_be_found(paper: Paper) -> None:
    """Sizes, angles, times and sums stand in the text of the packet, drawings included."""
    text = "\n".join(page.extract_text() for page in _pages(paper))
    sizes = ("724.5", "1003.5", "83.0°", "7.0°", "9.9 × 6", "653.5", "2.7 of 3.2")
    for figure in (*sizes, "162.00", "2071.38", "least: 0.9 mm, 20 Feb", "knot"):
        assert figure in text, figure


@BOTH
def test_every_section_is_listed_on_the_first_sheet_with_its_page(paper: Paper) -> None:
    """The list of sheets names every section, and the page it names begins with its title."""
    pages = _pages(paper)
    words = pages[0].extract_text()
    for section in packet(paper).sections:
        assert section.title in words
    for number, page in enumerate(pages[1:], start=2):
        title = page.extract_text().splitlines()[0]
        named = [s for s in packet(paper).sections if title.startswith(s.title + " ")]
        if named and not _is_template(page):
            lines = [line for line in words.splitlines() if named[0].title in line]
            assert any(f" {number}" in line for line in lines), (title, number)


@BOTH
def test_only_the_fonts_that_ship_are_used(paper: Paper) -> None:
    """All letters come from the package's own font files."""
    fonts = {char["fontname"].split("+")[-1] for page in _pages(paper) for char in page.chars}
    assert fonts
    assert all(name.startswith("Barlow") for name in fonts), fonts


@BOTH
def test_all_ink_is_black_or_grey(paper: Paper) -> None:
    """A printer with black alone loses nothing: no letter, line or area has a hue."""
    things = [t for page in _pages(paper) for t in (*page.chars, *page.lines, *page.rects, *page.curves)]
    colors = {_numbers(t.get(key)) for t in things for key in ("stroking_color", "non_stroking_color")}
    assert len(colors) > 2
    assert all(len(set(color)) <= 1 for color in colors), colors


def _numbers(color: object) -> tuple[float, ...]:
    values = color if isinstance(color, tuple | list) else (color,)
    return tuple(round(float(v), 3) for v in values if isinstance(v, int | float))
