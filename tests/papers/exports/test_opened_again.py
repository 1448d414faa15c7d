"""Exports opened by libraries that did not write them, and held against the piece.

The drawing exchange file is read by trimesh, the workbook by openpyxl, the PDF by pdfplumber, the SVG by the
XML parser of the standard library. STEP is read entity by entity (ISO 10303-21): here its names, and in
``tests/solids/test_step_elsewhere.py`` what every body of every example holds.
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from functools import cache
from pathlib import Path
from xml.etree import ElementTree as ET

import openpyxl
import pdfplumber
import pytest
import trimesh

from scantling.joinery.work import MarkKind
from scantling.papers.drawing import bounds
from scantling.papers.exports import ExportKind, export_piece
from scantling.papers.exports.dxf import BEYOND, LABEL, OUTLINE, layer_of
from scantling.papers.exports.piece import AtHand
from scantling.papers.exports.workbook import WorkbookTable, workbook_bytes
from scantling.papers.marking.face_view import MarkedShape
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import MarkedPart, marked_parts
from scantling.plan.planner import Planner
from scantling.solids.step import read_step
from scantling.units import LengthStyle
from tests.plan.jobs import demo_job, demo_plan

MM_PER_POINT = 25.4 / 72.0
FIGURES = Figures(style=LengthStyle(inch=False, denominator=32, step_mm=0.1))


@cache
def _works():
    job = demo_job()
    return job.piece, Planner().works(job)


def _written(folder: Path, *kinds: ExportKind, planned: bool = False) -> list[Path]:
    piece, works = _works()
    at_hand = AtHand(plan=demo_plan() if planned else None)
    return list(export_piece(piece, works, folder=folder, kinds=kinds, at_hand=at_hand))


def _groups() -> tuple[MarkedPart, ...]:
    return marked_parts(*_works(), figures=FIGURES)


def _pairs(text: str) -> list[tuple[int, str]]:
    """Group codes with their values: two lines each."""
    lines = text.splitlines()
    return [(int(lines[i]), lines[i + 1].strip()) for i in range(0, len(lines) - 1, 2)]


def _drawn_entities(text: str) -> list[tuple[str, str]]:
    """Kind and layer of every entity of the drawing exchange file, read by its group codes."""
    pairs = _pairs(text)
    start = next(i for i, pair in enumerate(pairs) if pair == (2, "ENTITIES"))
    found: list[tuple[str, str]] = []
    for code, value in pairs[start + 1 :]:
        if (code, value) == (0, "ENDSEC"):
            break
        if code == 0:
            found.append((value, ""))
        elif code == 8 and found and not found[-1][1]:
            found[-1] = (found[-1][0], value)
    return found


def test_every_cut_lies_on_the_layer_of_its_kind(tmp_path: Path) -> None:
    """As many outlines as faces, as many shapes on each layer as marks of that kind; in millimeters."""
    text = _written(tmp_path, ExportKind.DXF)[0].read_text()
    wanted: Counter[str] = Counter()
    for group in _groups():
        kinds = {tagged.tag: tagged.mark.kind for tagged in group.marks}
        wanted[OUTLINE] += len(group.views)
        for mark in (m for view in group.views for m in view.marks):
            wanted[BEYOND if mark.hidden else layer_of(kinds[mark.tag])] += 1
    assert {layer_of(MarkKind.MORTISE), layer_of(MarkKind.GROOVE), layer_of(MarkKind.HOLE)} <= set(wanted)
    found = Counter(layer for kind, layer in _drawn_entities(text) if kind in ("LWPOLYLINE", "CIRCLE"))
    assert found == wanted
    assert {layer for kind, layer in _drawn_entities(text) if kind == "TEXT"} == {LABEL}
    pairs = _pairs(text)
    assert pairs[pairs.index((9, "$INSUNITS")) + 1] == (70, "4")


def test_templates_measure_what_the_faces_measure(tmp_path: Path) -> None:
    """Read by trimesh: outlines as long and wide as the faces, arcs and circles as the cutters."""
    path = trimesh.load(_written(tmp_path, ExportKind.DXF)[0])
    assert path.units == "millimeters"
    outlines = []
    for entity in (e for e in path.entities if e.layer == OUTLINE):
        points = path.vertices[entity.points]
        outlines.append(tuple(float(x) for x in (points.max(axis=0) - points.min(axis=0))))
    faces = [bounds(view.outline) for group in _groups() for view in group.views]
    wanted = sorted((round(b.width, 3), round(b.height, 3)) for b in faces)
    assert sorted((round(w, 3), round(h, 3)) for w, h in outlines) == wanted
    radii = [
        float(e.center(path.vertices).radius)
        for e in path.entities
        if isinstance(e, trimesh.path.entities.Arc)
    ]
    rounded = [m for group in _groups() for view in group.views for m in view.marks]
    ends = [m.width_mm / 2.0 for m in rounded if m.shape is MarkedShape.ROUND_ENDED for _ in range(2)]
    holes = [m.width_mm / 2.0 for m in rounded if m.shape is MarkedShape.HOLE]
    assert ends
    assert sorted(radii) == pytest.approx(sorted([*ends, *holes]), abs=1e-3)


def test_the_workbook_holds_the_numbers_of_the_tables(tmp_path: Path) -> None:
    """Read by openpyxl: parts, hardware and marks cell by cell as in the CSV; a row a blank and a cut."""
    written = _written(tmp_path, ExportKind.XLSX, ExportKind.CSV, planned=True)
    book = openpyxl.load_workbook(written[0])
    assert book.sheetnames == ["Parts", "Hardware", "Marks", "Blanks", "Cuts"]
    for path, name in zip(written[1:], book.sheetnames, strict=False):
        told = list(csv.reader(io.StringIO(path.read_bytes().decode(), newline="")))
        found = [list(row) for row in book[name].iter_rows(values_only=True)]
        assert found[0] == told[0]
        assert len(found) == len(told)
        cells = [cell for row in found[1:] for cell in row]
        texts = [text for row in told[1:] for text in row]
        numbers = [(c, float(t)) for c, t in zip(cells, texts, strict=True) if isinstance(c, int | float)]
        assert [n for n, _ in numbers] == pytest.approx([n for _, n in numbers], abs=1e-6)
        words = [(c or "", t) for c, t in zip(cells, texts, strict=True) if not isinstance(c, int | float)]
        assert [c for c, _ in words] == [t for _, t in words]
    layout = demo_plan().timber.layout
    assert layout is not None
    assert book["Cuts"].max_row - 1 == sum(len(board.cuts) for board in layout.boards)
    assert {row[0] for row in book["Blanks"].iter_rows(min_row=2, values_only=True)} == {
        ledger.part for ledger in demo_plan().milling
    }


def test_a_text_that_looks_like_a_formula_stays_a_text() -> None:
    """Nothing a piece file says is run by a spreadsheet."""
    table = WorkbookTable(title="T", columns=("note", "sum"), rows=({"note": "=1+1", "sum": 2.5},))
    leaf = openpyxl.load_workbook(io.BytesIO(workbook_bytes([table], title="t")))["T"]
    assert (leaf["A2"].value, leaf["A2"].data_type) == ("=1+1", "s")
    assert (leaf["B2"].value, leaf["B2"].data_type) == (2.5, "n")


def test_drawings_are_svg_in_millimeters_each_by_its_name(tmp_path: Path) -> None:
    """A file a drawing, well formed, as wide as it says, with the words of its board on it."""
    written = _written(tmp_path, ExportKind.SVG, planned=True)
    names = [path.stem.removeprefix("reading-table-with-splayed-legs-") for path in written]
    layout = demo_plan().timber.layout
    assert layout is not None
    assert names[:2] == ["views", "apart"]
    assert [n for n in names if n.startswith("board")] == [
        f"board-{b.board.name.lower()}" for b in layout.boards
    ]
    assert sum(n.startswith("part-") for n in names) == len(_groups())
    for path in written:
        root = ET.fromstring(path.read_bytes())  # noqa: S314 - written a moment ago, by us
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        _, _, width, height = (float(x) for x in root.attrib["viewBox"].split())
        assert (root.attrib["width"], root.attrib["height"]) == (f"{width:g}mm", f"{height:g}mm")
        assert len(list(root)) > 5
    board = ET.fromstring(written[names.index("board-c1")].read_bytes())  # noqa: S314 - our own
    assert "C1" in {"".join(t.itertext()) for t in board.iter("{http://www.w3.org/2000/svg}text")}


def test_the_drawings_as_pdf_are_framed_at_full_size(tmp_path: Path) -> None:
    """Read by pdfplumber: A4, a border of 180 x 277 mm to 0.1 mm, the title block on every sheet."""
    (path,) = _written(tmp_path, ExportKind.PDF, planned=True)
    with pdfplumber.open(path) as pdf:
        count = len(pdf.pages)
        assert count >= 4
        for number, page in enumerate(pdf.pages, start=1):
            size = (page.width * MM_PER_POINT, page.height * MM_PER_POINT)
            assert size == pytest.approx((210.0, 297.0), abs=0.1)
            boxes = [
                (x["x1"] - x["x0"], x["bottom"] - x["top"]) for x in (*page.rects, *page.curves, *page.lines)
            ]
            sizes = [(w * MM_PER_POINT, h * MM_PER_POINT) for w, h in boxes]
            assert any(s == pytest.approx((180.0, 277.0), abs=0.1) for s in sizes), number
            words = page.extract_text()
            assert "Reading table with splayed legs" in words
            assert f"{number}/{count}" in words
            assert "Identification number" in words


def _entities(text: str) -> Counter[str]:
    """How often each entity stands in the data section of an exchange structure (ISO 10303-21)."""
    data = text[text.index("DATA;") : text.rindex("ENDSEC;")]
    simple = re.findall(r"#\d+\s*=\s*([A-Z_0-9]+)\s*\(", data)
    complex_ = re.findall(r"#\d+\s*=\s*\(\s*((?:[A-Z_0-9]+\s*\(.*?\)\s*)+)\)\s*;", data, flags=re.DOTALL)
    inner = [name for group in complex_ for name in re.findall(r"\b([A-Z_]{4,})\s*\(", group)]
    return Counter([*simple, *inner])


def test_the_step_text_holds_a_solid_for_each_form_and_every_part_by_name(tmp_path: Path) -> None:
    """Entities counted in the text; every part is placed by its name; volumes as read back by the kernel."""
    piece, _ = _works()
    data = _written(tmp_path, ExportKind.STEP)[0].read_bytes()
    text = data.decode("ascii")
    assert text.startswith("ISO-10303-21;")
    assert text.rstrip().endswith("END-ISO-10303-21;")
    found = _entities(text)
    assert 1 <= found["MANIFOLD_SOLID_BREP"] <= len(piece.parts)
    assert found["NEXT_ASSEMBLY_USAGE_OCCURRENCE"] == len(piece.parts)
    assert found["ADVANCED_FACE"] > 6 * found["MANIFOLD_SOLID_BREP"]
    assert re.search(r"SI_UNIT\(\.MILLI\.,\.METRE\.\)", text)
    for name in piece.parts:
        assert f"'{name}'" in text, name
    bodies = read_step(data)
    assert {body.name for body in bodies} == set(piece.parts)
    meshes = Planner().solids(demo_job())
    for body in bodies:
        assert body.volume_mm3 == pytest.approx(meshes[body.name].volume_mm3, rel=1e-4)
