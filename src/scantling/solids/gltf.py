"""The piece as one binary glTF 2.0 file: what the page shows, and what other programs read.

Meters, Y up, X along the piece, front toward +Z, as the format asks. One node a part, named after it,
with its faces flat shaded and its arrises as lines. Parts of one form share one mesh. Loose things of the
joints are nodes of their own, ``JOINT/THING NUMBER``: each says which parts it holds and which it goes with.

References
----------
Khronos Group, *glTF 2.0 Specification* (ISO/IEC 12113:2022), sections 3.6, 3.7 and 4.4.
"""

from __future__ import annotations

import json
import struct
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, Protocol

import numpy as np

from scantling.joinery.work import JointWork
from scantling.piece.geometry import Frame
from scantling.piece.model import Part
from scantling.remembering import remembered
from scantling.solids.loose import LooseSolid, goes_with, is_metal, loose_solid
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import is_left_handed, matrix_of, turned_over
from scantling.solids.polyhedron import Floats, Ints, normals_and_areas
from scantling.solids.tones import Color, loose_color

__all__ = ["glb_bytes"]

_METERS = 0.001
_TO_Y_UP = np.array([[1.0, 0.0, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0], [0.0, -1.0, 0.0, 0.0], [0.0, 0.0, 0.0, 1.0]])
_PLAIN: Color = (0.78, 0.62, 0.44)
_LINE: Color = (0.16, 0.12, 0.09)
_FLOAT, _SHORT, _INT, _ARRAY_BUFFER, _INDEX_BUFFER, _LINES, _TRIANGLES = 5126, 5123, 5125, 34962, 34963, 1, 4
_MOST_SHORT = 65_535
"""Corners that a number of two bytes counts; its greatest stands for none."""
_SEEN_M2 = 1e-14
"""Faces smaller than this are rounding. [m2]"""

_Primitives = dict[str, dict[str, Any]]
"""Of ``faces`` and, where there are any, ``lines``: their attributes and indices."""


@dataclass(slots=True)
class _Scene:
    """The document while it is put together."""

    blob: bytearray = field(default_factory=bytearray)
    views: list[dict[str, Any]] = field(default_factory=list)
    accessors: list[dict[str, Any]] = field(default_factory=list)
    materials: list[dict[str, Any]] = field(default_factory=list)
    meshes: list[dict[str, Any]] = field(default_factory=list)
    nodes: list[dict[str, Any]] = field(default_factory=list)

    def accessor(self, stored: _Stored) -> int:
        """Store an array; the number of its accessor."""
        size = len(stored.data)
        view = {"buffer": 0, "byteOffset": len(self.blob), "byteLength": size, "target": stored.target}
        self.blob += stored.data + b"\0" * (-size % 4)
        self.views.append(view)
        self.accessors.append({"bufferView": len(self.views) - 1, **stored.entry})
        return len(self.accessors) - 1

    def material(self, name: str, color: Color) -> int:
        """A matt material; the number of it."""
        surface = {
            "baseColorFactor": [*(_linear(c) for c in color), 1.0],
            "metallicFactor": 0.0,
            "roughnessFactor": 0.85,
        }
        self.materials.append({"name": name, "pbrMetallicRoughness": surface})
        return len(self.materials) - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stored:
    """An array as the file holds it, with what its accessor says of it."""

    data: bytes
    target: int
    entry: Mapping[str, Any]


def _vectors(array: Floats, *, bounds: bool) -> _Stored:
    """Vectors as 32-bit floats."""
    data = np.ascontiguousarray(array, dtype="<f4")
    entry: dict[str, Any] = {"componentType": _FLOAT, "count": len(data), "type": "VEC3"}
    if bounds:
        entry["min"] = [float(x) for x in data.min(axis=0)]
        entry["max"] = [float(x) for x in data.max(axis=0)]
    return _Stored(data=data.tobytes(), target=_ARRAY_BUFFER, entry=entry)


def _indices(array: Ints, *, corners: int) -> _Stored:
    """Numbers of corners, in two bytes where they fit."""
    short = corners <= _MOST_SHORT
    data = np.ascontiguousarray(array.reshape(-1), dtype="<u2" if short else "<u4")
    entry = {"componentType": _SHORT if short else _INT, "count": len(data), "type": "SCALAR"}
    return _Stored(data=data.tobytes(), target=_INDEX_BUFFER, entry=entry)


