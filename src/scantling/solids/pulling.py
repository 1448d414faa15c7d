"""Ways along which parts come apart, and moves that open all of them alike: linear least squares."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

import numpy as np

from scantling.joinery.work import JointWork
from scantling.piece.contact import contacts
from scantling.piece.geometry import Vec, add, norm, scale, sub, unit
from scantling.piece.model import Part
from scantling.remembering import remembered
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import placed_box, placed_centroid
from scantling.solids.polyhedron import Floats

__all__ = ["pulls", "units_of", "way_out"]

_SLIDE = 0.02
"""Weight of sliding along a joint, beside opening it. [1]"""
_TOUCH_MM = 0.5
"""Parts nearer than this touch. [mm]"""
_BESIDE_MM, _BESIDE_OPENS = 12.0, 0.3
"""Parts side by side up to this far apart, as loose boards are, open too, by this share. [mm], [1]"""

_TWINS = 1e-6
"""Parts whose weights differ by no more than this share are equally heavy. [1]"""

_Edge = tuple[int, int, Vec, float]
"""Two parts, the way the first leaves the second, and by which share of the opening."""


def units_of(
    parts: Mapping[str, Part], meshes: Mapping[str, PartMesh], works: Iterable[JointWork]
) -> tuple[tuple[str, ...], ...]:
    """What stays together when doors and drawers are taken out: the case, each door, each drawer.

    Parameters
    ----------
    parts, meshes
        By name; the same names.
    works
        What the joints answered.

    Returns
    -------
    tuple
        Names of each unit's parts in the order of the piece, the unit with the heaviest part first. What
        nothing guides in or out belongs to that one.
    """
    group = {name: i for i, name in enumerate(parts)}
    works = tuple(works)
    for work in (w for w in works if not w.passes):
        one, other = group[work.first], group[work.second]
        group = {name: one if g == other else g for name, g in group.items()}
    names = list(parts)
    heaviest = group[names[_heaviest([meshes[name].volume_mm3 for name in names])]]
    guided = {group[w.first] for w in works if w.passes} - {heaviest}
    members: dict[int, list[str]] = {heaviest: []}
    for name, g in group.items():
        members.setdefault(g if g in guided else heaviest, []).append(name)
    return tuple(tuple(names) for names in members.values())


def way_out(names: Iterable[str], works: Iterable[JointWork]) -> Vec:
    """Which way a door or drawer comes out of its opening, whole. World, unit length.

    Parameters
    ----------
    names
        Its parts: one of :func:`units_of` but the first.
    works
        What the joints answered.
    """
    # What moves is first of its joint; of two doors that close on each other, neither guides the other.
    members, way = set(names), (0.0, 0.0, 0.0)
    for work in works:
        if work.passes and work.first in members and work.second not in members:
            way = add(way, work.leaves)
    return unit(way)


def pulls(
    parts: Mapping[str, Part],
    meshes: Mapping[str, PartMesh],
    works: Iterable[JointWork],
    *,
    names: Collection[str],
) -> dict[str, Floats]:
    """Moves of some parts that open what is between them by one, the heaviest of them staying.

    Parameters
    ----------
    parts, meshes
        Of the piece, by name.
    works
        What its joints answered.
    names
        The parts to pull apart from each other.

    Returns
    -------
    dict
        By name. [1] shape (3,)
    """
    number = {name: i for i, name in enumerate(names)}
    weights = [meshes[name].volume_mm3 for name in names]
    middles = [placed_centroid(parts[name], meshes[name]) for name in names]
    root = _heaviest(weights)
    inner = [w for w in works if w.first in number and w.second in number and not w.passes]
    edges: list[_Edge] = [(number[w.first], number[w.second], unit(w.leaves), 1.0) for w in inner]
    joined = {frozenset((w.first, w.second)) for w in inner}
    edges += _touching({name: parts[name] for name in names}, meshes, joined=joined)
    edges += _unjoined(edges, weights, middles, root=root)
    moves = _moves(len(number), tuple(edges), root)
    return {name: moves[i] for name, i in number.items()}


def _touching(
    parts: Mapping[str, Part], meshes: Mapping[str, PartMesh], *, joined: set[frozenset[str]]
) -> list[_Edge]:
    """For parts that touch with no joint between them, or stand close side by side, the way apart.

    It is square to the widest contact.
    """
    number = {name: i for i, name in enumerate(parts)}
    boxes = {name: placed_box(part, meshes[name]) for name, part in parts.items()}
    found: list[_Edge] = []
    for one, other in _near(boxes):
        if frozenset((one, other)) in joined:
            continue
        for within_mm, share in ((_TOUCH_MM, 1.0), (_BESIDE_MM, _BESIDE_OPENS)):
            touching = contacts(parts[one], parts[other], within_mm=within_mm)
            if touching:
                found.append((number[one], number[other], scale(touching[0].normal, -1.0), share))
                break
    return found


def _heaviest(weights: Sequence[float]) -> int:
    """The first of those that are as heavy as any but for rounding: twins differ in their last digits."""
    least = max(weights) * (1.0 - _TWINS)
    return next(i for i, weight in enumerate(weights) if weight >= least)


def _near(boxes: Mapping[str, Floats]) -> list[tuple[str, str]]:
    """Pairs whose boxes come so near each other that they may be side by side, in the order given."""
    names, corners = list(boxes), np.array(list(boxes.values())).reshape(-1, 2, 3)
    low, high = corners[:, 0], corners[:, 1]
    common = np.minimum(high[:, None], high) - np.maximum(low[:, None], low)
    near = np.triu(common.min(axis=2) >= -_BESIDE_MM, k=1)
    return [(names[i], names[j]) for i, j in zip(*np.nonzero(near), strict=True)]


def _unjoined(edges: list[_Edge], weights: list[float], middles: list[Vec], *, root: int) -> list[_Edge]:
    """For each group of parts that no joint ties to the rest, a way out from the heaviest part."""
    group = list(range(len(weights)))
    for first, second, *_ in edges:
        one, other = group[first], group[second]
        group = [one if g == other else g for g in group]
    found: list[_Edge] = []
    for g in dict.fromkeys(group):
        if g == group[root]:
            continue
        heaviest = _heaviest([weight if group[i] == g else 0.0 for i, weight in enumerate(weights)])
        out = sub(middles[heaviest], middles[root])
        found.append((heaviest, root, unit(out) if norm(out) > 1.0 else (0.0, 0.0, 1.0), 1.0))
    return found


@remembered(limit=256)
def _moves(count: int, edges: tuple[_Edge, ...], root: int) -> Floats:
    """Moves for an opening of one, by least squares. [1] shape (count, 3)"""
    stiffness, pull = np.zeros((count, 3, count, 3)), np.zeros((count, 3))
    for first, second, leaves, share in edges:
        along = np.array(leaves)
        block = (1.0 - _SLIDE) * np.outer(along, along) + _SLIDE * np.eye(3)
        for one, other in ((first, second), (second, first)):
            stiffness[one, :, one, :] += block
            stiffness[one, :, other, :] -= block
        pull[first] += share * along
        pull[second] -= share * along
    free = [i for i in range(count) if i != root]
    moves = np.zeros((count, 3))
    if free:
        matrix = stiffness[np.ix_(free, range(3), free, range(3))].reshape(3 * len(free), -1)
        moves[free] = np.linalg.solve(matrix, pull[free].ravel()).reshape(-1, 3)
    moves.flags.writeable = False
    return moves
