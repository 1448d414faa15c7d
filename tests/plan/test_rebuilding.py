"""A change cuts again the parts it changes, and nothing else."""

from __future__ import annotations

from scantling.joinery import look_at, look_at_text
from scantling.plan.planner import Planner
from scantling.plan.refusals import every_fault
from tests.plan.jobs import EXAMPLES, shipped_job


def test_a_longer_desk_cuts_its_top_and_stretcher_again_and_moves_the_rest() -> None:
    """Two of eight parts get another form; feet, posts and battens stand elsewhere and are as they were."""
    planner = Planner()
    planner.solids(shipped_job("trestle_desk"))
    built = planner.meshes.built
    assert built <= 8  # parts of one form are cut once
    planner.solids(shipped_job("trestle_desk", given={"length": "1600 mm"}))
    assert planner.meshes.built == built
    planner.solids(shipped_job("trestle_desk", given={"length": "1590 mm"}))
    assert planner.meshes.built == built + 2


def test_a_part_that_changes_leaves_the_joints_it_has_no_part_in() -> None:
    """A narrower top works its two joints to the battens again, and none of the six others."""
    planner = Planner()
    assert len(planner.works(shipped_job("trestle_desk"))) == 8
    assert planner.cache.worked["joint"] == 8
    planner.works(shipped_job("trestle_desk", given={"width": "690 mm"}))
    assert planner.cache.worked["joint"] == 8 + 2


def test_a_part_that_changes_is_held_against_its_neighbors_and_no_others() -> None:
    """Of a narrower top only the pairs it stands near are looked at again for wood in one place twice."""
    planner = Planner()
    planner.plan(shipped_job("trestle_desk"))
    looked = planner.cache.worked["overlap"]
    planner.plan(shipped_job("trestle_desk", given={"width": "690 mm"}))
    assert planner.cache.worked["overlap"] - looked < looked / 2


def test_a_size_that_is_tried_does_each_joint_once() -> None:
    """What is refused and what is drawn come from the same joints."""
    planner = Planner()
    reading = look_at(EXAMPLES / "trestle_desk.yaml")
    job = shipped_job("trestle_desk")
    assert every_fault(reading, shop=job.shop, room=job.room, one=planner.one_joint()) == ()
    planner.works(job)
    assert planner.cache.worked["joint"] == 8
    assert planner.cache.kept["joint"] == 8


def test_a_file_that_is_read_again_follows_its_text_and_what_is_given() -> None:
    """The form of a text is kept, its sizes are not: another size or another text gives another piece."""
    text = (EXAMPLES / "trestle_desk.yaml").read_text(encoding="utf-8")
    first = look_at_text(text).piece
    other = look_at_text(text, given={"width": "690 mm"}).piece
    again = look_at_text(text).piece
    assert first == again
    assert first.parts != other.parts
    assert look_at_text(text.replace("title:", "title: Other", 1)).piece.title != first.title
