"""Ten strength figures of the examples, worked by hand from the sizes in their files.

Strengths are read from the *Wood Handbook* (FPL-GTR-190), table 5-3, as it lies beside the published checks;
the beams are those of any table of beams. The two racked frames are put through a plane-frame sum that
shares nothing with the package.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from math import cos, hypot, radians, tan

import pytest

from scantling.joinery.work import JointWork
from scantling.plan.result import Plan
from scantling.plan.standing.strength import FrameCheck, SagCheck
from tests.plan.jobs import shipped_plan
from tests.published.tables import printed_rows
from tests.structure.plane_frame import PlaneFrame

G = 9.80665
PSI = 4.4482216152605 / 25.4**2
OAK, MAPLE, CHERRY, ASH = "Oak, white: white", "Maple, sugar", "Cherry, black", "Ash, white"


@cache
def plan(piece: str) -> Plan:
    """A shipped piece, without its rack."""
    return shipped_plan(piece, rack=False)


def book(wood: str, quantity: str) -> float:
    """A value of table 5-3. [MPa], or as printed"""
    (row,) = (
        row
        for row in printed_rows("wood_handbook", "table_5_3_and_5_5.csv")
        if row["row"] == wood and row["quantity"] == quantity
    )
    unit = {"lbf/in2": PSI, "1e6 lbf/in2": 1e6 * PSI, "": 1.0}[row["unit"]]
    return float(row["printed"]) * unit


def work(piece: str, joint: str) -> JointWork:
    """A joint of a piece."""
    return next(one for one in plan(piece).joints if one.joint == joint)


def frame(piece: str, direction: str) -> FrameCheck:
    """A piece pushed one way."""
    return next(one for one in plan(piece).strength.frames if one.direction.startswith(direction))


def sag_of(piece: str, part: str) -> SagCheck:
    """A board that sags."""
    return next(one for one in plan(piece).strength.sags if one.part == part)


def test_a_shelf_in_its_housings() -> None:
    """268 x 22 of maple in a housing 8 deep: the dented 268 x 8 over 1.67 is less than its shear over 4."""
    shear = 2.0 / 3.0 * 268.0 * 22.0 * book(MAPLE, "shear_mpa") / 4.0
    dented = 268.0 * 8.0 * book(MAPLE, "compression_perp_mpa") / 1.67
    assert dented < shear
    assert work("bookcase", "board_in_left.2").strength.shear_n.may == pytest.approx(dented, rel=1e-3)


def test_the_foot_line_a_desk_tips_over() -> None:
    """Trestles 530 from the middle, 64 thick: 562 inside, 800 - 562 = 238 out; weight by its volumes.

    The stretcher is 996 between the posts, and its tenons stand 90 out behind them.
    """
    volume = 1600 * 700 * 24 + 2 * 620 * 70 * 64 + 2 * 596 * 90 * 64 + 2 * 580 * 64 * 45 + 996 * 90 * 32
    volume += 2 * 90 * 78 * 10
    green = 0.60 / (1.0 + 0.265 * 0.6 * 0.60)  # table 5-3's 0.60 is at 12 %
    lightest, heaviest = (
        volume * 1e-6 * green / (1.0 - 0.265 * green * (1.0 - mc / 30.0)) * (1.0 + mc / 100.0)
        for mc in (5.0, 11.0)
    )
    tip = plan("trestle_desk").strength.tip
    assert tip is not None
    assert 0.99 * lightest * G * 562.0 / 238.0 < tip.force_n < heaviest * G * 562.0 / 238.0


def test_loose_tenons_of_the_reading_table() -> None:
    """10 x 50 of cherry on edge: 10 50^2 / 6 = 4 167 mm3 at its modulus of rupture, a quarter of it."""
    moment = work("reading_table", "apron_to_leg.1").strength.moment_nmm
    assert moment.may == pytest.approx(10.0 * 50.0**2 / 6.0 * book(CHERRY, "mor_mpa") / 4.0, rel=1e-3)


def test_the_front_rail_of_the_sideboard_is_turned_flat() -> None:
    """45 wide and laid flat, its tenon 31 x 8: 31 8^2 / 6 = 331 mm3, a quarter of 104.8 MPa: 8.66 N m."""
    moment = work("sideboard", "front_top_to_leg.1").strength.moment_nmm
    by_hand = 31.0 * 8.0**2 / 6.0 * book(OAK, "mor_mpa") / 4.0
    assert by_hand == pytest.approx(8_663.0, rel=1e-3)
    assert moment.may == pytest.approx(by_hand, rel=1e-3)


def test_the_upper_side_rail_of_the_sideboard_pressed_down() -> None:
    """A quarter of top and load on its tenon, 8 x 38: two thirds of it at 2 000 lbf/in2 (shear), over 4."""
    (end,) = (one for one in plan("sideboard").strength.carried if one.joint == "upper_rail_to_back_leg.1")
    green = 0.68 / (1.0 + 0.265 * 0.6 * 0.68)
    top_kg = 1440 * 480 * 22 * 1e-6 * green / (1.0 - 0.265 * green * (1.0 - 5.4 / 30.0)) * 1.054
    assert end.asked_n == pytest.approx((60.0 + top_kg) * G / 4.0, rel=0.01)
    assert end.may_n == pytest.approx(2.0 / 3.0 * 8.0 * 38.0 * book(OAK, "shear_mpa") / 4.0, rel=1e-3)


def test_screws_under_the_desk_top() -> None:
    """Four of 5 mm bite 20 into ash of 0.60: 15 700 G2 D L of pounds and inches, a fifth of it."""
    one = 15_700.0 * book(ASH, "specific_gravity_12") ** 2 * 5.0 * 20.0 * PSI
    topped = plan("trestle_desk").strength.topped
    assert topped is not None
    assert [row.may_n for row in topped.fasteners] == pytest.approx([4.0 * one / 5.0] * 2, rel=1e-3)


def test_a_shelf_of_books() -> None:
    """Its share of 308 kg by area on 856 x 280 x 22 of maple, 3.7 kg itself: 5 W L3 / 384 E I; 1.5 in years.

    Three boards are 856 x 280, four 853 x 274. At 8 % maple of 0.63 weighs 700 kg/m3 or a little more; shear
    adds 1 %.
    """
    check = sag_of("bookcase", "mid_shelf")
    share = 856.0 * 280.0 / (3.0 * 856.0 * 280.0 + 4.0 * 853.0 * 274.0)
    itself = 856.0 * 280.0 * 22.0 * 710e-9
    bending = (
        5.0
        * (308.0 * share + itself)
        * G
        * 856.0**3
        / (384.0 * book(MAPLE, "moe_mpa") * 280.0 * 22.0**3 / 12.0)
    )
    assert check.sag.bending_mm == pytest.approx(bending, rel=5e-3)
    assert check.sag.long_term_mm == pytest.approx(1.5 * bending, rel=0.02)


def test_two_on_the_bench() -> None:
    """160 kg and 6.2 of ash near 660 kg/m3 between legs 840 - 38 / cos 12 = 801 apart inside, on 330 x 32.

    The seat is 38 thick and scooped 6 over 760: it bends as if it were 32 all along, and weighs what two
    thirds of 6 x 760 leave (a flat segment is a parabola's to 1 in 10 000).
    """
    check = sag_of("hall_bench", "seat")
    span = 840.0 - 38.0 / cos(radians(12.0))
    itself = span / 1220.0 * 330.0 * (1220.0 * 38.0 - 2.0 / 3.0 * 6.0 * 760.0) * 660e-9
    bending = 5.0 * (160.0 + itself) * G * span**3 / (384.0 * book(ASH, "moe_mpa") * 330.0 * 32.0**3 / 12.0)
    assert check.beam.span_mm == pytest.approx(span, abs=0.5)
    assert check.sag.bending_mm == pytest.approx(bending, rel=2e-3)


def test_the_sideboard_pushed_along() -> None:
    """Back rails 80 and 76 on edge at 788 and 170, front rails 28 flat at 814 and 146; tenons of 8 kN m/rad.

    Those of the front rails turn (8 / 31)^2 as stiffly. The back's lower joints bear most.
    """
    moe, sum_ = book(OAK, "moe_mpa"), PlaneFrame()
    sway, turned = sum_.unknown(), {}
    for side, rails, stiff in (
        ("back", ((170.0, 76.0, 22.0), (788.0, 80.0, 22.0)), 8e6),
        ("front", ((146.0, 28.0, 45.0), (814.0, 28.0, 45.0)), 8e6 * (8.0 / 31.0) ** 2),
    ):
        legs = []
        for x in (-677.5, 677.5):
            moves = [
                (0, 0, sum_.unknown()),
                (sum_.unknown(), sum_.unknown(), sum_.unknown()),
                (sway, sum_.unknown(), sum_.unknown()),
            ]
            heights = (0.0, rails[0][0], rails[1][0])
            for one, other in pairwise(range(3)):
                ends = ((x, heights[one]), (x, heights[other]))
                sum_.bar(ends, (moves[one], moves[other]), ea=moe * 45.0**2, ei=moe * 45.0**4 / 12.0)
            legs.append(moves[1:])
        for level, (z, deep, thick) in enumerate(rails):
            own = [sum_.unknown(), sum_.unknown()]
            for leg, end in zip(legs, own, strict=True):
                sum_.spring(leg[level][2], end, stiff)
            ends = tuple((*leg[level][:2], end) for leg, end in zip(legs, own, strict=True))
            places = ((-677.5, z), (677.5, z))
            sum_.bar(
                places,
                (ends[0], ends[1]),
                ea=moe * deep * thick,
                ei=moe * thick * deep**3 / 12.0,
            )
            turned[side, level] = (legs[0][level][2], own[0], stiff)
    moved = sum_.moved({sway: 300.0})
    moments = {key: abs(k * (moved[a] - moved[b])) for key, (a, b, k) in turned.items()}
    racked = frame("sideboard", "along").racked
    assert racked.joint.startswith("back_lower_to_leg")
    assert racked.moment_nmm == pytest.approx(moments["back", 0], rel=1e-3) == pytest.approx(58_400, rel=1e-2)
    assert racked.sway_mm == pytest.approx(moved[sway], rel=1e-3)
    assert racked.may_nmm == pytest.approx(8.0 * 44.0**2 / 6.0 * book(OAK, "mor_mpa") / 4.0, rel=1e-3)


def test_the_reading_table_pushed_across() -> None:
    """Legs that lean 5 degrees and taper from 48 to 30, aprons 90 x 20 at their joints; 4.9 kN m/rad."""
    moe, sum_, rise = book(CHERRY, "moe_mpa"), PlaneFrame(), 716.0
    stretch = hypot(1.0, tan(radians(7.0)), tan(radians(5.0)))
    up = frame("reading_table", "across").frame.joints[0].up_mm
    assert up == pytest.approx(rise - 90.0 / 2.0, abs=4.0)  # the taper begins a little above the lower edge

    def wide(z: float) -> float:
        return 48.0 - 18.0 * max(0.0, ((rise - z) * stretch - 90.0) / (rise * stretch - 90.0))

    def aside(z: float) -> float:
        return 230.0 + (rise - z) * tan(radians(5.0))

    sway, count = sum_.unknown(), 120
    for _ in range(2):
        heads = []
        for sign in (-1.0, 1.0):
            below, low = (0, 0, sum_.unknown()), 0.0
            for step in range(1, count + 1):
                high = up * step / count
                above = (sway if step == count else sum_.unknown(), sum_.unknown(), sum_.unknown())
                side = wide((low + high) / 2.0)
                ends = ((sign * aside(low), low), (sign * aside(high), high))
                sum_.bar(ends, (below, above), ea=moe * side**2, ei=moe * side**4 / 12.0)
                below, low = above, high
            heads.append(below)
        own = [sum_.unknown(), sum_.unknown()]
        for head, end in zip(heads, own, strict=True):
            sum_.spring(head[2], end, 4.905e6)
        one, other = ((*head[:2], end) for head, end in zip(heads, own, strict=True))
        places = ((-aside(up), up), (aside(up), up))
        sum_.bar(places, (one, other), ea=moe * 1800.0, ei=moe * 20.0 * 90.0**3 / 12.0)
        joint = (heads[0][2], own[0])
    moved = sum_.moved({sway: 300.0})
    racked = frame("reading_table", "across").racked
    moment = abs(4.905e6 * (moved[joint[0]] - moved[joint[1]]))
    assert racked.moment_nmm == pytest.approx(moment, rel=2e-3) == pytest.approx(40_300, rel=1e-2)
    assert racked.sway_mm == pytest.approx(moved[sway], rel=1e-2)
