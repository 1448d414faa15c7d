"""The piece pulled apart for a picture: how far each part moves, along the ways its joints come apart.

Each joint says in which direction its first part leaves its second. The moves sought open every joint by
the same distance in its own direction, as nearly as the others allow (least squares): where a frame's
joints close a ring, no walk from part to part could be fair to all of them. Sliding along a joint costs
little, so that a leg between two aprons goes out at the corner. Doors and drawers come out of their
openings whole first, and are then pulled apart where they stand.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from scantling.joinery.work import JointWork
from scantling.piece.geometry import Vec, add, scale, sub
from scantling.piece.model import Part
from scantling.solids.framed import framed_in
from scantling.solids.interference import Solids
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import placed_box
from scantling.solids.polyhedron import Floats
from scantling.solids.pulling import pulls, units_of, way_out

__all__ = ["Explosion", "explode", "scene_vector_m"]

_FIRST, _GROWTH = 0.1, 1.25
"""Opening tried first, as a share of the piece's diagonal; growth from try to try. [1]"""
_FARTHEST = 0.5
"""Move past which the eye loses a part's place, as a share of the diagonal. [1]"""
_AIR = 0.025
"""Least air between parts, as a share of the diagonal. [1]"""

_SHORTENINGS, _SHORTER = 5, 0.7
"""Times that a loose part is moved less, and by what share each time. [1]"""
_TOUCH_MM = 0.5
"""Parts nearer than this touch. [mm]"""

_SAME_WAY, _PASSES = 0.9, 200
"""Cosine at which two ways out are one; times that neighbors are pushed off each other. [1]"""

Names = tuple[str, ...]


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

    Where the longest chain of joints would carry a part farther than half the piece's diagonal before
    that, the opening stays at the last that does not, and ``clear`` says no.

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
    works = tuple(works)
    boxes = {name: placed_box(part, meshes[name]) for name, part in parts.items()}
    diagonal = _diagonal(boxes.values())
    case, *guided = units_of(parts, meshes, works)
    root = max(case, key=lambda name: meshes[name].volume_mm3)
    frames = framed_in(case, parts, works, root=root)
    whole = {name for frame in frames for name in frame.names}
    outs = [
        *(
            _Out(names=names, rims=_rims(names, works, case=case), way=way_out(names, works))
            for names in guided
        ),
        *(_Out(names=frame.names, rims=frame.rims, way=frame.way) for frame in frames),
    ]
    units = [tuple(name for name in case if name not in whole), *(out.names for out in outs)]
    moves = [pulls(parts, meshes, works, names=names) for names in units]
    air = _AIR * diagonal
    between = _Air(Solids(parts, meshes), air_mm=air)
    offsets: dict[str, Vec] = {}
    for names, unit_moves in zip(units, moves, strict=True):
        loose = _loose(names, parts, works)
        offsets |= _opened(between, unit_moves, loose=loose, diagonal=diagonal)
    for names, out in _outings(units[0], outs, boxes, offsets, air_mm=air).items():
        offsets |= {name: add(offsets[name], out) for name in names}
    ordered = {name: offsets[name] for name in parts}
    return Explosion(offsets_mm=ordered, clear=between.is_clear(ordered))


def scene_vector_m(world_mm: Vec) -> Vec:
    """A vector of the piece in the axes and unit of the glTF file: Y up, front toward +Z. [m]"""
    x, y, z = scale(world_mm, 0.001)
    return (x, z, 0.0 - y)


def _loose(
    names: Collection[str], parts: Mapping[str, Part], works: Iterable[JointWork]
) -> dict[str, tuple[tuple[str, str], ...]]:
    """Of each part on one other alone, as a stop on its rail: all of its like, each with what it is on."""
    on: dict[str, set[str]] = {name: set() for name in names}
    for work in works:
        if work.first in on and work.second in on:
            on[work.first].add(work.second)
            on[work.second].add(work.first)
    single = {name: next(iter(others)) for name, others in on.items() if len(others) == 1}
    alike: dict[str, list[tuple[str, str]]] = {}
    for name, other in single.items():
        alike.setdefault(parts[name].like, []).append((name, other))
    return {name: tuple(alike[parts[name].like]) for name in single}


