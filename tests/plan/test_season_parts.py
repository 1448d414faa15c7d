"""Parts through the year: strips that move differently, cup from both causes, an underside left bare."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from scantling.piece.model import Direction, Finish, StripRule
from scantling.plan.cache import Cache
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.plan.year.season_parts import SeasonPart, face_coats
from scantling.plan.year.seasons import Seasons, moisture_of, plan_seasons
from scantling.seasons.air import Month
from scantling.seasons.room_file import find_room
from scantling.wood.cup import cup_from_rings_mm
from scantling.wood.ring import Ring
from tests.plan.jobs import demo_job, demo_plan

STRIPS = (Ring.FLAT, Ring.QUARTER, Ring.FLAT, Ring.RIFT, Ring.FLAT)


@cache
def job() -> Job:
    """The reading table, its timber left to be bought."""
    return demo_job(rack=False)


def planned(job: Job) -> Seasons:
    """Only the seasons of a job."""
    return plan_seasons(job.piece, Planner().works(job), shop=job.shop, room=job.room, cache=Cache())


def with_top(**more: object) -> Job:
    """The table with another top."""
    parts = dict(job().piece.parts)
    parts["top"] = replace(parts["top"], **more)  # type: ignore[arg-type]
    return replace(job(), piece=replace(job().piece, parts=parts))


def finished(coats: int, hidden: int, *, under: bool = False) -> Job:
    """The table with other coats of film varnish; its top shows its underside only if told so."""
    finish = Finish(system="film varnish", coats=coats, hidden_coats=hidden)
    top = job().piece.parts["top"]
    bare = with_top(show=top.show if under else top.show - {Direction.BOTTOM})
    return replace(bare, piece=replace(bare.piece, finish=finish))


def top_of(seasons: Seasons) -> SeasonPart:
    """The top."""
    return next(part for part in seasons.parts if part.part == "top")


def test_a_mixed_top_moves_by_the_sum_of_its_strips() -> None:
    """Three flat, a quarter and a rift of 132 mm, 0.00248, 0.00126 and their mean, over the flat top."""
    mixed = top_of(planned(with_top(strips=StripRule(count=5, least_mm=60, most_mm=150, rings=STRIPS))))
    flat = top_of(planned(job()))
    mean = (3 * 0.00248 + 0.00126 + (0.00248 + 0.00126) / 2.0) / 5.0
    assert mixed.coefficient == pytest.approx(mean)
    assert mixed.rings == "3 flat, 1 quarter, 1 rift"
    # outside 6 to 14 % the full shrinkage is used, so the ratio is that of the shrinkages to a percent
    assert mixed.narrowest_mm / flat.narrowest_mm == pytest.approx(mean / 0.00248, rel=0.01)
    for one, other in zip(mixed.months, flat.months, strict=True):
        assert one.mean_pct == pytest.approx(other.mean_pct)
        assert one.width_change_mm == pytest.approx(
            other.width_change_mm * mean / 0.00248, rel=0.01, abs=1e-3
        )


def test_rings_at_an_angle_are_told_as_such() -> None:
    """30 deg: a coefficient of 0.00248 x 3/4 + 0.00126 x 1/4, and the words and figures to go with it."""
    top = top_of(planned(with_top(ring=Ring(30.0))))
    assert top.coefficient == pytest.approx(0.002175)
    assert (top.rings, top.strip_rings_deg, top.strip_widths_mm) == ("30° rings", (30.0,), (660.0,))


def test_a_bare_underside_cups_the_top_and_the_plan_says_so() -> None:
    """Varnish above and nothing below: the top cups, F52 names the figure; alike on both faces it is flat."""
    assert top_of(planned(finished(4, 4))).largest_cup_mm == pytest.approx(0.0, abs=1e-6)
    one_sided = Planner().plan(finished(4, 0))
    cup = abs(top_of(one_sided.seasons).largest_cup_mm)
    assert cup > 1.0
    [told] = [found for found in one_sided.findings if found.code == "F52"]
    assert told.numbers["cup_mm"] == pytest.approx(cup)
    assert f"{cup:.1f} mm" in told.message


def test_faces_that_show_get_all_coats() -> None:
    """A top that shows on both sides is finished on both; a panel that shows on none is alike too."""
    finish = Finish(system="film varnish", coats=4, hidden_coats=1)
    top = job().piece.parts["top"]
    shown = {face: replace(top, show=frozenset(face)) for face in ((), (Direction.TOP,), tuple(Direction))}
    assert [face_coats(part, finish) for part in shown.values()] == [(1, 1), (4, 1), (4, 4)]
    assert top_of(planned(finished(4, 0, under=True))).largest_cup_mm == pytest.approx(0.0, abs=1e-6)
    assert "F52" not in {found.code for found in Planner().plan(finished(4, 0, under=True)).findings}


def test_moisture_outside_the_published_range_is_told() -> None:
    """The high plains dry wood to 4.5 %: full shrinkage is used there, and every width says so."""
    assert "outside 6..14 %" in top_of(demo_plan().seasons).note
    mild = replace(job(), room=find_room("mild-damp-house"))
    assert min(mild.room.year.emc_pct) > 6.0
    assert top_of(planned(mild)).note == ""


def test_a_strip_cups_by_its_rings_and_quarter_sawn_ones_do_not() -> None:
    """The strips the plan glues the top from, 100 mm from the pith, four points drier."""
    top = top_of(demo_plan().seasons)
    strips = next(ledger.strips for ledger in demo_plan().milling if ledger.part == "top")
    assert strips is not None
    assert top.ring_cup.strip_mm == pytest.approx(max(strips.widths_mm))
    tangential = top.narrowest_mm / top.width_mm
    by_hand = cup_from_rings_mm(
        top.ring_cup.strip_mm,
        pith_distance_mm=100.0,
        tangential_strain=tangential,
        radial_strain=tangential * 3.7 / 7.1,  # cherry's shrinkages, Wood Handbook, Table 4-3
    )
    assert top.ring_cup.dry_mm == pytest.approx(by_hand, rel=0.03)
    assert top.ring_cup.wet_mm == pytest.approx(0.0, abs=1e-3)
    alike = top.ring_cup.dry_mm * (top.width_mm / top.ring_cup.strip_mm) ** 2
    assert top.ring_cup.alike_mm == pytest.approx(alike)
    quarter = top_of(planned(with_top(ring=Ring.QUARTER)))
    assert quarter.ring_cup.dry_mm == pytest.approx(0.0, abs=1e-9)


def test_of_mixed_strips_the_flat_ones_cup() -> None:
    """The cup told is that of a flat-sawn strip, whichever stands first."""
    rule = StripRule(count=5, least_mm=60, most_mm=150, rings=STRIPS[::-1])
    cup = top_of(planned(with_top(strips=rule))).ring_cup
    assert cup.strip_mm == pytest.approx(132.0)
    assert cup.dry_mm > 0.1


def test_along_the_grain_the_top_changes_a_fraction_of_a_millimeter() -> None:
    """0.15 % from green to dry over thirty points (from memory): 1220 mm by four points, 0.24 mm."""
    top, m = top_of(planned(job())), planned(job()).moisture
    length = job().piece.parts["top"].length_mm
    assert top.length_change_mm == pytest.approx(length * 0.0015 / 30.0 * (m.wet_pct - m.dry_pct))
    assert top.length_change_mm < 0.5


def measured(wood_pct: float | None, month: str | None = None) -> Job:
    """The table made of wood measured on the day it is milled."""
    climate = job().shop.climate.model_copy(update={"wood_pct": wood_pct, "milled_in": month})
    return replace(job(), shop=job().shop.model_copy(update={"climate": climate}))


def test_wood_measured_at_milling_sets_the_joints() -> None:
    """At 7 % instead of the 8.5 of the shop's air the table shrinks less and has room to swell."""
    seasons = planned(measured(7.0, "oct"))
    assert seasons.moisture.build_pct == 7.0
    assert (seasons.built_month, seasons.built_month_assumed) == (Month.OCT, False)
    assert abs(top_of(seasons).narrowest_mm) < abs(top_of(planned(job())).narrowest_mm)
    assert top_of(seasons).widest_mm > 0.0
    assert moisture_of(job().shop, job().room).build_pct == pytest.approx(8.49, abs=0.01)


def test_without_a_month_january_is_assumed_and_moves_no_slot() -> None:
    """Same wood, no month or October: the slots and the year are the same, and the plan knows it assumed."""
    assumed, october = planned(measured(7.0)), planned(measured(7.0, "oct"))
    assert (assumed.built_month, assumed.built_month_assumed) == (Month.JAN, True)
    assert assumed.joints == october.joints
    for one, other in zip(top_of(assumed).months, top_of(october).months, strict=True):
        assert one.width_change_mm == pytest.approx(other.width_change_mm, abs=0.02)


def test_wood_milled_too_wet_is_told_with_what_to_wait_for() -> None:
    """11 % where the house swings about 6.5: F35; F36 speaks of the shop's air all the same."""
    found = {f.code: f for f in Planner().plan(measured(11.0)).findings}
    assert found["F35"].numbers["mc_pct"] == 11.0
    assert found["F35"].numbers["mass_share_pct"] == pytest.approx(100 * 108.5 / 111.0, abs=0.1)
    assert "F35" not in {f.code for f in Planner().plan(measured(8.0)).findings}
