"""Parts that are in each other's way: wood in one place twice, and gaps too small to move in."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import manifold3d
import numpy as np

from scantling.piece.geometry import Vec
from scantling.piece.model import Part
from scantling.remembering import remembered
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import matrix_of, placed_box, placed_triangles, placed_vertices

__all__ = ["Common", "Gap", "Overlap", "Solids", "gaps", "overlaps", "work_out"]

_STILL: Vec = (0.0, 0.0, 0.0)

_TOUCH_MM = 0.05
"""An overlap thinner than this is a touch: finer than a shop works, and more than the facets of a round
tenon and of its hole stand into each other, a fivehundredth of the radius. [mm]"""
_NOTHING_MM3 = 1e-3
"""Less than this is rounding: a grain of sanding dust. [mm3]"""


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


Common = Callable[[tuple[object, ...], Callable[[], Overlap | None]], Overlap | None]
"""Answers what a pair has in common: from all that it depends on, and the work."""


def work_out(_content: tuple[object, ...], work: Callable[[], Overlap | None]) -> Overlap | None:
    """What a pair has in common, with nothing kept."""
    return work()


def overlaps(
    parts: Mapping[str, Part],
    meshes: Mapping[str, PartMesh],
    *,
    least_mm3: float = 1.0,
    least_mm: float = _TOUCH_MM,
    one: Common = work_out,
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
    one
        Answers one pair, from its content; what keeps answers may stand before :func:`work_out`.

    Returns
    -------
    tuple[Overlap, ...]
        Greatest first.
    """
    solids = Solids(parts, meshes)
    found: list[Overlap] = []
    # What two parts share is no thicker than their boxes share in any direction.
    for pair in solids.near(within_mm=-least_mm):
        content = tuple((name, meshes[name].key, parts[name].frame) for name in pair)
        common = one(content, lambda: _common(solids, *pair))  # noqa: B023 - answered within the turn
        if common is not None and common.volume_mm3 >= least_mm3 and common.thickness_mm >= least_mm:
            found.append(common)
    return tuple(sorted(found, key=lambda o: -o.volume_mm3))


def _common(solids: Solids, first: str, second: str) -> Overlap | None:
    """What two parts have in common; None for nothing."""
    # What they share is no more than before their holes were drilled, and holes are most of their faces.
    if (solids.undrilled(first) ^ solids.undrilled(second)).volume() < _NOTHING_MM3:
        return None
    common = solids.placed(first) ^ solids.placed(second)
    volume, surface = common.volume(), common.surface_area()
    if volume <= 0.0 or surface <= 0.0:
        return None
    low, high = np.array(common.bounding_box()).reshape(2, 3)
    return Overlap(
        first=first,
        second=second,
        volume_mm3=float(volume),
        thickness_mm=float(2.0 * volume / surface),
        at=_vec((low + high) / 2.0),
        size_mm=_vec(high - low),
    )


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
    solids = Solids(parts, meshes)
    pairs = solids.near(within_mm=within_mm)
    found = [Gap(first=a, second=b, gap_mm=solids.gap_mm(a, b, within_mm=within_mm)) for a, b in pairs]
    return tuple(sorted((gap for gap in found if gap.gap_mm < within_mm), key=lambda gap: gap.gap_mm))


class Solids:
    """Parts as the kernel's solids in the world, each made once, that can be moved about.

    Parameters
    ----------
    parts, meshes
        By name; the meshes may be of more parts.
    """

    def __init__(self, parts: Mapping[str, Part], meshes: Mapping[str, PartMesh]) -> None:
        self._parts, self._meshes = parts, meshes
        self._names = [name for name in parts if len(meshes[name].triangles)]
        boxes = [placed_box(parts[name], meshes[name]) for name in self._names]
        self._boxes = np.array(boxes).reshape(len(boxes), 2, 3)

    def near(
        self, *, within_mm: float, moved_mm: Mapping[str, Vec] | None = None
    ) -> tuple[tuple[str, str], ...]:
        """Pairs whose boxes come within a distance of each other, in the order of the piece. [mm]"""
        shifts = [(moved_mm or {}).get(name, _STILL) for name in self._names]
        boxes = self._boxes + np.array(shifts).reshape(-1, 1, 3)
        low, high = boxes[:, 0], boxes[:, 1] + within_mm
        meet = ((low[:, None] <= high) & (low <= high[:, None])).all(axis=2)
        firsts, seconds = np.nonzero(np.triu(meet, k=1))
        return tuple((self._names[i], self._names[j]) for i, j in zip(firsts, seconds, strict=True))

    def gap_mm(
        self, first: str, second: str, *, within_mm: float, moved_mm: Mapping[str, Vec] | None = None
    ) -> float:
        """Least distance of two parts; ``within_mm`` where they are farther apart. [mm]"""
        one, other = self.placed(first), self.placed(second)
        if moved_mm is not None:
            one, other = one.translate(moved_mm[first]), other.translate(moved_mm[second])
        return float(one.min_gap(other, within_mm))

    def placed(self, name: str) -> manifold3d.Manifold:
        """A part where it stands."""
        return _placed(self._parts[name], self._meshes[name])

    def undrilled(self, name: str) -> manifold3d.Manifold:
        """A part where it stands, before its holes were drilled: no less wood anywhere."""
        return _undrilled(self._parts[name], self._meshes[name])


@remembered(limit=128)
def _undrilled(part: Part, mesh: PartMesh) -> manifold3d.Manifold:
    return mesh.undrilled.transform(matrix_of(part.frame)[:3])


@remembered(limit=128)
def _placed(part: Part, mesh: PartMesh) -> manifold3d.Manifold:
    triangles = placed_triangles(part, mesh).astype(np.uint64)
    return manifold3d.Manifold(manifold3d.Mesh64(placed_vertices(part, mesh), triangles))


def _vec(array: np.ndarray) -> Vec:
    x, y, z = (float(value) for value in array)
    return (x, y, z)
