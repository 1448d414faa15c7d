"""Figures of the sideboard's plan, worked by hand from the sizes in its file.

Its case is 1400 x 420, legs 45, 850 high with a top of 22; the drawer opening is 420. Movement is by eq. 13-3
of the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), D (M1 - M0) / (3000 / S - 30 + M0),
with its table 4-3: white oak 5.6 % radial, sugar maple 4.8 %. From the shop's 12.0 % to the flat's 5.38 %.
"""

from __future__ import annotations

from functools import cache

import pytest

from scantling.joinery.work import MarkKind
from scantling.plan.parts import PlannedPart
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.seasons import JointTravel
from tests.joinery.lively import lively_mm
from tests.plan.jobs import shipped_job

BUILD, DRY = 11.996, 5.377
OAK, MAPLE = 5.6, 4.8


@cache
def plan() -> Plan:
    """Its plan, with its rack."""
    return make_plan(shipped_job("sideboard"))


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
    """420 - 2 x 45 = 330 and 1400 - 2 x 45 = 1310 between shoulders; two tenons of 26 make 382 and 1362."""
    side, front = part("side_upper_left"), part("front_top")
    assert (side.shoulder_mm, side.length_mm) == pytest.approx((330.0, 382.0))
    assert (front.shoulder_mm, front.length_mm) == pytest.approx((1310.0, 1362.0))


def test_the_door_fills_its_opening_but_for_the_gaps() -> None:
    """From the leg, 655 less 1.5 for the hinge, to the divider at 210 + 22 = 232: a door of 421.5.

    Its rails: 421.5 - 2 x 60 = 301.5 between stiles, with two tenons of 34 369.5; its panel stands 8 in all
    round: 301.5 + 16 = 317.5. High: 828 - 28 - (120 + 28) = 652, less 2 and 2 648; the panel 648 - 120 + 16.
    """
    rail, panel = part("door_upper_left"), part("door_panel_left")
    assert (rail.shoulder_mm, rail.length_mm) == pytest.approx((301.5, 369.5))
    assert part("hinge_stile_left").length_mm == pytest.approx(648.0)
    assert (panel.width_mm, panel.length_mm) == pytest.approx((317.5, 544.0))


def test_back_panels_and_muntins_fill_the_back() -> None:
    """Muntins stand behind the partitions, 210 + 9 = 219 from the middle: 2 x 219 - 60 = 378 between them.

    Outside 655 - 219 - 30 = 406. All of it: 406 + 60 + 378 + 60 + 406 = 1310, leg to leg. Tongues add 16.
    """
    outer, middle = part("back_panel_left").width_mm, part("back_panel_middle").width_mm
    assert (outer, middle) == pytest.approx((406.0 + 16.0, 378.0 + 16.0))
    assert 2 * (outer - 16) + (middle - 16) + 2 * part("muntin_left").width_mm == pytest.approx(1310.0)


def test_three_drawer_fronts_share_the_height() -> None:
    """652 less two rails of 22 is 608, a third is 202.67; 1 mm off the height and 2 mm off 420 in width."""
    front = part("drawer_front_1")
    assert (front.length_mm, front.width_mm) == pytest.approx((418.0, 608.0 / 3.0 - 1.0))


def test_the_side_panel_stays_in_its_grooves() -> None:
    """Pinned in the middle: 173 x 6.62 / (3000 / 5.6 - 18.0) = 2.21 out of a groove it stands 8 in.

    It never gets damper than the shop: the groove is 8 and half a millimeter deep.
    """
    edge = travel("side_panel_in_frame.1")
    assert edge.shrink_travel_mm == pytest.approx(shrinks(346.0 / 2.0, OAK), abs=0.005)
    assert edge.shrink_travel_mm == pytest.approx(2.21, abs=0.005)
    assert (edge.shrink_room_mm, edge.cut_to_mm) == pytest.approx((8.0, 8.5))


def test_slots_under_the_drawer_back_are_as_long_as_the_bottom_moves() -> None:
    """350.5 wide, screws 18 from its back edge: 332.5 x 6.62 / (3000 / 4.8 - 18.0) = 3.63.

    The slot: the screw's 3.5, a quarter more than the 3.63 for a lively board, half a millimeter at each end.
    Dry, the bottom has come forward under the screws: so the slot's middle lies half of 4.54 behind them, at
    18 - 2.27 from the edge.
    """
    slot = travel("drawer_bottom_to_back.1")
    moves = shrinks(332.5, MAPLE)
    assert moves == pytest.approx(3.63, abs=0.005)
    lively = lively_mm(332.5, BUILD - DRY, per_pct=0.00165, shrinkage_pct=MAPLE, build_pct=BUILD)
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
    """Two stiles of 60 move it: 120 x 6.62 / (3000 / 5.6 - 18.0) = 1.53, on the 1 mm it is built with."""
    gap = travel("door_gap.1")
    assert gap.cut_to_mm == pytest.approx(1.0)
    assert gap.shrink_travel_mm == pytest.approx(1.53, abs=0.005)


def test_glue_of_a_drawer_is_that_of_its_housings() -> None:
    """Two, stopped 10 from the top of sides of 166.67, 12 wide, 6 deep: 2 x 156.67 x 24 = 7520 mm2."""
    stage = next(s for s in plan().gluing.stages if s.name.startswith("drawer_front_1 + "))
    assert stage.area_mm2 == pytest.approx(7520.0)


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
