"""The light kernel against closed forms: what is cut away is exactly what the tool holds."""

from __future__ import annotations

import math
from dataclasses import replace

import manifold3d
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import ModelError
from scantling.joinery.work import Box, Extension, Slot, Turned
from scantling.piece.convex import local_body
from scantling.piece.geometry import Frame, Plane
from scantling.piece.model import Direction, End, Taper
from scantling.solids.mesh import MeshCache, build_mesh, meshes_of
from tests.solids.sticks import (
    HERE,
    bar,
    busy_bar,
    hole,
    into,
    mirrored,
    round_bar,
    shaped,
    slanted_trim,
    slot,
    square_trim,
    turned_frame,
)

REL = 1e-9
"""Rounding of the kernel: 1e-6 mm on faces of a part 100 mm across."""
BAR = 700.0 * 60.0 * 40.0


def volume(*args, **kwargs) -> float:
    """Volume of a shaped part."""
    return build_mesh(shaped(*args, **kwargs)).volume_mm3


def test_a_plain_bar_has_the_volume_surface_and_middle_of_a_box():
    """A plain bar has the volume surface and middle of a box."""
    mesh = build_mesh(shaped(bar()))
    assert mesh.volume_mm3 == pytest.approx(BAR, rel=REL)
    assert mesh.surface_area_mm2 == pytest.approx(2 * (700 * 60 + 700 * 40 + 60 * 40), rel=REL)
    assert mesh.centroid_mm == pytest.approx([350.0, 0.0, 0.0], abs=1e-6)
    assert mesh.box == pytest.approx(np.array([[0.0, -30.0, -20.0], [700.0, 30.0, 20.0]]), abs=1e-9)
    assert len(mesh.edge_lines) == 12
    assert mesh.pieces == 1


@pytest.mark.parametrize("tilt", [0.0, 5.0, 7.0, 45.0, 70.0])
def test_slanted_ends_through_the_axis_leave_the_volume_of_the_axis_length(tilt: float):
    """A prism cut by planes holds its section times the length between them on its axis."""
    part = bar(trims=(slanted_trim(End.START, 0.0, tilt, 20.0), slanted_trim(End.END, 700.0, -tilt, 70.0)))
    assert volume(part) == pytest.approx(BAR, rel=REL)


def test_a_bar_before_joinery_agrees_with_clipping_by_hand():
    """The convex clipping of the piece layer is another method on the same part."""
    part = replace(
        bar(trims=(slanted_trim(End.START, 0.0, 9.0, 33.0), slanted_trim(End.END, 650.0, 12.0, 100.0))),
        tapers=(taper(15.0),),
    )
    assert volume(part) == pytest.approx(local_body(part).volume_mm3, rel=REL)


def taper(loss: float, begin: float = 100.0, length: float = 700.0) -> Taper:
    """The face at v = +30 run in by ``loss`` between ``begin`` and the end."""
    run = length - begin
    n = math.hypot(run, loss)
    plane = Plane(point=(begin, 30.0, 0.0), normal=(loss / n, run / n, 0.0))
    return Taper(plane=plane, toward=End.END, begin_mm=begin, loss_mm=loss, face=Direction.BACK)


def test_a_taper_takes_off_a_wedge_from_where_it_begins():
    """A taper takes off a wedge from where it begins."""
    part = replace(bar(), tapers=(taper(15.0),))
    assert volume(part) == pytest.approx(BAR - 600.0 * 15.0 / 2.0 * 40.0, rel=REL)


def test_a_round_tapering_stick_has_the_volume_of_a_frustum():
    """A round tapering stick has the volume of a frustum."""
    r0, r1, h = 19.0, 14.0, 400.0
    frustum = math.pi * h / 3.0 * (r0 * r0 + r0 * r1 + r1 * r1)
    mesh = build_mesh(shaped(round_bar(h, start=2 * r0, end=2 * r1)))
    assert mesh.volume_mm3 == pytest.approx(frustum, rel=REL)
    middle = h / 4.0 * (r0**2 + 2 * r0 * r1 + 3 * r1**2) / (r0**2 + r0 * r1 + r1**2)
    assert mesh.centroid_mm[0] == pytest.approx(middle, rel=1e-7)


def test_a_stick_shaved_to_a_point_ends_in_its_point():
    """A stick shaved to a point ends in its point."""
    mesh = build_mesh(shaped(round_bar(300.0, start=30.0, end=0.0)))
    assert mesh.volume_mm3 == pytest.approx(math.pi * 15.0**2 * 300.0 / 3.0, rel=REL)
    assert mesh.box[1][0] == pytest.approx(300.0)


def test_a_mortise_takes_the_area_of_its_outline_times_its_depth():
    """A mortise takes the area of its outline times its depth."""
    outline = 40.0 * 10.0 + math.pi * 25.0
    assert BAR - volume(bar(), slot((300.0, 0.0, 20.0))) == pytest.approx(outline * 28.0, rel=1e-7)


def test_a_slot_as_long_as_wide_is_a_hole():
    """A slot as long as wide is a hole."""
    with_slot = volume(bar(), slot((300.0, 0.0, 20.0), length=10.0))
    assert BAR - with_slot == pytest.approx(math.pi * 25.0 * 28.0, rel=1e-7)


