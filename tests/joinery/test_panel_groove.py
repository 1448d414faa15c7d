"""Floating panels: room and hold through the year by hand, pins, and what the rules say at their limits.

Width change is D C dM with black cherry's 0.00248 (flat-sawn) and 0.00126 (quarter-sawn) a percent, from the
Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), table 13-5.
"""

from __future__ import annotations

from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.work import Freedom, MarkKind
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of
from tests.joinery.judging import found
from tests.joinery.samples import Options

YEAR = MoistureRange(build_pct=7.5, dry_pct=6.0, wet_pct=10.5)
SWELL_MM = 380 * 0.00248 * 3.0 / 2.0
SHRINK_MM = 380 * 0.00248 * 1.5 / 2.0


def stick(begin: list[float], end: list[float], section: list[float], toward: str, **more: Any) -> Options:
    """A cherry stick."""
    base = {"kind": "stick", "species": "black cherry", "section": section, "width_toward": toward}
    return {**base, "from": begin, "to": end, **more}


def framed(*, engaged: float = 8.0, panel: Options | None = None, **options: Any) -> Made:
    """A panel 380 wide, flat-sawn, standing in a stile at each edge and a rail at each end."""
    inner = 190.0 - engaged
    parts = {
        "panel": {
            **stick([-300, 0, 0], [300, 0, 0], [380, 10], "back"),
            "kind": "panel",
            "rings": "flat",
            **(panel or {}),
        },
        "front": stick([-350, -inner - 30, 0], [350, -inner - 30, 0], [60, 22], "back"),
        "back": stick([-350, inner + 30, 0], [350, inner + 30, 0], [60, 22], "back"),
        "left": stick([-322, -inner, 0], [-322, inner, 0], [60, 22], "right"),
        "right": stick([322, -inner, 0], [322, inner, 0], [60, 22], "right"),
    }
    pairs = [["panel", name] for name in ("front", "back", "left", "right")]
    return made_of(parts, {"j": {"kind": "panel_groove", "between": pairs, **options}}, moisture=YEAR)


def edges(made: Made) -> dict[str, Freedom]:
    """The places that move, by the part they are in."""
    return {work.second: freedom for work in made.works for freedom in work.freedoms}


def test_a_cherry_panel_of_380_wants_1_41_mm_at_each_side_and_loses_0_71() -> None:
    """+3 and -1.5 points: 2.83 mm wider and 1.41 narrower in all, half at each edge; ends do not move."""
    moved = edges(framed())
    assert set(moved) == {"front", "back"}
    for freedom in moved.values():
        assert freedom.swell_travel_mm == pytest.approx(1.4136, abs=1e-6)
        assert freedom.shrink_travel_mm == pytest.approx(0.7068, abs=1e-6)
        assert freedom.shrink_room_mm == pytest.approx(8.0)


def test_the_groove_is_cut_as_deep_as_the_year_asks() -> None:
    """8 in, 1.41 to swell and 0.5 to spare: 9.91 deep; at the panel's ends a millimeter is left."""
    depths = {work.second: work.marks[0].depth_mm for work in framed().works}
    assert depths["front"] == pytest.approx(8.0 + SWELL_MM + 0.5)
    assert depths["left"] == pytest.approx(38.0 - 30.0 + 1.0)


def test_quarter_sawn_moves_half_as_much() -> None:
    """By the two coefficients: 0.00126 over 0.00248."""
    flat, quarter = (edges(framed(panel={"rings": ring}))["front"] for ring in ("flat", "quarter"))
    assert quarter.swell_travel_mm / flat.swell_travel_mm == pytest.approx(0.00126 / 0.00248)


def test_held_at_one_edge_all_of_it_comes_to_the_other() -> None:
    """A drawer bottom pinned in front: nothing there, 2.83 and 1.41 mm at the back."""
    moved = edges(framed(held="front"))
    assert set(moved) == {"back"}
    assert moved["back"].swell_travel_mm == pytest.approx(2.0 * SWELL_MM)
    assert moved["back"].shrink_travel_mm == pytest.approx(2.0 * SHRINK_MM)


def test_a_loose_panel_may_lie_hard_in_one_groove() -> None:
    """Pushed into the front groove by its 1.91 mm, it has 6.09 in the back one and loses all 1.41 there."""
    loose = edges(framed(held="loose"))["back"]
    assert loose.shrink_room_mm == pytest.approx(8.0 - SWELL_MM - 0.5)
    assert loose.shrink_travel_mm == pytest.approx(2.0 * SHRINK_MM)
    assert loose.swell_travel_mm == pytest.approx(SWELL_MM)


def test_a_pin_stands_in_the_middle_of_each_rail_and_nowhere_else() -> None:
    """Panel 10 in 22: through 6 of wall, the panel and 2 beyond, 18 deep; none along the edges."""
    works = {work.second: work for work in framed().works}
    assert [len(works[name].connectors) for name in ("front", "back", "left", "right")] == [0, 0, 1, 1]
    [pin] = works["left"].connectors
    assert pin.size_mm == pytest.approx((3.0, 18.0))
    assert pin.frames[0].origin[1] == pytest.approx(0.0)
    [hole] = [mark for mark in works["left"].marks if mark.kind is MarkKind.HOLE]
    assert hole.from_end_mm == pytest.approx((380.0 - 16.0) / 2.0)
    assert not any(work.connectors for work in framed(held="loose").works)


def test_a_pin_at_a_held_edge_stands_15_mm_in() -> None:
    """Front edge at -190: the pin at -175."""
    pins = [c.frames[0].origin[1] for w in framed(held="front").works for c in w.connectors]
    assert pins == pytest.approx([-175.0, -175.0])


