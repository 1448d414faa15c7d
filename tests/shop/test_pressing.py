"""Clamps and glue of a stage, by figures worked by hand."""

from __future__ import annotations

import pytest

from scantling.shop.gluing.pressing import (
    clamps_by_pressure,
    clamps_by_spacing,
    clamps_for_force,
    forces_of,
    plan_clamps,
    pressing_words,
    pressure_for,
    spacing_most_mm,
)
from scantling.shop.gluing.spreading import glue_mass_g, stage_time, warm_first
from scantling.shop.profile.glues import GlueKind
from scantling.shop.profile.profile_file import default_shop, parse_shop

INCH2, PSI, LBF = 25.4**2, 0.00689476, 4.44822
SHOP = default_shop()


def test_an_edge_of_48_inches() -> None:
    """48 x 1 in at 200 psi with clamps of 1000 lbf: 10, so 4.8 in apart, as worked by hand."""
    count = clamps_by_pressure(48 * INCH2, pressure_mpa=200 * PSI, force_n=1000 * LBF)
    assert count == 10
    assert 48 / count == pytest.approx(4.8)


@pytest.mark.parametrize(("force", "count"), [(1000, 14), (600, 23)])
def test_a_face_of_3_by_30_inches(force: float, count: int) -> None:
    """150 psi over it is 13 500 lbf: 14 clamps of 1000 or 23 of 600, as worked by hand."""
    assert clamps_by_pressure(90 * INCH2, pressure_mpa=150 * PSI, force_n=force * LBF) == count


def test_spacing_is_twice_the_way_to_the_joint_and_at_most_the_shops_own() -> None:
    """Cones of 45 degrees: 40 of caul and strip give 80 apart; wide strips are held to 12 in or less."""
    assert spacing_most_mm(SHOP, 40.0) == 80.0
    assert spacing_most_mm(SHOP, 500.0) == SHOP.clamping.spacing_most_mm
    assert clamps_by_spacing(1250.0, spacing_mm=300.0, end_mm=50.0) == 5
    assert clamps_by_spacing(80.0, spacing_mm=300.0, end_mm=50.0) == 1


def test_clamps_are_counted_by_their_reach() -> None:
    """Of six at 1200 and four at 900, six open 1000; none opens 1300, and that is said."""
    shop = parse_shop("clamps: [{reach: 1200, count: 6}, {reach: 900, count: 4}]")

    def plan(outside_mm: float) -> tuple[int, bool]:
        found = plan_clamps(
            1e4,
            shop,
            pressure=pressure_for("black cherry"),
            outside_mm=outside_mm,
            length_mm=700.0,
            strip_mm=100.0,
        )
        return found.owned, found.too_short

    wider = 2 * 45 + 25
    assert plan(900.0 - wider) == (10, False)
    assert plan(1000.0 - wider) == (6, False)
    assert plan(1300.0 - wider) == (0, True)


def test_seven_strips_in_one_go_and_in_two() -> None:
    """6 joints of 1.9 m, 7 strips, 10 clamps: 11.0 min; 4 strips 7.75, 3 strips 6.7, as worked by hand."""
    glue = SHOP.glue_named()

    def minutes(strips: int) -> float:
        lines = (1900.0,) * (strips - 1)
        return stage_time(lines, SHOP, parts=strips, clamps=10, glue=glue).total_min

    assert minutes(7) == pytest.approx(11.0, abs=0.01)
    assert minutes(4) == pytest.approx(7.75, abs=0.01)
    assert minutes(3) == pytest.approx(6.67, abs=0.01)


def test_glue_for_seven_strips() -> None:
    """0.319 m2 at 250 g and a quarter over is 100 g, as worked by hand."""
    glue = SHOP.glue_named().model_copy(update={"spread_g_m2": 250.0})
    assert glue_mass_g(6 * 1900.0 * 28.0, glue, SHOP) == pytest.approx(100.0, abs=0.3)


