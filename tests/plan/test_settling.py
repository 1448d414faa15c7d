"""Strips with unlike rings: the joints are laid out for what is sawn, each as wide as it is."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from scantling.joinery.travel import travel
from scantling.joinery.work import JointWork
from scantling.piece.model import SettledStrips, StripRule
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.plan.result import Plan
from scantling.plan.year.settling import ROUNDS, settled_strips
from scantling.shop.sizes.strips import StripPlan
from scantling.wood.moisture import MoistureRange
from scantling.wood.ring import Ring
from tests.plan.jobs import demo_job

SIX = (Ring.QUARTER, Ring.FLAT, Ring.FLAT, Ring.FLAT, Ring.FLAT, Ring.QUARTER)


@cache
def job() -> Job:
    """The reading table with a top of six strips, quarter-sawn at the edges."""
    bare = demo_job(rack=False)
    rule = StripRule(count=6, least_mm=60, most_mm=150, rings=SIX)
    parts = {**bare.piece.parts, "top": replace(bare.piece.parts["top"], strips=rule)}
    return replace(bare, piece=replace(bare.piece, parts=parts))


@cache
def plan() -> Plan:
    """Its plan, made once."""
    return Planner().plan(job())


def sawn() -> StripPlan:
    """The strips of the top as the milling sheet has them."""
    strips = next(ledger.strips for ledger in plan().milling if ledger.part == "top")
    assert strips is not None
    return strips


def test_the_year_counts_the_strips_as_they_are_sawn() -> None:
    """The widths between seams and edges of the milling sheet, uneven, are those of the seasons."""
    edges = (0.0, *sawn().seams_mm, 660.0)
    widths = [b - a for a, b in pairwise(edges)]
    top = next(part for part in plan().seasons.parts if part.part == "top")
    assert top.strip_widths_mm == pytest.approx(widths)
    assert top.strip_rings_deg == (90.0, 0.0, 0.0, 0.0, 0.0, 90.0)
    assert max(widths) - min(widths) > 10.0
    by_hand = ((widths[0] + widths[-1]) * 0.00126 + sum(widths[1:-1]) * 0.00248) / 660.0
    assert top.coefficient == pytest.approx(by_hand)
    assert by_hand != pytest.approx((2 * 0.00126 + 4 * 0.00248) / 6.0, rel=1e-3)


def test_travel_sums_the_strips_as_they_are_sawn() -> None:
    """Cherry, 8 to 6 %, from the middle to the edge at +v: 180 mm flat and 150 quarter, by hand 1.2708 mm.

    Strips of 110 (quarter), 100, 100, 130, 70 and 150 mm (quarter): beyond the middle lie 110 of the fourth,
    the 70 and the 150. (180 x 0.00248 + 150 x 0.00126) x 2; of six equal strips it would be
    (220 x 0.00248 + 110 x 0.00126) x 2 = 1.3684.
    """
    top = job().piece.parts["top"]
    glued = (116.0, 100.0, 100.0, 130.0, 70.0, 157.0)
    strips = SettledStrips(glued_mm=glued, trim_first_mm=6.0, trim_last_mm=7.0)
    assert strips.finished_mm == (110.0, 100.0, 100.0, 130.0, 70.0, 150.0)
    settled = replace(top, strips=replace(top.strips, settled=strips))
    year = MoistureRange(build_pct=8.0, dry_pct=6.0, wet_pct=10.0)
    assert travel(settled, 330.0, year).shrink_mm == pytest.approx(1.2708)
    assert travel(top, 330.0, year).shrink_mm == pytest.approx(1.3684)


def test_slots_follow_the_strips_as_they_are_sawn() -> None:
    """Whatever moves with the top travels by the widths of the milling sheet, not by equal ones."""
    moisture, top = plan().seasons.moisture, job().piece.parts["top"]
    settled = replace(top, strips=replace(top.strips, settled=_settled()))
    moved = [j for j in plan().seasons.joints if j.part == "top" and j.shrink_travel_mm > 0.5]
    other = 0
    for joint in moved:
        sawn_mm, equal_mm = (
            [travel(part, side * joint.from_fixed_mm, moisture).shrink_mm for side in (1, -1)]
            for part in (settled, top)
        )
        assert any(joint.shrink_travel_mm == pytest.approx(mm) for mm in sawn_mm)
        other += all(joint.shrink_travel_mm != pytest.approx(mm, rel=1e-4) for mm in equal_mm)
    assert other > 0


def _settled() -> SettledStrips:
    return SettledStrips(
        glued_mm=sawn().widths_mm,
        trim_first_mm=sawn().trim_first_mm,
        trim_last_mm=sawn().trim_mm - sawn().trim_first_mm,
    )


def test_settling_again_changes_nothing() -> None:
    """Strips and joints agree: one more round leaves the job as it is, and the plan has its strips."""
    planner = Planner()
    once = settled_strips(job(), planner._joined)
    assert settled_strips(once, planner._joined) == once
    assert once.piece.parts["top"].strips.settled == _settled()


def test_joints_that_never_rest_end_after_four_rounds() -> None:
    """Slots that come and go with every round are asked for four times and no more."""
    planner, rounds = Planner(), []

    def restless(asked: Job) -> tuple[JointWork, ...]:
        rounds.append(asked)
        return planner._joined(asked) if len(rounds) % 2 else ()

    settled = settled_strips(job(), restless)
    assert len(rounds) == ROUNDS == 4
    assert settled != rounds[-1]


def test_other_pieces_are_left_as_they_are() -> None:
    """Without strips of unlike rings no joint is worked twice, and the job stays as it is."""
    bare = demo_job(rack=False)
    worked: list[Job] = []

    def once(asked: Job) -> tuple[JointWork, ...]:
        worked.append(asked)
        return ()

    assert settled_strips(bare, once) is bare
    assert worked == []
