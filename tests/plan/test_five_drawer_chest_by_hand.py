"""The five-drawer chest, figured by hand: graduation, guides, gaps, runners, bottoms, tipping.

Movement coefficients are those of table 13-5 of the Wood Handbook (USDA Forest Products Laboratory,
FPL-GTR-190, 2010), flat-sawn: black cherry 0.00248, eastern white pine 0.00212, yellow-poplar 0.00289 a
percent. Moisture at rest is its equation 4-5: 11.0 % at 60 % relative humidity (printed in table 4-2 for
70 degF), 5.4 % at 25 %.
"""

from __future__ import annotations

from functools import cache

import pytest

from scantling.errors import Severity
from scantling.joinery.work import ConnectorKind, Freedom
from scantling.plan.planner import Planner
from scantling.plan.result import Plan
from tests.joinery.lively import lively_mm
from tests.plan.jobs import shipped_job

CHERRY, PINE, POPLAR = 0.00248, 0.00212, 0.00289


PLANNER = Planner()


@cache
def chest(**given: str) -> Plan:
    """The plan without its rack: nothing here hangs on the boards."""
    return PLANNER.plan(shipped_job("five_drawer_chest", rack=False, given=dict(given)))


def freedom(plan: Plan, joint: str, what: str) -> Freedom:
    """One place that moves."""
    work = next(work for work in plan.joints if work.joint == joint)
    return next(one for one in work.freedoms if one.what == what)


def codes(plan: Plan) -> dict[str, Severity]:
    """The rules that found something worse than a note."""
    return {f.code: f.severity for f in plan.findings if f.severity is not Severity.NOTE}


def test_the_fronts_are_graduated() -> None:
    """1 050 - 18 - 80 - 6 x 20 = 832 for five openings: 166.4 in the middle, then 22 more or less each."""
    parts = shipped_job("five_drawer_chest", rack=False).piece.parts
    heights = [parts[f"drawer_{k}_front"].width_mm for k in range(1, 6)]
    assert heights == pytest.approx([209.9, 187.9, 165.9, 143.9, 121.9])


def test_the_year_in_the_nursery() -> None:
    """25 and 60 % at 20 degC: 5.38 and 11.00 %; the shop's 42 % is 8.03."""
    moisture = chest().seasons.moisture
    assert moisture.dry_pct == pytest.approx(5.38, abs=0.01)
    assert moisture.wet_pct == pytest.approx(11.00, abs=0.01)
    assert moisture.build_pct == pytest.approx(8.03, abs=0.01)


def test_the_gap_over_the_deepest_drawer() -> None:
    """209.9 mm of flat cherry take up 2.97 points: 1.55 mm, and 1 mm is left: planed to 2.55."""
    gap = freedom(chest(), "drawer_over.1", "gap")
    assert gap.swell_travel_mm == pytest.approx(209.9 * CHERRY * 2.974, abs=0.005)
    assert gap.cut_to_mm == pytest.approx(2.548, abs=0.005)


def test_a_slot_at_the_back_of_a_runner() -> None:
    """352 mm behind the rail the side swells 352 x 0.00248 x 2.974 = 2.60 mm; a lively one 3.28."""
    slot = freedom(chest(), "runner_on_side.1", "screw slot 1")
    assert slot.from_fixed_mm == pytest.approx(376 - 24)
    assert slot.swell_travel_mm == pytest.approx(2.596, abs=0.005)
    assert slot.shrink_travel_mm == pytest.approx(352 * CHERRY * 2.649, rel=0.02)  # below 6 % otherwise
    dry, wet = (
        lively_mm(352.0, change, per_pct=CHERRY, shrinkage_pct=7.1, build_pct=8.028)
        for change in (8.028 - 5.379, 2.974)
    )
    assert wet == pytest.approx(3.28, abs=0.02)
    assert slot.cut_to_mm == pytest.approx(4 + dry + wet + 1, abs=0.01)


def test_the_back_does_not_reach_the_runners() -> None:
    """382 mm of side shrink 2.5 mm of the 6 mm left behind the frames."""
    end = freedom(chest(), "runner_on_side.1", "back end of the runner")
    assert end.shrink_travel_mm == pytest.approx(382 * CHERRY * 2.649, rel=0.02)
    assert end.shrink_room_mm == pytest.approx(6.0)


def test_a_bottom_moves_under_its_back() -> None:
    """401 mm of poplar from the front's groove to the screws swell 401 x 0.00289 x 2.974 = 3.45 mm.

    The slot is for a lively board, a quarter more.
    """
    slot = freedom(chest(), "bottom_to_back.1", "screw slot 1")
    assert slot.swell_travel_mm == pytest.approx(3.447, abs=0.005)
    lively = lively_mm(401.0, 2.974, per_pct=POPLAR, shrinkage_pct=8.2, build_pct=8.028)
    assert slot.swell_room_mm - lively == pytest.approx(0.5, abs=0.01)


