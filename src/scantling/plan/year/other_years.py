"""Joints as they are cut, in another year than they were laid out for: another room, another day of building.

What a joint was cut with stays; how far its part goes from the day of building is another. So each place is
asked again what room it has left, month by month of a settled year, and at its worst from that day on.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scantling.joinery.work import Freedom, JointWork
from scantling.plan.year.seasons import SeasonPart, Seasons
from scantling.plan.year.year_rooms import STILL_MM, MovingPlace
from scantling.seasons.air import Month
from scantling.seasons.year import PartYear

__all__ = ["PlaceYear", "place_years", "tightest_of"]

_NONE_MM = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceYear:
    """A place that must be free to move, in some room from some day of building on.

    Parameters
    ----------
    place
        The place, with the room it has left in each month of a settled year. [mm]
    month
        Month in which that is least.
    least_mm
        Room left at its worst from the day of building on, the first years included. [mm] negative: it binds
    when_dry
        Whether that is when the wood is driest.
    """

    place: MovingPlace
    month: Month
    least_mm: float
    when_dry: bool

    @property
    def moves(self) -> bool:
        """Whether it moves at all in the year; else it is at the line that is held."""
        return max(map(abs, self.place.moved_mm)) >= STILL_MM


def place_years(
    works: Iterable[JointWork], seasons: Seasons, years: Mapping[str, PartYear]
) -> tuple[PlaceYear, ...]:
    """Every place that must be free, the one with the least room first.

    Parameters
    ----------
    works
        Joints as they are cut.
    seasons
        What they were laid out for.
    years
        What the other room, or the other day of building, does to each part, by name; see
        :func:`scantling.plan.year.seasons.wide_part_years`.
    """
    laid = {part.part: part for part in seasons.parts}
    found = [
        _year(freedom, work, laid[freedom.part], years[freedom.part])
        for work in works
        for freedom in work.freedoms
        if freedom.part in laid and freedom.part in years
    ]
    return tuple(sorted(found, key=lambda one: (one.least_mm, one.place.joint, one.place.what)))


def tightest_of(found: Iterable[PlaceYear]) -> PlaceYear | None:
    """The place with the least room of those that move; None if none does."""
    return min((one for one in found if one.moves), key=lambda one: one.least_mm, default=None)


def _year(freedom: Freedom, work: JointWork, laid: SeasonPart, year: PartYear) -> PlaceYear:
    moved = tuple(_moved_mm(freedom, laid, month.width_change_mm) for month in year.months)
    rooms = tuple(_room_mm(freedom, one) for one in moved)
    dry, wet = (
        _room_mm(freedom, _moved_mm(freedom, laid, end.change_mm)) for end in (year.narrowest, year.widest)
    )
    return PlaceYear(
        place=MovingPlace(
            joint=work.joint,
            part=freedom.part,
            holder=work.second if work.first == freedom.part else work.first,
            what=freedom.what,
            at=freedom.at,
            moved_mm=moved,
            rooms_mm=rooms,
        ),
        month=list(Month)[rooms.index(min(rooms))],
        least_mm=min(dry, wet),
        when_dry=dry <= wet,
    )


def _room_mm(freedom: Freedom, moved_mm: float) -> float:
    """Room left on the nearer side. [mm]"""
    return min(freedom.shrink_room_mm + moved_mm, freedom.swell_room_mm - moved_mm)


def _moved_mm(freedom: Freedom, laid: SeasonPart, change_mm: float) -> float:
    """How far a place goes when its part changes by so much: as far a millimeter as it was laid out for. [mm]

    A side it was not laid out to go to at all goes as the other does: built as dry as the room ever is, a
    part was laid out to swell only.
    """
    shrink = freedom.shrink_travel_mm / -laid.narrowest_mm if laid.narrowest_mm < -_NONE_MM else None
    swell = freedom.swell_travel_mm / laid.widest_mm if laid.widest_mm > _NONE_MM else None
    sides = (shrink, swell) if change_mm < 0.0 else (swell, shrink)
    return change_mm * next((side for side in sides if side is not None), 0.0)
