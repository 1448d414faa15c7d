"""Notes from the bench: what is cut is not cut again, what is decided and found is heeded."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from scantling.errors import FileFaults
from scantling.stock import (
    BenchNotes,
    Blank,
    Board,
    Defect,
    DefectKind,
    FreeWidthPanel,
    LayoutRequest,
    Price,
    begun_by,
    lay_out,
    read_rack,
    verify_layout,
)
from scantling.stock.racks.benchnotes import CutPart, Left, Pin, with_strips
from scantling.stock.racks.notes_file import parse_notes

BOARD = Board(name="A", species="cherry", quarters=4, width_mm=170, length_mm=2000, price=Price(amount=40))
RACK = (BOARD, replace(BOARD, name="B"), replace(BOARD, name="C", price=Price(amount=45)))
RAIL = Blank(name="rail", part="rail", species="cherry", length_mm=900, width_mm=70, thickness_mm=25)
TOP = FreeWidthPanel(
    name="top",
    part="top",
    species="cherry",
    length_mm=900,
    total_width_mm=300,
    thickness_mm=25,
    least_strip_mm=60,
    greatest_strip_mm=150,
    edge_loss_mm=4,
)
RAILS = tuple(replace(RAIL, name=f"rail {n}", part=f"rail {n}") for n in range(4))
REQUEST = LayoutRequest(boards=RACK, blanks=RAILS, panels=(TOP,))


def laid(notes: BenchNotes) -> tuple[object, ...]:
    """The layout of what the notes leave, sound by the checker, and where each blank lies."""
    begun = begun_by(REQUEST, notes)
    rest = begun.request
    layout = lay_out(rest)
    checked = verify_layout(
        layout, boards=rest.boards, blanks=rest.blanks, panels=rest.panels, cutting=rest.cutting
    )
    assert checked == ()
    return begun, layout, {p.blank.name: p for b in layout.boards for p in b.placed}


def test_what_is_cut_is_not_cut_again() -> None:
    """Two rails and a strip of 104 mm came from A: two rails and 200 mm of top are left, A is paid for."""
    cut = (
        CutPart(name="rail 0", board="A"),
        CutPart(name="rail 1", board="A"),
        CutPart(name="top", board="A", width_mm=104),
    )
    begun, layout, places = laid(BenchNotes(cut=cut))
    assert {n for n in places if n.startswith("rail")} == {"rail 2", "rail 3"}
    assert (begun.boards, begun.price) == (("A",), 40.0)
    assert "A" not in {b.name for b in (*(x.board for x in layout.boards), *layout.unused)}
    whole = with_strips(layout, (TOP,), begun.strips)
    assert whole.strips[0].widths_mm[0] == pytest.approx(100)
    assert sum(whole.strips[0].widths_mm) == pytest.approx(300)
    numbers = sorted(p.blank.name for b in whole.boards for p in b.placed if "strip" in p.blank.name)
    assert numbers[0] == "top strip 2"


def test_the_rest_of_a_board_begun_is_a_board_without_a_price() -> None:
    """950 x 80 mm of A are left: wood for one rail more, already paid for."""
    notes = BenchNotes(
        cut=(CutPart(name="top", board="A", width_mm=304),),
        left=(Left(board="A", length_mm=950, width_mm=80),),
        leave=("B", "C"),
    )
    _, layout, places = laid(notes)
    assert [p.board for p in places.values()] == ["A rest"]
    assert layout.price == 0


def test_a_board_left_alone_stays_whole_and_a_mark_is_kept_clear_of() -> None:
    """Without B, and with a split through the left half of A, the rails go elsewhere."""
    split = Defect(kind=DefectKind.SPLIT, x_mm=0, y_mm=80, length_mm=1000, width_mm=10)
    _, layout, places = laid(BenchNotes(leave=("B",), found=(("A", split),)))
    assert {b.board.name for b in layout.boards} <= {"A", "C"}
    assert split in next(b.board for b in layout.boards if b.board.name == "A").defects
    assert places


def test_a_pin_holds_a_part_to_its_board() -> None:
    """A rail pinned to the dearer C is cut from C."""
    _, _, places = laid(BenchNotes(pins=(Pin(name="rail 3", board="C"),)))
    assert places["rail 3"].board == "C"


def test_a_pin_with_a_place_parts_the_board_there() -> None:
    """Rail 3 at 500 mm of C: 496.8 mm are left of it, 596.8 right, and 170 - 75 - 3.2 above (by hand)."""
    begun, _, places = laid(BenchNotes(pins=(Pin(name="rail 3", board="C", at_mm=500),)))
    sizes = {b.name: (b.length_mm, b.width_mm) for b in begun.request.boards if b.name.startswith("C")}
    assert sizes == {
        "C left": (pytest.approx(496.8), 170),
        "C right": (pytest.approx(596.8), 170),
        "C over": (900, pytest.approx(91.8)),
    }
    assert "rail 3" not in places
    assert begun.price == 45
    assert "crosscut C at 500 mm and 1400 mm" in begun.pinned[0]


def test_a_pin_names_how_far_up_too() -> None:
    """Rail 3 at 500 mm of C, 60 mm up: 60 - 3.2 - 5 mm are left under it; 36.8 over it are too few."""
    pin = Pin(name="rail 3", board="C", at_mm=500, up_mm=60)
    begun, _, places = laid(BenchNotes(pins=(pin,)))
    sizes = {b.name: (b.length_mm, b.width_mm) for b in begun.request.boards if b.name.startswith("C ")}
    assert (sizes["C under"], "C over" in sizes) == ((900, pytest.approx(51.8)), False)
    assert "rip at 56.8 mm and at 130 mm" in begun.pinned[0]
    assert "rail 3" not in places
    low = begun_by(REQUEST, BenchNotes(pins=(replace(pin, up_mm=3),)))
    assert "5 mm are lost" in low.unknown[0][1]
    high = begun_by(REQUEST, BenchNotes(pins=(replace(pin, up_mm=98),)))
    assert "would reach 168 mm up; C gives 167 mm" in high.unknown[0][1]


def test_two_pins_on_one_board_are_measured_on_the_whole_of_it() -> None:
    """The second lies in what the first leaves over it, and two that would overlap are told."""
    first, second = (
        Pin(name="rail 3", board="C", at_mm=500),
        Pin(name="rail 2", board="C", at_mm=500, up_mm=90),
    )
    begun, _, places = laid(BenchNotes(pins=(first, second)))
    assert begun.unknown == ()
    assert "rail 2: crosscut C over at 0 mm and 900 mm" in begun.pinned[1]
    assert "rail 2" not in places
    assert begun.price == 45
    clash = begun_by(REQUEST, BenchNotes(pins=(first, replace(second, up_mm=40))))
    assert [name for name, _ in clash.unknown] == ["rail 2"]


@pytest.mark.parametrize(
    ("pin", "reason"),
    [
        (Pin(name="rail 9", board="C"), "no blank"),
        (Pin(name="rail 3", board="C", at_mm=1200), "would end at 2100 mm"),
        (Pin(name="rail 3", board="B", at_mm=0.0), "lie on the knot at 100 mm"),
    ],
)
def test_a_pin_that_cannot_be_is_told_and_not_followed(pin: Pin, reason: str) -> None:
    """An unknown part, a place past the end, a place on a knot."""
    knot = Defect(kind=DefectKind.KNOT, x_mm=100, y_mm=20, length_mm=30, width_mm=30)
    begun = begun_by(REQUEST, BenchNotes(pins=(pin,), found=(("B", knot),)))
    assert [(name, reason in said) for name, said in begun.unknown] == [(pin.name, True)]
    assert len(begun.request.blanks) == 4
    assert {"B", "C"} <= {b.name for b in begun.request.boards}


NOTES = """\
cut:
  A: [rail 0, {top: 104 mm}]
