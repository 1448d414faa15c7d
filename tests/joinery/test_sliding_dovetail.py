"""Housings that flare: what comes off both parts, which way they slide, and what is too thin."""

from __future__ import annotations

from typing import Any

import pytest

from scantling.errors import FileFaults
from tests.joinery.bench import YEAR, Made, made_of
from tests.joinery.judging import found_codes
from tests.joinery.samples import SAMPLES, Options


def shelf(copy: Options | None = None, **options: Any) -> Made:
    """A shelf of 200 x 20 in a side of 22; or the joint between copies of both."""
    sample, tail = SAMPLES["housing"], "_copy" if copy else ""
    joint = {
        "kind": "housing",
        "between": [[f"a{tail}.end", f"b{tail}"]],
        "depth": 8,
        "clearance": 0,
        **options,
    }
    parts = {
        name: {**block, "copies": {f"{name}_copy": copy}} if copy else block
        for name, block in sample.parts.items()
    }
    return made_of(parts, {"j": joint})


@pytest.mark.parametrize("stopped", [0.0, 30.0])
def test_both_parts_lose_what_the_closed_form_says(stopped: float) -> None:
    """Two wedges of 8 x 1 / 2 off the shelf; 20 at the bottom, 18 at the mouth of the housing."""
    made = shelf(dovetail=8, stopped=stopped)
    wedges = 2.0 * (8.0 * 1.0 / 2.0) * (200.0 - stopped)
    assert made.removed_mm3("a") == pytest.approx(wedges + stopped * 8.0 * 20.0, rel=1e-6)
    assert made.removed_mm3("b") == pytest.approx((200.0 - stopped) * 8.0 * 19.0, rel=1e-6)
    assert made.in_the_way("a", "b") == ()


def test_it_slides_in_from_the_open_end_and_cannot_be_pulled_out() -> None:
    """Stopped at the front it goes in from the back; straight out it is held."""
    made = shelf(dovetail=7, stopped=25)
    work = made.works[0]
    assert work.leaves == pytest.approx((0.0, 1.0, 0.0))
    for by in (5.0, 60.0, 150.0, 260.0):
        assert made.leaving(work, by) == ()
    assert made.in_the_way("a", "b", moved=(-4.0, 0.0, 0.0)) != ()
    assert made.in_the_way("a", "b", moved=(0.0, -4.0, 0.0)) != ()


def test_a_square_housing_still_comes_straight_out() -> None:
    """Without the flare nothing holds it but glue."""
    made = shelf()
    assert made.works[0].leaves == pytest.approx((-1.0, 0.0, 0.0))
    assert made.in_the_way("a", "b", moved=(-4.0, 0.0, 0.0)) == ()


@pytest.mark.parametrize("mirror", [["left-right"], ["front-back"], ["left-right", "front-back"]])
def test_mirrored_shelves_are_cut_alike(mirror: list[str]) -> None:
    """The twin of a shelf loses as much, its side too, and it slides without meeting anything."""
    twin = shelf({"mirror": mirror, "turn": 30, "move": [10, -20, 5]}, dovetail=8)
    assert twin.removed_mm3("a_copy") == pytest.approx(8.0 * 200.0, rel=1e-6)
    assert twin.removed_mm3("b_copy") == pytest.approx(200.0 * 8.0 * 19.0, rel=1e-6)
    assert twin.in_the_way("a_copy", "b_copy") == ()
    assert twin.leaving(twin.works[0], 260.0) == ()


def test_a_neck_of_less_than_half_is_refused() -> None:
    """21 mm deep at one in four leaves 20 - 10.5 = 9.5 of 20."""
    with pytest.raises(FileFaults) as caught:
        shelf(dovetail=4, depth=21)
    assert [fault.code for fault in caught.value.faults] == ["neck_too_thin"]


def test_the_side_is_judged_by_the_depth_of_its_housing() -> None:
    """A flared housing half through its side is found as a square one is."""
    for flared in ({}, {"dovetail": 12}):
        assert "F22" in found_codes(shelf(depth=13.0, **flared), moisture=YEAR)
        assert "F22" not in found_codes(shelf(depth=8.0, **flared), moisture=YEAR)


def test_glue_holds_only_its_last_50_mm_and_no_clamp_presses_it() -> None:
    """20 wide and 8 deep, so 36 round; a square one is glued over its whole 200, and pressed."""
    (slid,), (square,) = (shelf(**o).works for o in ({"dovetail": 8}, {}))
    assert slid.glue[0].area_mm2 == pytest.approx(50.0 * 36.0)
    assert slid.glue[0].length_mm == pytest.approx(50.0)
    assert slid.clamp is None
    assert any("Glue the last 50 mm" in line for line in slid.steps)
    assert square.glue[0].area_mm2 == pytest.approx(200.0 * 36.0)
    assert square.clamp is not None


def test_a_dry_one_says_nothing_of_glue_to_spread() -> None:
    """Its sides hold it."""
    (work,) = shelf(dovetail=8, glued=False).works
    assert (work.glue, work.clamp, work.dry) == ((), None, True)
    assert not any("Glue the last" in line for line in work.steps)


@pytest.mark.parametrize("edge", ["front", "back"])
def test_a_housing_stopped_at_both_edges_shows_at_neither(edge: str) -> None:
    """200 less 30 and 12: 158 are let in 8 deep, and a corner is off the shelf at each edge."""
    made = shelf(stopped=30, stopped_at=edge, stopped_opposite=12)
    assert made.removed_mm3("a") == pytest.approx((30.0 + 12.0) * 8.0 * 20.0, rel=1e-6)
    assert made.removed_mm3("b") == pytest.approx(158.0 * 8.0 * 20.0, rel=1e-6)
    assert made.in_the_way("a", "b") == ()
    housing, tongue = made.works[0].marks
    assert (
        housing.note
        == f"stopped 30 mm from the {edge} and 12 mm from the {'back' if edge == 'front' else 'front'}"
    )
    assert (tongue.part, tongue.on_end) == ("a", True)
    assert (tongue.length_mm, tongue.width_mm, tongue.depth_mm) == pytest.approx((158.0, 20.0, 8.0))
    # its middle is 12 + 79 from the edge where it stops nearer: the nearer edge is measured from
    assert (tongue.from_end_mm, tongue.face.value) == (
        pytest.approx(91.0),
        "back" if edge == "front" else "front",
    )


def test_a_sliding_dovetail_shut_at_both_edges_is_refused() -> None:
    """Nothing would slide in."""
    with pytest.raises(FileFaults) as caught:
        shelf(dovetail=8, stopped=30, stopped_opposite=12)
    assert [fault.code for fault in caught.value.faults] == ["dovetail_shut"]
    assert shelf(dovetail=8, stopped_opposite=12).works[0].leaves == pytest.approx((0.0, -1.0, 0.0))


def test_an_end_that_goes_in_whole_has_nothing_to_mark() -> None:
    """Sawn to length it is done; a flare is told with what is left at the shoulder."""
    (plain,), (flared,) = (shelf(**o).works for o in ({}, {"dovetail": 8}))
    assert {mark.part for mark in plain.marks} == {"b"}
    assert flared.marks[1].note == "sliding dovetail 1 in 8, 18.0 mm thick at the shoulder"
