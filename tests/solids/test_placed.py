"""Solids where their parts stand: mirrored twins are equal, and turning a piece changes no volume."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.solids.mesh import build_mesh, meshes_of
from scantling.solids.placed import (
    is_left_handed,
    placed_box,
    placed_centroid,
    placed_triangles,
    placed_vertices,
    turned_over,
)
from scantling.solids.polyhedron import bulk_of
from scantling.solids.shape import shapes_of
from tests.solids.sticks import HERE, busy_bar, mirrored, shaped, turned_frame
from tests.solids.table import table


def test_mirrored_legs_have_their_centers_at_mirrored_places():
    """Front left and front right agree but for the sign of x, and so on."""
    piece, works = table()
    meshes = meshes_of(shapes_of(piece, works))
    center = {n: placed_centroid(piece.parts[n], meshes[n]) for n in piece.parts}
    x, y, z = center["leg_fl"]
    assert center["leg_fr"] == pytest.approx((-x, y, z), abs=1e-6)
    assert center["leg_bl"] == pytest.approx((x, -y, z), abs=1e-6)
    assert center["leg_br"] == pytest.approx((-x, -y, z), abs=1e-6)
    assert is_left_handed(piece.parts["leg_fr"].frame)
    assert not is_left_handed(piece.parts["leg_br"].frame)


def test_the_table_stands_on_the_floor_and_is_as_high_as_it_should_be():
    """Feet at z = 0, the top at 740, legs ending under the top."""
    piece, works = table()
    meshes = meshes_of(shapes_of(piece, works))
    boxes = {n: placed_box(p, meshes[n]) for n, p in piece.parts.items()}
    assert min(box[0][2] for box in boxes.values()) == pytest.approx(0.0, abs=1e-6)
    assert boxes["top"][1] == pytest.approx([685.0, 330.0, 740.0], abs=1e-6)
    assert boxes["leg_fl"][1][2] == pytest.approx(716.0, abs=1e-6)


@pytest.mark.parametrize("frame", [HERE, mirrored(HERE)])
def test_placed_triangles_face_outward_whichever_hand_the_part_is(frame):
    """The signed volume in the world is the volume of the part, not its negative."""
    shape = busy_bar(frame=frame)
    mesh = build_mesh(shape)
    bulk = bulk_of(placed_vertices(shape.part, mesh), placed_triangles(shape.part, mesh))
    assert bulk.volume_mm3 == pytest.approx(mesh.volume_mm3, rel=1e-12)
    assert bulk.centroid_mm == pytest.approx(placed_centroid(shape.part, mesh), abs=1e-9)


def test_a_left_handed_frame_turned_over_is_right_handed_and_keeps_its_origin():
    """The reversed solid stands in it where the mirrored part does."""
    frame = mirrored(turned_frame(yaw_deg=10.0, pitch_deg=20.0, roll_deg=30.0, origin=(1.0, 2.0, 3.0)))
    other = turned_over(frame)
    assert is_left_handed(frame)
    assert not is_left_handed(other)
    assert other.point((10.0, 20.0, -30.0)) == pytest.approx(frame.point((10.0, 20.0, 30.0)))


@settings(max_examples=25, deadline=None)
@given(
    yaw=st.floats(-180, 180), pitch=st.floats(-90, 90), roll=st.floats(-180, 180), x=st.floats(-2000, 2000)
)
def test_turning_a_part_in_the_world_keeps_its_volume_and_carries_its_center(yaw, pitch, roll, x):
    """Volume is invariant; the center turns with the frame."""
    frame = turned_frame(yaw_deg=yaw, pitch_deg=pitch, roll_deg=roll, origin=(x, 5.0, 7.0))
    still = busy_bar()
    turned = shaped(replace(still.part, frame=frame), *(cut.tool for cut in still.cuts))
    mesh = build_mesh(turned)
    bulk = bulk_of(placed_vertices(turned.part, mesh), mesh.triangles)
    assert bulk.volume_mm3 == pytest.approx(build_mesh(still).volume_mm3, rel=1e-9)
    assert np.allclose(bulk.centroid_mm, placed_centroid(turned.part, mesh), atol=1e-6)
