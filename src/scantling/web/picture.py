"""The small picture of a piece on the list: drawn once for a content, then kept with the records."""

from __future__ import annotations

from sqlalchemy import delete, select

from scantling import __version__
from scantling.papers.drawing.svg import Inking, to_svg
from scantling.papers.pages.view_pages import piece_picture
from scantling.papers.piece_views import draw_picture
from scantling.solids.exact import exact_parts
from scantling.store.tables import PICTURES
from scantling.store.texts import insert_new
from scantling.store.versions import content_at
from scantling.web.designing import Shape
from scantling.web.desk import Desk

__all__ = ["picture_of", "shape_svg"]

_ROOM_MM, _HEIGHT_MM = 80.0, 60.0


def shape_svg(shape: Shape) -> str:
    """A shape as it stands, as SVG in the page's inks."""
    picture = piece_picture(shape.piece.title, shape.shapes, exact_parts(shape.shapes))
    return to_svg(draw_picture(picture, room_mm=_ROOM_MM, height_mm=_HEIGHT_MM), inking=Inking.PAGE)


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