def test_drawers_722_wide_jam_unwaxed() -> None:
    """190 mm of guide at 0.4 hold 475 mm; 722 want 288.8, and waxed 180.5: F49, and none when kept 290 in."""
    [told] = [f for f in chest().findings if f.code == "F49"]
    assert told.where.count("drawer_over") == 5
    assert told.numbers["guided_wanted_mm"] == pytest.approx(288.8)
    assert "it then wants 180 mm" in told.advice
    assert "F49" not in codes(chest(kept_in="290 mm"))


def test_it_tips_with_its_drawers_out() -> None:
    """Moments about the plinth's front at y = -200, from the parts' weights: 6.06 - 2.2 - 6.8 kg m."""
    plan = chest()
    case = plan.strength.drawers
    assert case is not None
    out, carried = 420 - 190, shipped_job("five_drawer_chest", rack=False).piece.brief.carried
    weights = {part.name: part.mass_kg for part in plan.parts}
    for k, drawer in enumerate(case.drawers, start=1):
        wood = sum(weights[name] for name in carried[f"drawer_{k}"])
        room = 710 * 406 * (166.4 + 22 * (3 - k) - 6 - 20 - 6)  # bottom, and from it to the rim of the back
        assert drawer.mass_kg == pytest.approx(wood + room * 1e-9 * 136.2, rel=1e-3)
        assert drawer.arm_mm - drawer.shut_arm_mm == pytest.approx(out)
    assert case.child_arm_mm == pytest.approx(-200 + 220 + out)
    over = sum(drawer.mass_kg * drawer.arm_mm for drawer in case.drawers) + 27.2 * 250
    assert case.margin_kg_mm == pytest.approx(case.mass_kg * case.behind_mm - over)
    assert -3500 < case.margin_kg_mm < -2500
    assert codes(plan)["F41"] is Severity.STOP


def test_each_way_out_makes_it_stand() -> None:
    """A plinth farther forward by what is told, or drawers that stop sooner; a millimeter less tips."""
    case = chest().strength.drawers
    assert case is not None
    for name, default, sign, wanted in (
        ("plinth_back", 20.0, -1.0, case.forward_mm),
        ("kept_in", 190.0, 1.0, case.farther_in_mm),
    ):
        for by, stands in ((wanted + 1.0, True), (wanted - 1.0, False)):
            tipped = chest(**{name: f"{default + sign * by:.3f} mm"}).strength.drawers
            assert tipped is not None
            assert (tipped.margin_kg_mm >= 0.0) is stands


def test_what_it_takes_from_the_shelf() -> None:
    """12 runners of one screw, 5 bottoms of three, 2 x 3 under the case and the top, two anchors."""
    lines = {(line.kind, line.size_mm): line.needed for line in chest().hardware}
    assert lines[ConnectorKind.SCREW, (4.0, 35.0)] == 12
    assert lines[ConnectorKind.SCREW, (3.5, 22.0)] == 15
    assert lines[ConnectorKind.SCREW, (4.5, 35.0)] == 6
    assert lines[ConnectorKind.SCREW, (4.5, 45.0)] == 6
    assert lines[ConnectorKind.WALL_ANCHOR, ()] == 2


def test_the_top_weighs_what_its_wood_does() -> None:
    """800 x 480 x 18 mm of cherry at about 8 %: 0.50 green over 1 - shrinkage, near 550 kg/m3: 3.8 kg."""
    top = next(part for part in chest().parts if part.name == "top")
    assert top.mass_kg == pytest.approx(0.8 * 0.48 * 0.018 * 550, rel=0.04)


def test_the_dovetails_of_the_deepest_drawer() -> None:
    """Tails 13 mm long at one in seven behind a lap of 5; all of 204.4 mm but the pins."""
    work = next(work for work in chest().joints if work.joint == "drawer_corner.1")
    tails = [mark for mark in work.marks if mark.kind.value == "tail"]
    assert {mark.depth_mm for mark in tails} == {13.0}
    pins = 6.0 * (len(tails) + 1)
    assert sum(mark.length_mm for mark in tails) == pytest.approx(203.9 - pins)


def test_nothing_else_is_wrong_with_it() -> None:
    """What stops it is the tipping, what is serious the jamming; kept in farther it has neither."""
    serious = {code for code, severity in codes(chest()).items() if severity is not Severity.MEDIUM}
    assert serious == {"F41", "F49"}
    assert not {"F41", "F49"} & set(codes(chest(kept_in="290 mm")))
