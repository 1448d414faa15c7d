"""The year of a part: how its moisture, its width and its cup follow the room, late and damped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from scantling.errors import InputError
from scantling.seasons.air import Month
from scantling.seasons.room import Room, RoomYear, check_build_mc
from scantling.seasons.weather import DAYS_PER_YEAR, mid_month_day, weather_series
from scantling.wood.coefficients import coefficient_at
from scantling.wood.cup import cup_from_tilt_mm
from scantling.wood.density import basic_specific_gravity
from scantling.wood.diffusion import MoistureHistory, Slab, simulate
from scantling.wood.moisture import MoistureRange
from scantling.wood.moisture_exclusion import BARE, Exclusion
from scantling.wood.movement import Movement, movement, strips_movement
from scantling.wood.species import Species

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["Built", "PartMonth", "PartYear", "WoodPart", "part_years"]

YEARS = 3
"""Years followed from the day of building: in the last one the wood has forgotten how it was built."""
STEPS_PER_DAY = 1
RECORD_DAYS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodPart:
    """A part as the seasons see it.

    Parameters
    ----------
    name
        What it is called.
    species
        Its wood.
    width_mm, thickness_mm
        Finished section. [mm] > 0.
    ring_angle_deg
        Angle between its width and the growth rings. [deg] 0 flat-sawn, 90 quarter-sawn.
    strips
        Width [mm] and ring angle [deg] of each strip it is glued from, where they differ; empty otherwise.
    front, back
        Finish on the show face and on the other, as moisture sees it.
    """

    name: str
    species: Species
    width_mm: float
    thickness_mm: float
    ring_angle_deg: float = 0.0
    strips: tuple[tuple[float, float], ...] = ()
    front: Exclusion = BARE
    back: Exclusion = BARE

    @property
    def across(self) -> tuple[tuple[float, float], ...]:
        """Width [mm] and ring angle [deg] of each strip; one as wide as the part where they do not differ."""
        return self.strips or ((self.width_mm, self.ring_angle_deg),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """When a piece is made, and how moist its wood is then.

    Parameters
    ----------
    mc_pct
        Moisture content, even through the wood. [%] 3..25.
    month
        Month in which it goes to its room.
    """

    mc_pct: float
    month: Month = Month.JAN


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMonth:
    """A part in the middle of a month of a settled year.

    Parameters
    ----------
    month
        The month.
    mean_pct, front_pct, back_pct
        Moisture: mean through the thickness, and at the two faces. [%]
    width_change_mm, thickness_change_mm
        Change since the piece was built, positive = larger. [mm] None for a thickness whose movement is not
        published for the wood.
    cup_mm
        Height of the middle of the width against its edges, positive = the front crowns, if the part were
        free to bend. [mm]
    """

    month: Month
    mean_pct: float
    front_pct: float
    back_pct: float
    width_change_mm: float
    thickness_change_mm: float | None
    cup_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PartYear:
    """What a room does to a part.

    Parameters
    ----------
    part
        The part.
    months
        Twelve middles of months of a settled year, January first.
    moisture
        Moisture at build and the driest and wettest mean the part reaches from then on, late and damped.
    narrowest, widest
        Width changes at those, with the band of the species' spread.
    lag_days
        How long after the room its moisture turns. [days]
    swing_share
        Its swing over that of a bare thin sheet in the same room. [1] 0..1.
    days, mean_pct
        Day of the settled year, and mean moisture then. [days], [%]
    largest_cup_mm
        The largest cup of any day from build on, by size, with its sign. [mm]
    """

    part: WoodPart
    months: tuple[PartMonth, ...]
    moisture: MoistureRange
    narrowest: Movement
    widest: Movement
    lag_days: float
    swing_share: float
    days: tuple[float, ...]
    mean_pct: tuple[float, ...]
    largest_cup_mm: float


def part_years(parts: Sequence[WoodPart], room: Room, *, built: Built) -> tuple[PartYear, ...]:
    """Follow parts from the day they are built through three years of a room.

    Parameters
    ----------
    parts
        The parts.
    room
        Where the piece stands.
    built
        When, and how moist.

    Returns
    -------
    tuple of PartYear
        In the order of the parts.

    Raises
    ------
    InputError
        ``mc_out_of_range``, ``density_unknown``, ``movement_unknown``.
    """
    check_build_mc(built.mc_pct)
    if not parts:
        return ()
    slabs = [_slab(part, built.mc_pct) for part in parts]
    distinct = tuple(dict.fromkeys(slabs))
    record = _followed(distinct, room.year, built.month.number)
    return tuple(
        _part_year(part, distinct.index(slab), record, room=room, built=built)
        for part, slab in zip(parts, slabs, strict=True)
    )


@lru_cache(maxsize=64)
def _followed(slabs: tuple[Slab, ...], year: RoomYear, month: int) -> _Record:
    """What becomes of slabs; kept, for a change of length or width leaves it as it is."""
    first_day = mid_month_day(month)
    temperature, humidity = weather_series(
        year, first_day=first_day, days=YEARS * DAYS_PER_YEAR, steps_per_day=STEPS_PER_DAY
    )
    past = simulate(
        slabs,
        temperature_c=temperature,
        relative_humidity=humidity,
        step_s=86_400.0 / STEPS_PER_DAY,
        record_every=RECORD_DAYS * STEPS_PER_DAY,
    )
    return _Record(past=past, first_day=first_day)


def _slab(part: WoodPart, mc_pct: float) -> Slab:
    return Slab(
        thickness_mm=part.thickness_mm,
        basic_specific_gravity=basic_specific_gravity(part.species),
        mc_pct=mc_pct,
        finish_front_s_mm=part.front.resistance_s_mm,
        finish_back_s_mm=part.back.resistance_s_mm,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Record:
    """A history with the calendar laid beside it."""

    past: MoistureHistory
    first_day: float

    @property
    def settled(self) -> slice:
        """Records of the last year."""
        count = DAYS_PER_YEAR // RECORD_DAYS
        return slice(-count - 1, -1)

    @property
    def days(self) -> Array:
        """Day of the year of each record of the last year. [days]"""
        days: Array = (self.past.time_s[self.settled] / 86_400.0 + self.first_day) % DAYS_PER_YEAR
        return days

    def at_day(self, day: float, values: Array) -> float:
        """A value of the last year at a day of it."""
        import numpy as np

        return float(np.interp(day, self.days, values[self.settled], period=DAYS_PER_YEAR))


def _part_year(part: WoodPart, at: int, record: _Record, *, room: Room, built: Built) -> PartYear:
    import numpy as np

    mean = record.past.mean_pct[:, at]
    tilts = record.past.tilt_pct[:, at]
    moisture = MoistureRange(build_pct=built.mc_pct, dry_pct=float(mean.min()), wet_pct=float(mean.max()))
    settled = mean[record.settled]
    order = np.argsort(record.days)
    room_pct = room.year.emc_pct
    swing = max(room_pct) - min(room_pct)
    return PartYear(
        part=part,
        months=tuple(_part_month(part, at, record, month=month, built=built) for month in Month),
        moisture=moisture,
        narrowest=_moved(part, built.mc_pct, moisture.dry_pct),
        widest=_moved(part, built.mc_pct, moisture.wet_pct),
        lag_days=_lag_days(record.days[order], settled[order], room),
        swing_share=float(np.ptp(settled)) / swing if swing > 0.0 else 1.0,
        days=tuple(float(day) for day in record.days[order]),
        mean_pct=tuple(float(value) for value in settled[order]),
        largest_cup_mm=_cup(part, float(max(tilts, key=abs))),
    )


def _moved(part: WoodPart, from_pct: float, to_pct: float) -> Movement:
    return strips_movement(part.across, species=part.species, mc_from_pct=from_pct, mc_to_pct=to_pct)


def _cup(part: WoodPart, tilt_pct: float) -> float:
    return cup_from_tilt_mm(
        part.width_mm,
        thickness_mm=part.thickness_mm,
        coefficient=sum(w * coefficient_at(part.species, angle) for w, angle in part.across) / part.width_mm,
        tilt_pct=float(tilt_pct),
    )


def _part_month(part: WoodPart, at: int, record: _Record, *, month: Month, built: Built) -> PartMonth:
    day = mid_month_day(month.number)
    past = record.past
    mean = record.at_day(day, past.mean_pct[:, at])
    return PartMonth(
        month=month,
        mean_pct=mean,
        front_pct=record.at_day(day, past.front_pct[:, at]),
        back_pct=record.at_day(day, past.back_pct[:, at]),
        width_change_mm=_moved(part, built.mc_pct, mean).change_mm,
        thickness_change_mm=_thicker(part, built.mc_pct, mean),
        cup_mm=_cup(part, record.at_day(day, past.tilt_pct[:, at])),
    )


def _thicker(part: WoodPart, from_pct: float, to_pct: float) -> float | None:
    """Of strips that differ, the one that changes most; None where the wood's movement there is unknown."""
    try:
        changes = [
            movement(
                part.thickness_mm,
                species=part.species,
                ring_angle_deg=90.0 - angle,
                mc_from_pct=from_pct,
                mc_to_pct=to_pct,
            ).change_mm
            for angle in {angle for _, angle in part.across}
        ]
    except InputError as error:
        if error.code != "movement_unknown":
            raise
        return None
    return max(changes, key=abs)


def _lag_days(days: Array, mean_pct: Array, room: Room) -> float:
    """Days by which the yearly wave of a part follows that of the room: difference of the first harmonics."""
    import numpy as np

    turn = 2.0 * np.pi / DAYS_PER_YEAR
    middles = np.array([mid_month_day(number) for number in range(12)])
    air = np.interp(days, middles, room.year.emc_pct, period=DAYS_PER_YEAR)
    wood_wave = np.sum((mean_pct - mean_pct.mean()) * np.exp(-1j * turn * days))
    air_wave = np.sum((air - air.mean()) * np.exp(-1j * turn * days))
    if abs(air_wave) < 1e-9:
        return 0.0
    late = float(np.angle(air_wave) - np.angle(wood_wave)) / turn
    return late % DAYS_PER_YEAR
