"""Panels and laminations are glued in as few stages as the glue's time allows, each piece once."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from scantling.errors import Severity
from scantling.piece.model import PartKind
from scantling.shop.gluing.glue_findings import glueup_findings
from scantling.shop.gluing.glueup import GlueUp, GlueUpKind
from scantling.shop.gluing.innerglue import inner_glueups, lamination_glueups, panel_glueups
from scantling.shop.milling.milling import mill, mill_all
from scantling.shop.profile.profile_file import default_shop, parse_shop
from tests.shop.parts import apron, bare, odd_parts, panel, post

SHOP = default_shop()
NO_PLANER = "machines: {table_saw: {}, jointer: {}}\n"


def pieces_of(stages: tuple[GlueUp, ...]) -> list[str]:
    """Strips or layers brought, leaving out bodies glued before."""
    made = {stage.name for stage in stages}
    return [piece for stage in stages for body in stage.bodies for piece in body if piece not in made]


def test_a_wide_panel_is_glued_as_sub_panels_and_then_closed() -> None:
    """5 strips in a 330 planer: two sub-panels of 2, the odd strip, and the last joints after both."""
    stages = panel_glueups(mill(panel(), SHOP), SHOP)
    assert [stage.name for stage in stages] == [
        "part: sub-panel 1",
        "part: sub-panel 2",
        "part: last joints",
    ]
    assert stages[-1].after == ("part: sub-panel 1", "part: sub-panel 2")
    assert [len(stage.bodies) for stage in stages] == [2, 2, 3]
    assert stages[0].clamps is not None
    assert stages[0].clamps.reach_mm == pytest.approx(2 * 672.7 / 5 + 2 * 45 + 25)


def test_a_row_that_takes_too_long_is_glued_in_two_groups() -> None:
    """Seven strips without a planer: four, then three, then one joint, each within the time."""
    ledger = mill(panel(strip_count=7), parse_shop(NO_PLANER))
    shop = parse_shop(NO_PLANER + "glue: slow PVA\nclamping: {open_share: 0.38}\n")
    stages = panel_glueups(ledger, shop)
    assert [len(stage.bodies) for stage in stages] == [4, 3, 2]
    assert all(stage.time.in_time for stage in stages)


def test_a_pair_that_takes_too_long_is_still_planned_and_shows_it() -> None:
    """Hot hide glue leaves two minutes: pairs cannot be split, and the stage says it is not in time."""
    stages = panel_glueups(mill(panel(), SHOP), SHOP, glue="hot hide")
    assert all(len(stage.bodies) == 2 for stage in stages)
    assert not any(stage.time.in_time for stage in stages)


def test_a_lamination_presses_its_whole_face() -> None:
    """Two layers of 94 x 760: one line, its area, and more clamps for the pressure than for the spacing."""
    [stage] = lamination_glueups(mill(post(), SHOP), SHOP)
    assert stage.kind is GlueUpKind.LAYERS
    assert stage.area_mm2 == pytest.approx(760.0 * (88.9 + 0.3 + 5.0))
    assert stage.clamps is not None
    assert stage.clamps.by_pressure > stage.clamps.by_spacing
    assert stage.glue_g == pytest.approx(stage.area_mm2 * 1e-6 * 220 * 1.25)


def test_only_parts_that_are_glued_up_are_listed() -> None:
    """A stick has no stages; every panel and lamination has."""
    assert set(inner_glueups(mill_all([apron()], SHOP), SHOP)) == set()
    found = inner_glueups([mill(panel(), SHOP)], SHOP)
    assert set(found) == {"part"}


@given(width=st.floats(150, 1300), working=st.floats(2, 40), count=st.integers(2, 12))
def test_every_strip_is_glued_once_and_stages_follow_what_they_need(
    width: float, working: float, count: int
) -> None:
    """Whatever the time there is: each strip once, each stage after those it brings, one body at the end."""
    times = f"open: 1, working: {working:f}, clamp: 45, cure: 1440"
    own = f"glue: own\nglues: [{{name: own, kind: pva, {times}, min_temperature: 10, spread_g_m2: 220}}]\n"
    shop = parse_shop(own)
    stages = panel_glueups(mill(panel(width, strip_count=count), shop), shop)
    assert sorted(pieces_of(stages)) == sorted(f"strip {i}" for i in range(1, count + 1))
    done: set[str] = set()
    for stage in stages:
        assert set(stage.after) <= done
        done.add(stage.name)
    brought = [name for stage in stages for name in stage.after]
    assert sorted(brought) == sorted(stage.name for stage in stages[:-1])


def test_stages_survive_json() -> None:
    """Plain data, out and back."""
    found = inner_glueups(mill_all(odd_parts()[3:4], SHOP), SHOP)
    adapter = TypeAdapter(dict[str, tuple[GlueUp, ...]])
    assert adapter.validate_json(adapter.dump_json(found)) == found


def test_a_panel_short_of_clamps_is_told_how_many_to_borrow() -> None:
    """One clamp that opens far enough: the rest are to be borrowed, and of three bodies a seam at a time."""
    shop = parse_shop("clamps: [{reach: 2500, count: 1}]")
    stages = panel_glueups(mill(panel(), shop), shop)
    for item, stage in zip(glueup_findings(stages, shop), stages, strict=True):
        assert (item.code, item.where) == ("F30", stage.name)
        assert f"Borrow {item.numbers['wanted'] - 1:.0f} more" in item.advice
        assert ("one seam at a time" in item.advice) is (len(stage.bodies) > 2)


def test_one_long_seam_takes_as_many_clamps_as_there_is_time_for() -> None:
    """Two strips of 2.1 m want 18 clamps; 8.4 min less 0.8 to spread and 0.7 to place are 16 at 25 s each."""
    size = bare(PartKind.PANEL, 2100.0, 200.0, 30.0, strip_count=2)
    [stage] = panel_glueups(mill(size, SHOP), SHOP)
    clamps = stage.clamps
    assert clamps is not None
    assert min(clamps.count, clamps.owned) > 16
    assert (clamps.used, clamps.settable) == (16, 16)
    assert stage.time.in_time
    assert stage.time.total_min + 25.0 / 60.0 > stage.time.allowed_min
    assert clamps.reached_mpa == pytest.approx(16 * 4000.0 / stage.area_mm2)
    [found] = glueup_findings([stage], SHOP)
    assert (found.code, found.severity) == ("F30", Severity.MEDIUM)
    assert "leave time for 16, which give" in found.message
    assert "slow PVA" in found.advice


def test_a_seam_is_not_pressed_by_fewer_clamps_than_hold_it() -> None:
    """Hide glue leaves time for a few clamps farther apart than they may be: all are kept, and it is told."""
    size = bare(PartKind.PANEL, 1900.0, 200.0, 30.0, strip_count=2)
    [stage] = panel_glueups(mill(size, SHOP), SHOP, glue="hot hide")
    assert stage.clamps is not None
    assert stage.clamps.settable == 0
    [late] = [each for each in glueup_findings([stage], SHOP) if each.code == "F31"]
    assert "split the joint" not in late.advice
