"""Shelves on pins: where the holes lie, what cannot be bored, what goes wrong, what pins carry, by hand."""

from __future__ import annotations

from math import sqrt

import pytest

from scantling.errors import FileFaults, Severity
from scantling.joinery.shelf_pin import SHELF_PIN_HOLE
from scantling.joinery.strength.pins import pin_bends_n, pin_tears_n
from scantling.joinery.work import ConnectorKind, Hole, MarkKind
from scantling.piece.model import Direction, End
from scantling.plan.making.hardware import hardware_of
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, file_text, made
from tests.joinery.judging import found
from tests.joinery.samples import Options

YEAR = MoistureRange(build_pct=8.0, dry_pct=6.0, wet_pct=11.0)
PINS: Options = {"pin": [6, 20], "depth": 10, "pitch": 30, "holes": 5}
MAPLE: Options = {"kind": "panel", "species": "sugar maple", "rings": "flat"}


def case(
    *,
    gap: float = 1.5,
    deep: float = 240.0,
    forward: float = 0.0,
    other: Options | None = None,
    more: Options | None = None,
    thick: float = 22.0,
    side: Options = MAPLE,
    **pins: object,
) -> Made:
    """Two sides 300 deep, 900 high and 800 apart; a bottom housed in them; a shelf at 500 on pins."""
    half = 400.0
    parts: Options = {
        "left": {
            **side,
            "center": [-half - thick / 2.0, 0, 450],
            "along": "top",
            "length": 900,
            "section": [300, thick],
            "width_toward": "back",
            "copies": {"right": {"mirror": ["left-right"]}},
        },
        "bottom": {
            **MAPLE,
            "from": [-half, 0, 100],
            "to": [half, 0, 100],
            "section": [300, 22],
            "width_toward": "back",
            "trim": {"start": "left.right", "end": "right.left"},
        },
        "shelf": {
            **MAPLE,
            "from": [-half + gap, -forward, 511],
            "to": [half - gap, -forward, 511],
            "section": [deep, 22],
            "width_toward": "back",
        },
    }
    pair = [["shelf.start", "left"], ["shelf.end", "right"]]
    joints: Options = {
        "housed": {"kind": "housing", "between": [["bottom.start", "left"], ["bottom.end", "right"]]},
        "pins": {"kind": "shelf_pin", "between": pair if other is None else pair[:1], **PINS, **pins},
        **(more or {}),
    }
    if other is not None:
        joints["others"] = {"kind": "shelf_pin", "between": pair[1:], **PINS, **pins, **other}
    return made(file_text(parts, joints), moisture=YEAR)


def faults(**how: object) -> list[str]:
    """Codes of what cannot be made."""
    with pytest.raises(FileFaults) as told:
        case(**how)  # type: ignore[arg-type]
    return [fault.code for fault in told.value.faults]


def test_the_holes_are_measured_from_the_foot_of_the_side() -> None:
    """The shelf's underside is at 500, its pins' middle at 497; two holes below and two above, 30 apart.

    240 deep in the middle of 300: a sixth, 40, in from its edges is 70 from the side's.
    """
    works = [work for work in case().works if work.family == "shelf_pin"]
    for work in works:
        assert [m.from_end_mm for m in work.marks] == pytest.approx([437, 467, 497, 527, 557] * 2)
        assert {(m.end, m.kind, m.depth_mm, m.length_mm) for m in work.marks} == {
            (End.START, MarkKind.HOLE, 10.0, 6.0)
        }
        assert [m.reference_face for m in work.marks] == [Direction.FRONT] * 5 + [Direction.BACK] * 5
        assert [m.from_face_mm for m in work.marks] == pytest.approx([70.0] * 10)
        assert [m.note for m in work.marks if m.note] == ["carries shelf as drawn"] * 2
        assert [m.from_end_mm for m in work.marks if m.note] == pytest.approx([497.0] * 2)
    assert [m.face for m in works[0].marks] == [Direction.RIGHT] * 10
    assert len({m.setup for work in works for m in work.marks}) == 1


def test_rows_are_set_from_the_edges_of_the_side() -> None:
    """50 from the front, 80 from the back, the lowest hole 407 up: the shelf lies on the fourth of five."""
    work = case(rows=[50, 80], lowest=407).works[-1]
    assert [m.from_face_mm for m in work.marks] == pytest.approx([50.0] * 5 + [80.0] * 5)
    assert [m.from_end_mm for m in work.marks][:5] == pytest.approx([407, 437, 467, 497, 527])
    assert [m.from_end_mm for m in work.marks if m.note] == pytest.approx([497.0] * 2)


def test_the_steps_name_the_stick_the_stop_and_what_is_left() -> None:
    """30 from hole to hole, 70 from both edges, 10 deep in 22: 12 behind; all rows have the same words."""
    steps = " ".join(case().works[-1].steps)
    for words in ("30 mm from hole to hole", "70.0 mm from the front edge", "10.0 mm deep"):
        assert words in steps
    assert "12.0 mm of wood stay behind" in steps


