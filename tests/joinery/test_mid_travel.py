"""At which moisture a joint would stand in the middle of its room."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.joinery.mid_travel import mid_travel_mc_pct
from scantling.joinery.work import Freedom
from scantling.wood.moisture import MoistureRange

YEAR = MoistureRange(build_pct=7.5, dry_pct=6.0, wet_pct=10.5)


def place(shrink: float, swell: float, *, per_pct: float = 0.992, year: MoistureRange = YEAR) -> Freedom:
    """A slot 400 mm from the fixed pin of a cherry top, with room to shrink and to swell."""
    return Freedom(
        part="top",
        what="pin slot 1",
        at=(0.0, 0.0, 0.0),
        from_fixed_mm=400.0,
        shrink_travel_mm=per_pct * year.shrink_pct,
        swell_travel_mm=per_pct * year.swell_pct,
        shrink_room_mm=shrink,
        swell_room_mm=swell,
    )


def test_a_slot_cut_as_its_year_asks_is_in_the_middle_half_way_between() -> None:
    """1.49 + 0.5 and 2.98 + 0.5 of room: at 8.25 %, the middle of 6 and 10.5."""
    assert mid_travel_mc_pct(place(1.988, 3.476), YEAR) == pytest.approx(8.25)


def test_a_slot_with_the_same_room_both_ways_is_in_the_middle_as_built() -> None:
    """2 and 2 mm: at 7.5 %."""
    assert mid_travel_mc_pct(place(2.0, 2.0), YEAR) == pytest.approx(7.5)


def test_a_plain_slot_biased_the_wrong_way_wants_drier_wood() -> None:
    """3 to shrink and 1 to swell: one point of 0.992 mm below 7.5 %."""
    assert mid_travel_mc_pct(place(3.0, 1.0), YEAR) == pytest.approx(7.5 - 1.0 / 0.992)


def test_nothing_is_said_where_nothing_moves_or_no_wood_would_do() -> None:
    """No travel; and a groove so deep that only dripping wood would be in its middle."""
    assert mid_travel_mc_pct(place(1.0, 1.0, per_pct=0.0), YEAR) is None
    assert mid_travel_mc_pct(place(1.0, 60.0), YEAR) is None


@given(
    dry=st.floats(4.0, 8.0),
    swing=st.floats(0.5, 8.0),
    built=st.floats(0.0, 1.0),
    per_pct=st.floats(0.01, 3.0),
    clearance=st.floats(0.0, 3.0),
)
def test_whatever_the_year_a_joint_cut_for_it_is_in_the_middle_half_way(
    dry: float, swing: float, built: float, per_pct: float, clearance: float
) -> None:
    """Equal clearance beyond both travels puts the middle at (dry + wet) / 2."""
    year = MoistureRange(build_pct=dry + built * swing, dry_pct=dry, wet_pct=dry + swing)
    shrink, swell = per_pct * year.shrink_pct + clearance, per_pct * year.swell_pct + clearance
    found = mid_travel_mc_pct(place(shrink, swell, per_pct=per_pct, year=year), year)
    assert found == pytest.approx(dry + swing / 2.0, abs=1e-6)