class _Encoding(Protocol):
    """Stores faces and lines of a solid."""

    def __call__(self, scene: _Scene, mesh: PartMesh | LooseSolid, *, over: bool) -> _Primitives: ...


def glb_bytes(
    parts: Mapping[str, Part],
    meshes: Mapping[str, PartMesh],
    *,
    colors: Mapping[str, Color] | None = None,
    works: Iterable[JointWork] = (),
    lean: bool = False,
) -> bytes:
    """The piece as a binary glTF file; equal pieces give equal bytes.

    Parameters
    ----------
    parts, meshes
        By name; the same names.
    colors
        Color by species; a plain wood color where none is given.
    works
        Joints whose loose tenons, pins, clips and so on are drawn too.
    lean
        Whether faces and arrises share their corners and no normals are told, as the page takes it: a fifth
        of the size. Faces without normals are flat (section 3.7.2.1); not every program keeps to that.

    Returns
    -------
    bytes
        The whole file.
    """
    scene = _Scene()
    wanted = colors or {}
    woods = {
        species: scene.material(species, wanted.get(species, _PLAIN))
        for species in dict.fromkeys(part.species for part in parts.values())
    }
    line = scene.material("arris", _LINE)
    encoded = _shared if lean else _attributes
    forms: dict[tuple[str, bool, str], int] = {}
    attributes: dict[tuple[str, bool], _Primitives] = {}
    for name, part in parts.items():
        node = _node(name, part)
        scene.nodes.append(node)
        mesh, over = meshes[name], is_left_handed(part.frame)
        if not len(mesh.triangles):
            continue
        form = (mesh.key, over, part.species)
        if form not in forms:
            if form[:2] not in attributes:
                attributes[form[:2]] = encoded(scene, mesh, over=over)
            scene.meshes.append(_mesh(part.like, attributes[form[:2]], woods[part.species], line))
            forms[form] = len(scene.meshes) - 1
        node["mesh"] = forms[form]
    _add_loose(scene, works, line, encoded=encoded)
    return _pack(scene)


def _add_loose(scene: _Scene, works: Iterable[JointWork], line: int, *, encoded: _Encoding) -> None:
    """A node for each loose thing that a joint shows; those of one kind and size share a mesh."""
    materials: dict[bool, int] = {}
    forms: dict[tuple[object, ...], int] = {}
    shown = [(work, each) for work in works for each in work.connectors if each.frames]
    for work, connector in shown:
        kind, metal = connector.kind, is_metal(connector.kind)
        if metal not in materials:
            name = "metal" if metal else "loose wood"
            materials[metal] = scene.material(name, loose_color(metal=metal))
        form = (kind, connector.size_mm)
        if form not in forms:
            attributes = encoded(scene, loose_solid(connector), over=False)
            scene.meshes.append(_mesh(kind.value, attributes, materials[metal], line))
            forms[form] = len(scene.meshes) - 1
        extras = {"loose": kind.value, "between": [work.first, work.second], "with": goes_with(work, kind)}
        for number, frame in enumerate(connector.frames, start=1):
            node = _placed(f"{work.joint}/{kind.value} {number}", frame, extras)
            scene.nodes.append({**node, "mesh": forms[form]})


def _node(name: str, part: Part) -> dict[str, Any]:
    """The part's place."""
    return _placed(name, part.frame, {"like": part.like, "species": part.species})


def _placed(name: str, at: Frame, extras: Mapping[str, Any]) -> dict[str, Any]:
    """A node, its place as a rotation and a shift."""
    return {"name": name, "matrix": _matrix(at), "extras": dict(extras)}


@remembered(limit=2048)
def _matrix(at: Frame) -> tuple[float, ...]:
    matrix = _TO_Y_UP @ matrix_of(turned_over(at) if is_left_handed(at) else at)
    matrix[:3, 3] *= _METERS
    return tuple(round(float(x), 12) + 0.0 for x in matrix.T.ravel())


