"""Notches by the saw: passes and what is left, by the figures worked by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.joinery.work import Fit, JointWork, Mark, MarkKind
from scantling.piece.model import Direction, End
from scantling.shop.operations.routing import Machine
from scantling.shop.profile.profile_file import default_shop, parse_shop
from scantling.shop.sawing.kerf import notch_passes, plan_notches, residual_shares
from tests.shop.sticks import level_stick

SHOP = default_shop()


def notched(width_mm: float = 44.5, depth_mm: float = 30.0, tilt_deg: float = 0.0) -> JointWork:
    """A rail of 90 x 20 with a notch in its top edge."""
    mark = Mark(
        part="rail",
        kind=MarkKind.NOTCH,
        on_end=False,
        end=End.START,
        face=Direction.TOP,
        reference_face=Direction.FRONT,
        from_end_mm=200.0,
        from_face_mm=10.0,
        length_mm=width_mm,
        width_mm=20.0,
        depth_mm=depth_mm,
        fit=Fit.TIGHT,
        setup="notch",
        tilt_deg=tilt_deg,
    )
    return JointWork(
        joint="seat",
        family="notch",
        first="leg",
        second="rail",
        at=(0, 0, 0),
        leaves=(0, 0, 1),
        marks=(mark,),
    )


def test_a_notch_of_44_5() -> None:
    """Kerf 3.2, overlap 0.4: 16 passes side by side, 8 with slivers; a stack of 19, overlap 2: 3. By hand."""
    [sawing] = plan_notches([notched()], {"rail": level_stick("rail", 700.0, lean_deg=(0, 0))}, SHOP)
    assert (sawing.passes_side_by_side, sawing.passes_slivers, sawing.passes_stacked) == (16, 8, 3)
    assert sawing.machine is Machine.TABLE_SAW


def test_a_third_deep_leaves_44_and_30_percent_and_a_half_25_and_12_5() -> None:
    """Strength goes with the square of what is left, stiffness with the cube. By hand."""
    assert residual_shares(30.0, 90.0) == pytest.approx((0.444, 0.296), abs=0.001)
    assert residual_shares(45.0, 90.0) == pytest.approx((0.25, 0.125))
    [sawing] = plan_notches([notched()], {"rail": level_stick("rail", 700.0, lean_deg=(0, 0))}, SHOP)
    assert sawing.deep_share == pytest.approx(1 / 3)
    assert sawing.strength_share == pytest.approx(0.444, abs=0.001)


def test_leaning_cheeks_and_hand_saws_take_no_stack() -> None:
    """A stack is set square; a shop without a table saw saws the cheeks by hand and chisels the rest."""
    rail = {"rail": level_stick("rail", 700.0, lean_deg=(0, 0))}
    [leaning] = plan_notches([notched(tilt_deg=7.0)], rail, SHOP)
    [by_hand] = plan_notches([notched()], rail, parse_shop("machines: {}"))
    assert leaning.passes_stacked is None
    assert (by_hand.machine, by_hand.passes_stacked) == (Machine.HAND_SAW, None)


@given(width=st.floats(4, 120), kerf=st.floats(1, 3.9), overlap=st.floats(0, 0.5))
def test_passes_clear_the_notch_and_one_fewer_would_not(width: float, kerf: float, overlap: float) -> None:
    """The passes, each a step on from the last, reach across; without the last they do not."""
    step = kerf - overlap
    count = notch_passes(width, cutter_mm=kerf, step_mm=step)
    assert kerf + (count - 1) * step >= width - 1e-6
    assert count == 1 or kerf + (count - 2) * step < width
