"""Every joint with the travel it needs, the travel it has and a verdict, the glue lines included."""

from __future__ import annotations

from typing import Any

import pytest

from scantling.plan.year.season_joints import JointTravel, Verdict, joint_travels
from tests.joinery.bench import Made, made_of
from tests.joinery.test_mortise_tenon import YEAR, stick, wide_board
from tests.joinery.test_movement import CHERRY_YEAR, breadboard
from tests.plan.jobs import demo_plan, shipped_job

OAK = 0.00365
"""Flat-sawn white oak, Wood Handbook, FPL-GTR-190, Table 13-5. [1 per % MC]"""


def travels(made: Made) -> list[JointTravel]:
    """The places of a small piece, its parts' spread not known."""
    return joint_travels(made.works, YEAR, parts=made.piece.parts, seasons=())


def test_a_wide_board_tenoned_in_one_is_held_across_the_grain() -> None:
    """One tenon 384 of 400 wide: 384 x 0.00365 x 3 = 4.2 mm of slip where 1 is harmless."""
    [glue] = travels(wide_board(shoulder=8))
    assert glue.what == "glue line across the grain"
    assert glue.swell_travel_mm == pytest.approx(384 * OAK * 3.0)
    assert glue.shrink_travel_mm == pytest.approx(384 * OAK * 2.0)
    assert (glue.swell_room_mm, glue.verdict) == (1.0, Verdict.BINDS)
    assert glue.spare_mm == pytest.approx(1.0 - 384 * OAK * 3.0)
    assert glue.mid_travel_mc_pct is None


def test_the_same_board_in_three_tenons_with_only_the_middle_glued_is_free() -> None:
    """The outer tenons have the mortises their travel asks for; the middle one slips little."""
    found = travels(wide_board(shoulder=8, tenons=3, apart=60, glued="middle"))
    slides = [travel for travel in found if "mortise" in travel.what]
    [middle] = [travel for travel in found if travel not in slides]
    assert middle.from_fixed_mm == pytest.approx((384 - 2 * 60) / 3)
    assert middle.verdict is Verdict.TIGHT  # 0.96 mm, 1.2 on a lively board
    assert len(slides) == 2
    for travel in slides:
        assert travel.swell_travel_mm == pytest.approx(travel.from_fixed_mm * OAK * 3.0)
        assert travel.spare_mm == pytest.approx(0.5)
        assert travel.verdict is not Verdict.BINDS


def housed(shelf_width_toward: str, *, glued: bool = True, width: float = 200.0) -> Made:
    """A board let into an upright one: level as a shelf, both move alike; on edge, across its grain."""
    level = shelf_width_toward == "back"
    section = {"section": [width, 20]}
    shelf = {
        **stick([0, 0, 300], [400, 0, 300], [width, 20], shelf_width_toward, trim={"end": "side.left"}),
        **section,
    }
    side: dict[str, Any] = stick([411, 0, 0], [411, 0, 600], [width if level else 300, 22], "back")
    joint = {"kind": "housing", "depth": 8, "glued": glued, "between": [["shelf.end", "side"]]}
    return made_of({"shelf": shelf, "side": side}, {"j": joint}, moisture=YEAR)


def test_a_shelf_in_its_sides_asks_for_nothing() -> None:
    """Both run their width from front to back and move alike."""
    assert travels(housed("back")) == []


def test_a_wide_board_on_edge_in_a_housing_is_held_across_the_grain() -> None:
    """200 mm glued across a post: 200 x 0.00365 x 3 = 2.19 mm of slip; dry, it slides."""
    [glue] = travels(housed("top"))
    assert glue.swell_travel_mm == pytest.approx(200 * OAK * 3.0)
    assert glue.verdict is Verdict.BINDS
    assert travels(housed("top", glued=False)) == []


@pytest.mark.parametrize(("width", "verdict"), [(60, "free"), (80, "tight"), (100, "binds")])
def test_cross_grain_glue_by_its_width(width: float, verdict: str) -> None:
    """At three points oak slips 0.66 mm over 60, 0.88 over 80 (1.10 on a lively board), 1.10 over 100."""
    parts = {
        "a": stick([-200, 0, 110], [200, 0, 110], [width, 20], "back"),
        "b": stick([0, -200, 90], [0, 200, 90], [width, 20], "right"),
    }
    joint = {"kind": "face_lamination", "between": [["a", "b"]]}
    [glue] = travels(made_of(parts, {"j": joint}, moisture=YEAR))
    assert glue.from_fixed_mm == pytest.approx(width)
    assert glue.swell_travel_mm == pytest.approx(width * OAK * 3.0)
    assert glue.verdict.value == verdict


def test_a_tight_place_is_one_that_a_lively_board_would_bind() -> None:
    """A mortise given 4 mm each way has 1.02 over 2.98 and 0.28 over a quarter more; one of 3.5 is tight."""
    verdicts = {}
    for room in (3.5, 4.0):
        work = breadboard(mortise_over=2.0 * room)
        [one, _] = [
            travel
            for travel in joint_travels((work,), CHERRY_YEAR, parts={}, seasons=())
            if travel.what.startswith("tenon")
        ]
        assert one.far_spare_mm == pytest.approx(room - 1.25 * 400 * 0.00248 * 3.0)
        verdicts[room] = one.verdict
    assert verdicts == {3.5: Verdict.TIGHT, 4.0: Verdict.FREE}


def test_what_the_program_sizes_is_free_by_its_own_rule() -> None:
    """Slots and mortises of breadboard ends left to the room's year, of the demo and of a wide board."""
    wide = joint_travels((breadboard(),), CHERRY_YEAR, parts={}, seasons=())
    own = [t for t in (*wide, *demo_plan().seasons.joints) if t.what.startswith(("pin", "tenon"))]
    assert len(own) >= 12
    assert {t.verdict for t in own} == {Verdict.FREE}


def test_every_joint_of_the_demo_piece_that_holds_wood_is_listed() -> None:
    """Breadboard ends and clips by their places, tenons into the legs by their glue lines."""
    kinds = {(j.joint.partition(".")[0], j.what.strip("0123456789 ")) for j in demo_plan().seasons.joints}
    assert ("apron_to_leg", "glue line across the grain") in kinds
    assert {joint for joint, _ in kinds} == {"apron_to_leg", "breadboard", "clips"}


def test_doors_set_in_their_openings_are_judged() -> None:
    """The sideboard's pair: four stiles of 60 mm, moving away from the hinges, and the gap as built."""
    from scantling.plan.planner import Planner
    from scantling.plan.year.seasons import moisture_of

    job = shipped_job("sideboard", rack=False)
    works = Planner().works(job)
    moisture = moisture_of(job.shop, job.room)
    doors = [
        t
        for t in joint_travels(works, moisture, parts=job.piece.parts, seasons=())
        if t.joint.startswith("door_gap")
    ]
    assert len(doors) == 1
    for door in doors:
        assert door.from_fixed_mm == pytest.approx(240.0)
        assert door.shrink_travel_mm > 0.5
        assert door.shrink_room_mm == pytest.approx(5.0 - door.cut_to_mm)
        assert door.verdict is not Verdict.BINDS
