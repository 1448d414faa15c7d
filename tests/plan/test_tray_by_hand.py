"""Figures of the sloped tray's plan, worked by hand from the sizes in its file.

450 x 300 at the rim, 70 high, sides of 10 leaning 20 degrees. With t = 20 and n sides the published
derivation (docslib.org/doc/11210050) has a miter of atan(sin t tan(180/n)) and a bevel of
asin(cos t sin(180/n)): 18.88 and 41.64 for four sides, 11.17 and 28.02 for six.
"""

from __future__ import annotations

import math
from functools import cache

import pytest

from scantling.joinery.work import ConnectorKind, JointWork, MarkKind
from scantling.piece.model import Direction
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.shop.gluing.glueup import GlueUp
from scantling.shop.sawing.saw import PartSawing
from tests.plan.jobs import shipped_job

T = math.radians(20.0)
BLANK = (70.0 + 10.0 * math.sin(T)) / math.cos(T)
"""Width of a side with square edges: 78.13."""
IN = BLANK * math.sin(T) + 10.0 * math.cos(T)
"""From the outer arris of the rim to the inner arris at the table: 36.12."""


@cache
def plan(sides: int = 4) -> Plan:
    """Its plan, with its rack."""
    return make_plan(shipped_job("tray", given={"sides": str(sides)}))


def sawing(name: str, sides: int = 4) -> PartSawing:
    """How a part is sawn."""
    return next(s for s in plan(sides).sawing if s.part == name)


def corners(sides: int = 4) -> list[JointWork]:
    """The mitered corners."""
    return [work for work in plan(sides).joints if work.family == "miter"]


def ring(sides: int = 4) -> GlueUp:
    """The glue-up of the ring."""
    return next(stage for stage in plan(sides).gluing.stages if len(stage.joints) == sides)


@pytest.mark.parametrize(
    ("sides", "miter", "bevel"), [(4, 18.88, 41.64), (6, 11.17, 28.02), (8, 8.06, 21.08)]
)
def test_every_end_of_every_side_is_sawn_at_the_published_angles(
    sides: int, miter: float, bevel: float
) -> None:
    """Twice as many ends as sides, at one miter and one bevel, on the table saw that tilts to 47 degrees."""
    ends = [cut for s in plan(sides).sawing if s.part != "bottom" for cut in s.cuts]
    assert len(ends) == 2 * sides
    for cut in ends:
        assert (cut.lay.miter_deg, cut.lay.bevel_deg) == pytest.approx((miter, bevel), abs=0.005)
        assert cut.lay.machine.value == "table saw"
        assert cut.lay.reaches


def test_long_points_are_the_rims_and_short_points_the_foots() -> None:
    """450 and 300 at the rim; 2 x 36.12 less at the inner arris below: 377.76 and 227.76; ends mirrored."""
    for name, long in (("front", 450.0), ("back", 450.0), ("right_side_1", 300.0), ("left_side_1", 300.0)):
        found = sawing(name)
        assert (found.long_mm, found.short_mm) == pytest.approx((long, long - 2.0 * IN))
        assert "mirrored" in found.sense.value
    assert pytest.approx(36.12, abs=0.01) == IN
    assert next(p for p in plan().parts if p.name == "front").width_mm == pytest.approx(BLANK)


def test_six_sides_fill_the_same_rectangle() -> None:
    """Turned corners of 60 degrees: ends of 300 / sqrt 3 = 173.21, front and back 450 - 173.21 = 276.79."""
    assert sawing("right_side_2", 6).long_mm == pytest.approx(300.0 / math.sqrt(3.0))
    assert sawing("front", 6).long_mm == pytest.approx(450.0 - 300.0 / math.sqrt(3.0))
    assert len(corners(6)) == 6


@pytest.mark.parametrize("sides", [4, 6])
def test_keys_are_two_thirds_of_the_miter_deep(sides: int) -> None:
    """The miter is 10 / cos(bevel) from inside to outside: 13.38 for four sides, keys 8.92 of it."""
    bevel = math.asin(math.cos(T) * math.sin(math.pi / sides))
    deep = 10.0 / math.cos(bevel) * 2.0 / 3.0
    for work in corners(sides):
        (key,) = work.connectors
        assert key.kind is ConnectorKind.KEY
        assert key.size_mm == pytest.approx((3.2, deep, 2.0 * deep / math.tan(bevel)))


