"""Where the notes of the page of the boards are kept: with the versions of a piece, or beside a file."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path
from threading import RLock
from typing import Literal, Protocol

from scantling.errors import InputError
from scantling.plan.planner import Planner
from scantling.reading import read_text
from scantling.stock.racks.rack import Rack
from scantling.store.content import Attached
from scantling.store.merging import merge_texts
from scantling.store.pieces import find_piece
from scantling.store.stale import MovedOnError
from scantling.store.versions import content_at, redo, save, undo
from scantling.web.designs.designing import PieceDesigner
from scantling.web.designs.session import Session
from scantling.web.designs.sources import FileSources, with_notes
from scantling.web.kept.desk import Desk
from scantling.web.sent.board_views import NotesView

__all__ = ["FileNotes", "NotesKeeper", "PieceNotes"]

_NAME = "boards.bench.yaml"
_SESSIONS = 8
Way = Literal["undo", "redo"]


class NotesKeeper(Protocol):
    """Keeps the notes of one piece, a step at a time."""

    def look(self, said: str = "") -> NotesView:
        """The notes as they stand."""
        ...

    def session(self) -> Session:
        """The designs of the piece with these notes."""
        ...

    @property
    def boards_go(self) -> bool:
        """Whether boards may have left the rack since something was noted about them."""
        ...

    def keep(self, text: str, *, parent: int, why: str) -> NotesView:
        """Keep a text as the next step; raises MovedOnError where another was kept since ``parent``."""
        ...

    def step(self, way: Way, *, parent: int) -> NotesView:
        """A step back or forth."""
        ...

    def write(self, *, parent: int) -> NotesView:
        """Write notes that are not kept already: beside the rack file, or the piece with a stockroom rack."""
        ...


class PieceNotes:
    """The notes of a piece that is kept: every mark is a version.

    Parameters
    ----------
    desk
        The records.
    number
        Of the piece.
    """

    def __init__(self, desk: Desk, number: int) -> None:
        self._desk, self._number = desk, number

    def look(self, said: str = "") -> NotesView:
        """The notes of the current version."""
        with self._desk.reading() as records:
            piece, content = find_piece(records, self._number), content_at(records, self._number)
        notes = content.bench
        return NotesView(
            parent=piece.current,
            text="" if notes is None else notes.text or "",
            name=_NAME if notes is None else notes.name,
            undo=piece.undo is not None,
            redo=piece.redo is not None,
            kept="version",
            written=True,
            place="",
            said=said,
        )

    def session(self) -> Session:
        """The designs of the current version."""
        return self._desk.session_of(self._number)

    @property
    def boards_go(self) -> bool:
        """Whether the rack is the stockroom."""
        with self._desk.reading() as records:
            rack = content_at(records, self._number).rack
        return rack is not None and rack.text is None

    def keep(self, text: str, *, parent: int, why: str) -> NotesView:
        """A version more."""
        with self._desk.writing() as records:
            content = content_at(records, self._number, parent)
            name = content.bench.name if content.bench else _NAME
            bench = Attached(name=name, text=text) if text.strip() else None
            fresh = replace(content, bench=bench)
            save(records, self._number, fresh, parent=parent, now=self._desk.now(), why=why[:200])
        return self.look(why)

    def step(self, way: Way, *, parent: int) -> NotesView:
        """A version back or forth."""
        with self._desk.writing() as records:
            (undo if way == "undo" else redo)(records, self._number, parent=parent, now=self._desk.now())
        return self.look("Undone." if way == "undo" else "Done again.")

    def write(self, *, parent: int) -> NotesView:
        """They are kept already."""
        return self.look("Kept with the piece.")


class FileNotes:
    """The notes in a file: every mark is held here, and written when that is asked for.

    The file lies beside the rack file, or beside the piece where the rack is the stockroom.

    Parameters
    ----------
    piece
        The piece file.
    sources
        The files.
    planner
        Plans the piece with these notes; one of its own if not given.
    first
        Number of the first step: another in each run of the program, so that a page that looked at an earlier
        one is known by what it was made from.
    """

    def __init__(
        self, piece: Path, sources: FileSources, *, planner: Planner | None = None, first: int = 0
    ) -> None:
        self._piece, self._sources, self._first = piece, sources, first
        self._planner, self._lock = planner or Planner(), RLock()
        self._steps: list[str] = []
        self._at, self._parent, self._base = 0, first, ""
        self._sessions: dict[str, Session] = {}
        self._opened = False

    @property
    def _text(self) -> str:
        return self._steps[self._at]

    def look(self, said: str = "") -> NotesView:
        """The notes as they stand, the file read anew where nobody has marked anything since."""
        with self._lock:
            said = self._heed_file() or said
            place = self._sources.notes_place()
            return NotesView(
                parent=self._parent,
                text=self._text,
                name=_NAME if place is None else place.name,
                undo=self._at > 0,
                redo=self._at < len(self._steps) - 1,
                kept="nowhere" if place is None else "file",
                written=self._text == self._base,
                place="" if place is None else place.name,
                said=said,
                run=self._first,
                held=self._held(place),
            )

    def session(self) -> Session:
        """The designs with the notes as they are marked, written or not."""
        with self._lock:
            self._heed_file()
            text = self._text
            key = hashlib.sha256(text.encode()).hexdigest()
            if key not in self._sessions:
                marked = _Marked(self._sources, text)
                designer = PieceDesigner(marked, planner=self._planner)
                self._sessions[key] = Session(self._piece, designer=designer)
                while len(self._sessions) > _SESSIONS:
                    self._sessions.pop(next(iter(self._sessions)))
            return self._sessions[key]

    @property
    def boards_go(self) -> bool:
        """Whether the rack is the stockroom."""
        return self._sources.from_stockroom

    def keep(self, text: str, *, parent: int, why: str) -> NotesView:
        """A step more; those gone back from are dropped."""
        with self._lock:
            self._unmoved(parent)
            if text != self._text:
                self._go([*self._steps[: self._at + 1], text], self._at + 1)
            return self.look(why)

    def step(self, way: Way, *, parent: int) -> NotesView:
        """A step back or forth."""
        with self._lock:
            self._unmoved(parent)
            at = self._at + (-1 if way == "undo" else 1)
            if not 0 <= at < len(self._steps):
                raise InputError(
                    code=f"nothing_to_{way}",
                    field="notes",
                    value=f"step {self._at}",
                    rule="must have a step there",
                    remedy="Nothing was marked before this." if way == "undo" else "Nothing was undone here.",
                )
            self._go(self._steps, at)
            return self.look("Undone." if way == "undo" else "Done again.")

    def write(self, *, parent: int) -> NotesView:
        """Write the notes to their file, unless it has changed since they were begun."""
        with self._lock:
            self._unmoved(parent)
            self._heed_file()
            place = self._sources.notes_place()
            if place is None:
                raise InputError(
                    code="no_place",
                    field="notes",
                    value="no rack",
                    rule="must have a rack to be notes of",
                    remedy="Save the notes as a file instead.",
                )
            if _on_disk(place) != self._base:
                raise _changed(place)
            _write(place, self._text)
            self._base = self._text
            return self.look(f"Written to {place.name}." if self._text else f"{place.name} is taken away.")

    def _held(self, place: Path | None) -> str:
        """A name for what these notes are about that does not tell where it is."""
        about = f"{self._piece.resolve()} {'' if place is None else place.resolve()}"
        return hashlib.sha256(about.encode()).hexdigest()[:16]

    def _go(self, steps: list[str], at: int) -> None:
        self._steps, self._at, self._parent = steps, at, self._parent + 1

    def _unmoved(self, parent: int) -> None:
        self._heed_file()
        if not self._first <= parent <= self._parent:
            raise InputError(
                code="begun_anew",
                field="parent",
                value=f"step {parent}",
                rule="must be a step of this run of the program, which was started anew",
                remedy="Look at the boards as they are now: what was never written can be taken up again.",
            )
        if parent != self._parent:
            remedy = "Somebody has marked something since: look at it as it is now."
            raise MovedOnError(parent=parent, current=self._parent, remedy=remedy)

    def _heed_file(self) -> str:
        """Take up what has been written to the file since; what is marked and not written stays."""
        place = self._sources.notes_place()
        there = "" if place is None else _on_disk(place)
        if not self._opened:
            self._steps, self._base, self._opened = [there], there, True
            return ""
        if there == self._base:
            return ""
        if self._text == self._base:
            self._base = there
            self._go([*self._steps[: self._at + 1], there], self._at + 1)
            return "The file has changed, and is read anew."
        merged = merge_texts(self._base, there, self._text)
        if merged.text is None:
            return ""
        self._base = there
        self._go([*self._steps[: self._at + 1], merged.text], self._at + 1)
        return "The file has changed meanwhile: both changes are in these notes."


class _Marked:
    """The files of a piece, with other notes."""

    def __init__(self, sources: FileSources, text: str) -> None:
        self._sources, self._text_marked = sources, text
        self.piece, self.shop, self.room = sources.piece, sources.shop, sources.room
        self._digest = hashlib.sha256(text.encode()).hexdigest()

    def key(self) -> str:
        """Key of files and notes."""
        return f"{self._sources.key()} {self._digest}"

    def setting_key(self) -> str:
        """Key of what is beside the piece."""
        return f"{self._sources.setting_key()} {self._digest}"

    def rack(self) -> Rack | None:
        """The rack with these notes."""
        rack = self._sources.bare_rack()
        if rack is None:
            return None
        return with_notes(
            rack, Attached(name=_NAME, text=self._text_marked), gone=self._sources.from_stockroom
        )

    def notes(self) -> Attached | None:
        """These notes."""
        return Attached(name=_NAME, text=self._text_marked)


def _on_disk(place: Path) -> str:
    return read_text(place) if place.is_file() and place.stat().st_size else ""


def _changed(place: Path) -> InputError:
    return InputError(
        code="file_changed",
        field="notes",
        value=place.name,
        rule="must be as it was when these marks were begun from it",
        remedy="Save the notes as a file, and bring the two together by hand.",
    )


def _write(place: Path, text: str) -> None:
    """The file whole or not at all; notes with nothing in them are no file."""
    beside = place.with_name(f".{place.name}.part")
    try:
        if not text:
            place.unlink(missing_ok=True)
            return
        beside.write_text(text, encoding="utf-8")
        beside.replace(place)
    except OSError as error:
        raise InputError(
            code="cannot_write",
            field="notes",
            value=(error.strerror or str(error)).lower(),
            rule=f"must be written to {place.name}, and cannot be",
            remedy="Save the notes as a file instead.",
        ) from error