def _opened(
    between: _Air,
    moves: Mapping[str, Floats],
    *,
    loose: Mapping[str, Sequence[tuple[str, str]]],
    diagonal: float,
) -> dict[str, Vec]:
    """Moves at the least opening at which a unit's parts are clear, or the widest that keeps them near."""
    longest = max(float(np.linalg.norm(move)) for move in moves.values())
    opening = _FIRST * diagonal
    while True:
        offsets = {name: _vec(move * opening) for name, move in moves.items()}
        farther = opening * _GROWTH
        if farther * longest > _FARTHEST * diagonal:
            return offsets
        settled = _shortened(between, offsets, loose)
        if settled is not None:
            return settled
        opening = farther


def _shortened(
    between: _Air, offsets: Mapping[str, Vec], loose: Mapping[str, Sequence[tuple[str, str]]]
) -> dict[str, Vec] | None:
    """Moves at which all is clear, loose parts moved less where they run into others; None where that is not.

    A stop goes up from its rail as far as the rails go apart; where another rail is over it, less will do.
    """
    moved, tries = dict(offsets), dict.fromkeys(loose, _SHORTENINGS)
    while (pair := between.blocked(moved)) is not None:
        name = next((name for name in pair if tries.get(name)), None)
        if name is None:
            return None
        for one, other in loose[name]:
            tries[one] -= 1
            way = sub(moved[one], moved[other])
            moved[one] = add(moved[other], scale(way, _SHORTER))
    return moved


@dataclass(frozen=True, slots=True, kw_only=True)
class _Out:
    """A door, a drawer or a framed back: its parts, what it is hung in or fixed to, the way it leaves it."""

    names: Names
    rims: Names
    way: Vec


def _rims(names: Names, works: Iterable[JointWork], *, case: Collection[str]) -> Names:
    """What a door or drawer is hung in, of the case where it touches that."""
    members = set(names)
    all_round = [w.second for w in works if w.passes and w.first in members and w.second not in members]
    return tuple(rim for rim in all_round if rim in case) or tuple(all_round)


def _outings(
    case: Names,
    outs: Sequence[_Out],
    boxes: Mapping[str, Floats],
    offsets: Mapping[str, Vec],
    *,
    air_mm: float,
) -> dict[Names, Vec]:
    """How far each goes that comes out whole: with its opening, by its neighbors, out of the case. [mm]"""
    ways = [np.array(out.way) for out in outs]
    beside = [_beside(out.rims, offsets, way) for out, way in zip(outs, ways, strict=True)]
    own = [_box(out.names, boxes, offsets) for out in outs]
    beside = _spread_out(own, beside, ways, air_mm=1.1 * air_mm)
    placed, found = [_box(case, boxes, offsets)], {}
    for one, box, way, aside in zip(outs, own, ways, beside, strict=True):
        out = aside + _travel_mm(box + aside, placed, way, step_mm=air_mm) * way
        placed.append(box + out)
        found[one.names] = _vec(out)
    return found


def _spread_out(
    boxes: Sequence[Floats], beside: Sequence[Floats], ways: Sequence[Floats], *, air_mm: float
) -> list[Floats]:
    """Moves beside one another that keep neighbors from overlapping: a stack of drawers comes apart."""
    moves = [np.array(move) for move in beside]
    pairs = [(i, j) for i in range(len(boxes)) for j in range(i) if abs(ways[i] @ ways[j]) > _SAME_WAY]
    for _ in range(_PASSES):
        pushes = np.zeros((len(boxes), 3))  # all at once, so that what is alike on both sides moves alike
        for i, j in pairs:
            one, other = boxes[i] + moves[i], boxes[j] + moves[j]
            if not _overlap(one + np.array([[-air_mm], [air_mm]]), other):
                continue
            apart = (one.sum(axis=0) - other.sum(axis=0)) / 2.0
            need = (np.ptp(one, axis=0) + np.ptp(other, axis=0)) / 2.0 + air_mm - np.abs(apart)
            need[np.argmax(np.abs(ways[i]))] = np.inf
            axis = int(np.argmin(need))
            push = np.copysign(need[axis] / 2.0, apart[axis])
            pushes[i, axis] += push
            pushes[j, axis] -= push
        if not pushes.any():
            break
        moves = [move + push for move, push in zip(moves, pushes, strict=True)]
    return moves