def test_the_shelf_lies_on_its_pins_and_comes_out_at_the_front() -> None:
    """Pins stand on the bottom of their holes, their upper side at the shelf's underside; the way is free."""
    made_case = case()
    work = made_case.works[-1]
    [pins] = work.connectors
    assert (pins.kind, pins.count, pins.size_mm) == (ConnectorKind.SHELF_PIN, 2, (6.0, 20.0))
    for frame in pins.frames:
        assert frame.grain == pytest.approx((1.0, 0.0, 0.0))
        assert frame.origin[0] == pytest.approx(400.0)  # half in the side, half out
        assert frame.origin[2] + 3.0 == pytest.approx(500.0)
    assert work.leaves == Direction.FRONT.vector
    for by in (5.0, 100.0, 400.0):
        assert made_case.leaving(work, by) == ()
    assert all(cut.what == SHELF_PIN_HOLE and isinstance(cut.tool, Hole) for cut in work.cuts)


def test_pins_are_bought_with_one_to_spare() -> None:
    """Four lie under the shelf, a tenth more is one."""
    [line] = [line for line in hardware_of(case().works) if line.kind is ConnectorKind.SHELF_PIN]
    assert (line.needed, line.get, line.made_here) == (4, 5, False)


@pytest.mark.parametrize(
    ("how", "codes"),
    [
        ({"depth": 15.9, "thick": 16}, []),
        ({"depth": 16, "thick": 16, "pin": [6, 30]}, ["deeper_than_part"] * 2),
        ({"pitch": 6}, []),
        ({"pitch": 5.9}, ["row_too_close"] * 2),
        ({"holes": 31}, ["wider_than_face"] * 2),
        ({"pin": [6, 11.6]}, []),
        ({"pin": [6, 11.5]}, ["pin_too_short"]),
        ({"lowest": 437.09}, []),
        ({"lowest": 440}, ["shelf_between_holes"] * 2),
        ({"lowest": 377}, []),
        ({"lowest": 347}, ["shelf_outside_rows"] * 2),
        ({"rows": [33.1, 50]}, []),
        ({"rows": [32.9, 50]}, ["pin_off_shelf"] * 2),
        ({"gap": 61}, ["no_gap_between"] * 2),
    ],
)
def test_what_is_just_possible_and_what_just_is_not(how: Options, codes: list[str]) -> None:
    """Through the side, into each other, off its end, short of the shelf, off the rows, off the shelf."""
    if codes:
        assert faults(**how) == codes
    else:
        case(**how)


def test_a_shelf_off_its_rows_is_told_the_way_to_them() -> None:
    """Pins at 497, the highest hole at 467: 30 mm lower, or more holes."""
    with pytest.raises(FileFaults) as told:
        case(lowest=347)
    assert "30.0 mm lower, or bore more holes" in told.value.faults[0].remedy


def test_a_shelf_must_be_level_and_end_at_an_upright_side() -> None:
    """On edge, or with its long side before the side, it does not lie on pins."""
    text = file_text(
        {
            "side": {**MAPLE, "from": [411, 0, 0], "to": [411, 0, 400], "section": [220, 22]}
            | {"width_toward": "back"},
            "shelf": {**MAPLE, "from": [0, 0, 200], "to": [398, 0, 200], "section": [100, 20]}
            | {"width_toward": "top"},
        },
        {"pins": {"kind": "shelf_pin", "between": [["shelf.end", "side"]]}},
    )
    with pytest.raises(FileFaults) as told:
        made(text)
    assert [fault.code for fault in told.value.faults] == ["shelf_not_level"]


def test_a_hole_on_a_joint_is_told() -> None:
    """The bottom's housing ends at 111.05: a hole of 6 at 117.1 leaves 3.05 of it, at 116 1.95."""
    assert not found(case(lowest=117.1, pitch=37.99, holes=11), "F14", moisture=YEAR)
    told = found(case(lowest=116, pitch=38.1, holes=11), "F14", moisture=YEAR)
    assert {finding.where for finding in told} == {"left/housed.1", "right/housed.2"}
    assert {round(finding.numbers["wall_mm"], 2) for finding in told} == {1.95}


def test_rows_that_do_not_agree_are_told() -> None:
    """Left from 437 in steps of 30, right in steps of 30.3: the outer holes are 0.6 off; of 30.2, 0.4."""
    told = found(case(other={"pitch": 30.3}), "F77", moisture=YEAR)
    assert [f.numbers["off_mm"] for f in told] == [pytest.approx(0.6)]
    assert told[0].severity is Severity.HIGH
    assert not found(case(other={"pitch": 30.2}), "F77", moisture=YEAR)


def test_a_shelf_pushed_aside_must_still_lie_on_its_pins() -> None:
    """Pins 10 out: play of 2 x gap and 0.08 of shrinkage leave 3 while the gap is at most 3.46.

    797 mm lose 797 x .0015 / 30 x 2 = 0.08.
    """
    assert not found(case(gap=3.45), "F78", moisture=YEAR)
    [told, *_] = found(case(gap=3.5), "F78", moisture=YEAR)
    assert told.severity is Severity.STOP
    assert told.numbers["bearing_mm"] == pytest.approx(10.0 - 7.0 - 793.0 * 0.0015 / 30.0 * 2.0)


