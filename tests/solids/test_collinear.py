"""Pieces of one line joined and taken from one another: no length is won or lost."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.solids.collinear import joined, without


def pieces(*rows) -> np.ndarray:
    """Pieces from x0, y0, x1, y1."""
    return np.array(rows, dtype=np.float64).reshape(-1, 2, 2)


def total(lines: np.ndarray) -> float:
    """Length of all pieces together."""
    return float(np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).sum())


def test_touching_overlapping_repeated_and_reversed_pieces_become_one():
    """Four ways of drawing parts of one line."""
    drawn = pieces((0, 0, 10, 0), (10, 0, 15, 0), (12, 0, 20, 0), (20, 0, 12, 0), (3, 0, 5, 0))
    assert joined(drawn).tolist() == [[[0.0, 0.0], [20.0, 0.0]]]


def test_parallel_crossing_and_separate_pieces_stay_apart():
    """A tenth of a millimeter is another line."""
    drawn = pieces((0, 0, 10, 0), (0, 0.1, 10, 0.1), (5, -5, 5, 5), (10.1, 0, 12, 0))
    assert len(joined(drawn)) == 4
    assert total(joined(drawn)) == pytest.approx(31.9)


def test_pieces_of_no_length_and_no_pieces_are_nothing():
    """Both give an empty drawing."""
    assert joined(pieces((1, 1, 1, 1))).shape == (0, 2, 2)
    assert joined(pieces()).shape == (0, 2, 2)
    assert without(pieces(), pieces((0, 0, 1, 0))).shape == (0, 2, 2)


def test_what_lies_under_another_line_goes_and_the_rest_stays():
    """A hidden line along an edge, seen through two openings."""
    left = without(pieces((0, 0, 100, 0)), pieces((10, 0, 40, 0), (90, 0, 60, 0)))
    assert left.tolist() == [[[0, 0], [10, 0]], [[40, 0], [60, 0]], [[90, 0], [100, 0]]]
    assert without(pieces((0, 0, 100, 0)), pieces((-5, 0, 105, 0))).shape == (0, 2, 2)


@given(
    angle=st.floats(0.0, math.pi),
    offset=st.floats(-500.0, 500.0),
    spans=st.lists(st.tuples(st.integers(0, 200), st.integers(1, 50)), min_size=1, max_size=12),
    taken=st.lists(st.tuples(st.integers(0, 200), st.integers(1, 50)), max_size=6),
)
def test_lengths_are_those_of_the_sets_of_points_whichever_way_the_line_runs(angle, offset, spans, taken):
    """Spans on whole millimeters, so that counting millimeters is another way to measure."""
    way, normal = np.array([math.cos(angle), math.sin(angle)]), np.array([-math.sin(angle), math.cos(angle)])

    def laid(parts):
        return np.array([[offset * normal + a * way, offset * normal + (a + n) * way] for a, n in parts])

    def covered(parts):
        return {k for a, n in parts for k in range(a, a + n)}

    drawn, over = laid(spans), laid(taken).reshape(-1, 2, 2)
    assert total(joined(drawn)) == pytest.approx(len(covered(spans)), abs=1e-6)
    assert total(without(drawn, over)) == pytest.approx(len(covered(spans) - covered(taken)), abs=1e-6)
