"""Worked tenons: thirds, depth in a leg, haunches, miters, and the free tenons of a wide board."""

from __future__ import annotations

from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.mortise_tenon import deepest_tenon_mm, third_mm
from scantling.joinery.work import Fit, MarkKind
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of
from tests.joinery.judging import found, found_codes
from tests.joinery.samples import Options

YEAR = MoistureRange(build_pct=8.0, dry_pct=6.0, wet_pct=11.0)


def stick(begin: list[float], end: list[float], section: list[float], toward: str, **more: Any) -> Options:
    """A flat-sawn white oak stick: 0.00365 a percent (Wood Handbook, table 13-5)."""
    base = {"kind": "stick", "species": "white oak", "section": section, "width_toward": toward}
    return {**base, "from": begin, "to": end, "rings": "flat", **more}


def corner(
    *,
    length: float,
    mitered: bool = False,
    ways: tuple[str, str] = ("front", "left"),
    y_mm: float = -11.5,
    show: str = "",
) -> Made:
    """A leg of 55, two aprons of 22 x 90 set back 5 mm, each with an 8 mm tenon 7 mm in from its face."""
    parts = {
        "leg": stick([0, 0, 0], [0, 0, 700], [55, 55], "right"),
        "apron_x": stick([27.5, y_mm, 600], [500, y_mm, 600], [90, 22], "top", trim={"start": "leg.right"}),
        "apron_y": stick([-11.5, 27.5, 600], [-11.5, 500, 600], [90, 22], "top", trim={"start": "leg.back"}),
    }
    if show:
        parts["apron_x"]["show"] = [show]
    usual = {"kind": "mortise_tenon", "length": length, "end_room": 0}
    faces = ways if mitered else (None, None)
    joints = {
        name: {**usual, "between": [[f"apron_{name}.start", "leg"]], **({"mitered": face} if face else {})}
        for name, face in zip("xy", faces, strict=True)
    }
    return made_of(parts, joints, moisture=YEAR)


def wide_board(second: Options | None = None, **options: Any) -> Made:
    """A board 400 wide, tenoned into a post that stands across its grain."""
    parts = {
        "a": stick([0, 0, 300], [600, 0, 300], [400, 24], "top", trim={"end": "b.left"}),
        "b": second or stick([624, 0, 0], [624, 0, 600], [48, 48], "back"),
    }
    joint = {"kind": "mortise_tenon", "length": 30, "between": [["a.end", "b"]], **options}
    return made_of(parts, {"j": joint}, moisture=YEAR)


@pytest.mark.parametrize(
    ("thickness", "tenon"), [(22, 8), (18, 6), (20, 6), (24, 8), (30, 10), (45, 16), (12, 4)]
)
def test_a_third_to_the_nearest_cutter(thickness: float, tenon: float) -> None:
    """22 mm has its third at 7.33: 8 mm, 36 % of it."""
    assert third_mm(thickness, inch=False) == tenon


def test_the_depth_a_leg_has_room_for() -> None:
    """Leg 55, set back 5, shoulder 7, tenon 8: 35 to the other mortise, 32 with a wall, 43 mitered."""
    sizes = {"setback_mm": 5.0, "shoulder_mm": 7.0, "tenon_mm": 8.0}
    assert deepest_tenon_mm(55.0, **sizes) == 32.0
    assert deepest_tenon_mm(55.0, **sizes, mitered=True) == 43.0


def test_a_tenon_as_deep_as_that_leaves_the_wall_and_one_deeper_does_not() -> None:
    """F14 at 33 mm, where the leg has 32: 2 mm are left each way, 2.83 from corner to corner."""
    assert found(corner(length=32.0), "F14", moisture=YEAR) == []
    told = found(corner(length=33.0), "F14", moisture=YEAR)
    assert [f.numbers["wall_mm"] for f in told] == pytest.approx([8.0**0.5])


