"""Drawings against counting edges, against foreshortening by hand and against rays cast at the mesh."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from scantling.joinery.work import Box
from scantling.piece.geometry import dot
from scantling.solids.mesh import meshes_of
from scantling.solids.placed import placed_triangles, placed_vertices
from scantling.solids.projection import Hidden, Lines, project
from scantling.solids.shape import shapes_of
from scantling.solids.view import (
    BACK,
    FRONT,
    ISOMETRIC,
    LEFT,
    PLAN,
    RIGHT,
    TRIMETRIC,
    UNDERSIDE,
    own_view,
)
from tests.solids.sticks import HERE, bar, busy_bar, hole, into, mirrored, round_bar, shaped, turned_frame
from tests.solids.table import table

ALL = (FRONT, BACK, LEFT, RIGHT, PLAN, UNDERSIDE, ISOMETRIC, TRIMETRIC)


def total(lines: np.ndarray) -> float:
    """Length of all pieces together."""
    return float(np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).sum())


@pytest.mark.parametrize("view", ALL, ids=lambda v: v.name)
def test_views_are_square_and_of_unit_scale(view):
    """Right, up and the direction to the eye are unit and square to each other."""
    axes = (view.right, view.up, view.toward)
    assert [[round(dot(a, b), 12) + 0.0 for b in axes] for a in axes] == np.eye(3).tolist()


def test_an_isometric_view_shortens_all_three_axes_alike():
    """By the root of two thirds, so that lengths along them can be compared."""
    lengths = [math.hypot(*ISOMETRIC.at(axis)) for axis in ((1, 0, 0), (0, 1, 0), (0, 0, 1))]
    assert lengths == pytest.approx([math.sqrt(2.0 / 3.0)] * 3)
    assert ISOMETRIC.at((0.0, 0.0, 1.0))[0] == pytest.approx(0.0)


@pytest.mark.parametrize(
    ("view", "size"), [(FRONT, (700, 40)), (RIGHT, (60, 40)), (PLAN, (700, 60)), (UNDERSIDE, (700, 60))]
)
def test_a_bar_seen_square_on_is_one_rectangle_at_full_size(view, size):
    """Its far edges lie under the near ones and are not drawn twice."""
    lines = project({"bar": shaped(bar())}, view)
    assert len(lines.visible) == 4
    assert len(lines.hidden) == 0
    low, high = lines.box
    assert high - low == pytest.approx(size)


@pytest.mark.parametrize("view", [ISOMETRIC, TRIMETRIC])
def test_a_bar_seen_from_a_corner_shows_nine_edges_and_hides_three(view):
    """Each shortened as its axis is."""
    lines = project({"bar": shaped(bar())}, view)
    shortened = [
        length * math.hypot(*view.at(axis))
        for length, axis in ((700, (1, 0, 0)), (60, (0, 1, 0)), (40, (0, 0, 1)))
    ]
    assert (len(lines.visible), len(lines.hidden)) == (9, 3)
    assert total(lines.visible) == pytest.approx(3 * sum(shortened))
    assert total(lines.hidden) == pytest.approx(sum(shortened))


def test_a_hole_is_a_circle_from_above_and_dashed_lines_from_the_front():
    """From the front: two sides and the bottom, the mouth under the edge of the bar."""
    shape = {"bar": shaped(bar(), hole((300.0, 0.0, 20.0), diameter=10.0, depth=15.0))}
    above = project(shape, PLAN)
    assert total(above.visible) == pytest.approx(2 * (700 + 60) + math.pi * 10.0, rel=1e-4)
    assert len(above.hidden) == 0, "the bottom of the hole lies under its mouth"
    front = project(shape, FRONT)
    assert len(front.visible) == 4
    assert total(front.hidden) == pytest.approx(2 * 15.0 + 10.0)


def test_hidden_lines_may_be_left_out_and_change_nothing_else():
    """The same visible lines and the same box."""
    shapes = {"a": busy_bar("a")}
    both, bare = (project(shapes, TRIMETRIC, hidden=hidden) for hidden in Hidden)
    assert len(both.hidden) > 0
    assert len(bare.hidden) == 0
    assert np.array_equal(both.visible, bare.visible)
    assert bare.box == pytest.approx(both.box)


def test_a_dashed_circle_is_one_run():
    """The bottom of a blind hole, seen from below through the wood."""
    lines = project({"bar": shaped(bar(), hole((300.0, 0.0, 20.0), depth=15.0))}, UNDERSIDE)
    (run,) = lines.hidden_runs()
    assert run[0] == pytest.approx(run[-1], abs=0.01)
    assert len(lines.visible_runs()) == 4


def test_of_rounds_exactly_behind_one_another_the_near_one_is_drawn():
    """Two like legs in line with the eye, as in the front view of every symmetrical piece."""
    frame = turned_frame(yaw_deg=0.0, pitch_deg=78.0, roll_deg=0.0)
    legs = {
        name: shaped(replace(round_bar(name=name), frame=replace(frame, origin=(0.0, y, 0.0))))
        for name, y in (("front", -150.0), ("back", 150.0))
    }
    lines = project(legs, FRONT)
    alone = project({"front": legs["front"]}, FRONT)
    assert total(lines.visible) == pytest.approx(total(alone.visible), rel=1e-6)
    assert lines.of_part["back"].shape == (0, 2, 2)


def test_a_through_hole_lets_the_far_rim_be_seen_and_a_blind_one_its_bottom():
    """Seen along the axis the far rim falls on the near one."""
    for depth in (40.0, 15.0):
        lines = project({"bar": shaped(bar(), hole((300.0, 0.0, 20.0), depth=depth))}, PLAN)
        assert total(lines.visible) == pytest.approx(2 * 760 + math.pi * 6.0, rel=1e-4)


def test_a_round_tapering_stick_is_drawn_by_its_outlines():
    """Two slanting sides and two ends, and no facets."""
    lines = project({"leg": shaped(round_bar(400.0, start=38.0, end=28.0))}, FRONT)
    assert total(lines.visible) == pytest.approx(38.0 + 28.0 + 2 * math.hypot(400.0, 5.0), rel=1e-6)
    assert len(lines.visible) == 4
    assert len(lines.hidden) == 0


def test_what_stands_behind_another_part_is_dashed_there_and_whole_beside_it():
    """A bar 700 long behind a board 300 wide."""
    board = replace(
        bar("board", length=400.0, width=300.0, thickness=10.0),
        frame=into((350.0, -100.0, -200.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)),
    )
    lines = project({"bar": shaped(bar()), "board": shaped(board)}, FRONT)
    assert total(lines.of_part["board"]) == pytest.approx(1400.0)
    assert total(lines.of_part["bar"]) == pytest.approx(2 * 400.0 + 2 * 40.0)
    assert total(lines.hidden) == pytest.approx(2 * 300.0)


def test_a_mirrored_part_is_drawn_as_the_mirror_image():
    """Same lines, x reversed; not the drawing of its twin."""
    frame = turned_frame(yaw_deg=20.0, pitch_deg=35.0, roll_deg=10.0)
    one = project({"a": busy_bar("a", frame)}, FRONT)
    other = project({"a": busy_bar("a", mirrored(frame))}, FRONT)
    low, high = one.box
    assert other.box == pytest.approx(np.array([[-high[0], low[1]], [-low[0], high[1]]]), abs=1e-6)
    assert total(other.visible) == pytest.approx(total(one.visible), rel=1e-6)
    assert total(other.hidden) == pytest.approx(total(one.hidden), rel=1e-6)
    ends = other.visible.reshape(-1, 2) * [-1.0, 1.0]
    assert distance_to(one.visible, ends).max() < 0.01


def test_a_part_drawn_along_its_own_axes_is_as_long_as_its_wood():
    """A leaning leg laid on the paper: grain to the right."""
    frame = turned_frame(yaw_deg=20.0, pitch_deg=75.0, roll_deg=10.0, origin=(500.0, 20.0, 0.0))
    view = own_view(frame, right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0), name="face side")
    lines = project({"bar": shaped(bar(frame=frame))}, view)
    low, high = lines.box
    assert high - low == pytest.approx([700.0, 60.0])


def test_nothing_drawn_is_an_empty_drawing():
    """No parts, or a part of which no wood is left."""
    everything = Box(
        frame=into((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        length_mm=700.0,
        width_mm=60.0,
        thickness_mm=40.0,
    )
    for shapes in ({}, {"bar": shaped(replace(bar(), frame=HERE), everything)}):
        lines = project(shapes, FRONT)
        assert (len(lines.visible), len(lines.hidden), lines.box.tolist()) == (0, 0, [[0, 0], [0, 0]])


def distance_to(lines: np.ndarray, points: np.ndarray) -> np.ndarray:
    """Distance of each point to the nearest of some pieces. shape (n,)"""
    a, run = lines[:, 0], lines[:, 1] - lines[:, 0]
    t = np.einsum("pij,ij->pi", points[:, None] - a[None], run) / np.einsum("ij,ij->i", run, run)
    foot = a[None] + np.clip(t, 0.0, 1.0)[..., None] * run[None]
    return np.linalg.norm(points[:, None] - foot, axis=2).min(axis=1)


def covered(points: np.ndarray, way: np.ndarray, faces: np.ndarray) -> np.ndarray:
    """Whether a ray from each point meets a face (Möller and Trumbore, 1997). shape (n,)"""
    a, e1, e2 = faces[:, 0], faces[:, 1] - faces[:, 0], faces[:, 2] - faces[:, 0]
    p = np.cross(way, e2)
    det = np.einsum("ij,ij->i", e1, p)
    good = np.abs(det) > 1e-9
    s = points[:, None] - a[None]
    u = np.einsum("nij,ij->ni", s, p) / np.where(good, det, 1.0)
    q = np.cross(s, e1[None])
    v = (q @ way) / np.where(good, det, 1.0)
    t = np.einsum("nij,ij->ni", q, e2) / np.where(good, det, 1.0)
    return (good & (u > 1e-7) & (v > 1e-7) & (u + v < 1 - 1e-7) & (t > 1e-3)).any(axis=1)


def sampled_arrises() -> tuple[np.ndarray, np.ndarray]:
    """Points on long arrises of the table, and all its faces, in the world."""
    piece, works = table()
    points, faces = [], []
    for name, mesh in meshes_of(shapes_of(piece, works)).items():
        part = piece.parts[name]
        faces.append(placed_vertices(part, mesh)[placed_triangles(part, mesh)])
        long = mesh.edge_lines[np.linalg.norm(mesh.edge_lines[:, 1] - mesh.edge_lines[:, 0], axis=1) > 30.0]
        for share in (0.13, 0.37, 0.71, 0.93):
            local = long[:, 0] * (1 - share) + long[:, 1] * share
            points += [part.frame.point(tuple(p)) for p in local.tolist()]
    return np.array(points), np.concatenate(faces)


@pytest.mark.parametrize("view", [TRIMETRIC, ISOMETRIC, FRONT, UNDERSIDE], ids=lambda v: v.name)
def test_arrises_of_the_table_are_visible_where_no_ray_to_the_eye_is_stopped(view):
    """Points on the mesh's arrises, judged by rays: an open one lies on a visible line, any on some line.

    A covered point may lie under the visible line of another arris, so from it nothing more follows; but
    where no visible line passes, a hidden one must.
    """
    points, faces = sampled_arrises()
    flat = np.array([view.at(tuple(p)) for p in points.tolist()])
    lines: Lines = project(shapes_of(*table()), view)
    nudged = points + 1e-2 * np.array(view.toward)
    stopped = covered(nudged, np.array(view.toward), faces)
    on_visible = distance_to(lines.visible, flat) < 0.02
    on_hidden = distance_to(lines.hidden, flat) < 0.02
    assert 0.1 < stopped.mean() < 0.95, "the check needs points of both kinds"
    assert on_visible[~stopped].all()
    if view in {TRIMETRIC, ISOMETRIC}:  # along no axis of the table: nothing falls on anything
        assert not on_visible[stopped].any()
    assert (on_visible | on_hidden).all()
