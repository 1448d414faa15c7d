"""Butt hinges: how deep they are let in, where they go, and doors that must swing clear, by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.swing import swing_bevel_deg, swing_clearance_mm
from scantling.joinery.work import ConnectorKind, HalfSpace
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of
from tests.joinery.judging import found
from tests.joinery.samples import Options

DOWELS_MM3 = 2 * math.pi * 4**2 * 20
"""What the sill's dowels take off a post."""
YEAR = MoistureRange(build_pct=8.0, dry_pct=6.5, wet_pct=9.5)


def door_and_case(
    *,
    high: float = 600.0,
    wide: float = 100.0,
    set_back: float = 0.0,
    hinge: Options | None = None,
    **fit: Any,
) -> Made:
    """A plain door 22 mm thick between two posts of 40, 1.5 mm clear at its hinges, tight where it closes."""
    base = {"kind": "stick", "species": "white oak", "rings": "quarter"}
    upright: Options = {**base, "width_toward": "right"}
    parts: Options = {
        "door": {
            **upright,
            "from": [wide / 2 + 1.5, 11 + set_back, 0],
            "to": [wide / 2 + 1.5, 11 + set_back, high],
            "section": [wide, 22],
        },
        "post": {**upright, "from": [-20, 20, -50], "to": [-20, 20, high + 50], "section": [40, 40]},
        "other": {
            **upright,
            "from": [wide + 21.5, 20, -50],
            "to": [wide + 21.5, 20, high + 50],
            "section": [40, 40],
        },
        "sill": {
            **base,
            "width_toward": "back",
            "from": [0, 20, -30],
            "to": [wide + 1.5, 20, -30],
            "section": [40, 20],
        },
    }
    joints: Options = {
        "hinges": {"kind": "butt_hinge", "between": [["door.left", "post.front"]], **(hinge or {})},
        "gap": {"kind": "opening_fit", "between": [["door.right", "other"]], **fit},
        "frame": {
            "kind": "dowel_pin",
            "between": [["sill.start", "post"], ["sill.end", "other"]],
            "diameter": 8,
            "depth_first": 20,
            "depth_second": 20,
        },
    }
    return made_of(parts, joints, moisture=YEAR)


def test_leaves_are_let_in_by_what_is_not_gap() -> None:
    """A knuckle of 6 in a gap of 1.5: 2.25 mm into each; two hinges of 50 on 600 mm; 15 of 22 mm covered."""
    made = door_and_case()
    work = made.works[0]
    hinge, screw = work.connectors
    assert (hinge.kind, hinge.count, hinge.size_mm) == (ConnectorKind.BUTT_HINGE, 2, (6.0, 36.0, 50.0))
    assert (screw.kind, screw.count) == (ConnectorKind.SCREW, 12)
    pilots = 6 * math.pi / 4 * 1.89**2 * 14
    assert made.removed_mm3("post") == pytest.approx(2 * 50 * 15 * 2.25 + pilots + DOWELS_MM3, rel=1e-6)


def test_hinges_stand_their_own_length_from_the_ends() -> None:
    """50 mm hinges on a 600 mm door: middles 75 mm from its ends, from 50 mm on of the post 125."""
    work = door_and_case().works[0]
    places = {(mark.part, mark.end.value): mark.from_end_mm for mark in work.marks}
    assert places == {
        ("door", "start"): pytest.approx(75),
        ("door", "end"): pytest.approx(75),
        ("post", "start"): pytest.approx(125),
        ("post", "end"): pytest.approx(125),
    }
    assert [mark.depth_mm for mark in work.marks] == pytest.approx([2.25] * 4)
    assert [mark.from_face_mm for mark in work.marks] == pytest.approx([7.5] * 4)


@pytest.mark.parametrize(("let_in", "depths"), [("first", (4.5, 0.0)), ("second", (0.0, 4.5))])
def test_let_into_one_part_alone(let_in: str, depths: tuple[float, float]) -> None:
    """The whole of 4.5 mm in one, nothing but screw holes in the other."""
    made = door_and_case(hinge={"let_in": let_in, "length": 40, "leaf": 18, "screws": 2})
    for part, depth in zip(("door", "post"), depths, strict=True):
        bed = 2 * 40 * 15 * depth + 4 * math.pi / 4 * 1.89**2 * 14
        other = made.works[1].freedoms[0].cut_to_mm * 600 * 22 if part == "door" else DOWELS_MM3
        assert made.removed_mm3(part) == pytest.approx(bed + other, rel=1e-6)


