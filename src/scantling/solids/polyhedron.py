"""Volume, centroid, area and arrises of a closed triangle mesh."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

__all__ = ["Bulk", "arrises", "bulk_of", "normals_and_areas"]

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

_FLAT_DEG = 0.3
"""Two faces closer than this to one plane meet in no arris. [deg]"""
_CURVED_DEG = 20.0
"""Facets of one curved face meet at less than this: 48 to the circle are 7.5 apart. [deg]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bulk:
    """What a closed mesh holds.

    Parameters
    ----------
    volume_mm3
        [mm3]
    centroid_mm
        Of the volume. [mm] shape (3,)
    area_mm2
        Of the whole surface. [mm2]
    """

    volume_mm3: float
    centroid_mm: Floats
    area_mm2: float


def bulk_of(vertices_mm: Floats, triangles: Ints) -> Bulk:
    r"""Volume, centroid and surface of a closed mesh.

    The solid is the signed sum of tetrahedra from one point to every triangle, by the divergence theorem.

    Parameters
    ----------
    vertices_mm
        [mm] shape (n, 3)
    triangles
        Corners, anticlockwise seen from outside. [1] shape (m, 3)

    Returns
    -------
    Bulk
        All zero for an empty mesh.
    """
    if not len(triangles):
        return Bulk(volume_mm3=0.0, centroid_mm=np.zeros(3), area_mm2=0.0)
    base = vertices_mm.mean(axis=0)
    a, b, c = (vertices_mm[triangles[:, i]] - base for i in range(3))
    normal = np.cross(b - a, c - a)
    sixfold = np.einsum("ij,ij->i", a, normal)
    volume = float(sixfold.sum()) / 6.0
    centroid = base
    if volume > 0.0:
        centroid = base + ((a + b + c) * sixfold[:, None]).sum(axis=0) / 24.0 / volume
    area = float(np.linalg.norm(normal, axis=1).sum()) / 2.0
    return Bulk(volume_mm3=volume, centroid_mm=centroid, area_mm2=area)


def normals_and_areas(vertices_mm: Floats, triangles: Ints) -> tuple[Floats, Floats]:
    """Unit normals (m, 3) and areas (m,) of triangles; a triangle of no area has a zero normal."""
    a, b, c = (vertices_mm[triangles[:, i]] for i in range(3))
    cross = np.cross(b - a, c - a)
    length = np.linalg.norm(cross, axis=1)
    unit = np.divide(cross, length[:, None], out=np.zeros_like(cross), where=length[:, None] > 1e-12)
    return unit, length / 2.0


def arrises(vertices_mm: Floats, triangles: Ints, *, curved: Ints) -> Floats:
    """Lines where two faces meet at an angle: what is drawn of a part.

    Parameters
    ----------
    vertices_mm
        [mm] shape (n, 3)
    triangles
        Corners. [1] shape (m, 3)
    curved
        For each triangle the number of the curved tool that made it, -1 if none did. [1] shape (m,)

    Returns
    -------
    ndarray
        Ends of each line. [mm] shape (k, 2, 3)
    """
    if not len(triangles):
        return np.zeros((0, 2, 3))
    corners = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    owner = np.tile(np.arange(len(triangles)), 3)
    corners.sort(axis=1)
    order = np.lexsort((corners[:, 1], corners[:, 0]))
    corners, owner = corners[order], owner[order]
    same = (corners[1:] == corners[:-1]).all(axis=1)
    first = np.flatnonzero(same)
    left, right = owner[first], owner[first + 1]
    normal, _ = normals_and_areas(vertices_mm, triangles)
    sine = np.linalg.norm(np.cross(normal[left], normal[right]), axis=1)
    angle = np.degrees(np.arctan2(sine, np.einsum("ij,ij->i", normal[left], normal[right])))
    one_curve = (curved[left] >= 0) & (curved[left] == curved[right])
    sharp = angle > np.where(one_curve, _CURVED_DEG, _FLAT_DEG)
    return np.asarray(vertices_mm[corners[first[sharp]]], dtype=np.float64)
