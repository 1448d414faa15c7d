"""Sums of the bench worked by hand, each to the digits it was worked to."""

from __future__ import annotations

import math

import pytest

from scantling.wood.coefficients import coefficient, coefficient_at
from scantling.wood.cup import cup_from_rings_mm, cup_from_tilt_mm
from scantling.wood.drying import mass_at_moisture_kg
from scantling.wood.fasteners import Fastener, withdrawal_n
from scantling.wood.moisture import MoistureRange, emc_hailwood_horrobin_inch_pound, emc_pct
from scantling.wood.movement import width_change_mm
from scantling.wood.ring import Ring
from scantling.wood.species import find_species

LADDER = [4.51, 5.38, 6.19, 6.97, 7.73, 8.49, 9.28, 10.11, 11.00, 12.00, 13.14, 14.46]


@pytest.mark.parametrize(("step", "moisture"), list(enumerate(LADDER)))
def test_the_ladder_of_room_air_at_68_f(step: int, moisture: float) -> None:
    """From 20 to 75 % in fives; the metric form, which we use, differs by a hundredth at most."""
    humidity = 0.20 + 0.05 * step
    assert emc_hailwood_horrobin_inch_pound(68.0, humidity) == pytest.approx(moisture, abs=0.005)
    assert emc_pct(20.0, humidity) == pytest.approx(moisture, abs=0.0151)


@pytest.mark.parametrize(("humidity", "moisture"), [(0.30, 6.17), (0.60, 10.97)])
def test_air_at_70_f(humidity: float, moisture: float) -> None:
    """A dry and a damp room."""
    assert emc_hailwood_horrobin_inch_pound(70.0, humidity) == pytest.approx(moisture, abs=0.005)


@pytest.mark.parametrize(
    ("name", "radial", "tangential"),
    [
        ("cherry", 0.00126, 0.00248),
        ("red oak", 0.00158, 0.00369),
        ("white oak", 0.00180, 0.00365),
        ("sugar maple", 0.00165, 0.00353),
        ("walnut", 0.00190, 0.00274),
        ("white ash", 0.00169, 0.00274),
        ("beech", 0.00190, 0.00431),
        ("yellow birch", 0.00256, 0.00338),
    ],
)
def test_coefficients_of_the_common_woods(name: str, radial: float, tangential: float) -> None:
    """Quarter-sawn boards move by the radial one, flat-sawn by the tangential one, rift by their mean."""
    wood = find_species(name)
    assert coefficient(wood, Ring.QUARTER) == radial
    assert coefficient(wood, Ring.FLAT) == tangential
    assert coefficient(wood, Ring.RIFT) == pytest.approx((radial + tangential) / 2.0)


def test_a_white_oak_top() -> None:
    """34 in flat-sawn from 6.17 to 10.97 % widen 0.595 in, 15.1 mm."""
    c = coefficient(find_species("white oak"), Ring.FLAT)
    moved = width_change_mm(34 * 25.4, coefficient=c, mc_from_pct=6.17, mc_to_pct=10.97)
    assert moved == pytest.approx(15.1, abs=0.05)
    assert moved / 25.4 == pytest.approx(0.595, abs=0.001)


def _travel(
    name: str, distance_mm: float, moisture: MoistureRange, ring: Ring = Ring.FLAT
) -> tuple[float, float]:
    c = coefficient(find_species(name), ring)
    shrink, swell = (
        abs(
            width_change_mm(
                distance_mm,
                coefficient=c,
                mc_from_pct=moisture.build_pct,
                mc_to_pct=moisture.build_pct + step,
            )
        )
        for step in (-moisture.shrink_pct, moisture.swell_pct)
    )
    return shrink, swell


def test_a_breadboard_pin_in_cherry() -> None:
    """400 mm from the fixed pin, 7.5 built, 6 to 10.5 %: 1.49 in, 2.98 out; 900 mm of panel travel 10.0."""
    moisture = MoistureRange(build_pct=7.5, dry_pct=6.0, wet_pct=10.5)
    shrink, swell = _travel("cherry", 400.0, moisture)
    assert (shrink, swell) == pytest.approx((1.49, 2.98), abs=0.005)
    assert 6.0 + shrink + swell + 2 * 0.5 == pytest.approx(11.5, abs=0.05)  # slot
    assert (swell - shrink) / 2 == pytest.approx(0.74, abs=0.005)  # its bias
    assert sum(_travel("cherry", 900.0, moisture)) == pytest.approx(10.0, abs=0.05)


def test_a_top_fastener_in_white_oak() -> None:
    """380 mm from the fixed line, -1.5 and +3.5 points: 2.08 in and 4.85 out."""
    moisture = MoistureRange(build_pct=8.0, dry_pct=6.5, wet_pct=11.5)
    assert _travel("white oak", 380.0, moisture) == pytest.approx((2.08, 4.85), abs=0.01)