left: {A: 900 mm x 140 mm}
leave: [B]
found:
  C: knot at 620 x 40, 90 x 50 on back; split at 0 x 0, 30 x 5
pin: {rail 1: C at 450 mm}
"""


def test_notes_are_read_beside_the_rack(tmp_path: Path) -> None:
    """``rack.bench.yaml`` beside ``rack.csv``, every field of it."""
    rows = "\n".join(f"{b.name},cherry,4/4,170,2000" for b in RACK)
    (tmp_path / "rack.csv").write_text(f"name,species,thickness,width,length\n{rows}\n", encoding="utf-8")
    assert read_rack(tmp_path / "rack.csv").notes == BenchNotes()
    (tmp_path / "rack.bench.yaml").write_text(NOTES, encoding="utf-8")
    notes = read_rack(tmp_path / "rack.csv").notes
    assert notes.cut == (
        CutPart(name="rail 0", board="A"),
        CutPart(name="top", board="A", width_mm=104.0),
    )
    assert notes.left == (Left(board="A", length_mm=900.0, width_mm=140.0),)
    assert (notes.leave, notes.pins) == (("B",), (Pin(name="rail 1", board="C", at_mm=450.0),))
    assert [(board, d.kind) for board, d in notes.found] == [("C", DefectKind.KNOT), ("C", DefectKind.SPLIT)]


def test_every_fault_of_the_notes_comes_at_once() -> None:
    """A board nobody has, a size that is none, a mark off its board, a cut board left alone, an odd word."""
    text = (
        "cut: {Z: [rail 0], A: [rail 1]}\nleft: {B: big}\nfound:\n  C: knot at 9000 x 1, 2 x 2\n"
        "leave: [A]\nholler: 3\npin: {rail 2: A}\n"
    )
    with pytest.raises(FileFaults) as caught:
        parse_notes(text, file="r.bench.yaml", boards=RACK)
    assert [(f.code, f.line) for f in caught.value.faults] == [
        ("unknown_board", 1),
        ("not_a_size", 2),
        ("defect_outside_board", 4),
        ("cut_and_left", 5),
        ("unknown_field", 6),
        ("board_not_free", 7),
    ]
