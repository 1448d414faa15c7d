"""Where joints are marked out, from the reference face and end, worked by hand."""

from __future__ import annotations

from typing import Any

import pytest

from scantling.joinery.work import Fit, JointWork, Mark, MarkKind
from scantling.piece.model import Direction, End
from tests.joinery.bench import made_of
from tests.joinery.samples import SAMPLES, Options


def work_of(family: str, parts: dict[str, Options] | None = None, **options: Any) -> JointWork:
    """A sample's joint with other options or parts."""
    sample = SAMPLES[family]
    pair = [name.format(inner="back") for name in sample.between]
    joint = {"kind": family, "between": [pair], **sample.options, **options}
    return made_of({**sample.parts, **(parts or {})}, {"j": joint}).works[0]


def stick(begin: list[float], end: list[float], section: list[float], toward: str, **more: Any) -> Options:
    """A white oak stick."""
    base = {"kind": "stick", "species": "white oak", "section": section, "width_toward": toward}
    return {**base, "from": begin, "to": end, **more}


def marks_on(work: JointWork, part: str, kind: MarkKind) -> list[Mark]:
    """Marks of one kind on one part."""
    return [mark for mark in work.marks if mark.part == part and mark.kind is kind]


def test_a_mortise_in_a_post_is_marked_from_its_nearer_end_and_face() -> None:
    """Rail 90 wide at 145 on a post 300 high: center 145 from the foot, 24 from the front of 48."""
    [mark] = marks_on(work_of("loose_tenon"), "b", MarkKind.MORTISE)
    assert (mark.face, mark.end, mark.on_end) == (Direction.LEFT, End.START, False)
    assert (mark.from_end_mm, mark.from_face_mm) == pytest.approx((145.0, 24.0))
    assert (mark.length_mm, mark.width_mm, mark.depth_mm, mark.fit) == (53.0, 8.0, 30.0, Fit.LONG)


def test_a_mortise_in_an_end_is_marked_from_edge_and_face() -> None:
    """In the rail's end: middle of 90 and of 24, tight, 50 long."""
    [mark] = marks_on(work_of("loose_tenon"), "a", MarkKind.MORTISE)
    assert (mark.on_end, mark.end) == (True, End.END)
    assert (mark.from_end_mm, mark.from_face_mm) == pytest.approx((45.0, 12.0))
    assert (mark.length_mm, mark.fit) == (50.0, Fit.TIGHT)


def test_a_shift_moves_both_mortises_alike() -> None:
    """5 mm up the width and 3 mm across, on both parts, measured from the nearer edges."""
    work = work_of("loose_tenon", shift=[5, 3])
    [end], [side] = (marks_on(work, name, MarkKind.MORTISE) for name in ("a", "b"))
    assert (end.from_end_mm, end.from_face_mm) == pytest.approx((40.0, 9.0))
    assert (side.from_end_mm, side.from_face_mm) == pytest.approx((150.0, 21.0))


def test_a_shift_follows_the_part_at_both_ends() -> None:
    """3 mm toward the rail's thickness, which is up, is up at its start and at its end, in both members."""
    parts = {
        "a": stick([0, 0, 300], [600, 0, 300], [60, 28], "back", trim={"start": "p.right", "end": "q.left"}),
        "p": stick([-24, 0, 0], [-24, 0, 600], [48, 60], "right"),
        "q": stick([624, 0, 0], [624, 0, 600], [48, 60], "right"),
    }
    options = {"thickness": 8, "width": 30, "depth_first": 30, "depth_second": 30, "shift": [5, 3]}
    joint = {"kind": "loose_tenon", "between": [["a.start", "p"], ["a.end", "q"]], **options}
    made = made_of(parts, {"j": joint})
    heights = [frame.origin[2] for work in made.works for c in work.connectors for frame in c.frames]
    depths = [frame.origin[1] for work in made.works for c in work.connectors for frame in c.frames]
    up = made.piece.parts["a"].frame.thickness[2]
    assert heights == pytest.approx([300.0 + 3.0 * up] * 2)
    assert depths == pytest.approx([5.0, 5.0])


