"""Which woods a piece is of, and one of them changed for another in every part that has it."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Any

from fastapi import APIRouter
from fastapi import Path as InPath
from pydantic import Field

from scantling.errors import InputError
from scantling.papers.naming import label_of
from scantling.piece.model import Part, PartKind
from scantling.reading.nodes import source_of
from scantling.reading.putting import put
from scantling.store.bench_log import bench_states
from scantling.store.pieces import find_piece
from scantling.store.versions import content_at, save
from scantling.web.bodies import REFUSALS, Body, MovedOnBody, Word
from scantling.web.designing import Shape
from scantling.web.desk import Desk
from scantling.web.piece_bodies import PieceOpen, open_body
from scantling.wood.species import all_species, find_species

__all__ = ["wood_routes"]

Number = Annotated[int, InPath(ge=1, le=2**31 - 1, description="Number of the piece.")]
_MOVED: dict[int | str, dict[str, Any]] = {
    409: {"model": MovedOnBody, "description": "Another version is the current one."}
}


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
    parent: Annotated[int, Field(ge=1, le=2**31 - 1)]


def wood_routes(desk: Desk) -> APIRouter:
    """Routes below a piece, for its woods.

    Parameters
    ----------
    desk
        Where it is kept.
    """
    routes = APIRouter(tags=["entries"], responses=REFUSALS)

    @routes.get("/woods")
    def list_woods(number: Number) -> WoodList:
        """The woods the piece is of."""
        with desk.reading() as records:
            content, version = content_at(records, number), find_piece(records, number).current
        shape = desk.session(content).shape({})
        woods = [
            WoodBody(name=name, parts=[label_of(part) for part in parts])
            for name, parts in sorted(_woods(shape).items(), key=lambda each: -len(each[1]))
        ]
        return WoodList(version=version, woods=woods, known=sorted(w.name for w in all_species()))

    @routes.post("/woods", status_code=201, responses=_MOVED)
    def change_wood(number: Number, change: WoodChange) -> PieceOpen:
        """Change a wood for another in every part that has it, as a version."""
        with desk.reading() as records:
            content = content_at(records, number, change.parent)
        shape = desk.session(content).shape({})
        other = find_species(change.other).name
        text = content.piece
        for entry in _entries(shape, change.wood):
            text = put(text, ("parts", entry, "species"), source_of(other, text=True))
        fresh = replace(content, piece=text)
        desk.session(fresh).shape({})
        why = f"{other} for {change.wood}"[:200]
        with desk.writing() as records:
            piece = save(records, number, fresh, parent=change.parent, now=desk.now(), why=why)
            kept, bench = content_at(records, number), bench_states(records)
        return open_body(piece, bench.get(number), kept)

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
