"""A shape as it stands, as a small picture."""

from __future__ import annotations

from scantling.papers.drawing.svg import Inking, to_svg
from scantling.papers.marking.piece_views import draw_picture
from scantling.papers.pages.view_pages import piece_picture
from scantling.solids.exact import exact_parts
from scantling.web.designs.designing import Shape

__all__ = ["shape_svg"]

_ROOM_MM, _HEIGHT_MM = 80.0, 60.0


def shape_svg(shape: Shape) -> str:
    """A shape as it stands, as SVG in the page's inks."""
    picture = piece_picture(shape.piece.title, shape.shapes, exact_parts(shape.shapes))
    return to_svg(draw_picture(picture, room_mm=_ROOM_MM, height_mm=_HEIGHT_MM), inking=Inking.PAGE)
