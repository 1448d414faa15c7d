"""Joints as they are cut in other years: another room, another month, another moisture of the wood."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from scantling.plan.build_months import BuildMonths, plan_build_months
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.plan.year.other_years import PlaceYear, place_years, tightest_of
from scantling.plan.year.seasons import wide_part_years
from scantling.seasons.air import Month
from scantling.seasons.room import Room
from scantling.seasons.room_file import find_room
from scantling.seasons.year import Built
from tests.plan.jobs import demo_job, demo_plan

__all__: list[str] = []


def _with_air(driest_pct: float, wettest_pct: float) -> Job:
    job = demo_job()
    climate = job.shop.climate.model_copy(update={"driest_pct": driest_pct, "wettest_pct": wettest_pct})
    return replace(job, shop=job.shop.model_copy(update={"climate": climate}))


@cache
def _months() -> BuildMonths:
    """The demo piece from a shop whose air goes from 30 to 60 % humidity."""
    return plan_build_months(_with_air(30.0, 60.0), Planner())


def _places(room: Room, built: Built) -> dict[tuple[str, str], PlaceYear]:
    plan, job = demo_plan(), demo_job()
    years = wide_part_years(job.piece, shop=job.shop, room=room, built=built, cache=Planner().cache)
    found = place_years(plan.joints, plan.seasons, years)
    return {(one.place.joint, one.place.what): one for one in found}


def test_on_the_day_and_in_the_room_of_the_plan_it_is_the_plan() -> None:
    """Every place has the room the plan gives it, in each of twelve months."""
    plan, job = demo_plan(), demo_job()
    built = Built(mc_pct=plan.seasons.moisture.build_pct, month=plan.seasons.built_month)
    found = _places(job.room, built)
    assert len(found) == len(plan.year.places) > 10
    for place in plan.year.places:
        assert found[place.joint, place.what].place.rooms_mm == pytest.approx(place.rooms_mm)


def test_wood_built_wetter_than_planned_has_less_room_to_dry_by_what_it_dries_more() -> None:
    """By hand, in February: travel a point, from what the joint was laid out for, times the points."""
    plan, job = demo_plan(), demo_job()
    moisture = plan.seasons.moisture
    there = moisture.build_pct
    found = _places(job.room, Built(mc_pct=there + 2.0, month=plan.seasons.built_month))
    as_planned = _places(job.room, Built(mc_pct=there, month=plan.seasons.built_month))
    freedoms = {(work.joint, f.what): f for work in plan.joints for f in work.freedoms}
    checked = 0
    for key, one in found.items():
        freedom = freedoms[key]
        a_point = freedom.shrink_travel_mm / moisture.shrink_pct
        if a_point < 0.05:
            continue
        checked += 1
        feb = Month.FEB.number
        gone = as_planned[key].place.moved_mm[feb] - one.place.moved_mm[feb]
        assert gone == pytest.approx(2.0 * a_point, rel=0.03, abs=0.01)
        assert one.place.rooms_mm[feb] == pytest.approx(
            min(
                freedom.shrink_room_mm + one.place.moved_mm[feb],
                freedom.swell_room_mm - one.place.moved_mm[feb],
            )
        )
    assert checked > 5


def test_a_damper_room_takes_room_from_places_that_go_damp() -> None:
    """A damp warm coast, for a piece laid out for the dry high plains: it binds there, and says where."""
    plan, job = demo_plan(), demo_job()
    built = Built(mc_pct=plan.seasons.moisture.build_pct, month=plan.seasons.built_month)
    here, there = _places(job.room, built), _places(find_room("damp-warm-coast"), built)
    damp = [key for key, one in there.items() if one.moves and not one.when_dry]
    assert len(damp) > 5
    assert all(there[key].least_mm < here[key].least_mm for key in damp)
    tightest = tightest_of(there.values())
    assert tightest is not None
    assert tightest.least_mm == min(one.least_mm for one in there.values() if one.moves) < 0.0


def test_the_month_told_is_the_one_with_the_least_room() -> None:
    """Of a settled year; at its worst from the day of building on there is no more than that."""
    for one in _places(demo_job().room, Built(mc_pct=12.0, month=Month.JUL)).values():
        assert one.place.rooms_mm[one.month.number] == min(one.place.rooms_mm)
        assert one.least_mm <= min(one.place.rooms_mm) + 1e-6


def test_every_month_is_built_at_what_the_shop_holds_then() -> None:
    """Driest in January, wettest in July; cut for the day joints never bind, as cut now some do."""
    months = _months()
    held = [day.mc_pct for day in months.months]
    assert held.index(min(held)) == Month.JAN.number
    assert held.index(max(held)) == Month.JUL.number
    assert months.same_air is False
    for day in months.months:
        assert day.cut_for_it is not None
        assert day.cut_for_it.least_mm > 0.4
    as_cut = [day.as_cut.least_mm for day in months.months if day.as_cut is not None]
    assert min(as_cut) < 0.0 < max(as_cut)


def test_the_best_month_is_the_one_it_moves_least_from_where_room_is_alike() -> None:
    """Near the middle of the room's swing the top goes as far both ways; in July only one way, and far."""
    months = _months()
    best, worst = months.day(months.best), months.day(months.worst)
    assert best.cut_for_it is not None
    assert worst.cut_for_it is not None
    assert best.larger_mm == pytest.approx(min(day.larger_mm for day in months.months), abs=0.3)
    assert worst.larger_mm > 1.8 * best.larger_mm
    target = 0.5 * (demo_plan().seasons.moisture.dry_pct + demo_plan().seasons.moisture.wet_pct)
    assert abs(best.mc_pct - target) < abs(worst.mc_pct - target)


def test_wetter_wood_shrinks_more_and_swells_less() -> None:
    """Moistures rise by a point from below the driest to above the wettest; what moves most is told."""
    days = _months().moistures
    assert [b.mc_pct - a.mc_pct for a, b in pairwise(days)] == pytest.approx([1.0] * (len(days) - 1))
    assert {day.part for day in days} == {"top"}
    for one, other in pairwise(days):
        assert other.narrower_mm >= one.narrower_mm
        assert other.wider_mm <= one.wider_mm


def test_a_shop_with_one_air_all_year_says_so() -> None:
    """Then every month is built at the same moisture, and the moistures are left to choose by."""
    months = plan_build_months(_with_air(45.0, 45.0), Planner())
    assert months.same_air
    assert len({round(day.mc_pct, 6) for day in months.months}) == 1
