"""When to build: for each month, and each moisture of the wood, the room its tightest joint keeps after.

Two answers for each. *As cut*: the joints as the plan has them now, whatever the day turns out to be; this is
what a maker needs who has the papers and is late. *Cut for it*: the plan made for that day, with its slots
set for it; this is what a maker needs who may still choose the day.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.errors import ScantlingError
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.plan.year.other_years import PlaceYear, place_years, tightest_of
from scantling.plan.year.seasons import Seasons, moisture_of, plan_seasons, shop_air, wide_part_years
from scantling.seasons.air import Month
from scantling.seasons.year import Built, PartYear

__all__ = ["BuildDay", "BuildMonths", "plan_build_months"]

_ALIKE_MM = 0.2
"""Room that differs by less is alike: a fingertip does not find it (common practice). [mm]"""
_STEP_PCT, _LEAST_PCT, _MOST_PCT = 1.0, 4.0, 18.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildDay:
    """A day of building, and what follows from it.

    Parameters
    ----------
    month
        In which the piece goes to its room.
    mc_pct
        Moisture of the wood then. [%]
    as_cut
        The tightest place with the joints as the plan cuts them; None if none moves.
    cut_for_it
        The same with joints cut for this day; None if none moves, or where they cannot be cut.
    part, narrower_mm, wider_mm
        The part that moves most, and how much narrower and wider than on that day it gets. [mm] >= 0
    """

    month: Month
    mc_pct: float
    as_cut: PlaceYear | None
    cut_for_it: PlaceYear | None
    part: str
    narrower_mm: float
    wider_mm: float

    @property
    def larger_mm(self) -> float:
        """The larger of the two ways it goes, which gaps and overhangs must look right with. [mm]"""
        return max(self.narrower_mm, self.wider_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildMonths:
    """Every month, and the moistures wood may be at.

    Parameters
    ----------
    months
        January first, the wood as the shop's own air holds it.
    moistures
        Rising, in the month the plan has.
    best, worst
        Months by the room the tightest place keeps if the joints are cut for them; of months alike in that,
        by how far the part that moves most goes from how it was built.
    same_air
        Whether the shop's air is one figure all year: then months differ little, and the moisture decides.
    """

    months: tuple[BuildDay, ...]
    moistures: tuple[BuildDay, ...]
    best: Month
    worst: Month
    same_air: bool

    def day(self, month: Month) -> BuildDay:
        """A month."""
        return self.months[month.number]


def plan_build_months(job: Job, planner: Planner) -> BuildMonths:
    """Build in each month in turn, and at each moisture, and follow the piece through three years.

    Parameters
    ----------
    job
        What is built, where, and where it stands.
    planner
        Has the answers that are known already.

    Raises
    ------
    FileFaults, InputError
        As :meth:`scantling.plan.planner.Planner.plan`.
    """
    settled, works = planner.laid_out(job)
    seasons = plan_seasons(settled.piece, works, shop=job.shop, room=job.room, cache=planner.cache)
    held = shop_air(job.shop).year.emc_pct

    def day(month: Month, mc_pct: float) -> BuildDay:
        built = Built(mc_pct=mc_pct, month=month)
        years = wide_part_years(settled.piece, shop=job.shop, room=job.room, built=built, cache=planner.cache)
        as_cut = tightest_of(place_years(works, seasons, years))
        anew = tightest_of(_cut_for(job, planner, built))
        return _told(built, as_cut, anew, years)

    months = tuple(day(month, pct) for month, pct in zip(Month, held, strict=True))
    moistures = tuple(day(seasons.built_month, pct) for pct in _moistures(seasons))
    order = sorted(months, key=_rank)
    return BuildMonths(
        months=months,
        moistures=moistures,
        best=order[0].month,
        worst=order[-1].month,
        same_air=max(held) - min(held) < 0.1,
    )


def _rank(day: BuildDay) -> tuple[float, float, int]:
    """The roomiest first, by steps that matter; then the one that goes least far from how it was built."""
    room = day.cut_for_it.least_mm if day.cut_for_it is not None else -1e6
    return (-round(room / _ALIKE_MM), day.larger_mm, day.month.number)


def _moistures(seasons: Seasons) -> tuple[float, ...]:
    """Whole percents from a point below the driest of the room to a point above its wettest."""
    low = max(_LEAST_PCT, float(int(seasons.moisture.dry_pct - _STEP_PCT)))
    high = min(_MOST_PCT, seasons.moisture.wet_pct + _STEP_PCT)
    count = int((high - low) / _STEP_PCT) + 1
    return tuple(low + _STEP_PCT * step for step in range(count))


def _cut_for(job: Job, planner: Planner, built: Built) -> tuple[PlaceYear, ...]:
    """The places of the piece as it would be planned for another day; none where it cannot be."""
    climate = job.shop.climate.model_copy(update={"wood_pct": built.mc_pct, "milled_in": built.month.value})
    other = replace(job, shop=job.shop.model_copy(update={"climate": climate}))
    try:
        settled, works = planner.laid_out(other)
        assert abs(moisture_of(other.shop, other.room).build_pct - built.mc_pct) < 1e-9, "as it was given"
        seasons = plan_seasons(settled.piece, works, shop=other.shop, room=job.room, cache=planner.cache)
        years = wide_part_years(
            settled.piece, shop=other.shop, room=job.room, built=built, cache=planner.cache
        )
    except ScantlingError:
        return ()
    return place_years(works, seasons, years)


def _told(
    built: Built, as_cut: PlaceYear | None, anew: PlaceYear | None, years: dict[str, PartYear]
) -> BuildDay:
    most = max(
        years, key=lambda name: years[name].widest.change_mm - years[name].narrowest.change_mm, default=""
    )
    year = years.get(most)
    return BuildDay(
        month=built.month,
        mc_pct=built.mc_pct,
        as_cut=as_cut,
        cut_for_it=anew,
        part=most,
        narrower_mm=0.0 if year is None else max(0.0, -year.narrowest.change_mm),
        wider_mm=0.0 if year is None else max(0.0, year.widest.change_mm),
    )