def test_a_drawer_front_and_a_panel() -> None:
    """200 mm of flat maple swell 2.82 by +4 points, quarter cherry 1.01; 380 mm of cherry 2.83 by +3."""
    four = MoistureRange(build_pct=7.0, dry_pct=7.0, wet_pct=11.0)
    assert _travel("sugar maple", 200.0, four)[1] == pytest.approx(2.82, abs=0.005)
    assert _travel("cherry", 200.0, four, Ring.QUARTER)[1] == pytest.approx(1.01, abs=0.005)
    panel = MoistureRange(build_pct=8.0, dry_pct=6.5, wet_pct=11.0)
    assert _travel("cherry", 380.0, panel) == pytest.approx((2 * 0.71, 2 * 1.41), abs=0.01)


def test_cup_of_a_red_oak_board() -> None:
    """250 mm wide, 100 from the pith, 4 points drier: 0.942 mm (by the short formula 0.945).

    1 point from face to face of 20 mm: 1.44.
    """
    oak = find_species("red oak")
    tangential, radial = coefficient_at(oak, 0.0), coefficient_at(oak, 90.0)
    rings = cup_from_rings_mm(
        250.0, pith_distance_mm=100.0, tangential_strain=-4 * tangential, radial_strain=-4 * radial
    )
    assert rings == pytest.approx(0.942, abs=0.001)
    assert 125.0 * math.atan(1.25) * 4 * (tangential - radial) == pytest.approx(0.945, abs=0.001)
    tilt = cup_from_tilt_mm(250.0, thickness_mm=20.0, coefficient=tangential, tilt_pct=1.0)
    assert tilt == pytest.approx(1.44, abs=0.005)


def test_weighing_a_board_to_its_target() -> None:
    """8.20 kg at 11 % weigh 7.905 kg at 7 %."""
    assert mass_at_moisture_kg(8.20, mc_pct=11.0, target_mc_pct=7.0) == pytest.approx(7.905, abs=5e-4)


def test_cross_grain_glue_that_slips_a_millimeter() -> None:
    """At 4 points, flat-sawn oak may be 68 mm wide."""
    per_mm = coefficient(find_species("red oak"), Ring.FLAT) * 4.0
    assert math.floor(1.0 / per_mm + 0.5) == 68


def test_a_screw_in_a_top_clip() -> None:
    """4.2 x 16 in gravity 0.5 hold 1 819 N at the ultimate, 364 N with a factor of five."""
    load = withdrawal_n(Fastener.WOOD_SCREW, specific_gravity_12=0.5, diameter_mm=4.2, penetration_mm=16.0)
    assert load == pytest.approx(1819, abs=0.5)
    assert load / 5 == pytest.approx(364, abs=0.5)


def test_the_reading_table_in_the_high_plains() -> None:
    """From 45 to 20 % air, 660 mm of flat cherry narrow by 6.5 mm, a pin at 270 mm by 2.7."""
    built, dry = emc_pct(20.0, 0.45), emc_pct(20.0, 0.20)
    assert (built, dry) == pytest.approx((8.49, 4.51), abs=0.005)
    moisture = MoistureRange(build_pct=built, dry_pct=dry, wet_pct=built)
    assert _travel("cherry", 660.0, moisture) == (pytest.approx(6.5, abs=0.05), 0.0)
    assert _travel("cherry", 270.0, moisture)[0] == pytest.approx(2.7, abs=0.05)


@pytest.mark.parametrize(
    ("name", "ring", "width_mm", "dry", "wet", "travel"),
    [
        ("white oak", Ring.QUARTER, 330.0, 5.4, 12.0, 3.9),
        ("white oak", Ring.FLAT, 330.0, 5.4, 12.0, 8.0),
        ("white oak", Ring.FLAT, 480.0, 5.4, 12.0, 11.6),
        ("white ash", Ring.FLAT, 330.0, 6.19, 10.11, 3.54),
        ("eastern white pine", Ring.FLAT, 520.0, 6.19, 11.0, 5.3),
        ("yellow-poplar", Ring.FLAT, 520.0, 6.19, 11.0, 7.2),
        ("white ash", Ring.FLAT, 700.0, 6.97, 11.0, 7.7),
    ],
)
def test_widths_of_the_example_pieces(
    name: str, ring: Ring, width_mm: float, dry: float, wet: float, travel: float
) -> None:
    """Panels, seats, chest sides and tops, from the driest to the wettest of their rooms."""
    moisture = MoistureRange(build_pct=dry, dry_pct=dry, wet_pct=wet)
    assert _travel(name, width_mm, moisture, ring)[1] == pytest.approx(travel, abs=0.06)
