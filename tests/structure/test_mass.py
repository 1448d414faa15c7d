"""Weights and centers of gravity against closed forms."""

from __future__ import annotations

import pytest
from pydantic import TypeAdapter

from checks.bench import X, Y, Z, leg, part, subject
from scantling.errors import InputError, Severity
from scantling.piece.convex import body_of
from scantling.piece.geometry import Frame, Plane, unit
from scantling.piece.model import End, PartKind, Trim
from scantling.structure import Mass, plan_lift, weigh
from scantling.structure.lift import Lift, check
from scantling.structure.mass import centroid
from scantling.units.sentences import sentence_in_inches
from scantling.wood.density import density_kg_m3
from scantling.wood.species import find_species


def test_weight_is_volume_times_density_at_its_moisture() -> None:
    """A 1 800 x 900 x 28 top of cherry at 12 %: 560 kg/m3 (Wood Handbook table 5-3b gives G 0.50)."""
    top = part("top", length=1800.0, width=900.0, thickness=28.0, species="black cherry")
    result = weigh(subject((top,)).piece, mc_pct=12.0)
    assert result.total_kg == pytest.approx(1.8 * 0.9 * 0.028 * 560.0, rel=1e-6)
    assert result.center_mm == pytest.approx((900.0, 0.0, 0.0))


def test_volumes_with_joints_cut_are_taken_where_given() -> None:
    """A part with a tenth of it cut away weighs a tenth less; hardware is added."""
    top = part("top")
    whole = weigh(subject((top,)).piece).total_kg
    cut = weigh(subject((top,)).piece, {"top": 0.9 * 700 * 90 * 20}, extra_kg=0.5)
    assert cut.total_kg == pytest.approx(0.9 * whole + 0.5)


def test_center_of_two_parts_is_weighed() -> None:
    """Of two equal boards, one 300 mm above the other, the center lies half way."""
    high = part("high", frame=Frame(origin=(0.0, 0.0, 300.0), grain=X, width=Y, thickness=Z))
    result = weigh(subject((part("low"), high)).piece)
    assert result.center_mm == pytest.approx((350.0, 0.0, 150.0))
    assert result.of(("high",)).center_mm == pytest.approx((350.0, 0.0, 300.0))


def test_centroid_of_a_wedge_is_the_closed_form() -> None:
    """A stick cut by a 45 degree plane: a box less a wedge, whose centroid is known."""
    cut = Trim(plane=Plane(point=(100.0, 0.0, 0.0), normal=unit((1.0, 1.0, 0.0))), end=End.END, by="x")
    start = part("p").trims[0]
    stick = part("p", length=145.0, trims=(start, cut))
    # 145 x 90 x 20 box, a 45 degree cut through (100, 0) removes the triangle (145,-45) (145,45) (55,45)
    box, wedge = 145.0 * 90.0, 90.0 * 90.0 / 2.0
    u = (box * 72.5 - wedge * (145.0 - 30.0)) / (box - wedge)
    v = (box * 0.0 - wedge * (45.0 - 30.0)) / (box - wedge)
    assert centroid(body_of(stick)) == pytest.approx((u, v, 0.0), abs=1e-6)
    assert body_of(stick).volume_mm3 == pytest.approx((box - wedge) * 20.0)


def test_a_sheet_has_its_own_density_and_an_unknown_one_is_refused() -> None:
    """Sheets are not species; the error names what is known."""
    sheet = part("back", kind=PartKind.SHEET, species="birch plywood")
    assert weigh(subject((sheet,)).piece).parts[0].density_kg_m3 == 680.0
    with pytest.raises(InputError, match="chalkboard") as caught:
        weigh(subject((part("back", kind=PartKind.SHEET, species="chalkboard"),)).piece)
    assert caught.value.code == "unknown_sheet"


def test_result_goes_to_json_and_back() -> None:
    """Plain floats, strings and tuples only."""
    adapter = TypeAdapter(Mass)
    result = weigh(subject((part("top"), leg("leg"))).piece)
    assert adapter.validate_json(adapter.dump_json(result)) == result


def test_density_is_the_species_own() -> None:
    """The same figure as asked of the wood itself."""
    piece = subject((part("a"),)).piece
    oak = density_kg_m3(find_species("white oak"), mc_pct=8.0)
    assert weigh(piece, mc_pct=8.0).parts[0].density_kg_m3 == pytest.approx(oak)


