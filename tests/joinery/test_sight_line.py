"""The sight line of a staked leg, and steps that fit the hole and the tenon."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.joinery.work import JointWork, Mark
from scantling.piece.model import Direction
from tests.joinery.bench import made_of
from tests.joinery.samples import SAMPLES

LEFT, RIGHT, FRONT, BACK = Direction.LEFT, Direction.RIGHT, Direction.FRONT, Direction.BACK


def _staked(splay_deg: float, rake_deg: float, **options: Any) -> JointWork:
    """A leg 400 high, its foot toward the left by the splay and toward the front by the rake."""
    sample = SAMPLES["round_tenon"]
    foot = [-400.0 * math.tan(math.radians(a)) for a in (splay_deg, rake_deg)]
    parts = {**sample.parts, "a": {**sample.parts["a"], "from": [*foot, 0], "to": [0, 0, 400]}}
    pair = [name.format(inner="back") for name in sample.between]
    joint = {"kind": "round_tenon", "between": [pair], **sample.options, **options}
    return made_of(parts, {"j": {k: v for k, v in joint.items() if v is not None}}).works[0]


def _hole(work: JointWork) -> Mark:
    return next(mark for mark in work.marks if mark.part == work.second)


@pytest.mark.parametrize(
    ("splay", "rake", "line", "lean", "toward"),
    [
        (12.0, 8.0, 33.47, 14.30, (LEFT, FRONT)),  # tan 8 / tan 12 = 0.1405 / 0.2126
        (-12.0, 8.0, 33.47, 14.30, (RIGHT, FRONT)),
        (12.0, -8.0, 33.47, 14.30, (LEFT, BACK)),
        (10.0, 10.0, 45.0, 14.00, (LEFT, FRONT)),  # tan lean = 0.1763 times the root of 2
        (12.0, 0.0, 0.0, 12.0, (LEFT,)),
        (0.0, 8.0, 90.0, 8.0, (FRONT,)),
        (0.0, 0.0, 0.0, 0.0, ()),
    ],
)
def test_the_sight_line_is_made_of_both_tilts(
    splay: float, rake: float, line: float, lean: float, toward: tuple[Direction, ...]
) -> None:
    """Its tangent is that of the tilt across over that along, and the bit leans to where the foot stands."""
    hole = _hole(_staked(splay, rake))
    assert hole.angle_deg == pytest.approx(line, abs=0.005)
    assert hole.tilt_deg == pytest.approx(lean, abs=0.005)
    assert hole.toward == toward


def test_the_line_drawn_meets_the_far_face_where_the_tenon_comes_out() -> None:
    """From the center marked below, along the sight line, the thickness times the tangent of the lean."""
    work = _staked(12.0, 8.0)
    hole, seat = _hole(work), made_of(SAMPLES["round_tenon"].parts, {}).piece.parts["b"]
    run = seat.thickness_mm * math.tan(math.radians(hole.tilt_deg))
    along, across = (run * turn(math.radians(hole.angle_deg)) for turn in (math.cos, math.sin))
    assert along == pytest.approx(seat.thickness_mm * math.tan(math.radians(12.0)))
    assert across == pytest.approx(seat.thickness_mm * math.tan(math.radians(8.0)))


def test_the_face_bored_is_the_face_marked() -> None:
    """The steps name the face that the mark is on."""
    work = _staked(12.0, 8.0)
    assert _hole(work).face is Direction.BOTTOM
    assert work.steps[0].startswith("Bore from the bottom face, the one that is marked")
    assert not any("show face" in line for line in work.steps)


@pytest.mark.parametrize(
    ("options", "said", "unsaid"),
    [
        (
            {"depth": None, "wedge": [5, 30]},
            ("right through", "drive the wedge"),
            ("flag of tape", "by hand"),
        ),
        ({"depth": None, "wedge": None}, ("right through", "cut the end flush"), ("wedge", "flag of tape")),
        ({"depth": 20, "wedge": None}, ("flag of tape",), ("wedge", "right through", "flush")),
        ({"depth": 20, "wedge": [5, 18]}, ("flag of tape", "start the wedge in it by hand"), ("flush",)),
        ({"depth": None, "wedge": None, "proud": 0}, ("right through",), ("flush", "wedge")),
    ],
)
def test_steps_fit_the_hole_and_the_tenon(
    options: dict[str, Any], said: tuple[str, ...], unsaid: tuple[str, ...]
) -> None:
    """Through or blind, wedged or plain: no step speaks of what this joint has not."""
    text = " ".join(_staked(12.0, 8.0, **options).steps)
    assert all(words in text for words in said)
    assert not any(words in text for words in unsaid)


def test_an_upright_leg_is_bored_square() -> None:
    """No bevel and no sight line where nothing leans."""
    work = _staked(0.0, 0.0)
    text = " ".join(work.steps)
    assert "Bore square" in text
    assert "bevel" not in text
    assert _hole(work).setup.endswith("bit, square")
