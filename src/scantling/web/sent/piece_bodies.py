"""Pieces and versions as they are sent."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from scantling.piece.forms import forms
from scantling.store.bench import BenchState
from scantling.store.content import Content
from scantling.store.pieces import PieceRecord
from scantling.store.versions import VersionRecord
from scantling.web.sent.bodies import Body, ContentBody, Word
from scantling.web.sent.choice import Choice
from scantling.web.sent.numbers import Number

__all__ = [
    "BEGUN_FROM",
    "PieceBody",
    "PieceChange",
    "PieceList",
    "PieceNew",
    "PieceOpen",
    "PieceState",
    "Restoring",
    "Stepping",
    "VersionBody",
    "VersionList",
    "VersionNew",
    "VersionOpen",
    "open_body",
    "piece_body",
]

BEGUN_FROM = "Begun from the form "
"""What the first version of a piece says before the title of its form."""

Why = Annotated[str, Field(max_length=500)]


class PieceState(StrEnum):
    """How far a piece is."""

    DRAWN = "drawn"
    BEGUN = "begun"
    FINISHED = "finished"
    PUT_AWAY = "put away"


class PieceBody(Body):
    """A piece on the list.

    `undo` and `redo` are the versions a step leads to; `picture` is an address that changes with the content.
    """

    number: int
    name: str
    state: PieceState
    steps_done: int
    begun_at: datetime
    changed_at: datetime
    version: int
    versions: int
    undo: int | None
    redo: int | None
    picture: str


class PieceList(Body):
    """Pieces, last changed first."""

    pieces: list[PieceBody]


class PieceOpen(Body):
    """A piece with its current content."""

    piece: PieceBody
    content: ContentBody


class PieceNew(Body):
    """A piece to begin: from a form by its name, or from a content.

    Without a name it takes the title in the file, with a number where that is taken. `planned_for` names
    the shop and the room, where they are not those of the content.
    """

    name: Word | None = None
    form: Word | None = None
    content: ContentBody | None = None
    planned_for: Annotated[tuple[Choice, ...], Field(max_length=2)] = ()
    why: Why = ""


class PieceChange(Body):
    """What is to be otherwise with a piece; what is left out stays."""

    name: Word | None = None
    put_away: bool | None = None


class VersionNew(Body):
    """A version to save: its content, and the version it was made from."""

    content: ContentBody
    parent: Number
    why: Why = ""


class Stepping(Body):
    """A step back or forth from the version thought to be the current one."""

    parent: Number


class Restoring(Body):
    """An older version to bring back as a new one."""

    version: Number
    parent: Number
    why: Why = ""


class VersionBody(Body):
    """One version; `parent` is what it was made from, `restores` the older one it brought back."""

    number: int
    parent: int | None
    restores: int | None
    made_at: datetime
    why: str
    current: bool
    picture: str

    @classmethod
    def of(cls, version: VersionRecord, piece: PieceRecord) -> VersionBody:
        """As it is sent."""
        return cls(
            number=version.number,
            parent=version.parent,
            restores=version.restores,
            made_at=version.made_at,
            why=_why_shown(version.why),
            current=version.number == piece.current,
            picture=_picture(piece.number, version.number, version.digest),
        )


def _why_shown(why: str) -> str:
    """Why a version was made; records begun earlier tell the form by the name of its file."""
    form = why.removeprefix(BEGUN_FROM)
    if form == why or not form.islower():  # a title begins with a capital
        return why
    return BEGUN_FROM + next((each.title for each in forms() if each.name == form), form)


class VersionList(Body):
    """Every version of a piece, the newest first."""

    versions: list[VersionBody]


class VersionOpen(Body):
    """A version with its content."""

    version: VersionBody
    content: ContentBody


def piece_body(piece: PieceRecord, bench: BenchState | None) -> PieceBody:
    """A piece as it is sent.

    Parameters
    ----------
    piece
        As it is kept.
    bench
        How things stand at the bench; None where nothing has happened.
    """
    return PieceBody(
        number=piece.number,
        name=piece.name,
        state=_state(piece, bench),
        steps_done=0 if bench is None else len(bench.done),
        begun_at=piece.begun_at,
        changed_at=piece.changed_at,
        version=piece.current,
        versions=piece.versions,
        undo=piece.undo,
        redo=piece.redo,
        picture=_picture(piece.number, piece.current, piece.digest),
    )


def open_body(piece: PieceRecord, bench: BenchState, content: Content) -> PieceOpen:
    """A piece with its content, as it is sent."""
    return PieceOpen(piece=piece_body(piece, bench), content=ContentBody.of(content))


def _state(piece: PieceRecord, bench: BenchState | None) -> PieceState:
    if piece.put_away_at is not None:
        return PieceState.PUT_AWAY
    if bench is None or not (bench.begun or bench.finished_at):
        return PieceState.DRAWN
    return PieceState.BEGUN if bench.finished_at is None else PieceState.FINISHED


def _picture(piece: int, version: int, digest: str) -> str:
    return f"/api/pieces/{piece}/versions/{version}/picture.svg?of={digest[:12]}"
