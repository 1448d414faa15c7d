"""The small picture of a piece on the list: drawn once for a content, then kept with the records."""

from __future__ import annotations

from sqlalchemy import delete, select

from scantling import __version__
from scantling.store.tables import PICTURES
from scantling.store.texts import insert_new
from scantling.store.versions import content_at
from scantling.web.designs.shape_picture import shape_svg
from scantling.web.kept.desk import Desk

__all__ = ["picture_of"]


def picture_of(desk: Desk, piece: int, version: int) -> str:
    """The picture of a version; one drawn by another release of the program is drawn anew.

    Raises
    ------
    FileFaults, InputError
        What is wrong with the piece; ``unknown_piece``, ``unknown_version``.
    """
    with desk.reading() as records:
        content = content_at(records, piece, version)
        kept = records.execute(select(PICTURES).where(PICTURES.c.digest == content.digest)).one_or_none()
    if kept is not None and kept.made_by == __version__:
        return str(kept.svg)
    drawn = shape_svg(desk.session(content).shape({}))
    with desk.writing() as records:
        records.execute(delete(PICTURES).where(PICTURES.c.digest == content.digest))
        row = {"digest": content.digest, "made_by": __version__, "svg": drawn}
        insert_new(records, PICTURES, [row])
    return drawn
