"""What a scale takes of an angle, what that leaves open, and the trial cut that proves a setting."""

from __future__ import annotations

import math

import pytest

from scantling.piece.model import Part
from scantling.shop.profile.profile_file import default_shop, parse_shop
from scantling.shop.sawing.saw import saw_all
from scantling.shop.sawing.sawsetup import SawSetup, saw_setups
from scantling.shop.sawing.settable import gap_mm, ring_of
from tests.joinery.test_miter import frame, ring
from tests.shop.sticks import level_stick, splayed_leg

SHOP = default_shop()


def setups(*parts: Part) -> tuple[SawSetup, ...]:
    """Set-ups of parts in a usual shop."""
    return saw_setups(saw_all(parts, {}, SHOP), SHOP)


def tray_side(sides: int = 4) -> SawSetup:
    """The first set-up of a ring of sides 70 x 10 that lean by 20 degrees."""
    return setups(*ring(sides, 20.0).piece.parts.values())[0]


def test_a_trays_angles_are_set_to_half_degrees() -> None:
    """18.88 and 41.64 become 19 and 41.5; over 70 x 10 that opens 0.29 mm where two such ends meet.

    By hand: tan 18.882 - tan 19 = -0.00231, times 70 is 0.1618; tan 41.641 / cos 18.882 - tan 41.5 / cos 19 =
    0.00403, times 10 is 0.0403; 0.2021 cos 18.882 cos 41.641 = 0.1429, twice that 0.286.
    """
    scale = tray_side().scale
    assert (scale.miter_deg, scale.bevel_deg) == (19.0, 41.5)
    assert scale.gap_mm == pytest.approx(0.286, abs=0.002)


def test_a_finer_scale_leaves_less() -> None:
    """Read to a tenth of a degree, 18.9 and 41.6 leave a fifth of that."""
    fine = parse_shop("machines:\n  table_saw: {reads_to: 0.1 deg}\n")
    parts = tuple(ring(4, 20.0).piece.parts.values())
    scale = saw_setups(saw_all(parts, {}, fine), fine)[0].scale
    assert (scale.miter_deg, scale.bevel_deg) == pytest.approx((18.9, 41.6))
    assert 0.0 < scale.gap_mm < 0.08


def test_forty_five_degrees_are_on_the_scale() -> None:
    """A frame's miters leave nothing, and neither do square ends."""
    for setup in setups(*frame().piece.parts.values()):
        assert setup.scale.gap_mm == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("off", [0.1, 0.5, 1.0])
def test_the_gap_of_a_plain_miter_is_the_angle_over_its_length(off: float) -> None:
    """For small errors the miter's length times the angle: 60 sqrt 2 times the error."""
    found = gap_mm((45.0, 0.0), (45.0 - off, 0.0), across_mm=60.0, height_mm=20.0)
    assert found == pytest.approx(60.0 * math.sqrt(2.0) * math.radians(off), rel=0.02)


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 8, 12])
@pytest.mark.parametrize("lean", [0.0, 15.0])
def test_ends_know_the_ring_they_close_to(sides: int, lean: float) -> None:
    """Cos m cos b = cos(180 / n), upright or leaning."""
    (cut, *_) = saw_all(ring(sides, lean).piece.parts.values(), {}, SHOP)[0].cuts
    assert ring_of(cut.lay) == sides


def trial(setup: SawSetup) -> str:
    """The line on the trial."""
    (line,) = [step for step in setup.steps if step.startswith("trial")]
    return line


def test_the_trial_of_a_ring_is_a_ring_of_scrap() -> None:
    """Six sides: twelve cuts, and twelve times the error at the last corner."""
    words = trial(tray_side(6))
    assert "both ends of 6 scraps" in words
    assert "12 times the error" in words


def test_the_trial_of_one_angle_is_turned_over() -> None:
    """A rail with ends at 12 degrees: both halves of a scrap stand at 156."""
    (setup, *_) = setups(level_stick("rail", 600.0, lean_deg=(12.0, 12.0)))
    assert "at 156.0°" in trial(setup)


def test_a_splayed_leg_is_laid_on_the_drawing() -> None:
    """Two angles that close to no ring: the sliding bevel decides."""
    (setup, *_) = setups(splayed_leg("leg", 8.0, 5.0, rise_mm=412.0))
    assert "sliding bevel" in trial(setup)


def test_square_ends_want_no_trial() -> None:
    """Nothing to prove beyond the square."""
    for setup in setups(level_stick("rail", 600.0, lean_deg=(0.0, 0.0))):
        assert not [step for step in setup.steps if step.startswith("trial")]
