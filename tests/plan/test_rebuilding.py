"""A change cuts again the parts it changes, and nothing else."""

from __future__ import annotations

from scantling.plan.planner import Planner
from tests.plan.jobs import shipped_job


def test_a_longer_desk_cuts_its_top_and_stretcher_again_and_moves_the_rest() -> None:
    """Two of eight parts get another form; feet, posts and battens stand elsewhere and are as they were."""
    planner = Planner()
    planner.solids(shipped_job("trestle_desk"))
    built = planner.meshes.built
    assert built <= 8  # parts of one form are cut once
    planner.solids(shipped_job("trestle_desk", given={"length": "1440 mm"}))
    assert planner.meshes.built == built
    planner.solids(shipped_job("trestle_desk", given={"length": "1430 mm"}))
    assert planner.meshes.built == built + 2


def test_a_part_that_changes_leaves_the_joints_it_has_no_part_in() -> None:
    """A narrower top works its two joints to the battens again, and none of the six others."""
    planner = Planner()
    assert len(planner.works(shipped_job("trestle_desk"))) == 8
    assert planner.cache.worked["joint"] == 8
    planner.works(shipped_job("trestle_desk", given={"width": "690 mm"}))
    assert planner.cache.worked["joint"] == 8 + 2
