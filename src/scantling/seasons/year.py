"""The year of a part: how its moisture, its width and its cup follow the room, late and damped."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from threading import Lock
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
    records = _FOLLOWED.records(slabs, room.year, built.month.number)
    return tuple(
        _part_year(part, records[slab], room=room, built=built)
        for part, slab in zip(parts, slabs, strict=True)
    )


@dataclass(slots=True)
class _Followed:
    """Slabs followed before: a change of length or width leaves a slab as it is, and so does one elsewhere.

    A record is some 7 kB; the oldest unused go first.
    """

    limit: int = 2048
    _kept: OrderedDict[tuple[Slab, RoomYear, int], _Record] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def records(self, slabs: Sequence[Slab], year: RoomYear, month: int) -> dict[Slab, _Record]:
        """What becomes of slabs; those not at hand are followed together, cheaper than one by one."""
        wanted = dict.fromkeys(slabs)
        with self._lock:
            found = {
                slab: self._kept[slab, year, month] for slab in wanted if (slab, year, month) in self._kept
            }
            for slab in found:
                self._kept.move_to_end((slab, year, month))
        missing = [slab for slab in wanted if slab not in found]
        if missing:
            made = dict(zip(missing, _follow(missing, year, month), strict=True))
            found |= made
            with self._lock:
                self._kept |= {(slab, year, month): record for slab, record in made.items()}
                while len(self._kept) > self.limit:
                    self._kept.popitem(last=False)
        return found


_FOLLOWED = _Followed()


def _follow(slabs: Sequence[Slab], year: RoomYear, month: int) -> list[_Record]:
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
    days = (past.time_s / 86_400.0 + first_day) % DAYS_PER_YEAR
    return [_record(past.of_part(at), days) for at in range(len(slabs))]


def _record(past: MoistureHistory, days: Array) -> _Record:
    return _Record(
        all_days=days,
        mean_pct=past.mean_pct[:, 0],
        front_pct=past.front_pct[:, 0],
        back_pct=past.back_pct[:, 0],
        tilt_pct=past.tilt_pct[:, 0],
    )


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
    """What became of a slab, with the calendar laid beside it.

    Parameters
    ----------
    all_days
        Day of the year of each record. [days] shape (times,)
    mean_pct, front_pct, back_pct, tilt_pct
        As :class:`scantling.wood.diffusion.MoistureHistory` has them. [%] shape (times,)
    """

    all_days: Array
    mean_pct: Array
    front_pct: Array
    back_pct: Array
    tilt_pct: Array

    @property
    def settled(self) -> slice:
        """Records of the last year."""
        count = DAYS_PER_YEAR // RECORD_DAYS
        return slice(-count - 1, -1)

    @property
    def days(self) -> Array:
        """Day of the year of each record of the last year. [days]"""
        return self.all_days[self.settled]

    def mid_months(self, values: Array) -> list[float]:
        """A value in the middle of each month of the last year, January first."""
        import numpy as np

        found: list[float] = np.interp(
            _MID_MONTHS, self.days, values[self.settled], period=DAYS_PER_YEAR
        ).tolist()
        return found


_MID_MONTHS = [mid_month_day(month.number) for month in Month]


def _part_year(part: WoodPart, record: _Record, *, room: Room, built: Built) -> PartYear:
    import numpy as np

    mean, tilts = record.mean_pct, record.tilt_pct
    moisture = MoistureRange(build_pct=built.mc_pct, dry_pct=float(mean.min()), wet_pct=float(mean.max()))
    settled = mean[record.settled]
    order = np.argsort(record.days)
    room_pct = room.year.emc_pct
    swing = max(room_pct) - min(room_pct)
    return PartYear(
        part=part,
        months=tuple(_part_months(part, record, built=built)),
        moisture=moisture,
        narrowest=_moved(part, built.mc_pct, moisture.dry_pct),
        widest=_moved(part, built.mc_pct, moisture.wet_pct),
        lag_days=_lag_days(record.days[order], settled[order], room),
        swing_share=float(np.ptp(settled)) / swing if swing > 0.0 else 1.0,
        days=tuple(record.days[order].tolist()),
        mean_pct=tuple(settled[order].tolist()),
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


def _part_months(part: WoodPart, record: _Record, *, built: Built) -> Iterator[PartMonth]:
    middles = (record.mean_pct, record.front_pct, record.back_pct, record.tilt_pct)
    courses = [record.mid_months(values) for values in middles]
    for month, mean, front, back, tilt in zip(Month, *courses, strict=True):
        yield PartMonth(
            month=month,
            mean_pct=mean,
            front_pct=front,
            back_pct=back,
            width_change_mm=_moved(part, built.mc_pct, mean).change_mm,
            thickness_change_mm=_thicker(part, built.mc_pct, mean),
            cup_mm=_cup(part, tilt),
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
