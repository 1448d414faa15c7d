"""A piece written out and read back: names, volumes and sizes are those of the piece."""

from __future__ import annotations

import csv
import io
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from scantling.errors import InputError
from scantling.joinery.work import Connector, ConnectorKind, Fit, Mark, MarkKind
from scantling.papers.exports import ExportKind, export_piece, file_stem
from scantling.papers.exports.csv_table import csv_bytes
from scantling.papers.exports.whole_file import write_whole
from scantling.piece.model import Direction, End
from scantling.solids.mesh import meshes_of
from scantling.solids.shape import shapes_of
from scantling.solids.step import read_step
from tests.solids.table import table

BARE = tuple(kind for kind in ExportKind if not kind.drawn)
"""What is written of a piece alone."""


def rows(path: Path) -> list[dict[str, str]]:
    """A table read back."""
    return list(csv.DictReader(io.StringIO(path.read_bytes().decode(), newline="")))


def detailed_table():
    """The table, its first joint with a tenon to buy and a mortise to mark."""
    piece, works = table()
    tenon = Connector(kind=ConnectorKind.LOOSE_TENON, count=1, size_mm=(10.0, 50.0, 40.0), note="round edges")
    pin = Connector(kind=ConnectorKind.PIN, count=2, size_mm=(6.0, 30.0), drill_mm=(6.0, 25.5))
    mark = Mark(
        part="apron_front",
        kind=MarkKind.MORTISE,
        on_end=True,
        end=End.START,
        face=Direction.LEFT,
        reference_face=Direction.BOTTOM,
        from_end_mm=0.0,
        from_face_mm=45.0,
        length_mm=50.0,
        width_mm=10.0,
        depth_mm=28.0,
        fit=Fit.TIGHT,
        setup="A",
        angle_deg=90.0,
    )
    first = replace(works[0], connectors=(tenon, pin), marks=(mark,))
    return piece, (first, *works[1:])


def test_a_piece_is_written_in_all_kinds_at_once(tmp_path):
    """Seven files without a plan, named after the piece."""
    piece, works = detailed_table()
    written = export_piece(piece, works, folder=tmp_path / "new" / "folder", kinds=BARE)
    assert [path.name for path in written] == [
        "small-table.step",
        "small-table.glb",
        "small-table-parts.csv",
        "small-table-hardware.csv",
        "small-table-marks.csv",
        "small-table.xlsx",
        "small-table.dxf",
    ]
    assert {path.name for path in (tmp_path / "new" / "folder").iterdir()} == {p.name for p in written}
    volumes = {body.name: body.volume_mm3 for body in read_step(written[0].read_bytes())}
    for row in rows(written[2]):
        assert volumes[row["part"]] == pytest.approx(float(row["volume_mm3"]), rel=1e-6)
    assert written[1].read_bytes()[:4] == b"glTF"


def test_the_parts_table_holds_sizes_and_places(tmp_path):
    """Long point to long point before joinery, and as cut; centers of mirrored legs mirrored."""
    piece, works = table()
    (path, *_) = export_piece(piece, works, folder=tmp_path, kinds=[ExportKind.CSV])
    by_part = {row["part"]: row for row in rows(path)}
    assert list(by_part) == list(piece.parts)
    apron = by_part["apron_front"]
    assert float(apron["length_mm"]) == pytest.approx(piece.parts["apron_front"].length_mm, abs=1e-6)
    assert float(apron["length_with_tongues_mm"]) == pytest.approx(float(apron["length_mm"]), abs=1e-5)
    assert (apron["width_mm"], apron["thickness_mm"], apron["kind"]) == ("90", "20", "stick")
    assert (by_part["leg_fl"]["mirrored"], by_part["leg_fr"]["mirrored"]) == ("no", "yes")
    left, right = (float(by_part[f"leg_{side}"]["center_x_mm"]) for side in ("fl", "fr"))
    assert left == pytest.approx(-right, abs=1e-5)
    meshes = meshes_of(shapes_of(piece, works))
    assert float(apron["surface_mm2"]) == pytest.approx(meshes["apron_front"].surface_area_mm2, abs=1e-5)


