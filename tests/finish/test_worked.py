"""Worked values of finishing. The rules behind them are common practice; the sums were worked by hand."""

from __future__ import annotations

from itertools import pairwise

import pytest

from scantling.finish import FinishKind, FinishSystem, SandingRates, coats, drying, grit_sequence, sanding
from scantling.finish.grits import GRITS, least_steps

BLEND = FinishSystem(
    name="oil-varnish blend",
    kind=FinishKind.OIL_VARNISH,
    first_l_m2=0.10,
    next_l_m2=0.055,
    recoat_h=24.0,
    light_use_h=72.0,
    full_use_h=336.0,
)


def test_liters_for_a_table() -> None:
    """5.2 m2, 0.10 then 3 x 0.055 L/m2: 1.378 L, with 15 % spare 1.58 L."""
    result = coats(BLEND, 5.2, shown_coats=4)
    assert sum(result.per_coat_l) == pytest.approx(1.378)
    assert result.total_l == pytest.approx(1.58, abs=0.006)
    assert result.tins_l == (1.0, 1.0)


def test_grits_from_80_to_220() -> None:
    """ln(220/80)/ln 1.5 = 2.49: three steps after the first, 80 120 180 220."""
    assert least_steps(80, 220) == 3
    assert grit_sequence(80, 220) == (80, 120, 180, 220)


def test_time_to_sand_a_table() -> None:
    """5.2 m2 x 4 grits x 5 min/m2 = 1.7 h."""
    result = sanding(5.2, first_grit=80, last_grit=220, rates=SandingRates(flat_min_m2=5.0))
    assert result.minutes / 60.0 == pytest.approx(1.7, abs=0.05)
    assert len(result.steps) == 4


@pytest.mark.parametrize("first", GRITS)
@pytest.mark.parametrize("last", GRITS)
def test_no_step_leaves_scratches_that_could_be_avoided(first: int, last: int) -> None:
    """Each grit is at most half as fine again, unless none on sale lies between."""
    if last < first:
        return
    chosen = grit_sequence(first, last)
    assert (chosen[0], chosen[-1]) == (first, last)
    for coarse, fine in pairwise(chosen):
        between = [g for g in GRITS if coarse < g < fine]
        assert fine <= 1.5 * coarse * 1.002 or not between


def test_coats_follow_the_label_and_the_shop() -> None:
    """At the label's temperature the label's times; ten degrees colder twice as long (from memory)."""
    warm = drying(BLEND, 4, shop_c=20.0)
    assert [c.at_h for c in warm.coats] == [0.0, 24.0, 48.0, 72.0]
    assert (warm.light_use_h, warm.full_use_h) == (144.0, 408.0)
    assert (warm.light_use_days, warm.full_use_days, warm.last_wait_days) == (6, 17, 3)
    cold = drying(BLEND, 4, shop_c=10.0)
    assert cold.recoat_h == pytest.approx(48.0)
    assert "memory" in cold.notes[0]
    assert drying(BLEND, 4, shop_c=28.0).recoat_h == 24.0
