"""Parts as triangle meshes: the light kernel, for the live picture, volumes and overlaps."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, field
from threading import Lock

import manifold3d
import numpy as np

from scantling.errors import ModelError
from scantling.joinery.work import Arched, Box, Hole, Profile, Slot, Turned
from scantling.piece.geometry import Frame, Plane, dot, scale
from scantling.solids.circle import SEGMENTS, arc_points, circle_radius, slot_outline
from scantling.solids.polyhedron import Floats, Ints, arrises, bulk_of
from scantling.solids.shape import PartShape, content_key
from scantling.solids.workpiece import (
    Blank,
    Cutter,
    Workpiece,
    right_arch,
    right_handed,
    right_outline,
    workpiece_of,
)

__all__ = ["MeshCache", "PartMesh", "build_mesh", "meshes_of"]

_SMOOTH_MM = 1e-6
"""Faces nearer than this to one another are one. [mm]"""
_DUST_MM3 = 1e-3
"""A loose piece smaller than a grain of sanding dust is rounding, not wood. [mm3]"""
_ALONG_U = Frame(
    origin=(0.0, 0.0, 0.0), grain=(1.0, 0.0, 0.0), width=(0.0, 1.0, 0.0), thickness=(0.0, 0.0, 1.0)
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PartMesh:
    """A part with its joints cut, in its own coordinates.

    Parameters
    ----------
    key
        Content key of the shape; parts of one form share the mesh.
    vertices_mm
        [mm] shape (n, 3)
    triangles
        Corners, anticlockwise from outside in a right-handed frame. [1] shape (m, 3)
    edge_lines
        Arrises, for drawing. [mm] shape (k, 2, 3)
    volume_mm3, surface_area_mm2
        [mm3], [mm2]
    centroid_mm
        Center of the volume. [mm] shape (3,)
    box
        Least and greatest corner. [mm] shape (2, 3)
    pieces
        Separate pieces of wood it falls into: 1 for a part that holds together.
    undrilled
        The kernel's solid before holes were drilled, in the same coordinates: all the wood there is lies in
        it, and it has far fewer faces.
    """

    key: str
    vertices_mm: Floats
    triangles: Ints
    edge_lines: Floats
    volume_mm3: float
    surface_area_mm2: float
    centroid_mm: Floats
    box: Floats
    pieces: int
    undrilled: manifold3d.Manifold


@dataclass(slots=True)
class MeshCache:
    """Meshes lately built, by content key; the oldest unused go first.

    Parameters
    ----------
    limit
        Meshes kept. A mesh of a part with a dozen cuts takes about 70 KB, half of it the solid
        before it is drilled.
    """

    limit: int = 512
    built: int = 0
    """Meshes that had to be built, since the start."""
    _kept: OrderedDict[str, PartMesh] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def __len__(self) -> int:
        return len(self._kept)

    def find(self, key: str) -> PartMesh | None:
        """The mesh of a key, if it is kept."""
        with self._lock:
            mesh = self._kept.get(key)
            if mesh is not None:
                self._kept.move_to_end(key)
            return mesh

    def keep(self, mesh: PartMesh) -> None:
        """Keep one more mesh."""
        with self._lock:
            self.built += 1
            self._kept[mesh.key] = mesh
            while len(self._kept) > self.limit:
                self._kept.popitem(last=False)


def meshes_of(shapes: Mapping[str, PartShape], cache: MeshCache | None = None) -> dict[str, PartMesh]:
    """Meshes of all parts, by name; parts of one form share one.

    Parameters
    ----------
    shapes
        By name.
    cache
        Where meshes of earlier designs are kept; one of its own if not given.

    Returns
    -------
    dict[str, PartMesh]
        In the order given.
    """
    cache = MeshCache() if cache is None else cache
    return {name: build_mesh(shape, cache) for name, shape in shapes.items()}


def build_mesh(shape: PartShape, cache: MeshCache | None = None) -> PartMesh:
    """A part with its joints cut, in its own coordinates.

    Parameters
    ----------
    shape
        The part, its extensions and cuts.
    cache
        Looked into first, and filled.

    Returns
    -------
    PartMesh
        Empty, with no volume, if nothing of the wood is left.

    Raises
    ------
    ModelError
        If the kernel refuses a tool.
    """
    key = content_key(shape)
    known = None if cache is None else cache.find(key)
    if known is not None:
        return known
    mesh = _carve(key, workpiece_of(shape))
    if cache is not None:
        cache.keep(mesh)
    return mesh


def _carve(key: str, work: Workpiece) -> PartMesh:
    blank = _blank(work.blank)
    curved = {blank.original_id()} if work.blank.diameters_mm is not None else set()
    body = blank
    for plane in work.planes:
        body = _trim(body, plane)
    reach = _reach(work.blank)
    # Holes last: they meet little else, and what has none yet is soon held against other parts.
    undrilled = body
    for drilled in (False, True):
        for cutter in work.tools:
            if isinstance(cutter, Hole) is not drilled:
                continue
            tool = _tool(cutter, reach)
            if not isinstance(cutter, Box | Profile):
                curved.add(tool.original_id())
            body -= tool
        body = body.set_tolerance(_SMOOTH_MM)
        if body.status() != manifold3d.Error.NoError:
            raise ModelError(f"the mesh kernel refused a tool: {body.status()}")
        undrilled = undrilled if drilled else body
    return _finish(key, body, curved, undrilled=undrilled)


def _finish(
    key: str, body: manifold3d.Manifold, curved: set[int], *, undrilled: manifold3d.Manifold
) -> PartMesh:
    loose = [piece for piece in body.decompose() if piece.volume() > _DUST_MM3]
    if len(loose) != 1:
        body = manifold3d.Manifold.compose(loose)
    vertices, triangles, made_by = _arrays(body)
    bulk = bulk_of(vertices, triangles)
    on_curve = np.where(np.isin(made_by, list(curved)), made_by, -1)
    box = np.stack([vertices.min(axis=0), vertices.max(axis=0)]) if len(vertices) else np.zeros((2, 3))
    mesh = PartMesh(
        key=key,
        vertices_mm=vertices,
        triangles=triangles,
        edge_lines=arrises(vertices, triangles, curved=on_curve),
        volume_mm3=bulk.volume_mm3,
        surface_area_mm2=bulk.area_mm2,
        centroid_mm=bulk.centroid_mm,
        box=box,
        pieces=len(loose),
        undrilled=undrilled,
    )
    for array in (mesh.vertices_mm, mesh.triangles, mesh.edge_lines, mesh.centroid_mm, mesh.box):
        array.flags.writeable = False
    return mesh


def _arrays(body: manifold3d.Manifold) -> tuple[Floats, Ints, Ints]:
    """Vertices, triangles and, for each triangle, the original it comes from."""
    raw = body.to_mesh64()
    vertices = np.array(raw.vert_properties, dtype=np.float64)[:, :3]
    triangles = np.array(raw.tri_verts, dtype=np.int64)
    merged = np.arange(len(vertices))
    merged[np.array(raw.merge_from_vert, dtype=np.int64)] = np.array(raw.merge_to_vert, dtype=np.int64)
    starts = np.array(raw.run_index, dtype=np.int64)
    runs: Ints = (starts[1:] - starts[:-1]) // 3
    made_by = np.repeat(np.array(raw.run_original_id, dtype=np.int64), runs)
    return vertices, merged[triangles], made_by


def _trim(body: manifold3d.Manifold, plane: Plane) -> manifold3d.Manifold:
    """What lies behind a plane: the kernel keeps the side its normal points to."""
    return body.trim_by_plane(scale(plane.normal, -1.0), -dot(plane.point, plane.normal))


def _reach(blank: Blank) -> float:
    """A length greater than the part in any direction. [mm]"""
    across = max(blank.width_mm, blank.thickness_mm, *(blank.diameters_mm or (0.0,)))
    return 2.0 * (blank.end_mm - blank.start_mm + across)


def _blank(blank: Blank) -> manifold3d.Manifold:
    length = blank.end_mm - blank.start_mm
    if blank.diameters_mm is None:
        bar = manifold3d.Manifold.cube((length, blank.width_mm, blank.thickness_mm)).translate(
            (blank.start_mm, -blank.width_mm / 2.0, -blank.thickness_mm / 2.0)
        )
        return bar.as_original()
    radii = [circle_radius(d / 2.0) for d in blank.diameters_mm]
    round_bar = manifold3d.Manifold.cylinder(length, radii[0], radii[1], SEGMENTS)
    return _stood(round_bar, _ALONG_U).translate((blank.start_mm, 0.0, 0.0)).as_original()


def _stood(solid: manifold3d.Manifold, frame: Frame) -> manifold3d.Manifold:
    """A solid drawn with z along the grain axis, x along the width axis, put where the frame stands."""
    axes = right_handed(frame)
    columns = np.array([axes.width, axes.thickness, axes.grain, axes.origin], dtype=np.float64).T
    return solid.transform(columns)


def _tool(tool: Cutter, reach: float) -> manifold3d.Manifold:
    match tool:
        case Box():
            cube = manifold3d.Manifold.cube((tool.width_mm, tool.thickness_mm, tool.length_mm))
            solid = cube.translate((-tool.width_mm / 2.0, -tool.thickness_mm / 2.0, 0.0))
        case Slot():
            outline = np.array(slot_outline(tool.length_mm, tool.width_mm))
            solid = manifold3d.Manifold.extrude(manifold3d.CrossSection([outline]), tool.depth_mm)
        case Hole():
            solid = _cylinder(tool.diameter_mm, tool.depth_mm)
        case Turned():
            side = 2.0 * (reach + tool.diameter_mm)
            slab = manifold3d.Manifold.cube((side, side, tool.length_mm))
            core = _cylinder(tool.diameter_mm, tool.length_mm + 2.0).translate((0.0, 0.0, -1.0))
            solid = slab.translate((-side / 2.0, -side / 2.0, 0.0)) - core
        case Arched():
            (first, last, *rest), through = right_arch(tool)
            corners = _anticlockwise([*arc_points(first, through, last), *rest])
            solid = manifold3d.Manifold.extrude(manifold3d.CrossSection([corners]), tool.length_mm)
        case Profile():
            outline = np.array(right_outline(tool))
            solid = manifold3d.Manifold.extrude(manifold3d.CrossSection([outline]), tool.length_mm)
    return _stood(solid, tool.frame).as_original()


def _anticlockwise(corners: list[tuple[float, float]]) -> Floats:
    turned = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    return np.array(corners if turned > 0.0 else corners[::-1])


def _cylinder(diameter_mm: float, length_mm: float) -> manifold3d.Manifold:
    radius = circle_radius(diameter_mm / 2.0)
    return manifold3d.Manifold.cylinder(length_mm, radius, radius, SEGMENTS)