def test_panel_and_frame_share_no_wood() -> None:
    """Square and with a thinner tongue, in all four grooves."""
    for made in (framed(), framed(tongue=6, shift=1)):
        for name in ("front", "back", "left", "right"):
            assert made.in_the_way("panel", name) == ()


def test_a_sheet_does_not_move() -> None:
    """Plywood asks for no room."""
    moved = edges(framed(panel={"kind": "sheet", "species": "birch plywood"}))
    assert {(f.shrink_travel_mm, f.swell_travel_mm) for f in moved.values()} == {(0.0, 0.0)}


@pytest.mark.parametrize(("spare", "codes"), [(-0.01, ["F02"]), (0.0, [])])
def test_a_panel_without_room_to_swell_is_a_stop(spare: float, codes: list[str]) -> None:
    """F02 at 1.40 mm of room for 1.41 of swelling, not at 1.41."""
    made = framed(depth=8.0 + SWELL_MM + spare)
    told = [f for f in found(made, "F02", moisture=YEAR) if "front" in f.message]
    assert [f.code for f in told] == codes
    if codes:
        assert told[0].numbers["shortfall_mm"] == pytest.approx(0.01)


@pytest.mark.parametrize(("engaged", "codes"), [(3.70, ["F03"]), (3.71, [])])
def test_a_panel_must_keep_3_mm_of_its_tongue(engaged: float, codes: list[str]) -> None:
    """F03 with 3.70 in at build, for 0.71 goes; not with 3.71."""
    told = [f for f in found(framed(engaged=engaged), "F03", moisture=YEAR) if "front" in f.message]
    assert [f.code for f in told] == codes
    if codes:
        assert told[0].numbers["held_mm"] == pytest.approx(3.70 - SHRINK_MM)


@pytest.mark.parametrize(("room", "codes"), [(3.03, ["F51"]), (3.05, [])])
def test_a_drawer_bottom_wants_its_hundredths_at_the_back(room: float, codes: list[str]) -> None:
    """F51 below 0.8 % of 380 = 3.04 mm, more than the 2.83 it swells."""
    made = framed(held="front", depth=8.0 + room)
    assert [f.code for f in found(made, "F51", moisture=YEAR)] == codes


@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        ({"depth": 7}, "groove_too_shallow", "7.0 mm for a tongue drawn 8.0 mm in"),
        ({"depth": 61}, "deeper_than_part", "groove 61.0 mm deep in 60.0 mm of front"),
        ({"tongue": 12}, "tongue_off_part", "12.0 mm tongue on 10.0 mm"),
        ({"tongue": 6, "shift": 3}, "tongue_off_part", "6.0 mm tongue on 10.0 mm"),
    ],
)
def test_what_cannot_be_cut_is_refused(options: dict[str, float], code: str, words: str) -> None:
    """Each with its figures."""
    with pytest.raises(FileFaults) as caught:
        framed(**options)
    fault = caught.value.faults[0]
    assert (fault.code, words in fault.value) == (code, True)


def test_a_side_that_is_not_there_is_told() -> None:
    """The panel stands in this stile with its back edge, not with its front."""
    parts = {
        "panel": {**stick([-300, 0, 0], [300, 0, 0], [380, 10], "back"), "kind": "panel"},
        "back": stick([-350, 212, 0], [350, 212, 0], [60, 22], "back"),
    }
    joint = {"kind": "panel_groove", "between": [["panel.front", "back"]]}
    with pytest.raises(FileFaults) as caught:
        made_of(parts, {"j": joint})
    assert caught.value.faults[0].code == "panel_side_differs"
    assert "with its back side" in caught.value.faults[0].value


def test_a_panel_that_nothing_holds_is_told_for_a_frame_and_for_a_lid() -> None:
    """Loose, it is centered where it is closed in and eased where it slides out; pinned, neither."""
    loose, pinned = framed(held="loose").works[0].steps, framed().works[0].steps
    assert "closed in on all four sides, center it" in loose[-1]
    assert "open at one end, it slides out there" in loose[-1]
    assert not any("slides out" in step for step in pinned)


def test_a_thinner_tongue_is_gauged_on_the_panel_itself() -> None:
    """Panel 10, tongue 6, a millimeter up: 4 from the upper face to its middle, with the gap as long."""
    told = {work.second: work.marks for work in framed(tongue=6, shift=1).works}
    [front] = [mark for mark in told["front"] if mark.part == "panel"]
    assert (front.kind, front.on_end, front.face.value) == (MarkKind.TONGUE, False, "front")
    assert (front.length_mm, front.width_mm) == pytest.approx((600.0, 6.0))
    assert (front.reference_face.value, front.from_face_mm) == ("top", pytest.approx(4.0))
    assert front.depth_mm == pytest.approx(8.0 + SWELL_MM + 0.5)
    [left] = [mark for mark in told["left"] if mark.part == "panel"]
    assert (left.on_end, left.length_mm, left.depth_mm) == (True, pytest.approx(380.0), pytest.approx(8.5))


def test_a_panel_as_thick_as_its_groove_has_no_tongue_to_gauge() -> None:
    """Nothing is cut on it."""
    assert not [m for work in framed().works for m in work.marks if m.part == "panel"]
    assert not [m for work in framed(tongue=10).works for m in work.marks if m.part == "panel"]


def test_a_hold_just_short_of_its_limit_is_not_told_as_the_limit() -> None:
    """3.70 in and 0.71 gone leave 2.99: told as 2.9 of the 3.0 asked for, with 0.1 to add."""
    told = [f for f in found(framed(engaged=3.70), "F03", moisture=YEAR) if "front" in f.message]
    assert "2.9 mm of its tongue stay in; at least 3.0 mm" in told[0].message
    assert "add 0.1 mm of tongue" in told[0].advice
