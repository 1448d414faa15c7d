"""Parts that are in each other's way: wood in one place twice, and gaps too small to move in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

import manifold3d
import numpy as np

from scantling.piece.geometry import Vec
from scantling.piece.model import Part
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import placed_box, placed_triangles, placed_vertices

__all__ = ["Gap", "Overlap", "gaps", "overlaps"]

_TOUCH_MM = 0.05
"""An overlap thinner than this is a touch: finer than a shop works, and more than the facets of a round
tenon and of its hole stand into each other, a fivehundredth of the radius. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlap:
    """Two parts that fill the same space, their joints cut.

    Parameters
    ----------
    first, second
        Names of the parts, in the order of the piece.
    volume_mm3
        Wood that would be in one place twice. [mm3]
    thickness_mm
        How thick it is on average: twice the volume over the surface. [mm]
    at
        Middle of the box round it, in the world. [mm]
    size_mm
        Of that box, along the world's axes. [mm]
    """

    first: str
    second: str
    volume_mm3: float
    thickness_mm: float
    at: Vec
    size_mm: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """Least distance between two parts; zero where they touch or overlap. [mm]"""

    first: str
    second: str
    gap_mm: float


def overlaps(
    parts: Mapping[str, Part],
    meshes: Mapping[str, PartMesh],
    *,
    least_mm3: float = 1.0,
    least_mm: float = _TOUCH_MM,
) -> tuple[Overlap, ...]:
    """Pairs of parts that overlap as cut.

    Parameters
    ----------
    parts, meshes
        By name; the same names.
    least_mm3
        Smallest volume told. [mm3]
    least_mm
        Smallest thickness told: parts that touch overlap by rounding, round ones by their facets. [mm]

    Returns
    -------
    tuple[Overlap, ...]
        Greatest first.
    """
    solids: dict[str, manifold3d.Manifold] = {}
    found: list[Overlap] = []
    for first, second in _near(parts, meshes, within_mm=0.0):
        common = _solid(solids, first, parts, meshes) ^ _solid(solids, second, parts, meshes)
        volume = common.volume()
        if volume < least_mm3:
            continue
        thickness = 2.0 * volume / common.surface_area()
        if thickness >= least_mm:
            low, high = np.array(common.bounding_box()).reshape(2, 3)
            found.append(
                Overlap(
                    first=first,
                    second=second,
                    volume_mm3=float(volume),
                    thickness_mm=float(thickness),
                    at=_vec((low + high) / 2.0),
                    size_mm=_vec(high - low),
                )
            )
    return tuple(sorted(found, key=lambda o: -o.volume_mm3))


def gaps(
    parts: Mapping[str, Part], meshes: Mapping[str, PartMesh], *, within_mm: float = 5.0
) -> tuple[Gap, ...]:
    """Least distance of every pair of parts nearer than ``within_mm``.

    Parameters
    ----------
    parts, meshes
        By name; the same names.
    within_mm
        Pairs farther apart are left out. [mm] > 0

    Returns
    -------
    tuple[Gap, ...]
        Smallest first, then in the order of the piece.
    """
    solids: dict[str, manifold3d.Manifold] = {}
    found: list[Gap] = []
    for first, second in _near(parts, meshes, within_mm=within_mm):
        one, other = (_solid(solids, name, parts, meshes) for name in (first, second))
        gap = float(one.min_gap(other, within_mm))
        if gap < within_mm:
            found.append(Gap(first=first, second=second, gap_mm=gap))
    return tuple(sorted(found, key=lambda g: g.gap_mm))


def _near(
    parts: Mapping[str, Part], meshes: Mapping[str, PartMesh], *, within_mm: float
) -> Iterator[tuple[str, str]]:
    """Pairs whose boxes come within a distance of each other."""
    boxes = {name: placed_box(part, meshes[name]) for name, part in parts.items()}
    filled = [name for name in parts if len(meshes[name].triangles)]
    for first, second in combinations(filled, 2):
        a, b = boxes[first], boxes[second]
        if (a[0] <= b[1] + within_mm).all() and (b[0] <= a[1] + within_mm).all():
            yield first, second


def _solid(
    known: dict[str, manifold3d.Manifold],
    name: str,
    parts: Mapping[str, Part],
    meshes: Mapping[str, PartMesh],
) -> manifold3d.Manifold:
    """The part as the kernel's solid in the world, made once."""
    if name not in known:
        part, mesh = parts[name], meshes[name]
        triangles = placed_triangles(part, mesh).astype(np.uint64)
        known[name] = manifold3d.Manifold(manifold3d.Mesh64(placed_vertices(part, mesh), triangles))
    return known[name]


def _vec(array: np.ndarray) -> Vec:
    x, y, z = (float(value) for value in array)
    return (x, y, z)
