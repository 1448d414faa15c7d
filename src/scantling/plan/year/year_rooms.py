"""The year month by month, for a picture that moves: how wide each part is, what room each joint has."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from scantling.joinery.work import Freedom, JointWork
from scantling.piece.geometry import Vec
from scantling.piece.model import Part
from scantling.plan.year.seasons import SeasonPart, Seasons
from scantling.plan.year.year_edges import EdgeYear, edge_years

__all__ = ["MovingPart", "MovingPlace", "YearRooms", "fixed_line_mm", "moved_mm", "year_rooms"]


STILL_MM = 0.05
"""A place that moves less in the whole year stands still: it is at the line that is fixed. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class MovingPart:
    """A part whose width the year changes.

    Parameters
    ----------
    fixed_mm
        The line along its grain that stays where it is, across from its middle. [mm]
    changes_mm
        Change of width since build, by month. [mm]
    stretches
        The same over the width. [1]
    """

    part: str
    fixed_mm: float
    changes_mm: tuple[float, ...]
    stretches: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovingPlace:
    """A place of a joint that must be free to move.

    Parameters
    ----------
    part, holder
        The part that moves, and the one it moves in.
    at
        World. [mm]
    moved_mm
        How far it stands from where it was built, away from the fixed line, by month. [mm]
    rooms_mm
        Room left on the nearer side, by month. [mm] negative where it binds
    """

    joint: str
    part: str
    holder: str
    what: str
    at: Vec
    moved_mm: tuple[float, ...]
    rooms_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class YearRooms:
    """The year of a piece, January first.

    Parameters
    ----------
    parts
        The most moved first.
    edges
        Of panels between breadboard ends.
    """

    parts: tuple[MovingPart, ...]
    places: tuple[MovingPlace, ...]
    edges: tuple[EdgeYear, ...] = ()

    @property
    def tightest_of_year(self) -> MovingPlace | None:
        """The place that comes nearest to binding in any month; None if none moves."""
        return min(self._moving, key=lambda place: min(place.rooms_mm), default=None)

    @property
    def _moving(self) -> list[MovingPlace]:
        return [place for place in self.places if max(map(abs, place.moved_mm)) >= STILL_MM]

    def tightest(self, month: int) -> MovingPlace | None:
        """The place with the least room in a month, 0 for January, of those that move; None if none does."""
        return min(self._moving, key=lambda place: place.rooms_mm[month], default=None)


def year_rooms(parts: Mapping[str, Part], works: Iterable[JointWork], seasons: Seasons) -> YearRooms:
    """The year of every wide part and every place that moves.

    Parameters
    ----------
    parts, works
        Of the piece.
    seasons
        What :func:`scantling.plan.year.seasons.plan_seasons` answered for them.
    """
    by_name, works = {part.part: part for part in seasons.parts}, tuple(works)
    moving = tuple(
        MovingPart(
            part=season.part,
            fixed_mm=_fixed_of(parts[season.part], works),
            changes_mm=tuple(month.width_change_mm for month in season.months),
            stretches=tuple(month.width_change_mm / season.width_mm for month in season.months),
        )
        for season in seasons.parts
    )
    places = tuple(
        _place(freedom, by_name[freedom.part], work)
        for work in works
        for freedom in work.freedoms
        if freedom.part in by_name
    )
    fixed = {part.part: part.fixed_mm for part in moving}
    return YearRooms(parts=moving, places=places, edges=edge_years(parts, works, seasons, fixed_mm=fixed))


def moved_mm(freedom: Freedom, season: SeasonPart, change_mm: float) -> float:
    """How far a place has moved away from the fixed line when its part has changed by so much. [mm]

    The travel laid out for the driest and the wettest month, by the share of it that the part has gone.

    Parameters
    ----------
    freedom
        With the travel from build to the driest and to the wettest month.
    season
        Of the part that moves.
    change_mm
        Change of its width since build. [mm] positive = wider
    """
    if change_mm < 0.0 and season.narrowest_mm < 0.0:
        return -freedom.shrink_travel_mm * change_mm / season.narrowest_mm
    if change_mm > 0.0 and season.widest_mm > 0.0:
        return freedom.swell_travel_mm * change_mm / season.widest_mm
    return 0.0


def fixed_line_mm(places: Sequence[tuple[float, float]]) -> float:
    """The line across a part from which some places are as far as they are said to be. [mm]

    Parameters
    ----------
    places
        Where each stands across the width, and how far from the fixed line, on either side. [mm]

    Examples
    --------
    >>> fixed_line_mm([(-200.0, 200.0), (150.0, 150.0)])
    0.0
    >>> fixed_line_mm([(100.0, 400.0), (-250.0, 50.0)])
    -300.0
    """
    lines = [at + side * away for at, away in places for side in (-1.0, 1.0)]
    misses = {line: sum(abs(abs(at - line) - away) for at, away in places) for line in lines}
    return min(lines, key=lambda line: (round(misses[line], 3), abs(line)), default=0.0)


def _place(freedom: Freedom, season: SeasonPart, work: JointWork) -> MovingPlace:
    moved = tuple(moved_mm(freedom, season, month.width_change_mm) for month in season.months)
    return MovingPlace(
        joint=work.joint,
        part=freedom.part,
        holder=work.second if work.first == freedom.part else work.first,
        what=freedom.what,
        at=freedom.at,
        moved_mm=moved,
        rooms_mm=tuple(min(freedom.shrink_room_mm + m, freedom.swell_room_mm - m) for m in moved),
    )


def _fixed_of(part: Part, works: tuple[JointWork, ...]) -> float:
    """Where a part is held: by its joints that move, else where it holds one that does, else its middle."""
    own = [
        (part.frame.local(f.at)[1], f.from_fixed_mm) for w in works for f in w.freedoms if f.part == part.name
    ]
    if own:
        return fixed_line_mm(own)
    held = [
        part.frame.local(f.at)[1]
        for w in works
        if part.name in {w.first, w.second}
        for f in w.freedoms
        if abs(part.frame.local(f.at)[1]) <= part.width_mm
    ]
    return sum(held) / len(held) if held else 0.0
