"""Figures of the sideboard's plan, worked by hand from the sizes in its file.

Its case is 1400 x 480, legs 45, 850 high with a top of 22; the fronts of the drawers are 420 long. Movement
is by eq. 13-3 of the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), D (M1 - M0) / (3000
/ S - 30 + M0), with its table 4-3: white oak 5.6 % radial, sugar maple 4.8 %. From the shop's 12.0 % to the
flat's 5.38 %.
"""

from __future__ import annotations

from functools import cache
from math import hypot

import pytest

from scantling.joinery.work import MarkKind
from scantling.plan.parts import PlannedPart
from scantling.plan.result import Plan
from scantling.plan.year.seasons import JointTravel
from tests.joinery.lively import lively_mm
from tests.plan.jobs import shipped_plan

BUILD, DRY = 11.996, 5.377
OAK, MAPLE = 5.6, 4.8


@cache
def plan() -> Plan:
    """Its plan, with its rack."""
    return shipped_plan("sideboard")


def part(name: str) -> PlannedPart:
    """A part of the plan."""
    return next(p for p in plan().parts if p.name == name)


def travel(joint: str) -> JointTravel:
    """The first place of a joint that moves."""
    return next(t for t in plan().seasons.joints if t.joint == joint)


def shrinks(width: float, total: float) -> float:
    """What a quarter-sawn width loses from the shop to the dry winter, by eq. 13-3. [mm]"""
    return width * (BUILD - DRY) / (3000.0 / total - 30.0 + BUILD)


def test_rails_reach_from_leg_to_leg_with_a_tenon_at_each_end() -> None:
    """480 - 2 x 45 = 390 and 1400 - 2 x 45 = 1310 between shoulders; two tenons of 26 make 442 and 1362."""
    side, front = part("side_upper_left"), part("front_top")
    assert (side.shoulder_mm, side.length_mm) == pytest.approx((390.0, 442.0))
    assert (front.shoulder_mm, front.length_mm) == pytest.approx((1310.0, 1362.0))


def test_the_door_fills_its_opening_but_for_the_gaps() -> None:
    """Of 1310 the drawers take 420 and 1 on either side, the divider 22: 866 for two doors.

    Less 1.5 for each hinge and 1 between them 862, 431 each. Their rails: 431 - 2 x 60 = 311 between stiles,
    with two tenons of 34 379; the panel stands 9.5 in each stile, in grooves 10 deep: 311 + 19 = 330. High:
    828 - 28 - (132 + 28) = 640, less 2 and 2 636; the panel stands 9 in each rail: 636 - 120 + 18 = 534.
    """
    rail, panel = part("door_upper_left"), part("door_panel_left")
    assert (rail.shoulder_mm, rail.length_mm) == pytest.approx((311.0, 379.0))
    assert part("hinge_stile_left").length_mm == pytest.approx(636.0)
    assert (panel.width_mm, panel.length_mm) == pytest.approx((330.0, 534.0))


def test_back_panels_and_muntins_fill_the_back() -> None:
    """One muntin stands behind the partition, 655 - 422 - 9 = 224 left of the middle.

    655 - 224 - 30 = 401 beyond.

    The other halves the rest: 1310 - 401 - 2 x 60 = 789, 394.5 twice. All of it: 401 + 60 + 394.5 + 60 +
    394.5 = 1310, leg to leg. Tongues add 19.
    """
    outer, middle = part("back_panel_left").width_mm, part("back_panel_middle").width_mm
    assert (outer, middle) == pytest.approx((401.0 + 19.0, 394.5 + 19.0))
    assert (outer - 19) + 2 * (middle - 19) + 2 * part("back_muntin_left").width_mm == pytest.approx(1310.0)
    assert part("back_panel_right").width_mm == pytest.approx(middle)


def test_three_drawer_fronts_share_the_height() -> None:
    """640 less two rails of 22 and six gaps of 1 is 590: 240, 200 and 150, the lowest the highest."""
    for k, high in ((1, 240.0), (2, 200.0), (3, 150.0)):
        front = part(f"drawer_front_{k}")
        assert (front.length_mm, front.width_mm) == pytest.approx((420.0, high))


def test_the_side_panel_stays_in_its_grooves() -> None:
    """Two of (480 - 90 - 60) / 2 + 19 = 184, pinned in the middle.

    92 x 6.62 / (3000 / 5.6 - 18.0) = 1.18 of 9.5.

    It never gets damper than the shop: the groove is 9.5 and half a millimeter deep, 10.
    """
    edge = travel("side_panel_in_frame.1")
    assert edge.shrink_travel_mm == pytest.approx(shrinks(184.0 / 2.0, OAK), abs=0.005)
    assert edge.shrink_travel_mm == pytest.approx(1.18, abs=0.005)
    assert (edge.shrink_room_mm, edge.cut_to_mm) == pytest.approx((9.5, 10.0))