def test_edges_are_ripped_at_the_lean_before_the_ends_are_sawn() -> None:
    """Rim and foot of four sides at 20 degrees; 78.13 less 10 tan 20 = 74.49 on the face that lies down."""
    rips = [rip for s in plan().sawing for rip in s.rips]
    assert len(rips) == 8
    for rip in rips:  # the rim first; the foot finds the inner face as narrow as the rim's rip left it
        left = BLANK - 10.0 * math.tan(T)
        wide = BLANK if rip.edge is Direction.TOP else left
        assert (rip.tilt_deg, rip.wide_mm, rip.narrow_mm) == pytest.approx((20.0, wide, left))
    titles = [step.title for step in plan().order.steps]
    assert titles.index("Rip the edges out of square") < titles.index("Saw set-up 3")
    glued = next(i for i, title in enumerate(titles) if title.startswith("Glue up right"))
    assert titles.index("Cut and glue in the keys: corner") > glued


def test_short_sides_are_ripped_before_they_are_crosscut_apart() -> None:
    """Two ends too short for the planer share a length; their edges are ripped while it is whole."""
    size = {"width": "200", "length": "450"}
    job = shipped_job("tray", rack=False, given=size)
    short = make_plan(job)
    [gang] = short.timber.gangs
    assert all(part.startswith(("left_side", "right_side")) for part in gang.parts)
    told = {step.title: " ".join(step.details) for step in short.order.steps}
    assert (
        "keep it so until the edges are ripped; crosscut them apart only then"
        in told["Mill the parts to size"]
    )
    assert f"ripped in the length of {gang.length_mm:.0f} mm" in told["Rip the edges out of square"]


def test_the_scale_leaves_three_tenths_open() -> None:
    """Set to 19 and 41.5: (0.00231 x 78.13 + 0.00403 x 10) cos 18.88 cos 41.64, both ends: 0.312."""
    angled = [setup for setup in plan().setups if setup.angled]
    assert len(angled) == 3
    for setup in angled:
        assert (setup.scale.miter_deg, setup.scale.bevel_deg) == (19.0, 41.5)
        assert setup.scale.gap_mm == pytest.approx(0.312, abs=0.002)


def test_the_bottom_stands_five_in_and_its_groove_leans() -> None:
    """2 (225 - 36.12 + 12 tan 20 + 5) = 396.5 by 246.5; the groove lies level, 20 degrees off square."""
    half = 12.0 * math.tan(T) + 5.0 - IN
    bottom = next(p for p in plan().parts if p.name == "bottom")
    assert (bottom.length_mm, bottom.width_mm) == pytest.approx((450.0 + 2.0 * half, 300.0 + 2.0 * half))
    grooves = [
        mark
        for work in plan().joints
        if work.family == "panel_groove"
        for mark in work.marks
        if mark.kind is MarkKind.GROOVE
    ]
    assert len(grooves) == 4
    assert [mark.tilt_deg for mark in grooves] == pytest.approx([20.0] * 4)
    assert {mark.width_mm for mark in grooves} == {4.2}


def test_the_bottom_loses_less_than_it_stands_in() -> None:
    """Loose, one groove may lose the whole shrinkage: 246.5 x 0.00274 x (8.48 - 6.19) = 1.5 of 5."""
    freedoms = [f for work in plan().joints for f in work.freedoms]
    assert len(freedoms) == 2
    for freedom in freedoms:
        assert freedom.shrink_travel_mm == pytest.approx(246.5 * 0.00274 * 2.29, abs=0.05)
        assert not freedom.binds


def test_the_ring_is_closed_in_one_go_round_the_bottom() -> None:
    """Four corners and the dry bottom; a band of 2 (450 + 300) + 4 x 50 = 1700; blocks notched to 96.72."""
    stage = ring()
    assert len(stage.dry_joints) == 4
    assert stage.clamps is not None
    assert stage.clamps.band
    assert stage.clamps.reach_mm == pytest.approx(1700.0)
    (caul,) = stage.cauls
    assert (caul.count, caul.corner_deg) == (4, pytest.approx(96.72, abs=0.01))


def test_the_plan_finds_what_it_was_built_short_of() -> None:
    """One board is not enough, the bottom is thinner than the jointer takes, the short sides are ganged."""
    codes = {finding.code for finding in plan().findings}
    assert {"T05", "F24"} <= codes
    assert codes.isdisjoint({"F03", "F11", "F27", "F29", "F33"})
    (gang,) = plan().timber.gangs
    assert set(gang.parts) == {"right_side_1", "left_side_1"}
    assert gang.least_mm == 350.0
    assert all(finding.advice for finding in plan().findings)