def _beside(rims: Iterable[str], offsets: Mapping[str, Vec], way: Floats) -> Floats:
    """How far it goes with what it is hung in, square to the way it comes out. [mm] shape (3,)"""
    moved = np.mean([offsets[rim] for rim in rims], axis=0)
    return np.asarray(moved - (moved @ way) * way, dtype=np.float64)


def _travel_mm(box: Floats, placed: Iterable[Floats], way: Floats, *, step_mm: float) -> float:
    """How far a box goes one way until it is past the boxes it would overlap, with air. [mm]"""
    others = list(placed)
    steps = 0
    while any(_overlap(box + steps * step_mm * way, other) for other in others):
        steps += 1
    return (steps + 1) * step_mm if steps else 0.0


def _overlap(one: Floats, other: Floats) -> bool:
    return bool((np.minimum(one[1], other[1]) - np.maximum(one[0], other[0]) > _TOUCH_MM).all())


def _box(names: Iterable[str], boxes: Mapping[str, Floats], offsets: Mapping[str, Vec]) -> Floats:
    """Round some parts where they went. [mm] shape (2, 3)"""
    corners = np.array([boxes[name] + np.array(offsets[name]) for name in names])
    return np.array([corners[:, 0].min(axis=0), corners[:, 1].max(axis=0)])


class _Air:
    """Asks whether there is air between parts where they went; what it finds of how they stood is kept.

    Parameters
    ----------
    solids
        The parts as they stand.
    air_mm
        Least air. [mm]
    """

    def __init__(self, solids: Solids, *, air_mm: float) -> None:
        self._solids, self._air_mm = solids, air_mm
        self._before: dict[tuple[str, str], float] = {}
        self._blocked: tuple[str, str] | None = None

    def is_clear(self, offsets: Mapping[str, Vec]) -> bool:
        """Whether there is air between all parts that went; those that stand close and apart may stay so."""
        return self.blocked(offsets) is None

    def blocked(self, offsets: Mapping[str, Vec]) -> tuple[str, str] | None:
        """Two parts with no air between them."""
        near = self._solids.near(within_mm=self._air_mm, moved_mm=offsets)
        pairs = [pair for pair in near if pair[0] in offsets and pair[1] in offsets]
        pairs.sort(key=lambda pair: pair != self._blocked)  # what was in the way most likely still is
        for pair in pairs:
            gap_mm = self._solids.gap_mm(*pair, within_mm=self._air_mm, moved_mm=offsets)
            if gap_mm < self._air_mm and self._closer(pair, gap_mm):
                self._blocked = pair
                return pair
        return None

    def _closer(self, pair: tuple[str, str], gap_mm: float) -> bool:
        """Whether two parts near each other did not stand so before."""
        if pair not in self._before:
            self._before[pair] = self._solids.gap_mm(*pair, within_mm=self._air_mm)
        before_mm = self._before[pair]
        return before_mm >= self._air_mm or before_mm < _TOUCH_MM or gap_mm < before_mm / 2.0


def _diagonal(boxes: Iterable[Floats]) -> float:
    """Of the box round the whole piece. [mm]"""
    corners = np.array(list(boxes))
    return float(np.linalg.norm(corners[:, 1].max(axis=0) - corners[:, 0].min(axis=0)))


def _vec(array: Floats) -> Vec:
    x, y, z = (float(value) for value in array)
    return (x, y, z)
