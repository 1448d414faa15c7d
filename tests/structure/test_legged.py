"""Legged frames pushed sideways: against the portal in closed form, and where F47 begins."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import pytest

from scantling.structure.legged import (
    Legged,
    Racked,
    Rail,
    RailJoint,
    Upright,
    check_legged,
    check_unbraced,
    rack_legged,
)
from tests.structure.portal import Portal, rack

HEIGHT, SIDE, MOE = 700.0, 45.0, 12_000.0
STIFF = 1e12
"""So stiff a rail that it does not bend: the closed form has it so. [mm4]"""


def table(
    *,
    stiffness: tuple[float, float, float] | None = (4e6, 8e6, 16e6),
    may_nmm: float | None = None,
    rail_mm4: float = STIFF,
    lean_mm: float = 0.0,
) -> Legged:
    """Four legs and two rails in the direction of the push; the feet stand out by ``lean_mm``."""
    legs = tuple(
        Upright(
            name=f"leg {x:.0f} {k}",
            foot_mm=(x + (lean_mm if x else -lean_mm), 0.0),
            head_mm=(x, HEIGHT),
            moe_mpa=MOE,
            inertia_mm4=(SIDE**4 / 12.0,) * 4,
            area_mm2=1e9,
        )
        for k in range(2)
        for x in (0.0, 800.0)
    )
    rails = tuple(
        Rail(
            name=f"rail {k}",
            legs=(2 * k, 2 * k + 1),
            joints=tuple(  # type: ignore[arg-type]
                RailJoint(joint=f"joint {k}{e}", up_mm=HEIGHT, stiffness_nmm_rad=stiffness, may_nmm=may_nmm)
                for e in range(2)
            ),
            moe_mpa=MOE,
            inertia_mm4=rail_mm4,
            area_mm2=1e9,
        )
        for k in range(2)
    )
    return Legged(uprights=legs, rails=rails)


def test_the_worked_portal() -> None:
    """300 N at 0.70 m on four joints of 8 kN m/rad: 52.5 N m each, 4.6 + 2.1 = 6.7 mm (worked by hand)."""
    racked = rack_legged(table(), push_n=300.0)
    closed = rack(
        Portal(height_mm=HEIGHT, legs=4, joints=4, leg_side_mm=SIDE, moe_mpa=MOE, joint_stiffness_nmm_rad=8e6)
    )
    assert (
        racked.moment_nmm == pytest.approx(closed.moment_nmm, rel=1e-4) == pytest.approx(52_500.0, rel=1e-4)
    )
    assert racked.sway_mm == pytest.approx(closed.sway_mm, rel=1e-3)
    assert racked.rigid_sway_mm == pytest.approx(closed.leg_sway_mm, rel=1e-3)
    assert racked.sway_mm == pytest.approx(6.7, abs=0.05)


def test_a_rail_that_bends_adds_its_share() -> None:
    """M L / 6 E I' more turning at each joint: h times that more sway (virtual work, by hand)."""
    inertia = 20.0 * 80.0**3 / 12.0
    stiff, real = (rack_legged(table(rail_mm4=each), push_n=300.0) for each in (STIFF, inertia))
    added = HEIGHT * stiff.moment_nmm * 800.0 / (6.0 * MOE * inertia)
    assert real.sway_mm - stiff.sway_mm == pytest.approx(added, rel=1e-3)


def test_legs_that_stand_out_ask_less_of_the_joints() -> None:
    """Feet 100 mm out each side: their pull and press bear part of the turning, by their arm."""
    straight, splayed = (rack_legged(table(lean_mm=each), push_n=300.0) for each in (0.0, 100.0))
    lifted = 300.0 / 2.0 * HEIGHT / (800.0 + 200.0)
    by_hand = 75.0 * HEIGHT - lifted * 100.0
    assert straight.moment_nmm == pytest.approx(52_500.0, rel=1e-4)
    assert splayed.moment_nmm == pytest.approx(by_hand, rel=1e-3)


def test_the_range_of_stiffness_gives_a_range_of_sway() -> None:
    """Half the stiffness, twice what the joints add; the moment is the same."""
    racked = rack_legged(table(), push_n=300.0)
    usual = racked.sway_mm - racked.rigid_sway_mm
    assert racked.sway_most_mm - racked.rigid_sway_mm == pytest.approx(2.0 * usual, rel=1e-3)
    assert racked.sway_least_mm - racked.rigid_sway_mm == pytest.approx(usual / 2.0, rel=1e-3)


def test_joints_without_a_published_stiffness_are_rigid_and_said() -> None:
    """The sway is then the least there is, and how many joints it leaves out is told."""
    racked = rack_legged(table(stiffness=None), push_n=300.0)
    assert racked.untold == 4
    assert racked.sway_mm == racked.sway_most_mm == racked.rigid_sway_mm > 0.0


