"""Hollows as prisms: walls between them by closed forms, and by sampling where there is none."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checks.bench import X, Y, Z
from scantling.checks.hollows import Prism, distance_mm, gap_mm, prism
from scantling.joinery.work import Box, Cut, HalfSpace, Hole, Slot
from scantling.piece.geometry import Frame, Plane, Vec, add, norm, scale, sub


def box(origin: Vec, *, size: Vec, turn_deg: float = 0.0) -> Prism:
    """A box from its near face's center, turned about Z."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    frame = Frame(origin=origin, grain=(c, s, 0.0), width=(-s, c, 0.0), thickness=Z)
    made = prism(
        Cut(
            part="p",
            tool=Box(frame=frame, length_mm=size[0], width_mm=size[1], thickness_mm=size[2]),
            what="",
        )
    )
    assert made is not None
    return made


@pytest.mark.parametrize(
    ("origin", "turn_deg", "expected"),
    [
        ((15.0, 0.0, 0.0), 0.0, 5.0),  # face to face
        ((13.0, 14.0, 0.0), 0.0, 5.0),  # edge to edge: 3 and 4
        ((12.0, 11.0, 12.0), 0.0, 3.0),  # corner to corner: 2, 1 and 2
        ((10.0 + 5.0 * math.sqrt(2.0) / 2.0 + 2.0, -5.0 * math.sqrt(2.0) / 2.0, 0.0), 45.0, 2.0),
        ((9.0, 0.0, 0.0), 0.0, 0.0),  # overlapping
    ],
)
def test_wall_between_boxes_is_the_closed_form(origin: Vec, turn_deg: float, expected: float) -> None:
    """Ten-millimeter cubes at known distances."""
    cube = (10.0, 10.0, 10.0)
    wall = distance_mm(box((0.0, 0.0, 0.0), size=cube), box(origin, size=cube, turn_deg=turn_deg))
    assert wall == pytest.approx(expected, abs=1e-9)


def test_overlap_is_the_least_shift_that_parts_them() -> None:
    """Two cubes that share a millimeter are a millimeter from apart."""
    cube = (10.0, 10.0, 10.0)
    assert gap_mm(box((0.0, 0.0, 0.0), size=cube), box((9.0, 2.0, 0.0), size=cube)) == pytest.approx(-1.0)


@settings(max_examples=60, deadline=None)
@given(
    origin=st.tuples(*[st.floats(-30.0, 30.0)] * 3),
    turn=st.floats(0.0, 180.0),
)
def test_distance_is_never_more_than_between_any_two_points(origin: Vec, turn: float) -> None:
    """Points sampled in both boxes are at least as far apart as the distance says, and the gap is a bound."""
    a, b = box((0.0, 0.0, 0.0), size=(20.0, 10.0, 6.0)), box(origin, size=(12.0, 8.0, 4.0), turn_deg=turn)
    wall = distance_mm(a, b)
    assert gap_mm(a, b) <= wall + 1e-9
    assert wall == pytest.approx(distance_mm(b, a), abs=1e-9)
    for p in _points(a):
        for q in _points(b):
            assert norm(sub(p, q)) >= wall - 1e-9


def _points(body: Prism) -> list[Vec]:
    middle = scale(add(body.near[0], body.far[2]), 0.5)
    return [add(scale(corner, k), scale(middle, 1.0 - k)) for corner in body.corners for k in (0.3, 1.0)]


def test_a_slot_is_as_long_as_it_says_and_never_too_small() -> None:
    """The prism of a slot keeps its length and contains its round ends."""
    frame = Frame(origin=(0.0, 0.0, 0.0), grain=Z, width=X, thickness=Y)
    made = prism(Cut(part="p", tool=Slot(frame=frame, length_mm=50.0, width_mm=10.0, depth_mm=25.0), what=""))
    assert made is not None
    assert made.extent(X) == pytest.approx((-25.0, 25.0), abs=0.05)
    assert made.extent(Z) == (0.0, 25.0)
    assert all(plane.distance((20.0, 5.0, 1.0)) <= 1e-9 for plane in made.planes)


def test_a_hole_contains_its_circle() -> None:
    """Every point of the circle lies in the prism, and none of it is more than 1 % of the radius out."""
    frame = Frame(origin=(0.0, 0.0, 0.0), grain=Z, width=X, thickness=Y)
    made = prism(Cut(part="p", tool=Hole(frame=frame, diameter_mm=8.0, depth_mm=10.0), what="hole"))
    assert made is not None
    for k in range(90):
        p = (4.0 * math.cos(k), 4.0 * math.sin(k), 5.0)
        assert max(plane.distance(p) for plane in made.planes) <= 1e-9
    assert max(norm((c[0], c[1], 0.0)) for c in made.corners) <= 4.0 * 1.01


def test_cuts_that_shape_an_end_are_no_hollow() -> None:
    """A plane takes away everything beyond it: there is no wall to measure."""
    assert prism(Cut(part="p", tool=HalfSpace(plane=Plane(point=(0, 0, 0), normal=X)), what="end")) is None
