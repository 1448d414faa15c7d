"""Joints that carry, and tops that are lifted, in whole pieces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cli.job import job_from_files
from scantling.joinery import load_piece_text
from scantling.piece.geometry import add
from scantling.piece.model import Part
from scantling.plan.job import Job
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.standing.supports import shares_of
from scantling.structure.carrying import CarriedKind
from scantling.structure.gravity import GRAVITY_M_S2
from scantling.wood.fasteners import Fastener, lateral_n
from tests.plan.jobs import EXAMPLES, shipped_job, shipped_plan

SHELF = """
scantling: 1
title: A shelf on screws
brief: {load: %s kg}
parts:
  side_left: {kind: panel, species: eastern white pine, section: [200, 20], center: [-310, 0, 300],
              along: top, length: 600 mm, width_toward: back, rings: flat,
              strips: {least: 60 mm, most: 200 mm},
              copies: {side_right: {mirror: [left-right]}}}
  shelf: {kind: panel, species: eastern white pine, section: [200, 20], center: [0, 0, 400],
          along: right, length: 600 mm, width_toward: back, rings: flat, strips: {least: 60 mm, most: 200 mm}}
joints:
  screwed: {kind: plain_screw, between: [[side_left, shelf.start], [side_right, shelf.end]],
            screw: [4, 60], count: 2, counterbore: 0}
"""


def shelf_on_screws(load_kg: float) -> Plan:
    """A pine shelf between two sides, two screws 4 x 60 into its end grain at each end."""
    usual = job_from_files(EXAMPLES / "reading_table.yaml")
    return make_plan(Job(piece=load_piece_text(SHELF % load_kg), shop=usual.shop, room=usual.room))


def screws_n() -> float:
    """Two screws in end grain, 40 mm deep: three quarters of two thirds of K D2 each."""
    load = lateral_n(Fastener.WOOD_SCREW, specific_gravity_12=0.35, diameter_mm=4.0, hardwood=False)
    return 2.0 * load * 2.0 / 3.0 * 0.75


@pytest.mark.parametrize(("beside_kg", "codes"), [(-0.5, []), (0.5, ["F75"])])
def test_f75_a_shelf_on_screws_into_its_ends(beside_kg: float, codes: list[str]) -> None:
    """Half of the load and of the shelf at each end, against the screws; told once for both."""
    own = next(p.mass_kg for p in shelf_on_screws(5.0).parts if p.name == "shelf")
    limit = 2.0 * screws_n() / GRAVITY_M_S2 - own
    plan = shelf_on_screws(limit + beside_kg)
    assert [f.code for f in plan.findings if f.code == "F75"] == codes
    assert {one.by for one in plan.strength.carried} == {"side_left", "side_right"}
    for one in plan.strength.carried:
        assert one.may_n == pytest.approx(screws_n(), rel=1e-6)


POST = """  post: {kind: panel, species: eastern white pine, section: [200, 20], center: [%s, 0, 195],
         along: top, length: 390 mm, width_toward: back, rings: flat, strips: {least: 60 mm, most: 200 mm}}
  bearer: {kind: stick, species: eastern white pine, from: [-300, 90, 380], to: [300, 90, 380],
           section: [20, 20], width_toward: back, rings: flat}
joints:"""


def shares(*supports: str, post_mm: float = 0.0) -> list[float]:
    """Of the shelf's load on these parts, with a post under it so far from its middle."""
    parts = load_piece_text((SHELF % 5.0).replace("joints:", POST % post_mm)).parts
    found = shares_of(parts["shelf"], [parts[name] for name in supports])
    return [found[name] for name in supports]


def test_a_post_under_the_middle_of_a_shelf_bears_five_eighths() -> None:
    """Of one board over two equal spans; half would be for two boards that end on it."""
    assert shares("side_left", "post", "side_right") == pytest.approx([0.21875, 0.625, 0.21875])


def test_a_post_off_the_middle_by_the_three_moments() -> None:
    """Spans of 200 and 400: M = (a3 + b3) / 8 (a + b) of w, so the post bears 300 + M (1 / a + 1 / b)."""
    moment = (200.0**3 + 400.0**3) / (8.0 * 600.0)
    by_hand = (300.0 + moment * (1.0 / 200.0 + 1.0 / 400.0)) / 600.0
    assert shares("side_left", "post", "side_right", post_mm=-100.0)[1] == pytest.approx(by_hand, rel=1e-6)


def test_supports_all_round_bear_half_at_most() -> None:
    """Two sides and a bearer along the back edge: a plate, whose longer sides share it."""
    assert shares("side_left", "bearer", "side_right") == [0.5, 0.5, 0.5]


def pegged(*pegs: tuple[float, float], sides: tuple[str, ...] = ()) -> list[float]:
    """Of the shelf's load on these sides, then on pegs 20 square with their middles there. [mm]"""
    parts = dict(_shelf_and_peg())
    peg = parts.pop("peg")
    for number, (x, y) in enumerate(pegs):
        name, moved = f"peg_{number}", add(peg.frame.origin, (x, y, 0.0))
        parts[name] = replace(peg, name=name, frame=replace(peg.frame, origin=moved))
    names = (*sides, *(f"peg_{number}" for number in range(len(pegs))))
    found = shares_of(parts["shelf"], [parts[name] for name in names])
    return [found[name] for name in names]


@cache
def _shelf_and_peg() -> Mapping[str, Part]:
    """The shelf between its sides, and a peg under its middle."""
    peg = "  peg: {kind: stick, species: red oak, center: [0, 0, 350], along: top, length: 80 mm,\n"
    peg += "        section: [20, 20], width_toward: back}\n"
    return load_piece_text((SHELF % 5.0).replace("joints:", f"{peg}joints:")).parts