def test_slots_under_the_drawer_back_are_as_long_as_the_bottom_moves() -> None:
    """410.5 wide, screws 18 from its back edge: 392.5 x 6.62 / (3000 / 4.8 - 18.0) = 4.28.

    The slot: the screw's 3.5, a quarter more than the 4.28 for a lively board, half a millimeter at each end.
    Dry, the bottom has come forward under the screws: so the slot's middle lies half of 5.36 behind them, at
    18 - 2.68 from the edge.
    """
    slot = travel("drawer_bottom_to_back.1")
    moves = shrinks(392.5, MAPLE)
    assert moves == pytest.approx(4.28, abs=0.005)
    lively = lively_mm(392.5, BUILD - DRY, per_pct=0.00165, shrinkage_pct=MAPLE, build_pct=BUILD)
    assert lively == pytest.approx(1.25 * moves, rel=0.002)
    assert slot.cut_to_mm == pytest.approx(3.5 + lively + 1.0, abs=0.005)
    marks = [
        mark
        for work in plan().joints
        for mark in work.marks
        if mark.part == "drawer_bottom_1" and mark.kind is MarkKind.SLOT
    ]
    assert [mark.from_face_mm for mark in marks] == pytest.approx([18.0 - lively / 2.0] * 3, abs=0.005)


def test_the_door_gap_of_the_dry_season() -> None:
    """Four stiles of 60 move it: 240 x 6.62 / (3000 / 5.6 - 18.0) = 3.07, on the 1 mm it is built with."""
    gap = travel("door_gap")
    assert gap.cut_to_mm == pytest.approx(1.0)
    assert gap.shrink_travel_mm == pytest.approx(3.07, abs=0.005)


def test_glue_of_a_drawer_is_that_of_its_dovetails_and_housings() -> None:
    """The lowest: 5 tails 15 long at 1:7 in sides of 14, 2 x 5 x 15.15 x 14 = 2121 mm2 a corner.

    Its back, 232 - 6 - 10 - 8 = 208 high and 12 thick, 3 deep in each side: 208 x (12 + 2 x 3) = 3744.
    """
    stage = next(s for s in plan().gluing.stages if s.name.startswith("drawer_front_1 + "))
    assert stage.area_mm2 == pytest.approx(2.0 * (140.0 * hypot(15.0, 15.0 / 7.0) + 3744.0))


def test_tenons_of_one_leg_miter_where_they_meet() -> None:
    """Two mortises 26 + 1 deep, each in the middle of its face: the other's begins at 22.5 - 4, so they meet.

    A side rail of 80 less a shoulder of 14 and a haunch of 28 leaves a tenon of 38, its middle 28 + 19 down;
    the back's, with a haunch of 22, one of 44, its middle 22 + 22 down.
    """
    mortises = [
        mark
        for work in plan().joints
        for mark in work.marks
        if mark.part == "leg_bl" and mark.kind is MarkKind.MORTISE and mark.end.value == "end"
    ]
    mortises.sort(key=lambda mark: mark.from_end_mm)
    assert [m.depth_mm for m in mortises] == pytest.approx([27.0, 27.0])
    assert [m.from_end_mm for m in mortises] == pytest.approx([44.0, 47.0])
    assert [m.length_mm for m in mortises] == pytest.approx([44.0, 38.0])


def test_the_tails_of_the_drawers() -> None:
    """Half-blind: 15 of fronts of 20, 1 in 7; of the lowest 5 on 232, outer pins of 6: 39.2 wide, pins 6."""
    tails = [
        mark
        for work in plan().joints
        for mark in work.marks
        if mark.part == "drawer_side_left_1" and mark.kind is MarkKind.TAIL
    ]
    assert [mark.depth_mm for mark in tails] == pytest.approx([15.0] * 5)
    assert [mark.length_mm for mark in tails] == pytest.approx([(232.0 - 6 * 6.0) / 5.0] * 5, abs=0.05)
    assert "tails 1 in 7, 15 mm long" in {mark.setup for mark in tails}


def test_grooves_for_the_runners_are_higher_than_they_by_the_play() -> None:
    """Runners of 18 stand 6 in the sides; they never swell past the shop.

    18.5 high, 6.5 deep, stopped in front.
    """
    grooves = [
        mark
        for work in plan().joints
        if work.family == "drawer_groove"
        for mark in work.marks
        if mark.kind is MarkKind.GROOVE
    ]
    assert len(grooves) == 6
    for mark in grooves:
        assert (mark.width_mm, mark.depth_mm) == pytest.approx((18.5, 6.5))


def test_the_top_is_kept_in_front_and_let_go_behind() -> None:
    """Buttons at the back rail, 480 - 22.5 = 457.5 behind the front edge.

    457.5 x 6.62 / (3000 / 5.6 - 18.0) = 5.85.

    Of the 11 they stand in that leaves 5.15; drying only draws them out, and the mortise is half a millimeter
    deeper.
    """
    button = travel("top_on_case.1")
    assert button.shrink_travel_mm == pytest.approx(shrinks(457.5, OAK), abs=0.005)
    assert button.shrink_travel_mm == pytest.approx(5.85, abs=0.005)
    assert (button.shrink_room_mm, button.cut_to_mm) == pytest.approx((11.0, 11.5))
