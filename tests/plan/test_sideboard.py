"""The sideboard: built in a damp shop for a dry flat, it can be made, but not of that wood as it is.

The flat goes below 6 %, where the dimensional change coefficients end, so movement is by eq. 13-3 of the Wood
Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), D (M1 - M0) / (3000 / S - 30 + M0), with the
shrinkage of its table 4-3: white oak 5.6 % radial, 10.5 % tangential. By the coefficients of table 13-5 alone
it would be 3.9, 8.0 and 11.6 mm. Moisture is by its eq. 4-5.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from scantling.cli.job import job_from_files
from scantling.errors import Severity
from scantling.joinery.travel import travel
from scantling.papers.sheets.all import sheets_of
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.year.seasons import Verdict
from scantling.shop.profile.profile_file import parse_shop
from scantling.wood.ring import Ring
from tests.plan.jobs import EXAMPLES, SHIPPED, shipped_job, shipped_plan


@cache
def plan() -> Plan:
    """Its plan, with its rack."""
    return shipped_plan("sideboard")


def test_the_only_serious_remarks_are_of_moisture() -> None:
    """Boards at 12 % for a flat where wood settles at 6.9, from a shop that keeps it at 12.0.

    Over the 8.9 % they should be cut at they are 3.1 too wet: two and more stop the job.
    """
    serious = [f for f in plan().findings if f.severity in (Severity.STOP, Severity.HIGH)]
    assert {(f.code, f.severity, f.numbers.get("mc_pct")) for f in serious} == {
        ("F35", Severity.STOP, 12.0),
        ("F36", Severity.STOP, None),
    }
    for told in serious:
        if told.code == "F35":
            assert told.numbers["settles_pct"] == pytest.approx((5.38 + 8.49) / 2.0, abs=0.05)
        else:
            assert told.numbers["shop_pct"] == pytest.approx(12.0, abs=0.05)


def test_the_drawer_rails_show_no_end_in_the_front() -> None:
    """25 of their 45 are let in: 8 stand before it as a shoulder, 12 behind it, clear of the partition."""
    rails = [work for work in plan().joints if work.first.startswith("drawer_rail_") and work.dry]
    rails = [work for work in rails if work.family == "housing"]
    assert len(rails) == 4
    for work in rails:
        housing, tongue = work.marks
        assert housing.note == "stopped 8 mm from the front and 12 mm from the back"
        assert (tongue.length_mm, tongue.depth_mm) == pytest.approx((25.0, 6.0))
        assert (housing.reference_face.value, housing.from_face_mm) == ("front", pytest.approx(20.5))


@pytest.mark.parametrize(
    ("width", "ring", "shrinks"), [(330, Ring.QUARTER, 4.22), (330, Ring.FLAT, 8.16), (480, Ring.FLAT, 11.87)]
)
def test_what_the_dry_winter_takes(width: float, ring: Ring, shrinks: float) -> None:
    """12.0 to 5.4 %: a quarter panel of 330 loses 4.2 mm, a flat one 8.2, a flat top of 480 11.9."""
    panel = shipped_job("sideboard").piece.parts["door_panel_left"]
    moves = travel(replace(panel, ring=ring), width, plan().seasons.moisture)
    assert moves.shrink_mm == pytest.approx(shrinks, abs=0.01)
    assert moves.swell_mm == 0.0


def test_every_place_that_moves_is_free() -> None:
    """Panels, buttons along and across, doors and drawers: all are listed; none binds, nor a glue line."""
    everything = plan().seasons.joints
    assert all(joint.verdict is not Verdict.BINDS for joint in everything)
    joints = [joint for joint in everything if joint.what != "glue line across the grain"]
    kinds = {joint.joint.split(".")[0] for joint in joints}
    wanted = {"side_panel_in_frame", "back_panel_in_frame", "door_panel_in_frame"}
    assert wanted | {"door_gap", "drawer_gap", "top_on_case"} <= kinds
    assert min(joint.spare_mm for joint in joints) >= 0.5 - 1e-6


def test_the_drawer_gap_is_built_for_the_winter() -> None:
    """Nothing damper than the shop: 1 mm as built.

    A front of 200 loses 200 x 6.62 / (3000 / 5.6 - 18) = 2.56.
    """
    gaps = [joint for joint in plan().seasons.joints if joint.joint.startswith("drawer_gap")]
    assert len(gaps) == 3
    for gap, front_mm in zip(sorted(gaps, key=lambda g: g.joint), (240.0, 200.0, 150.0), strict=True):
        assert gap.cut_to_mm == pytest.approx(1.0)
        assert gap.shrink_travel_mm == pytest.approx(2.56 * front_mm / 200.0, abs=0.01)


def test_every_part_has_its_board() -> None:
    """The rack holds all of it; only the plywood is to be bought."""
    timber = plan().timber
    assert timber.to_buy == ()
    assert {sheet.part for sheet in timber.sheets} == {"partition"}


def test_plywood_is_priced_by_the_shop_or_said_to_be_left_out() -> None:
    """A partition of 413.5 by 640 mm and room to trim: the whole sheet, or named beside the price."""
    job = shipped_job("sideboard", rack=False)
    without = make_plan(job).pricing
    [named] = without.unpriced
    assert named == "birch plywood 18 mm, 1 sheet of 1220 × 1220 mm, 1.49 m²"
    own = parse_shop(
        "rates: {sheets: [{material: plywood, thickness: 18 mm, per_m2: 50}], timber_markup_pct: 0}"
    )
    priced = make_plan(replace(job, shop=own)).pricing
    [line] = [line for line in priced.quote.lines if "plywood" in line.what]
    assert line.amount == pytest.approx(50.0 * 1.22 * 1.22)
    assert line.reckoned.startswith("1 sheet of 1220 × 1220 mm, 1.49 m² at 50")
    assert line.source == "shop profile"
    assert priced.unpriced == ()


def test_what_has_no_price_is_said_wherever_the_price_stands() -> None:
    """On the overview, on the sheet of money in short, and in its lead."""
    overview, money = (next(s for s in sheets_of(plan()) if s.id == name) for name in ("overview", "money"))
    assert plan().pricing.unpriced
    assert "not all priced" in str(overview.blocks)
    assert "What has no price is left out" in money.lead
    assert plan().pricing.unpriced[0] in str(money.blocks[0])


def test_the_waste_allowance_says_whose_it_is() -> None:
    """A default is common practice; a shop's own is the shop's, even where it is the same figure."""
    job = shipped_job("sideboard", rack=False)
    for text, says in (("name: x", "common practice"), ("rates: {yield_pct: 65}", "by the shop profile")):
        bought = make_plan(replace(job, shop=parse_shop(text))).timber.to_buy
        assert says in bought[0].reason


def test_sideboard_with_rails_of_60_between_its_legs_racks(tmp_path: Path) -> None:
    """So wide on paper, as its other frames: pushed along and across a tenon bears more than it may."""
    text = (EXAMPLES / "sideboard.yaml").read_text(encoding="utf-8")
    for wide in ("upper: 80 mm", "lower: 76 mm"):
        assert wide in text
        text = text.replace(wide, f"{wide.split(':')[0]}: 60 mm")
    (tmp_path / "narrow.yaml").write_text(text, encoding="utf-8")
    shop, room = SHIPPED["sideboard"]
    narrow = make_plan(
        job_from_files(
            tmp_path / "narrow.yaml",
            shop=EXAMPLES / "shops" / f"{shop}.yaml",
            room=str(EXAMPLES / "rooms" / f"{room}.yaml"),
        )
    )
    racked = {f.where for f in narrow.findings if f.code == "F47"}
    assert racked == {"frame, along the piece", "frame, across the piece"}
    assert "F47" not in {f.code for f in plan().findings}