def test_four_pegs_in_the_corners_bear_a_quarter_each() -> None:
    """Half on either end, and of that half on either edge."""
    assert pegged((-290, -90), (290, 90), (-290, 90), (290, -90)) == pytest.approx([0.25] * 4)


def test_two_pegs_within_the_width_bear_its_overhangs() -> None:
    """At 50 and 150 of 200: 50 x 125 / 100 from the near overhang and 50 from between, 112.5 of 200."""
    found = pegged((290, -50), (290, 50), sides=("side_left",))
    assert found == pytest.approx([0.5, 0.5 * 112.5 / 200.0, 0.5 * 112.5 / 200.0])


def test_three_pegs_on_one_line_by_the_three_moments() -> None:
    """Spans of 50 and 150 across: the middle one bears 100 + M (1 / 50 + 1 / 150), and not five eighths."""
    moment = (50.0**3 + 150.0**3) / (8.0 * 200.0)
    middle = (100.0 + moment * (1.0 / 50.0 + 1.0 / 150.0)) / 200.0
    found = pegged((290, -90), (290, -50), (290, 90), sides=("side_left",))
    assert (found[0], found[2]) == pytest.approx((0.5, 0.5 * middle), rel=1e-6)
    assert middle > 0.79


def test_pegs_beside_each_other_are_one() -> None:
    """Nearer than the board is thick both ways, they share what comes on their place between them."""
    one, other, *others = pegged((-290, -90), (-285, -85), (-290, 90), (290, 90), (290, -90))
    assert one == other
    assert one + other == pytest.approx(0.25, rel=0.1)
    assert others == pytest.approx([0.25] * 3, rel=0.1)


@given(
    pegs=st.lists(st.tuples(st.integers(-29, 29), st.integers(-9, 9)), min_size=2, max_size=6, unique=True)
)
@settings(max_examples=40)
def test_pegs_seen_in_a_mirror_bear_the_same(pegs: list[tuple[int, int]]) -> None:
    """Whichever end or edge is counted from, and in whichever order they are told."""
    at = [(10.0 * x, 10.0 * y) for x, y in pegs]
    found = pegged(*at)
    assert pegged(*((-x, y) for x, y in at)) == pytest.approx(found, rel=1e-6, abs=1e-6)
    assert pegged(*((x, -y) for x, y in at)) == pytest.approx(found, rel=1e-6, abs=1e-6)
    assert pegged(*reversed(at))[::-1] == pytest.approx(found, rel=1e-6, abs=1e-6)
    assert sum(found) >= 1.0 - 1e-6


def test_shelves_in_housings_and_on_pins_carry_their_load() -> None:
    """The bookcase's seven boards, both ends each, with half of what lies on them."""
    plan = shipped_plan("bookcase", rack=False)
    assert len(plan.strength.carried) == 14
    assert {one.share for one in plan.strength.carried} == {0.5}
    assert all(one.may_n is not None and one.asked_n < one.may_n for one in plan.strength.carried)


def test_rails_under_a_top_carry_a_quarter_at_each_end() -> None:
    """Statics: on two opposite rails alone lies all of the 60 kg and of a top of 1440 x 480 x 22 of oak.

    White oak of 0.68 weighs near 750 kg/m3 in the flat: 71.4 kg, 700 N on the four ends of either pair.
    """
    plan = shipped_plan("sideboard", rack=False)
    ends = {one.joint: one.asked_n for one in plan.strength.carried if one.kind is CarriedKind.RAIL}
    assert len(ends) == 8
    lies = (60.0 + 1440.0 * 480.0 * 22.0 * 750e-9) * GRAVITY_M_S2
    for pair in (("back_upper", "front_top"), ("side_rail", "upper_rail")):
        held = [asked for joint, asked in ends.items() if joint.startswith(pair)]
        assert len(held) == 4
        assert sum(held) == pytest.approx(lies, rel=0.01)


@cache
def table() -> Plan:
    """The reading table."""
    return shipped_plan("reading_table", rack=False)


def test_what_hangs_on_the_clips_of_a_table() -> None:
    """Its base hangs on four rows of clips; the breadboard ends go with the top."""
    topped = table().strength.topped
    assert topped is not None
    assert topped.top == "top"
    assert len(topped.fasteners) == 4
    own = sum(p.mass_kg for p in table().parts if "top" in p.name or "end" in p.name)
    assert topped.top_kg == pytest.approx(own)
    assert topped.below_kg == pytest.approx(table().moving.mass_kg - own)
    assert topped.leaned_on


def test_a_lid_lifts_nothing() -> None:
    """The chest's lid is hinged: whoever lifts by it opens it."""
    assert shipped_plan("blanket_chest", rack=False).strength.topped is None


def test_f76_a_heavy_chest_under_a_light_top() -> None:
    """The chest of drawers is held by its top's screws; with screws 3 mm thick it is not."""
    job = shipped_job("five_drawer_chest", rack=False)
    assert [f for f in make_plan(job).findings if f.code == "F76"] == []
    thin = tuple(
        replace(one, options=one.options.model_copy(update={"screw": (3.0, one.options.screw[1])}))
        if one.family == "slotted_screw"
        else one
        for one in job.piece.joints
    )
    found = [
        f for f in make_plan(replace(job, piece=replace(job.piece, joints=thin))).findings if f.code == "F76"
    ]
    assert len(found) == 1
    assert "snatched up" in found[0].message
