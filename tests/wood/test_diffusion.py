"""Moisture in time: water is neither lost nor made, nothing overshoots, and steps may be long."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.wood.diffusion import SEALED_S_MM, MoistureHistory, Slab, simulate
from scantling.wood.moisture import emc_pct


def _run(slabs: list[Slab], humidity: np.ndarray, **options: float) -> MoistureHistory:
    return simulate(
        slabs,
        temperature_c=np.full(humidity.size, 20.0),
        relative_humidity=humidity,
        **options,  # type: ignore[arg-type]
    )


def _year(hours: int = 8760) -> np.ndarray:
    return 0.40 + 0.15 * np.cos(2.0 * np.pi * np.arange(hours + 1) / 8760)


@settings(max_examples=25)
@given(
    thickness=st.floats(3.0, 90.0),
    gravity=st.floats(0.3, 0.8),
    start=st.floats(4.0, 16.0),
    front=st.sampled_from([0.0, 5.0, 60.0, SEALED_S_MM]),
    back=st.sampled_from([0.0, 5.0, 60.0, SEALED_S_MM]),
    step_h=st.sampled_from([1.0, 6.0, 24.0, 168.0]),
)
def test_water_is_neither_lost_nor_made(
    thickness: float, gravity: float, start: float, front: float, back: float, step_h: float
) -> None:
    """What the mean gains has come in through the faces, whatever the part, its finish and the step."""
    slab = Slab(
        thickness_mm=thickness,
        basic_specific_gravity=gravity,
        mc_pct=start,
        finish_front_s_mm=front,
        finish_back_s_mm=back,
    )
    past = _run([slab], _year(200), step_s=step_h * 3600.0, record_every=20)
    assert past.mean_pct[:, 0] - start == pytest.approx(past.taken_up_pct[:, 0], abs=1e-9)


def test_a_sealed_part_keeps_its_moisture() -> None:
    """Nothing goes in or out, so nothing changes anywhere."""
    sealed = Slab(thickness_mm=20.0, finish_front_s_mm=SEALED_S_MM, finish_back_s_mm=SEALED_S_MM)
    past = _run([sealed], _year())
    assert past.profile_pct == pytest.approx(8.0, abs=1e-9)
    assert past.tilt_pct == pytest.approx(0.0, abs=1e-9)


def test_wood_at_rest_stays_at_rest() -> None:
    """In steady air at its own moisture a part does nothing."""
    past = _run([Slab(thickness_mm=30.0, mc_pct=emc_pct(20.0, 0.5))], np.full(2001, 0.5))
    assert past.profile_pct == pytest.approx(emc_pct(20.0, 0.5), abs=1e-9)


def test_after_long_enough_every_part_is_where_the_air_holds_it() -> None:
    """Finish slows, and never changes, where the wood settles."""
    slabs = [Slab(thickness_mm=t, finish_front_s_mm=f, mc_pct=12.0) for t in (6.0, 24.0) for f in (0.0, 60.0)]
    past = _run(slabs, np.full(4001, 0.35), step_s=24 * 3600.0)
    assert past.profile_pct[-1] == pytest.approx(emc_pct(20.0, 0.35), abs=0.01)


def test_parts_stay_between_the_driest_and_the_wettest_air() -> None:
    """No overshoot over a year of changing air."""
    humidity = _year()
    slabs = [Slab(thickness_mm=t) for t in (3.0, 12.0, 25.0, 50.0, 90.0)]
    past = _run(slabs, humidity)
    assert past.profile_pct.min() >= emc_pct(20.0, float(humidity.min())) - 1e-6
    assert past.profile_pct.max() <= emc_pct(20.0, float(humidity.max())) + 1e-6


def test_thicker_denser_and_finished_parts_follow_less() -> None:
    """Each of the three damps the yearly swing."""
    thin = Slab(thickness_mm=12.0)
    thick = Slab(thickness_mm=40.0)
    dense = Slab(thickness_mm=12.0, basic_specific_gravity=0.75)
    finished = Slab(thickness_mm=12.0, finish_front_s_mm=60.0, finish_back_s_mm=60.0)
    past = simulate(
        [thin, thick, dense, finished],
        temperature_c=np.full(2 * 8760 + 1, 20.0),
        relative_humidity=_year(2 * 8760),
    )
    swing = np.ptp(past.mean_pct[365:], axis=0)
    assert swing[0] > max(swing[1:])


def test_a_symmetric_part_does_not_tilt_and_a_one_sided_finish_does() -> None:
    """An unfinished underside takes the damp first: the back is wetter, the tilt negative."""
    even = Slab(thickness_mm=22.0, finish_front_s_mm=20.0, finish_back_s_mm=20.0, mc_pct=6.0)
    one_sided = Slab(thickness_mm=22.0, finish_front_s_mm=60.0, mc_pct=6.0)
    mirrored = Slab(thickness_mm=22.0, finish_back_s_mm=60.0, mc_pct=6.0)
    past = _run([even, one_sided, mirrored], np.full(24 * 20 + 1, 0.65))
    tilt = past.tilt_pct[-1]
    assert tilt[0] == pytest.approx(0.0, abs=1e-9)
    assert tilt[1] < -0.5
    assert tilt[2] == pytest.approx(-tilt[1], abs=1e-9)


def test_a_straight_gradient_tilts_by_its_own_difference() -> None:
    """In steady flow from a damp face to a dry one the tilt is what a ruler would read."""
    slab = Slab(thickness_mm=10.0, diffusivity_mm2_s=3e-5)
    past = _run([slab], np.full(2, 0.5), step_s=1.0)
    straight = 9.0 - 2.0 * past.rule.points
    moved = MoistureHistory(
        time_s=past.time_s,
        profile_pct=np.broadcast_to(straight, past.profile_pct.shape),
        taken_up_pct=past.taken_up_pct,
        rule=past.rule,
    )
    assert moved.tilt_pct == pytest.approx(2.0)
    assert moved.mean_pct == pytest.approx(8.0)


def test_the_step_is_of_second_order() -> None:
    """Halving the step quarters the error, against a run with very short steps."""

    def mean(steps: int) -> float:
        at = np.linspace(0.0, 1.0, steps + 1)
        past = _run(
            [Slab(thickness_mm=12.0, diffusivity_mm2_s=3e-5)],
            0.45 + 0.1 * np.sin(2.0 * np.pi * at),
            step_s=40 * 86_400.0 / steps,
            record_every=steps,
        )
        return float(past.mean_pct[-1, 0])

    exact = mean(4096)
    errors = [abs(mean(steps) - exact) for steps in (32, 64, 128)]
    orders = [math.log2(coarse / fine) for coarse, fine in pairwise(errors)]
    assert orders == pytest.approx([2.0, 2.0], abs=0.35)


def test_more_points_change_nothing_that_matters() -> None:
    """Thirteen points and forty give the same year to a hundredth of a point."""
    slabs = [Slab(thickness_mm=20.0), Slab(thickness_mm=50.0, finish_front_s_mm=30.0)]
    coarse, fine = (_run(slabs, _year(), points=points) for points in (13, 40))
    assert np.abs(coarse.mean_pct - fine.mean_pct).max() < 0.01
    assert np.abs(coarse.tilt_pct - fine.tilt_pct).max() < 0.01


def test_parts_do_not_meddle_with_each_other() -> None:
    """A part gives the same alone as among others."""
    slabs = [Slab(thickness_mm=t) for t in (8.0, 20.0, 45.0)]
    together = _run(slabs, _year(1000)).mean_pct
    for at, slab in enumerate(slabs):
        assert _run([slab], _year(1000)).mean_pct[:, 0] == pytest.approx(together[:, at], abs=1e-9)


def test_a_week_or_two_in_the_shop() -> None:
    """The 7 to 14 days before gluing of a glue maker's guide take a 21 mm board most of the way, not 44."""
    boards = [Slab(thickness_mm=t, basic_specific_gravity=0.47, mc_pct=11.0) for t in (21.0, 44.0)]
    past = _run(boards, np.full(24 * 14 + 1, 0.42))
    share = (11.0 - past.mean_pct) / (11.0 - emc_pct(20.0, 0.42))
    assert 0.4 < share[7, 0] < 0.6 < share[14, 0] < 0.9
    assert share[14, 1] < 0.4


def test_bad_air_and_bad_sizes_are_refused() -> None:
    """Series of two lengths, one value only, and a part without thickness."""
    with pytest.raises(InputError) as uneven:
        simulate([Slab(thickness_mm=5.0)], temperature_c=np.full(3, 20.0), relative_humidity=np.full(4, 0.5))
    assert uneven.value.code == "air_series_uneven"
    with pytest.raises(InputError) as single:
        _run([Slab(thickness_mm=5.0)], np.full(1, 0.5))
    assert single.value.code == "air_series_uneven"
    with pytest.raises(InputError, match="must be greater than 0 mm, got -3") as thin:
        Slab(thickness_mm=-3.0)
    assert thin.value.code == "thickness_not_positive"
