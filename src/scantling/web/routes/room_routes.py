"""Rooms that are kept, and those known by name: their figures, and their year."""

from __future__ import annotations

from functools import cache
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query

from scantling.papers.pictures.room_picture import room_drawing
from scantling.papers.sheets.show import Show
from scantling.reading import Path, field_name
from scantling.seasons.air import Month
from scantling.seasons.places import places
from scantling.seasons.room import Room
from scantling.seasons.room_file import find_room, typical_rooms
from scantling.seasons.room_text import (
    AirKind,
    air_kind,
    begin_room,
    in_fahrenheit,
    parse_room,
    room_sections,
    with_air,
    with_figures,
)
from scantling.store.profiles import ProfileKind, ProfileRecord
from scantling.web.designs.sources import named_room
from scantling.web.kept.desk import Desk
from scantling.web.routes.profile_routes import Profiles, add_profile_routes
from scantling.web.sent.bodies import MOVED, REFUSALS
from scantling.web.sent.numbers import ProfileNumber
from scantling.web.sent.profile_bodies import (
    AirChange,
    KnownRoom,
    KnownRooms,
    ProfileNew,
    RoomOpen,
    RoomYearBody,
    SettingChanges,
    profile_body,
    section_of,
)

__all__ = ["known_rooms", "room_routes", "year_body"]

Units = Annotated[Literal["mm", "in"], Query()]
_DEFAULT = "dry-winter-house"


def room_routes(desk: Desk) -> APIRouter:
    """The routes.

    Parameters
    ----------
    desk
        Where they are kept.
    """
    kept = Profiles(
        desk=desk,
        kind=ProfileKind.ROOM,
        body=RoomOpen,
        begun=_begun,
        name_in=lambda text: parse_room(text, file="room.yaml").name.strip() or "Room",
        opened=_opened,
    )
    routes = APIRouter(prefix="/rooms", tags=["rooms"], responses=REFUSALS)

    @routes.get("/known")
    def list_known() -> KnownRooms:
        """The typical rooms, and a heated house in each town of the table."""
        return known_rooms()

    @routes.get("/known/year")
    def show_year(name: Annotated[str, Query(max_length=200)], units: Units = "mm") -> RoomYearBody:
        """The year of a room known by its name."""
        return year_body(named_room(name), inch=units == "in")

    add_profile_routes(routes, kept)
    _changing(routes, kept)
    return routes


def _changing(routes: APIRouter, kept: Profiles[RoomOpen]) -> None:
    @routes.post("/{number}/settings", status_code=201, response_model=RoomOpen, responses=MOVED)
    def change_figures(number: ProfileNumber, asked: SettingChanges) -> Any:
        """Write figures otherwise, all or none; what the file may not hold is told, each at its field."""
        changes: dict[Path, str] = {tuple(change.path): change.text for change in asked.changes}
        why = "; ".join(f"{field_name(path)}: {text.strip() or 'default'}" for path, text in changes.items())
        return kept.edit(number, asked.parent, why, lambda text: with_figures(text, changes))

    @routes.post("/{number}/air", status_code=201, response_model=RoomOpen, responses=MOVED)
    def change_air(number: ProfileNumber, asked: AirChange) -> Any:
        """Have its air known another way; it begins from the year the room has."""
        kind = AirKind(asked.kind)
        return kept.edit(
            number,
            asked.parent,
            f"Air: {kind.words.lower()}",
            lambda text: with_air(text, kind, place=asked.place),
        )


@cache
def known_rooms() -> KnownRooms:
    """The typical rooms and the towns, with the moistures wood goes between in each."""
    return KnownRooms(
        typical=[_known(name) for name in typical_rooms()], towns=[_known(place.name) for place in places()]
    )


def _known(name: str) -> KnownRoom:
    room = find_room(name)
    return KnownRoom(
        name=name,
        title=room.name,
        about=room.about,
        driest_pct=round(min(room.year.emc_pct), 1),
        wettest_pct=round(max(room.year.emc_pct), 1),
    )


def _begun(new: ProfileNew) -> str:
    if new.text is not None:
        return new.text
    return begin_room(new.known or _DEFAULT)


def _opened(profile: ProfileRecord, text: str) -> RoomOpen:
    return RoomOpen(
        profile=profile_body(profile),
        text=text,
        kind=air_kind(text).value,
        kinds=[(kind.value, kind.words) for kind in AirKind if kind is not AirKind.LOG],
        sections=[section_of(part.label, part.about, part.settings) for part in room_sections(text)],
        year=year_body(parse_room(text), inch=in_fahrenheit(text)),
    )


def year_body(room: Room, *, inch: bool) -> RoomYearBody:
    """The year of a room as it is sent.

    Parameters
    ----------
    room
        The room.
    inch
        Whether degrees are Fahrenheit.
    """
    show = Show.in_units("in" if inch else "mm")
    drawn = room_drawing(room, inch=inch)
    return RoomYearBody(
        title=room.name,
        about=room.about,
        words=drawn.words,
        picture=drawn.svg,
        months=[
            (
                month.full_name,
                show.temperature(air.temperature_c),
                f"{100.0 * air.relative_humidity:.0f} %",
                f"{pct:.1f} %",
            )
            for month, air, pct in zip(Month, room.year.months, room.year.emc_pct, strict=True)
        ],
        notes=list(room.notes),
    )
