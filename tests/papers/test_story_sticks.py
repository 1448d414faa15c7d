"""Story sticks are true: every mark where the part has it, measured on the printed sheet."""

from __future__ import annotations

import subprocess
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pytest

from scantling.papers.drawing import Line, Text, Window
from scantling.papers.packet import Paper
from scantling.papers.packet.pages import compile_pages
from scantling.papers.templates.story_stick import (
    LAP_MM,
    LONGEST_MM,
    StickMark,
    StoryStick,
    stick_of,
    stick_templates,
)
from scantling.papers.templates.template_sheets import template_sheets
from tests.papers.reading_table import LEG_FACE

MM_PER_POINT = 25.4 / 72.0
STICK = StoryStick(
    name="Leg: inside face",
    length_mm=724.0,
    marks=(
        StickMark(tag="A", low_mm=5.0, high_mm=55.0, figure="30"),
        StickMark(tag="B", low_mm=205.0, high_mm=207.0, figure="206"),
        StickMark(tag="C", low_mm=600.0, high_mm=640.0, figure="104", from_far=True),
    ),
    start="top end",
    end="bottom end",
)


def _levels(stick: StoryStick) -> dict[int, list[float]]:
    """By length of the stick: heights of the lines across its left edge. [mm]"""
    found: dict[int, list[float]] = {}
    for number, template in enumerate(stick_templates([stick], longest_mm=LONGEST_MM)):
        (window,) = template.items
        assert isinstance(window, Window)
        lines = [
            i for i in window.items if isinstance(i, Line) and i.start[1] == i.end[1] and i.start[0] == 0.0
        ]
        found[number] = sorted(line.start[1] for line in lines)
    return found


def test_lengths_lap_and_reach_from_end_to_end() -> None:
    """Four lengths of at most 210 mm lap by 12 mm and make up 724 mm; lap lines meet in the piece."""
    templates = stick_templates([STICK], longest_mm=LONGEST_MM)
    assert [t.height_mm for t in templates] == [210.0, 210.0, 210.0, 724.0 - 3 * 198.0]
    assert sum(t.height_mm for t in templates) - LAP_MM * 3 == pytest.approx(724.0)
    assert templates[1].name == "Stick 1, 2 of 4"


def test_every_mark_lies_at_its_place() -> None:
    """Lines across the edge, lengths laid end to end, are the ends and middles of the marks."""
    step = LONGEST_MM - LAP_MM
    placed = {round(number * step + y, 3) for number, ys in _levels(STICK).items() for y in ys}
    wanted = {0.0, 5.0, 30.0, 55.0, 205.0, 206.0, 207.0, 600.0, 620.0, 640.0, 724.0}
    assert wanted <= placed


def test_a_stick_is_made_of_what_is_measured_along_a_face() -> None:
    """The leg's mortise is on it with its distance; a face without marks has none."""
    stick = stick_of(LEG_FACE, name="Leg")
    assert stick is not None
    assert [(m.tag, m.low_mm, m.high_mm, m.figure) for m in stick.marks] == [("A", 20.0, 70.0, "45 mm")]
    assert stick_of(replace(LEG_FACE, marks=()), name="Leg") is None


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The stick set as PDF."""
    sheets = template_sheets(stick_templates([STICK], longest_mm=LONGEST_MM), paper=Paper.A4, title="Sticks")
    path = tmp_path_factory.mktemp("sticks") / "sticks.pdf"
    path.write_bytes(compile_pages(sheets, title="Sticks"))
    return path


def test_the_lines_of_the_pdf_are_true_over_200_mm(printed: Path) -> None:
    """Read by pdfplumber: strips as long as they say and marks 200 mm apart to 0.05 mm."""
    with pdfplumber.open(printed) as pdf:
        page = pdf.pages[0]
        drawn = [*page.lines, *page.curves, *page.rects]
        upright = [(x["bottom"] - x["top"]) * MM_PER_POINT for x in drawn if abs(x["x1"] - x["x0"]) < 0.01]
        assert sum(length == pytest.approx(210.0, abs=0.05) for length in upright) >= 2
        levels = sorted(
            x["top"] * MM_PER_POINT for x in drawn if abs(x["bottom"] - x["top"]) < 0.01 and x["width"] > 30
        )
    spans = {round(b - a, 1) for a in levels for b in levels}  # to 0.05 mm
    assert 50.0 in spans, "mortise A from end to end"
    assert 200.0 in spans, "from the start of A to the start of B, 5 to 205 mm"


@pytest.mark.poppler
def test_the_sheet_measures_true_when_it_is_printed(printed: Path) -> None:
    """Rendered at ten dots to the millimeter, the bar of 200 mm is 200 mm long to 0.2 mm."""
    out = printed.with_suffix("")
    subprocess.run(
        ["pdftoppm", "-r", "254", "-gray", "-f", "1", "-l", "1", "-singlefile", str(printed), str(out)],
        check=True,
    )
    data = out.with_suffix(".pgm").read_bytes()
    fields = data.split(maxsplit=4)
    width, height = int(fields[1]), int(fields[2])
    pixels = data[-width * height :]
    runs = _runs(pixels, width, height)
    assert any(abs(run / 10.0 - 200.0) <= 0.2 for run in runs), sorted(runs)[-5:]


def _runs(pixels: bytes, width: int, height: int) -> set[int]:
    """Lengths of dark stretches down the columns where the bars stand. [1/10 mm]"""
    found: set[int] = set()
    for x in range(int(0.05 * width), int(0.14 * width)):
        run = 0
        for y in range(height):
            if pixels[y * width + x] < 160:
                run += 1
            elif run:
                found.add(run)
                run = 0
    return found


def test_words_on_a_strip_stay_on_it() -> None:
    """Letters, figures and the name lie between the edges of the strip."""
    for template in stick_templates([STICK], longest_mm=LONGEST_MM):
        (window,) = template.items
        assert isinstance(window, Window)
        for item in (i for i in window.items if isinstance(i, Text)):
            assert 0.0 <= item.at[0] <= template.width_mm


def test_words_of_a_mark_on_a_lap_stand_beside_the_lap_line() -> None:
    """A mark 1 mm from the first lap line keeps its tick there; its letter stands clear of the line."""
    lap = LONGEST_MM - LAP_MM / 2.0
    mark = StickMark(tag="Q", low_mm=lap, high_mm=lap + 2.0, figure="205")
    first, second = stick_templates([replace(STICK, length_mm=400.0, marks=(mark,))], longest_mm=LONGEST_MM)
    for template, line in ((first, lap), (second, LAP_MM / 2.0)):
        (window,) = template.items
        assert isinstance(window, Window)
        (letter,) = (i for i in window.items if isinstance(i, Text) and i.text == "Q")
        assert abs(letter.at[1] - 1.0 - line) >= 4.5
        ticks = [i.start[1] for i in window.items if isinstance(i, Line) and i.end[0] == 4.0]
        assert ticks == pytest.approx([line + 1.0])