def test_a_loose_tenon_in_a_sheet_is_left_unjudged() -> None:
    """A sheet is no wood of the tables: its plan is made, and no strength is claimed."""
    sheet = {**SAMPLES["loose_tenon"].parts["b"], "kind": "sheet", "species": "plywood"}
    assert work_of("loose_tenon").breaking_nmm is not None
    assert work_of("loose_tenon", {"b": sheet}).breaking_nmm is None
    first = {**SAMPLES["loose_tenon"].parts["a"], "kind": "sheet", "species": "plywood"}
    assert work_of("loose_tenon", {"a": first}).breaking_nmm is None


def test_three_dowels_stand_15_mm_in_and_in_the_middle() -> None:
    """Rail from 100 to 190 up a post of 300: dowels at 115, 145 and 175 from its foot."""
    marks = marks_on(work_of("dowel_pin"), "b", MarkKind.HOLE)
    places = [m.from_end_mm if m.end is End.START else 300.0 - m.from_end_mm for m in marks]
    assert sorted(places) == pytest.approx([115.0, 145.0, 175.0])


def test_a_notch_is_marked_where_it_opens() -> None:
    """Stretcher 90 high at 260, 32 deep in a post 600 high: 90.4 wide, 260 from its foot, in front."""
    [mark] = work_of("notch").marks
    assert (mark.face, mark.end) == (Direction.FRONT, End.START)
    assert (mark.from_end_mm, mark.length_mm, mark.depth_mm) == pytest.approx((260.0, 90.4, 32.0))


def test_halving_marks_name_opposite_faces() -> None:
    """The first is notched below, the second above, half of 20 each, in the middle of 400."""
    one, other = work_of("halving").marks
    assert (one.face, other.face) == (Direction.BOTTOM, Direction.TOP)
    assert (one.from_end_mm, one.length_mm, one.depth_mm) == pytest.approx((200.0, 40.2, 10.0))
    assert (other.from_end_mm, other.length_mm, other.depth_mm) == pytest.approx((200.0, 60.2, 10.0))


def test_a_stopped_housing_is_centered_on_what_is_cut() -> None:
    """200 wide, stopped 12 at the front: 188 long, its middle 94 from the back edge."""
    mark, _ = work_of("housing").marks
    assert mark.length_mm == pytest.approx(188.0)
    assert (mark.reference_face, mark.from_face_mm) == (Direction.BACK, pytest.approx(94.0))
    assert (mark.from_end_mm, mark.width_mm, mark.depth_mm) == pytest.approx((200.0, 20.1, 8.0))


def test_a_housing_ends_where_the_shelf_ends() -> None:
    """A shelf 150 wide in a side 200 wide: the housing is 150 long, and no cut shows beyond the shelf."""
    shelf = {**SAMPLES["housing"].parts["a"], "section": [150, 20]}
    made = made_of(
        {**SAMPLES["housing"].parts, "a": shelf},
        {"j": {"kind": "housing", "between": [["a.end", "b"]], "depth": 8, "clearance": 0}},
    )
    assert made.removed_mm3("b") == pytest.approx(150.0 * 20.0 * 8.0)


def test_a_breadboard_end_is_marked_with_groove_mortises_and_pins() -> None:
    """Groove 13.5 deep full length; mortises 41.5 deep at 60, 150, 60; pins 16 from the shoulder, below."""
    work = work_of("breadboard_end")
    [groove] = marks_on(work, "a", MarkKind.GROOVE)
    assert (groove.face, groove.length_mm, groove.depth_mm, groove.from_face_mm) == (
        Direction.LEFT,
        300.0,
        13.5,
        10.0,
    )
    mortises = marks_on(work, "a", MarkKind.MORTISE)
    assert [m.from_end_mm for m in mortises] == pytest.approx([60.0, 150.0, 60.0])
    assert [m.length_mm for m in mortises] == pytest.approx([57.0, 50.0, 57.0])
    assert {m.depth_mm for m in mortises} == {41.5}
    pins = marks_on(work, "a", MarkKind.HOLE)
    assert {(m.face, m.reference_face, round(m.from_face_mm, 9), m.depth_mm) for m in pins} == {
        (Direction.BOTTOM, Direction.LEFT, 16.0, 16.0)
    }


