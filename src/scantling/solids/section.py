"""What a plane cuts of a part, or of a loose thing in a joint: closed loops, by the light kernel."""

from __future__ import annotations

import manifold3d
import numpy as np

from scantling.piece.geometry import Frame, Vec
from scantling.piece.model import Part
from scantling.solids.loose import LooseSolid
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import is_left_handed, matrix_of, placed_triangles, placed_vertices
from scantling.solids.polyhedron import Floats, Ints
from scantling.solids.view import View

__all__ = ["Loop", "loose_loops", "section_loops"]

_STRAIGHT_MM = 1e-3
"""Points nearer than this to the line between their neighbors are none of the outline. [mm]"""

Loop = tuple[tuple[float, float], ...]
"""A closed line, its last point joined to its first; wood lies to the left of it. [mm]"""


def section_loops(part: Part, mesh: PartMesh, *, view: View, at: Vec, half_mm: float) -> tuple[Loop, ...]:
    """Where a plane square to a view cuts a part, within a square about a point.

    Parameters
    ----------
    part, mesh
        The part and its solid.
    view
        How the plane is looked at.
    at
        A point of the plane, the middle of the square. World. [mm]
    half_mm
        Half the side of the square. [mm]

    Returns
    -------
    tuple of Loop
        Right and up of the point; holes run the other way round. Empty where the part is not cut. [mm]
    """
    return _loops(
        placed_vertices(part, mesh), placed_triangles(part, mesh), view=view, at=at, half_mm=half_mm
    )


def loose_loops(solid: LooseSolid, frame: Frame, *, view: View, at: Vec, half_mm: float) -> tuple[Loop, ...]:
    """The same of a loose thing where it sits.

    Parameters
    ----------
    solid, frame
        Its solid in its own coordinates, and where those lie. World.
    view, at, half_mm
        As of :func:`section_loops`.
    """
    matrix = matrix_of(frame)
    points = solid.vertices_mm @ matrix[:3, :3].T + matrix[:3, 3]
    triangles = solid.triangles[:, ::-1] if is_left_handed(frame) else solid.triangles
    return _loops(points, triangles, view=view, at=at, half_mm=half_mm)


def _loops(points: Floats, triangles: Ints, *, view: View, at: Vec, half_mm: float) -> tuple[Loop, ...]:
    axes = np.array([view.right, view.up, view.toward])
    local = (points - np.array(at)) @ axes.T
    low, high = local.min(axis=0), local.max(axis=0)
    if low[2] >= 0.0 or high[2] <= 0.0 or (low[:2] > half_mm).any() or (high[:2] < -half_mm).any():
        return ()
    body = manifold3d.Manifold(manifold3d.Mesh64(local, triangles.astype(np.uint64)))
    window = manifold3d.CrossSection.square((2.0 * half_mm, 2.0 * half_mm), center=True)
    # The mesh cut leaves a point at every edge of a triangle, also where the outline runs straight on.
    cut = (body.slice(0.0) ^ window).simplify(_STRAIGHT_MM)
    return tuple(
        tuple((round(float(x), 4), round(float(y), 4)) for x, y in loop) for loop in cut.to_polygons()
    )