@pytest.mark.parametrize(
    ("push", "may", "codes"),
    [
        (300.0, None, []),  # 6.7 mm
        (358.0, None, []),
        (361.0, None, ["F47"]),  # 8 mm at 359.6 N
        (300.0, 52_510.0, []),
        (300.0, 52_400.0, ["F47"]),
    ],
)
def test_f47_racking(push: float, may: float | None, codes: list[str]) -> None:
    """Sway over 8 mm, or a joint asked for more than it may carry."""
    assert [f.code for f in check_legged("base", rack_legged(table(may_nmm=may), push_n=push))] == codes


def test_f47_advice_is_enough() -> None:
    """Joints that carry as much as is asked, or so many of them, just pass."""
    (found,) = check_legged("base", rack_legged(table(may_nmm=30_000.0), push_n=300.0))
    wanted = found.numbers["wanted_nm"] * 1000.0
    assert check_legged("base", rack_legged(table(may_nmm=wanted * 1.001), push_n=300.0)) == []
    assert found.numbers["more_joints"] == 7.0  # 4 x 52.5 / 30
    assert "Give each joint 52 N m to carry" in found.advice
    (swaying,) = check_legged("base", rack_legged(table(), push_n=400.0))
    assert swaying.advice == (
        "Make the legs stouter, or have about 5 such joints in all, with a lower rail or stretchers."
    )


def test_f47_counts_no_joints_that_would_not_fit() -> None:
    """52 N m on joints that may carry 20 would want eleven for four: more are told, without a number."""
    (found,) = check_legged("base", rack_legged(table(may_nmm=20_000.0), push_n=300.0))
    assert found.numbers["more_joints"] == 11.0
    assert found.advice.endswith("or share it among more joints, with a lower rail or stretchers.")


def test_the_worst_joint_is_the_one_nearest_its_limit() -> None:
    """A weak joint is named though all bear the same moment."""
    frame = table(may_nmm=100_000.0)
    weak = replace(frame.rails[1].joints[0], may_nmm=60_000.0)
    rails = (frame.rails[0], replace(frame.rails[1], joints=(weak, frame.rails[1].joints[1])))
    racked = rack_legged(replace(frame, rails=rails), push_n=300.0)
    assert racked.joint == "joint 10"
    assert racked.use == pytest.approx(52_500.0 / 60_000.0, rel=1e-3)
    assert inf > racked.sway_mm > 0.0


def rail_past_a_leg(first_mm4: float, second_mm4: float) -> Racked:
    """Three legs in a row under one rail that runs on past the middle one, whose joint may carry least."""
    legs = tuple(
        Upright(
            name=f"leg {x:.0f}",
            foot_mm=(x, 0.0),
            head_mm=(x, HEIGHT),
            moe_mpa=MOE,
            inertia_mm4=(SIDE**4 / 12.0,) * 4,
            area_mm2=1e9,
        )
        for x in (0.0, 800.0, 1600.0)
    )
    one, middle, other = (
        RailJoint(joint=name, up_mm=HEIGHT, stiffness_nmm_rad=(8e6, 8e6, 8e6), may_nmm=may)
        for name, may in (("one", 9e5), ("middle", 1e5), ("other", 9e5))
    )
    spans = tuple(
        Rail(name=name, legs=between, joints=ends, moe_mpa=MOE, inertia_mm4=inertia, area_mm2=1e9)
        for name, between, ends, inertia in (
            ("0", (0, 1), (one, middle), first_mm4),
            ("1", (1, 2), (middle, other), second_mm4),
        )
    )
    return rack_legged(Legged(uprights=legs, rails=spans), push_n=300.0)


def test_a_joint_that_ends_two_spans_is_one_and_bears_both() -> None:
    """Three like legs under a stiff rail take a third of 300 N each: 70 N m at 700 mm, in every joint."""
    racked = rail_past_a_leg(1e12, 1e12)
    closed = rack(
        Portal(height_mm=HEIGHT, legs=3, joints=3, leg_side_mm=SIDE, moe_mpa=MOE, joint_stiffness_nmm_rad=8e6)
    )
    assert (racked.joints, racked.joint) == (3, "middle")
    assert racked.moment_nmm == pytest.approx(70_000.0, rel=1e-4) == pytest.approx(closed.moment_nmm)
    assert racked.sway_mm == pytest.approx(closed.sway_mm, rel=1e-3)


def test_what_a_joint_bears_does_not_hang_on_the_order_of_its_spans() -> None:
    """A stiff span beside a soft one, and the other way round."""
    soft, stiff = 20.0 * 40.0**3 / 12.0, 20.0 * 120.0**3 / 12.0
    there, back = rail_past_a_leg(soft, stiff), rail_past_a_leg(stiff, soft)
    assert there.moment_nmm == pytest.approx(back.moment_nmm, rel=1e-6)
    assert there.sway_mm == pytest.approx(back.sway_mm, rel=1e-6)


def test_f47_where_no_rail_holds_a_way() -> None:
    """Legs that nothing holds: the way, the push and what would do."""
    (found,) = check_unbraced("frame, across the piece", "across the piece")
    assert found.code == "F47"
    assert "no rail holds it across" in found.message
    assert "300 N" in found.message
    assert "Join its legs across" in found.advice
