"""Which shop and which room a piece is planned for: copies of kept ones, taken and renewed with one key each.

A piece holds the text it is planned with, so an old plan stays as it was when the shop changes. Whose copy it
is, and how old, is told by the text itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from fastapi import APIRouter
from sqlalchemy import Connection

from scantling.errors import Fault, FileFaults, InputError, ScantlingError
from scantling.plan.refusals import DEFAULT_ROOM
from scantling.reading.setting import Changed
from scantling.seasons.room_text import changes_of_room, parse_room
from scantling.shop.profile.profile_file import default_shop, parse_shop
from scantling.shop.profile.profile_text import changes_between
from scantling.store.content import Attached, Content
from scantling.store.pieces import find_piece
from scantling.store.profiles import (
    ProfileKind,
    find_profile,
    list_profiles,
    profile_of_text,
    profile_text,
)
from scantling.store.versions import content_at
from scantling.web.designs.sources import named_room
from scantling.web.kept.desk import Desk
from scantling.web.kept.piece_keeping import keep_content
from scantling.web.routes.room_routes import known_rooms
from scantling.web.sent.bodies import MOVED, REFUSALS, Body
from scantling.web.sent.choice import Choice
from scantling.web.sent.numbers import Number, PieceNumber
from scantling.web.sent.piece_bodies import PieceOpen
from scantling.web.sent.profile_bodies import ChangedBody, KnownRoom
from scantling.web.sent.refusing import faults_of

__all__ = ["choosing_routes", "chosen"]

_BETWEEN: Mapping[ProfileKind, Callable[[str, str], tuple[Changed, ...]]] = {
    ProfileKind.SHOP: changes_between,
    ProfileKind.ROOM: changes_of_room,
}
_MOST_CHANGES = 40
"""Settings told that a copy has otherwise; more are a shop of another kind."""


class Choosing(Choice):
    """A choice, and the version it is made from."""

    parent: Number


class Option(Body):
    """A shop or room to choose."""

    number: int
    name: str


class ChosenBody(Body):
    """What a piece is planned for.

    `kept` is the number of the kept one it is a copy of; `now` says whether that is still so, `changes` what
    it has otherwise by now. `own` says that the piece has a text that nobody keeps.
    """

    name: str
    about: str = ""
    kept: int | None = None
    now: bool = True
    own: bool = False
    known: str | None = None
    changes: tuple[ChangedBody, ...] = ()


class SettingOfPiece(Body):
    """The shop and the room of a piece, and what else there is to choose."""

    version: int
    shop: ChosenBody
    room: ChosenBody
    shops: list[Option]
    rooms: list[Option]
    typical: list[KnownRoom]
    towns: list[str]


def choosing_routes(desk: Desk) -> APIRouter:
    """Routes below a piece.

    Parameters
    ----------
    desk
        Where it is kept.
    """
    routes = APIRouter(tags=["setting"], responses=REFUSALS)

    @routes.get("/setting")
    def show_setting(number: PieceNumber) -> SettingOfPiece:
        """The shop and the room the piece is planned for, whose copies they are, and what else there is."""
        with desk.reading() as records:
            piece, content = find_piece(records, number), content_at(records, number)
            return SettingOfPiece(
                version=piece.current,
                shop=_told(records, ProfileKind.SHOP, content.shop),
                room=_told(records, ProfileKind.ROOM, content.room),
                shops=_options(records, ProfileKind.SHOP),
                rooms=_options(records, ProfileKind.ROOM),
                typical=known_rooms().typical,
                towns=[town.name for town in known_rooms().towns],
            )

    @routes.post("/setting", status_code=201, responses=MOVED)
    def choose(number: PieceNumber, asked: Choosing) -> PieceOpen:
        """Plan the piece for another shop or room, or for the same as it is now; it is a version."""
        with desk.reading() as records:
            content = content_at(records, number, asked.parent)
            fresh, why = chosen(records, content, [asked])
        _refuse_new_faults(desk, content, fresh)
        return keep_content(desk, number, fresh, parent=asked.parent, why=why)

    return routes


def chosen(records: Connection, content: Content, choices: Sequence[Choice]) -> tuple[Content, str]:
    """A content with other things chosen, and what that is called.

    Parameters
    ----------
    records
        Where shops and rooms are kept.
    content
        What it was.
    choices
        What is to be otherwise.

    Raises
    ------
    InputError
        ``unknown_profile``, ``unknown_room``.
    """
    words = []
    for choice in choices:
        attached, name = _attached(records, choice)
        content = (
            replace(content, shop=attached) if choice.what == "shop" else replace(content, room=attached)
        )
        words.append(f"{choice.what.capitalize()}: {name}")
    return content, "; ".join(words)


def _attached(records: Connection, choice: Choice) -> tuple[Attached | None, str]:
    if choice.kept is not None:
        kind = ProfileKind(choice.what)
        name, text = find_profile(records, kind, choice.kept).name, profile_text(records, kind, choice.kept)
        return Attached(name=f"{name}.yaml", text=text), name
    if choice.known is not None:
        return Attached(name=choice.known), named_room(choice.known).name
    return None, "the usual one"


def _refuse_new_faults(desk: Desk, old: Content, fresh: Content) -> None:
    """Refuse a choice the piece cannot be planned with; faults it has already are told elsewhere."""
    there = {(fault.code, fault.field) for fault in _faults(desk, old)}
    new = [fault for fault in _faults(desk, fresh) if (fault.code, fault.field) not in there]
    if new:
        raise FileFaults(new)


def _faults(desk: Desk, content: Content) -> tuple[Fault, ...]:
    try:
        desk.session(content).shape({})
    except (FileFaults, InputError) as error:
        return faults_of(error)
    return ()


def _options(records: Connection, kind: ProfileKind) -> list[Option]:
    return [Option(number=one.number, name=one.name) for one in list_profiles(records, kind)]


def _told(records: Connection, kind: ProfileKind, attached: Attached | None) -> ChosenBody:
    """What a piece is planned for, in words."""
    if attached is None or attached.text is None:
        return _usual(kind, attached)
    called = attached.name.removesuffix(".yaml").removesuffix(".yml")
    found = profile_of_text(records, kind, attached.text, name=called)
    if found is None:
        return ChosenBody(name=_named(kind, attached), own=True)
    profile, version = found
    if version == profile.current:
        return ChosenBody(name=profile.name, kept=profile.number)
    changes = _BETWEEN[kind](attached.text, profile_text(records, kind, profile.number))
    told = tuple(ChangedBody.of(change) for change in changes[:_MOST_CHANGES])
    return ChosenBody(name=profile.name, kept=profile.number, now=False, changes=told)


def _usual(kind: ProfileKind, attached: Attached | None) -> ChosenBody:
    if kind is ProfileKind.SHOP:
        return ChosenBody(name=default_shop().name, about="The usual shop: nothing of your own is set.")
    known = DEFAULT_ROOM if attached is None else attached.name
    try:
        room = named_room(known)
    except InputError:
        return ChosenBody(name=known, known=known)
    return ChosenBody(name=room.name, about=room.about, known=known)


def _named(kind: ProfileKind, attached: Attached) -> str:
    """The name in a text that nobody keeps; that of its file where it cannot be read."""
    text = attached.text or ""
    try:
        return (parse_shop(text) if kind is ProfileKind.SHOP else parse_room(text)).name
    except ScantlingError:
        return attached.name
