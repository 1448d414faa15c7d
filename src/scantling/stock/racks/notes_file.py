"""Reading the bench notes beside a rack: ``cherry.csv`` has its notes in ``cherry.bench.yaml``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from scantling.errors import Fault, FileFaults, InputError
from scantling.piece.files.built_file import BUILT_FIELDS
from scantling.reading import Document, did_you_mean, faults_for, parse_document, read_document, read_text
from scantling.reading.limits import MAX_FAULTS
from scantling.stock.boards.board import Board, Defect
from scantling.stock.boards.rackrow import read_defect
from scantling.stock.racks.benchnotes import BenchNotes, CutPart, Left, Pin
from scantling.stock.racks.laid import LaidBoard
from scantling.stock.racks.laid_text import read_laid
from scantling.units import parse_length_mm

__all__ = [
    "built_in",
    "built_notes",
    "notes_path",
    "only_comments",
    "parse_notes",
    "stockroom_notes_path",
]

_FIELDS = ("cut", "left", "leave", "found", "pin", "laid", "bound")
_SIZE = re.compile(r"(?P<length>.+?)\s*[x×]\s*(?P<width>.+)")
_LONGEST = 400
"""Characters of a size or place; a longer one is none, and takes long to look at. [1]"""
_BOUND = re.compile(r"(?P<bound>\d{1,12}(?:\.\d{1,12})?) of (?P<asked>[0-9a-f]{32})")
_PLACE = re.compile(r"(?P<board>.+?)(?:\s+at\s+(?P<at>.+?)(?:\s*,\s*(?P<up>.+?)\s+up)?)?")


def notes_path(rack: Path) -> Path:
    """Where the bench notes of a rack are looked for."""
    return rack.with_suffix(".bench.yaml")


def stockroom_notes_path(piece: Path) -> Path:
    """Where the bench notes of a piece are looked for that comes out of the stockroom, which is no file.

    Examples
    --------
    >>> stockroom_notes_path(Path("hall/bench.yaml")).as_posix()
    'hall/bench-stockroom.bench.yaml'
    """
    return piece.parent / f"{piece.stem}-stockroom.bench.yaml"


def built_notes(beside: Path | None, *, measured: str | Path | None = None) -> Document | None:
    """The notes that say what is measured and made of a piece; None where there are none.

    Parameters
    ----------
    beside
        Where the notes from the bench are looked for.
    measured
        A file of their own, which comes first.

    Raises
    ------
    FileFaults
        It is not there, cannot be read, or holds what no notes hold.
    """
    if measured is not None:
        return _checked(read_document(measured)) if str(measured).strip() else None
    if beside is None or not beside.is_file():
        return None
    return built_in(read_text(beside), file=str(beside))


def built_in(text: str, *, file: str) -> Document | None:
    """Notes that are kept with a rack, for what they say of a piece; None where they say nothing of it."""
    try:
        notes = parse_document(text, file=file)
    except FileFaults:
        return None  # whoever reads the rack tells what is wrong with them
    return notes if any(notes.get((name,)) is not None for name in BUILT_FIELDS) else None


def _checked(notes: Document) -> Document:
    """Notes given for what they say of the piece; raises FileFaults where they say nothing of it."""
    data = notes.data if isinstance(notes.data, dict) else {}
    known = (*BUILT_FIELDS, *_FIELDS)
    faults = [
        notes.fault(
            (name,),
            code="unknown_field",
            value=name,
            rule=f"must be one of {', '.join(known)}",
            remedy=did_you_mean(name, list(known), otherwise="Sizes stand under measured."),
        )
        for name in data
        if name not in known
    ]
    if not faults and not any(name in data for name in BUILT_FIELDS):
        faults = [
            notes.fault(
                (),
                code="nothing_measured",
                value="nothing",
                rule=f"must hold {' or '.join(BUILT_FIELDS)}",
                remedy="Write measured: {top: {width: 897 mm}}, done: [top].",
            )
        ]
    if faults:
        raise FileFaults(faults)
    return notes


def only_comments(text: str) -> bool:
    r"""Whether a text says nothing: it is empty, or all its lines are comments.

    Examples
    --------
    >>> only_comments("# of the first day\n\n"), only_comments("leave: [A]  # promised\n")
    (True, False)
    """
    return all(not line.strip() or line.lstrip().startswith("#") for line in text.splitlines())


def parse_notes(text: str, *, file: str, boards: Sequence[Board], gone: bool = False) -> BenchNotes:
    """Read bench notes; comments alone are notes that say nothing.

    Parameters
    ----------
    text
        The file's text.
    file
        Its name, for faults.
    boards
        The rack it belongs to.
    gone
        Whether boards may have left the rack since, as they leave a stockroom: what was noted about those is
        then told with the notes. Else a name that is none of the rack's is a fault.

    Raises
    ------
    FileFaults
        Every fault at once.
    """
    if only_comments(text):
        return BenchNotes(file=file)
    reader = _Reader(parse_document(text, file=file), {b.name: b for b in boards}, gone=gone)
    notes = reader.notes()
    if reader.faults:
        raise FileFaults(sorted(reader.faults, key=lambda f: (f.line, f.column))[:MAX_FAULTS])
    return notes


def _matched(form: re.Pattern[str], text: str) -> re.Match[str] | None:
    return form.fullmatch(text.strip()) if len(text) <= _LONGEST else None


class _Reader:
    def __init__(self, document: Document, boards: dict[str, Board], *, gone: bool) -> None:
        self.document, self.boards = document, boards
        self.faults: list[Fault] = []
        self.may_go, self.gone = gone, dict[str, str]()

    def wrong(self, path: tuple[str | int, ...], code: str, rule: str, remedy: str) -> None:
        """One more fault."""
        self.faults.append(self.document.fault(path, code=code, rule=rule, remedy=remedy))

    def block(self, name: str) -> dict[str, object]:
        """A block by board or part; a fault where something else stands there."""
        found = self.document.get((name,))
        if found is None:
            return {}
        if not isinstance(found, dict):
            self.wrong((name,), "not_a_block", "must be a block of names", "Write one NAME: VALUE a line.")
            return {}
        return dict(found)

    def board(self, name: str, path: tuple[str | int, ...]) -> bool:
        """Whether the rack has a board."""
        if name in self.boards:
            return True
        if self.may_go:
            self.gone[name] = "it is not in the stockroom any more"
            return False
        self.wrong(
            path,
            "unknown_board",
            "must name a board of the rack",
            did_you_mean(name, list(self.boards), otherwise="Look at the names in the rack."),
        )
        return False

    def length_mm(self, text: object, path: tuple[str | int, ...], *, zero: bool = False) -> float:
        """A length above zero, or zero too; 0 with a fault where it is none. [mm]"""
        try:
            found = parse_length_mm(str(text), default_unit="mm", field=str(path[-1]))
        except InputError as error:
            self.faults.extend(faults_for(self.document, path, error))
            return 0.0
        if found < 0 or (found == 0 and not zero):
            self.wrong(path, "not_positive", "must be above 0", "Measure it again.")
        return found

    def notes(self) -> BenchNotes:
        """The notes as far as they can be read."""
        data = self.document.data
        if not isinstance(data, dict):
            self.wrong((), "no_notes", f"must hold some of {', '.join(_FIELDS)}", "Write cut: and so on.")
            return BenchNotes()
        for name in data:
            if name not in (*_FIELDS, *BUILT_FIELDS):
                known = ", ".join((*_FIELDS, *BUILT_FIELDS))
                self.wrong((name,), "unknown_field", f"must be one of {known}", "Correct it.")
        cut, left = self._cut(), self._left()
        leave = self._leave()
        notes = BenchNotes(
            file=self.document.file,
            cut=cut,
            left=left,
            leave=leave,
            found=self._found(),
            pins=self._pins(),
            laid=self._laid(),
            bound=self._bound(),
        )
        begun = {c.board for c in cut}
        stays = {notes.root(x.board) for x in notes.laid}
        for board in sorted(begun & set(leave)):
            self.wrong(("leave",), "cut_and_left", f"must not name {board}, which is cut", "Take it out.")
        for rest in left:
            if rest.board not in begun:
                self.wrong(
                    ("left", rest.board), "not_begun", "must be a board under cut", "Write what was cut."
                )
        for pin in notes.pins:
            if pin.board in (begun - stays) | set(leave):
                self.wrong(
                    ("pin", pin.name), "board_not_free", "must be a board still whole", "Pin it elsewhere."
                )
        return replace(notes, gone=tuple((n, why) for n, why in self.gone.items() if n not in begun))

    def _laid(self) -> tuple[LaidBoard, ...]:
        found: list[LaidBoard] = []
        for board, line in self.block("laid").items():
            root = max((n for n in self.boards if board.startswith(f"{n} ")), key=len, default=board)
            if not self.board(root, ("laid", board)):
                continue
            try:
                found.append(read_laid(board, line))
            except InputError as error:
                self.faults.extend(faults_for(self.document, ("laid", board), error))
        return tuple(found)

    def _bound(self) -> tuple[float, str] | None:
        """What was proven of the layout that was kept: ``174.20 of 9f2c...``."""
        text = self.document.get(("bound",))
        match = _BOUND.fullmatch(str(text).strip()) if text is not None else None
        if text is not None and match is None:
            rule = "must be as the program wrote it"
            self.wrong(("bound",), "not_a_bound", rule, "Take the line out: the plan then proves one anew.")
        return (float(match["bound"]), match["asked"]) if match else None

    def _cut(self) -> tuple[CutPart, ...]:
        found: list[CutPart] = []
        for board, parts in self.block("cut").items():
            if not (self.may_go or self.board(board, ("cut", board))):
                continue
            listed = parts if isinstance(parts, list) else [parts]
            for number, part in enumerate(listed):
                path = ("cut", board, number) if isinstance(parts, list) else ("cut", board)
                if isinstance(part, dict) and len(part) == 1:
                    name, width = next(iter(part.items()))
                    found.append(
                        CutPart(name=str(name), board=board, width_mm=self.length_mm(width, (*path, name)))
                    )
                elif isinstance(part, str) and part.strip():
                    found.append(CutPart(name=part.strip(), board=board))
                else:
                    self.wrong(
                        path,
                        "not_a_part",
                        "must be a part, or a panel with the width of one strip",
                        "Write leg_1, or top: 132 mm.",
                    )
        return tuple(found)

    def _left(self) -> tuple[Left, ...]:
        found = []
        for board, size in self.block("left").items():
            match = _matched(_SIZE, str(size))
            if not self.board(board, ("left", board)):
                continue
            if match is None:
                self.wrong(("left", board), "not_a_size", "must be length x width", "Write 900 mm x 140 mm.")
                continue
            length, width = (self.length_mm(match[key], ("left", board)) for key in ("length", "width"))
            whole = self.boards[board]
            if length > whole.length_mm + 1 or width > max(whole.width_mm, whole.far_width_mm or 0.0) + 1:
                self.wrong(
                    ("left", board), "larger_than_board", "must be smaller than the board", "Measure again."
                )
            found.append(Left(board=board, length_mm=length, width_mm=width))
        return tuple(found)

    def _leave(self) -> tuple[str, ...]:
        found = self.document.get(("leave",))
        names = found if isinstance(found, list) else [] if found is None else [found]
        return tuple(str(n) for k, n in enumerate(names) if self.board(str(n), ("leave", k)))

    def _found(self) -> tuple[tuple[str, Defect], ...]:
        found: list[tuple[str, Defect]] = []
        for board, marks in self.block("found").items():
            if not self.board(board, ("found", board)):
                continue
            listed = marks if isinstance(marks, list) else str(marks).split(";")
            for number, mark in enumerate(listed):
                path = ("found", board, number) if isinstance(marks, list) else ("found", board)
                try:
                    found.append((board, read_defect(str(mark), unit="mm", board=self.boards[board])))
                except InputError as error:
                    self.faults.extend(faults_for(self.document, path, error))
        return tuple(found)

    def _pins(self) -> tuple[Pin, ...]:
        found = []
        for part, place in self.block("pin").items():
            match = _matched(_PLACE, "" if place is None else str(place))
            if match is None:
                rule = "must be a board, or BOARD at LENGTH"
                self.wrong(("pin", part), "not_a_place", rule, "Write C3, or C3 at 400 mm.")
                continue
            board = match["board"]
            if not self.board(board, ("pin", part)):
                continue
            at, up = (
                self.length_mm(match[key], ("pin", part), zero=True) if match[key] else None
                for key in ("at", "up")
            )
            found.append(Pin(name=part, board=board, at_mm=at, up_mm=up))
        return tuple(found)
