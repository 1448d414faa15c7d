"""Versions of a piece: saved, gone back and forth along, brought back; each function within one transaction.

Going back and forth moves which version is the current one; what is saved next is made from there. So nothing
is ever written over, and there is no end to going back. Whichever way it comes to a version whose file is
titled otherwise, the piece is called so.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, func, insert, select, update

from scantling.errors import InputError
from scantling.store.content import Content
from scantling.store.pieces import (
    PieceRecord,
    bounded,
    find_piece,
    free_name,
    locked_piece,
    rename,
    spare_name,
)
from scantling.store.stale import MovedOnError, StaleParentError, merge_contents
from scantling.store.tables import PIECES, VERSIONS
from scantling.store.texts import columns_of, content_of, keep_bench
from scantling.store.titles import named_anew, titled

__all__ = [
    "VersionRecord",
    "begin_piece",
    "call",
    "content_at",
    "find_version",
    "list_versions",
    "must_be_current",
    "redo",
    "restore",
    "save",
    "undo",
]

_LONGEST_WHY = 500
"""Characters. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionRecord:
    """One version.

    Parameters
    ----------
    parent
        The version it was made from; None for the first.
    restores
        The older version it brought back, if it did.
    why
        What it was made for, in the maker's words.
    """

    number: int
    parent: int | None
    restores: int | None
    made_at: datetime
    why: str
    digest: str


def list_versions(records: Connection, number: int) -> tuple[VersionRecord, ...]:
    """Every version of a piece, the newest first; raises as :func:`find_piece`."""
    find_piece(records, number)
    rows = records.execute(
        select(VERSIONS).where(VERSIONS.c.piece_id == number).order_by(VERSIONS.c.number.desc())
    )
    return tuple(_version(row) for row in rows)


def content_at(records: Connection, number: int, version: int | None = None) -> Content:
    """What a version holds; the current one if left out.

    Raises
    ------
    InputError
        ``unknown_piece``, ``unknown_version``.
    """
    piece = find_piece(records, number)
    return content_of(records, _row(records, number, piece.current if version is None else version))


def begin_piece(
    records: Connection, name: str, content: Content, *, now: datetime, why: str = "Begun"
) -> PieceRecord:
    """Keep a new piece, with its first version.

    Parameters
    ----------
    records
        A transaction that writes.
    name
        What it is called; no other piece may be.
    content
        Its first version.
    now
        The time.
    why
        What it was made for.

    Raises
    ------
    InputError
        ``name_taken``, ``bad_name``, ``too_long``.
    """
    called = free_name(records, name)
    made = records.execute(insert(PIECES).values(name=called, begun_at=now, changed_at=now, current=1))
    (number,) = made.inserted_primary_key or (0,)
    _add(records, number, content, why=why, now=now, number=1, parent=None)
    return find_piece(records, number)


def call(records: Connection, number: int, name: str, *, now: datetime) -> PieceRecord:
    """Call a piece something else, and title its file so, as a version.

    Parameters
    ----------
    records
        A transaction that writes.
    number
        Of the piece.
    name
        What it is to be called.
    now
        The time.

    Raises
    ------
    InputError
        As :func:`scantling.store.pieces.rename`.
    """
    piece = rename(records, number, name, now=now)
    fresh = titled(content_at(records, number), piece.name)
    return save(records, number, fresh, parent=piece.current, now=now, why=f"Called {piece.name}"[:200])


def save(
    records: Connection, number: int, content: Content, *, parent: int, now: datetime, why: str = ""
) -> PieceRecord:
    """Keep a new version, made from another; a content that is as it was makes none.

    Parameters
    ----------
    records
        A transaction that writes.
    number
        Of the piece.
    content
        What is to be kept.
    parent
        The version it was made from, which must still be the current one.
    now
        The time.
    why
        What it was made for.

    Raises
    ------
    StaleParentError
        Another version has been saved since, with both and a proposal that brings them together.
    InputError
        ``unknown_piece``, ``unknown_version``, ``too_long``.
    """
    piece = locked_piece(records, number)
    must_be_current(records, number, content, parent=parent)
    if content.digest == piece.digest:
        return piece
    return _step(records, piece, content, why=why, now=now)


def must_be_current(records: Connection, number: int, content: Content, *, parent: int) -> None:
    """Refuse what was made from another version than the current one; nothing is kept either way.

    Parameters
    ----------
    records
        A transaction.
    number
        Of the piece.
    content
        What was made.
    parent
        The version it was made from.

    Raises
    ------
    StaleParentError, InputError
        As :func:`save`.
    """
    current = find_piece(records, number).current
    row = _row(records, number, parent)
    if parent == current:
        return
    old, theirs = content_of(records, row), content_at(records, number)
    raise StaleParentError(
        parent=parent,
        current=current,
        old=old,
        theirs=theirs,
        yours=content,
        merged=merge_contents(old, theirs, content),
    )


