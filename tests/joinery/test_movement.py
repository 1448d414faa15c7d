"""Room to move: slots, mortises and grooves against sums worked by hand from the Wood Handbook's table.

Travel is y C dM with the coefficients of the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190,
2010), table 13-5: black cherry 0.00248 and white oak 0.00365 a percent for flat-sawn faces.
"""

from __future__ import annotations

from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.work import Freedom, JointWork
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of
from tests.joinery.lively import lively_mm
from tests.joinery.samples import SAMPLES, Options

CHERRY_YEAR = MoistureRange(build_pct=7.5, dry_pct=6.0, wet_pct=10.5)
OAK_YEAR = MoistureRange(build_pct=8.0, dry_pct=6.5, wet_pct=11.5)


def breadboard(species: str = "black cherry", **more: Any) -> JointWork:
    """A breadboard end on a panel 960 mm wide, tenons at the middle and at 400 mm to both sides."""
    parts = {
        "a": {**SAMPLES["breadboard_end"].parts["a"], "from": [630, -480, 100], "to": [630, 480, 100]},
        "b": {**SAMPLES["breadboard_end"].parts["b"], "species": species, "section": [960, 20]},
    }
    sample = SAMPLES["breadboard_end"].options
    own = {name: value for name, value in sample.items() if name not in ("slot", "mortise_over")}
    options: Options = {**own, "edge_inset": 80, **more}
    joint = {"kind": "breadboard_end", "between": [["a", "b.end"]], **options}
    return made_of(parts, {"j": joint}, moisture=CHERRY_YEAR).works[0]


def slots(work: JointWork) -> list[Freedom]:
    """The pin slots of a joint."""
    return [f for f in work.freedoms if f.what.startswith("pin slot")]


def test_a_pin_slot_400_mm_from_the_fixed_tenon() -> None:
    """Cherry, 7.5 % built, 6 to 10.5 %: 1.49 in, 2.98 out; slot 12.62, center 0.94 toward the fixed pin.

    The slot is for a lively board: the larger of both equations of the Wood Handbook (ch. 13), 400 x 1.5 and
    x 3 / (3000 / 7.1 - 30 + 7.5) = 1.49987 and 2.99974, and a quarter more: 1.87484 and 3.74967.
    """
    [one, other] = slots(breadboard())
    for freedom in (one, other):
        assert freedom.shrink_travel_mm == pytest.approx(400 * 0.00248 * 1.5, abs=1e-6)
        assert freedom.swell_travel_mm == pytest.approx(400 * 0.00248 * 3.0, abs=1e-6)
        assert freedom.cut_to_mm == pytest.approx(6 + 1.87484 + 3.74967 + 1.0, abs=1e-4)
        assert freedom.bias_mm == pytest.approx(0.93742, abs=1e-4)


def test_a_slot_has_half_a_millimeter_to_spare_at_both_ends() -> None:
    """Driest and wettest the pin of a lively board stands the clearance off the slot's end, and no more."""
    for freedom in breadboard().freedoms:
        assert freedom.shrink_room_mm - 1.87484 == pytest.approx(0.5, abs=1e-4)
        assert freedom.swell_room_mm - 3.74967 == pytest.approx(0.5, abs=1e-4)
        assert not freedom.binds


def test_a_slot_too_short_for_the_year_binds() -> None:
    """An 8 mm slot leaves a 6 mm pin 1 mm each way, where 1.49 and 2.98 are wanted."""
    sample = SAMPLES["breadboard_end"]
    parts = {**sample.parts, "b": {**sample.parts["b"], "species": "black cherry", "section": [300, 20]}}
    joint = {
        "kind": "breadboard_end",
        "between": [["a", "b.end"]],
        **sample.options,
        "slot": 6.5,
        "fixed": "front",
    }
    work = made_of(parts, {"j": joint}, moisture=CHERRY_YEAR).works[0]
    assert [f.binds for f in slots(work)] == [True, True]
    assert {f.shrink_room_mm for f in slots(work)} == {0.25}


def test_the_fixed_tenon_has_no_room_and_the_far_one_twice_the_travel() -> None:
    """Held at the front edge, the tenons travel by their distance from there: 400 and 800 mm."""
    work = breadboard(fixed="front")
    assert [f.from_fixed_mm for f in slots(work)] == [400.0, 800.0]
    near, far = slots(work)
    assert far.swell_travel_mm == pytest.approx(2.0 * near.swell_travel_mm)