@pytest.mark.parametrize(("depth", "pieces_through"), [(20.0, 0), (40.0, 1)])
def test_a_hole_takes_its_cylinder_and_opens_the_far_face_when_as_deep_as_the_bar(depth, pieces_through):
    """A hole takes its cylinder and opens the far face when as deep as the bar."""
    mesh = build_mesh(shaped(bar(), hole((300.0, 7.0, 20.0), depth=depth)))
    assert BAR - mesh.volume_mm3 == pytest.approx(math.pi * 9.0 * depth, rel=1e-7)
    # A closed surface with one tunnel has as many faces less edges plus corners as a ring: none.
    edges = len(mesh.triangles) * 3 // 2
    assert (len(np.unique(mesh.triangles)) - edges + len(mesh.triangles)) // 2 == 1 - pieces_through


def test_a_skew_hole_is_open_over_its_whole_mouth():
    """Its mouth is an ellipse; measured along its axis to the surface it still holds area times length."""
    way = (math.sin(math.radians(20.0)), 0.0, -math.cos(math.radians(20.0)))
    assert BAR - volume(bar(), hole((300.0, 0.0, 20.0), way=way)) == pytest.approx(
        math.pi * 9.0 * 20.0, rel=1e-7
    )


def test_a_groove_flush_with_three_faces_leaves_no_skin():
    """A groove flush with three faces leaves no skin."""
    groove = Box(
        frame=into((0.0, 0.0, 20.0), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0)),
        length_mm=10.0,
        width_mm=60.0,
        thickness_mm=200.0,
    )
    mesh = build_mesh(shaped(bar(), groove))
    assert mesh.volume_mm3 == pytest.approx(BAR - 100.0 * 60.0 * 10.0, rel=REL)
    assert len(mesh.edge_lines) == 18
    assert mesh.pieces == 1


def test_a_hole_in_the_floor_of_a_groove_leaves_no_skin():
    """A hole in the floor of a groove leaves no skin."""
    groove = Box(
        frame=into((300.0, 0.0, 20.0), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0)),
        length_mm=10.0,
        width_mm=60.0,
        thickness_mm=30.0,
    )
    mesh = build_mesh(shaped(bar(), hole((300.0, 0.0, 10.0), depth=30.0), groove))
    expected = BAR - 30.0 * 60.0 * 10.0 - math.pi * 9.0 * 30.0
    assert mesh.volume_mm3 == pytest.approx(expected, rel=REL)
    assert mesh.pieces == 1


def test_wood_beyond_a_raked_end_is_parallel_to_its_trim():
    """Wood beyond a raked end is parallel to its trim."""
    part = bar(trims=(square_trim(End.START, 0.0), slanted_trim(End.END, 700.0, 8.0, 25.0)))
    longer = Extension(part="bar", end=End.END, length_mm=25.0)
    assert volume(part, extensions=(longer,)) == pytest.approx(725.0 * 60.0 * 40.0, rel=REL)


def test_two_joints_at_one_end_ask_for_the_longer_extension_and_not_the_sum():
    """Two joints at one end ask for the longer extension and not the sum."""
    longer = tuple(Extension(part="bar", end=End.START, length_mm=x) for x in (10.0, 25.0))
    mesh = build_mesh(shaped(bar(), extensions=longer))
    assert mesh.volume_mm3 == pytest.approx(725.0 * 60.0 * 40.0, rel=REL)
    assert mesh.box[0][0] == pytest.approx(-25.0)


def test_a_turned_tenon_leaves_its_cylinder():
    """A turned tenon leaves its cylinder."""
    turned = Turned(frame=into((700.0, 0.0, 0.0), (1, 0, 0), (0, 1, 0)), diameter_mm=28.0, length_mm=45.0)
    longer = Extension(part="bar", end=End.END, length_mm=45.0)
    tenon = math.pi * 14.0**2 * 45.0
    assert volume(bar(), turned, extensions=(longer,)) == pytest.approx(BAR + tenon, rel=REL)


def test_a_hole_across_a_round_stick_takes_what_both_cylinders_share():
    """Equal cylinders crossing at right angles share 16 r^3 / 3 (Archimedes, The Method)."""
    r = 14.0
    stick = round_bar(200.0, start=2 * r, end=2 * r)
    cut = hole((100.0, 0.0, r), diameter=2 * r, depth=2 * r)
    mesh = build_mesh(shaped(stick, cut))
    assert mesh.volume_mm3 == pytest.approx(math.pi * r * r * 200.0 - 16.0 * r**3 / 3.0, rel=2e-4)
    assert mesh.pieces == 2, "a hole as wide as the stick cuts it in two"


def test_a_slot_shorter_than_its_cutter_is_refused():
    """A slot shorter than its cutter is refused."""
    narrow = Slot(frame=HERE, length_mm=5.0, width_mm=10.0, depth_mm=5.0)
    with pytest.raises(ModelError, match=r"5\.0 mm long"):
        build_mesh(shaped(bar(), narrow))


