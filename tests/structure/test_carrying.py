"""Joints under what lies on a board, and tops lifted by or leaned on: where F75 and F76 begin."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.structure.carrying import (
    Carried,
    CarriedKind,
    Fastened,
    Topped,
    check_carried,
    check_topped,
)
from scantling.structure.gravity import GRAVITY_M_S2

SHELF = Carried(
    kind=CarriedKind.BOARD,
    joint="shelf_left",
    part="shelf",
    by="side",
    load_kg=40.0,
    own_kg=4.0,
    share=0.5,
    may_n=200.0,
)
TOP = Topped(
    top="top",
    top_kg=20.0,
    below_kg=12.0,
    fasteners=tuple(Fastened(joint=f"clip {y:.0f}", at_mm=(0.0, y), may_n=250.0) for y in (-300.0, 300.0)),
    top_mm=((-800.0, -450.0), (800.0, 450.0)),
    rests_mm=((-800.0, -310.0), (800.0, 310.0)),
    leaned_on=False,
)


@pytest.mark.parametrize(("load", "codes"), [(40.78, []), (40.80, ["F75"])])
def test_f75_an_end_carries_half(load: float, codes: list[str]) -> None:
    """200 N at half of 40.79 kg by 9.80665."""
    assert [f.code for f in check_carried(replace(SHELF, load_kg=load))] == codes


def test_f75_advice_is_enough() -> None:
    """So many times as strong, or so many kilograms, just passes."""
    (found,) = check_carried(replace(SHELF, load_kg=70.0))
    assert check_carried(replace(SHELF, load_kg=70.0, may_n=200.0 * float(found.advice.split()[3]))) == []
    allowed = found.numbers["allowed_kg"]
    assert check_carried(replace(SHELF, load_kg=SHELF.own_kg + allowed)) == []
    assert check_carried(replace(SHELF, load_kg=SHELF.own_kg + allowed + 1.0)) != []
    assert found.advice.startswith("Make the joint 1.8 times as strong")  # 1.72 of it is asked
    assert "36 kg" in found.advice  # 40.79 less the shelf's own 4


def test_f75_a_shelf_too_heavy_by_itself_is_not_told_to_be_loaded_less() -> None:
    """50 kg of board on a joint for 40: no load is small enough, so none is named."""
    (found,) = check_carried(replace(SHELF, load_kg=52.0, own_kg=50.0))
    assert found.numbers["allowed_kg"] == 0.0
    assert "times as strong" in found.advice
    assert "kg" not in found.advice


def test_where_nothing_is_published_nothing_is_found() -> None:
    """No figure, no finding: the sheet says that there is none."""
    assert check_carried(replace(SHELF, load_kg=500.0, may_n=None)) == []


@pytest.mark.parametrize(("below", "codes"), [(12.74, []), (12.75, ["F76"])])
def test_f76_snatched_up_by_its_top(below: float, codes: list[str]) -> None:
    """Half of 500 N against twice the weight: 12.746 kg."""
    assert [f.code for f in check_topped(replace(TOP, below_kg=below))] == codes


def test_f76_leaned_on() -> None:
    """400 N at 140 mm, 56 N m, against 20 kg at 310 mm, 60.8 N m, and a far row of 250 N at 610, 152.5 N m.

    The near row, 10 mm inside the edge, adds 250 x 10^2 / 610.
    """
    pried = TOP.pried(400.0)
    assert pried is not None
    assert pried[0] == pytest.approx(400.0 * 140.0)
    assert pried[1] == pytest.approx(
        20.0 * GRAVITY_M_S2 * 310.0 + 250.0 * 610.0 + 250.0 * 10.0**2 / 610.0, rel=1e-9
    )


@pytest.mark.parametrize(("wide", "codes"), [(843.0, []), (844.0, ["F76"])])
def test_f76_a_wide_overhang_pries_the_top_off(wide: float, codes: list[str]) -> None:
    """213.4 N m hold it: 400 N at 533.4 mm outside the rails, 843.4 from the middle."""
    top = replace(TOP, top_mm=((-800.0, -wide), (800.0, wide)), leaned_on=True)
    assert [f.code for f in check_topped(top)] == codes


def test_nobody_leans_on_what_is_left_alone() -> None:
    """A wide top that no one leans on is not pried; nor is one that overhangs nowhere."""
    assert check_topped(replace(TOP, top_mm=((-800.0, -2000.0), (800.0, 2000.0)))) == []
    assert replace(TOP, top_mm=TOP.rests_mm).pried(400.0) is None


def test_f76_says_both() -> None:
    """Weak screws under a wide top: two sentences, and how many times more would do for either."""
    weak = replace(
        TOP,
        fasteners=tuple(replace(one, may_n=30.0) for one in TOP.fasteners),
        top_mm=((-800.0, -900.0), (800.0, 900.0)),
        leaned_on=True,
    )
    (found,) = check_topped(weak)
    assert "snatched up" in found.message
    assert "pry it up" in found.message
    assert found.numbers["times"] > 2.0
