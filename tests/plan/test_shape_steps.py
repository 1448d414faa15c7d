"""What is shaped is told among the steps, with what, how much and where."""

from __future__ import annotations

import pytest

from scantling.piece.shaping import Shaping, ShapingKind
from scantling.plan.shape_steps import shape_words
from tests.checks.bench import part


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
