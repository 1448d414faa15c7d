"""Movement across the grain: the two methods agree where both hold, and each is told where it stops."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import InputError
from scantling.wood.coefficients import (
    Direction,
    coefficient,
    coefficient_at,
    coefficient_from_shrinkage,
    coefficient_source,
    panel_coefficient,
    shrinkage_pct,
    thickness_coefficient,
)
from scantling.wood.movement import (
    MovementMethod,
    length_change_mm,
    movement,
    width_change_full_shrinkage_mm,
    width_change_mm,
)
from scantling.wood.ring import Ring, ring_at
from scantling.wood.species import Species, all_species, find_species

MC = st.floats(6.0, 14.0)
TABLES_DISAGREE = {
    "cedar elm": 1.13,
    "iroko": 1.15,
    "light red lauan": 0.79,
    "limba": 0.86,
    "African mahogany": 1.29,
    "true mahogany": 1.24,
    "teak": 0.68,
    "wenge": 0.7,
}
"""Movement by the printed coefficient over that by the printed shrinkage, where they are a tenth apart."""
MOVING = [wood for wood in all_species() if wood.ct_per_pct is not None and wood.tangential_pct is not None]


@given(width=st.floats(1.0, 3000.0), first=MC, last=MC)
def test_there_and_back_is_nothing_by_full_shrinkage(width: float, first: float, last: float) -> None:
    """The full method counts from the width it has, so it leads back exactly."""
    there = width_change_full_shrinkage_mm(width, shrinkage_total_pct=8.0, mc_from_pct=first, mc_to_pct=last)
    back = width_change_full_shrinkage_mm(
        width + there, shrinkage_total_pct=8.0, mc_from_pct=last, mc_to_pct=first
    )
    assert there + back == pytest.approx(0.0, abs=1e-9 * width)


def _both_ways(wood: Species) -> tuple[float, float]:
    straight = width_change_mm(
        400.0, coefficient=coefficient(wood, Ring.FLAT), mc_from_pct=6.0, mc_to_pct=14.0
    )
    full = width_change_full_shrinkage_mm(
        400.0,
        shrinkage_total_pct=shrinkage_pct(wood, 0.0),
        mc_from_pct=6.0,
        mc_to_pct=14.0,
        shrink_start_pct=wood.shrink_start_pct,
    )
    return straight, full


def test_the_two_methods_agree_but_where_the_tables_do_not() -> None:
    """From 6 to 14 % both give the same within a tenth, but for a few woods whose tables disagree."""
    apart = {}
    for wood in MOVING:
        straight, full = _both_ways(wood)
        if abs(straight - full) > 0.10 * full:
            apart[wood.name] = round(straight / full, 2)
    assert apart == TABLES_DISAGREE


def test_full_shrinkage_from_green_to_ovendry_is_the_printed_one() -> None:
    """A board 100 mm wide when green ends 7.1 mm narrower near ovendry (1 % is the driest taken)."""
    change = width_change_full_shrinkage_mm(100.0, shrinkage_total_pct=7.1, mc_from_pct=30.0, mc_to_pct=1.0)
    assert change == pytest.approx(-7.1 * 29 / 30, rel=1e-9)


@given(angle=st.floats(0.0, 90.0))
def test_width_and_thickness_share_the_movement(angle: float) -> None:
    """At every ring angle the two directions of the section add up to radial and tangential."""
    cherry = find_species("cherry")
    both = coefficient_at(cherry, angle) + coefficient_at(cherry, 90.0 - angle)
    assert both == pytest.approx(0.00126 + 0.00248)


def test_thickness_of_a_flat_sawn_board_moves_radially() -> None:
    """Through the thickness a flat-sawn board moves as a quarter-sawn one does across."""
    cherry = find_species("cherry")
    assert thickness_coefficient(cherry, Ring.FLAT) == coefficient(cherry, Ring.QUARTER)
    assert thickness_coefficient(cherry, Ring.RIFT) == pytest.approx(coefficient(cherry, Ring.RIFT))


def test_a_wood_without_coefficient_moves_by_its_shrinkage() -> None:
    """Northern red oak has no row in the table of coefficients: its shrinkage stands in, and says so."""
    oak = find_species("northern red oak")
    assert oak.ct_per_pct is None
    assert coefficient(oak, Ring.FLAT) == coefficient_from_shrinkage(8.6)
    assert coefficient_source(oak, Direction.TANGENTIAL).startswith("computed from the total shrinkage")
    assert "13-5" in coefficient_source(find_species("cherry"), Direction.RADIAL)


def test_a_wood_without_radial_figure_is_refused_quarter_sawn() -> None:
    """Only the tangential figure of mesquite is published."""
    mesquite = find_species("mesquite")
    assert coefficient(mesquite, Ring.FLAT) == 0.00129
    with pytest.raises(InputError, match="must have a published radial coefficient") as caught:
        coefficient(mesquite, Ring.QUARTER)
    assert caught.value.code == "movement_unknown"


def test_the_band_is_wider_where_the_tables_disagree() -> None:
    """Teak's coefficient and its shrinkage differ by half; the band of a movement holds both."""
    teak, cherry = find_species("teak"), find_species("cherry")
    shares = []
    for wood in (teak, cherry):
        moved = movement(400.0, species=wood, ring_angle_deg=0.0, mc_from_pct=7.0, mc_to_pct=12.0)
        shares.append((moved.high_mm - moved.low_mm) / moved.change_mm)
    assert shares[0] > 0.8
    assert shares[1] == pytest.approx(0.5, abs=0.03)


