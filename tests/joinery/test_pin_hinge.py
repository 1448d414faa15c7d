"""A small lid hung on pins: where they stand, what its edge sweeps, and what it must clear, by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.pin_hinge import swept_radius_mm
from scantling.joinery.work import ConnectorKind, MarkKind
from scantling.piece.shaping import ShapingKind
from tests.joinery.bench import Made, made_of
from tests.joinery.sample import Options, stick

ROUND: Options = {"kind": "round_over", "size": 5, "edges": [["top", "left"]]}


def till(*, gap: float = 1.0, shape: tuple[Options, ...] = (ROUND,), **options: Any) -> Made:
    """A lid 120 by 10 between two sides 200 apart, its hinged edge ``gap`` from an end on the left."""
    parts = {
        "lid": stick((60.0 + gap, -99, 200), (60.0 + gap, 99, 200), (120, 10), "right", shape=list(shape)),
        "front": stick((-20, -110, 150), (300, -110, 150), (200, 20), "top"),
        "back": stick((-20, 110, 150), (300, 110, 150), (200, 20), "top"),
        "end": stick((-10, -100, 150), (-10, 100, 150), (200, 20), "top"),
    }
    between = [["lid.start", "front"], ["lid.end", "back"]]
    return made_of(parts, {"j": {"kind": "pin_hinge", "hinge": "left", "between": between, **options}})


def refused(code: str, **options: Any) -> str:
    """The value of the one fault."""
    with pytest.raises(FileFaults) as caught:
        till(**options)
    faults = [f for f in caught.value.faults if f.code == code]
    assert faults, [f.code for f in caught.value.faults]
    return faults[0].value.split(" (")[0]  # without that an option is the usual one


def test_the_pins_stand_in_one_line_at_half_the_thickness_from_the_edge() -> None:
    """1 mm from the end and 5 from the edge: 6 mm from the end's face, at the middle of the 10 mm."""
    works = till().works
    lines = [connector.frames[0] for work in works for connector in work.connectors]
    assert [(round(f.origin[0], 6), round(f.origin[2], 6)) for f in lines] == [(6.0, 200.0)] * 2
    assert [abs(f.grain[1]) for f in lines] == [1.0, 1.0]


def test_the_pin_is_as_long_as_both_holes_and_the_gap_less_its_room() -> None:
    """25 + 1 + 10 - 0.5 = 35.5; from 25 inside the lid's end, to 0.5 short of the bottom of its hole."""
    [pin] = till().works[0].connectors
    assert (pin.kind, pin.size_mm) == (ConnectorKind.PIN, pytest.approx((6.0, 35.5)))
    near, far = (pin.frames[0].point((u * 35.5 / 2.0, 0.0, 0.0))[1] for u in (-1.0, 1.0))
    assert sorted((near, far)) == pytest.approx([-100.0 - 10.0 + 0.5, -99.0 + 25.0])


def test_both_holes_are_marked_from_edge_and_end() -> None:
    """In the lid's end 5 from its edge and 5 from its face; in the front 26 from its end, 50 from its top."""
    marks = {m.part: m for m in till().works[0].marks}
    lid, front = marks["lid"], marks["front"]
    assert (lid.kind, lid.on_end, lid.width_mm, lid.depth_mm) == (MarkKind.HOLE, True, 6.0, 25.0)
    assert (lid.from_end_mm, lid.from_face_mm) == pytest.approx((5.0, 5.0))
    assert (front.on_end, front.width_mm, front.depth_mm) == (False, pytest.approx(6.3), 10.0)
    assert (front.from_end_mm, front.from_face_mm) == pytest.approx((26.0, 50.0))


def test_it_is_no_glue_up_and_moves_nothing() -> None:
    """Pins are glued in the lid alone: nothing is clamped, and no wood is held across the grain."""
    for work in till().works:
        assert (work.dry, work.glue, work.clamp, work.freedoms) == (True, (), None, ())


def test_a_rounded_edge_turns_within_its_own_reach() -> None:
    """Rounded to 5 mm it sweeps 5; square, sqrt(50); chamfered 3, the farther arris stands sqrt(29) off."""
    assert swept_radius_mm(5, 5, kind=ShapingKind.ROUND_OVER, size_mm=5) == pytest.approx(5.0)
    assert swept_radius_mm(5, 5, kind=None, size_mm=0) == pytest.approx(math.sqrt(50.0))
    assert swept_radius_mm(5, 5, kind=ShapingKind.CHAMFER, size_mm=3) == pytest.approx(math.sqrt(29.0))
    assert swept_radius_mm(8, 5, kind=ShapingKind.ROUND_OVER, size_mm=3) == pytest.approx(
        math.hypot(5.0, 2.0) + 3.0
    )


@pytest.mark.parametrize(("gap", "shape"), [(0.5, (ROUND,)), (2.6, ())])
def test_an_edge_that_just_clears(gap: float, shape: tuple[Options, ...]) -> None:
    """Rounded: 0.5 is what it must have. Square: 5 + 2.6 is 0.53 more than the 7.07 it sweeps."""
    assert [work.family for work in till(gap=gap, shape=shape).works] == ["pin_hinge"] * 2


@pytest.mark.parametrize(
    ("gap", "shape", "value"),
    [
        (0.4, (ROUND,), "an edge that swings 5.0 mm about its pin, 5.4 mm from end"),
        (2.5, (), "an edge that swings 7.1 mm about its pin, 7.5 mm from end"),
        (
            1.0,
            ({**ROUND, "edges": [["bottom", "left"]]},),
            "an edge that swings 7.1 mm about its pin, 6.0 mm from end",
        ),
        (1.0, ({**ROUND, "stop": 20},), "an edge that swings 7.1 mm about its pin, 6.0 mm from end"),
    ],
)
def test_an_edge_that_strikes_is_refused(gap: float, shape: tuple[Options, ...], value: str) -> None:
    """Also where the wrong arris is rounded, or not all of it."""
    assert refused("lid_strikes", gap=gap, shape=shape) == value


def test_a_lid_that_opens_the_other_way_sweeps_its_other_arris() -> None:
    """Hung upside down, the lower arris swings toward the end."""
    lower = {**ROUND, "edges": [["bottom", "left"]]}
    assert till(shape=(lower,), opens="bottom").works[0].dry


def test_what_cannot_be_made_is_refused_with_its_figure() -> None:
    """A pin that splits the lid, a hole through the side, a face that is none, a lid too far away."""
    assert refused("pin_splits_lid", diameter=7.5) == "a 7.5 mm pin 5.0 mm from the edge of 10.0 mm"
    assert refused("pin_splits_lid", from_edge=4.4) == "a 6.0 mm pin 4.4 mm from the edge of 10.0 mm"
    assert "20.0 mm of front" in refused("deeper_than_part", depth_second=20)
    assert refused("not_a_face", hinge="front") == "front of lid"
    assert refused("not_a_face", opens="left") == "left of lid"
    assert refused("no_gap_between", between=[["lid.end", "front"]]) == "lid.end and front"
