"""What the routes that keep records stand on: the database, the clock, and the pieces looked at last."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from threading import Lock

from sqlalchemy import Connection

from scantling.errors import InputError, ScantlingError
from scantling.piece.built import Built
from scantling.plan.planner import Planner
from scantling.seasons.room import Room
from scantling.seasons.room_text import parse_room
from scantling.stock.racks.rack import Rack
from scantling.store.bench import BenchEvent, BenchKind
from scantling.store.bench_log import bench_events
from scantling.store.content import Content
from scantling.store.database import Database
from scantling.store.opening import open_records
from scantling.store.pieces import find_piece
from scantling.store.place import find_place
from scantling.store.profiles import ProfileKind, list_profiles, profile_text
from scantling.store.stock_log import stockroom
from scantling.store.versions import content_at
from scantling.web.designs.coalescing import Coalescing
from scantling.web.designs.designing import PieceDesigner
from scantling.web.designs.making import Making, built_from, standing
from scantling.web.designs.session import Session
from scantling.web.designs.sources import TextSources

__all__ = ["Desk", "desk_of"]

_LOOKED_AT, _DRAFTS = 16, 64
"""Pieces whose designs are kept at hand, and texts being written."""


class Desk:
    """The records, opened when they are first asked for.

    Parameters
    ----------
    opened
        Opens them.
    now
        The time.
    """

    def __init__(self, opened: Callable[[], Database], *, now: Callable[[], datetime]) -> None:
        self._open, self.now = opened, now
        self._database: Database | None = None
        self._sessions: OrderedDict[str, Session] = OrderedDict()
        self._drafts: OrderedDict[str, tuple[Content, int | None]] = OrderedDict()
        self._planner = Planner()
        self._pictures: Coalescing[str] = Coalescing()
        self._made: Coalescing[Built] = Coalescing()
        self._lock = Lock()

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """The records at one moment."""
        with self._records().reading() as records:
            yield records

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """One change of the records."""
        with self._records().writing() as records:
            yield records

    def _records(self) -> Database:
        with self._lock:
            if self._database is None:
                self._database = self._open()
            return self._database

    def session(self, content: Content, built: Built | None = None) -> Session:
        """The designs of a content, with what is made of it; the last ones asked for are kept at hand."""
        digest = f"{content.digest} {built or ''!r}"
        with self._lock:
            session = self._sessions.get(digest)
            if session is None:
                designer = PieceDesigner(
                    TextSources(content, stockroom=self.timber, built=built), planner=self._planner
                )
                session = Session(Path("piece.yaml"), designer=designer, text=content.piece)
            self._sessions[digest] = session
            self._sessions.move_to_end(digest)
            while len(self._sessions) > _LOOKED_AT:
                self._sessions.popitem(last=False)
        return session

    def rack(self) -> Rack:
        """The timber there is; raises ``stockroom_empty``."""
        with self.reading() as records:
            return stockroom(records).rack()

    def kept_rooms(self) -> dict[str, tuple[str, Callable[[], Room]]]:
        """The rooms that are kept, under the words a piece's seasons ask for them by."""
        with self.reading() as records:
            listed = [
                (one.number, one.name, profile_text(records, ProfileKind.ROOM, one.number))
                for one in list_profiles(records, ProfileKind.ROOM)
            ]
        return {f"kept {number}": (name, partial(parse_room, text)) for number, name, text in listed}

    def form_picture(self, content: Content) -> str:
        """A form as it stands, as SVG; drawn once."""
        from scantling.web.designs.shape_picture import shape_svg

        return self._pictures.answer(content.digest, lambda: shape_svg(self.session(content).shape({})))

    def timber(self) -> Rack | None:
        """The timber there is; None where there is none, so that a piece is planned with what to buy."""
        with self.reading() as records:
            room = stockroom(records)
        return room.rack() if room.present else None

    def session_of(self, piece: int) -> Session:
        """The designs of a piece as it stands, by what happened at its bench; ``unknown_piece``."""
        return self.session_now(piece)[0]

    def session_now(self, piece: int) -> tuple[Session, int]:
        """The designs of a piece as it stands, and the version that is; ``unknown_piece``."""
        with self.reading() as records:
            version = find_piece(records, piece).current
            content = content_at(records, piece, version)
            events = bench_events(records, piece)
        session = self.session(content, self.built(piece, events)) if events else self.session(content)
        return session, version

    def session_at(self, piece: int, version: int) -> Session:
        """The designs of a version, without the bench; ``unknown_piece``, ``unknown_version``."""
        with self.reading() as records:
            return self.session(content_at(records, piece, version))

    def session_for(self, piece: int, content: Content) -> Session:
        """The designs of what a piece may become, by what happened at its bench; ``unknown_piece``."""
        with self.reading() as records:
            find_piece(records, piece)
            events = bench_events(records, piece)
        return self.session(content, self.built(piece, events)) if events else self.session(content)

    def built(self, piece: int, events: tuple[BenchEvent, ...]) -> Built | None:
        """What is made of a piece after what happened at the bench; None where nothing is.

        Where a version it was made by cannot be planned any more, only what was measured counts.
        """
        told = standing(events)
        if not any(e.kind in (BenchKind.MEASURED, BenchKind.STEP_DONE) for e in told):
            return None

        def work() -> Built:
            try:
                return built_from(told, self._making(piece))
            except ScantlingError:
                return built_from(told, Making(fixed_by=lambda _: {}, sizes_of=lambda _, __: {}))

        return self._made.answer((piece, told), work) or None

    def _making(self, piece: int) -> Making:
        def session(version: int, built: Built | None = None) -> Session:
            with self.reading() as records:
                return self.session(content_at(records, piece, version), built or None)

        return Making(
            fixed_by=lambda version: session(version).sizes_fixed(),
            sizes_of=lambda version, built: session(version, built).sizes_mm(),
        )

    def lay_down(self, content: Content, piece: int | None = None) -> str:
        """Hold a text that is being written; its name, to ask for its designs.

        Parameters
        ----------
        content
            What is written.
        piece
            The piece it is written for, whose work at the bench then counts; None for none.
        """
        name = content.digest[:32] if piece is None else f"{content.digest[:32]}-{piece}"
        with self._lock:
            self._drafts[name] = content, piece
            self._drafts.move_to_end(name)
            while len(self._drafts) > _DRAFTS:
                self._drafts.popitem(last=False)
        return name

    def session_of_draft(self, name: str) -> Session:
        """The designs of a text that is being written.

        Raises
        ------
        InputError
            ``unknown_draft``: it was never laid down, or so long ago that it was put aside.
        """
        with self._lock:
            content, piece = self._drafts.get(name, (None, None))
        if content is None:
            raise InputError(
                code="unknown_draft",
                field="draft",
                value=name[:40],
                rule="must be a draft sent to this server, of the last that were",
                remedy="Send its text again.",
            )
        return self.session(content) if piece is None else self.session_for(piece, content)


def desk_of(environment: Mapping[str, str]) -> Desk:
    """The desk of whoever runs the program; his records are opened, and begun, when they are asked for.

    Parameters
    ----------
    environment
        Variables, which may name another place for the records.
    """
    return Desk(
        lambda: open_records(find_place(environment, home=Path.home())), now=lambda: datetime.now(UTC)
    )
