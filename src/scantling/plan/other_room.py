"""The piece as it is built, standing in another room than it was planned for."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.plan.year.other_years import PlaceYear, place_years
from scantling.plan.year.seasons import Seasons, plan_seasons, wide_part_years
from scantling.plan.year.year_rooms import YearRooms, year_rooms
from scantling.seasons.room import Room
from scantling.seasons.year import Built

__all__ = ["RoomYear", "plan_room_year"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomYear:
    """What a room does to a piece whose joints are cut as they are.

    Parameters
    ----------
    seasons
        The year of its parts in this room; what it says of joints is what they were laid out for.
    year
        Each part and place by month, in this room.
    places
        Every place that must be free, the one with the least room first.
    """

    seasons: Seasons
    year: YearRooms
    places: tuple[PlaceYear, ...]


def plan_room_year(job: Job, planner: Planner, *, room: Room | None = None) -> RoomYear:
    """Follow a piece through the year of a room; built as planned, with the joints the plan cuts.

    Parameters
    ----------
    job
        What is built, where, and the room it is planned for.
    planner
        Has the answers that are known already.
    room
        Where it is to stand; the room it is planned for if left out.

    Raises
    ------
    FileFaults, InputError
        As :meth:`scantling.plan.planner.Planner.plan`.
    """
    there = room or job.room
    settled, works = planner.laid_out(job)
    piece, shop, cache = settled.piece, job.shop, planner.cache
    laid = plan_seasons(piece, works, shop=shop, room=job.room, cache=cache)
    built = Built(mc_pct=laid.moisture.build_pct, month=laid.built_month)
    places = place_years(works, laid, wide_part_years(piece, shop=shop, room=there, built=built, cache=cache))
    seasons = plan_seasons(piece, works, shop=shop, room=there, cache=cache)
    moving = {(one.place.joint, one.place.part, one.place.what): one.place for one in places}
    drawn = year_rooms(piece.parts, works, seasons)
    year = replace(drawn, places=tuple(moving[one.joint, one.part, one.what] for one in drawn.places))
    return RoomYear(seasons=seasons, year=year, places=places)
