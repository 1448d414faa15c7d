"""The binary glTF file read back by a small reader of the published format."""

from __future__ import annotations

import json
import struct

import numpy as np
import pytest

from scantling.joinery.work import Box
from scantling.solids.gltf import glb_bytes
from scantling.solids.mesh import meshes_of
from scantling.solids.placed import placed_box, placed_vertices
from scantling.solids.polyhedron import bulk_of
from scantling.solids.shape import shapes_of
from tests.solids.sticks import bar, into, shaped
from tests.solids.table import table


def read(data: bytes) -> tuple[dict, bytes]:
    """Document and binary chunk, by section 4.4 of the specification."""
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON"
    assert size % 4 == 0
    document = json.loads(data[20 : 20 + size])
    if len(data) == 20 + size:
        return document, b""
    blob_size, kind = struct.unpack_from("<I4s", data, 20 + size)
    assert kind == b"BIN\0"
    assert blob_size % 4 == 0
    return document, data[28 + size : 28 + size + blob_size]


def vectors(document: dict, blob: bytes, number: int) -> np.ndarray:
    """One accessor as rows."""
    accessor = document["accessors"][number]
    view = document["bufferViews"][accessor["bufferView"]]
    assert accessor["componentType"] == 5126
    assert accessor["type"] == "VEC3"
    rows = np.frombuffer(blob, "<f4", accessor["count"] * 3, view["byteOffset"]).reshape(-1, 3)
    if "min" in accessor:
        assert accessor["min"] == pytest.approx(rows.min(axis=0).tolist())
        assert accessor["max"] == pytest.approx(rows.max(axis=0).tolist())
    return rows.astype(np.float64)


@pytest.fixture(scope="module")
def piece():
    """Parts and meshes of the table."""
    made, works = table()
    return made.parts, meshes_of(shapes_of(made, works))


def test_every_part_is_a_node_of_its_name_standing_where_it_should(piece):
    """Turned back to millimeters and Z up, each node's box is the part's box, its volume the part's."""
    parts, meshes = piece
    document, blob = read(glb_bytes(parts, meshes))
    assert [node["name"] for node in document["nodes"]] == list(parts)
    for node in document["nodes"]:
        faces = document["meshes"][node["mesh"]]["primitives"][0]
        local = vectors(document, blob, faces["attributes"]["POSITION"])
        matrix = np.array(node["matrix"]).reshape(4, 4).T
        assert np.linalg.det(matrix[:3, :3]) == pytest.approx(1.0)
        world = (local @ matrix[:3, :3].T + matrix[:3, 3])[:, [0, 2, 1]] * np.array([1.0, -1.0, 1.0]) * 1000.0
        part, mesh = parts[node["name"]], meshes[node["name"]]
        box = np.stack([world.min(axis=0), world.max(axis=0)])
        assert box == pytest.approx(placed_box(part, mesh), abs=2e-4)
        triangles = np.arange(len(world)).reshape(-1, 3)
        # Exchanging two axes and reversing one keeps the hand, so the volume must come out positive.
        assert bulk_of(world, triangles).volume_mm3 == pytest.approx(mesh.volume_mm3, rel=1e-5)


def test_normals_are_of_length_one_and_square_to_their_faces(piece):
    """Flat shading: all three corners carry the normal of the face."""
    parts, meshes = piece
    document, blob = read(glb_bytes(parts, meshes))
    for mesh in document["meshes"]:
        attributes = mesh["primitives"][0]["attributes"]
        corners = vectors(document, blob, attributes["POSITION"]).reshape(-1, 3, 3)
        normals = vectors(document, blob, attributes["NORMAL"]).reshape(-1, 3, 3)
        assert np.allclose(np.linalg.norm(normals, axis=2), 1.0, atol=1e-6)
        assert np.array_equal(normals[:, 0], normals[:, 1])
        turn = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        big = np.linalg.norm(turn, axis=1) > 1e-7
        assert (np.einsum("ij,ij->i", turn, normals[:, 0])[big] > 0.0).all()


