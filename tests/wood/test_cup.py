"""Cup: the short formulas against the exact mapping of a section, and against a bent strip."""

from __future__ import annotations

import math

import pytest

from scantling.errors import InputError
from scantling.wood.cup import cup_from_rings_mm, cup_from_tilt_mm


def _short_cup_mm(width: float, pith: float, tangential: float, radial: float) -> float:
    """Every bit of the section turned with its rings, to first order in the strain."""
    return width / 2.0 * math.atan(width / 2.0 / pith) * (radial - tangential)


@pytest.mark.parametrize("width", [60.0, 120.0, 250.0, 400.0])
@pytest.mark.parametrize("pith", [60.0, 100.0, 300.0])
def test_rings_cup_as_the_short_formula_says(width: float, pith: float) -> None:
    """Within one percent for a board that dries four points."""
    tangential, radial = -4 * 0.00369, -4 * 0.00158
    exact = cup_from_rings_mm(
        width, pith_distance_mm=pith, tangential_strain=tangential, radial_strain=radial
    )
    assert exact == pytest.approx(_short_cup_mm(width, pith, tangential, radial), rel=0.01)


def _angle_cup_mm(angle: float, mc_change: float = -4.0) -> float:
    return cup_from_rings_mm(
        120.0,
        pith_distance_mm=120.0,
        tangential_strain=mc_change * 0.00369,
        radial_strain=mc_change * 0.00158,
        ring_angle_deg=angle,
    )


def test_a_quarter_sawn_board_stays_flat_and_a_rift_one_cups_less() -> None:
    """The steeper the rings, the flatter it stays; along a ray nothing bends it."""
    cups = [_angle_cup_mm(angle) for angle in (0.0, 20.0, 45.0, 70.0, 90.0)]
    assert cups == sorted(cups, reverse=True)
    assert cups[0] > 2.0 * cups[2] > 0.0
    assert cups[-1] == pytest.approx(0.0, abs=1e-9)


def test_taking_up_water_turns_the_cup_round() -> None:
    """The bark side goes round by what it went hollow, to a hundredth."""
    assert _angle_cup_mm(0.0, 4.0) == pytest.approx(-_angle_cup_mm(0.0), rel=0.01)


def test_far_from_the_pith_the_parabola_holds() -> None:
    """The cup tends to the square of the width over four times the distance."""
    cup = cup_from_rings_mm(100.0, pith_distance_mm=5000.0, tangential_strain=-0.01, radial_strain=0.0)
    assert cup == pytest.approx(100.0**2 * 0.01 / (4.0 * 5000.0), rel=0.02)


def test_a_tilt_bends_to_the_radius_of_its_strain() -> None:
    """Height of an arc of radius t / (C dm) over the width, to the third order."""
    radius = 20.0 / (0.0035 * 2.0)
    arc = radius - math.sqrt(radius**2 - 125.0**2)
    assert cup_from_tilt_mm(250.0, thickness_mm=20.0, coefficient=0.0035, tilt_pct=2.0) == pytest.approx(
        arc, rel=1e-3
    )


def test_sizes_that_are_none_are_refused() -> None:
    """A board without width or thickness."""
    with pytest.raises(InputError, match="width_mm: must be greater than 0 mm, got 0") as caught:
        cup_from_tilt_mm(0.0, thickness_mm=20.0, coefficient=0.0035, tilt_pct=1.0)
    assert caught.value.code == "size_not_positive"
