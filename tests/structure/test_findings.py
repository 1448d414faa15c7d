"""Findings of structure, each just past its limit and just within."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import InputError, Severity
from scantling.structure import Beam, Portal, places, racking, sagging, seating, tip, tipping
from scantling.structure.tipping import Tip, Use

SHELF = Beam(
    span_mm=828.0, width_mm=280.0, depth_mm=22.2, moe_mpa=12_600.0, shear_modulus_mpa=860.0, load_n=424.0
)


def test_f46_advice_is_enough() -> None:
    """A shelf made as short, or as thick, as advised just passes."""
    heavy = replace(SHELF, load_n=2.0 * SHELF.load_n)
    found = sagging.check("shelf", heavy)
    assert [f.code for f in found] == ["F46"]
    span, depth = found[0].numbers["span_allowed_mm"], found[0].numbers["thickness_wanted_mm"]
    assert sagging.check("shelf", replace(heavy, depth_mm=depth * 1.0001)) == []
    assert sagging.check("shelf", replace(heavy, depth_mm=depth * 0.999))
    short = replace(heavy, span_mm=span * 0.999, load_n=heavy.load_n * span * 0.999 / heavy.span_mm)
    assert sagging.check("shelf", short) == []


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
        assert found[0].numbers["overhang_allowed_mm"] == pytest.approx(490.3, abs=0.1)


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


def test_a_top_inside_its_feet_does_not_tip() -> None:
    """With no overhang no force tips it."""
    feet = [(0.0, 0.0), (100.0, 0.0), (0.0, 100.0)]
    assert tip(10.0, (30.0, 30.0), feet_mm=feet, top_mm=[(20.0, 20.0)]).force_n == float("inf")


def test_two_feet_are_no_stance() -> None:
    """Fewer than three feet are refused by name."""
    with pytest.raises(InputError) as caught:
        tip(10.0, (0.0, 0.0), feet_mm=[(0.0, 0.0), (1.0, 0.0)], top_mm=[(0.0, 0.0)])
    assert caught.value.code == "too_few_feet"


@pytest.mark.parametrize(("margin", "codes"), [(0.0, []), (-1.0, ["F41"])])
def test_f41_drawers(margin: float, codes: list[str]) -> None:
    """Any moment over the front feet is a stop, and anchoring is advised in any case."""
    found = tipping.check_drawers("chest", margin, mass_kg=50.0)
    assert [f.code for f in found] == codes


FRAME = Portal(height_mm=700.0, legs=4, joints=4, leg_side_mm=45.0, moe_mpa=12_000.0)


@pytest.mark.parametrize(
    ("portal", "codes"),
    [
        (FRAME, []),  # 6.7 mm
        (replace(FRAME, push_n=358.0), []),
        (replace(FRAME, push_n=361.0), ["F47"]),  # 8 mm at 359.6 N
        (replace(FRAME, allowable_nmm=52_500.0), []),
        (replace(FRAME, allowable_nmm=52_400.0), ["F47"]),
    ],
)
def test_f47_racking(portal: Portal, codes: list[str]) -> None:
    """Sway over 8 mm, or a joint asked for more than it may carry."""
    assert [f.code for f in racking.check("base", portal)] == codes


def test_a_frame_without_joints_is_refused() -> None:
    """Nothing resists: an error, not infinity."""
    with pytest.raises(InputError, match="joints"):
        racking.rack(replace(FRAME, joints=0))


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
