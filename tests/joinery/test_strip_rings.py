"""Panels of strips with different rings: each place moves by the strips between it and the fixed line.

Black cherry, Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), table 13-5: 0.00248 of the
width a percent flat-sawn, 0.00126 quarter-sawn; rift-sawn their mean.
"""

from __future__ import annotations

import pytest

from scantling.errors import FileFaults
from scantling.joinery.travel import ring_spans, travel, width_coefficient
from tests.joinery.bench import made_of
from tests.joinery.samples import SAMPLES, Options
from tests.joinery.test_movement import CHERRY_YEAR, slots
from tests.joinery.test_panel_groove import edges, framed

FLAT, QUARTER = 0.00248, 0.00126


def mixed(rings: list[str], **more: object) -> Options:
    """A panel's strips."""
    return {"strips": {"rings": rings, **more}}


def test_each_edge_of_a_framed_panel_moves_by_its_own_half() -> None:
    """380 wide, pinned at its middle, flat in front and quarter behind, three points to the wettest."""
    moved = edges(framed(panel=mixed(["flat", "quarter"])))
    assert moved["front"].swell_travel_mm == pytest.approx(190 * FLAT * 3.0)
    assert moved["back"].swell_travel_mm == pytest.approx(190 * QUARTER * 3.0)


def test_a_pin_moves_by_the_strips_between_it_and_the_fixed_one() -> None:
    """960 wide in three strips of 320: at 400 mm lie 160 mm of quarter and 240 of flat; 1.5 points drier."""
    sample = SAMPLES["breadboard_end"]
    parts = {
        "a": {**sample.parts["a"], "from": [630, -480, 100], "to": [630, 480, 100]},
        "b": {
            **sample.parts["b"],
            "kind": "panel",
            "species": "black cherry",
            "section": [960, 20],
            **mixed(["flat", "quarter", "flat"]),
        },
    }
    options = {name: value for name, value in sample.options.items() if name not in ("slot", "mortise_over")}
    joint = {"kind": "breadboard_end", "between": [["a", "b.end"]], **options, "edge_inset": 80}
    work = made_of(parts, {"j": joint}, moisture=CHERRY_YEAR).works[0]
    for slot in slots(work):
        assert slot.shrink_travel_mm == pytest.approx((160 * QUARTER + 240 * FLAT) * 1.5)
        assert slot.swell_travel_mm == pytest.approx((160 * QUARTER + 240 * FLAT) * 3.0)


def test_the_whole_panel_moves_by_the_sum_of_its_strips() -> None:
    """Flat, rift, quarter and quarter of 95 mm each."""
    panel = framed(panel=mixed(["flat", "rift", "quarter", "quarter"])).piece.parts["panel"]
    total = 95 * (FLAT + (FLAT + QUARTER) / 2.0 + 2.0 * QUARTER)
    assert width_coefficient(panel) == pytest.approx(total / 380)
    moves = travel(panel, 380.0, CHERRY_YEAR, fixed_at_mm=-190.0)
    assert moves.swell_mm == pytest.approx(total * 3.0)
    assert moves.shrink_mm == pytest.approx(total * 1.5)


def test_what_lies_between_two_lines() -> None:
    """From 50 mm before the middle to 100 behind it: 50 mm of the first strip and 100 of the second."""
    panel = framed(panel=mixed(["flat", "quarter"])).piece.parts["panel"]
    assert ring_spans(panel, -50.0, 100.0) == ((50.0, 0.0), (100.0, 90.0))
    assert ring_spans(panel, 100.0, -50.0) == ((50.0, 0.0), (100.0, 90.0))
    assert ring_spans(panel, 60.0, 60.0) == ()
    assert ring_spans(panel, 0.0, 380.0) == ((190.0, 0.0), (190.0, 90.0))  # more than it has: in proportion


def test_as_many_rings_as_strips() -> None:
    """A count beside the list must say the same."""
    with pytest.raises(FileFaults, match=r"strips\.rings: must give the rings of as many strips") as caught:
        framed(panel=mixed(["flat", "rift"], count=3))
    assert [fault.code for fault in caught.value.faults] == ["rings_not_counted"]


def test_the_list_is_the_count() -> None:
    """Three rings make three strips for the shop to glue."""
    rule = framed(panel=mixed(["flat", "rift", "flat"])).piece.parts["panel"].strips
    assert rule is not None
    assert rule.count == 3