def test_mitered_tenons_go_deeper_and_do_not_meet() -> None:
    """43 mm at the outer cheeks, 35 at the inner: no rule speaks, and the tenons share no wood."""
    made = corner(length=43.0, mitered=True)
    assert "F14" not in found_codes(made, moisture=YEAR)
    assert made.in_the_way("apron_x", "apron_y") == ()
    lost = 8.0 * 8.0 / 2.0 * (90.0 - 12.0)
    square = 43.0 * (90.0 * 22.0 - 8.0 * 78.0)
    assert made.removed_mm3("apron_x") == pytest.approx(square + lost, rel=1e-6)


def test_the_outer_face_serves_either_hand() -> None:
    """Aprons 5 mm in from the outside of the leg: the outer faces are front and left, found for both."""
    named, found_out = (
        corner(length=43.0, mitered=True),
        corner(length=43.0, mitered=True, ways=("outer",) * 2),
    )
    assert found_out.in_the_way("apron_x", "apron_y") == ()
    for name in ("apron_x", "apron_y", "leg"):
        assert found_out.removed_mm3(name) == pytest.approx(named.removed_mm3(name))


def test_a_rail_in_the_middle_of_its_leg_has_no_outer_face() -> None:
    """0.6 mm off the middle it has one; 0.4 mm off none is told apart by eye, and the face must be named."""
    assert corner(length=20.0, mitered=True, ways=("outer", "left"), y_mm=-0.6).works
    with pytest.raises(FileFaults, match="one broad face of which shows"):
        corner(length=20.0, mitered=True, ways=("outer", "left"), y_mm=-0.4)


@pytest.mark.parametrize("face", ["front", "back"])
def test_the_face_that_shows_is_the_outer_one(face: str) -> None:
    """In the middle of the leg, and whichever way it looks."""
    shown = corner(length=20.0, mitered=True, ways=("outer", "left"), y_mm=0.0, show=face)
    named = corner(length=20.0, mitered=True, ways=(face, "left"), y_mm=0.0)
    works = [next(w for w in made.works if w.first == "apron_x") for made in (shown, named)]
    assert works[0].cuts == works[1].cuts


def test_two_tenons_that_are_not_mitered_would_be_in_each_others_way() -> None:
    """At 43 mm both fill the corner: the same place twice."""
    assert corner(length=43.0).in_the_way("apron_x", "apron_y") != ()


def test_the_outer_tenons_of_a_wide_board_are_free() -> None:
    """Three of 116 mm in 400, the outer ones 136 from the middle: -0.99 and +1.49 mm, mortises to suit."""
    work = wide_board(tenons=3, glued="middle").works[0]
    assert [f.what for f in work.freedoms] == ["tenon 1 in its mortise", "tenon 3 in its mortise"]
    for freedom in work.freedoms:
        assert freedom.from_fixed_mm == pytest.approx(136.0)
        assert freedom.shrink_travel_mm == pytest.approx(136 * 0.00365 * 2.0)
        assert freedom.swell_travel_mm == pytest.approx(136 * 0.00365 * 3.0)
        assert freedom.cut_to_mm == pytest.approx(116.0 + 136 * 0.00365 * 5.0 + 1.0)
    fits = [mark.fit for mark in work.marks if mark.kind is MarkKind.MORTISE]
    assert fits == [Fit.SLIDING, Fit.TIGHT, Fit.SLIDING]


def test_free_mortises_are_set_outward_by_half_the_difference() -> None:
    """Swelling takes 0.25 mm more than shrinking gives back on each side: centers 136.25 from the middle."""
    work = wide_board(tenons=3, glued="middle").works[0]
    marks = [mark for mark in work.marks if mark.kind is MarkKind.MORTISE]
    places = [m.from_end_mm if m.end.value == "start" else 600.0 - m.from_end_mm for m in marks]
    assert sorted(places) == pytest.approx([300 - 136.2482, 300, 300 + 136.2482], abs=1e-4)


