"""Pieces strung into runs: every piece once, smooth ones together, corners apart."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.solids.runs import strung


def circle(corners: int, *, order: list[int] | None = None) -> np.ndarray:
    """Pieces of a circle of radius 10, every other one drawn backwards."""
    points = [
        (10 * math.cos(2 * math.pi * k / corners), 10 * math.sin(2 * math.pi * k / corners))
        for k in range(corners)
    ]
    rows = [(points[k], points[(k + 1) % corners])[:: 1 if k % 2 else -1] for k in order or range(corners)]
    return np.array(rows)


def total(runs) -> float:
    """Length of all runs."""
    return sum(float(np.linalg.norm(np.diff(run, axis=0), axis=1).sum()) for run in runs)


@given(st.permutations(list(range(24))))
def test_a_circle_in_any_order_is_one_closed_run(order):
    """24 pieces turn by 15 degrees each."""
    (run,) = strung(circle(24, order=order))
    assert len(run) == 25
    assert run[0] == pytest.approx(run[-1])


def test_a_square_is_four_runs_and_nothing_is_none():
    """A corner ends a dashed line, so that the corner is drawn."""
    assert [len(run) for run in strung(circle(4))] == [2, 2, 2, 2]
    assert strung(np.zeros((0, 2, 2))) == ()


def test_runs_end_where_three_lines_meet():
    """A straight line in two pieces, with a third ending at their joint."""
    tee = np.array([[[0, 0], [5, 0]], [[5, 0], [10, 0]], [[5, 0], [5, 5]]], dtype=float)
    assert len(strung(tee)) == 3


@given(st.lists(st.tuples(*[st.integers(0, 6)] * 4), max_size=25))
def test_no_length_is_won_or_lost(rows):
    """Every piece is in just one run."""
    pieces = np.array(rows, dtype=float).reshape(-1, 2, 2)
    pieces = pieces[np.any(pieces[:, 0] != pieces[:, 1], axis=1)]
    assert total(strung(pieces)) == pytest.approx(total(pieces))
