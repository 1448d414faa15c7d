"""The seasons of one piece as its document shows them: in its room, in another, and when to build it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from scantling.papers.sheets import Sheet
from scantling.papers.sheets.model import Facts, Words
from scantling.papers.sheets.other_years import build_sheet, places_sheet, room_words
from scantling.papers.sheets.pictures import year_drawing
from scantling.papers.words.joint_naming import words_of
from scantling.plan.build_months import plan_build_months
from scantling.plan.other_room import RoomYear, plan_room_year
from scantling.plan.result import Plan
from scantling.seasons.places import places
from scantling.seasons.room import Room
from scantling.seasons.room_file import find_room, typical_rooms
from scantling.web.designs.designing import Design
from scantling.web.designs.session import Session
from scantling.web.designs.sources import named_room
from scantling.web.designs.year import year_view
from scantling.web.sent.views import YearView

__all__ = ["BuildView", "KeptRooms", "OtherRoom", "SeasonsView", "build_view", "seasons_view"]

KeptRooms = Mapping[str, tuple[str, Callable[[], Room]]]
"""Rooms that are kept, under the words they are asked for by: what each is called, and it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherRoom:
    """A room to compare: what it is asked for by, what it is called, and among which it stands."""

    value: str
    label: str
    group: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonsView:
    """The year of the piece in a room.

    Parameters
    ----------
    own
        The room it is planned for.
    room
        The one that is shown.
    elsewhere
        What that was asked for by; empty for its own.
    verdict, binds
        How it fares, and whether something binds.
    """

    ok: bool
    units: str
    key: str
    own: str
    room: str
    elsewhere: str
    verdict: str
    binds: bool
    sheets: tuple[Sheet, ...]
    year: YearView
    rooms: tuple[OtherRoom, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildView:
    """When to build it."""

    ok: bool
    units: str
    key: str
    sheets: tuple[Sheet, ...]


def seasons_view(session: Session, given: Mapping[str, str], elsewhere: str, kept: KeptRooms) -> SeasonsView:
    """The year of a piece in its room, or in another with the joints as they are cut.

    Parameters
    ----------
    session, given
        The piece, and its parameters.
    elsewhere
        A typical room, a town, or one of those kept; empty for its own.
    kept
        Rooms that are kept.

    Raises
    ------
    FileFaults, InputError
        As :meth:`scantling.web.designs.session.Session.shape`; ``unknown_room``.
    """
    design = session.design(given)
    room = _room(elsewhere, kept) if elsewhere else design.job.room
    found = session.once(
        (session.key(given), "room", repr(room)),
        lambda: plan_room_year(design.job, session.planner, room=room),
    )
    plan = replace(design.plan, seasons=found.seasons, year=found.year, room=room.name)
    with words_of(plan):
        sheets = (_room_sheet(plan, found, design), places_sheet(found.places, plan))
        verdict, year = room_words(found.places, plan), year_view(plan)
    return SeasonsView(
        ok=True,
        units=plan.units,
        key=session.key(given),
        own=design.plan.room,
        room=room.name,
        elsewhere=elsewhere,
        verdict=verdict,
        binds=any(one.moves and one.least_mm < 0.0 for one in found.places),
        sheets=sheets,
        year=year,
        rooms=_rooms(kept),
    )


def build_view(session: Session, given: Mapping[str, str]) -> BuildView:
    """When to build a piece; raises as :func:`seasons_view`."""
    design = session.design(given)
    key = session.key(given)
    found = session.once((key, "build"), lambda: plan_build_months(design.job, session.planner))
    with words_of(design.plan):
        sheet = build_sheet(found, design.plan)
    return BuildView(ok=True, units=design.plan.units, key=key, sheets=(sheet,))


def _room(elsewhere: str, kept: KeptRooms) -> Room:
    """A room that is kept, or known by its name; no file of the computer."""
    return kept[elsewhere][1]() if elsewhere in kept else named_room(elsewhere)


def _rooms(kept: KeptRooms) -> tuple[OtherRoom, ...]:
    return (
        *(OtherRoom(value=value, label=label, group="My rooms") for value, (label, _) in kept.items()),
        *(
            OtherRoom(value=name, label=find_room(name).name, group="Typical rooms")
            for name in typical_rooms()
        ),
        *(OtherRoom(value=town.name, label=town.name, group="A heated house in") for town in places()),
    )


def _room_sheet(plan: Plan, found: RoomYear, design: Design) -> Sheet:
    """The room's year drawn, with the wood in it."""
    moisture, built = found.seasons.moisture, design.plan.seasons.moisture.build_pct
    known = tuple(line for line in (found.seasons.about, *found.seasons.notes) if line)
    return Sheet(
        id="room",
        title="The year",
        lead=plan.room,
        blocks=(
            Facts(
                title="",
                items=(
                    ("Wood when built", f"{built:.1f} %"),
                    ("Driest month", f"{moisture.dry_pct:.1f} %"),
                    ("Wettest month", f"{moisture.wet_pct:.1f} %"),
                ),
            ),
            year_drawing(plan),
            *((Words(title="How the room is known", lines=known),) if known else ()),
        ),
    )