def test_two_pairs_of_hands_and_a_hot_shop() -> None:
    """A helper shortens the stage; 30 C shortens what the glue allows."""
    glue = SHOP.glue_named()
    alone = stage_time((1900.0,), SHOP, parts=2, clamps=5, glue=glue)
    helped = stage_time((1900.0,), parse_shop("people: {count: 2}"), parts=2, clamps=5, glue=glue)
    hot = stage_time((1900.0,), parse_shop("climate: {temperature: 30 C}"), parts=2, clamps=5, glue=glue)
    assert helped.total_min < alone.total_min
    assert hot.allowed_min < alone.allowed_min
    assert alone.allowed_min == pytest.approx(0.7 * glue.working_min)


def test_epoxy_wants_contact_and_no_more() -> None:
    """A gap-filling glue is held with a small part of what PVA asks for (common practice)."""
    assert pressure_for("white oak", GlueKind.EPOXY).most_mpa < pressure_for("white oak").least_mpa / 5


def test_a_cold_shop_is_warmed_first() -> None:
    """Yellow PVA from 10 C on: at 9 it says so with both figures, at 10 it does not."""
    glue = SHOP.glue_named()
    [words] = warm_first(glue, parse_shop("climate: {temperature: 9 C}"))
    assert "to 10 °C" in words
    assert "9 °C is too cold for yellow PVA" in words
    assert warm_first(glue, parse_shop("climate: {temperature: 10 C}")) == ()


MIXED = parse_shop(
    "clamps: [{reach: 900, count: 2, force: 4 kN}, {kind: hand screw, reach: 200, count: 3, force: 2 kN}]"
)


def test_the_strongest_clamps_count_first() -> None:
    """Two of 4 kN and three of 2 are 14 kN; what is more is reckoned as of 4."""
    assert forces_of(200.0, MIXED) == (4000.0, 4000.0, 2000.0, 2000.0, 2000.0)
    assert forces_of(201.0, MIXED) == (4000.0, 4000.0)
    assert forces_of(901.0, MIXED) == (4000.0,)
    for force_kn, count in ((8.0, 2), (8.1, 3), (14.0, 5), (14.1, 6), (18.0, 6), (18.1, 7)):
        assert clamps_for_force(force_kn * 1000.0, forces_of(200.0, MIXED)) == count


@pytest.mark.parametrize(("area_cm2", "by_pressure"), [(100.0, 4), (200.0, 7)])
def test_a_lamination_under_mixed_clamps(area_cm2: float, by_pressure: int) -> None:
    """1.03 MPa over 100 cm2 is 10.3 kN, four clamps; over 200 it is 20.6, two more than the five owned."""
    plan = plan_clamps(
        area_cm2 * 100.0,
        MIXED,
        pressure=pressure_for("black cherry"),
        outside_mm=60.0,
        length_mm=700.0,
        strip_mm=30.0,
    )
    assert plan.by_pressure == by_pressure
    assert plan.count == max(plan.by_pressure, plan.by_spacing)
    assert plan.reached_mpa == pytest.approx(sum(forces_of(0.0, MIXED)[: plan.used]) / (area_cm2 * 100.0))
    words = " ".join(pressing_words(plan))
    assert ("stiff caul" in words) == (plan.count > plan.owned)
    assert (f"is {1.03 * area_cm2 / 10.0:.1f} kN" in words) == (plan.by_pressure >= plan.by_spacing)


def test_pressure_over_area_is_the_force_that_is_told() -> None:
    """By hand: 1.03 MPa over 202.5 cm2 is 20.86 kN; told to whole cm2 and tenths, 1.03 times 202 was 20.9."""
    plan = plan_clamps(
        20_250.0,
        MIXED,
        pressure=pressure_for("black cherry"),
        outside_mm=60.0,
        length_mm=700.0,
        strip_mm=30.0,
    )
    assert "1.03 MPa over 202.5 cm² is 20.86 kN" in " ".join(pressing_words(plan))
