"""Strength, beams, fasteners and density at the ends of what they are published for."""

from __future__ import annotations

import math

import pytest

from scantling.errors import InputError
from scantling.wood.beams import Section, amplified_by_axial_load_mm, buckling_load_n
from scantling.wood.density import density_kg_m3
from scantling.wood.drying import mass_at_moisture_kg
from scantling.wood.fasteners import Fastener, lateral_n, withdrawal_n
from scantling.wood.species import Species, all_species, find_species
from scantling.wood.strength import GrainAngleProperty, hankinson, size_factor_bending, strength_at_moisture


@pytest.mark.parametrize("kind", list(GrainAngleProperty))
def test_hankinson_runs_from_along_to_across(kind: GrainAngleProperty) -> None:
    """Its ends are the two properties, and it falls all the way between."""
    values = [
        hankinson(50.0, perpendicular=8.0, angle_deg=angle, exponent=kind.exponent)
        for angle in range(0, 91, 5)
    ]
    assert (values[0], values[-1]) == pytest.approx((50.0, 8.0))
    assert values == sorted(values, reverse=True)


def test_strength_passes_through_both_of_its_points() -> None:
    """At 12 % it is the one, at the intersection and above the other."""
    for moisture, expected in ((12.0, 100.0), (25.0, 60.0), (60.0, 60.0)):
        assert strength_at_moisture(100.0, green=60.0, mc_pct=moisture) == pytest.approx(expected)


def test_larger_beams_are_weaker() -> None:
    """Twice the depth and span lose a twelfth."""
    assert size_factor_bending(depth_mm=102.0, span_mm=1422.0) == pytest.approx(0.25 ** (1 / 18))


def test_a_round_and_a_square_of_one_area_are_near_in_stiffness() -> None:
    """A square is stiffer than a round of its area by pi / 3."""
    square = Section.rectangle(breadth_mm=40.0, depth_mm=40.0)
    round_ = Section.circle(diameter_mm=40.0 * 2.0 / math.sqrt(math.pi))
    assert square.second_moment_mm4 / round_.second_moment_mm4 == pytest.approx(math.pi / 3.0)


def test_a_column_at_its_buckling_load_is_refused() -> None:
    """There the deflection has no value."""
    load = buckling_load_n(Section.rectangle(breadth_mm=20, depth_mm=20), length_mm=1000, modulus_mpa=10_000)
    with pytest.raises(InputError, match="must be less than the buckling load of 1316 N") as caught:
        amplified_by_axial_load_mm(1.0, load_n=load, buckling_n=load)
    assert caught.value.code == "column_buckles"


@pytest.mark.parametrize(
    ("gravity", "hardwood", "constant"),
    [
        (0.33, True, 23.17),
        (0.48, True, 31.99),
        (0.74, True, 44.13),
        (0.30, False, 23.17),
        (0.50, False, 36.40),
    ],
)
def test_lateral_classes_of_screws(gravity: float, hardwood: bool, constant: float) -> None:
    """Each class of gravity has its constant, at a diameter of one."""
    load = lateral_n(Fastener.WOOD_SCREW, specific_gravity_12=gravity, diameter_mm=1.0, hardwood=hardwood)
    assert load == constant


def test_what_is_not_published_is_refused() -> None:
    """A lag screw sideways, and a wood lighter than any class."""
    with pytest.raises(InputError) as lag:
        lateral_n(Fastener.LAG_SCREW, specific_gravity_12=0.6, diameter_mm=6.0, hardwood=True)
    assert lag.value.code == "fastener_without_table"
    with pytest.raises(InputError) as light:
        lateral_n(Fastener.NAIL, specific_gravity_12=0.16, diameter_mm=3.0, hardwood=True)
    assert (light.value.code, light.value.value) == ("gravity_out_of_range", 0.16)
    with pytest.raises(InputError) as thin:
        withdrawal_n(Fastener.NAIL, specific_gravity_12=0.6, diameter_mm=0.0, penetration_mm=30.0)
    assert (thin.value.code, thin.value.field) == ("not_positive", "diameter_mm")


@pytest.mark.parametrize(
    ("name", "density"),
    [
        ("cherry", 560),
        ("white oak", 762),
        ("red oak", 706),
        ("sugar maple", 706),
        ("walnut", 616),
        ("beech", 717),
    ],
)
def test_density_at_twelve_percent_is_gravity_and_water(name: str, density: float) -> None:
    """Printed gravity times 1.12 tonnes."""
    assert density_kg_m3(find_species(name)) == pytest.approx(density, abs=0.6)


@pytest.mark.parametrize("wood", [w for w in all_species() if w.specific_gravity_12], ids=lambda w: w.name)
def test_drying_from_twelve_to_six_makes_every_wood_lighter(wood: Species) -> None:
    """Less water weighs more than the shrinking of its volume."""
    assert 0.95 < density_kg_m3(wood, mc_pct=6.0) / density_kg_m3(wood, mc_pct=12.0) < 0.995


def test_a_wood_of_unknown_gravity_has_no_density() -> None:
    """Nothing is guessed."""
    with pytest.raises(InputError, match="must have a published specific gravity") as caught:
        density_kg_m3(find_species("American holly"))
    assert (caught.value.code, caught.value.value) == ("density_unknown", "American holly")


def test_weighing_wants_a_mass_and_a_moisture() -> None:
    """No mass, and a moisture below nothing."""
    with pytest.raises(InputError) as mass:
        mass_at_moisture_kg(0.0, mc_pct=10.0, target_mc_pct=8.0)
    assert mass.value.code == "mass_not_positive"
    with pytest.raises(InputError) as moisture:
        mass_at_moisture_kg(1.0, mc_pct=10.0, target_mc_pct=-8.0)
    assert (moisture.value.code, moisture.value.field) == ("mc_out_of_range", "target_mc_pct")