@pytest.mark.parametrize(("fixed", "numbers"), [("middle", {1, 3}), ("front", {2, 3}), ("back", {1, 2})])
def test_the_tenon_that_is_held_has_no_freedom(fixed: str, numbers: set[int]) -> None:
    """One tenon of the three is tight: the middle one, or the one at the edge named."""
    assert {int(f.what.split()[-1]) for f in slots(breadboard(fixed=fixed))} == numbers


def clip_work(**options: Any) -> JointWork:
    """Clips in a rail along a flat white-oak top, 380 mm from its middle, on the inner face."""
    parts = {
        "a": {**SAMPLES["top_clip"].parts["a"], "from": [0, -380, 55], "to": [400, -380, 55]},
        "b": {**SAMPLES["top_clip"].parts["b"], "section": [900, 24]},
    }
    joint = {
        "kind": "top_clip",
        "between": [["a.back", "b"]],
        "groove": 3.2,
        "from_top": 9,
        "engaged": 8,
        **options,
    }
    return made_of(parts, {"j": joint}, moisture=OAK_YEAR).works[0]


def oak(y_mm: float, change_pct: float) -> float:
    """Of a lively board of white oak built at 8 %. [mm]"""
    return lively_mm(y_mm, change_pct, per_pct=0.00365, shrinkage_pct=10.5, build_pct=8.0)


def test_a_clips_groove_is_deep_enough_in_either_season() -> None:
    """White oak at 380 mm, -1.5 and +3.5 %: s 2.08, g 4.85. The clip inside goes deeper as the top swells...

    ... a lively one 6.30, so the groove is 8 + 6.30 + 0.5 = 14.80 deep; with the usual one's 4.85 it would be
    13.35. And 8 - 2.08 = 5.92 still holds when it is driest.
    """
    work = clip_work()
    for freedom in work.freedoms:
        assert freedom.shrink_travel_mm == pytest.approx(2.0805, abs=1e-4)
        assert freedom.swell_travel_mm == pytest.approx(4.8545, abs=1e-4)
        assert freedom.cut_to_mm == pytest.approx(8.0 + oak(380.0, 3.5) + 0.5, abs=1e-4)
        assert freedom.cut_to_mm == pytest.approx(14.804, abs=1e-3)
        assert freedom.shrink_room_mm - freedom.shrink_travel_mm == pytest.approx(5.9195, abs=1e-4)


def test_a_groove_of_10_mm_bottoms_out() -> None:
    """2 mm behind the clip where 4.85 are wanted."""
    assert [f.binds for f in clip_work(depth=10).freedoms] == [True, True]


def test_a_clip_on_the_outer_face_goes_in_as_the_top_dries() -> None:
    """Seen from the middle of the top the groove opens outward: dry it is 2.08 deeper, wet 4.85 less."""
    parts = {
        "a": {**SAMPLES["top_clip"].parts["a"], "from": [0, -380, 55], "to": [400, -380, 55]},
        "b": {**SAMPLES["top_clip"].parts["b"], "section": [900, 24]},
    }
    joint = {"kind": "top_clip", "between": [["a.front", "b"]], "groove": 3.2, "from_top": 9, "engaged": 8}
    [freedom, _] = made_of(parts, {"j": joint}, moisture=OAK_YEAR).works[0].freedoms
    assert freedom.cut_to_mm == pytest.approx(8 + oak(380.0, 1.5) + 0.5, abs=1e-4)
    assert freedom.swell_room_mm == 8.0


def screws(block: Options, **options: Any) -> JointWork:
    """Screws in a batten or rail under a flat white-oak top."""
    parts = {"a": block, "b": SAMPLES["slotted_screw"].parts["b"]}
    joint = {"kind": "slotted_screw", "between": [["a", "b"]], "screw": [5, 45], "counterbore": 20, **options}
    return made_of(parts, {"j": joint}, moisture=OAK_YEAR).works[0]


def test_screws_in_a_batten_across_the_grain() -> None:
    """At 150 mm: 0.82 in (1.5 %), 1.92 out (3.5 %), 1.07 and 2.49 lively: 9.55; the middle one holds."""
    work = screws(SAMPLES["slotted_screw"].parts["a"], count=3)
    dry, wet = oak(150.0, 1.5), oak(150.0, 3.5)
    long = 5.0 + dry + wet + 1.0
    assert long == pytest.approx(9.555, abs=1e-3)
    assert [f.cut_to_mm for f in work.freedoms] == pytest.approx([long, long], abs=1e-6)
    assert [m.length_mm for m in work.marks] == pytest.approx([long, 5.0, long], abs=1e-6)
    assert all(f.shrink_room_mm - dry == pytest.approx(0.5) for f in work.freedoms)
    assert all(f.swell_room_mm - wet == pytest.approx(0.5) for f in work.freedoms)


