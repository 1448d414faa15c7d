"""The year of a part: late and damped against the room, and cupped where one face is left bare."""

from __future__ import annotations

import pytest

from scantling.errors import InputError
from scantling.seasons.air import Air, Month, year_between
from scantling.seasons.build_month import advise_build
from scantling.seasons.room import Room, moisture_range
from scantling.seasons.year import Built, WoodPart, part_years
from scantling.wood.moisture import MoistureRange
from scantling.wood.moisture_exclusion import BARE, find_exclusion
from scantling.wood.movement import width_change_mm
from scantling.wood.species import find_species

CHERRY = find_species("cherry")
VARNISH = find_exclusion("film varnish", coats=3)
HOUSE = Room(
    name="House",
    year=year_between(
        Air(temperature_c=20.0, relative_humidity=0.30), Air(temperature_c=20.0, relative_humidity=0.60)
    ),
)
STEADY = Room(
    name="Store",
    year=year_between(
        Air(temperature_c=20.0, relative_humidity=0.45), Air(temperature_c=20.0, relative_humidity=0.45)
    ),
)


def _part(
    thickness_mm: float, front: object = BARE, back: object = BARE, width_mm: float = 600.0
) -> WoodPart:
    return WoodPart(
        name="top",
        species=CHERRY,
        width_mm=width_mm,
        thickness_mm=thickness_mm,
        front=front,  # type: ignore[arg-type]
        back=back,  # type: ignore[arg-type]
    )


def test_a_thin_bare_sheet_follows_the_room() -> None:
    """A 3 mm sheet reaches nearly the room's own extremes, nearly on time."""
    [year] = part_years([_part(3.0)], HOUSE, built=Built(mc_pct=8.0))
    full = moisture_range(HOUSE, 8.0)
    assert year.moisture.dry_pct == pytest.approx(full.dry_pct, abs=0.05)
    assert year.moisture.wet_pct == pytest.approx(full.wet_pct, abs=0.05)
    assert year.lag_days < 2.0
    assert year.swing_share > 0.97


def test_no_part_goes_beyond_its_room() -> None:
    """Whatever its finish, between build moisture and the extremes of the room."""
    parts = [_part(t, f, b) for t in (6.0, 22.0, 60.0) for f in (BARE, VARNISH) for b in (BARE, VARNISH)]
    full = moisture_range(HOUSE, 8.0)
    for year in part_years(parts, HOUSE, built=Built(mc_pct=8.0)):
        assert full.dry_pct - 1e-6 <= year.moisture.dry_pct <= 8.0
        assert 8.0 <= year.moisture.wet_pct <= full.wet_pct + 1e-6


def test_thickness_and_finish_make_a_part_late_and_small() -> None:
    """Lag grows and swing falls with each."""
    thin, thick, finished = part_years(
        [_part(12.0), _part(36.0), _part(12.0, VARNISH, VARNISH)], HOUSE, built=Built(mc_pct=8.0)
    )
    assert thin.lag_days < thick.lag_days
    assert thin.lag_days < finished.lag_days
    assert thin.swing_share > thick.swing_share
    assert thin.swing_share > finished.swing_share


def test_a_bare_underside_cups_a_varnished_top() -> None:
    """Finished alike on both faces it stays flat; on one only it cups by millimeters."""
    alike, one_sided = part_years(
        [_part(20.0, VARNISH, VARNISH), _part(20.0, VARNISH, BARE)], HOUSE, built=Built(mc_pct=8.0)
    )
    assert abs(alike.largest_cup_mm) < 1e-6
    assert abs(one_sided.largest_cup_mm) > 1.0


def test_a_steady_room_moves_nothing() -> None:
    """Built at the moisture of the room, a part stays as it was made."""
    settled = STEADY.year.emc_pct[0]
    [year] = part_years([_part(20.0)], STEADY, built=Built(mc_pct=settled))
    assert year.narrowest.change_mm == pytest.approx(0.0, abs=1e-6)
    assert year.widest.change_mm == pytest.approx(0.0, abs=1e-6)
    assert all(month.width_change_mm == pytest.approx(0.0, abs=1e-6) for month in year.months)


def test_a_wet_part_shrinks_for_good_in_a_steady_room() -> None:
    """Built at 11 % and settled at 8.5, it ends as much narrower as the coefficient says."""
    settled = STEADY.year.emc_pct[0]
    [year] = part_years([_part(20.0)], STEADY, built=Built(mc_pct=11.0))
    expected = width_change_mm(600.0, coefficient=0.00248, mc_from_pct=11.0, mc_to_pct=settled)
    assert year.months[0].width_change_mm == pytest.approx(expected, rel=0.01)


def test_the_month_of_building_changes_the_first_year_and_not_the_settled_one() -> None:
    """Three years on, a part no longer knows in which month it was made."""
    january, july = (
        part_years([_part(24.0)], HOUSE, built=Built(mc_pct=8.0, month=month))[0]
        for month in (Month.JAN, Month.JUL)
    )
    for one, other in zip(january.months, july.months, strict=True):
        assert one.mean_pct == pytest.approx(other.mean_pct, abs=0.02)


def test_the_settled_year_is_whole() -> None:
    """Seventy-three days five apart, in order, and the months lie on their line."""
    [year] = part_years([_part(24.0)], HOUSE, built=Built(mc_pct=8.0, month=Month.OCT))
    assert len(year.days) == 73
    assert list(year.days) == sorted(year.days)
    assert min(year.mean_pct) <= min(month.mean_pct for month in year.months) + 0.02


def test_no_parts_no_years() -> None:
    """An empty piece is no fault here."""
    assert part_years([], HOUSE, built=Built(mc_pct=8.0)) == ()


def test_green_furniture_is_refused() -> None:
    """Nobody builds at 45 %."""
    with pytest.raises(InputError) as caught:
        part_years([_part(20.0)], HOUSE, built=Built(mc_pct=45.0))
    assert caught.value.code == "mc_out_of_range"


def test_advice_aims_at_the_middle_of_the_travel() -> None:
    """Between 6 and 10 % build at 8; a shop that swings through it has its good months."""
    advice = advise_build(HOUSE, MoistureRange(build_pct=9.0, dry_pct=6.0, wet_pct=10.0))
    assert advice.target_mc_pct == 8.0
    assert advice.best_month in advice.good_months
    assert abs(advice.miss_pct) < 1.0
    assert Month.JAN not in advice.good_months


def test_a_damp_shop_has_no_good_month_for_a_dry_house() -> None:
    """It is told by how much it misses, and at which humidity the wood should rest first."""
    damp = Room(
        name="Barn",
        year=year_between(
            Air(temperature_c=15.0, relative_humidity=0.65), Air(temperature_c=20.0, relative_humidity=0.70)
        ),
    )
    advice = advise_build(damp, moisture_range(HOUSE, 9.0))
    assert advice.good_months == ()
    assert advice.miss_pct > 2.0
    assert 0.40 < advice.target_humidity < 0.50
