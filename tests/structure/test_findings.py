"""Findings of structure, each just past its limit and just within."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import InputError, Severity
from scantling.structure import Beam, places, sagging, seating, tip, tipping
from scantling.structure.drawer_tipping import Drawer, DrawerTip, check_drawers
from scantling.structure.hanging import Hanging, check_hanging
from scantling.structure.tipping import Tip, Use
from scantling.units.sentences import sentence_in_inches

SHELF = Beam(
    span_mm=828.0, width_mm=280.0, depth_mm=22.2, moe_mpa=12_600.0, shear_modulus_mpa=860.0, load_n=424.0
)


def test_f46_advice_is_enough() -> None:
    """A shelf made as short, or as thick, as advised just passes."""
    heavy = replace(SHELF, load_n=2.0 * SHELF.load_n)
    found = sagging.check("shelf", heavy)
    assert [f.code for f in found] == ["F46"]
    span, depth = found[0].numbers["span_allowed_mm"], found[0].numbers["thickness_wanted_mm"]
    assert f"Shorten it to {span:.0f} mm, make it {depth:.1f} mm thick" in found[0].advice
    for thick, passes in ((depth, True), (depth - 0.1, False)):
        assert (sagging.check("shelf", replace(heavy, depth_mm=thick)) == []) is passes
    for mm, passes in ((span, True), (span + 1.0, False)):
        short = replace(heavy, span_mm=mm, load_n=heavy.load_n * mm / heavy.span_mm)
        assert (sagging.check("shelf", short) == []) is passes


def test_f46_what_does_not_do_is_not_advised() -> None:
    """A load that neither four times the depth nor a strip that deep carries: only shorter is told."""
    (found,) = sagging.check("shelf", replace(SHELF, load_n=300.0 * SHELF.load_n))
    assert found.advice.startswith("Shorten it to ")
    assert found.advice.endswith(" mm, or divide it.")
    assert set(found.numbers) == {"first_mm", "long_term_mm", "allowed_mm", "span_allowed_mm"}


def test_f46_the_strip_told_is_deep_enough_with_its_own_weight() -> None:
    """1500 by 200 by 22 mm under 250 N, 50 of them itself: as told it passes, a millimeter less does not."""
    board = replace(SHELF, span_mm=1500.0, width_mm=200.0, depth_mm=22.0, load_n=250.0, own_n=50.0)
    (found,) = sagging.check("board", board)
    told = found.numbers["edge_deep_mm"]
    assert f"{told:.0f} mm deep under one edge" in found.advice
    for deep, passes in ((told, True), (told - 1.0, False)):
        own = board.own_n * 19.0 * deep / (200.0 * 22.0)
        inertia = sagging.inertia_with_edge_mm4(200.0, 22.0, edge_width_mm=19.0, edge_depth_mm=deep)
        stiffer = replace(board, inertia_mm4=inertia, load_n=board.load_n + own)
        assert (sagging.check("board", stiffer) == []) is passes


def test_f46_a_thicker_shelf_is_heavier_too() -> None:
    """Half of the load is the shelf itself, and grows with the thickness advised: that just passes."""
    heavy = replace(SHELF, load_n=2.0 * SHELF.load_n, own_n=SHELF.load_n)
    depth = sagging.check("shelf", heavy)[0].numbers["thickness_wanted_mm"]
    for thick, passes in ((depth, True), (depth - 0.1, False)):
        own = heavy.own_n * thick / heavy.depth_mm
        shelf = replace(heavy, depth_mm=thick, load_n=SHELF.load_n + own, own_n=own)
        assert (sagging.check("shelf", shelf) == []) is passes


def test_f46_a_stout_shelf_passes() -> None:
    """35 lb/ft on a 22 mm maple shelf sags less than the eye sees."""
    assert sagging.check("shelf", SHELF) == []


@pytest.mark.parametrize(("field", "value"), [("span_mm", 0.0), ("moe_mpa", -1.0), ("load_n", -1.0)])
def test_impossible_beams_are_refused(field: str, value: float) -> None:
    """The error names the field and the value."""
    with pytest.raises(InputError, match=field):
        sagging.sag(replace(SHELF, **{field: value}))


@pytest.mark.parametrize(("overhang", "codes"), [(490.0, []), (491.0, ["F40"])])
def test_f40_overhang(overhang: float, codes: list[str]) -> None:
    """40 kg with 500 mm inside holds 400 N out to 490.3 mm."""
    feet = [(-500.0, -300.0), (500.0, -300.0), (500.0, 300.0), (-500.0, 300.0)]
    edge = 500.0 + overhang
    top = [(-edge, -300.0), (edge, -300.0), (edge, 300.0), (-edge, 300.0)]
    found = tipping.check("table", tip(40.0, (0.0, 0.0), feet_mm=feet, top_mm=top))
    assert [f.code for f in found] == codes
    if codes:
        assert found[0].numbers["overhang_allowed_mm"] == 490.0


@pytest.mark.parametrize(("use", "wanted"), [(Use.LEANED_ON, 400.0), (Use.SAT_ON, 750.0)])
def test_f40_an_overhang_as_short_as_advised_does_not_tip(use: Use, wanted: float) -> None:
    """40 mm at 0.565 of the force wanted make 22.6: told as 23, it would tip still."""
    force = 0.565 * wanted
    weakest = Tip(force_n=force, inside_mm=100.0, overhang_mm=40.0, foot_line=((0, 0), (0, 1)), at=(0, 0))
    [found] = tipping.check("top", weakest, use=use)
    assert "22 mm" in found.advice


@pytest.mark.parametrize(
    ("force", "use", "severities"),
    [
        (399.0, Use.LEANED_ON, [Severity.STOP]),
        (399.0, Use.SAT_ON, [Severity.STOP]),
        (399.0, Use.LEFT_ALONE, [Severity.NOTE]),
        (401.0, Use.LEANED_ON, []),
        (401.0, Use.LEFT_ALONE, []),
        (401.0, Use.SAT_ON, [Severity.NOTE]),
        (751.0, Use.SAT_ON, []),
    ],
)
def test_f40_by_use(force: float, use: Use, severities: list[Severity]) -> None:
    """400 N where people lean; 750 N, told as a note, at the very end of a seat; a note where nobody does."""
    weakest = Tip(force_n=force, inside_mm=100.0, overhang_mm=90.0, foot_line=((0, 0), (0, 1)), at=(0, 0))
    found = tipping.check("top", weakest, use=use)
    assert [f.severity for f in found] == severities
    assert all(f"{force:.0f} N" in f.message for f in found)


def test_f40_tells_an_overhang_of_an_inch_as_an_inch() -> None:
    """25.4 mm told as 25 mm would be 63/64 in where inches are shown."""
    weakest = Tip(force_n=350.0, inside_mm=100.0, overhang_mm=25.4, foot_line=((0, 0), (0, 1)), at=(0, 0))
    [found] = tipping.check("top", weakest)
    assert "pressing 25.4 mm outside" in found.message
    assert "pressing 1 in outside" in sentence_in_inches(found.message)


def test_a_top_inside_its_feet_does_not_tip() -> None:
    """With no overhang no force tips it."""
    feet = [(0.0, 0.0), (100.0, 0.0), (0.0, 100.0)]
    assert tip(10.0, (30.0, 30.0), feet_mm=feet, top_mm=[(20.0, 20.0)]).force_n == float("inf")


def test_two_feet_are_no_stance() -> None:
    """Fewer than three feet are refused by name."""
    with pytest.raises(InputError) as caught:
        tip(10.0, (0.0, 0.0), feet_mm=[(0.0, 0.0), (1.0, 0.0)], top_mm=[(0.0, 0.0)])
    assert caught.value.code == "too_few_feet"


CHEST = DrawerTip(
    mass_kg=52.0,
    behind_mm=225.0,
    drawers=(Drawer(mass_kg=9.0, arm_mm=150.0, shut_arm_mm=-190.0),) * 3,
    child_kg=27.2,
    child_arm_mm=300.0,
    back_mm=400.0,
)


@pytest.mark.parametrize(
    ("behind", "severity"), [(510.0 / 52.0 + 225.001, Severity.NOTE), (510.0 / 52.0 + 224.999, Severity.STOP)]
)
def test_f41_drawers(behind: float, severity: Severity) -> None:
    """11 700 - 4 050 - 8 160 = -510 at 225 mm; any moment over the front feet is a stop, none a note."""
    [found] = check_drawers("drawers", replace(CHEST, behind_mm=behind))
    assert (found.code, found.severity) == ("F41", severity)
    assert found.advice.startswith("Anchor it to the wall in any case")
    assert "ASTM F2057-23" in found.advice


def test_f41_each_way_out_is_enough() -> None:
    """Feet 510 / 106.2 mm forward, drawers 510 / 54.2 mm in, 510 / 400 kg behind, or one drawer, by hand."""
    assert CHEST.farther_in_mm == pytest.approx(510.0 / (27.0 + 27.2))
    assert CHEST.margin_kg_mm == pytest.approx(-510.0)
    assert CHEST.forward_mm == pytest.approx(510.0 / (52.0 + 27.0 + 27.2))
    nearer = tuple(replace(one, arm_mm=one.arm_mm - CHEST.forward_mm) for one in CHEST.drawers)
    moved = replace(
        CHEST,
        behind_mm=225.0 + CHEST.forward_mm,
        child_arm_mm=300.0 - CHEST.forward_mm,
        drawers=nearer,
    )
    assert moved.margin_kg_mm == pytest.approx(0.0, abs=1e-9)
    assert CHEST.ballast_kg == pytest.approx(1.275)
    assert CHEST.interlocked_kg_mm == pytest.approx(11_700 + 2 * 9 * 190 - 9 * 150 - 8_160)
    [found] = check_drawers("drawers", CHEST)
    assert "5 mm farther forward" in found.advice
    assert "1.3 kg of ballast" in found.advice
    assert "55.0 N m to spare" in found.advice


def test_f41_of_one_drawer_speaks_of_one() -> None:
    """A bedside table: no interlock of drawers, and serious where a chest that tips stops the job."""
    lone = replace(CHEST, behind_mm=0.0, drawers=CHEST.drawers[:1])
    [stop] = check_drawers("drawers", replace(lone, height_mm=700.0, storage_dm3=6.0))
    assert stop.severity is Severity.STOP
    [found] = check_drawers("drawers", replace(lone, height_mm=610.0, storage_dm3=6.0))
    assert found.severity is Severity.HIGH
    assert found.message.startswith("its drawer out and filled and 27.2 kg on it")
    assert "a drawer that stops" in found.advice
    assert "interlock" not in found.advice
    [roomy] = check_drawers("drawers", replace(lone, height_mm=610.0, storage_dm3=91.0))
    assert roomy.severity is Severity.STOP


def test_f41_open_doors_pull_too() -> None:
    """A 4 kg door turned out 200 mm in front of the feet: 800 kg mm more; a plinth moves it too."""
    doors = (Drawer(mass_kg=4.0, arm_mm=200.0),)
    ajar = replace(CHEST, doors=doors)
    assert ajar.margin_kg_mm == pytest.approx(-1310.0)
    assert ajar.forward_mm == pytest.approx(1310.0 / 110.2)
    assert "its doors open" in check_drawers("drawers", ajar)[0].message


@pytest.mark.parametrize(
    ("height", "mass", "storage", "covered"),
    [(686, 13.6, 90.6, True), (685, 60, 200, False), (800, 13.5, 200, False), (800, 60, 90.5, False)],
)
def test_f41_what_the_standard_covers(height: float, mass: float, storage: float, covered: bool) -> None:
    """ASTM F2057-23, 1.1: 27 in. (686 mm), 30 lb (13.6 kg) and 3.2 ft3 (90.6 dm3) and more."""
    case = replace(CHEST, height_mm=height, whole_kg=mass, storage_dm3=storage)
    assert case.in_scope is covered


DOOR = Hanging(
    mass_kg=4.0,
    arm_mm=220.0,
    width_mm=440.0,
    apart_mm=500.0,
    screws=3,
    screw_mm=3.0,
    bite_mm=14.0,
    specific_gravity=0.68,
)


def test_pull_at_the_upper_hinge_by_hand() -> None:
    """9.80665 x 4 x 220 / 500 = 17.26 N, 103.56 with 10 kg at 440 mm; 3 x 108.25 x 0.68^2 x 3 x 14 held."""
    assert DOOR.pull_n() == pytest.approx(17.260, abs=0.001)
    assert DOOR.pull_n(leaning_kg=10.0) == pytest.approx(103.558, abs=0.001)
    assert DOOR.holds_n == pytest.approx(6306.9, abs=0.1)


@pytest.mark.parametrize(("apart", "codes"), [(41.1, []), (41.0, ["F74"])])
def test_f74_hinges_too_close(apart: float, codes: list[str]) -> None:
    """51 779 N mm may pull 6 306.9 / 5 N: hinges at least 41.05 mm apart."""
    found = check_hanging("hinges", replace(DOOR, apart_mm=apart))
    assert [f.code for f in found] == codes


@pytest.mark.parametrize(("under", "codes"), [(585.0, []), (584.0, ["F42"])])
def test_f42_knees(under: float, codes: list[str]) -> None:
    """585 mm under the apron."""
    assert [f.code for f in places.check_knees("table", under)] == codes


@pytest.mark.parametrize(("arm", "codes"), [(590.0, []), (591.0, ["F43"])])
def test_f43_arms(arm: float, codes: list[str]) -> None:
    """10 mm between the arms and an apron at 600."""
    assert [f.code for f in places.check_arms("table", 600.0, arm_height_mm=arm)] == codes


@pytest.mark.parametrize(("length", "codes"), [(1460.0, []), (1459.0, ["F44"])])
def test_f44_places(length: float, codes: list[str]) -> None:
    """Two places of 600 between 70 mm legs inset 60 want a top of 1 460."""
    side = seating(length, leg_mm=70.0, inset_mm=60.0)
    assert [f.code for f in places.check_places("table", side, wanted=2)] == codes


def test_f44_counts_the_ends() -> None:
    """Eight at 1 640 mm of legs: two a side are four, so each end takes one and three a side want 1 800."""
    side, end = (seating(clear, leg_mm=0.0, inset_mm=0.0) for clear in (1640.0, 670.0))
    narrow = seating(599.0, leg_mm=0.0, inset_mm=0.0)
    assert [places.at_ends(seats, side, end) for seats in (4, 5, 6, 8)] == [0, 1, 2, 2]
    assert places.at_ends(8, side, narrow) == 0
    [found] = places.check_places("long side", side, wanted=3, ends=2)
    assert found.numbers["shortfall_mm"] == pytest.approx(160.0)
    assert "3 places a side, with one at each end, want 1800 mm" in found.message
    assert found.advice.endswith("or promise 6 places in all.")