def test_the_method_follows_the_range() -> None:
    """Inside 6 to 14 % the coefficient; outside the full shrinkage, with a note."""
    cherry = find_species("cherry")
    inside = movement(500.0, species=cherry, ring_angle_deg=0.0, mc_from_pct=8.0, mc_to_pct=12.0)
    outside = movement(500.0, species=cherry, ring_angle_deg=0.0, mc_from_pct=8.0, mc_to_pct=4.5)
    assert (inside.method, inside.note) == (MovementMethod.LINEAR, "")
    assert outside.method is MovementMethod.FULL_SHRINKAGE
    assert "6..14" in outside.note
    assert inside.low_mm < inside.change_mm < inside.high_mm
    assert outside.high_mm < outside.change_mm < outside.low_mm < 0.0


def test_both_methods_meet_at_the_edge_of_the_range() -> None:
    """No jump worth a tenth of a millimeter on half a meter when the range is left."""
    cherry = find_species("cherry")
    just_in, just_out = (
        movement(500.0, species=cherry, ring_angle_deg=0.0, mc_from_pct=9.0, mc_to_pct=to).change_mm
        for to in (6.0, 5.999)
    )
    assert abs(just_in - just_out) < 0.1


@pytest.mark.parametrize(
    ("moisture", "said"),
    [
        (0.08, "must lie in 1..30 %, got 0.08. Moisture content is in percent: write 8, not 0.08."),
        (45.0, "must lie in 1..30 %, got 45.0. Above fiber saturation"),
        (float("nan"), "must lie in 1..30 %, got nan"),
    ],
)
def test_moisture_outside_wood_is_refused(moisture: float, said: str) -> None:
    """A fraction for a percent, green wood, and no number."""
    with pytest.raises(InputError) as caught:
        width_change_mm(400.0, coefficient=0.0025, mc_from_pct=8.0, mc_to_pct=moisture)
    assert caught.value.code == "mc_out_of_range"
    assert caught.value.field == "mc_to_pct"
    assert said in str(caught.value)


@pytest.mark.parametrize("width", [0.0, -5.0, float("nan")])
def test_a_board_without_width_is_refused(width: float) -> None:
    """Nothing, less than nothing and no number."""
    with pytest.raises(InputError) as caught:
        width_change_mm(width, coefficient=0.0025, mc_from_pct=8.0, mc_to_pct=9.0)
    assert caught.value.code == "width_not_positive"


def test_a_panel_moves_as_the_sum_of_its_strips() -> None:
    """Three strips of three cuts, each moving by its own coefficient."""
    cherry = find_species("cherry")
    strips = [(120.0, Ring.FLAT), (80.0, Ring.RIFT), (200.0, Ring.QUARTER)]
    apart = sum(
        width_change_mm(width, coefficient=coefficient(cherry, ring), mc_from_pct=7.0, mc_to_pct=11.0)
        for width, ring in strips
    )
    together = width_change_mm(
        400.0, coefficient=panel_coefficient(cherry, strips), mc_from_pct=7.0, mc_to_pct=11.0
    )
    assert together == pytest.approx(apart)
    with pytest.raises(InputError) as caught:
        panel_coefficient(cherry, [])
    assert caught.value.code == "strips_missing"


def test_a_board_hardly_moves_along_the_grain() -> None:
    """Less than a twentieth of what it moves across, for the stillest of woods."""
    along = length_change_mm(1000.0, mc_from_pct=6.0, mc_to_pct=12.0)
    across = min(1000.0 * coefficient(wood, Ring.FLAT) * 6.0 for wood in MOVING)
    assert 0.0 < along < across / 20.0


def test_rings_at_an_angle_lie_between_the_three() -> None:
    """Cherry at 30 deg: 0.00248 x 3/4 + 0.00126 x 1/4 = 0.002175; 0, 45 and 90 are the three names."""
    cherry = find_species("cherry")
    assert coefficient(cherry, Ring(30.0)) == pytest.approx(0.002175)
    assert thickness_coefficient(cherry, Ring(30.0)) == pytest.approx(0.00248 / 4 + 0.00126 * 3 / 4)
    assert (Ring(0.0), Ring(45.0), Ring(90.0)) == (Ring.FLAT, Ring.RIFT, Ring.QUARTER)
    # 400 mm that take up three points, 2.61 mm by hand
    assert width_change_mm(
        400.0, coefficient=coefficient(cherry, Ring(30.0)), mc_from_pct=8.0, mc_to_pct=11.0
    ) == pytest.approx(2.61)


@pytest.mark.parametrize(("angle", "near"), [(120.0, "60 deg"), (-30.0, "30 deg"), (210.0, "30 deg")])
def test_rings_from_the_other_side_are_told_how_to_write_them(angle: float, near: str) -> None:
    """An angle outside 0 to 90 is refused with the one that is meant."""
    with pytest.raises(InputError) as caught:
        ring_at(angle, written=f"{angle:g} deg")
    assert caught.value.fault.code == "ring_angle_out_of_range"
    assert f"are written {near}." in caught.value.fault.remedy
