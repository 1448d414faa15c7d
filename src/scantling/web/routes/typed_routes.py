"""A piece file being written beside its picture: what is wrong with it, and which lines are of which part."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter
from pydantic import Field

from scantling.errors import Fault, FileFaults, InputError
from scantling.reading import parse_on
from scantling.reading.editing import changed
from scantling.reading.extents import Extent, extents
from scantling.reading.nodes import source_of
from scantling.store.content import Content
from scantling.store.versions import must_be_current
from scantling.web.designs.designing import Shape
from scantling.web.kept.desk import Desk
from scantling.web.sent.bodies import MOVED, REFUSALS, Body, ContentBody, FaultBody, Word
from scantling.web.sent.numbers import Number, PieceNumber
from scantling.web.sent.refusing import fault_view, faults_of
from scantling.web.sent.views import as_json

__all__ = ["entry_places", "typed_routes", "with_sizes"]

_DEEPEST = 4
"""Names down to a copy of a part: parts, PART, copies, COPY. [1]"""


class TypedIn(Body):
    """A content as it is typed, the version it was typed from, and sizes to be written into its text."""

    content: ContentBody
    parent: Number
    sizes: Annotated[dict[Word, Word], Field(max_length=200, default_factory=dict)]


class EntryPlace(Body):
    """The lines an entry of the piece file stands on, from 1, and the parts of the picture it is of."""

    path: list[str]
    first: int
    last: int
    parts: list[str]


class TypedBody(Body):
    """The content with the sizes in it, the draft to ask for its designs, its faults, and its entries."""

    content: ContentBody
    draft: str
    errors: list[FaultBody]
    entries: list[EntryPlace]


def typed_routes(desk: Desk) -> APIRouter:
    """Routes below a piece, for its file while it is written.

    Parameters
    ----------
    desk
        Where it is kept.
    """
    routes = APIRouter(tags=["drafts"], responses=REFUSALS)

    @routes.post("/typed", responses=MOVED)
    def look_at(number: PieceNumber, typed: TypedIn) -> TypedBody:
        """Hold what is typed, not saved: its faults, and where its entries stand.

        Where the piece was changed since, what both have is told, and the two brought together.
        """
        content = with_sizes(typed.content.content(), typed.sizes)
        with desk.reading() as records:
            must_be_current(records, number, content, parent=typed.parent)
        shape, faults = _tried(desk, number, content)
        return TypedBody(
            content=ContentBody.of(content),
            draft=desk.lay_down(content, number),
            errors=[FaultBody.model_validate(as_json(fault_view(fault))) for fault in faults],
            entries=entry_places(content.piece, shape),
        )

    return routes


def with_sizes(content: Content, sizes: Mapping[str, str]) -> Content:
    """A content whose text says these sizes; none of them is kept apart from the text any more.

    Parameters
    ----------
    content
        What it was.
    sizes
        Parameters by name, as a maker writes them.

    Raises
    ------
    FileFaults
        The text cannot be read.
    InputError
        ``no_such_field``: it has no parameter of that name; ``not_one_line``, ``not_a_value``.
    """
    if not sizes:
        return content
    parse_on(content.piece, file="piece.yaml")
    text = content.piece
    for name, size in sizes.items():
        text = changed(text, ("parameters", name, "default"), source_of(size))
    given = {name: size for name, size in content.given.items() if name not in sizes}
    return replace(content, piece=text, given=given)


def entry_places(text: str, shape: Shape | None) -> list[EntryPlace]:
    """Where the entries of parts and joints stand, each before what stands within it.

    Parameters
    ----------
    text
        Of the piece file; one that cannot be read has no entries.
    shape
        What it is drawn as; None where it cannot be, so that only the parts an entry names are known.
    """
    like: dict[str, list[str]] = {}
    joined: dict[str, dict[str, None]] = {}
    if shape is not None:
        for part in shape.piece.parts.values():
            like.setdefault(part.like, []).append(part.name)
        of_joint = {joint.name: joint.like for joint in shape.piece.joints}
        for work in shape.works:
            joined.setdefault(of_joint[work.joint], {}).update(dict.fromkeys((work.first, work.second)))
    found = []
    for extent in extents(text, deepest=_DEEPEST):
        parts = _parts_of(extent, like, joined)
        if parts is not None:
            place = EntryPlace(
                path=list(extent.path), first=extent.first, last=extent.last, parts=list(parts)
            )
            found.append(place)
    return found


def _parts_of(
    extent: Extent, like: Mapping[str, list[str]], joined: Mapping[str, Iterable[str]]
) -> Iterable[str] | None:
    """The parts an entry is of; None for what is no entry."""
    match extent.path:
        case ("parts", name):
            return like.get(name, [name])
        case ("parts", _, "copies", name):
            return [name]
        case ("joints", name):
            return joined.get(name, ())
    return None


def _tried(desk: Desk, number: int, content: Content) -> tuple[Shape | None, tuple[Fault, ...]]:
    try:
        return desk.session_for(number, content).shape({}), ()
    except (FileFaults, InputError) as error:
        return None, faults_of(error)