def test_a_shelf_far_over_its_pins_tips() -> None:
    """240 deep: a row 60 in takes the shelf's weight at the edge, (120 - 60) / 60; 61 in 0.97 of it.

    The shelf's front edge is 30 behind the side's.
    """
    assert not found(case(rows=[90, 70]), "F79", moisture=YEAR)
    [told] = found(case(rows=[91, 70]), "F79", moisture=YEAR)
    assert told.numbers["weight_share"] == pytest.approx(59.0 / 61.0)
    assert told.numbers["over_allowed_mm"] == pytest.approx(60.0)
    assert "front" in told.message


def test_a_shelf_short_of_depth_tips_at_the_back() -> None:
    """Rows 50 and 150 from the side's edges, the shelf 240 deep and flush in front: 90 over at the back."""
    [told] = found(case(rows=[40, 150], forward=30), "F79", moisture=YEAR)
    assert "90 mm over its pins at the back" in told.message
    assert told.numbers["weight_share"] == pytest.approx(30.0 / 90.0)


def test_a_gap_that_closes_is_told() -> None:
    """Near 800 mm grow 0.12 from 8 to 11 %; with half a millimeter left at each end 0.56 is the least gap."""
    assert not found(case(gap=0.57), "F80", moisture=YEAR)
    [told] = found(case(gap=0.55), "F80", moisture=YEAR)
    grows = 798.9 * 0.0015 / 30.0 * 3.0
    assert told.numbers["swell_mm"] == pytest.approx(grows)
    assert told.numbers["shorter_mm"] == pytest.approx(1.0 + grows - 1.1)


def test_the_good_shelf_has_nothing_said_of_it() -> None:
    """None of the rules on pins speaks of it."""
    for code in ("F14", "F15", "F75", "F77", "F78", "F79", "F80"):
        assert not found(case(), code, moisture=YEAR)


def test_a_stiff_pin_balances_in_its_hole() -> None:
    """By forces and moments about the mouth: up over x, down over the rest, nothing left over."""
    depth, arm, press = 10.0, 5.75, 300.0
    load = pin_tears_n(depth_mm=depth, arm_mm=arm, bearing_n_mm=press)
    turn = (load / press + depth) / 2.0  # where it turns about
    assert press * turn - press * (depth - turn) == pytest.approx(load)
    moments = load * arm + press * turn**2 / 2.0 - press * (depth**2 - turn**2) / 2.0
    assert moments == pytest.approx(0.0, abs=1e-6)


def test_a_thin_pin_bends_before_the_wood_gives() -> None:
    """At the bend the wood has taken up the load: M = P (e + P / 2 q)."""
    load = pin_bends_n(diameter_mm=4.0, arm_mm=6.0, bearing_n_mm=250.0)
    assert load * (6.0 + load / 500.0) == pytest.approx(240.0 * 4.0**3 / 6.0)


def test_what_an_end_carries_by_hand() -> None:
    """Two pins of 6.35 mm, 10 in maple of 0.63, 1.5 of gap, 8.5 under the shelf, 5.75 of arm.

    11 200 x .63 psi = 48.65 MPa, 308.9 N a mm; 308.9 (sqrt(21.5^2 + 10^2) - 21.5) = 683; a quarter counts.
    """
    strength = case(pin=[6.35, 20]).works[-1].strength
    press = 11200 * 0.63 * 0.00689476 * 6.35
    breaks = 2.0 * press * (sqrt(21.5**2 + 100.0) - 21.5)
    assert strength.shear_n.likely == pytest.approx(breaks, rel=1e-4)
    assert strength.shear_n.likely == pytest.approx(2 * 683.0, rel=2e-3)
    assert strength.shear_n.may == pytest.approx(breaks / 4.0, rel=1e-4)
    assert strength.pull_n.likely is None


def test_plywood_bears_pins_by_its_class_and_other_sheets_by_nothing_known() -> None:
    """Pins of 5 in plywood: 16 000 x .42^1.84 psi = 22.4 MPa, 111.8 N a mm, an arm of 5.75; MDF is told of.

    The shelf stands in the same holes, so 111.8 (sqrt(21.5^2 + 10^2) - 21.5) = 247 a pin.
    """
    ply, board = (case(side={"kind": "sheet", "species": s}, pin=[5, 20]) for s in ("birch plywood", "MDF"))
    press = 16000 * 0.42**1.84 * 0.00689476 * 5.0
    strength = ply.works[-1].strength.shear_n
    assert strength.likely == pytest.approx(2.0 * press * (sqrt(21.5**2 + 100.0) - 21.5), rel=1e-4)
    assert "0.42" in strength.source
    assert not found(ply, "F75", moisture=YEAR)
    assert board.works[-1].strength.shear_n.likely is None
    [told] = found(board, "F75", moisture=YEAR)
    assert told.severity is Severity.NOTE
    assert "pins in left and right, of MDF" in told.message