def _attributes(scene: _Scene, mesh: PartMesh | LooseSolid, *, over: bool) -> _Primitives:
    """Accessors of the faces and lines; for a mirrored part reversed in w, winding too."""
    vertices, triangles = _turned(mesh, over=over)
    normals, areas = normals_and_areas(vertices, triangles)
    seen = areas > _SEEN_M2
    faces = {
        "POSITION": scene.accessor(_vectors(vertices[triangles[seen]].reshape(-1, 3), bounds=True)),
        "NORMAL": scene.accessor(_vectors(np.repeat(normals[seen], 3, axis=0), bounds=False)),
    }
    if not len(mesh.edge_lines):
        return {"faces": {"attributes": faces}}
    lines = (mesh.edge_lines * _hand(over=over) * _METERS).reshape(-1, 3)
    return {
        "faces": {"attributes": faces},
        "lines": {"attributes": {"POSITION": scene.accessor(_vectors(lines, bounds=True))}},
    }


def _shared(scene: _Scene, mesh: PartMesh | LooseSolid, *, over: bool) -> _Primitives:
    """As :func:`_attributes`, faces and lines by numbers of corners they have in common."""
    corners, faces, lines = _numbered(mesh, over)
    attributes = {"POSITION": scene.accessor(corners)}
    found: _Primitives = {"faces": {"attributes": attributes, "indices": scene.accessor(faces)}}
    if lines is not None:
        found["lines"] = {"attributes": attributes, "indices": scene.accessor(lines)}
    return found


@lru_cache(maxsize=512)
def _numbered(mesh: PartMesh | LooseSolid, over: bool) -> tuple[_Stored, _Stored, _Stored | None]:
    """Corners, and the numbers of those of the faces that are seen and of the lines; kept with their mesh."""
    vertices, triangles = _turned(mesh, over=over)
    _, areas = normals_and_areas(vertices, triangles)
    ends = mesh.edge_lines.reshape(-1, 3)
    rows = np.vstack([mesh.vertices_mm, ends])
    _, first, each = np.unique(rows, axis=0, return_index=True, return_inverse=True)
    lines = first[each.reshape(-1)[len(vertices) :]]
    return (
        _vectors(vertices, bounds=True),
        _indices(triangles[areas > _SEEN_M2], corners=len(vertices)),
        _indices(lines, corners=len(vertices)) if len(lines) else None,
    )


def _turned(mesh: PartMesh | LooseSolid, *, over: bool) -> tuple[Floats, Ints]:
    """Corners and triangles in a right-handed frame. [m]"""
    triangles = mesh.triangles[:, ::-1] if over else mesh.triangles
    return mesh.vertices_mm * _hand(over=over) * _METERS, triangles


def _hand(*, over: bool) -> Floats:
    return np.array([1.0, 1.0, -1.0 if over else 1.0])


def _mesh(name: str, found: _Primitives, wood: int, line: int) -> dict[str, Any]:
    primitives = [{**found["faces"], "mode": _TRIANGLES, "material": wood}]
    if "lines" in found:
        primitives.append({**found["lines"], "mode": _LINES, "material": line})
    return {"name": name, "primitives": primitives}


def _pack(scene: _Scene) -> bytes:
    lists: dict[str, list[dict[str, Any]]] = {
        "nodes": scene.nodes,
        "meshes": scene.meshes,
        "materials": scene.materials,
        "accessors": scene.accessors,
        "bufferViews": scene.views,
        "buffers": [{"byteLength": len(scene.blob)}] if scene.blob else [],
    }
    document = {
        "asset": {"version": "2.0", "generator": "Scantling"},
        "scene": 0,
        "scenes": [{"nodes": list(range(len(scene.nodes)))} if scene.nodes else {}],
        **{key: entries for key, entries in lists.items() if entries},  # the format has no empty lists
    }
    text = json.dumps(document, separators=(",", ":"), ensure_ascii=False).encode()
    chunks = _chunk(b"JSON", text, b" ")
    if scene.blob:
        chunks += _chunk(b"BIN\0", bytes(scene.blob), b"\0")
    return struct.pack("<4sII", b"glTF", 2, 12 + len(chunks)) + chunks


def _chunk(kind: bytes, data: bytes, filler: bytes) -> bytes:
    """One chunk, its length a multiple of four."""
    padded = data + filler * (-len(data) % 4)
    return struct.pack("<I4s", len(padded), kind) + padded


def _linear(value: float) -> float:
    """A screen value as the light it stands for (sRGB, IEC 61966-2-1)."""
    light = value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
    return round(light, 6)