def test_hardware_and_marks_are_as_the_joint_gave_them(tmp_path):
    """Three sizes of a tenon, two of a pin; a mark with its faces by name."""
    piece, works = detailed_table()
    _, hardware, marks = export_piece(piece, works, folder=tmp_path, kinds=[ExportKind.CSV])
    tenon, pin = rows(hardware)
    assert (tenon["thickness_mm"], tenon["width_mm"], tenon["length_mm"]) == ("10", "50", "40")
    assert (tenon["diameter_mm"], tenon["note"]) == ("", "round edges")
    assert (pin["diameter_mm"], pin["length_mm"], pin["count"]) == ("6", "30", "2")
    assert (pin["drill_diameter_mm"], pin["drill_depth_mm"]) == ("6", "25.5")
    (mark,) = rows(marks)
    assert (mark["joint"], mark["part"], mark["kind"]) == ("apron_front.start", "apron_front", "mortise")
    assert (mark["end"], mark["on_end"], mark["reference_face"]) == ("start", "yes", "bottom")
    assert (mark["from_face_mm"], mark["fit"], mark["angle_deg"]) == ("45", "tight", "90")


def test_exporting_twice_gives_the_same_bytes(tmp_path):
    """Equal pieces, equal files, in all kinds."""
    piece, works = detailed_table()
    one = export_piece(piece, works, folder=tmp_path / "1", kinds=BARE)
    two = export_piece(piece, works, folder=tmp_path / "2", kinds=BARE)
    assert [path.read_bytes() for path in one] == [path.read_bytes() for path in two]


def test_the_exact_kernel_is_loaded_for_step_alone():
    """The page asks for glTF and tables many times; a second's wait is for the one file that needs it."""
    code = (
        "import sys, pathlib, tempfile\n"
        "sys.path.insert(0, sys.argv[1])\n"
        "from tests.solids.table import table\n"
        "from scantling.papers.exports import ExportKind, export_piece\n"
        "kinds = [ExportKind.GLB, ExportKind.CSV]\n"
        "with tempfile.TemporaryDirectory() as folder:\n"
        "    export_piece(*table(), folder=pathlib.Path(folder), kinds=kinds)\n"
        "print(*sorted(name for name in sys.modules if name.split('.')[0] == 'OCP'))\n"
    )
    root = Path(__file__).parents[3]
    said = subprocess.run([sys.executable, "-c", code, str(root)], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == ""


def test_a_folder_that_is_a_file_is_told_and_left_alone(tmp_path):
    """One error with the path and a way out, and the file as it was."""
    (tmp_path / "taken").write_text("mine")
    with pytest.raises(InputError, match="Name another folder") as caught:
        export_piece(*table(), folder=tmp_path / "taken", kinds=[ExportKind.CSV])
    assert caught.value.code == "not_writable"
    assert caught.value.value == str(tmp_path / "taken")
    assert "it is a file" in str(caught.value)
    with pytest.raises(InputError, match="taken is a file"):
        export_piece(*table(), folder=tmp_path / "taken" / "out", kinds=[ExportKind.CSV])
    assert (tmp_path / "taken").read_text() == "mine"


def test_a_write_that_fails_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch):
    """The disk runs full half-way."""
    path = write_whole(tmp_path / "a.csv", b"old")

    def full(_descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(InputError, match="No space left on device"):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old"
    assert [p.name for p in tmp_path.iterdir()] == ["a.csv"]


@pytest.mark.parametrize(
    ("title", "stem"),
    [
        ("Reading table", "reading-table"),
        ("../../etc/passwd", "etc-passwd"),
        ("  ", "piece"),
        ("Étagère", "etagere"),
        ("a" * 80, "a" * 60),
        ("机", "piece"),
    ],
)
def test_titles_become_names_that_stay_in_their_folder(title, stem):
    """No dots, slashes or letters a system may refuse."""
    assert file_stem(title) == stem


@pytest.mark.parametrize(
    ("cell", "shown"),
    [
        ("=1+1", "'=1+1"),
        ("@cmd", "'@cmd"),
        ("-5 mm", "'-5 mm"),
        ("plain", "plain"),
        ('two, "quoted"\nlines', 'two, "quoted"\nlines'),
        (-5.0, "-5"),
        (-0.0, "0"),
        (1 / 3, "0.333333"),
        (1e-9, "0"),
        (1200, "1200"),
        (True, "yes"),
        (None, ""),
    ],
)
def test_cells_come_back_as_written_and_never_run(cell, shown):
    """Text that begins like a formula is shown as text; numbers may be negative."""
    table_text = csv_bytes(["a", "b"], [{"a": cell}]).decode()
    assert list(csv.reader(io.StringIO(table_text, newline=""))) == [["a", "b"], [shown, ""]]


def test_drawings_ask_for_the_plan(tmp_path):
    """Without a plan there is nothing to draw boards from: told by its code, and no file is begun."""
    with pytest.raises(InputError, match="must be given where pdf is written") as caught:
        export_piece(*table(), folder=tmp_path / "out", kinds=[ExportKind.CSV, ExportKind.PDF])
    assert caught.value.code == "plan_missing"
    assert not (tmp_path / "out").exists()
