"""Labels are as large as they say, and a phone reads from them what stands on them."""

from __future__ import annotations

import io
import subprocess
from datetime import date
from pathlib import Path

import pdfplumber
import pytest
import zxingcpp
from PIL import Image

from scantling.papers.labels import COLUMNS, HEIGHT_MM, ROWS, WIDTH_MM, Label, Origin, board_label, labels_pdf
from scantling.papers.packet import Paper
from scantling.stock.boards.board import Board

POINT_MM = 25.4 / 72.0
BOARD = Board(
    name="C1",
    species="black cherry",
    quarters=5.0,
    width_mm=190.9,
    far_width_mm=180.0,
    length_mm=2438.4,
    moisture_pct=8.5,
    grade="FAS",
    flitch="A",
)
ORIGIN = Origin(number=17, since=date(2026, 3, 5), words="from Müller & Söhne", read_on=date(2026, 3, 6))


def _labels(count: int) -> list[Label]:
    made = board_label(BOARD, ORIGIN, units="mm")
    return [
        Label(name=f"C{n}", wood=made.wood, size=made.size, lines=made.lines, code=f"{made.code}\n{n}")
        for n in range(count)
    ]


def test_a_label_tells_the_board_in_words() -> None:
    """Sizes are rounded down, as less wood than is told would be missed at the saw."""
    label = board_label(BOARD, ORIGIN, units="mm")
    assert (label.name, label.wood, label.size) == ("C1", "5/4 black cherry", "2438 × 190 to 180 mm")
    assert label.lines == (
        "8.5 % moisture on 2026-03-06",
        "from Müller & Söhne, 2026-03-05",
        "no. 17, FAS, flitch A",
    )
    assert label.code.splitlines() == [
        "scantling:board/17",
        "C1: 5/4 black cherry",
        "2438 x 190 to 180 mm",
        "8.5 % moisture on 2026-03-06",
        "from Müller & Söhne, 2026-03-05",
    ]
    assert board_label(BOARD, ORIGIN, units="in").size == "96 × 7 1/2 to 7 in"


def test_what_is_not_known_is_left_out() -> None:
    """A board of no reading, grade or seller has a label of two lines."""
    bare = Board(name="x", species="white oak", thickness_mm=34.0, width_mm=100.0, length_mm=900.0)
    label = board_label(bare, Origin(number=3, since=date(2026, 1, 2)), units="mm")
    assert (label.wood, label.lines) == ("34 mm white oak", ("in 2026-01-02", "no. 3"))


@pytest.mark.parametrize("paper", list(Paper))
def test_labels_are_printed_at_their_size(paper: Paper) -> None:
    """Thirteen take two sheets; the lines to cut along stand where the sizes say, but for their own width."""
    with pdfplumber.open(io.BytesIO(labels_pdf(_labels(13), paper=paper))) as pdf:
        sizes = [(page.width * POINT_MM, page.height * POINT_MM) for page in pdf.pages]
        lines = [*pdf.pages[0].lines, *pdf.pages[0].rects]
        across = sorted({round(line[side] * POINT_MM, 1) for line in lines for side in ("x0", "x1")})
        down = sorted({round(line[side] * POINT_MM, 1) for line in lines for side in ("top", "bottom")})
    assert sizes == [pytest.approx(paper.size_mm, abs=0.1)] * 2
    left = (paper.size_mm[0] - COLUMNS * WIDTH_MM) / 2
    top = (paper.size_mm[1] - ROWS * HEIGHT_MM) / 2
    assert [min(across), max(across)] == pytest.approx([left, left + COLUMNS * WIDTH_MM], abs=0.2)
    assert [min(down), max(down)] == pytest.approx([top, top + ROWS * HEIGHT_MM], abs=0.2)
    assert any(abs(line - (left + WIDTH_MM)) < 0.2 for line in across)
    assert min(left, top) > 5.0, "no printer reaches the edge"


def test_the_same_labels_give_the_same_bytes() -> None:
    """So that a sheet printed again is the sheet."""
    assert labels_pdf(_labels(2)) == labels_pdf(_labels(2))


@pytest.mark.poppler
@pytest.mark.parametrize("dpi", [150, 300])
def test_a_phone_reads_every_code(tmp_path: Path, dpi: int) -> None:
    """Each code of a printed sheet, looked at as a picture by another library than the one that drew it."""
    labels = _labels(12)
    file = tmp_path / "labels.pdf"
    file.write_bytes(labels_pdf(labels))
    subprocess.run(["pdftoppm", "-r", str(dpi), "-gray", file, tmp_path / "page"], check=True)
    with Image.open(next(tmp_path.glob("page*.pgm"))) as picture:
        found = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
    assert sorted(code.text for code in found) == sorted(label.code for label in labels)
