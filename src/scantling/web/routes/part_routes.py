"""A part added to a piece: what can be said of it, tried in the picture, kept as a version."""

from __future__ import annotations

from fastapi import APIRouter

from scantling.errors import FileFaults
from scantling.papers.words.naming import label_of
from scantling.piece.adding import Way
from scantling.piece.model import PartKind
from scantling.store.content import Content
from scantling.store.pieces import find_piece
from scantling.store.versions import content_at
from scantling.web.kept.desk import Desk
from scantling.web.kept.part_drawing import drawn_part, tried_part
from scantling.web.kept.piece_keeping import keep_edited
from scantling.web.sent.bodies import MOVED, REFUSALS
from scantling.web.sent.numbers import PieceNumber
from scantling.web.sent.part_bodies import ChoiceBody, PartChoices, PartNew, PartTried
from scantling.web.sent.piece_bodies import PieceOpen
from scantling.wood.sheets import all_sheets
from scantling.wood.species import all_species

__all__ = ["part_routes"]

_KINDS = {
    PartKind.STICK: "stick",
    PartKind.PANEL: "panel, glued from strips",
    PartKind.LAMINATION: "lamination, glued from layers",
    PartKind.SHEET: "sheet, such as plywood",
}
_WAYS = {
    Way.BETWEEN: "between two faces",
    Way.ON: "on or against a face",
    Way.POINTS: "from point to point",
    Way.MIDDLE: "about its middle",
}


def part_routes(desk: Desk) -> APIRouter:
    """Routes below a piece, for a new part.

    Parameters
    ----------
    desk
        Where it is kept.
    """
    routes = APIRouter(tags=["entries"], responses=REFUSALS)

    @routes.get("/parts/choices")
    def list_choices(number: PieceNumber) -> PartChoices:
        """What a new part of a piece can be, of what, and where."""
        with desk.reading() as records:
            find_piece(records, number)
        return PartChoices(
            kinds=[ChoiceBody(value=kind.value, label=label) for kind, label in _KINDS.items()],
            ways=[ChoiceBody(value=way.value, label=label) for way, label in _WAYS.items()],
            woods=sorted(wood.name for wood in all_species()),
            sheets=sorted(sheet.name for sheet in all_sheets()),
        )

    @routes.post("/parts/try")
    def try_part(number: PieceNumber, new: PartNew) -> PartTried:
        """Draw a new part in the piece; what is wrong with it is told and nothing is kept."""
        with desk.reading() as records:
            content = content_at(records, number, new.parent)
        return tried_part(desk, content, new)

    @routes.post("/parts", status_code=201, responses=MOVED)
    def add_part(number: PieceNumber, new: PartNew) -> PieceOpen:
        """Write a new part into the file, as a version."""

        def edited(content: Content) -> Content:
            drawn = drawn_part(desk, content, new)
            if drawn.faults:
                raise FileFaults(drawn.faults)
            return drawn.content

        called = label_of(new.name.strip()) or f"New {new.kind.value}"
        return keep_edited(desk, number, edited, parent=new.parent, why=f"{called}, a new part")

    return routes
