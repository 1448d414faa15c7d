"""How sheets follow each other on paper: short ones share a page, none begins with a heading and a row."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from io import BytesIO
from itertools import pairwise

import pdfplumber
import pytest

from scantling.papers.marking.piece_views import draw_picture
from scantling.papers.packet import PacketData, Paper, Section, compile_packet
from scantling.papers.packet.blocks import (
    BOTTOM_MM,
    TOP_MM,
    Column,
    Figure,
    Heading,
    NewPage,
    Paragraph,
    Row,
    Table,
)
from scantling.papers.packet.sections import joints
from scantling.papers.packet.sections.joints import joints_section
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import joint_sheets, marked_parts
from scantling.plan.planner import Planner
from scantling.units import LengthStyle
from tests.papers.reading_table import PICTURE
from tests.plan.jobs import shipped_job

MM = 72.0 / 25.4


def pages_of(*sections: Section, paper: Paper = Paper.A4) -> list[list[tuple[str, float]]]:
    """Words of every page behind the cover with the height of their feet on it. [mm]"""
    data = PacketData(
        title="Flow", about="", fingerprint="3f9c2a", facts=(), sections=tuple(sections), notice=""
    )
    height = paper.size_mm[1]
    with pdfplumber.open(BytesIO(compile_packet(data, paper=paper))) as pdf:
        return [
            [
                (word["text"], float(word["bottom"]) / MM)
                for word in page.extract_words()
                if float(word["bottom"]) / MM < height - BOTTOM_MM + 1.0
            ]
            for page in pdf.pages[1:]
        ]


def of_rows(title: str, rows: int, *, runs_on: bool = False) -> Section:
    """A section that is one table; a row takes about 5.5 mm."""
    table = Table(columns=(Column(title="Row"),), rows=tuple(Row(cells=(f"row {n}",)) for n in range(rows)))
    return Section(title=title, lead="Lead.", blocks=(table,), runs_on=runs_on)


def begin(pages: Sequence[Sequence[tuple[str, float]]], *titles: str) -> list[int]:
    """The page each section begins on, the first behind the cover 1."""
    return [next(n for n, page in enumerate(pages, 1) if title in dict(page)) for title in titles]


def test_a_short_sheet_stands_under_the_one_before_where_it_has_room() -> None:
    """Two of ten rows share a page; a third of twenty-five has no room left and stands whole on the next."""
    pages = pages_of(of_rows("One", 10), of_rows("Two", 10), of_rows("Three", 18))
    assert begin(pages, "One", "Two", "Three") == [1, 1, 2]
    assert len(pages) == 2


@pytest.mark.parametrize(("before", "page"), [(10, 1), (25, 2)])
def test_a_long_sheet_begins_where_half_a_page_is_free(before: int, page: int) -> None:
    """Sixty rows begin under ten, never at the foot of a page that twenty-five rows fill by two thirds."""
    pages = pages_of(of_rows("One", before), of_rows("Long", 60))
    assert begin(pages, "Long") == [page]


def test_a_sheet_begins_where_its_first_picture_has_room() -> None:
    """Its heading is not left behind at the foot of a page where a picture of 148 mm has no room."""
    picture = draw_picture(PICTURE, room_mm=170.0, height_mm=150.0)
    assert picture.height_mm > 140.0
    tall = Section(
        title="Tall",
        lead="Lead.",
        blocks=(Figure(sheet=picture), Figure(sheet=picture), Figure(sheet=picture)),
    )
    for before, page in ((1, 1), (14, 2)):
        assert begin(pages_of(of_rows("One", before), tall), "Tall") == [page], before


def test_a_sheet_that_says_where_its_pages_end_begins_on_one_of_its_own() -> None:
    """Marking out counts its pages from their upper edge."""
    own = Section(title="Own", lead="Lead.", blocks=(Paragraph(text="a"), NewPage(), Paragraph(text="b")))
    assert begin(pages_of(of_rows("One", 2), own), "Own") == [2]


def test_no_last_row_of_a_long_table_stands_alone() -> None:
    """However many there are, four at least stand on the last page, with no row lost and none twice."""
    over = set()
    for rows in range(38, 50):
        pages = [[at for word, at in page if word == "row"] for page in pages_of(of_rows("Long", rows))]
        assert sum(map(len, pages)) == rows
        over.add(len(pages))
        assert len(pages) == 1 or len(pages[-1]) >= 4, rows
    assert over == {1, 2}


@cache
def _marking(piece: str, paper: Paper) -> Section:
    job = shipped_job(piece, rack=False)
    figures = Figures(style=LengthStyle.of("mm"))
    groups = marked_parts(job.piece, Planner().works(job), figures=figures)
    return joints_section(joint_sheets(groups, figures=figures), unit="mm", paper=paper)


@pytest.mark.parametrize(
    ("piece", "paper"),
    [("coat_rack", Paper.A4), ("coat_rack", Paper.LETTER), ("trestle_desk", Paper.A4)],
)
def test_marking_out_sheets_are_as_high_as_they_are_planned(
    piece: str, paper: Paper, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every planned page is one page as set, and ends within 4 mm over or 10 mm short of its planned height.

    Where a heading or a point breaks later than reckoned it ends short.
    """
    planned: list[float] = []
    orders = joints._pages

    def noted(*args, **more):  # type: ignore[no-untyped-def]
        for page in orders(*args, **more):
            lead = joints._LEAD_MM if not planned else 0.0
            planned.append(lead + sum(one.tall_mm for one in page) + joints._APART_MM * (len(page) - 1))
            if not page[-1].listed:
                planned[-1] = -1.0
            yield page

    monkeypatch.setattr(joints, "_pages", noted)
    _marking.cache_clear()
    section = _marking(piece, paper)
    assert any(isinstance(block, Heading) for block in section.blocks)
    pages = pages_of(section, paper=paper)
    assert len(pages) == len(planned)
    off = [
        max(foot for _, foot in page) - TOP_MM - high
        for page, high in zip(pages, planned, strict=True)
        if high > 0.0
    ]
    assert len(off) > 3
    assert min(off) > -10.0, off
    assert max(off) < 4.0, off


def test_a_part_that_nothing_is_marked_on_has_no_empty_list() -> None:
    """A top that is only chamfered: its drawing and its words, and no head of a table without a row."""
    job = shipped_job("coat_rack", rack=False)
    figures = Figures(style=LengthStyle.of("mm"))
    [first, *_] = joint_sheets(
        marked_parts(job.piece, Planner().works(job), figures=figures), figures=figures
    )
    for marks, tables in ((first.marks, 1), ((), 0)):
        sheet = replace(first, marks=marks, steps=("Shape, once the joints fit.",))
        blocks = joints_section((sheet,), unit="mm", paper=Paper.A4).blocks
        assert sum(isinstance(block, Table) for block in blocks) == tables
        assert any("once the joints fit" in str(block) for block in blocks)


def test_two_lists_without_room_under_their_drawings_share_a_sheet() -> None:
    """Both rails of the coat rack are drawn first; each list behind them says where its drawing is."""
    blocks = _marking("coat_rack", Paper.A4).blocks
    ends = [0, *(at for at, block in enumerate(blocks) if isinstance(block, NewPage)), len(blocks)]
    pages = [blocks[low:high] for low, high in pairwise(ends)]
    headings = [[(b.text, b.note) for b in page if isinstance(b, Heading)] for page in pages]
    assert [[text for text, _ in page] for page in headings[:2]] == [["Rail low"], ["Rail top"]]
    assert headings[2] == [
        ("Rail low", "The list to its drawing, two sheets before"),
        ("Rail top", "The list to the sheet before"),
    ]