def test_the_pin_stands_out_by_half_the_knuckle() -> None:
    """Axis 3 mm in front of the door's face, in the middle of the gap."""
    frames = door_and_case().works[0].connectors[0].frames
    assert [round(frame.origin[1], 9) for frame in frames] == [-3.0, -3.0]
    assert [round(frame.origin[0], 9) for frame in frames] == [0.75, 0.75]


@pytest.mark.parametrize(
    ("hinge", "more", "code", "words"),
    [
        ({"knuckle": 1.5}, {}, "hinge_too_thin", "1.5 mm thick when closed, in a gap of 1.5 mm"),
        ({"leaf": 24}, {}, "leaf_over_edge", "21.0 mm back over 22.0 mm"),
        ({"screw": [3, 60]}, {}, "screw_too_long", "60.2 mm into 40.0 mm of post"),
        ({}, {"set_back": 3.2}, "knuckle_buried", "post stands 3.2 mm in front of door"),
        ({"length": 300}, {}, "row_too_close", "2 hinges of 300.0 mm"),
        ({"between": [["door.left", "post"]]}, {}, "knuckle_side_missing", "post"),
        ({"between": [["door.left", "post.right"]]}, {}, "knuckle_side_missing", "post.right"),
    ],
)
def test_hinges_that_cannot_be_hung_are_refused(
    hinge: Options, more: dict[str, float], code: str, words: str
) -> None:
    """Each says what was asked and what there is."""
    with pytest.raises(FileFaults) as caught:
        door_and_case(hinge=hinge, **more)
    fault = caught.value.faults[0]
    assert (fault.code, words in fault.value) == (code, True)


@pytest.mark.parametrize(("wide", "wanted"), [(100.0, 3.034), (440.0, 0.699)])
def test_the_way_of_the_closing_edge(wide: float, wanted: float) -> None:
    """sqrt(100^2 + 22 x 28) - 100 = sqrt(10 616) - 100, and the same from 440, as far as the pin."""
    assert swing_clearance_mm(wide, thickness_mm=22, pin_out_mm=3) == pytest.approx(wanted, abs=0.001)


def test_the_bevel_is_enough() -> None:
    """Turned in small steps about the pin, the beveled back arris stays inside the opening."""
    wide, thick, out, gap = 100.0, 22.0, 3.0, 1.5
    bevel = swing_bevel_deg(wide, thickness_mm=thick, pin_out_mm=out, gap_mm=gap)
    back = wide - thick * math.tan(math.radians(bevel))
    reach = 0.0
    for step in range(9001):
        a = math.radians(step / 100.0)
        x, y = back, -(out + thick)
        turned = (x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a))
        if turned[1] <= -out:
            reach = max(reach, turned[0])
    assert reach == pytest.approx(wide + gap, abs=0.01)


def test_a_narrow_door_strikes() -> None:
    """101.25 mm from pin to edge, less what is planed off: 3 mm wanted where 1 mm is left; 5 mm is enough."""
    [told] = found(door_and_case(), "F73", moisture=YEAR)
    assert told.numbers["wanted_mm"] == pytest.approx(math.sqrt(100.75**2 + 22 * 28) - 100.75, abs=0.01)
    assert told.numbers["gap_mm"] == pytest.approx(1.0)
    assert found(door_and_case(gap=5, widest=8), "F73", moisture=YEAR) == []
    assert found(door_and_case(bevel="4 deg"), "F73", moisture=YEAR)
    assert found(door_and_case(bevel="6 deg"), "F73", moisture=YEAR) == []
    assert found(door_and_case(wide=440), "F73", moisture=YEAR) == []


def test_a_beveled_edge_turns_about_its_front_arris() -> None:
    """Planed to the gap in front, and a wedge 22 x 22 tan 6 / 2 besides."""
    plain, beveled = door_and_case(), door_and_case(bevel="6 deg")
    wedge = 22 * 22 * math.tan(math.radians(6)) / 2 * 600
    assert beveled.removed_mm3("door") - plain.removed_mm3("door") == pytest.approx(wedge, rel=1e-6)
    [cut] = beveled.works[1].cuts
    assert isinstance(cut.tool, HalfSpace)
    assert beveled.works[1].marks[0].tilt_deg == pytest.approx(6.0)
