"""Which woods a piece is of, and one of them changed for another in every part that has it."""

from __future__ import annotations

from dataclasses import replace

from fastapi import APIRouter

from scantling.errors import InputError
from scantling.papers.words.naming import label_of
from scantling.piece.model import Part, PartKind
from scantling.reading.nodes import source_of
from scantling.reading.putting import put
from scantling.store.content import Content
from scantling.store.pieces import find_piece
from scantling.store.versions import content_at
from scantling.web.designs.designing import Shape
from scantling.web.kept.desk import Desk
from scantling.web.kept.piece_keeping import keep_edited
from scantling.web.sent.bodies import MOVED, REFUSALS, Body, Word
from scantling.web.sent.numbers import Number, PieceNumber
from scantling.web.sent.piece_bodies import PieceOpen
from scantling.wood.species import all_species, find_species

__all__ = ["wood_routes"]


class WoodBody(Body):
    """A wood of the piece, and what is of it."""

    name: str
    parts: list[str]


class WoodList(Body):
    """The woods of a piece, that of most parts first; and every wood that is known by name."""

    version: int
    woods: list[WoodBody]
    known: list[str]


class WoodChange(Body):
    """A wood to be changed for another wherever it is."""

    wood: Word
    other: Word
    parent: Number


def wood_routes(desk: Desk) -> APIRouter:
    """Routes below a piece, for its woods.

    Parameters
    ----------
    desk
        Where it is kept.
    """
    routes = APIRouter(tags=["entries"], responses=REFUSALS)

    @routes.get("/woods")
    def list_woods(number: PieceNumber) -> WoodList:
        """The woods the piece is of."""
        with desk.reading() as records:
            content, version = content_at(records, number), find_piece(records, number).current
        shape = desk.session(content).shape({})
        woods = [
            WoodBody(name=name, parts=[label_of(part) for part in parts])
            for name, parts in sorted(_woods(shape).items(), key=lambda each: -len(each[1]))
        ]
        return WoodList(version=version, woods=woods, known=sorted(w.name for w in all_species()))

    @routes.post("/woods", status_code=201, responses=MOVED)
    def change_wood(number: PieceNumber, change: WoodChange) -> PieceOpen:
        """Change a wood for another in every part that has it, as a version."""
        other = find_species(change.other).name

        def changed(content: Content) -> Content:
            text = content.piece
            for entry in _entries(desk.session(content).shape({}), change.wood):
                text = put(text, ("parts", entry, "species"), source_of(other, text=True))
            return replace(content, piece=text)

        why = f"{other} for {change.wood}"
        return keep_edited(desk, number, changed, parent=change.parent, why=why)

    return routes


def _solid(shape: Shape) -> list[Part]:
    """The parts of wood; plywood is not changed for a wood."""
    return [part for part in shape.piece.parts.values() if part.kind is not PartKind.SHEET]


def _woods(shape: Shape) -> dict[str, list[str]]:
    woods: dict[str, list[str]] = {}
    for part in _solid(shape):
        woods.setdefault(part.species, []).append(part.name)
    return woods


def _entries(shape: Shape, wood: str) -> list[str]:
    """The entries of the file whose wood is to change."""
    found = dict.fromkeys(part.like for part in _solid(shape) if part.species == wood)
    if not found:
        raise InputError(
            code="no_such_wood",
            field="wood",
            value=wood[:80],
            rule="must be a wood of the piece",
            remedy=f"It is of {', '.join(_woods(shape)) or 'no solid wood'}. Reload the page.",
        )
    return list(found)
