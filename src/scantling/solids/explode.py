"""The piece pulled apart for a picture: how far each part moves, along the ways its joints come apart.

Each joint says in which direction its first part leaves its second. The moves sought open every joint by
the same distance in its own direction, as nearly as the others allow (least squares): where a frame's
joints close a ring, no walk from part to part could be fair to all of them. Sliding along a joint costs
little, so that a leg between two aprons goes out at the corner.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import combinations
from typing import TypeVar

import numpy as np

from scantling.joinery.work import JointWork
from scantling.piece.contact import contacts
from scantling.piece.geometry import Vec, add, norm, scale, sub, unit
from scantling.piece.model import Part
from scantling.solids.interference import gaps
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import placed_box, placed_centroid
from scantling.solids.polyhedron import Floats

__all__ = ["Explosion", "explode", "scene_vector_m"]

_SLIDE = 0.02
"""Weight of sliding along a joint, beside opening it. [1]"""
_FIRST, _GROWTH, _TRIES = 0.1, 1.25, 12
"""Opening tried first, as a share of the piece's diagonal; growth from try to try; tries. [1]"""
_AIR = 0.025
"""Least air between parts, as a share of the diagonal. [1]"""

_TOUCH_MM = 0.5
"""Parts nearer than this touch. [mm]"""

_T = TypeVar("_T")
_Edge = tuple[int, int, Vec]


@dataclass(frozen=True, slots=True, kw_only=True)
class Explosion:
    """Where the parts go when the piece is pulled apart.

    Parameters
    ----------
    offsets_mm
        By part, in the world; the heaviest part stays. [mm]
    clear
        Whether no two parts touch any more.
    """

    offsets_mm: Mapping[str, Vec]
    clear: bool


def explode(
    parts: Mapping[str, Part], meshes: Mapping[str, PartMesh], works: Iterable[JointWork]
) -> Explosion:
    """Pull a piece apart, no farther than its parts need to come clear of each other.

    Parameters
    ----------
    parts, meshes
        By name; the same names.
    works
        What the joints answered.

    Returns
    -------
    Explosion
        In the order of the piece.
    """
    names, works = list(parts), tuple(works)
    if len(names) < 2:
        return Explosion(offsets_mm=dict.fromkeys(names, (0.0, 0.0, 0.0)), clear=True)
    number = {name: i for i, name in enumerate(names)}
    boxes = {name: placed_box(part, meshes[name]) for name, part in parts.items()}
    edges: list[_Edge] = [(number[w.first], number[w.second], unit(w.leaves)) for w in works]
    weights = [meshes[name].volume_mm3 for name in names]
    root = int(np.argmax(weights))
    middles = [placed_centroid(parts[name], meshes[name]) for name in names]
    edges += _touching(parts, boxes, joined={frozenset((w.first, w.second)) for w in works})
    edges += _unjoined(edges, weights, middles, root=root)
    moves = _moves(len(names), edges, root=root)
    diagonal = _diagonal(boxes)
    opening, clear = _FIRST * diagonal, False
    for _ in range(_TRIES):
        offsets = {name: _vec(moves[i] * opening) for i, name in enumerate(names)}
        clear = _is_clear(parts, _moved(parts, offsets), meshes, air_mm=_AIR * diagonal)
        if clear:
            break
        opening *= _GROWTH
    return Explosion(offsets_mm=offsets, clear=clear)


def scene_vector_m(world_mm: Vec) -> Vec:
    """A vector of the piece in the axes and unit of the glTF file: Y up, front toward +Z. [m]"""
    x, y, z = scale(world_mm, 0.001)
    return (x, z, 0.0 - y)


def _is_clear(
    still: Mapping[str, Part], moved: Mapping[str, Part], meshes: Mapping[str, PartMesh], *, air_mm: float
) -> bool:
    """Whether there is air between all parts; those that stand close and apart may stay as close."""
    for gap in gaps(moved, meshes, within_mm=air_mm):
        pair = (gap.first, gap.second)
        before = gaps(_of(still, pair), _of(meshes, pair), within_mm=air_mm)
        if not before or before[0].gap_mm < _TOUCH_MM or gap.gap_mm < before[0].gap_mm / 2.0:
            return False
    return True


def _touching(
    parts: Mapping[str, Part], boxes: Mapping[str, Floats], *, joined: set[frozenset[str]]
) -> list[_Edge]:
    """For parts that touch with no joint between them, the way apart: square to the widest contact."""
    number = {name: i for i, name in enumerate(parts)}
    found: list[_Edge] = []
    for one, other in combinations(parts, 2):
        common = np.minimum(boxes[one][1], boxes[other][1]) - np.maximum(boxes[one][0], boxes[other][0])
        if frozenset((one, other)) in joined or common.min() < -_TOUCH_MM:
            continue
        touching = contacts(parts[one], parts[other], within_mm=_TOUCH_MM)
        if touching:
            found.append((number[one], number[other], scale(touching[0].normal, -1.0)))
    return found


def _of(named: Mapping[str, _T], names: Iterable[str]) -> dict[str, _T]:
    return {name: named[name] for name in names}


def _unjoined(edges: list[_Edge], weights: list[float], middles: list[Vec], *, root: int) -> list[_Edge]:
    """For each group of parts that no joint ties to the rest, a way out from the heaviest part."""
    group = list(range(len(weights)))
    for first, second, _ in edges:
        one, other = group[first], group[second]
        group = [one if g == other else g for g in group]
    found: list[_Edge] = []
    for g in dict.fromkeys(group):
        if g == group[root]:
            continue
        heaviest = max((i for i in range(len(group)) if group[i] == g), key=lambda i: weights[i])
        out = sub(middles[heaviest], middles[root])
        found.append((heaviest, root, unit(out) if norm(out) > 1.0 else (0.0, 0.0, 1.0)))
    return found


def _moves(count: int, edges: list[_Edge], *, root: int) -> Floats:
    """Moves for an opening of one, by least squares. [1] shape (count, 3)"""
    stiffness, pull = np.zeros((count, 3, count, 3)), np.zeros((count, 3))
    for first, second, leaves in edges:
        along = np.array(leaves)
        block = (1.0 - _SLIDE) * np.outer(along, along) + _SLIDE * np.eye(3)
        for one, other in ((first, second), (second, first)):
            stiffness[one, :, one, :] += block
            stiffness[one, :, other, :] -= block
        pull[first] += along
        pull[second] -= along
    free = [i for i in range(count) if i != root]
    matrix = stiffness[np.ix_(free, range(3), free, range(3))].reshape(3 * len(free), -1)
    moves = np.zeros((count, 3))
    moves[free] = np.linalg.solve(matrix, pull[free].ravel()).reshape(-1, 3)
    return moves


def _moved(parts: Mapping[str, Part], offsets: Mapping[str, Vec]) -> dict[str, Part]:
    return {
        name: replace(part, frame=replace(part.frame, origin=add(part.frame.origin, offsets[name])))
        for name, part in parts.items()
    }


def _diagonal(boxes: Mapping[str, Floats]) -> float:
    """Of the box round the whole piece. [mm]"""
    corners = np.array(list(boxes.values()))
    return float(np.linalg.norm(corners[:, 1].max(axis=0) - corners[:, 0].min(axis=0)))


def _vec(array: Floats) -> Vec:
    x, y, z = (float(value) for value in array)
    return (x, y, z)
