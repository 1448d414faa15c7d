"""Joints that cannot be cut are refused with the figures, at the option that asks for them."""

from __future__ import annotations

from typing import Any

import pytest

from scantling.errors import Fault, FileFaults
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import YEAR, file_text, made
from tests.joinery.samples import SAMPLES, Options


def faults_of(text: str, *, moisture: MoistureRange = YEAR) -> tuple[Fault, ...]:
    """Everything wrong with a piece, read and joined."""
    with pytest.raises(FileFaults) as caught:
        made(text, moisture=moisture)
    return caught.value.faults


def sample_text(family: str, parts: dict[str, Options] | None = None, **options: Any) -> str:
    """A sample's piece file with other options or parts."""
    sample = SAMPLES[family]
    pair = [name.format(inner="back") for name in sample.between]
    given = {name: value for name, value in sample.asked("back", **options).items() if value is not None}
    return file_text({**sample.parts, **(parts or {})}, {"j": {"kind": family, "between": [pair], **given}})


CASES: list[tuple[str, Options, str, str, str]] = [
    ("loose_tenon", {"width": 92}, "wider_than_face", "width", "1.0 mm over the edge of a"),
    ("loose_tenon", {"thickness": 30}, "wider_than_face", "width", "3.0 mm over the edge of a"),
    ("loose_tenon", {"shift": [0, 9]}, "wider_than_face", "width", "1.0 mm over the edge of a"),
    ("loose_tenon", {"depth_second": 50}, "deeper_than_part", "depth_second", "50.0 mm deep in 48.0 mm of b"),
    ("loose_tenon", {"count": 3}, "row_too_close", "count", "3 mortises of 53.0 mm, 10.0 mm"),
    ("dowel_pin", {"diameter": 26}, "wider_than_face", "diameter", "26.0 mm hole that stands 1.0 mm over"),
    ("dowel_pin", {"depth_second": 48}, "deeper_than_part", "depth_second", "48.0 mm deep in 48.0 mm of b"),
    ("dowel_pin", {"count": 9}, "row_too_close", "count", "9 dowels of 8.0 mm, 7.5 mm"),
    ("dowel_pin", {"inset": 60}, "row_too_close", "count", "0.0 mm from middle to middle"),
    ("housing", {"depth": 25}, "deeper_than_part", "depth", "housing 25.0 mm deep in 22.0 mm of b"),
    ("housing", {"stopped": 200}, "nothing_left", "stopped", "200.0 mm of 200.0 mm"),
    (
        "round_tenon",
        {"diameter": 32},
        "tenon_over_stick",
        "diameter",
        "32.0 mm tenon on a.end, which is 30.0",
    ),
    ("round_tenon", {"depth": 40}, "deeper_than_part", "depth", "hole 40.0 mm deep in 38.0 mm of b"),
    ("halving", {"share": 0.95}, "out_of_range", "share", "0.95"),
    ("top_clip", {"depth": 21}, "deeper_than_part", "depth", "groove 21.0 mm deep in 20.0 mm of a"),
    ("top_clip", {"from_top": 1}, "groove_off_rail", "from_top", "3.2 mm groove 1.0 mm below"),
    ("top_clip", {"from_top": 89}, "groove_off_rail", "from_top", "3.2 mm groove 89.0 mm below"),
    ("top_clip", {"engaged": 13}, "clip_over_groove", "engaged", "13.0 mm in a groove 12.0 mm deep"),
    ("top_clip", {"screw": [4, 30]}, "deeper_than_part", "screw", "28.0 mm deep in 24.0 mm of b"),
    ("slotted_screw", {"screw": [5, 60]}, "screw_too_long", "screw", "35.0 mm into 24.0 mm of b"),
    ("slotted_screw", {"screw": [5, 25]}, "screw_too_short", "screw", "25.0 mm through 45.0 mm"),
    ("slotted_screw", {"counterbore": 45}, "deeper_than_part", "counterbore", "45.0 mm in 45.0 mm"),
    ("slotted_screw", {"slot": 4}, "slot_too_short", "slot", "4.0 mm for a 5.0 mm screw"),
    ("breadboard_end", {"tongue_thickness": 20}, "tenon_over_part", "tongue_thickness", "20.0 mm of 20.0 mm"),
    ("breadboard_end", {"tongue_length": 45}, "tenon_over_part", "tongue_length", "45.0 mm of 40.0 mm"),
    ("breadboard_end", {"tenon_length": 59}, "tenon_over_part", "tenon_length", "60.5 mm of 60.0 mm"),
    ("breadboard_end", {"edge_inset": 20}, "tenon_over_part", "tenon_width", "25.0 mm of 20.0 mm"),
    ("breadboard_end", {"pin_from_shoulder": 38}, "tenon_over_part", "pin_from_shoulder", "41.0 mm of 40.0"),
    ("breadboard_end", {"tenons": 5}, "row_too_close", "tenons", "5 tenons of 50.0 mm, 45.0 mm"),
    ("breadboard_end", {"slot": 5}, "slot_too_short", "slot", "5.0 mm for a 6.0 mm pin"),
    ("breadboard_end", {"fixed": "left"}, "not_an_edge", "fixed", "left"),
]


