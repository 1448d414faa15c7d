"""Wood beside a screw and before its point, by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.checks.screws import check
from scantling.checks.subject import Subject
from scantling.errors import Finding
from tests.joinery.bench import YEAR, made_of
from tests.joinery.sample import stick


def found(parts: dict[str, Any], **screw: Any) -> list[Finding]:
    """What is said of screws through ``held`` into ``side``."""
    joint = {"kind": "plain_screw", "between": [["held", "side"]], "count": 2, "head": 6, **screw}
    made = made_of(parts, {"j": joint})
    return check(Subject(piece=made.piece, works=made.works, moisture=YEAR))


def upright(thick: float) -> dict[str, Any]:
    """A board 12 thick on the top edge of a side."""
    side = stick((0, 0, 50), (400, 0, 50), (100, thick), "top")
    return {"side": side, "held": stick((0, 0, 106), (400, 0, 106), (60, 12), "front")}


@pytest.mark.parametrize(("thick", "told"), [(8.6, 0), (8.4, 1)])
def test_f15_a_screw_in_the_middle_of_an_edge(thick: float, told: int) -> None:
    """White oak: the pilot of a 4 mm screw is 0.63 x 4 = 2.52 wide; (8.6 - 2.52) / 2 = 3.04, just enough."""
    items = found(upright(thick), screw=[4, 30])
    assert len(items) == told
    if items:
        assert items[0].numbers["wall_mm"] == pytest.approx((thick - 2.52) / 2)


@pytest.mark.parametrize(("long", "told"), [(41.0, 0), (41.1, 1)])
def test_f15_wood_before_the_point(long: float, told: int) -> None:
    """Through 12 of the held board into 30: a screw of 41 leaves 1 mm before its point."""
    parts = {
        "side": stick((0, 0, 85), (400, 0, 85), (60, 30), "front"),
        "held": stick((0, 0, 106), (400, 0, 106), (60, 12), "front"),
    }
    items = found(parts, screw=[4, long])
    assert len(items) == told
    if items:
        assert items[0].numbers["wall_mm"] == pytest.approx(42.0 - long)
        assert "before the point" in items[0].message


@pytest.mark.parametrize(("reach", "told"), [(17.0, 0), (17.3, 1), (28.0, 1)])
def test_f15_a_screw_that_runs_out_of_a_leaning_side(reach: float, told: int) -> None:
    """Straight down a side of 20 leaning by 20 degrees it nears a face by 0.342 a millimeter.

    From the middle of the level edge: 10 less 0.342 t less the hole's 1.26 cos 20 = 3 at t = 17.0.
    """
    lean = math.radians(20.0)
    top = 50.0 + (100.0 * math.cos(lean) - 20.0 * math.sin(lean)) / 2.0
    side = stick((0, 0, 50), (400, 0, 50), (100, 20), "top", lean=["20 deg", "front"])
    parts = {
        "side": {**side, "edges": {"top": "level"}},
        "held": stick((0, 0, top + 6), (400, 0, top + 6), (200, 12), "front"),
    }
    items = found(parts, screw=[4, 12 + reach])
    assert len(items) == told
    if items:
        wall = 10.0 - reach * math.sin(lean) - 1.26 * math.cos(lean)
        assert items[0].numbers["wall_mm"] == pytest.approx(wall, abs=0.01)
        assert ("comes out" in items[0].message) is (wall <= 0.0)
