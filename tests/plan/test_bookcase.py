"""The shipped bookcase is joined as it was drawn up: a dovetailed shelf, shelves on pins, a framed back."""

from __future__ import annotations

import pytest

from scantling.joinery.work import JointWork
from scantling.piece.model import Direction
from tests.plan.test_scenarios import found, part, plan


def works(family: str) -> list[JointWork]:
    """Its joints of one family."""
    return [work for work in plan("bookcase").joints if work.family == family]


def test_bookcase_is_joined_as_it_was_drawn_up() -> None:
    """A shelf in a sliding dovetail, top and bottom housed, four on pins; four panels behind; plinth 90."""
    housed = {work.first: work for work in works("housing")}
    assert set(housed) == {"bottom", "top", "mid_shelf"}
    slid = [name for name, work in housed.items() if work.leaves == Direction.BACK.vector]
    assert slid == ["mid_shelf"]
    loose = {f"{where}_shelf_{number}" for where in ("lower", "upper") for number in (1, 2)}
    assert {work.first for work in works("shelf_pin")} == loose
    panels = {work.first for work in works("panel_groove")}
    assert panels == {f"{where}_panel_{side}" for where in ("low", "high") for side in ("left", "right")}
    assert part("bookcase", "plinth_rail").width_mm == pytest.approx(90.0)
    middle = part("bookcase", "mid_shelf")
    assert (middle.width_mm, middle.length_mm) == pytest.approx((280.0, 856.0))


def test_bookcase_has_one_story_stick_for_all_its_rows() -> None:
    """Shelves 8 x 38 = 304 apart from the top down: every hole is on one rule of 38, left and right alike."""
    heights = {side: set[float]() for side in ("side_left", "side_right")}
    for work in works("shelf_pin"):
        heights[work.second] |= {round(mark.from_end_mm, 3) for mark in work.marks}
    left, right = (sorted(each) for each in heights.values())
    assert left == right
    assert len(left) == 4 * 5
    assert {round((height - left[0]) % 38.0, 3) % 38.0 for height in left} == {0.0}
    under = 439.0 - 11.0 - 6.35 / 2.0
    assert left[0] == pytest.approx(under - 2 * 38.0, abs=0.001)
    for code in ("F14", "F77", "F78", "F79", "F80"):
        assert not found("bookcase", code)


def test_bookcase_back_moves_in_its_frame_and_keeps_the_case_square() -> None:
    """359 of flat maple held in the middle: half of 359 x .00353 x its points goes into either groove.

    The frame's stiles are screwed in rabbets of the sides, grain along grain, its rails to the three boards.
    """
    moisture = plan("bookcase").seasons.moisture
    wide = part("bookcase", "low_panel_left").width_mm
    assert wide == pytest.approx(373.0 - 30.0 + 16.0)
    grows = wide * 0.00353 * (moisture.wet_pct - moisture.build_pct)
    edges = [freedom for work in works("panel_groove") for freedom in work.freedoms]
    assert len(edges) == 8
    for edge in edges:
        assert edge.swell_travel_mm == pytest.approx(grows / 2.0, rel=1e-3)
        assert not edge.binds
    assert {(work.first, work.second) for work in works("rabbet")} == {
        ("back_stile_left", "side_left"),
        ("back_stile_right", "side_right"),
    }
    assert {work.second for work in works("plain_screw")} == {"top", "mid_shelf", "bottom"}
    for code in ("F02", "F03", "F08"):
        assert not found("bookcase", code)


@pytest.mark.parametrize("given", [{}, {"side": "30 mm"}, {"height": "1200 mm", "loose_shelves": "3"}])
def test_no_screw_or_pin_of_the_bookcase_runs_into_a_housing(given: dict[str, str]) -> None:
    """The screws of the back stand 80 from its ends, clear of a top 30 under them and up to 30 thick."""
    for code in ("F14", "F15", "F77", "F78", "F79", "F80"):
        assert not found("bookcase", code, **given)
