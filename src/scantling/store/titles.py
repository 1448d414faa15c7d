"""A piece is called what its file says: its name and the title that papers carry are one."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from sqlalchemy import Connection

from scantling.errors import ScantlingError
from scantling.reading import parse_on
from scantling.reading.nodes import source_of
from scantling.reading.putting import put
from scantling.store.content import Content
from scantling.store.pieces import PieceRecord, find_piece, rename, spare_name
from scantling.store.versions import content_at, save

__all__ = ["call", "following", "title_of", "titled"]

_LONGEST = 120
"""Characters a title may have. [1]"""


def title_of(content: Content) -> str:
    """The title in the piece file on one line; empty where none can be read."""
    try:
        title = parse_on(content.piece, file="piece.yaml").get(("title",))
    except ScantlingError:
        return ""
    return " ".join(str(title or "").split())


def titled(content: Content, name: str) -> Content:
    r"""The content with its piece file titled so; as it is where it cannot be.

    Examples
    --------
    >>> titled(Content(piece="title: Bench # mine\nparts: {}\n"), "Oak: one").piece
    'title: "Oak: one" # mine\nparts: {}\n'
    """
    told = title_of(content)
    if not told or told == name or len(name) > _LONGEST:
        return content
    try:
        return replace(content, piece=put(content.piece, ("title",), source_of(name, text=True)))
    except ScantlingError:
        return content


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


def following(records: Connection, before: PieceRecord, after: PieceRecord, *, now: datetime) -> PieceRecord:
    """The piece called as its file is titled now, where the title is another than before; ``after`` else.

    Parameters
    ----------
    records
        A transaction that writes.
    before, after
        The piece before and after it went to another version.
    now
        The time.
    """
    if before.current == after.current:
        return after
    old, new = (title_of(content_at(records, p.number, p.current)) for p in (before, after))
    if not new or new in {old, after.name}:
        return after
    rename(records, after.number, spare_name(records, new), now=now)
    return find_piece(records, after.number)
