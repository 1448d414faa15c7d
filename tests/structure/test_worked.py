"""Published and worked values of structure, each with where it stands.

Wood Handbook is the USDA Forest Products Laboratory's FPL-GTR-190 (2010). Values marked worked were
computed by hand from the stated formula.
"""

from __future__ import annotations

import math

import pytest

from scantling.structure import (
    Beam,
    Creep,
    Drawer,
    Grip,
    Lift,
    Loading,
    drawer_margin_kg_mm,
    longest_round_corner_mm,
    sag,
    seating,
    tip,
    tip_force_n,
    weight_limit_kg,
)
from scantling.structure.lift import (
    Spell,
    asymmetry,
    distance,
    frequency,
    horizontal,
    lifting_index,
    vertical,
)
from scantling.structure.sagging import inertia_with_edge_mm4

LB = 0.45359237
PSI = 6894.757e-6
INCH = 25.4


@pytest.mark.parametrize(
    ("loading", "bending", "shear"),
    [
        (Loading.UNIFORM_SIMPLE, 5 / 384, 1 / 8),
        (Loading.UNIFORM_CLAMPED, 1 / 384, 1 / 8),
        (Loading.MIDDLE_SIMPLE, 1 / 48, 1 / 4),
        (Loading.MIDDLE_CLAMPED, 1 / 192, 1 / 4),
        (Loading.QUARTERS_SIMPLE, 11 / 768, 1 / 8),
        (Loading.UNIFORM_CANTILEVER, 1 / 8, 1 / 2),
        (Loading.END_CANTILEVER, 1 / 3, 1),
    ],
)
def test_factors_of_wood_handbook_table_9_1(loading: Loading, bending: float, shear: float) -> None:
    """The printed factors, through a beam for which every other term is 1 (or 1.2 in the shear area)."""
    unit = Beam(
        span_mm=1.0,
        width_mm=1.0,
        depth_mm=1.0,
        moe_mpa=12.0,
        shear_modulus_mpa=1.0,
        load_n=1.0,
        loading=loading,
    )
    result = sag(unit)
    assert result.bending_mm == pytest.approx(bending, rel=1e-12)
    assert result.shear_mm == pytest.approx(1.2 * shear, rel=1e-12)


def test_oak_shelf_by_eq_9_2() -> None:
    """900 x 250 x 19, E 12 550, 40 kg: 2.0763 mm bending, 0.0129 mm shear with G = 1.1 E / 16 (worked)."""
    shelf = Beam(
        span_mm=900,
        width_mm=250,
        depth_mm=19,
        moe_mpa=12550,
        shear_modulus_mpa=1.1 * 12550 / 16,
        load_n=392.27,
    )
    assert sag(shelf).bending_mm == pytest.approx(2.0763, abs=5e-5)
    assert sag(shelf).shear_mm == pytest.approx(0.0129, abs=5e-5)


def test_cherry_shelf_and_its_creep() -> None:
    """32 x 11 x 7/8 in, 30 lb/ft, E 1.49 million psi: 0.0373 in, long-term 0.056 to 0.075 in "
    "(worked; bending).
    """
    shelf = Beam(
        span_mm=32 * INCH,
        width_mm=11 * INCH,
        depth_mm=0.875 * INCH,
        moe_mpa=1.49e6 * PSI,
        shear_modulus_mpa=1e12,
        load_n=30 * 32 / 12 * LB * 9.80665,
    )
    assert sag(shelf).first_mm / INCH == pytest.approx(0.0373, abs=5e-5)
    assert sag(shelf).long_term_mm / INCH == pytest.approx(0.056, abs=5e-4)
    from dataclasses import replace

    assert sag(replace(shelf, creep=Creep.VARIABLE)).long_term_mm / INCH == pytest.approx(0.075, abs=5e-4)


def test_an_edge_strip_stiffens_by_the_worked_factor() -> None:
    """A 3/4 x 1 1/2 in strip under an 11 x 7/8 in shelf multiplies its second moment by 3.66 (worked)."""
    plain = 11 * 0.875**3 / 12
    assert inertia_with_edge_mm4(11, 0.875, edge_width_mm=0.75, edge_depth_mm=1.5) / plain == pytest.approx(
        3.66, abs=0.005
    )


def test_niosh_limit_printed_by_a_national_agency() -> None:
    """23 x 1.00 x 0.93 x 1.00 x 0.71 x 0.13 x 1.00 = 1.97 kg, as printed."""
    lift = Lift(
        hands_out_cm=25,
        hands_up_cm=75 + 0.07 / 0.003,
        travel_cm=25,
        twist_deg=0.29 / 0.0032,
        lifts_per_min=10,
        spell=Spell.LONG,
        grip=Grip.GOOD,
    )
    assert weight_limit_kg(lift) == pytest.approx(1.97, abs=0.005)