def test_glued_over_its_width_the_board_would_split() -> None:
    """F01: 388 mm glued, 4.2 mm of slip; the middle tenon alone, 116 mm, still slips 1.27; 90 mm does not."""
    told = found(wide_board(tenons=3), "F01", moisture=YEAR)
    assert told[0].numbers["slip_mm"] == pytest.approx(388 * 0.00365 * 3.0)
    assert found(wide_board(tenons=3, glued="middle"), "F01", moisture=YEAR) != []
    assert found(wide_board(tenons=3, glued="middle", apart=59), "F01", moisture=YEAR) == []


def test_where_both_parts_move_alike_nothing_need_be_free() -> None:
    """Into a panel whose own width runs the same way the outer tenons travel nothing."""
    panel = stick([611, -300, 300], [611, 300, 300], [500, 22], "top")
    for freedom in wide_board(panel, tenons=3, glued="middle", length=18).works[0].freedoms:
        assert (freedom.shrink_travel_mm, freedom.swell_travel_mm) == (0.0, 0.0)


@pytest.mark.parametrize(("over", "codes"), [(2.978, ["F06"]), (2.979, [])])
def test_a_mortise_too_short_for_its_tenon_binds(over: float, codes: list[str]) -> None:
    """F06: 136 mm from the middle 1.4892 mm to swell, so 2.9784 over, the tenon in its middle."""
    made = wide_board(tenons=3, glued="middle", mortise_over=over)
    assert [f.code for f in found(made, "F06", moisture=YEAR)][:1] == codes


def test_mortises_cut_as_the_year_asks_have_the_clearance_to_spare() -> None:
    """Half a millimeter at both ends, in the driest and the wettest season."""
    for freedom in wide_board(tenons=3, glued="middle").works[0].freedoms:
        assert freedom.shrink_room_mm - freedom.shrink_travel_mm == pytest.approx(0.5)
        assert freedom.swell_room_mm - freedom.swell_travel_mm == pytest.approx(0.5)


def test_the_shift_follows_the_part_at_both_ends() -> None:
    """3 mm toward the part's thickness is up at its start and at its end."""
    parts = {
        "a": stick([0, 0, 300], [600, 0, 300], [60, 28], "back", trim={"start": "p.right", "end": "q.left"}),
        "p": stick([-24, 0, 0], [-24, 0, 600], [48, 60], "right"),
        "q": stick([624, 0, 0], [624, 0, 600], [48, 60], "right"),
    }
    pairs = [["a.start", "p"], ["a.end", "q"]]
    joint = {"kind": "mortise_tenon", "between": pairs, "length": 30, "thickness": 8, "shift": 3}
    works = made_of(parts, {"j": joint}).works
    up = [m.from_end_mm for w in works for m in w.marks if m.kind is MarkKind.MORTISE]
    assert [min(x, 600 - x) for x in up] == pytest.approx([297.0, 297.0])


@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        ({"thickness": 24}, "tenon_over_part", "24.0 mm in 24.0 mm"),
        ({"shoulder": 198}, "no_tenon_left", "4.0 mm for each of 1"),
        ({"length": 47}, "deeper_than_part", "mortise 48.0 mm deep in 48.0 mm of b"),
        ({"thickness": 22, "shift": 0.5}, "", ""),
        ({"tenons": 8, "apart": 50}, "no_tenon_left", "4.8 mm for each of 8"),
    ],
)
def test_what_cannot_be_cut_is_refused(options: dict[str, float], code: str, words: str) -> None:
    """Each with its figures; a thick tenon with a hair of shoulder is the maker's affair."""
    if not code:
        assert wide_board(**options).works[0].breaking_nmm
        return
    with pytest.raises(FileFaults) as caught:
        wide_board(**options)
    fault = caught.value.faults[0]
    assert (fault.code, words in fault.value) == (code, True)


