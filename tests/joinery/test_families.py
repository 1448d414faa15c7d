"""What every joint family cuts: volumes in closed form, nothing in the way, and a way together."""

from __future__ import annotations

import math
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling import joinery
from scantling.joinery import joint_families, option_models
from scantling.piece.convex import face_direction
from tests.joinery.bench import Made, made_of
from tests.joinery.samples import SAMPLES, Options, Sample

MIRRORS = st.sampled_from(((), ("left-right",), ("front-back",), ("left-right", "front-back")))
PRICKED = ("pilot hole",)
"""Cuts that are marked from the part that lies on them, through its holes."""
DISTANCES_MM = (3.0, 15.0, 60.0, 250.0)
FAMILY = pytest.mark.parametrize("sample", SAMPLES.values(), ids=SAMPLES)


def stood(sample: Sample, copy: Options, **options: Any) -> Made:
    """The sample's joint between copies of its two parts, mirrored, turned and moved."""
    parts = {
        name: {**block, "copies": {f"{name}_copy": copy}} if copy else block
        for name, block in sample.parts.items()
    }
    tail = "_copy" if copy else ""
    a = math.radians(copy.get("turn", 0.0))
    y = -1.0 if "front-back" in copy.get("mirror", ()) else 1.0
    inner = face_direction((-y * math.sin(a), y * math.cos(a), 0.0)).value
    pair = []
    for name in sample.between:
        part, dot, place = name.format(inner=inner).partition(".")
        pair.append(f"{part}{tail}{dot}{place}")
    return made_of(parts, {"j": {"kind": sample.family, "between": [pair], **sample.asked(inner, **options)}})


def check_volumes(made: Made, sample: Sample, options: Options) -> None:
    """Each part is its blank less what the joint takes in closed form; facets keep the area of curves."""
    work = made.works[0]
    for name, taken in zip((work.first, work.second), sample.removed(options), strict=True):
        assert made.removed_mm3(name) == pytest.approx(taken, rel=sample.within, abs=0.01)


def test_every_family_is_proven() -> None:
    """A joint has its sample here, or a file of tests of its own."""
    here = Path(__file__).parent
    assert [
        name for name in joint_families() if name not in SAMPLES and not (here / f"test_{name}.py").exists()
    ] == []


@FAMILY
def test_a_joint_takes_off_what_its_closed_form_says(sample: Sample) -> None:
    """Volume of each part = blank - cuts, in the sizes a maker would give."""
    check_volumes(stood(sample, {}), sample, sample.options)


@FAMILY
def test_a_part_that_is_cut_is_marked_out(sample: Sample) -> None:
    """What is sawn, routed or bored is on its sheet; pilot holes are pricked through what they hold."""
    work = stood(sample, {}).works[0]
    marked = {mark.part for mark in work.marks}
    assert {cut.part for cut in work.cuts if cut.what not in PRICKED} <= marked


@FAMILY
def test_a_joint_leaves_every_part_in_one_piece(sample: Sample) -> None:
    """No cut severs a part."""
    made = stood(sample, {})
    assert {made.mesh(name).pieces for name in ("a", "b")} == {1}


@FAMILY
@settings(max_examples=8)
@given(data=st.data())
def test_volume_is_kept_whatever_the_sizes(sample: Sample, data: st.DataObject) -> None:
    """The closed form holds for sizes at random, for copies mirrored, turned and moved."""
    options = {
        name: round(data.draw(st.floats(low, high), label=name), 2)
        for name, (low, high) in sample.ranges.items()
    }
    copy = {
        "mirror": list(data.draw(MIRRORS, label="mirror")),
        "turn": data.draw(st.integers(-180, 180), label="turn"),
        "move": [10, -20, 5],
    }
    made = stood(sample, copy, **options)
    check_volumes(made, sample, {**sample.options, **options})
    assert made.in_the_way("a_copy", "b_copy") == ()


@FAMILY
def test_the_parts_of_a_joint_are_not_in_each_others_way(sample: Sample) -> None:
    """As cut, the two parts share no wood."""
    assert stood(sample, {}).in_the_way("a", "b") == ()


@FAMILY
def test_the_parts_of_a_joint_come_together_along_its_way(sample: Sample) -> None:
    """Drawn out in the direction the joint leaves, the first part meets nothing of the second."""
    made = stood(sample, {})
    work = made.works[0]
    assert [made.leaving(work, by) for by in DISTANCES_MM] == [()] * len(DISTANCES_MM)


@pytest.mark.parametrize(
    "family", ["loose_tenon", "housing", "round_tenon", "breadboard_end", "halving", "dovetail"]
)
def test_the_other_way_is_barred(family: str) -> None:
    """Pushed the opposite way the first part runs into the second: the way out is not just any way."""
    made = stood(SAMPLES[family], {})
    assert made.leaving(made.works[0], -15.0) != ()


@FAMILY
def test_mirrored_joints_have_the_same_travel_marks_and_glue(sample: Sample) -> None:
    """What is true of a joint is true of its mirror image, but for the names of faces."""
    one, other = stood(sample, {}).works[0], stood(sample, {"mirror": ["front-back"]}).works[0]
    sizes = [(m.kind, m.length_mm, m.width_mm, m.depth_mm, m.from_face_mm, m.from_end_mm) for m in one.marks]
    mirrored = [
        (m.kind, m.length_mm, m.width_mm, m.depth_mm, m.from_face_mm, m.from_end_mm) for m in other.marks
    ]
    assert sorted(map(_rounded, sizes)) == sorted(map(_rounded, mirrored))
    rooms = [
        sorted(_rounded((f.shrink_room_mm, f.swell_room_mm, f.cut_to_mm)) for f in w.freedoms)
        for w in (one, other)
    ]
    assert rooms[0] == rooms[1]
    assert [g.area_mm2 for g in one.glue] == pytest.approx([g.area_mm2 for g in other.glue])
    assert [c.size_mm for c in one.connectors] == [c.size_mm for c in other.connectors]


def _rounded(figures: tuple[Any, ...]) -> tuple[Any, ...]:
    return tuple(round(figure, 6) + 0.0 if isinstance(figure, float) else str(figure) for figure in figures)


_MADE_UP = """
from scantling.joinery.dowel_pin import DowelPin, DowelPinOptions
from typing import Literal

class PegOptions(DowelPinOptions):
    kind: Literal["peg"]

class Peg(DowelPin):
    name = "peg"
    options_model = PegOptions
"""


def test_a_new_family_takes_its_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file laid in the folder is a family: its options are read, its work and its strength asked for."""
    (tmp_path / "peg.py").write_text(_MADE_UP, encoding="utf-8")
    with monkeypatch.context() as patched:
        patched.setattr(joinery, "__path__", [*joinery.__path__, str(tmp_path)])
        patched.setattr(joinery, "peg", None, raising=False)
        joint_families.cache_clear()
        assert option_models()["peg"].__name__ == "PegOptions"
        dowels = SAMPLES["dowel_pin"]
        peg = stood(replace(dowels, family="peg"), {}).works[0]
        assert peg.strength == stood(dowels, {}).works[0].strength
    sys.modules.pop("scantling.joinery.peg", None)
    joint_families.cache_clear()
    assert "peg" not in joint_families()
