"""Figures of the blanket chest's plan, worked by hand from the sizes in its file.

Its box is 1100 x 520 of 20 mm boards, 520 high with a lid of 22; feet of 40 are cut in the ends. Movement is
by eq. 13-2 of the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), eastern white pine
0.00212 a percent tangential, yellow-poplar 0.00289; from the shop's 8.95 % to 6.19 and 11.00 % in the house.
"""

from __future__ import annotations

from functools import cache
from math import pi

import pytest

from scantling.joinery.work import Mark, MarkKind
from scantling.piece.shaping import cut_out_area_mm2
from scantling.plan.parts import PlannedPart
from scantling.plan.result import Plan
from tests.joinery.lively import lively_mm
from tests.plan.jobs import shipped_job, shipped_plan

BUILD, DRY, WET = 8.953, 6.188, 11.000
PINE, POPLAR = 0.00212, 0.00289


@cache
def plan() -> Plan:
    """Its plan, with its rack."""
    return shipped_plan("blanket_chest")


def part(name: str) -> PlannedPart:
    """A part of the plan."""
    return next(p for p in plan().parts if p.name == name)


def marks(family: str, kind: MarkKind, on: str) -> list[Mark]:
    """What is marked on a part for one family of joints."""
    return [
        m
        for work in plan().joints
        if work.family == family
        for m in work.marks
        if (m.part, m.kind) == (on, kind)
    ]


def test_the_front_and_its_bottom_boards_fill_the_box() -> None:
    """1100 - 2 x 20 = 1060 between shoulders, 1100 with the tails; 520 - 22 - 40 = 458 wide.

    Eight boards stand 6 mm in each end and lie 10 over each other: (1060 + 12 - 10) / 8 = 132.75 from one to
    the next, 142.75 wide; 480 + 2 x 8 = 496 long.
    """
    front, board = part("front"), part("bottom_board_1")
    assert (front.shoulder_mm, front.length_mm, front.width_mm) == pytest.approx((1060.0, 1100.0, 458.0))
    assert (board.width_mm, board.length_mm) == pytest.approx((142.75, 496.0))
    assert part("end_left").width_mm == pytest.approx(498.0)


def test_eight_tails_and_seven_pins_share_the_width() -> None:
    """458 less two half pins of 8 and seven pins of 10 is 372: tails of 46.5, the first at 31.25."""
    tails = [m for m in marks("dovetail", MarkKind.TAIL, "front") if m.end.value == "end"]
    assert len(tails) == 8
    assert tails[0].length_mm == pytest.approx(372.0 / 8.0)
    places = sorted(m.from_end_mm for m in tails)
    assert places[0] == pytest.approx(8.0 + 372.0 / 16.0)
    assert places[2] == pytest.approx(8.0 + 372.0 / 16.0 + 56.5)


def test_the_sockets_end_above_the_feet() -> None:
    """From the bottom of an end the lowest socket is 40 mm farther than from its top: 71.25 and 31.25."""
    sockets = [m for m in marks("dovetail", MarkKind.SOCKET, "end_left") if m.end.value == "end"]
    ends = {m.face: min(o.from_end_mm for o in sockets if o.face is m.face) for m in sockets}
    assert sorted(ends.values()) == pytest.approx([31.25, 71.25])


def test_the_feet_are_three_times_as_long_as_they_are_high() -> None:
    """3 x 40 = 120 at each end, 280 between; 280 x 40 less 2 x 32^2 (1 - pi / 4) is 10760.5 mm2 of 20 mm."""
    end = shipped_job("blanket_chest").piece.parts["end_left"]
    [cut_out] = end.shaping
    assert (cut_out.start_mm - end.start_mm, end.end_mm - cut_out.end_mm) == pytest.approx((120.0, 120.0))
    area = cut_out_area_mm2(cut_out.end_mm - cut_out.start_mm, cut_out.size_mm, cut_out.corner_mm)
    assert area == pytest.approx(280.0 * 40.0 - 2.0 * 32.0**2 * (1.0 - pi / 4.0))
    assert area == pytest.approx(10760.5, abs=0.05)
    assert not [f for f in plan().findings if f.code == "F12"]


def test_one_groove_takes_all_bottom_boards() -> None:
    """From 6 mm past one shoulder to 6 past the other, and half a board's swelling and 0.5 more at each.

    0.5 x 142.75 x 0.00212 x (11.00 - 8.95) = 0.31; 1072 + 2 x (0.31 + 0.5) = 1073.62. The first pin stands at
    71.375 - 6 = 65.375, half the tongue's 8 mm in from the groove, and 26 + 4 + 2 = 32 deep.
    """
    [groove] = marks("panel_groove", MarkKind.GROOVE, "front")
    swell = 0.5 * 142.75 * PINE * (WET - BUILD)
    assert groove.length_mm == pytest.approx(1072.0 + 2.0 * (swell + 0.5), abs=0.01)
    assert (groove.from_end_mm, groove.from_face_mm) == pytest.approx((530.0, 26.0))
    pins = marks("panel_groove", MarkKind.HOLE, "front")
    assert len(pins) == 8
    assert (pins[0].from_end_mm, pins[0].from_face_mm, pins[0].depth_mm) == pytest.approx(
        (65.375, 4.0, 32.0), abs=0.01
    )