def restore(
    records: Connection, number: int, version: int, *, parent: int, now: datetime, why: str = ""
) -> PieceRecord:
    """Bring an older version back, as a new one; raises as :func:`save`."""
    content = content_at(records, number, version)
    piece = _unmoved(records, number, parent)
    if content.digest == piece.digest:
        return piece
    told = why or f"Version {version} again"
    return _step(records, piece, content, why=told, now=now, restores=version)


def undo(records: Connection, number: int, *, parent: int, now: datetime) -> PieceRecord:
    """Go back to the version the current one was made from.

    Parameters
    ----------
    records
        A transaction that writes.
    number
        Of the piece.
    parent
        The version that is thought to be the current one.
    now
        The time.

    Raises
    ------
    InputError
        ``nothing_to_undo``, ``moved_on`` where another version is the current one, ``unknown_piece``.
    """
    piece = _unmoved(records, number, parent)
    if piece.undo is None:
        raise _end("nothing_to_undo", piece, "must have a version before it", "It is at its first version.")
    back = (VERSIONS.c.piece_id == number) & (VERSIONS.c.number == piece.undo)
    records.execute(update(VERSIONS).where(back).values(forward=piece.current))
    return _at(records, piece, piece.undo, now)


def redo(records: Connection, number: int, *, parent: int, now: datetime) -> PieceRecord:
    """Go forward again to where an undo came from; ``nothing_to_redo``, else raises as :func:`undo`."""
    piece = _unmoved(records, number, parent)
    if piece.redo is None:
        raise _end("nothing_to_redo", piece, "must have been gone back from", "Nothing was undone here.")
    return _at(records, piece, piece.redo, now)


def _add(
    records: Connection, piece: int, content: Content, *, why: str, now: datetime, **links: int | None
) -> None:
    """Add the row of a version."""
    columns = columns_of(records, content)
    told = bounded(why.strip(), "why", _LONGEST_WHY)
    records.execute(insert(VERSIONS).values(piece_id=piece, made_at=now, why=told, **links, **columns))
    keep_bench(records, content, piece=piece, number=int(links["number"] or 0))


def _step(
    records: Connection,
    piece: PieceRecord,
    content: Content,
    *,
    why: str,
    now: datetime,
    restores: int | None = None,
) -> PieceRecord:
    """Add a version after the current one, and go there."""
    greatest = select(func.max(VERSIONS.c.number)).where(VERSIONS.c.piece_id == piece.number)
    number = int(records.execute(greatest).scalar_one()) + 1
    links = {"number": number, "parent": piece.current, "restores": restores}
    _add(records, piece.number, content, why=why, now=now, **links)
    return _at(records, piece, number, now)


def _at(records: Connection, piece: PieceRecord, number: int, now: datetime) -> PieceRecord:
    """Make a version the current one; where its file is titled otherwise, call the piece so."""
    before, after = (content_at(records, piece.number, n).piece for n in (piece.current, number))
    title = named_anew(before, after, "title")
    name = spare_name(records, title, number=piece.number) if title else piece.name
    values = {"current": number, "changed_at": now, "name": name}
    records.execute(update(PIECES).where(PIECES.c.id == piece.number).values(**values))
    return find_piece(records, piece.number)


def _unmoved(records: Connection, number: int, parent: int) -> PieceRecord:
    piece = locked_piece(records, number)
    if parent != piece.current:
        remedy = "Somebody has saved or stepped since: look at it as it is now."
        raise MovedOnError(parent=parent, current=piece.current, remedy=remedy)
    return piece


def find_version(records: Connection, piece: int, number: int) -> VersionRecord:
    """A version of a piece; raises ``unknown_version``."""
    return _version(_row(records, piece, number))


def _row(records: Connection, piece: int, number: int) -> Row[Any]:
    asked = number if 0 < number < 2**31 else 0
    row = records.execute(
        select(VERSIONS).where(VERSIONS.c.piece_id == piece, VERSIONS.c.number == asked)
    ).one_or_none()
    if row is None:
        raise InputError(
            code="unknown_version",
            field="version",
            value=str(number),
            rule="must be the number of a version of this piece",
            remedy="Look at the list of its versions.",
        )
    return row


def _end(code: str, piece: PieceRecord, rule: str, remedy: str) -> InputError:
    return InputError(code=code, field="version", value=f"version {piece.current}", rule=rule, remedy=remedy)


def _version(row: Row[Any]) -> VersionRecord:
    return VersionRecord(
        number=row.number,
        parent=row.parent,
        restores=row.restores,
        made_at=row.made_at,
        why=row.why,
        digest=row.digest,
    )