def test_arrises_are_lines_of_the_same_place(piece):
    """A primitive of mode LINES with two corners for each arris."""
    parts, meshes = piece
    document, blob = read(glb_bytes(parts, meshes))
    node = next(n for n in document["nodes"] if n["name"] == "leg_fr")
    lines = document["meshes"][node["mesh"]]["primitives"][1]
    assert lines["mode"] == 1
    rows = vectors(document, blob, lines["attributes"]["POSITION"])
    assert len(rows) == 2 * len(meshes["leg_fr"].edge_lines)
    matrix = np.array(node["matrix"]).reshape(4, 4).T
    ends = (rows @ matrix[:3, :3].T + matrix[:3, 3])[:, [0, 2, 1]] * [1000.0, -1000.0, 1000.0]
    corners = placed_vertices(parts["leg_fr"], meshes["leg_fr"])
    nearest = np.linalg.norm(corners[:, None] - ends[None, :20], axis=2).min(axis=0)
    assert nearest.max() < 1e-3


def test_like_parts_share_meshes_and_mirrored_ones_share_another(piece):
    """Four legs use two meshes; each pair of aprons, mirrored from one another, two more; the top one."""
    document, blob = read(glb_bytes(*piece))
    used = {node["name"]: node["mesh"] for node in document["nodes"]}
    assert used["leg_fl"] == used["leg_br"] != used["leg_fr"] == used["leg_bl"]
    assert len(document["meshes"]) == 7
    assert document["buffers"] == [{"byteLength": len(blob)}]


def test_species_have_the_color_given_as_light(piece):
    """Screen value 0.5 stands for 0.214 of the light (IEC 61966-2-1: ((0.5 + 0.055) / 1.055) ** 2.4)."""
    parts, meshes = piece
    document, _ = read(glb_bytes(parts, meshes, colors={"black cherry": (0.5, 1.0, 0.0)}))
    wood = document["materials"][0]
    assert wood["name"] == "black cherry"
    assert wood["pbrMetallicRoughness"]["baseColorFactor"] == pytest.approx([0.214041, 1.0, 0.0, 1.0])


def test_equal_pieces_give_equal_bytes(piece):
    """Nothing of the day or the run is in the file."""
    assert glb_bytes(*piece) == glb_bytes(*piece)


def test_a_piece_of_no_parts_and_a_part_of_no_wood_are_still_files():
    """The format has no empty lists: they are left out."""
    document, blob = read(glb_bytes({}, {}))
    assert (document["scenes"], blob) == ([{}], b"")
    everything = Box(
        frame=into((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        length_mm=700.0,
        width_mm=60.0,
        thickness_mm=40.0,
    )
    gone = {"bar": shaped(bar(), everything)}
    document, blob = read(glb_bytes({"bar": gone["bar"].part}, meshes_of(gone)))
    assert document["nodes"][0]["name"] == "bar"
    assert "mesh" not in document["nodes"][0]
    assert "buffers" not in document
    assert blob == b""


def numbers(document: dict, blob: bytes, number: int) -> np.ndarray:
    """An accessor of corners' numbers."""
    accessor = document["accessors"][number]
    kind = {5123: "<u2", 5125: "<u4"}[accessor["componentType"]]
    offset = document["bufferViews"][accessor["bufferView"]]["byteOffset"]
    assert offset % 4 == 0
    return np.frombuffer(blob, kind, accessor["count"], offset).astype(np.int64)


def test_the_lean_file_holds_the_same_faces_and_lines_in_a_fraction_of_the_size(piece):
    """Corner for corner those of the full file, mirrored parts too; each corner is told once."""
    parts, meshes = piece
    full_bytes, lean_bytes = glb_bytes(parts, meshes), glb_bytes(parts, meshes, lean=True)
    assert len(lean_bytes) < len(full_bytes) / 3
    (full, blob), (lean, lean_blob) = read(full_bytes), read(lean_bytes)
    assert lean["nodes"] == full["nodes"]
    for one, other in zip(full["meshes"], lean["meshes"], strict=True):
        for whole, shared in zip(one["primitives"], other["primitives"], strict=True):
            assert (whole["mode"], whole["material"]) == (shared["mode"], shared["material"])
            assert list(shared["attributes"]) == ["POSITION"]
            corners = vectors(lean, lean_blob, shared["attributes"]["POSITION"])
            each = numbers(lean, lean_blob, shared["indices"])
            assert np.array_equal(corners[each], vectors(full, blob, whole["attributes"]["POSITION"]))
            assert len(np.unique(corners, axis=0)) == len(corners)
