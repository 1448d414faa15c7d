"""A part or joint changed in place: the piece file is rewritten where it says so, and kept as a version."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter
from fastapi import Path as InPath
from pydantic import Field

from scantling.checks.offers import unjoined
from scantling.errors import InputError
from scantling.papers.words.naming import label_of
from scantling.piece.adding import copy_of, same_place
from scantling.piece.model import Part, Piece
from scantling.reading import Path, field_name, parse_on
from scantling.reading.editing import added, changed, removed, written
from scantling.reading.nodes import source_of
from scantling.store.content import Content
from scantling.store.pieces import find_piece
from scantling.store.versions import content_at
from scantling.web.designs.designing import Shape
from scantling.web.kept.desk import Desk
from scantling.web.kept.part_drawing import places_of
from scantling.web.kept.piece_keeping import keep_edited
from scantling.web.sent.bodies import MOVED, REFUSALS, Body, Word
from scantling.web.sent.numbers import Number, PieceNumber
from scantling.web.sent.piece_bodies import PieceOpen

__all__ = ["entry_routes"]

_Step = Annotated[str, Field(max_length=100)]


class FieldBody(Body):
    """A field as it is written in the piece file."""

    path: list[str]
    name: str
    text: str
    line: int


class EntryBody(Body):
    """An entry of the piece file: a part, or a joint it is in."""

    path: list[str]
    title: str
    fields: list[FieldBody]


class EntryList(Body):
    """What the piece file says of a part: its own entry, then its joints."""

    version: int
    entries: list[EntryBody]


class FieldChange(Body):
    """A field to be written otherwise."""

    path: Annotated[list[_Step], Field(min_length=2, max_length=8)]
    text: Word
    parent: Number


class EntryRemoval(Body):
    """An entry to be taken out."""

    path: Annotated[list[_Step], Field(min_length=2, max_length=8)]
    parent: Number


class CopyNew(Body):
    """A part to be made once more as it stands: mirrored, moved, or both.

    `about` is the part in whose middle the mirror stands; left out, that of the piece.
    """

    part: _Step
    name: Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=60)]
    mirror: Annotated[tuple[_Step, ...], Field(max_length=2)] = ()
    about: _Step = ""
    move: Annotated[tuple[_Step, ...], Field(max_length=3)] = ()
    parent: Number


class OfferBody(Body):
    """One joint that fits."""

    family: str
    first: str
    second: str
    reason: str


class MeetingBody(Body):
    """Two parts that meet with no joint between them, and the joints that fit."""

    one: str
    other: str
    words: str
    area_mm2: float
    common_mm3: float
    offers: list[OfferBody]
    held: str


class MeetingList(Body):
    """Everything that meets with no joint between it, the largest contact first."""

    version: int
    meetings: list[MeetingBody]


class JointNew(Body):
    """A joint to be put between two parts, as it was offered."""

    family: _Step
    first: _Step
    second: _Step
    parent: Number


def entry_routes(desk: Desk) -> APIRouter:
    """Routes below a piece, for its entries.

    Parameters
    ----------
    desk
        Where it is kept.
    """
    routes = APIRouter(tags=["entries"], responses=REFUSALS)
    _reading(routes, desk)
    _changing(routes, desk)
    return routes


def _reading(routes: APIRouter, desk: Desk) -> None:
    @routes.get("/entries/{part}")
    def show_entries(number: PieceNumber, part: Annotated[str, InPath(max_length=100)]) -> EntryList:
        """What the piece file says of a part."""
        with desk.reading() as records:
            content, version = content_at(records, number), find_piece(records, number).current
        shape = desk.session(content).shape({})
        paths = _entries_of(part, shape)
        return EntryList(version=version, entries=[_entry(content.piece, path) for path in paths])

    @routes.get("/meetings")
    def show_meetings(number: PieceNumber) -> MeetingList:
        """Parts that meet with no joint between them, and what fits there."""
        with desk.reading() as records:
            content, version = content_at(records, number), find_piece(records, number).current
        shape = desk.session(content).shape({})
        found = unjoined(shape.piece, shape.works)
        return MeetingList(
            version=version,
            meetings=[
                MeetingBody(
                    one=meets.one,
                    other=meets.other,
                    words=f"{label_of(meets.one)} and {label_of(meets.other).lower()}",
                    area_mm2=meets.area_mm2,
                    common_mm3=meets.common_mm3,
                    offers=[
                        OfferBody(family=o.family, first=o.first, second=o.second, reason=o.reason)
                        for o in meets.offers
                    ],
                    held=meets.held,
                )
                for meets in found
            ],
        )


def _changing(routes: APIRouter, desk: Desk) -> None:
    def kept(number: int, parent: int, why: str, edit: Callable[[str], str], *, apart: str = "") -> PieceOpen:
        """The edited file as the next version; one that cannot be drawn is refused and not kept.

        A parameter kept apart from the file, of that name, goes: the file then says its size.
        """

        def edited(content: Content) -> Content:
            given = {name: text for name, text in content.given.items() if name != apart}
            return replace(content, piece=edit(content.piece), given=given)

        return keep_edited(desk, number, edited, parent=parent, why=why)

    @routes.post("/entries", status_code=201, responses=MOVED)
    def change_field(number: PieceNumber, change: FieldChange) -> PieceOpen:
        """Write one field otherwise; comments and everything else stay."""
        path = tuple(change.path)
        why = f"{field_name(path)}: {change.text.strip()}"
        return kept(number, change.parent, why, lambda text: changed(text, path, change.text))

    @routes.post("/remedies", status_code=201, responses=MOVED)
    def apply_remedy(number: PieceNumber, change: FieldChange) -> PieceOpen:
        """Write what mends a finding: a field that is there already, or is not yet."""
        path = tuple(change.path)
        why = f"{field_name(path)}: {change.text.strip()}"
        apart = path[1] if path[0] == "parameters" else ""
        return kept(number, change.parent, why, lambda text: _put(text, path, change.text), apart=apart)

    @routes.post("/entries/remove", status_code=201, responses=MOVED)
    def remove_entry(number: PieceNumber, removal: EntryRemoval) -> PieceOpen:
        """Take an entry out of the file."""
        path = tuple(removal.path)
        return kept(number, removal.parent, f"Without {field_name(path)}", lambda text: removed(text, path))

    @routes.post("/copies", status_code=201, responses=MOVED)
    def copy_part(number: PieceNumber, copy: CopyNew) -> PieceOpen:
        """Make a part once more, mirrored or moved."""
        why = f"{label_of(copy.name)}, a copy of {label_of(copy.part).lower()}"
        return keep_edited(
            desk, number, lambda content: _with_copy(desk, content, copy), parent=copy.parent, why=why
        )

    @routes.post("/joints", status_code=201, responses=MOVED)
    def add_joint(number: PieceNumber, joint: JointNew) -> PieceOpen:
        """Put a joint between two parts."""
        between = _listed((joint.first, joint.second))
        value = f"{{kind: {source_of(joint.family)}, between: [[{between}]]}}"
        one, other = (name.partition(".")[0] for name in (joint.first, joint.second))
        name = f"{one}_to_{other}"
        why = f"{label_of(joint.family)} between {label_of(one).lower()} and {label_of(other).lower()}"
        return kept(number, joint.parent, why, lambda text: _with_joint(text, name, value))


def _listed(words: tuple[str, ...]) -> str:
    """Words as they stand in a list, each one value whatever signs it has."""
    return ", ".join(source_of(word) for word in words)


def _with_copy(desk: Desk, content: Content, copy: CopyNew) -> Content:
    """The piece with a part made once more; refused where it would stand where one stands already."""
    piece = desk.session(content).shape({}).piece
    part = _part(piece, copy.part)
    value = copy_of(
        parse_on(content.piece, file="piece.yaml"),
        part,
        mirror=copy.mirror,
        about=_part(piece, copy.about, "about") if copy.about else None,
        move=copy.move,
        places=places_of(content, piece),
    )
    fresh = replace(content, piece=added(content.piece, ("parts", part.like, "copies"), copy.name, value))
    drawn = desk.session(fresh).shape({}).piece
    there = same_place(drawn.parts[copy.name], tuple(drawn.parts.values()))
    if there is not None:
        raise InputError(
            code="copy_in_place",
            field="copy",
            value=copy.name,
            rule=f"must not stand where {label_of(there.name).lower()} stands already",
            remedy="Mirror it the other way or about another middle, or move it.",
        )
    return fresh


def _part(piece: Piece, name: str, field: str = "part") -> Part:
    """A part of a piece by its name, or the first of the entry of that name."""
    alike = (part for part in piece.parts.values() if part.like == name)
    found = piece.parts.get(name) or next(alike, None)
    if found is None:
        raise _unknown_part(name, field)
    return found


def _unknown_part(name: str, field: str = "part") -> InputError:
    return InputError(
        code="unknown_part",
        field=field,
        value=name[:60],
        rule="must be a part of the piece",
        remedy="Reload the page.",
    )


def _put(text: str, path: tuple[str, ...], value: str) -> str:
    """The file with a field written otherwise; one that is not there yet is added to its block."""
    try:
        return changed(text, path, value)
    except InputError as error:
        if error.code != "no_such_field":
            raise
    return added(text, path[:-1], path[-1], value)


def _with_joint(text: str, name: str, value: str) -> str:
    """The file with one more joint, under a name that is not taken."""
    taken = {str(field.path[-1]) for field in written(text, ("joints",))} if "joints:" in text else set()
    for spare in (name, *(f"{name}_{n}" for n in range(2, 100))):
        if spare in taken:
            continue
        try:
            return added(text, ("joints",), spare, value)
        except InputError as error:
            if error.code != "name_twice":
                raise
    raise AssertionError("a hundred joints between two parts")


def _entries_of(part: str, shape: Shape) -> list[Path]:
    """The part's own entry, then those of its joints."""
    found = shape.piece.parts.get(part)
    if found is None:
        raise _unknown_part(part)
    likes = {joint.name: joint.like for joint in shape.piece.joints}
    joints = dict.fromkeys(likes[w.joint] for w in shape.works if part in (w.first, w.second))
    return [("parts", found.like), *(("joints", name) for name in joints)]


def _entry(text: str, path: Path) -> EntryBody:
    fields = [
        FieldBody(
            path=[str(step) for step in field.path],
            name=str(field.path[-1]).replace("_", " "),
            text=field.text,
            line=field.line,
        )
        for field in written(text, path)
    ]
    return EntryBody(path=[str(step) for step in path], title=label_of(str(path[-1])), fields=fields)
