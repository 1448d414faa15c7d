"""Short grain at wedge slots: at the root of the slot, and beyond the hole the wedge locks in."""

from __future__ import annotations

from typing import Any

import pytest

from scantling.checks import Subject
from scantling.checks import run as run_rules
from scantling.errors import Finding, Severity
from tests.joinery.bench import YEAR, made_of

__all__: list[str] = []


def told(*, at: float = 100.0, **joint: Any) -> list[Finding]:
    """What F12 says of a plumb leg, its tenon of 20 through a seat 32 thick, so far from the left end."""
    x = -500.0 + at
    parts = {
        "seat": {
            "kind": "panel",
            "species": "white oak",
            "center": [0, 0, 416],
            "along": "right",
            "length": 1000,
            "section": [300, 32],
            "width_toward": "back",
        },
        "leg": {
            "kind": "stick",
            "species": "white oak",
            "from": [x, 0, 0],
            "to": [x, 0, 400],
            "section": [30, 30],
            "round": [30, 30],
            "width_toward": "right",
            "trim": {"start": "floor", "end": "seat.bottom"},
        },
    }
    block = {"kind": "round_tenon", "between": [["leg.end", "seat"]], "diameter": 20, **joint}
    piece = made_of(parts, {"j": block})
    subject = Subject(piece=piece.piece, works=piece.works, moisture=YEAR)
    return [f for f in run_rules(subject).findings if f.code == "F12"]


def test_a_slot_near_the_shoulder_is_told() -> None:
    """32 of seat and 6 proud are 38 of tenon; three quarters are 28.5, and 28.6 are too deep."""
    [found] = told(wedge=[4, 28.6])
    assert found.severity is Severity.HIGH
    assert (found.where, found.numbers["slot_most_mm"]) == ("j", pytest.approx(28.5))
    assert "9.4 mm of whole wood" in found.message
    assert "at most 28.5 mm" in found.message
    assert "28 mm deep" in found.advice


def test_a_slot_of_three_quarters_passes() -> None:
    """Just so deep; without a wedge there is no slot."""
    assert told(wedge=[4, 28.5]) == []
    assert told() == []


def test_a_blind_tenon_split_by_its_wedge_is_told_of_its_own_length() -> None:
    """24 deep: 18 at most."""
    assert told(depth=24, wedge=[3, 18]) == []
    [found] = told(depth=24, wedge=[3, 19])
    assert found.numbers["tenon_mm"] == pytest.approx(24.0)


def test_a_wedged_hole_near_the_end_is_told() -> None:
    """The hole of 20 at 49 leaves 39 of two diameters; the advice moves it by what is missing."""
    [found] = told(at=49.0, wedge=[4, 24])
    assert found.where == "seat/j"
    assert found.numbers["fiber_mm"] == pytest.approx(39.0, abs=0.01)
    assert "39.0 mm of seat stand between the wedged hole of j and its start" in found.message
    assert "1.0 mm in from the start" in found.advice


def test_a_wedged_hole_two_diameters_from_the_end_passes() -> None:
    """At 50; and one nearer that no wedge spreads."""
    assert told(at=50.0, wedge=[4, 24]) == []
    assert told(at=49.0) == []
