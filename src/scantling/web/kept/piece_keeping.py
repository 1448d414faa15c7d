"""A piece changed over the routes: read as it was looked at, changed, tried, kept as a version, told."""

from __future__ import annotations

from collections.abc import Callable

from sqlalchemy import Connection

from scantling.store.bench import bench_state
from scantling.store.bench_log import bench_events
from scantling.store.content import Content
from scantling.store.pieces import find_piece
from scantling.store.versions import content_at, save
from scantling.web.kept.desk import Desk
from scantling.web.sent.piece_bodies import PieceOpen, open_body

__all__ = ["keep_content", "keep_edited", "opened_piece"]

_LONGEST_WHY = 200
"""Characters of what a version is told to be for. [1]"""


def opened_piece(records: Connection, number: int) -> PieceOpen:
    """A piece with everything it is planned from; raises ``unknown_piece``."""
    piece, content = find_piece(records, number), content_at(records, number)
    return open_body(piece, bench_state(bench_events(records, number)), content)


def keep_content(desk: Desk, number: int, content: Content, *, parent: int, why: str) -> PieceOpen:
    """Keep a content as the next version of a piece; raises as :func:`scantling.store.versions.save`."""
    with desk.writing() as records:
        save(records, number, content, parent=parent, now=desk.now(), why=why[:_LONGEST_WHY])
        return opened_piece(records, number)


def keep_edited(
    desk: Desk, number: int, edit: Callable[[Content], Content], *, parent: int, why: str
) -> PieceOpen:
    """Keep an edited version as the next one; what cannot be drawn is refused and not kept.

    Parameters
    ----------
    desk
        Where the piece is kept.
    number
        Of the piece.
    edit
        Makes the new content of that of ``parent``.
    parent
        The version that was looked at.
    why
        What it is for.

    Raises
    ------
    FileFaults, InputError
        What ``edit`` raises, what keeps it from being drawn, and as :func:`keep_content`.
    """
    with desk.reading() as records:
        content = content_at(records, number, parent)
    fresh = edit(content)
    desk.session(fresh).shape({})
    return keep_content(desk, number, fresh, parent=parent, why=why)
