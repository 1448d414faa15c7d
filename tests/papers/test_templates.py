"""Templates at full size: true to 0.2 mm over 200 mm, in the file and as a printer's dots."""

from __future__ import annotations

import math
import subprocess
from dataclasses import replace
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import numpy as np
import pdfplumber
import pytest
from PIL import Image

from scantling.papers.drawing import Line, Sheet, Window
from scantling.papers.packet import PacketData, Paper, Section, compile_packet
from scantling.papers.packet.sections import templates_section
from scantling.papers.templates.template import Template, face_template
from scantling.papers.templates.template_sheets import template_sheets
from tests.papers.reading_table import LEG_FACE

MM = 72.0 / 25.4
BOTH = pytest.mark.parametrize("paper", list(Paper))
SMALL = face_template(LEG_FACE, name="Leg, top end", note="reference end left", from_mm=-2.0, to_mm=112.0)
WHOLE = face_template(LEG_FACE, name="Leg", note="reference end left", from_mm=-1.0, to_mm=726.0)


def _packet(*templates: Template, paper: Paper) -> bytes:
    section: Section = templates_section(templates, paper=paper, title="Reading table")
    data = PacketData(title="t", about="a", fingerprint="f", facts=(), sections=(section,), notice="n")
    return compile_packet(data, paper=paper)


def _long(page: pdfplumber.page.Page, *, upright: bool) -> set[float]:
    """Lengths of the straight lines over 140 mm, rounded to a hundredth. [mm]"""
    found = set()
    for line in page.lines:
        dx, dy = (line["x1"] - line["x0"]) / MM, (line["bottom"] - line["top"]) / MM
        if max(dx, dy) > 140.0 and (dy > dx) == upright:
            found.add(round(math.hypot(dx, dy), 2))
    return found


@BOTH
def test_the_bars_are_true_in_the_file(paper: Paper) -> None:
    """The bars of 200 mm, 8 in, 150 mm and 6 in are within 0.02 mm of their names."""
    with pdfplumber.open(BytesIO(_packet(SMALL, paper=paper))) as pdf:
        page = pdf.pages[1]
        upright, level = _long(page, upright=True), _long(page, upright=False)
    for wanted, found in ((200.0, upright), (203.2, upright), (150.0, level), (152.4, level)):
        assert any(abs(length - wanted) < 0.02 for length in found), (wanted, found)


@BOTH
def test_the_mortise_is_true_in_the_file(paper: Paper) -> None:
    """The leg's edges stand 48 mm apart on the sheet, and the mortise's middle 45 mm from the corner."""
    with pdfplumber.open(BytesIO(_packet(SMALL, paper=paper))) as pdf:
        page = pdf.pages[1]
        shapes = [[(x / MM, y / MM) for x, y in c["pts"]] for c in page.curves if len(c["pts"]) > 20]
        outline = next(c for c in page.curves if 4 <= len(c["pts"]) <= 6 and c["width"] / MM > 700.0)
    assert outline["height"] / MM == pytest.approx(48.0, abs=0.02)
    slot = min(shapes, key=lambda pts: abs(max(p[0] for p in pts) - min(p[0] for p in pts) - 50.0))
    left, right = min(p[0] for p in slot), max(p[0] for p in slot)
    assert right - left == pytest.approx(50.0, abs=0.02)
    assert (left + right) / 2.0 - outline["x0"] / MM == pytest.approx(45.0, abs=0.02)


