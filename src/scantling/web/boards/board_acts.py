"""What one mark does to the notes, and what is said to it; what cannot be is refused with the way out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from scantling.errors import InputError
from scantling.papers.sheets.show import word
from scantling.plan.timber.laying_out import Question, answer_of
from scantling.plan.timber.placing import Judged, boards_of, judge_place, pin_name, staying_with
from scantling.plan.timber.stockways import Chosen
from scantling.stock.boards.board import Board
from scantling.stock.boards.rackrow import read_defect
from scantling.stock.layouts.layout import Layout
from scantling.stock.racks import notes_edits as edits
from scantling.stock.racks.benchnotes import BenchNotes
from scantling.stock.racks.laid import LaidBoard, laid_of
from scantling.stock.racks.notes_file import parse_notes
from scantling.web.sent.board_bodies import Act

__all__ = ["Bench", "done"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What a mark is made on.

    Parameters
    ----------
    question
        What is asked of the boards, with the notes as they are.
    text
        The notes as written.
    layout
        Gives the layout as it is; asked for only where a mark needs it.
    found
        Gives the layout of a search, and what it was asked, by number.
    judged
        Says where a part lies, in words.
    boards
        All boards and sheets of the rack.
    unit
        Of sizes that are bare numbers.
    gone
        Whether boards may have left the rack since.
    """

    question: Question
    text: str
    layout: Callable[[], Layout]
    found: Callable[[int], tuple[Question, Chosen]]
    judged: Callable[[Judged], str]
    boards: tuple[Board, ...]
    unit: str
    gone: bool = False

    @property
    def notes(self) -> BenchNotes:
        """The notes as they are."""
        return self.question.notes

    def board(self, name: str) -> Board:
        """A board of the rack."""
        for board in self.boards:
            if board.name == name:
                return board
        raise InputError(
            code="unknown_board",
            field="board",
            value=name[:60],
            rule="must be a board of the rack",
            remedy="Look at the boards as they are now.",
        )


def done(act: Act, bench: Bench) -> tuple[str, str]:
    """The notes with a mark made, and what is said to it.

    Parameters
    ----------
    act
        The mark.
    bench
        What it is made on.

    Raises
    ------
    InputError
        ``cannot_lie``, ``unknown_board``, ``unknown_blank``, ``unknown_mark``, ``board_begun``, ``as_it_is``
        where nothing would change, and those of sizes and marks.
    """
    text, said = {
        "hold": _hold,
        "let go": _let_go,
        "leave": _leave,
        "use": _use,
        "mark": _mark,
        "unmark": _unmark,
        "cut": _cut,
        "uncut": _uncut,
        "stay": _stay,
        "free": _free,
        "keep": _keep,
        "text": _text,
    }[act.act](act, bench)
    if text == bench.text:
        raise _as_it_is(act.part or act.board)
    return text, said


def _hold(act: Act, bench: Bench) -> tuple[str, str]:
    bench.board(act.board)
    _blank(act.part, bench)
    low = bench.question.asked.cutting.straight_edge_mm
    at = None if act.at_mm is None else (act.at_mm, low if act.up_mm is None else act.up_mm)
    judged = judge_place(bench.question, act.part, act.board, at_mm=at, step_mm=0.001)
    if judged.reason:
        raise InputError(
            code="cannot_lie",
            field=act.part,
            value=act.board if at is None else f"{act.board} at {at[0]:.0f} mm",
            rule=judged.reason,
            remedy=judged.remedy,
        )
    text = bench.text
    for root in (act.board, *staying_with(bench.notes, act.part)):
        text = edits.without_laid(text, boards_of(bench.notes, root))
    for name in {judged.pin.name, act.part}:
        text = edits.without_pin(text, name)
    return edits.with_pin(text, judged.pin), f"{word(judged.pin.name)} is held {bench.judged(judged)}."


def _let_go(act: Act, bench: Bench) -> tuple[str, str]:
    text, name = bench.text, pin_name(bench.question, act.part)
    cut = next((c.board for c in bench.notes.cut if c.name == act.part), None)
    if cut is not None:
        _not_begun(cut, bench)
    pins = [p for p in bench.notes.pins if p.name in (act.part, name)]
    if not pins:  # a part the piece has no more can still be let go
        _blank(act.part, bench)
        raise _as_it_is(act.part)
    for pin in pins:
        text = edits.without_laid(edits.without_pin(text, pin.name), boards_of(bench.notes, pin.board))
    return text, f"{word(name)} is let go."


def _leave(act: Act, bench: Bench) -> tuple[str, str]:
    name = bench.board(act.board).name
    _not_begun(name, bench)
    text = edits.without_laid(bench.text, boards_of(bench.notes, name))
    held = [p.name for p in bench.notes.pins if p.board == name]
    for part in held:
        text = edits.without_pin(text, part)
    let_go = f"; let go: {', '.join(word(part) for part in held)}" if held else ""
    return edits.with_leave(text, name), f"{name} is left out{let_go}."


def _use(act: Act, bench: Bench) -> tuple[str, str]:
    name = bench.board(act.board).name
    if name not in bench.notes.leave:
        raise _as_it_is(name)
    return edits.without_leave(bench.text, name), f"{name} can be used again."


