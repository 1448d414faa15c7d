"""What is shaped is told among the steps, with what, how much and where."""

from __future__ import annotations

import pytest

from scantling.piece.shaping import Shaping, ShapingKind
from scantling.plan.steps.shape_steps import shape_words
from tests.checks.bench import part
from tests.plan.jobs import shipped_plan


@pytest.mark.parametrize(
    ("start", "end", "words"),
    [
        (0.0, 700.0, "chamfer 6 mm, top front"),
        (50.0, 650.0, "chamfer 6 mm, top front, stopped 50 mm from both ends"),
        (
            0.0,
            650.0,
            "chamfer 6 mm, top front, beginning 0 mm from its start and ending 50 mm from its end",
        ),
    ],
)
def test_a_shape_is_told_in_words(start: float, end: float, words: str) -> None:
    """On a part of 700 mm."""
    shaping = Shaping(
        kind=ShapingKind.CHAMFER, size_mm=6.0, start_mm=start, end_mm=end, side=(1, -1), where="top front"
    )
    assert shape_words(part("long_rail"), shaping) == words


@pytest.mark.parametrize(
    ("corner", "end", "words"),
    [
        (32.0, 500.0, "cut-out 300 × 40 mm, corners of 32 mm radius, bottom face, 200 mm from both ends"),
        (0.0, 500.0, "cut-out 300 × 40 mm, bottom face, 200 mm from both ends"),
        (
            0.0,
            290.0,
            "cut-out 90 × 40 mm, bottom face, beginning 200 mm from its start and ending 410 mm from its end",
        ),
    ],
)
def test_a_cut_out_is_told_by_its_length_its_height_and_its_corners(
    corner: float, end: float, words: str
) -> None:
    """On a part of 700 mm."""
    shaping = Shaping(
        kind=ShapingKind.CUT_OUT,
        size_mm=40.0,
        start_mm=200.0,
        end_mm=end,
        side=(-1, 0),
        where="bottom face",
        corner_mm=corner,
    )
    assert shape_words(part("long_rail"), shaping) == words


def test_a_scoop_is_a_step_of_its_own_with_its_cautions() -> None:
    """760 by 330, 6 deep; 15 and 240 a square meter are 75.2 min."""
    steps = shipped_plan("hall_bench").order.steps
    [step] = [step for step in steps if step.title == "Scoop the seat"]
    told = " ".join(step.details)
    assert "scoop 6 mm deep, top face, stopped 230 mm from both ends" in told
    assert "an arc 760 mm long and 6 mm deep, its radius on the sheet; 32.0 mm of 38 mm are left" in told
    assert step.hands_on_min == pytest.approx(15.0 + 240.0 * 0.760 * 0.330)
    assert any("Both hands behind the edge" in caution for caution in step.cautions)
    assert any(caution.startswith("Clamp it down") for caution in step.cautions)
