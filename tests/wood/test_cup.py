"""Cup: the short formulas against the exact mapping of a section, and against a bent strip."""

from __future__ import annotations

import math

import pytest

from scantling.errors import InputError
from scantling.wood.cup import cup_from_rings_mm, cup_from_tilt_mm


def _exact_cup_mm(width: float, pith: float, tangential: float, radial: float) -> float:
    """Drop of the edge below the middle when every ring keeps its own strain and nothing is stressed."""
    distance = math.hypot(width / 2.0, pith) * (1.0 + radial)
    angle = math.atan(width / 2.0 / pith) * (1.0 + tangential) / (1.0 + radial)
    return pith * (1.0 + radial) - distance * math.cos(angle)


@pytest.mark.parametrize("width", [60.0, 120.0, 250.0, 400.0])
@pytest.mark.parametrize("pith", [60.0, 100.0, 300.0])
def test_rings_cup_as_the_exact_mapping_says(width: float, pith: float) -> None:
    """Within one percent for a board that dries four points."""
    tangential, radial = -4 * 0.00369, -4 * 0.00158
    short = cup_from_rings_mm(
        width, pith_distance_mm=pith, tangential_strain=tangential, radial_strain=radial
    )
    assert short == pytest.approx(-_exact_cup_mm(width, pith, tangential, radial), rel=0.01)


def test_far_from_the_pith_the_parabola_holds() -> None:
    """The cup tends to the square of the width over four times the distance."""
    cup = cup_from_rings_mm(100.0, pith_distance_mm=5000.0, tangential_strain=-0.01, radial_strain=0.0)
    assert cup == pytest.approx(100.0**2 * 0.01 / (4.0 * 5000.0), rel=1e-4)


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