@pytest.mark.parametrize(("family", "options", "code", "field", "value"), CASES)
def test_what_has_no_wood_is_refused_with_figures(
    family: str, options: Options, code: str, field: str, value: str
) -> None:
    """One fault, at the option's line, that says what was asked, what there is, and a way out."""
    text = sample_text(family, **options)
    [fault] = faults_of(text)
    assert (fault.code, fault.field) == (code, f"joints.j.{field}")
    assert value in fault.value
    assert fault.rule.startswith("must ")
    assert fault.remedy
    line = text.splitlines()[fault.line - 1].strip()
    written = next(iter(options))
    at_option = field in (written, *SAMPLES[family].options)
    assert line.startswith((f"{field}:", "- ") if at_option else "- - ")


def test_a_joint_between_parts_apart_says_how_far() -> None:
    """A rail 12.5 mm short of its post."""
    rail = {**SAMPLES["loose_tenon"].parts["a"], "to": [387.5, 0, 145]}
    rail.pop("trim")
    text = sample_text("loose_tenon", {"a": rail})
    [fault] = faults_of(text)
    assert (fault.code, fault.value) == ("parts_do_not_touch", "a.end and b, 12.5 mm apart")
    assert text.splitlines()[fault.line - 1].strip() == "- - a.end"


def test_a_joint_at_faces_that_do_not_meet_says_so() -> None:
    """The rail's other end is not at the post, though the rail touches it."""
    sample = SAMPLES["loose_tenon"]
    joint = {"kind": "loose_tenon", "between": [["a.start", "b"]], **sample.options}
    [fault] = faults_of(file_text(sample.parts, {"j": joint}))
    assert (fault.code, fault.value) == (
        "parts_do_not_touch",
        "a.start and b, which do not meet at these faces",
    )


def test_parts_that_pass_through_each_other_do_not_touch() -> None:
    """A rail drawn into its post, not trimmed by it."""
    rail = {**SAMPLES["loose_tenon"].parts["a"], "to": [424, 0, 145]}
    rail.pop("trim")
    [fault] = faults_of(sample_text("loose_tenon", {"a": rail}))
    assert fault.value.endswith("which pass through each other")


@pytest.mark.parametrize("family", ["notch", "halving"])
def test_crossing_joints_want_parts_that_cross(family: str) -> None:
    """Two parts 500 mm apart cannot be notched into each other."""
    other = {**SAMPLES[family].parts["b"]}
    other["from"], other["to"] = ([p[0], p[1] + 745.0, p[2]] for p in (other["from"], other["to"]))
    [fault] = faults_of(sample_text(family, {"b": other}))
    assert fault.code == "parts_do_not_cross"
    assert "mm apart" in fault.value


def test_a_notch_right_through_is_refused() -> None:
    """A stretcher as thick as the post is deep would cut it in two."""
    stretcher = {
        **SAMPLES["notch"].parts["a"],
        "from": [-300, 0, 260],
        "to": [300, 0, 260],
        "section": [90, 90],
    }
    [fault] = faults_of(sample_text("notch", {"a": stretcher}))
    assert (fault.code, fault.value) == ("notch_not_possible", "90.0 mm deep in 90.0 mm")


def test_a_notch_nobody_can_reach_is_refused() -> None:
    """A stretcher in the heart of the post is not in a notch."""
    stretcher = {**SAMPLES["notch"].parts["a"], "from": [-300, 0, 260], "to": [300, 0, 260]}
    [fault] = faults_of(sample_text("notch", {"a": stretcher}))
    assert (fault.code, fault.value) == ("notch_not_possible", "a inside b")


def test_a_halving_that_is_closed_is_refused() -> None:
    """The first part is 10 mm thicker below than the second is deep: it could not be laid in."""
    thick = {**SAMPLES["halving"].parts["a"], "from": [-200, 0, 5], "to": [200, 0, 5], "section": [60, 30]}
    [fault] = faults_of(sample_text("halving", {"a": thick}))
    assert (fault.code, fault.value) == ("halving_closed", "10.0 mm of a beyond the other part")


def test_a_stick_that_goes_past_the_part_it_is_to_enter_is_refused() -> None:
    """Half of the end touches the seat, the axis does not."""
    seat = {**SAMPLES["round_tenon"].parts["b"], "from": [5, 0, 419], "to": [400, 0, 419]}
    [fault] = faults_of(sample_text("round_tenon", {"b": seat}))
    assert fault.code == "tenon_misses"


def test_a_tenon_between_two_edges_lies_along_them() -> None:
    """Where the width looks at the other part, the tenons lie along the grain."""
    parts = SAMPLES["edge_glue"].parts
    joint = {"kind": "loose_tenon", "between": [["a", "b"]], "thickness": 6, "width": 40, "count": 3}
    work = made(file_text(parts, {"j": {**joint, "depth_first": 20, "depth_second": 20}})).works[0]
    assert work.connectors[0].count == 3
    assert [abs(frame.width[0]) for frame in work.connectors[0].frames] == [1.0, 1.0, 1.0]


def test_every_joint_that_cannot_be_cut_is_told_at_once() -> None:
    """Three bad joints give three faults, in the order of the file."""
    sample = SAMPLES["loose_tenon"]
    joints = {
        name: {"kind": "loose_tenon", "between": [["a.end", "b"]], **sample.options, **options}
        for name, options in (("one", {"width": 99}), ("two", {}), ("three", {"depth_second": 60}))
    }
    joints["four"] = {"kind": "edge_glue", "between": [["a.end", "b"]]}
    faults = faults_of(file_text(sample.parts, joints))
    assert [f.field for f in faults] == ["joints.one.width", "joints.three.depth_second", "joints.four"]
