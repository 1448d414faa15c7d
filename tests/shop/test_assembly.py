"""Stages of assembly: one direction together, short frames before long rails, trapped parts in time."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from pydantic import TypeAdapter

from scantling.errors import Severity
from scantling.piece.geometry import Vec
from scantling.piece.model import Part
from scantling.shop.gluing.assembly import Assembly, plan_assembly
from scantling.shop.gluing.glue_findings import _too_long, assembly_findings
from scantling.shop.gluing.glueup import GlueUpKind
from scantling.shop.gluing.innerglue import inner_glueups
from scantling.shop.milling.milling import mill
from scantling.shop.profile.profile_file import default_shop, parse_shop
from tests.shop.frames import glued, loose, table_base, top_over
from tests.shop.parts import panel
from tests.shop.sticks import between

SHOP = default_shop()


def rail_between(name: str, start: Vec, end: Vec) -> Part:
    """A level rail of 25."""
    return between(name, start, end, section_mm=(25.0, 25.0), thickness_axis=(0.0, 0.0, 1.0))


def test_a_table_base_is_two_end_frames_then_the_long_rails_then_the_top() -> None:
    """Short aprons first, the long ones bring both frames together, the top is clipped on dry at the end."""
    parts, works = table_base()
    top, clips = top_over(parts)
    assembly = plan_assembly([*works, *clips], {"top": top, **parts}, SHOP)
    stages = assembly.stages
    assert [set(stage.parts) for stage in stages[:2]] == [
        {"leg_fl", "apron_left", "leg_bl"},
        {"leg_fr", "apron_right", "leg_br"},
    ]
    assert set(stages[2].joints) == {
        f"apron_{side}/leg_{leg}" for side in ("front", "back") for leg in (f"{side[0]}l", f"{side[0]}r")
    }
    assert set(stages[2].after) == {stages[0].name, stages[1].name}
    assert stages[2].surface_first == ("apron_front", "apron_back")
    assert stages[3].kind is GlueUpKind.DRY
    assert stages[3].after == (stages[2].name,)
    assert set(stages[3].parts) == {"top", *parts}
    assert assembly.blocked == ()


def test_one_clamp_presses_both_ends_of_a_rail_and_opens_over_the_legs() -> None:
    """An end frame takes one row that opens 500 and 48, two cauls and the margin; the base takes two rows."""
    parts, works = table_base()
    first, _, last = plan_assembly(works, parts, SHOP).stages
    assert first.clamps is not None
    assert last.clamps is not None
    assert (first.clamps.count, last.clamps.count) == (1, 2)
    assert first.clamps.reach_mm == pytest.approx(500 + 48 + 2 * 45 + 25)
    assert last.clamps.reach_mm == pytest.approx(1000 + 48 + 2 * 45 + 25)


def test_a_stage_that_takes_too_long_is_split_one_end_first() -> None:
    """With a minute to spare the four joints of the long rails close at the left, then at the right."""
    parts, works = table_base()
    shop = parse_shop("clamping: {open_share: 0.3}")
    stages = plan_assembly(works, parts, shop).stages
    assert [len(stage.joints) for stage in stages] == [2, 2, 2, 2]
    assert all(stage.note for stage in stages[2:])
    assert {joint.split("/")[1] for joint in stages[2].joints} == {"leg_fl", "leg_bl"}
    assert stages[3].after[0] == stages[2].name


def test_what_cannot_be_split_says_that_it_is_late() -> None:
    """Hot hide glue allows no joint of two clamps: each stage is as small as can be and F31 names it."""
    parts, works = table_base()
    shop = parse_shop("glue: hot hide")
    assembly = plan_assembly(works, parts, shop)
    late = [item for item in assembly_findings(assembly, shop) if item.code == "F31"]
    assert late
    assert "slow PVA" in late[0].advice
    assert late[0].numbers["minutes"] > late[0].numbers["allowed_min"]


def test_wedges_are_cut_to_the_slope_and_needed_beyond_eight_degrees() -> None:
    """12 degrees slip (tan 12 = 0.213, wet glue 0.15), 5 do not but are still wedged; 0.5 needs none."""
    for slope, wedges, needed in ((12.0, 8, 8), (5.0, 8, 0), (0.5, 0, 0)):
        parts, works = table_base(slope_deg=slope)
        assembly = plan_assembly(works, parts, SHOP)
        found = [wedge for stage in assembly.stages for wedge in stage.wedges]
        assert len(found) == wedges
        assert all(wedge.angle_deg == slope for wedge in found)
        told = [item for item in assembly_findings(assembly, SHOP) if item.code == "F32"]
        assert len(told) == needed
    assert math.tan(math.radians(8.5)) == pytest.approx(0.15, abs=0.001)


def test_clamps_too_short_and_too_few_are_told() -> None:
    """Clamps of 900 do not open over a base of 1000 (F29); one of 1200 is one too few (F30)."""
    parts, works = table_base()
    short = parse_shop("clamps: [{reach: 900, count: 9}]")
    found = assembly_findings(plan_assembly(works, parts, short), short)
    assert [item.code for item in found] == ["F29"]
    assert found[0].numbers["wanted_mm"] == pytest.approx(1000 + 48 + 115)
    few = parse_shop("clamps: [{reach: 1200, count: 1}]")
    [item] = assembly_findings(plan_assembly(works, parts, few), few)
    assert (item.code, item.severity) == ("F30", Severity.HIGH)
    assert (item.numbers["wanted"], item.numbers["free"]) == (2.0, 1.0)
    assert assembly_findings(plan_assembly(works, parts, SHOP), SHOP) == ()


@pytest.mark.parametrize(
    ("clamps", "severity", "advice"),
    [
        (
            "{reach: 900, count: 4}",
            Severity.MEDIUM,
            "head to head: 4 of at least 656 mm make 2, and the shop has 4",
        ),
        ("{reach: 900, count: 3}", Severity.STOP, "A clamp of 1163 mm is wanted."),
        ("{reach: 1130, count: 2}", Severity.MEDIUM, "Use cauls of at most 28 mm in place of 45 mm."),
        ("{reach: 1108, count: 3}", Severity.STOP, "A clamp of 1163 mm is wanted."),
    ],
)
def test_a_short_reach_is_less_grave_where_owned_clamps_get_there_another_way(
    clamps: str, severity: Severity, advice: str
) -> None:
    """1163 wanted in two rows: two by two, or with thinner cauls; else it stops the stage."""
    parts, works = table_base()
    shop = parse_shop(f"clamps: [{clamps}]")
    [item] = assembly_findings(plan_assembly(works, parts, shop), shop)
    assert (item.code, item.severity) == ("F29", severity)
    assert advice in item.advice


def test_a_part_that_would_be_trapped_goes_in_with_the_stage_that_traps_it() -> None:
    """A shelf let loose into both end frames goes in with the long rails, not after."""
    parts, works = table_base()
    shelf = between(
        "shelf", (-450.0, 0.0, 200.0), (450.0, 0.0, 200.0), section_mm=(300.0, 18.0), thickness_axis=(0, 0, 1)
    )
    seats = [
        loose("shelf", "leg_fl", (-450.0, 0.0, 200.0), (1.0, 0.0, 0.0)),
        loose("shelf", "leg_fr", (450.0, 0.0, 200.0), (-1.0, 0.0, 0.0)),
    ]
    stages = plan_assembly([*works, *seats], {**parts, "shelf": shelf}, SHOP).stages
    assert [stage.dry_joints for stage in stages] == [(), (), ("shelf/leg_fl", "shelf/leg_fr")]


def test_what_goes_in_dry_goes_in_before_the_side_put_on_last() -> None:
    """Both rails leave the left legs along x: closed there first, then the shelf, then at the right legs."""
    parts, works = table_base()
    shelf = between(
        "shelf", (-450.0, 0.0, 200.0), (450.0, 0.0, 200.0), section_mm=(300.0, 18.0), thickness_axis=(0, 0, 1)
    )
    seats = [
        loose("shelf", "leg_fl", (-450.0, 0.0, 200.0), (1.0, 0.0, 0.0)),
        loose("shelf", "leg_fr", (450.0, 0.0, 200.0), (-1.0, 0.0, 0.0)),
    ]
    last = plan_assembly([*works, *seats], {**parts, "shelf": shelf}, SHOP).stages[-1]
    at = {work.joint: work.at[0] for work in works}
    places = [at[joint] for joint in last.joints]
    assert last.open_joints == 2
    assert len({place > 0.0 for place in places[:2]}) == len({place > 0.0 for place in places[2:]}) == 1
    assert (places[0] > 0.0) is not (places[2] > 0.0)


def test_what_is_shut_in_is_glued_to_each_other_before() -> None:
    """A shelf with a lip glued on, loose between end frames: the lip first, and both go in as one body."""
    parts, works = table_base()
    shelf, lip = (
        between(name, (-450.0, y, z), (450.0, y, z), section_mm=section, thickness_axis=(0, 0, 1))
        for name, y, z, section in (
            ("shelf", 0.0, 200.0, (300.0, 18.0)),
            ("lip", -150.0, 230.0, (18.0, 42.0)),
        )
    )
    seats = [
        loose(name, leg, (side * 450.0, 0.0, 200.0), (-side, 0.0, 0.0))
        for name in ("shelf", "lip")
        for leg, side in (("leg_fl", -1.0), ("leg_fr", 1.0))
    ]
    seam = glued("lip", "shelf", (0.0, -150.0, 209.0), (0.0, 0.0, 1.0), name="seam")
    plan = plan_assembly([*works, *seats, seam], {**parts, "shelf": shelf, "lip": lip}, SHOP)
    assert plan.blocked == ()
    order = [stage.joints for stage in plan.stages]
    last = plan.stages[-1]
    assert order.index(("seam",)) < order.index(last.joints)
    assert len(last.dry_joints) == 4
    assert last.bodies.count(("shelf", "lip")) == 1
    assert next(stage.name for stage in plan.stages if stage.joints == ("seam",)) in last.after


def test_legs_that_each_enter_a_seat_go_in_together() -> None:
    """Four legs in four directions, each held by one joint: one stage."""
    seat = between(
        "seat", (-600.0, 0.0, 450.0), (600.0, 0.0, 450.0), section_mm=(330.0, 38.0), thickness_axis=(0, 0, 1)
    )
    parts = {"seat": seat}
    works = []
    for name, (x, y) in {"a": (-1, -1), "b": (-1, 1), "c": (1, -1), "d": (1, 1)}.items():
        foot, head = (x * 520.0, y * 160.0, 0.0), (x * 430.0, y * 100.0, 450.0)
        parts[name] = between(name, foot, head, section_mm=(38.0, 38.0), thickness_axis=(0, 1, 0))
        lean = parts[name].frame.grain
        works.append(glued(name, "seat", head, (-lean[0], -lean[1], -lean[2]), name=name))
    stages = plan_assembly(works, parts, SHOP).stages
    assert [set(stage.joints) for stage in stages] == [{"a", "b", "c", "d"}]


def test_a_joint_across_a_closed_body_is_blocked_and_told() -> None:
    """A brace that closes sideways between two legs joined before has no straight way in (F33)."""
    parts, works = table_base()
    brace = between(
        "brace",
        (-500.0, -200.0, 300.0),
        (-500.0, 200.0, 500.0),
        section_mm=(40, 20),
        thickness_axis=(1, 0, 0),
    )
    across = [
        glued("brace", "leg_fl", (-500.0, -200.0, 300.0), (1.0, 0.0, 0.0)),
        glued("brace", "leg_bl", (-500.0, 200.0, 500.0), (0.0, 0.0, 1.0)),
    ]
    assembly = plan_assembly([*works, *across], {**parts, "brace": brace}, SHOP)
    told = [item.where for item in assembly_findings(assembly, SHOP) if item.code == "F33"]
    assert told == list(assembly.blocked)
    assert len(told) == 1


def test_a_middle_rail_between_side_rails_goes_in_before_the_seat_closes_the_frames() -> None:
    """Side frames, then the rail between their stretchers, then the seat, though its legs are shorter."""
    seat = between("seat", (-600, 0, 460), (600, 0, 460), section_mm=(500.0, 30.0), thickness_axis=(0, 0, 1))
    parts, works = {"seat": seat}, []
    lean = math.tan(math.radians(10.0))
    for side, x in (("l", -1.0), ("r", 1.0)):
        for name, y in ((f"leg_{side}f", -1.0), (f"leg_{side}b", 1.0)):
            foot = (x * (450.0 + 450.0 * lean), y * (150.0 + 450.0 * lean), 0.0)
            parts[name] = between(
                name, foot, (x * 450.0, y * 150.0, 450.0), section_mm=(38, 38), thickness_axis=(0, 1, 0)
            )
            away = parts[name].frame.grain
            works.append(glued(name, "seat", (x * 450.0, y * 150.0, 450.0), (-away[0], -away[1], -away[2])))
        rail = f"rail_{side}"
        at = x * 490.0
        parts[rail] = between(
            rail, (at, -180, 200), (at, 180, 200), section_mm=(25, 25), thickness_axis=(0, 0, 1)
        )
        works.append(glued(rail, f"leg_{side}f", (at, -180.0, 200.0), (0.0, 1.0, 0.0)))
        works.append(glued(rail, f"leg_{side}b", (at, 180.0, 200.0), (0.0, -1.0, 0.0)))
    parts["middle"] = between(
        "middle", (-490, 0, 200), (490, 0, 200), section_mm=(25, 25), thickness_axis=(0, 0, 1)
    )
    works.append(glued("middle", "rail_l", (-490.0, 0.0, 200.0), (1.0, 0.0, 0.0)))
    works.append(glued("middle", "rail_r", (490.0, 0.0, 200.0), (-1.0, 0.0, 0.0)))
    assembly = plan_assembly(works, parts, SHOP)
    assert assembly.blocked == ()
    assert [len(stage.joints) for stage in assembly.stages] == [2, 2, 2, 4]
    assert "middle" in assembly.stages[2].parts
    assert "seat" in assembly.stages[3].parts


def test_pins_through_a_joint_go_with_it() -> None:
    """A second joint between the same two parts is closed in the same stage, not held to be blocked."""
    parts, works = table_base()
    pin = glued("apron_left", "leg_fl", works[0].at, (0.0, 0.0, 1.0), area_mm2=100.0, name="pin")
    assembly = plan_assembly([*works, pin], parts, SHOP)
    assert assembly.blocked == ()
    assert "pin" in assembly.stages[0].joints


def test_a_panel_is_glued_up_before_it_is_built_in() -> None:
    """The stage that brings the top comes after the last joints of the top."""
    parts, works = table_base()
    top, clips = top_over(parts)
    inner = {"top": inner_glueups([mill(panel(), SHOP)], SHOP)["part"]}
    stages = plan_assembly([*works, *clips], {"top": top, **parts}, SHOP, inner=inner).stages
    assert "part: last joints" in stages[-1].after


def test_assemblies_survive_json() -> None:
    """Plain data, out and back."""
    parts, works = table_base(slope_deg=9.0)
    assembly = plan_assembly(works, parts, SHOP)
    adapter = TypeAdapter(Assembly)
    assert adapter.validate_json(adapter.dump_json(assembly)) == assembly


@pytest.mark.parametrize(("over", "severity"), [(1.09, Severity.HIGH), (1.11, Severity.STOP)])
def test_a_little_over_the_time_kept_is_not_yet_a_stop(over: float, severity: Severity) -> None:
    """Up to a tenth over, the reserve of the open time still covers it."""
    parts, works = table_base()
    stage = plan_assembly(works, parts, SHOP).stages[0]
    late = replace(stage, time=replace(stage.time, allowed_min=stage.time.total_min / over))
    assert _too_long(late, SHOP).severity is severity