def test_only_an_end_takes_a_tenon() -> None:
    """Two faces along the grain cannot be tenoned."""
    parts = {
        "a": stick([0, 0, 0], [500, 0, 0], [60, 20], "back"),
        "b": stick([0, 60, 0], [500, 60, 0], [60, 20], "back"),
    }
    joint = {"kind": "mortise_tenon", "between": [["a", "b"]], "length": 20}
    with pytest.raises(FileFaults) as caught:
        made_of(parts, {"j": joint})
    assert caught.value.faults[0].code == "tenon_not_on_end"


def twins(**options: Any) -> Made:
    """A bearer 90 x 45 with two tenons abreast into a post of 90 x 70."""
    parts = {
        "a": stick([0, 0, 300], [400, 0, 300], [90, 45], "top", trim={"end": "b.left"}),
        "b": stick([435, 0, 0], [435, 0, 600], [70, 90], "right"),
    }
    joint = {"kind": "mortise_tenon", "length": 40, "between": [["a.end", "b"]], "abreast": 2, **options}
    return made_of(parts, {"j": joint}, moisture=YEAR)


def test_twin_tenons_take_a_fifth_each() -> None:
    """45 mm: 9 is nearest to the 8 and 10 mm cutters alike, the smaller is taken; 8 between, 24 over both."""
    made = twins()
    hollow = 2.0 * 78.0 * 8.0 * 41.0
    kept = 2.0 * 78.0 * 8.0 * 40.0
    assert made.removed_mm3("b") == pytest.approx(hollow, rel=1e-6)
    assert made.removed_mm3("a") == pytest.approx(90.0 * 45.0 * 40.0 - kept, rel=1e-6)
    assert made.in_the_way("a", "b") == ()
    tenons = [mark for mark in made.works[0].marks if mark.kind is MarkKind.TENON]
    assert [(mark.width_mm, mark.from_face_mm) for mark in tenons] == [(8.0, 14.5), (8.0, 14.5)]
    assert made.works[0].glue[0].area_mm2 == pytest.approx(4.0 * 78.0 * 40.0)
    assert made.works[0].breaking_nmm == pytest.approx(
        2.0 * (twins(abreast=1, thickness=8).works[0].breaking_nmm or 0.0)
    )


def test_twin_tenons_are_judged_by_their_share_together() -> None:
    """16 of 45 mm are 0.36; two of 12 are 0.53, more than half."""
    assert found(twins(), "F17", moisture=YEAR) == []
    [told] = found(twins(thickness=12, wood_between=8), "F17", moisture=YEAR)
    assert told.message.startswith("the 2 tenons of 12.0 mm abreast are 0.53 of the 45.0 mm a")


@pytest.mark.parametrize(
    ("options", "code"),
    [
        ({"wood_between": 2}, "row_too_close"),
        ({"thickness": 16}, "tenon_over_part"),
        ({"pin": 6}, "twins_not_locked"),
    ],
)
def test_twin_tenons_that_cannot_be_made(options: Options, code: str) -> None:
    """Two millimeters between; 48 over both in 45; pins through twins."""
    with pytest.raises(FileFaults) as caught:
        twins(**options)
    assert [fault.code for fault in caught.value.faults] == [code]


def test_loose_tenons_stand_in_a_row_along_an_edge() -> None:
    """Two boards of 500 mm edge to edge: three tenons along the grain, 60 mm from the ends."""
    board = {"kind": "stick", "species": "white oak", "section": [100, 24], "width_toward": "back"}
    parts = {
        "a": {**board, "from": [0, 0, 0], "to": [500, 0, 0]},
        "b": {**board, "from": [0, 100, 0], "to": [500, 100, 0]},
    }
    joint = {"kind": "loose_tenon", "between": [["a", "b"]], "count": 3, "inset": 60, "along_grain": True}
    sizes = {"thickness": 8, "width": 40, "depth_first": 20, "depth_second": 20, "long_by": 0}
    made = made_of(parts, {"j": {**joint, **sizes}}, moisture=YEAR)
    places = sorted(frame.origin[0] for frame in made.works[0].connectors[0].frames)
    assert places == pytest.approx([60.0, 250.0, 440.0])
    assert made.works[0].glue[0].grain_angle_deg == 0.0