def test_the_outer_boards_may_swell_into_the_ends() -> None:
    """Held at its middle, 0.5 x 142.75: 0.31 in, 0.42 out; the groove is 6 + 0.31 + 0.5 deep."""
    joint = next(j for j in plan().seasons.joints if j.joint == "bottom_in_end.1")
    half = 0.5 * 142.75 * PINE
    assert (joint.shrink_travel_mm, joint.swell_travel_mm) == pytest.approx(
        (half * (BUILD - DRY), half * (WET - BUILD)), abs=0.001
    )
    [groove] = marks("panel_groove", MarkKind.GROOVE, "end_left")
    assert groove.depth_mm == pytest.approx(6.0 + half * (WET - BUILD) + 0.5, abs=0.01)


def test_the_boards_lie_over_each_other_with_a_gap_for_the_damp() -> None:
    """Two half boards meet at a seam: 142.75 x 0.00212 x 2.05 = 0.62 of swelling, 0.84 of shrinking.

    That is less than the lap of 10. The gap is built 0.62 + 0.5; rabbets 7 and 0.1 of play deep into 14 mm,
    10 and the gap along the edge.
    """
    seams = [j for j in plan().seasons.joints if j.joint.startswith("bottom_lap")]
    assert len(seams) == 7
    swell, shrink = 142.75 * PINE * (WET - BUILD), 142.75 * PINE * (BUILD - DRY)
    for seam in seams:
        assert (seam.shrink_travel_mm, seam.swell_travel_mm) == pytest.approx((shrink, swell), abs=0.001)
        assert (seam.shrink_room_mm, seam.cut_to_mm) == pytest.approx((10.0, swell + 0.5), abs=0.001)
    [rabbet] = marks("shiplap", MarkKind.RABBET, "bottom_board_1")
    assert (rabbet.width_mm, rabbet.depth_mm) == pytest.approx((7.1, 10.5 + swell), abs=0.01)


def test_the_till_stands_in_housings_and_its_lid_turns_on_pins() -> None:
    """Housings of 6 in both sides: 480 + 12 = 492; its lid 480 - 2 = 478, on pins 1 + 5 = 6 from the end.

    The pins are 25 in the lid, 1 across the gap and 9.5 in holes of 10: 35.5. Their edge, rounded to half the
    10 mm of the lid, sweeps 5 mm where 6 are free.
    """
    assert [part(f"till_{name}").length_mm for name in ("bottom", "front", "lid")] == pytest.approx(
        [492.0, 492.0, 478.0]
    )
    hinges = [work for work in plan().joints if work.family == "pin_hinge"]
    assert [c.size_mm for work in hinges for c in work.connectors] == [pytest.approx((6.0, 35.5))] * 2
    [hole] = [m for m in hinges[0].marks if m.part == "front"]
    assert hole.from_end_mm == pytest.approx(6.0)
    assert "swings 5.0 mm" in " ".join(hinges[0].steps)


def test_the_till_is_glued_before_the_box_shuts_it_in() -> None:
    """Its front on its bottom; both, its lid and all eight boards go in dry between front and back."""
    names = [stage.name for stage in plan().gluing.stages]
    box = plan().gluing.stages[names.index("end_left + front + end_right + back")]
    assert names.index("till_front + till_bottom") < names.index(box.name)
    inside = {name for body in box.bodies for name in body}
    assert {"till_bottom", "till_front", "till_lid", "bottom_board_1", "bottom_board_8"} <= inside
    assert not [f for f in plan().findings if f.code == "F33"]


def test_the_lid_slides_past_the_outer_screws_of_its_battens() -> None:
    """440 less 40 at each end, five screws 90 apart: the outer 180 from the middle one, which holds.

    180 x 0.00289 x (8.95 - 6.19) = 1.438 in, x (11.00 - 8.95) = 1.065 out; the slot is 4.5 longer than both
    of a lively board, a quarter more, and 0.5 to spare at each end.
    """
    outer = next(
        j for j in plan().seasons.joints if j.joint == "batten_on_lid.1" and j.from_fixed_mm == 180.0
    )
    dry, wet = 180.0 * POPLAR * (BUILD - DRY), 180.0 * POPLAR * (WET - BUILD)
    assert (outer.shrink_travel_mm, outer.swell_travel_mm) == pytest.approx((dry, wet), abs=0.001)
    lively = [
        lively_mm(180.0, change, per_pct=POPLAR, shrinkage_pct=8.2, build_pct=BUILD)
        for change in (BUILD - DRY, WET - BUILD)
    ]
    assert lively == pytest.approx([1.25 * dry, 1.25 * wet], rel=0.02)
    assert outer.cut_to_mm == pytest.approx(4.5 + sum(lively) + 2.0 * 0.5, abs=0.01)


def test_the_lid_bends_as_a_beam_between_its_battens() -> None:
    """120 kg spread over 1140 put 120 x 9.80665 x 750 / 1140 = 774.2 N between battens 820 - 70 = 750 apart.

    The lid itself, 545 x 22 of yellow-poplar near 0.42 x 1.09 = 460 kg/m3, is 41 N more: 815. I = 545 x 22^3
    / 12 = 483 597 mm4; 5 x 815 x 750^3 / (384 x 10 894 x 483 597) = 0.850 mm by bending.
    """
    [check] = plan().strength.sags
    assert check.beam.span_mm == pytest.approx(750.0)
    assert check.beam.load_n - check.beam.own_n == pytest.approx(774.2, abs=0.05)
    assert check.beam.own_n == pytest.approx(545.0 * 22.0 * 750.0 * 460e-9 * 9.80665, rel=0.03)
    inertia = 545.0 * 22.0**3 / 12.0
    assert check.sag.bending_mm == pytest.approx(
        5.0 * 815.0 * 750.0**3 / (384.0 * 10_894.0 * inertia), rel=1e-3
    )
