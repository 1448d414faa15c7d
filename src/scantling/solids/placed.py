"""A part's solid where the part stands in the piece."""

from __future__ import annotations

import numpy as np

from scantling.piece.geometry import Frame, Vec, cross, dot, scale
from scantling.piece.model import Part
from scantling.remembering import remembered
from scantling.solids.mesh import PartMesh
from scantling.solids.polyhedron import Floats, Ints

__all__ = [
    "is_left_handed",
    "matrix_of",
    "placed_box",
    "placed_centroid",
    "placed_triangles",
    "placed_vertices",
    "turned_over",
]


def is_left_handed(frame: Frame) -> bool:
    """Whether the frame is that of a mirrored part."""
    return dot(cross(frame.grain, frame.width), frame.thickness) < 0.0


def turned_over(frame: Frame) -> Frame:
    """The frame with its thickness axis reversed: right-handed where it was left-handed.

    A mirrored part's solid with w reversed stands in this frame exactly where the part does; kernels and
    file formats that know only rotations take the two together.
    """
    return Frame(
        origin=frame.origin, grain=frame.grain, width=frame.width, thickness=scale(frame.thickness, -1.0)
    )


def matrix_of(frame: Frame) -> Floats:
    """Matrix that takes u, v, w to the world. [mm] shape (4, 4)"""
    matrix = np.eye(4)
    matrix[:3, 0], matrix[:3, 1], matrix[:3, 2] = frame.grain, frame.width, frame.thickness
    matrix[:3, 3] = frame.origin
    return matrix


def placed_vertices(part: Part, mesh: PartMesh) -> Floats:
    """Vertices in the world. [mm] shape (n, 3)"""
    matrix = matrix_of(part.frame)
    return np.asarray(mesh.vertices_mm @ matrix[:3, :3].T + matrix[:3, 3])


def placed_triangles(part: Part, mesh: PartMesh) -> Ints:
    """Triangles anticlockwise from outside in the world, also for a mirrored part. [1] shape (m, 3)"""
    return mesh.triangles[:, ::-1] if is_left_handed(part.frame) else mesh.triangles


def placed_centroid(part: Part, mesh: PartMesh) -> Vec:
    """Center of the wood as cut, in the world. [mm]"""
    u, v, w = (float(x) for x in mesh.centroid_mm)
    return part.frame.point((u, v, w))


@remembered(limit=1024)
def placed_box(part: Part, mesh: PartMesh) -> Floats:
    """Least and greatest corner in the world. [mm] shape (2, 3)"""
    box = np.array([part.middle, part.middle])
    if len(mesh.vertices_mm):
        points = placed_vertices(part, mesh)
        box = np.stack([points.min(axis=0), points.max(axis=0)])
    box.flags.writeable = False
    return box