@pytest.mark.parametrize(("up_in", "limit_lb", "index"), [(15.0, 16.3, 2.7), (63.0, 14.5, 3.0)])
def test_niosh_manual_example_of_a_44_lb_reel(up_in: float, limit_lb: float, index: float) -> None:
    """Applications Manual, Pub. 94-110, example 1 (recalled; the products agree): H 23, D 48 in, fair grip.

    The pounds form has 10 in for 25 cm (1.6 %), 51 lb for 23 kg (0.6 %) and each multiplier rounded
    to two digits (0.44 for 0.435 is 1.2 %, 0.75 for 0.745 is 0.7 %), 4.5 % in all.
    """
    lift = Lift(hands_out_cm=23 * 2.54, hands_up_cm=up_in * 2.54, travel_cm=48 * 2.54, grip=Grip.FAIR)
    assert weight_limit_kg(lift) / LB == pytest.approx(limit_lb, rel=0.046)
    assert lifting_index(44 * LB, lift) == pytest.approx(44 / limit_lb, rel=0.05)
    assert round(44 / limit_lb, 1) == index


@pytest.mark.parametrize(
    ("angle", "printed"),
    [
        (0, 1.0),
        (15, 0.95),
        (30, 0.90),
        (45, 0.86),
        (60, 0.81),
        (75, 0.76),
        (90, 0.71),
        (105, 0.66),
        (120, 0.62),
        (135, 0.57),
    ],
)
def test_niosh_asymmetry_table(angle: float, printed: float) -> None:
    """The printed table of the asymmetric multiplier, two digits."""
    assert asymmetry(angle) == pytest.approx(printed, abs=0.0051)


def test_niosh_limits_of_each_multiplier() -> None:
    """Out of reach, above the head and twisted too far nothing may be lifted; near and at "
    "knuckle height all.
    """
    assert (horizontal(25), horizontal(63.1)) == (1.0, 0.0)
    assert (vertical(75), vertical(175.1)) == (1.0, 0.0)
    assert (distance(25), distance(175.1)) == (1.0, 0.0)
    assert (asymmetry(0), asymmetry(135.1)) == (1.0, 0.0)
    assert frequency(10, spell=Spell.LONG, hands_up_cm=80) == 0.13
    assert frequency(16, spell=Spell.SHORT, hands_up_cm=80) == 0.0


def test_tipping_worked_values() -> None:
    """40 kg, 500 inside, 300 over: 654 N. A round top on three and on four legs: 12.4 and 25.2 kg."""
    assert tip_force_n(40, inside_mm=500, overhang_mm=300) == pytest.approx(654, abs=0.5)
    rim = [(450 * math.cos(k * math.pi / 180), 450 * math.sin(k * math.pi / 180)) for k in range(360)]
    for legs, kilograms in ((3, 12.4), (4, 25.2)):
        angles = [2 * math.pi * k / legs for k in range(legs)]
        feet = [(380 * math.cos(a), 380 * math.sin(a)) for a in angles]
        weakest = tip(17.0, (0.0, 0.0), feet_mm=feet, top_mm=rim)
        assert weakest.force_n / 9.80665 == pytest.approx(kilograms, abs=0.05)


@pytest.mark.parametrize(
    ("mass", "behind", "margin"),
    [(45, 215, -2535), (52, 225, -510)],
)
def test_drawers_worked_values(mass: float, behind: float, margin: float) -> None:
    """Three 9 kg drawers 150 mm ahead and 27.2 kg (60 lb, ASTM F2057-23) at 300 mm."""
    drawers = [Drawer(mass_kg=9, arm_mm=150)] * 3
    result = drawer_margin_kg_mm(mass, behind, drawers=drawers, child_kg=27.2, child_arm_mm=300)
    assert result == pytest.approx(margin)


@pytest.mark.parametrize(("thick", "longest"), [(0, 2686), (60, 2566), (300, 2085), (375, 1935)])
def test_corner_of_corridors_900_and_1000(thick: float, longest: float) -> None:
    """Thin, a 60 slab on edge, a 300 case, and the same wrapped 37.5 all round (worked)."""
    assert longest_round_corner_mm(900, 1000, thick_mm=thick) == pytest.approx(longest, abs=0.6)


def test_thin_corner_is_the_closed_form() -> None:
    """(p^2/3 + q^2/3)^3/2 for a line."""
    p, q = 870.0, 1210.0
    closed = (p ** (2 / 3) + q ** (2 / 3)) ** 1.5
    assert longest_round_corner_mm(p, q, thick_mm=0.0) == pytest.approx(closed, rel=1e-9)


def test_places_worked_value() -> None:
    """1 600 long, 70 legs inset 60: clear 1 340, two places of 600."""
    side = seating(1600, leg_mm=70, inset_mm=60)
    assert (side.clear_mm, side.seats) == (1340, 2)