RAIL_ALONG: Options = {
    **SAMPLES["slotted_screw"].parts["a"],
    "from": [0, -200, 77.5],
    "to": [400, -200, 77.5],
    "width_toward": "back",
}


def test_a_rail_along_the_grain_is_slotted_as_a_whole() -> None:
    """200 mm off the middle every screw of the row travels alike: two such rows do not trap the top."""
    work = screws(RAIL_ALONG, count=3)
    assert [f.from_fixed_mm for f in work.freedoms] == pytest.approx([200.0, 200.0, 200.0])
    assert {round(f.swell_travel_mm, 6) for f in work.freedoms} == {round(200 * 0.00365 * 3.5, 6)}


BOTTOM: Options = {
    "kind": "stick",
    "species": "white oak",
    "from": [0, 0, 0],
    "to": [400, 0, 0],
    "section": [300, 8],
    "width_toward": "back",
    "rings": "flat",
}
DRAWER_BACK: Options = {
    **BOTTOM,
    "from": [0, 134, 54],
    "to": [400, 134, 54],
    "section": [100, 12],
    "width_toward": "top",
}


def drawer(**options: Any) -> Made:
    """A flat white-oak bottom of 300 screwed up into a drawer back 16 mm from its back edge."""
    joint = {"kind": "slotted_screw", "between": [["a", "b"]], "screw": [3.5, 22], "head": 8, "count": 3}
    parts = {"a": BOTTOM, "b": DRAWER_BACK}
    return made_of(parts, {"j": {**joint, **options}}, moisture=OAK_YEAR)


def test_a_drawer_bottom_carries_the_slots_and_moves_under_the_screws() -> None:
    """Still in front, 284 mm away: 284 x 0.00365 x 1.5 = 1.55 in, x 3.5 = 3.63 out; lively 2.02 and 4.71.

    It swells more than it shrinks: the slot, 11.23 long, stands (4.71 - 2.02) / 2 = 1.35 toward the front.
    """
    work = drawer(still="front").works[0]
    assert [f.part for f in work.freedoms] == ["a"] * 3
    for free in work.freedoms:
        assert free.from_fixed_mm == pytest.approx(284.0)
        assert free.shrink_travel_mm == pytest.approx(1.555, abs=0.001)
        assert free.swell_travel_mm == pytest.approx(3.628, abs=0.001)
        assert free.cut_to_mm == pytest.approx(11.231, abs=0.001)
        assert free.shrink_room_mm - oak(284.0, 1.5) == pytest.approx(0.5)
        assert free.swell_room_mm - oak(284.0, 3.5) == pytest.approx(0.5)
    assert {m.reference_face.value: round(m.from_face_mm, 3) for m in work.marks} == {"back": 17.346}


def test_slots_of_a_drawer_bottom_go_the_way_it_moves() -> None:
    """The screw, 3.5 mm thick, can stand 17.35 -+ (11.23 - 3.5) / 2 from the back edge; half a mm is spare.

    Dry, a lively back edge has come 2.02 to the front: the screw stands that much nearer; damp, 4.71 farther.
    """
    work = drawer(still="front").works[0]
    (free, *_), (mark, *_) = work.freedoms, work.marks
    nearest = mark.from_face_mm - (mark.length_mm - mark.width_mm) / 2.0
    farthest = mark.from_face_mm + (mark.length_mm - mark.width_mm) / 2.0
    assert 16.0 - oak(free.from_fixed_mm, 1.5) == pytest.approx(nearest + 0.5)
    assert 16.0 + oak(free.from_fixed_mm, 3.5) == pytest.approx(farthest - 0.5)


def test_an_end_of_a_drawer_bottom_cannot_be_where_it_is_still() -> None:
    """Its ends do not move: only its front or back may be named."""
    with pytest.raises(FileFaults) as caught:
        drawer(still="left")
    assert [fault.code for fault in caught.value.faults] == ["not_an_edge"]


def test_a_rail_along_the_grain_may_be_the_one_that_holds() -> None:
    """``holds: row`` leaves plain holes: the top is still there, and moves at its other edge."""
    assert screws(RAIL_ALONG, count=3, holds="row").freedoms == ()
