"""Legs where people sit, each at the limit and just past it."""

from __future__ import annotations

import pytest

from scantling.structure.places import check_legs


@pytest.mark.parametrize(("wanted", "trips"), [(2, False), (3, True)])
def test_f45_a_middle_leg_and_places_along_the_side(wanted: int, trips: bool) -> None:
    """2000 mm between legs and one of 60 in the middle: it is between two places, and at one of three."""
    found = check_legs("front side", (-1000.0, 1000.0), wanted=wanted, legs_mm={"middle": (-30.0, 30.0)})
    assert [f.code for f in found] == (["F45"] if trips else [])
    if trips:
        assert found[0].numbers["off_mm"] == 0.0
        assert "place 2 of 3" in found[0].message


@pytest.mark.parametrize(("low", "trips"), [(300.0, False), (299.9, True)])
def test_f45_at_its_limit(low: float, trips: bool) -> None:
    """One place in the middle: a leg 300 mm from it is clear, a tenth nearer is not."""
    found = check_legs("back side", (-900.0, 900.0), wanted=1, legs_mm={"leg": (low, low + 50.0)})
    assert [f.code for f in found] == (["F45"] if trips else [])
