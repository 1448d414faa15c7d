"""Wooden buttons: in and out of their mortises, along them, and the rules at their limits.

A flat-sawn cherry top moves 0.00248 a percent (Wood Handbook, FPL-GTR-190, 2010, table 13-5).
"""

from __future__ import annotations

from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.work import Freedom
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of
from tests.joinery.judging import found_codes
from tests.joinery.lively import lively_mm
from tests.joinery.samples import Options

YEAR = MoistureRange(build_pct=8.0, dry_pct=6.0, wet_pct=11.0)
DRY_MM, WET_MM = 300 * 0.00248 * 2.0, 300 * 0.00248 * 3.0
LIVELY_DRY_MM, LIVELY_WET_MM = (
    lively_mm(300.0, change, per_pct=0.00248, shrinkage_pct=7.1, build_pct=8.0) for change in (2.0, 3.0)
)
"""1.87 and 2.81."""


def stick(begin: list[float], end: list[float], **more: Any) -> Options:
    """A rail of 90 x 22 on edge."""
    base = {"kind": "stick", "species": "black cherry", "section": [90, 22], "width_toward": "top"}
    return {**base, "from": begin, "to": end, **more}


def buttoned(face: str = "", *, across: bool = False, **options: Any) -> Made:
    """A top 700 wide, buttoned to a rail along it 300 mm from its middle, or to one across it."""
    begin, end = ([0, -320, 55], [0, 320, 55]) if across else ([-500, -300, 55], [500, -300, 55])
    top = {
        "kind": "panel",
        "species": "black cherry",
        "from": [-600, 0, 112],
        "to": [600, 0, 112],
        "section": [700, 24],
        "width_toward": "back",
        "rings": "flat",
    }
    face = face or ("right" if across else "back")
    joint = {"kind": "top_button", "between": [[f"rail.{face}", "top"]], "inset": 20, **options}
    return made_of({"rail": stick(begin, end), "top": top}, {"j": joint}, moisture=YEAR)


def places(made: Made) -> list[Freedom]:
    """Places that move."""
    return list(made.works[0].freedoms)


def test_a_rail_along_the_grain_has_its_buttons_move_in_and_out() -> None:
    """At 300 mm: 1.49 out when dry, 2.23 in when damp; 10 in, so 13.31 deep with half a millimeter behind.

    A lively board goes 2.81 in.
    """
    for freedom in places(buttoned()):
        assert freedom.what.startswith("button")
        assert freedom.shrink_travel_mm == pytest.approx(DRY_MM)
        assert freedom.swell_travel_mm == pytest.approx(WET_MM)
        assert freedom.cut_to_mm == pytest.approx(10.0 + LIVELY_WET_MM + 0.5)
        assert (freedom.shrink_room_mm, freedom.swell_room_mm) == pytest.approx((10.0, LIVELY_WET_MM + 0.5))


def test_on_the_outer_face_drying_pushes_them_in() -> None:
    """The other way round: 1.87 of a lively board and a half behind."""
    for freedom in places(buttoned("front")):
        assert freedom.cut_to_mm == pytest.approx(10.0 + LIVELY_DRY_MM + 0.5)
        assert (freedom.swell_room_mm, freedom.shrink_room_mm) == pytest.approx((10.0, LIVELY_DRY_MM + 0.5))


def test_a_rail_across_the_grain_has_its_mortises_longer() -> None:
    """Buttons at 0, 150 and 300 from the middle: 30 + travel + 2 long, set out by half the difference."""
    by_place = {round(f.from_fixed_mm): f for f in places(buttoned(across=True, count=5))}
    assert sorted(by_place) == [0, 150, 300]
    for at, freedom in by_place.items():
        share = at / 300.0
        assert freedom.what.endswith("along the rail")
        assert freedom.cut_to_mm == pytest.approx(32.0 + share * (LIVELY_DRY_MM + LIVELY_WET_MM))
        assert freedom.bias_mm == pytest.approx(-share * (LIVELY_WET_MM - LIVELY_DRY_MM) / 2.0)
        assert freedom.shrink_room_mm == pytest.approx(share * LIVELY_DRY_MM + 1.0)
        assert freedom.swell_room_mm == pytest.approx(share * LIVELY_WET_MM + 1.0)


