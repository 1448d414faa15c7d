"""Figures of the blanket chest's plan, worked by hand from the sizes in its file.

Its box is 1100 x 520 of 20 mm boards on skids of 45, 520 high with a lid of 22. Movement is by eq. 13-2 of
the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), eastern white pine 0.00212 a percent
tangential; from the shop's 8.95 % to 6.19 and 11.00 % in the house.
"""

from __future__ import annotations

from functools import cache

import pytest

from scantling.joinery.work import Mark, MarkKind
from scantling.plan.parts import PlannedPart
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from tests.joinery.lively import lively_mm
from tests.plan.jobs import shipped_job

BUILD, DRY, WET = 8.953, 6.188, 11.000
PINE = 0.00212


@cache
def plan() -> Plan:
    """Its plan, with its rack."""
    return make_plan(shipped_job("blanket_chest"))


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
    """1100 - 2 x 20 = 1060 between shoulders, 1100 with the tails; 520 - 22 - 45 = 453 wide.

    Eight boards and nine gaps of 3 in 1060: (1060 - 27) / 8 = 129.125; 480 + 2 x 8 = 496 long.
    """
    front, board = part("front"), part("bottom_board_1")
    assert (front.shoulder_mm, front.length_mm, front.width_mm) == pytest.approx((1060.0, 1100.0, 453.0))
    assert (board.width_mm, board.length_mm) == pytest.approx((129.125, 496.0))


def test_eight_tails_and_seven_pins_share_the_width() -> None:
    """453 less two half pins of 8 and seven pins of 10 is 367: tails of 45.875, the first at 30.94."""
    tails = [m for m in marks("dovetail", MarkKind.TAIL, "front") if m.end.value == "end"]
    assert len(tails) == 8
    assert tails[0].length_mm == pytest.approx(367.0 / 8.0)
    assert sorted(m.from_end_mm for m in tails)[0] == pytest.approx(8.0 + 367.0 / 16.0)
    assert sorted(m.from_end_mm for m in tails)[2] == pytest.approx(8.0 + 367.0 / 16.0 + 55.875)


def test_one_groove_takes_all_bottom_boards() -> None:
    """From 3 to 1057 of 1060, and at each end half a board's swelling and 0.5 more; a pin a board.

    0.5 x 129.125 x 0.00212 x (11.00 - 8.95) = 0.28; 1054 + 2 x (0.28 + 0.5) = 1055.56. The first pin stands
    at 3 + 64.56 = 67.56, half the tongue's 8 mm in from the groove, and 24 + 4 + 2 = 30 deep.
    """
    [groove] = marks("panel_groove", MarkKind.GROOVE, "front")
    swell = 0.5 * 129.125 * PINE * (WET - BUILD)
    assert groove.length_mm == pytest.approx(1054.0 + 2.0 * (swell + 0.5), abs=0.01)
    assert (groove.from_end_mm, groove.from_face_mm) == pytest.approx((530.0, 24.0))
    pins = marks("panel_groove", MarkKind.HOLE, "front")
    assert len(pins) == 8
    assert (pins[0].from_end_mm, pins[0].from_face_mm, pins[0].depth_mm) == pytest.approx(
        (67.5625, 4.0, 30.0), abs=0.01
    )


def test_the_lid_slides_past_the_outer_screws_of_its_battens() -> None:
    """440 less 40 at each end, five screws 90 apart: the outer 180 from the middle one, which holds.

    180 x 0.00212 x (8.95 - 6.19) = 1.055 in, x (11.00 - 8.95) = 0.781 out; the slot is 4.5 longer than both
    of a lively board, a quarter more, and 0.5 to spare at each end.
    """
    outer = next(
        j for j in plan().seasons.joints if j.joint == "batten_on_lid.1" and j.from_fixed_mm == 180.0
    )
    dry, wet = 180.0 * PINE * (BUILD - DRY), 180.0 * PINE * (WET - BUILD)
    assert (outer.shrink_travel_mm, outer.swell_travel_mm) == pytest.approx((dry, wet), abs=0.001)
    lively = [
        lively_mm(180.0, change, per_pct=PINE, shrinkage_pct=6.1, build_pct=BUILD)
        for change in (BUILD - DRY, WET - BUILD)
    ]
    assert lively == pytest.approx([1.25 * dry, 1.25 * wet], rel=0.02)
    assert outer.cut_to_mm == pytest.approx(4.5 + sum(lively) + 2.0 * 0.5, abs=0.01)


def test_the_lid_bends_as_a_beam_between_its_battens() -> None:
    """120 kg spread over 1140 put 120 x 9.80665 x 750 / 1140 = 774.2 N between battens 820 - 70 = 750 apart.

    The lid itself, 545 x 22 of white pine near 375 kg/m3, is 33 N more: 808. I = 545 x 22^3 / 12 =
    483 597 mm4; 5 x 808 x 750^3 / (384 x 8549.5 x 483 597) = 1.074 mm by bending.
    """
    [check] = plan().strength.sags
    assert check.beam.span_mm == pytest.approx(750.0)
    assert check.beam.load_n - check.beam.own_n == pytest.approx(774.2, abs=0.05)
    assert check.beam.own_n == pytest.approx(545.0 * 22.0 * 750.0 * 375e-9 * 9.80665, rel=0.03)
    inertia = 545.0 * 22.0**3 / 12.0
    assert check.sag.bending_mm == pytest.approx(
        5.0 * 808.0 * 750.0**3 / (384.0 * 8549.5 * inertia), rel=1e-3
    )
