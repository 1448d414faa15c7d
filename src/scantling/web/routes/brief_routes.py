"""What a piece is for and what was asked for: read from its file, and written into it field by field."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Final

from fastapi import APIRouter
from pydantic import Field

from scantling.errors import InputError
from scantling.papers.words.naming import label_of
from scantling.piece.files.spec import BriefSpec, PieceSpec
from scantling.piece.model import Stands
from scantling.reading.nodes import source_of
from scantling.reading.putting import put, standing, taken_out
from scantling.store.content import Content
from scantling.store.pieces import find_piece
from scantling.store.titles import name_in
from scantling.store.versions import content_at
from scantling.web.kept.desk import Desk
from scantling.web.kept.piece_keeping import keep_edited
from scantling.web.sent.bodies import MOVED, REFUSALS, Body
from scantling.web.sent.numbers import Number, PieceNumber
from scantling.web.sent.part_bodies import ChoiceBody
from scantling.web.sent.piece_bodies import PieceOpen

__all__ = ["brief_routes"]

_ABOUT: Final = "about"
_LONGEST: Final = 2000
"""Characters of what a piece is for. [1]"""
_ASKED: Final = tuple(name for name in BriefSpec.model_fields if name != "carried")
"""Fields of the brief that stand on a line; how it comes apart is a list of parts, and stays in the text."""
_YES_OR_NO: Final = (ChoiceBody(value="true", label="yes"), ChoiceBody(value="false", label="no"))


class BriefField(Body):
    """One field: as it is written, empty where it is not; what it may be where that is a choice.

    `usual` is what holds where nothing is written, among the choices.
    """

    name: str
    label: str
    about: str
    text: str
    choices: list[ChoiceBody]
    usual: str


class BriefBody(Body):
    """What a piece is for, and what was asked for."""

    version: int
    fields: list[BriefField]


class BriefChange(Body):
    """A field to be written otherwise; empty for what is usual."""

    name: Annotated[str, Field(max_length=40)]
    text: Annotated[str, Field(max_length=_LONGEST)]
    parent: Number


def brief_routes(desk: Desk) -> APIRouter:
    """Routes below a piece, for its brief.

    Parameters
    ----------
    desk
        Where it is kept.
    """
    routes = APIRouter(tags=["entries"], responses=REFUSALS)

    @routes.get("/brief")
    def show_brief(number: PieceNumber) -> BriefBody:
        """What the piece file says of what was asked for."""
        with desk.reading() as records:
            content, version = content_at(records, number), find_piece(records, number).current
        written = standing(content.piece)
        told = [_told(name, written.get(("brief", name), ("", 0))[0]) for name in _ASKED]
        return BriefBody(version=version, fields=[_about(content.piece), *told])

    @routes.post("/brief", status_code=201, responses=MOVED)
    def change_brief(number: PieceNumber, change: BriefChange) -> PieceOpen:
        """Write one field otherwise; comments and everything else stay."""
        text = " ".join(change.text.split())
        if change.name not in (_ABOUT, *_ASKED):
            raise _unknown(change.name)
        why = f"{label_of(change.name)}: {text or 'as usual'}"

        def edited(content: Content) -> Content:
            return replace(content, piece=_with(content.piece, change.name, text))

        return keep_edited(desk, number, edited, parent=change.parent, why=why)

    return routes


def _about(text: str) -> BriefField:
    field = PieceSpec.model_fields[_ABOUT]
    return BriefField(
        name=_ABOUT,
        label="What it is for",
        about=field.description or "",
        text=name_in(text, _ABOUT),
        choices=[],
        usual="",
    )


def _told(name: str, text: str) -> BriefField:
    field = BriefSpec.model_fields[name]
    choices, usual = _choices(field.default)
    return BriefField(
        name=name,
        label=label_of(name),
        about=field.description or "",
        text=text,
        choices=choices,
        usual=usual,
    )


def _choices(default: object) -> tuple[list[ChoiceBody], str]:
    """What may be chosen, and which of it holds where nothing is written; nothing for what is typed."""
    if isinstance(default, bool):
        return list(_YES_OR_NO), "true" if default else "false"
    if isinstance(default, Stands):
        return [ChoiceBody(value=each.value, label=each.value) for each in Stands], default.value
    return [], ""


def _with(text: str, name: str, value: str) -> str:
    """The file with a field written otherwise, or taken out where nothing is to be written."""
    path = (_ABOUT,) if name == _ABOUT else ("brief", name)
    if value:
        return put(text, path, source_of(value, text=True) if name == _ABOUT else value)
    return taken_out(text, path) if path in standing(text) else text


def _unknown(name: str) -> InputError:
    return InputError(
        code="unknown_field",
        field="name",
        value=name,
        rule=f"must be {_ABOUT} or one of {', '.join(_ASKED)}",
        remedy="Reload the page: it may be older than the server.",
    )