def test_mortises_are_really_cut_off_center() -> None:
    """The outer mortise's middle stands 0.47 mm farther out than its button."""
    work = buttoned(across=True, count=5).works[0]
    ends = sorted(min(mark.from_end_mm, 640 - mark.from_end_mm) for mark in work.marks)
    assert ends[0] == pytest.approx(20.0 - (LIVELY_WET_MM - LIVELY_DRY_MM) / 2.0)


@pytest.mark.parametrize(
    ("options", "codes"),
    [
        ({}, set()),
        ({"depth": 10 + WET_MM + 0.5}, set()),
        ({"depth": 10 + WET_MM + 0.49}, {"F09"}),
        ({"engaged": 3.0 + DRY_MM}, set()),
        ({"engaged": 2.99 + DRY_MM}, {"F10"}),
    ],
)
def test_a_button_keeps_some_room_and_some_hold(options: dict[str, float], codes: set[str]) -> None:
    """F09 below half a millimeter behind the tongue, F10 below 3 mm of it still in."""
    assert found_codes(buttoned(**options), moisture=YEAR) & {"F06", "F08", "F09", "F10"} == codes


@pytest.mark.parametrize(("short", "codes"), [(0.0, set()), (0.01, {"F06"})])
def test_a_mortise_too_short_along_the_rail_binds(short: float, codes: set[str]) -> None:
    """F06: uncenterd, the outer button wants 2.23 on both sides: 34.464 long, not 34.454."""
    made = buttoned(across=True, count=5, mortise=30 + 2 * WET_MM - short)
    assert found_codes(made, moisture=YEAR) & {"F06", "F09", "F10"} == codes


def test_buttons_and_screws_are_counted() -> None:
    """A meter of rail at 350 mm: four buttons, four screws, 20 mm thick with the tongue."""
    button, screw = buttoned().works[0].connectors
    assert (button.count, screw.count) == (4, 4)
    assert button.size_mm == pytest.approx((19.5, 30.0, 45.0))


@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        ({"face": "top"}, "fastener_face_level", "rail.top"),
        ({"depth": 23}, "deeper_than_part", "mortise 23.0 mm deep in 22.0 mm of rail"),
        ({"depth": 9}, "button_over_mortise", "9.0 mm for 10.0 mm of button"),
        ({"mortise": 29}, "button_over_mortise", "29.0 mm for 30.0 mm of button"),
        ({"from_top": 84}, "mortise_off_rail", "8.0 mm mortise 84.0 mm below"),
        ({"screw": [4.5, 11]}, "screw_too_short", "11.0 mm through 11.5 mm of button"),
        ({"screw": [0, 25]}, "out_of_range", "0"),
        ({"screw": [4.5, 40]}, "deeper_than_part", "screw that reaches 28.5 mm deep in 24.0 mm of top"),
    ],
)
def test_what_cannot_be_made_is_refused(options: dict[str, Any], code: str, words: str) -> None:
    """Each with its figures."""
    with pytest.raises(FileFaults) as caught:
        buttoned(**options)
    fault = caught.value.faults[0]
    assert (fault.code, words in fault.value) == (code, True), fault.value


def test_a_top_kept_still_at_its_back_moves_from_there() -> None:
    """The rail is 300 before the middle of a top 700 wide: 650 from the back edge, in when damp as before."""
    for freedom in places(buttoned(still="back")):
        assert freedom.from_fixed_mm == pytest.approx(650.0)
        assert freedom.shrink_travel_mm == pytest.approx(650 * 0.00248 * 2.0)
        assert freedom.swell_travel_mm == pytest.approx(650 * 0.00248 * 3.0)
        lively = lively_mm(650.0, 3.0, per_pct=0.00248, shrinkage_pct=7.1, build_pct=8.0)
        assert freedom.cut_to_mm == pytest.approx(10.0 + lively + 0.5)


def test_a_top_kept_at_its_front_leaves_buttons_behind_a_front_rail_when_damp() -> None:
    """50 behind the edge that is kept: swelling draws them out of the rail, drying pushes them in."""
    lively = lively_mm(50.0, 2.0, per_pct=0.00248, shrinkage_pct=7.1, build_pct=8.0)
    for freedom in places(buttoned(still="front")):
        assert freedom.from_fixed_mm == pytest.approx(50.0)
        assert freedom.cut_to_mm == pytest.approx(10.0 + lively + 0.5)
        assert freedom.swell_room_mm == pytest.approx(10.0)


def test_an_end_of_the_top_cannot_be_what_keeps_it_still() -> None:
    """It hardly moves along its grain."""
    with pytest.raises(FileFaults, match="two edges along the grain"):
        buttoned(still="left")