@pytest.mark.parametrize(
    ("mass", "size", "people", "alone"),
    [
        (8.0, (600.0, 400.0, 450.0), 1, True),
        (20.0, (600.0, 400.0, 450.0), 2, False),  # above the recommended limit low down
        (23.1, (600.0, 400.0, 450.0), 2, False),
        (8.0, (1900.0, 400.0, 450.0), 2, False),  # too long for one pair of arms
        (70.0, (1370.0, 660.0, 740.0), 4, False),
    ],
)
def test_people_to_lift(mass: float, size: tuple[float, float, float], people: int, alone: bool) -> None:
    """No one carries more than 23 kg; what one should not lift alone takes two, and so do long things."""
    plan = plan_lift(mass, size)
    assert (plan.people, plan.alone_lifts) == (people, alone)


def test_turning_over_takes_half_the_weight() -> None:
    """One edge stays on the floor, so twice the limit can still be turned alone."""
    limit = plan_lift(1.0, (600.0, 400.0, 450.0)).weight_limit_kg
    assert plan_lift(1.99 * limit, (600.0, 400.0, 450.0)).alone_turns
    assert not plan_lift(2.01 * limit, (600.0, 400.0, 450.0)).alone_turns


@pytest.mark.parametrize(("mass", "codes"), [(46.0, []), (46.1, ["F57"])])
def test_f57_two_people_carry_46_kg(mass: float, codes: list[str]) -> None:
    """Two people at 23 kg each, and not a bit more."""
    plan = plan_lift(mass, (800.0, 400.0, 450.0), lift=Lift())
    assert [f.code for f in check("table", plan, people_there=2)] == codes


def test_f57_leaves_to_one_person_what_the_equation_only_advises_against() -> None:
    """20 kg from low down is above the recommended limit and below 23 kg: two are told, one not stopped."""
    plan = plan_lift(20.0, (800.0, 400.0, 450.0))
    assert plan.people == 2
    assert check("chest", plan, people_there=1) == []
    assert [f.code for f in check("chest", plan_lift(8.0, (1900.0, 400.0, 450.0)), people_there=1)] == ["F57"]


@pytest.mark.parametrize(
    ("mass", "size", "severity"),
    [
        (29.1, 1800.0, Severity.MEDIUM),
        (10.0, 2400.0, Severity.MEDIUM),
        (34.6, 600.0, Severity.HIGH),
        (69.1, 600.0, Severity.STOP),
    ],
)
def test_how_heavy_is_how_grave(mass: float, size: float, severity: Severity) -> None:
    """One person there, 23 kg to lift: a heavy or long top wants a hand, one and a half times is serious,
    three times must not be lifted so.
    """
    plan = plan_lift(mass, (size, 400.0, 450.0), lift=Lift())
    [found] = check("top", plan, people_there=1)
    assert found.severity is severity


def test_a_long_part_is_as_long_as_it_was_asked_for() -> None:
    """5' 4" is 1625.6 mm: in whole millimeters it would be told as 64 1/32 in."""
    [found] = check("top", plan_lift(24.5, (1625.6, 838.2, 24.0)), people_there=1)
    assert "is 1625.6 mm long" in found.message
    assert "is 64 in long" in sentence_in_inches(found.message)


@pytest.mark.parametrize(("most_kg", "people", "codes"), [(10.0, 2, []), (9.9, 3, ["F57"])])
def test_f57_what_each_lifts_is_what_the_shop_says(most_kg: float, people: int, codes: list[str]) -> None:
    """Two people who lift 10 kg each carry a chest of 20, and with 9.9 they want a third."""
    plan = plan_lift(20.0, (800.0, 400.0, 450.0), most_kg=most_kg)
    assert (plan.people, plan.alone_lifts) == (people, False)
    assert [f.code for f in check("chest", plan, people_there=2)] == codes


def test_one_who_lifts_little_does_not_lift_it_alone() -> None:
    """6 kg are well below the limit of the equation; who lifts 5 wants a second, and turns it alone."""
    plan = plan_lift(6.0, (600.0, 400.0, 450.0), most_kg=5.0)
    assert (plan.people, plan.alone_lifts, plan.alone_turns) == (2, False, True)
