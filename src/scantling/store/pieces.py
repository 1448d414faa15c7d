"""Pieces: their names, and which of their versions is the current one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, func, select, update

from scantling.errors import InputError
from scantling.store.tables import PIECES, VERSIONS

__all__ = [
    "PieceRecord",
    "bounded",
    "find_piece",
    "free_name",
    "list_pieces",
    "locked_piece",
    "put_away",
    "rename",
    "spare_name",
    "take_out",
]

_LONGEST_NAME = 200
"""Characters. [1]"""
_NUMBERS = 2**31
"""No database counts as far as this. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceRecord:
    """A piece as it is kept.

    Parameters
    ----------
    number
        Its number, never given to another.
    current
        Number of the version it is at.
    undo, redo
        Version a step back and a step forward lead to; None where there is none.
    digest
        Of the current version's content.
    versions
        How many there are.
    put_away_at
        When it was put away; None for a piece on the list.
    """

    number: int
    name: str
    begun_at: datetime
    changed_at: datetime
    current: int
    undo: int | None
    redo: int | None
    digest: str
    versions: int
    put_away_at: datetime | None = None


def list_pieces(records: Connection, *, put_away: bool = False) -> tuple[PieceRecord, ...]:
    """The pieces, last changed first; those put away are another list."""
    kept = PIECES.c.put_away_at.is_not(None) if put_away else PIECES.c.put_away_at.is_(None)
    rows = records.execute(_PIECES.where(kept).order_by(PIECES.c.changed_at.desc(), PIECES.c.id.desc()))
    return tuple(_piece(row) for row in rows)


def find_piece(records: Connection, number: int) -> PieceRecord:
    """A piece.

    Raises
    ------
    InputError
        ``unknown_piece``.
    """
    asked = number if 0 < number < _NUMBERS else 0
    row = records.execute(_PIECES.where(PIECES.c.id == asked)).one_or_none()
    if row is None:
        raise InputError(
            code="unknown_piece",
            field="piece",
            value=str(number),
            rule="must be the number of a piece that is kept",
            remedy="Look at the list of pieces.",
        )
    return _piece(row)


def locked_piece(records: Connection, number: int) -> PieceRecord:
    """A piece that nobody else changes until the transaction ends; raises as :func:`find_piece`."""
    records.execute(select(PIECES.c.id).where(PIECES.c.id == number).with_for_update())
    return find_piece(records, number)


def free_name(records: Connection, name: str) -> str:
    """A name as it may be given to a piece.

    Raises
    ------
    InputError
        ``name_missing``, ``too_long``, ``name_taken``.
    """
    name = bounded(" ".join(name.split()), "name", _LONGEST_NAME)
    if not name:
        raise InputError(
            code="name_missing",
            field="name",
            value="nothing",
            rule="must say something",
            remedy="Call the piece what you would call it at the bench.",
        )
    if name != (spare := spare_name(records, name)):
        raise InputError(
            code="name_taken",
            field="name",
            value=name,
            rule="must be no other piece's, also none that is put away",
            remedy=f"Call it {spare}, for example.",
        )
    return name


def spare_name(records: Connection, name: str, *, number: int = 0) -> str:
    """A name, with a number behind it where another piece has it than the one of that number."""
    others = PIECES.c.name.startswith(name, autoescape=True) & (PIECES.c.id != number)
    taken = set(records.execute(select(PIECES.c.name).where(others)).scalars())
    numbered = (f"{name} {number}" for number in range(2, len(taken) + 3))
    return next(one for one in (name, *numbered) if one not in taken)


def bounded(text: str, field: str, most: int) -> str:
    """A text of a bounded length; ``too_long``, ``not_text``."""
    if len(text) > most:
        raise InputError(
            code="too_long",
            field=field,
            value=f"{text[:20]}... ({len(text)} characters)",
            rule=f"must have at most {most} characters",
            remedy="Say it shorter.",
        )
    if any(ord(sign) < 32 or 0xD800 <= ord(sign) <= 0xDFFF for sign in text):
        raise InputError(
            code="not_text",
            field=field,
            value=repr(text[:40]),
            rule="must be plain text on one line",
            remedy="Leave out line ends and control characters.",
        )
    return text


def rename(records: Connection, number: int, name: str, *, now: datetime) -> PieceRecord:
    """Call a piece something else; ``name_taken``, ``bad_name``, ``unknown_piece``."""
    piece = locked_piece(records, number)
    if name.strip() != piece.name:
        values = {"name": free_name(records, name), "changed_at": now}
        records.execute(update(PIECES).where(PIECES.c.id == number).values(**values))
    return find_piece(records, number)


def put_away(records: Connection, number: int, *, now: datetime) -> PieceRecord:
    """Take a piece off the list; everything of it stays."""
    locked_piece(records, number)
    records.execute(update(PIECES).where(PIECES.c.id == number).values(put_away_at=now))
    return find_piece(records, number)


def take_out(records: Connection, number: int) -> PieceRecord:
    """Put a piece back on the list."""
    locked_piece(records, number)
    records.execute(update(PIECES).where(PIECES.c.id == number).values(put_away_at=None))
    return find_piece(records, number)


_COUNT = select(func.count()).where(VERSIONS.c.piece_id == PIECES.c.id).correlate(PIECES).scalar_subquery()
_PIECES = select(
    PIECES, VERSIONS.c.parent, VERSIONS.c.forward, VERSIONS.c.digest, _COUNT.label("versions")
).join(VERSIONS, (VERSIONS.c.piece_id == PIECES.c.id) & (VERSIONS.c.number == PIECES.c.current))


def _piece(row: Row[Any]) -> PieceRecord:
    return PieceRecord(
        number=row.id,
        name=row.name,
        begun_at=row.begun_at,
        changed_at=row.changed_at,
        current=row.current,
        undo=row.parent,
        redo=row.forward,
        digest=row.digest,
        versions=row.versions,
        put_away_at=row.put_away_at,
    )
