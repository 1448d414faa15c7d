"""Distances between edges, against closed forms and against brute force."""

from __future__ import annotations

from itertools import product
from math import cos, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.piece.geometry import add, norm, scale, sub
from scantling.solids.measuring import between_edges

__all__: list[str] = []

_NUMBER = st.floats(-300.0, 300.0).map(lambda value: round(value, 1))
_PLACE = st.tuples(_NUMBER, _NUMBER, _NUMBER)
_EDGE = st.tuples(_PLACE, _PLACE).filter(lambda ends: norm(sub(*ends)) > 1.0)


def test_parallel_edges_are_measured_square_across() -> None:
    """Side by side over part of their length: the square distance, at the middle of that part."""
    found = between_edges(((0, 0, 0), (100, 0, 0)), ((200, 30, 40), (50, 30, 40)))
    assert found.distance_mm == pytest.approx(50.0)
    assert found.start == pytest.approx((75.0, 0.0, 0.0))
    assert (found.parallel, found.angle_deg) == (True, 0.0)
    assert found.steps_mm == pytest.approx((0.0, 30.0, 40.0))


def test_parallel_edges_past_each_other_are_still_measured_square() -> None:
    """A rail that ends before the other begins: what a rule laid across would read."""
    assert between_edges(((0, 0, 0), (10, 0, 0)), ((50, 0, 8), (90, 0, 8))).distance_mm == pytest.approx(8.0)


def test_edges_that_cross_in_space_are_measured_where_they_pass() -> None:
    """Square to both, with the angle between them."""
    found = between_edges(((-50, 0, 0), (50, 0, 0)), ((0, -50, 12), (0, 50, 12)))
    assert (found.distance_mm, found.angle_deg) == pytest.approx((12.0, 90.0))


@pytest.mark.parametrize("lean_deg", [5.0, 7.0, 20.0, 60.0])
def test_the_angle_of_a_leaning_edge_is_its_lean(lean_deg: float) -> None:
    """A leg that leans, against a plumb line that it meets: no distance, the lean as its angle."""
    lean = radians(lean_deg)
    found = between_edges(((0, 0, 0), (0, 0, 700)), ((0, 0, 0), (700 * sin(lean), 0, 700 * cos(lean))))
    assert found.distance_mm == pytest.approx(0.0, abs=1e-9)
    assert found.angle_deg == pytest.approx(lean_deg)


def test_edges_far_from_each_other_are_measured_between_their_ends() -> None:
    """Where nothing passes, the nearest two ends count."""
    found = between_edges(((0, 0, 0), (0, 0, 10)), ((30, 40, 60), (60, 80, 60)))
    assert found.distance_mm == pytest.approx(hypot(50.0, 50.0))


@given(first=_EDGE, second=_EDGE)
def test_no_two_places_on_the_edges_are_nearer(
    first: tuple[tuple[float, float, float], tuple[float, float, float]],
    second: tuple[tuple[float, float, float], tuple[float, float, float]],
) -> None:
    """Brute force over places on both finds no distance below the one told."""
    found = between_edges(first, second)
    shares = [n / 24 for n in range(25)]
    nearest = min(
        norm(sub(add(first[0], scale(sub(*first[::-1]), s)), add(second[0], scale(sub(*second[::-1]), t))))
        for s, t in product(shares, shares)
    )
    assert found.distance_mm <= nearest + 1e-6
    assert norm(sub(found.end, found.start)) == pytest.approx(found.distance_mm, abs=1e-9)