@BOTH
@pytest.mark.poppler
def test_the_bar_is_true_in_dots(paper: Paper, tmp_path: Path) -> None:
    """At 508 dots an inch (20 to the millimeter) the bar of 200 mm measures 200 mm within 0.2 mm."""
    (tmp_path / "t.pdf").write_bytes(_packet(SMALL, paper=paper))
    command = ["pdftoppm", "-r", "508", "-gray", "-f", "2", "-l", "2", "-png", "t.pdf", "t"]
    subprocess.run(command, cwd=tmp_path, check=True)
    dots = np.asarray(Image.open(next(tmp_path.glob("t*.png"))).convert("L")) < 128
    column = dots[:, round((10.0 + 9.0 - 0.6) * 20) - 2 : round((10.0 + 9.0 - 0.6) * 20) + 3].any(axis=1)
    runs = np.flatnonzero(np.diff(np.concatenate([[0], column.astype(int), [0]])))
    longest = max(int(b - a) for a, b in zip(runs[::2], runs[1::2], strict=True))
    thickness = 0.3  # the line's round ends and the end strokes add half their weight at each end
    assert longest / 20.0 - thickness == pytest.approx(200.0, abs=0.2)


@BOTH
def test_a_template_that_fits_takes_one_sheet(paper: Paper) -> None:
    """Two ends of a leg share one sheet."""
    assert len(template_sheets((SMALL, SMALL), paper=paper, title="t")) == 1


def _windows(sheets: tuple[Sheet, ...]) -> list[Window]:
    return [i for sheet in sheets for i in sheet.items if isinstance(i, Window)]


@BOTH
def test_the_pieces_of_a_long_low_template_stand_under_each_other(paper: Paper) -> None:
    """A leg of 728 x 48 mm takes five pieces on two sheets, none over another, inside the sheet."""
    sheets = template_sheets((WHOLE,), paper=paper, title="t")
    assert (len(_windows(sheets)), len(sheets)) == (5, 2)
    for sheet in sheets:
        bands = sorted((w.opening[1], w.opening[3]) for w in _windows((sheet,)))
        assert bands[-1][1] <= sheet.height_mm - 34.0
        assert all(low >= high + 6.0 - 1e-9 for (_, high), (low, _) in pairwise(bands))


@BOTH
def test_a_long_wide_template_takes_a_sheet_a_piece(paper: Paper) -> None:
    """720 x 200 mm: nothing fits under the first piece."""
    plate = replace(WHOLE, height_mm=200.0)
    sheets = template_sheets((plate,), paper=paper, title="t")
    assert len(_windows(sheets)) == len(sheets) > 2


@BOTH
def test_a_long_template_is_tiled_without_a_gap(paper: Paper) -> None:
    """Every point of a long template shows on some sheet, and neighbours share a lap of 10 mm."""
    sheets = template_sheets((WHOLE,), paper=paper, title="t")
    shown = [(w.opening[0] - w.shift[0], w.opening[2] - w.shift[0]) for w in _windows(sheets)]
    shown.sort()
    assert len(shown) > 2
    assert shown[0][0] <= 0.0
    assert shown[-1][1] >= WHOLE.width_mm
    for (_, right), (left, _) in pairwise(shown):
        assert right - left == pytest.approx(10.0)


@BOTH
def test_register_marks_of_neighbours_fall_together(paper: Paper) -> None:
    """Laid lap over lap, the line to cut at on one sheet lies on the template where its neighbour's does."""
    sheets = template_sheets((WHOLE,), paper=paper, title="t")
    cuts = []
    for sheet in sheets:
        for window in _windows((sheet,)):
            left, top, right, bottom = window.opening
            lines = [
                i for i in sheet.items if isinstance(i, Line) and (i.start[1], i.end[1]) == (top, bottom)
            ]
            within = [line.start[0] for line in lines if left <= line.start[0] <= right]
            cuts.append(sorted(x - window.shift[0] for x in within))
    cuts.sort()
    assert len(cuts) > 2
    for mine, next_one in pairwise(cuts):
        assert mine[-1] == pytest.approx(next_one[0])


def test_a_tall_template_is_turned_where_only_that_fits() -> None:
    """A strip of 230 x 40 mm is wider than A4's room and is stood on end."""
    strip = face_template(LEG_FACE, name="Leg", note="", from_mm=0.0, to_mm=230.0)
    assert len(template_sheets((strip,), paper=Paper.A4, title="t")) == 1