def test_cutting_all_the_wood_away_leaves_an_empty_mesh():
    """Cutting all the wood away leaves an empty mesh."""
    everything = Box(
        frame=into((350.0, 0.0, -50.0), (0, 0, 1), (1, 0, 0)),
        length_mm=100.0,
        width_mm=900.0,
        thickness_mm=100.0,
    )
    mesh = build_mesh(shaped(bar(), everything))
    assert (mesh.volume_mm3, len(mesh.triangles), len(mesh.edge_lines), mesh.pieces) == (0.0, 0, 0, 0)


def test_the_seams_between_facets_of_a_hole_are_no_arrises():
    """Only the two rims of the hole are drawn, 48 lines each, beside the twelve arrises of the bar."""
    mesh = build_mesh(shaped(bar(), hole((300.0, 0.0, 20.0))))
    assert len(mesh.edge_lines) == 12 + 2 * 48


def test_where_a_slight_taper_begins_is_an_arris():
    """At 1.4 degrees between the faces it is still a line on the wood."""
    mesh = build_mesh(shaped(replace(bar(), tapers=(taper(15.0),))))
    across = [
        line for line in mesh.edge_lines if np.allclose(line[:, 0], 100.0) and np.allclose(line[:, 1], 30.0)
    ]
    assert len(across) == 1


def test_like_parts_share_one_mesh_wherever_they_stand():
    """Like parts share one mesh wherever they stand."""
    frame = turned_frame(yaw_deg=30.0, pitch_deg=80.0, roll_deg=10.0, origin=(100.0, 50.0, 0.0))
    shapes = {n: busy_bar(n, f) for n, f in {"a": HERE, "b": frame, "c": mirrored(frame)}.items()}
    cache = MeshCache()
    meshes = meshes_of(shapes, cache)
    assert cache.built == 1
    assert meshes["a"] is meshes["b"] is meshes["c"]


def test_the_cache_keeps_no_more_than_its_limit_and_the_latest_used():
    """The cache keeps no more than its limit and the latest used."""
    cache = MeshCache(limit=2)
    first = build_mesh(shaped(bar(length=100.0)), cache)
    build_mesh(shaped(bar(length=200.0)), cache)
    build_mesh(shaped(bar(length=100.0)), cache)
    build_mesh(shaped(bar(length=300.0)), cache)
    assert len(cache) == 2
    assert cache.find(first.key) is first
    assert cache.built == 3


def test_meshes_are_closed_and_can_not_be_changed():
    """Meshes are closed and can not be changed."""
    mesh = build_mesh(busy_bar())
    edges = np.concatenate([mesh.triangles[:, [i, (i + 1) % 3]] for i in range(3)])
    forward = {tuple(e) for e in edges.tolist()}
    assert all((b, a) in forward for a, b in forward)
    with pytest.raises(ValueError, match="read-only"):
        mesh.vertices_mm[0, 0] = 1.0


@settings(max_examples=25, deadline=None)
@given(
    tilt=st.floats(0.0, 30.0),
    turn=st.floats(-180.0, 180.0),
    at=st.floats(120.0, 580.0),
    lean=st.floats(-25.0, 25.0),
)
def test_the_same_tool_turned_with_the_wood_takes_the_same_wood(tilt, turn, at, lean):
    """Turning bar and tools half round the grain changes no volume."""
    way = (math.sin(math.radians(lean)), 0.0, -math.cos(math.radians(lean)))
    part = bar(trims=(slanted_trim(End.START, 0.0, tilt, turn), square_trim(End.END, 700.0)))
    over = bar(trims=(slanted_trim(End.START, 0.0, tilt, turn + 180.0), square_trim(End.END, 700.0)))
    back: Frame = into((at, 0.0, -20.0), (way[0], 0.0, -way[2]), (0.0, 1.0, 0.0))
    one = volume(part, hole((at, 0.0, 20.0), way=way))
    other = volume(over, replace(hole((at, 0.0, 20.0), way=way), frame=back))
    assert one == pytest.approx(other, rel=1e-9)
    assert one == pytest.approx(BAR - math.pi * 9.0 * 20.0, rel=1e-8)


def test_before_its_holes_are_drilled_a_part_has_all_the_wood_it_has_after_and_the_holes_more():
    """What is sought first in the solid with no holes yet may leave nothing out, and keeps its grooves."""
    groove = Box(
        frame=into((350.0, 0.0, 20.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0)),
        length_mm=10.0,
        width_mm=30.0,
        thickness_mm=60.0,
    )
    drilled = build_mesh(shaped(bar(), hole((100.0, 0.0, 20.0), diameter=12.0, depth=15.0), groove))
    grooved = build_mesh(shaped(bar(), groove))
    solid = manifold3d.Manifold(
        manifold3d.Mesh64(drilled.vertices_mm.copy(), drilled.triangles.astype(np.uint64))
    )
    assert (solid - drilled.undrilled).volume() == pytest.approx(0.0, abs=1e-6)
    assert drilled.undrilled.volume() == pytest.approx(grooved.volume_mm3, rel=1e-9)
    assert drilled.undrilled.num_tri() == len(grooved.triangles) < len(drilled.triangles)
