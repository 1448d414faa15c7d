"""Joints asked for by name alone: sizes by the trade's proportions, and what was written goes before them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import Telling
from scantling.joinery.families import option_models
from scantling.joinery.joining import join, load_piece_text
from tests.joinery.bench import YEAR, Made, made_of
from tests.joinery.sample import stick
from tests.joinery.samples import SAMPLES, Sample

__all__: list[str] = []

FAMILY = pytest.mark.parametrize("sample", SAMPLES.values(), ids=SAMPLES)
_CHOICES = {"between", "kind", "nut_face", "driven_from", "over", "enters_at"}
"""What a maker must say: which parts, and from which face."""
_UNFIT = {
    "slotted_screw": ("screw", "40.0 mm through 45.0 mm"),
    "drawer_runner": ("screw", "35.0 mm through 40.0 mm"),
    "strap_hinge": ("count", "2 hinges of 30.0 mm, -70.0 mm from middle to middle"),
}
"""Families whose usual size does not suit the parts of their sample: the size, and what it comes to there.

Screws as long as shops stock are too short for a thick rail or runner; two straps too wide for a small lid.
"""
_FIT = {
    "slotted_screw": {"a": stick((0, -200, 87.5), (0, 200, 87.5), (64, 25), "right")},
    "drawer_runner": {"a": stick((7.5, -150, 100), (7.5, 150, 100), (25, 20), "right")},
    "strap_hinge": {
        "a": stick((0, 0, 112), (600, 0, 112), (200, 22), "back"),
        "b": stick((0, 89, 25), (600, 89, 25), (150, 22), "top"),
    },
}
"""The same with parts the usual size suits: a thinner rail and runner, a longer lid."""


def _bare(sample: Sample, **more: object) -> Made:
    """The sample's joint with nothing but its choices."""
    chosen = {name: value for name, value in sample.asked("back").items() if name in _CHOICES}
    joint = {"kind": sample.family, "between": [[x.format(inner="back") for x in sample.between]]}
    return made_of(sample.parts, {"trial": {**joint, **chosen, **more}})


def test_no_size_must_be_written() -> None:
    """Every family works out its sizes; only choices are asked for."""
    asked = {
        name: {field for field, info in model.model_fields.items() if info.is_required()} - _CHOICES
        for name, model in option_models().items()
    }
    assert {name: fields for name, fields in asked.items() if fields} == {}


@FAMILY
def test_a_joint_asked_for_by_name_can_be_cut_and_put_together(sample: Sample) -> None:
    """Both parts are there when it is cut; a usual size that does not go in is told as such."""
    telling = Telling()
    made = telling.tried(lambda: _bare(sample))
    if sample.family in _UNFIT:
        size, comes_to = _UNFIT[sample.family]
        (fault,) = telling.faults
        assert fault.field == f"joints.trial.{size}"
        assert f"{comes_to} ({size} is not written: this is the usual one)" in str(fault)
        made = _bare(replace(sample, parts=sample.parts | _FIT[sample.family]))
    assert made is not None, telling.faults
    (work, *_) = made.works
    assert work.cuts or work.glue or work.connectors or work.freedoms
    for name in (work.first, work.second):
        assert made.mesh(name).volume_mm3 > 0.0


@pytest.mark.parametrize(
    ("family", "sizes"),
    [
        ("loose_tenon", {"thickness": 8.0, "width": 48.0, "length": 62.0}),
        ("dowel_pin", {"diameter": 10.0, "length": 48.0}),
    ],
)
def test_tenons_and_dowels_come_in_the_usual_proportions(family: str, sizes: dict[str, float]) -> None:
    """On a rail and a post: a third of the rail thick, three fifths of it wide; dowels two fifths thick."""
    sample = SAMPLES[family]
    (work,) = _bare(sample).works
    (connector, *_) = work.connectors
    assert connector.size_mm == pytest.approx(tuple(sizes.values()))


def test_what_is_written_goes_before_the_usual() -> None:
    """One size written, the others follow from the parts."""
    (work,) = _bare(SAMPLES["loose_tenon"], thickness="12 mm").works
    (connector, *_) = work.connectors
    assert connector.size_mm[0] == 12.0


_RAIL_AND_POST = """\
scantling: 1
title: t
units: {units}
parts:
  post:
    kind: stick
    species: cherry
    from: [0, 0, 0]
    to: [0, 0, 10 in]
    section: [1 1/2 in, 1 1/2 in]
    width_toward: right
  rail:
    kind: stick
    species: cherry
    from: [3/4 in, 0, 6 in]
    to: [20 in, 0, 6 in]
    section: [4 in, 3/4 in]
    width_toward: top
joints:
  j: {{kind: {kind}, between: [[rail.start, post]]}}
"""


def _sizes(kind: str, units: str, *names: str) -> list[float]:
    """Sizes of a joint that says none, from its marks, in its file's unit."""
    piece = load_piece_text(_RAIL_AND_POST.format(kind=kind, units=units))
    [work] = join(piece, moisture=YEAR)
    return [getattr(work.marks[0], name) / (25.4 if units == "in" else 1.0) for name in names]


@pytest.mark.parametrize(
    ("kind", "units", "sizes"),
    [
        ("mortise_tenon", "in", [0.25]),
        ("mortise_tenon", "mm", [6.0]),
        ("loose_tenon", "in", [0.25]),
        ("loose_tenon", "mm", [6.0]),
        ("dowel_pin", "in", [5 / 16]),
        ("dowel_pin", "mm", [8.0]),
    ],
)
def test_what_a_file_in_inches_leaves_out_is_of_inch_cutters(
    kind: str, units: str, sizes: list[float]
) -> None:
    """A third of 3/4 in is 1/4 in, 6.35 mm, of which 6 mm is the nearest metric cutter; 2/5 are 7.6 mm."""
    assert _sizes(kind, units, "width_mm") == pytest.approx(sizes)


def test_widths_and_depths_left_out_come_to_sixteenths() -> None:
    """Six times 1/4 in wide; four times as deep in the rail, in the post as far as 6 mm of it are left."""
    [wide, deep] = _sizes("loose_tenon", "in", "length_mm", "depth_mm")
    assert wide * 16.0 == pytest.approx(round(wide * 16.0))
    assert deep == pytest.approx(1.0)
    [_, deep_mm] = _sizes("loose_tenon", "mm", "length_mm", "depth_mm")
    assert deep_mm == pytest.approx(24.0)
