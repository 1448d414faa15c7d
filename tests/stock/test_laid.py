"""Boards that stay as they were laid out: checked each time, and dropped where they no longer fit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import FileFaults
from scantling.plan.timber.laying_out import settle
from scantling.reading import parse_on
from scantling.stock import Blank, Board, Defect, DefectKind, FreeWidthPanel, LayoutRequest, Price, lay_out
from scantling.stock.checking.verify import verify_layout
from scantling.stock.layouts.layout import Layout
from scantling.stock.racks.benchnotes import BenchNotes, CutPart, Pin, begun_by
from scantling.stock.racks.laid import KeptBoards, LaidBoard, keep_laid, laid_of, with_kept
from scantling.stock.racks.laid_text import laid_text, read_laid
from scantling.stock.racks.notes_edits import (
    with_bound,
    with_cut,
    with_laid,
    with_leave,
    with_mark,
    with_pin,
    without_cut,
    without_laid,
    without_leave,
    without_mark,
    without_pin,
)
from scantling.stock.racks.notes_file import parse_notes

BOARD = Board(name="A", species="cherry", quarters=4, width_mm=170, length_mm=2000, price=Price(amount=40))
RACK = (BOARD, replace(BOARD, name="B"), replace(BOARD, name="C", price=Price(amount=45)))
RAIL = Blank(name="rail", part="rail", species="cherry", length_mm=900, width_mm=70, thickness_mm=25)
RAILS = tuple(replace(RAIL, name=f"rail {n}", part=f"rail {n}") for n in range(4))
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
REQUEST = LayoutRequest(boards=RACK, blanks=RAILS, panels=(TOP,))
KNOT = Defect(kind=DefectKind.KNOT, x_mm=0, y_mm=0, length_mm=40, width_mm=40)


def first() -> Layout:
    """Everything laid out."""
    return lay_out(REQUEST)


def written(laid: LaidBoard) -> LaidBoard:
    """A board written to notes and read again."""
    return read_laid(laid.board, parse_on(f"x: {laid_text(laid)}\n", file="notes").get(("x",)))


def sound(layout: Layout, request: LayoutRequest = REQUEST) -> bool:
    """Whether the checker, which shares no code with the search, finds nothing."""
    found = verify_layout(
        layout,
        boards=request.boards,
        blanks=request.blanks,
        panels=request.panels,
        cutting=request.cutting,
    )
    assert found == ()
    return True


def finished(kept: KeptBoards, request: LayoutRequest = REQUEST) -> Layout:
    """The rest laid out, as one with what stays."""
    return with_kept(lay_out(kept.request), kept.boards, request)


def on_board(layout: Layout, board: str) -> dict[str, tuple[float, float]]:
    """Where each blank of a board lies."""
    return {p.blank.name: (p.x_mm, p.y_mm) for b in layout.boards if b.board.name == board for p in b.placed}


def test_a_whole_layout_kept_is_the_same_layout() -> None:
    """Written as text and read again, every board stays, nothing is left, and the checker agrees."""
    layout = first()
    kept = keep_laid(REQUEST, [written(laid_of(b)) for b in layout.boards])
    assert (kept.dropped, kept.request.blanks, kept.request.panels) == ((), (), ())
    again = finished(kept)
    assert sound(again)
    assert again.price == pytest.approx(layout.price)
    assert again.waste_pct == pytest.approx(layout.waste_pct)
    assert [on_board(again, b.name) for b in RACK] == [on_board(layout, b.name) for b in RACK]
    assert again.bound_price is None  # that all of it stays proves nothing about what it must cost


@pytest.mark.parametrize("board", ["A", "B", "C"])
def test_one_board_stays_and_the_rest_is_laid_out_without_it(board: str) -> None:
    """Its blanks lie where they lay, its strips keep the numbers chalked on them, and all of it is sound."""
    laid = [laid_of(b) for b in first().boards if b.board.name == board]
    again = finished(keep_laid(REQUEST, laid))
    assert sound(again)
    assert on_board(again, board) == {b.name: (b.x_mm, b.y_mm) for one in laid for b in one.blanks}


def test_a_board_is_dropped_where_it_no_longer_holds() -> None:
    """A knot under a blank, a part made longer, a board that is gone: each with the reason."""
    layout = first()
    laid = laid_of(next(b for b in layout.boards if any(p.blank.part.startswith("rail") for p in b.placed)))
    rail = next(b for b in laid.blanks if b.name.startswith("rail"))
    knot = replace(KNOT, x_mm=rail.x_mm + 100, y_mm=rail.y_mm + 10)
    marked = tuple(replace(b, defects=(knot,)) if b.name == laid.board else b for b in RACK)
    ((name, reason),) = keep_laid(replace(REQUEST, boards=marked), [laid]).dropped
    assert (name, reason) == (laid.board, f"{rail.name} lies on the knot at {knot.x_mm:g} mm")
    longer = tuple(replace(b, length_mm=905) for b in RAILS)
    ((_, reason),) = keep_laid(replace(REQUEST, blanks=longer), [laid]).dropped
    assert "wanted (905, 70) mm" in reason
    ((_, reason),) = keep_laid(replace(REQUEST, boards=()), [laid]).dropped
    assert reason == "there is no such board to cut now"


def test_of_a_board_begun_only_what_lies_on_a_mark_is_cut_elsewhere() -> None:
    """One rail is cut, another lies on a knot: it is asked for again, the rest of the board stays."""
    layout = first()
    laid = next(
        laid_of(b) for b in layout.boards if sum(p.blank.part.startswith("rail") for p in b.placed) >= 2
    )
    one, other = [b for b in laid.blanks if b.name.startswith("rail")][:2]
    knot = replace(KNOT, x_mm=other.x_mm + 100, y_mm=other.y_mm + 10)
    notes = BenchNotes(
        file="n",
        cut=(CutPart(name=one.name, board=laid.board),),
        laid=(laid,),
        found=((laid.board, knot),),
    )
    begun, whole, kept = settle(REQUEST, notes)
    assert kept.lost == ((other.name, f"it lies on the knot at {knot.x_mm:g} mm of {laid.board}"),)
    again = finished(kept, whole)
    assert sound(again, whole)
    assert one.name in on_board(again, laid.board)
    assert other.name not in on_board(again, laid.board)
    assert begun.request.blanks == REQUEST.blanks


def test_a_tick_changes_nothing_while_its_board_stays_and_counts_once_it_does_not() -> None:
    """The part cut stays drawn on its board; if that layout falls, the part is not asked for again."""
    layout = first()
    laid = next(laid_of(b) for b in layout.boards if any(p.blank.part == "rail 0" for p in b.placed))
    notes = BenchNotes(file="n", cut=(CutPart(name="rail 0", board=laid.board),), laid=(laid,))
    _, _, kept = settle(REQUEST, notes)
    assert [b.board.name for b in kept.boards] == [laid.board]
    longer = tuple(replace(b, length_mm=905) if b.name != "rail 0" else b for b in RAILS)
    others = [b.name for b in laid.blanks if b.name.startswith("rail") and b.name != "rail 0"]
    begun, _, kept = settle(replace(REQUEST, blanks=longer), notes)
    assert others
    assert kept.boards == ()
    assert "rail 0" not in {b.name for b in begun.request.blanks}
    assert laid.board in begun.boards


def test_what_a_pin_parts_off_stays_too() -> None:
    """The piece right of a pinned rail is a board of its own, and is kept as one."""
    notes = BenchNotes(file="n", pins=(Pin(name="rail 0", board="A", at_mm=20),))
    whole = begun_by(REQUEST, notes).request
    layout = lay_out(whole)
    laid = tuple(laid_of(b) for b in layout.boards)
    _, whole, kept = settle(REQUEST, replace(notes, laid=laid))
    assert kept.dropped == ()
    assert sound(finished(kept, whole), whole)


def test_marks_are_written_one_by_one_and_taken_back_to_nothing() -> None:
    """Each is read as it was meant, comments stay, and the last one taken off leaves an empty text."""
    boards = (*RACK, replace(BOARD, name="12"))
    text = "# of the first day\nleave: [C]  # promised\n"
    text = with_pin(text, Pin(name="rail 1", board="12", at_mm=40.25, up_mm=60))
    text = with_mark(text, "A", KNOT)
    text = with_mark(text, "A", replace(KNOT, kind=DefectKind.SPLIT))
    laid = laid_of(next(b for b in first().boards if b.board.name == "B"))
    text = with_cut(with_laid(text, [laid]), "B", laid.blanks[0].name)
    text = with_bound(with_leave(text, "A"), (12.5, "0" * 32))
    notes = parse_notes(text, file="n", boards=boards)
    assert "# of the first day" in text
    assert "# promised" in text
    assert notes.pins == (Pin(name="rail 1", board="12", at_mm=40.25, up_mm=60),)
    assert [mark.kind for _, mark in notes.found] == [DefectKind.KNOT, DefectKind.SPLIT]
    assert (notes.leave, notes.bound) == (("C", "A"), (12.5, "0" * 32))
    assert [x.board for x in notes.laid] == ["B"]
    assert notes.ticked == {("B", laid.blanks[0].name)}
    text = without_laid(without_mark(without_pin(text, "rail 1"), "A", 0), ["B"])
    text = without_cut(without_mark(text, "A", 0), "B", laid.blanks[0].name)
    assert without_leave(text, "A") == "# of the first day\nleave: [C]  # promised\n"
    assert without_leave(without_leave(text, "A"), "C") == "# of the first day\n"


def test_comments_outlive_the_last_entry_and_are_notes_that_say_nothing() -> None:
    """What the maker wrote stays at the top, is read as empty notes, and takes new marks below it."""
    text = "# Monday\n\npin:\n  # knot at the heel\n  rail 1: C  # for now\n# Tuesday\n"
    bare = without_pin(text, "rail 1")
    assert bare == "# Monday\n# knot at the heel\n# Tuesday\n"
    assert parse_notes(bare, file="n", boards=RACK) == BenchNotes(file="n")
    assert parse_notes("", file="n", boards=RACK) == BenchNotes(file="n")
    assert with_leave(bare, "A") == f"{bare}leave: [A]\n"
    assert without_leave(bare, "A") == bare


@pytest.mark.parametrize(
    "name", ["-", "12", "yes", "null", "a: b", "C, wide", "é", "a #b", "[C]", "-C", "?", "1e3"]
)
def test_a_name_is_read_back_as_it_was_whatever_it_looks_like(name: str) -> None:
    """In a list, before a colon and behind one."""
    boards = (*RACK, replace(BOARD, name=name))
    text = with_cut(with_leave(with_pin("", Pin(name=name, board="A")), name), "B", name)
    notes = parse_notes(text, file="n", boards=boards)
    assert (notes.pins, notes.leave) == ((Pin(name=name, board="A"),), (name,))
    assert notes.cut == (CutPart(name=name, board="B"),)


@pytest.mark.parametrize("pin", ['""', "", "' '"])
def test_a_pin_that_says_nothing_is_a_fault(pin: str) -> None:
    """It is told with its line, and not passed over."""
    with pytest.raises(FileFaults) as refused:
        parse_notes(f"pin:\n  rail 1: {pin}\n", file="n", boards=RACK)
    (fault,) = refused.value.faults
    assert (fault.line, fault.rule) == (2, "must be a board, or BOARD at LENGTH")


def test_a_block_on_one_line_is_written_anew_with_all_that_is_in_it() -> None:
    """What cannot be changed in its place is set on lines of its own, and reads the same otherwise."""
    text = with_pin("pin: {rail 0: C, rail 1: A at 40 mm}\n", Pin(name="rail 1", board="B"))
    pins = parse_notes(text, file="n", boards=RACK).pins
    assert pins == (Pin(name="rail 0", board="C"), Pin(name="rail 1", board="B"))


@pytest.mark.parametrize(
    "line",
    [
        "laid: {A: {blanks: [[rail 0, 1, 2]]}}",
        "laid: {A: {blanks: [[rail 0, 1, 2, nan, 4, 1]]}}",
        "laid: {A: {cuts: [[bend, A, 1, x, y, 0, 0, 1, 1, 1]]}}",
        "laid: {A: {other: []}}",
        "laid: {A: 12}",
        "bound: 12 of something",
    ],
)
def test_what_the_program_did_not_write_is_refused_with_its_line(line: str) -> None:
    """A line somebody changed by hand is told, with the way out."""
    with pytest.raises(FileFaults) as refused:
        parse_notes(f"{line}\n", file="n", boards=RACK)
    (fault,) = refused.value.faults
    assert (fault.line, "Take the line out" in fault.remedy) == (1, True)


def test_boards_that_left_a_stockroom_are_told_and_what_was_cut_from_them_still_counts() -> None:
    """Of a board that is gone, only the parts cut from it are remembered; the rest is told."""
    text = "cut: {Z: [rail 0]}\nleave: [Y]\npin: {rail 1: X}\n"
    notes = parse_notes(text, file="n", boards=RACK, gone=True)
    assert [name for name, _ in notes.gone] == ["Y", "X"]
    begun = begun_by(REQUEST, notes)
    assert {b.name for b in begun.request.blanks} == {"rail 1", "rail 2", "rail 3"}
    with pytest.raises(FileFaults):
        parse_notes(text, file="n", boards=RACK)