@pytest.mark.parametrize("along", ["left", "right"])
def test_pins_are_bored_from_below_whichever_way_the_panel_was_drawn(along: str) -> None:
    """A panel drawn from right to left has its own thickness upside down; its show face stays whole."""
    panel = dict(SAMPLES["breadboard_end"].parts["b"])
    end = "end"
    if along == "left":
        panel["from"], panel["to"], end = panel["to"], panel["from"], "start"
    sample = SAMPLES["breadboard_end"]
    joint = {"kind": "breadboard_end", "between": [["a", f"b.{end}"]], **sample.options}
    work = made_of({**sample.parts, "b": panel}, {"j": joint}).works[0]
    assert {m.face for m in marks_on(work, "a", MarkKind.HOLE)} == {Direction.BOTTOM}


def test_a_round_tenons_hole_leans_as_its_stick() -> None:
    """12 and 8 degrees in the two views are 14.30 from plumb, the resultant of the two."""
    parts = {
        "a": {
            **SAMPLES["round_tenon"].parts["a"],
            "from": [-85.024, -56.216, 0],
            "to": [0, 0, 400],
        }
    }
    hole, tenon = work_of("round_tenon", parts).marks
    assert hole.tilt_deg == pytest.approx(14.30, abs=0.005)
    assert "shoulder 3.8 mm clear" in tenon.note  # 15 tan 14.30


def test_a_mortise_in_a_tapered_face_is_marked_on_that_face() -> None:
    """The left face of a leg tapered from its very top is still its left face."""
    post = {
        **SAMPLES["loose_tenon"].parts["b"],
        "taper": {"toward": "start", "begin": 0, "to": 30, "faces": ["left"]},
    }
    parts = {"a": SAMPLES["loose_tenon"].parts["a"], "b": post}
    [mark] = marks_on(work_of("loose_tenon", parts), "b", MarkKind.MORTISE)
    assert mark.face is Direction.LEFT


@pytest.mark.parametrize("family", ["loose_tenon", "dowel_pin"])
def test_glue_goes_on_the_whole_tenon(family: str) -> None:
    """A tenon 50 wide in 40 and 30, 1 mm of room at each end: 2 x 50 x 68; dowels by their circumference."""
    [glue] = work_of(family).glue
    wanted = {"loose_tenon": 2 * 50 * 68, "dowel_pin": 3 * 3.141592653589793 * 8 * 53}[family]
    assert glue.area_mm2 == pytest.approx(wanted)


def test_a_clamp_on_a_leaning_leg_wants_a_wedge_of_the_lean() -> None:
    """A post leaning 7 degrees in the front view: its face is 7 degrees out of square to the rail."""
    lean = 300 * 0.1227845609  # tan 7 deg
    post = {**SAMPLES["loose_tenon"].parts["b"], "from": [424 - lean, 0, 0], "to": [424, 0, 300]}
    for family in ("loose_tenon", "dowel_pin"):
        clamp = work_of(family, {"b": post}).clamp
        assert clamp is not None
        assert clamp.slope_deg == pytest.approx(7.0, abs=1e-6)


def test_a_clamp_across_an_edge_wants_no_wedge() -> None:
    """Loose tenons between two boards' edges pull square, though the grain runs along the joint."""
    parts = SAMPLES["edge_glue"].parts
    joint = {
        "kind": "loose_tenon",
        "between": [["a", "b"]],
        "thickness": 6,
        "width": 40,
        "depth_first": 20,
        "depth_second": 20,
    }
    clamp = made_of(parts, {"j": joint}).works[0].clamp
    assert clamp is not None
    assert clamp.slope_deg == pytest.approx(0.0, abs=1e-6)


def test_end_grain_does_not_glue_to_an_edge() -> None:
    """A board that ends against another's edge is refused as an edge joint: it holds nothing."""
    across = {
        **SAMPLES["edge_glue"].parts["b"],
        "from": [250, 60, 0],
        "to": [250, 400, 0],
        "width_toward": "top",
    }
    parts = {**SAMPLES["edge_glue"].parts, "b": {**across, "section": [22, 100]}}
    joint = {"kind": "edge_glue", "between": [["a", "b"]]}
    with pytest.raises(ValueError, match="must glue long grain to long grain"):
        made_of(parts, {"j": joint})
