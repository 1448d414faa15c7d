"""Edges of a panel against its breadboard ends, month by month."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.joinery.breadboard_end import BreadboardEndOptions, FixedAt
from scantling.plan.cache import Cache
from scantling.plan.planner import Planner
from scantling.plan.year.seasons import plan_seasons
from scantling.plan.year.year_edges import FELT_MM, EdgeYear
from scantling.plan.year.year_rooms import year_rooms
from scantling.seasons.air import Month
from tests.plan.jobs import demo_job, demo_plan


def test_held_at_its_middle_each_edge_steps_half_of_the_change() -> None:
    """The table's top: drawn flush, and every month each edge stands back half of what the top has lost."""
    plan = demo_plan()
    top = next(part for part in plan.seasons.parts if part.part == "top")
    assert [edge.edge.value for edge in plan.year.edges] == ["front", "back"]
    for edge in plan.year.edges:
        assert edge.built_mm == pytest.approx(0.0, abs=1e-6)
        for step, month in zip(edge.steps_mm, top.months, strict=True):
            assert step == pytest.approx(month.width_change_mm / 2.0)
        assert edge.driest_mm == pytest.approx(top.narrowest_mm / 2.0)
        assert edge.wettest_mm == pytest.approx(top.widest_mm / 2.0)


def edges_held_at(fixed: FixedAt) -> dict[str, EdgeYear]:
    """The table with its ends held otherwise."""
    job = demo_job(rack=False)
    joints = tuple(
        replace(joint, options=joint.options.model_copy(update={"fixed": fixed}))
        if isinstance(joint.options, BreadboardEndOptions)
        else joint
        for joint in job.piece.joints
    )
    job = replace(job, piece=replace(job.piece, joints=joints))
    works = Planner().works(job)
    seasons = plan_seasons(job.piece, works, shop=job.shop, room=job.room, cache=Cache())
    return {edge.edge.value: edge for edge in year_rooms(job.piece.parts, works, seasons).edges}


def test_held_in_front_the_back_edge_does_nearly_all_of_it() -> None:
    """The first tenon, 95 mm in, is held: that edge steps by 95 mm of wood, the other by all else."""
    middle, front = edges_held_at(FixedAt.MIDDLE), edges_held_at(FixedAt.FRONT)
    whole = middle["front"].driest_mm + middle["back"].driest_mm
    assert front["front"].driest_mm + front["back"].driest_mm == pytest.approx(whole)
    assert abs(front["front"].driest_mm) < abs(middle["front"].driest_mm) < abs(front["back"].driest_mm)


def test_months_are_called_flush_by_the_fingertip() -> None:
    """Those whose step is a fifth of a millimeter or less, and no others."""
    for edge in demo_plan().year.edges:
        felt = [abs(step) > FELT_MM for step in edge.steps_mm]
        assert [month not in edge.flush_months for month in Month] == felt