def _mark(act: Act, bench: Bench) -> tuple[str, str]:
    board = bench.board(act.board)
    sizes = [size.strip() or "0" for size in (act.x, act.y, act.length, act.width)]
    face = "" if act.face == "through" else f" on {act.face}"
    x, y, length, width = sizes
    mark = read_defect(f"{act.kind} at {x} x {y}, {length} x {width}{face}", unit=bench.unit, board=board)
    if edits.mark_text(mark) in _found_on(board.name, bench):
        raise _as_it_is(board.name)
    text = edits.with_mark(bench.text, board.name, mark)
    if board.name not in {c.board for c in bench.notes.cut}:
        text = edits.without_laid(text, boards_of(bench.notes, board.name))
    return text, f"A {act.kind} is marked on {board.name}."


def _unmark(act: Act, bench: Bench) -> tuple[str, str]:
    name = bench.board(act.board).name
    found = _found_on(name, bench)
    if act.mark not in found:
        raise InputError(
            code="unknown_mark",
            field="mark",
            value=act.mark[:60],
            rule=f"must be a mark found on {name}, as it is written in the notes",
            remedy="Look at the boards as they are now: it may have been taken off already.",
        )
    return edits.without_mark(bench.text, name, found.index(act.mark)), f"The mark on {name} is taken off."


def _cut(act: Act, bench: Bench) -> tuple[str, str]:
    root = _root(act.board, bench)
    laid = _laid_on(root, bench)
    pinned = {p.name for p in bench.notes.pins if p.board == root}
    if not any(b.name == act.part for one in laid for b in one.blanks) and act.part not in pinned:
        raise InputError(
            code="unknown_blank",
            field="part",
            value=act.part[:60],
            rule=f"must lie on {root}",
            remedy="Look at the boards as they are now.",
        )
    text = bench.text if boards_of(bench.notes, root) else edits.with_laid(bench.text, laid)
    return edits.with_cut(text, root, act.part), f"{word(act.part)} is cut; {root} stays as it is laid out."


def _uncut(act: Act, bench: Bench) -> tuple[str, str]:
    root = _root(act.board, bench)
    if not any(c.name == act.part and c.board == root for c in bench.notes.cut):
        _blank(act.part, bench)
        raise _as_it_is(act.part)
    text = edits.without_cut(bench.text, root, act.part)
    others = [c for c in bench.notes.cut if c.board == root and c.name != act.part]
    if not others:
        text = edits.without_laid(text, boards_of(bench.notes, root))
    return text, f"{word(act.part)} is not cut."


def _stay(act: Act, bench: Bench) -> tuple[str, str]:
    root = _root(act.board, bench)
    return edits.with_laid(bench.text, _laid_on(root, bench)), f"{root} stays as it is laid out."


def _free(act: Act, bench: Bench) -> tuple[str, str]:
    root = _root(act.board, bench)
    _not_begun(root, bench)
    if not boards_of(bench.notes, root):
        raise _as_it_is(root)
    text = edits.without_laid(bench.text, boards_of(bench.notes, root))
    return text, f"{root} may be laid out anew."


def _keep(act: Act, bench: Bench) -> tuple[str, str]:
    question, chosen = bench.found(act.number)
    if question.key != bench.question.key:
        raise InputError(
            code="asked_otherwise",
            field="search",
            value=str(act.number),
            rule="must be of the notes as they are; something was marked since",
            remedy="Search again.",
        )
    _, layout = answer_of(question, chosen)
    text = edits.without_laid(bench.text, [x.board for x in bench.notes.laid])
    text = edits.with_laid(text, [laid_of(b) for b in layout.boards])
    bound = None if layout.bound_price is None else (layout.bound_price, question.key)
    return edits.with_bound(text, bound), "The layout is kept: the plan and the packet show it."


def _text(act: Act, bench: Bench) -> tuple[str, str]:
    if act.text.strip():
        parse_notes(act.text, file="notes", boards=bench.boards, gone=bench.gone)
    return act.text, "The notes are taken over."


def _laid_on(root: str, bench: Bench) -> list[LaidBoard]:
    """What is laid out on a board, or on the pieces pins have left of it."""
    pieces = bench.question.begun.pieces
    return [
        laid_of(b)
        for b in bench.layout().boards
        if root == b.board.name or pieces.get(b.board.name, ("",))[0] == root
    ]


def _root(name: str, bench: Bench) -> str:
    """The board of the rack that a board or piece is of."""
    return bench.board(bench.question.begun.pieces.get(name, (name,))[0]).name


def _found_on(name: str, bench: Bench) -> list[str]:
    """Marks found on a board, as they are written."""
    return [edits.mark_text(mark) for board, mark in bench.notes.found if board == name]


def _as_it_is(subject: str) -> InputError:
    """The fault of a mark that would change nothing: what is told as done must have been done."""
    return InputError(
        code="as_it_is",
        field="act",
        value=subject[:60],
        rule="must change something: the notes are so already",
        remedy="Look at the boards as they are now.",
    )


def _not_begun(board: str, bench: Bench) -> None:
    if board in {c.board for c in bench.notes.cut}:
        raise InputError(
            code="board_begun",
            field="board",
            value=board,
            rule="must not be begun: parts are cut from it",
            remedy="Take the ticks off first, if nothing is cut from it.",
        )


def _blank(name: str, bench: Bench) -> None:
    asked = bench.question
    known = {b.name for b in (*asked.asked.blanks, *asked.whole.blanks)} | {
        p.name for p in asked.asked.panels
    }
    known |= {pin_name(asked, name)} if " strip " in name else set()
    folded = all(one in known for one in name.split(" + "))
    if name not in known and pin_name(asked, name) not in known and not folded:
        raise InputError(
            code="unknown_blank",
            field="part",
            value=name[:60],
            rule="must be a part that is cut from these boards",
            remedy="Look at the boards as they are now.",
        )
