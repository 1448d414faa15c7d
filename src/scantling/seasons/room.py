"""The room a piece will live in, and what its year asks of the wood."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import InputError
from scantling.seasons.air import Air, AirYear, Month
from scantling.wood.moisture import MoistureRange

__all__ = ["Room", "RoomYear", "check_build_mc", "moisture_range"]

RoomYear = AirYear
"""The air of a room by month, with the moisture content wood settles at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A room with its year.

    Parameters
    ----------
    name
        What it is called.
    year
        Its air by month.
    about
        A sentence about it: where the figures come from.
    notes
        What was left out or bridged in reading it.
    """

    name: str
    year: RoomYear
    about: str = ""
    notes: tuple[str, ...] = ()

    @property
    def driest(self) -> Month:
        """Month in which wood is driest."""
        return self.year.extreme(wettest=False)

    @property
    def wettest(self) -> Month:
        """Month in which wood is wettest."""
        return self.year.extreme(wettest=True)

    def air_in(self, month: Month) -> Air:
        """The air of one month."""
        return self.year.air_in(month)


def check_build_mc(build_mc_pct: float) -> None:
    """Refuse a moisture content that no piece of furniture is built at.

    Raises
    ------
    InputError
        ``mc_out_of_range``.
    """
    if not 3.0 <= build_mc_pct <= 25.0:
        fraction = 0.0 < build_mc_pct < 1.0
        raise InputError(
            code="mc_out_of_range",
            field="build_mc_pct",
            value=build_mc_pct,
            rule="must lie in 3..25 %",
            remedy=f"Moisture content is in percent: write {build_mc_pct * 100:g}, not {build_mc_pct:g}."
            if fraction
            else "Furniture is built between about 5 and 14 %; let wetter wood dry first.",
        )


def moisture_range(room: Room, build_mc_pct: float) -> MoistureRange:
    """Moisture when built, and the driest and wettest month of the room.

    Taken as if the wood came to rest with every month: the whole swing, on the safe side of what thick
    or finished parts do (see :mod:`scantling.seasons.year`).

    Parameters
    ----------
    room
        The room.
    build_mc_pct
        Moisture content when the piece is made. [%] 3..25.

    Raises
    ------
    InputError
        ``mc_out_of_range``.
    """
    check_build_mc(build_mc_pct)
    moistures = room.year.emc_pct
    return MoistureRange(build_pct=build_mc_pct, dry_pct=min(moistures), wet_pct=max(moistures))
