"""How a piece comes apart, read from its solids: which part can move which way, and what holds what.

For one way, a part is held by every other that it would run into. Parts that hold each other in a ring move
only together; those that nothing holds come off. What comes off is taken apart in turn, and so is what is
left. Put together, it goes in the opposite order.

Of what is free a maker does not take the first that comes: doors and drawers are taken out whole along their
opening, and a part is drawn off the way its joints open rather than slid off another way that happens to be
free. So the order goes the ways of the picture pulled apart (:mod:`scantling.solids.explode`): both take
units and their ways from :mod:`scantling.solids.pulling`. (Blocking graphs: Wilson and Latombe, Artificial
Intelligence 71, 1994, "Geometric reasoning about mechanical assembly".)
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import manifold3d
import numpy as np

from scantling.joinery.work import ConnectorKind, JointWork
from scantling.piece.geometry import Vec, dot, scale, unit
from scantling.piece.model import Part
from scantling.solids.loose import loose_solid
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import is_left_handed, matrix_of, placed_triangles, placed_vertices
from scantling.solids.polyhedron import Floats
from scantling.solids.pulling import units_of, way_out

__all__ = ["Removal", "TakingApart", "take_apart"]

STEPS_MM = (1.5, 3.5, 6.0, 25.0, 90.0, 250.0, 700.0)
"""How far a part is moved to see if it runs into another, half way out of a shallow dovetail too. [mm]"""
_SAME_WAY = 0.9999999
"""Cosine within which two ways are one (a fortieth of a degree). [1]"""
_LEANS = 0.7
"""Cosine from which on a part enters a leaning joint along its own grain. [1]"""
_THICK_MM, _LEAST_MM3 = 0.15, 5.0
"""An overlap thinner or smaller than this is a touch or the facets of a round. [mm], [mm3]"""
_GLUED_IN = (ConnectorKind.LOOSE_TENON, ConnectorKind.DOWEL, ConnectorKind.SPLINE)
_AXES: tuple[Vec, ...] = (
    (0.0, 0.0, 1.0),
    (1.0, 0.0, 0.0),
    (-1.0, 0.0, 0.0),
    (0.0, -1.0, 0.0),
    (0.0, 1.0, 0.0),
    (0.0, 0.0, -1.0),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Removal:
    """What comes off what is left, all at once, and which way.

    Parameters
    ----------
    parts
        What moves, in the order of the piece.
    left
        What it moves away from.
    way
        World, unit length.
    """

    parts: tuple[str, ...]
    left: tuple[str, ...]
    way: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class TakingApart:
    """The order in which a piece comes apart.

    Parameters
    ----------
    removals
        In order.
    rings
        Where no straight move parts anything: a joint's first part, what stops it on its way out, what
        stops that, and so on to the joint's second part.
    """

    removals: tuple[Removal, ...]
    rings: tuple[tuple[str, ...], ...] = ()


def take_apart(
    parts: Mapping[str, Part], meshes: Mapping[str, PartMesh], works: Iterable[JointWork]
) -> TakingApart:
    """An order in which a piece comes apart by straight moves, and the rings that do not.

    Pins, screws, wedges and bolts are taken to be out; loose tenons, dowels and splines stay in the second
    part of their joint.

    Parameters
    ----------
    parts, meshes
        By name; the same names.
    works
        What the joints answered: the ways in which they come apart are tried, and the world's axes.
    """
    works = tuple(works)
    solids = _Solids(parts, meshes, works)
    ways = _ways(works, parts)
    removals: list[Removal] = []
    rings: list[tuple[str, ...]] = []
    whole = tuple(name for name in parts if len(meshes[name].triangles))
    units = [one for one in units_of(parts, meshes, works)[1:] if set(one) <= set(whole)]
    waiting = _units_out(whole, units, works, solids=solids, removals=removals)
    while waiting:
        names = waiting.pop()
        if len(names) < 2:
            continue
        drawn = _drawn_off(names, works, solids) or _drawn_off_whole(names, works, ways, solids)
        off, way = drawn or _first_off(names, ways, solids)
        if not off:
            rings.append(_ring(names, works, parts, solids))
            continue
        left = tuple(name for name in names if name not in off)
        way = way if drawn else _own_way(off, left, works, solids) or way
        removals.append(Removal(parts=off, left=left, way=way))
        waiting += [off, left]
    return TakingApart(removals=tuple(removals), rings=tuple(rings))


def _units_out(
    whole: tuple[str, ...],
    units: Sequence[tuple[str, ...]],
    works: Iterable[JointWork],
    *,
    solids: _Solids,
    removals: list[Removal],
) -> list[tuple[str, ...]]:
    """Doors and drawers taken out one by one, as far as they are free; what is then to be taken apart."""
    works, held, found, left = tuple(works), list(units), [], whole
    while free := next(filter(None, (_free_unit(one, left, works, solids) for one in held)), None):
        held.remove(free.parts)
        removals.append(free)
        found.append(free.parts)
        left = free.left
    return [*found, left]


def _free_unit(
    names: tuple[str, ...], among: Sequence[str], works: Iterable[JointWork], solids: _Solids
) -> Removal | None:
    """A door or drawer taken out, if nothing of what is left is in its way."""
    way, left = way_out(names, works), tuple(name for name in among if name not in names)
    held = any(solids.stops(name, left, way) for name in names)
    return None if held else Removal(parts=names, left=left, way=way)


def _drawn_off(
    names: Sequence[str], works: Iterable[JointWork], solids: _Solids
) -> tuple[tuple[str, ...], Vec] | None:
    """The lightest part that all its joints let go the same way, free to go it; None where there is none."""
    within = set(names)
    ways: dict[str, list[Vec]] = {name: [] for name in names}
    for work in works:
        if work.first in within and work.second in within:
            leaves = unit(work.leaves)
            ways[work.first].append(leaves)
            ways[work.second].append(scale(leaves, -1.0))
    alike = [
        name for name, found in ways.items() if found and all(dot(found[0], w) > _SAME_WAY for w in found)
    ]
    for name in sorted(alike, key=lambda name: solids.volume_mm3([name])):
        if not solids.stops(name, names, ways[name][0]):
            return (name,), ways[name][0]
    return None


def _drawn_off_whole(
    names: Sequence[str], works: Iterable[JointWork], ways: Sequence[Vec], solids: _Solids
) -> tuple[tuple[str, ...], Vec] | None:
    """The fewest parts that hold each other, tied to the rest by screws alone, free the way these open.

    A framed back is taken off whole and then apart; from under it no side is drawn off its boards.
    """
    within, works = set(names), tuple(works)
    tied = [work for work in works if {work.first, work.second} <= within]
    best: tuple[tuple[str, ...], Vec] | None = None
    for way in ways if any(_screwed(work) for work in tied) else ():
        graph = _held_by(names, way, solids)
        for group in _rings_of(graph):
            moving = set(group)
            crossing = [work for work in tied if (work.first in moving) != (work.second in moving)]
            opens = (dot(unit(work.leaves), way) * (1 if work.first in moving else -1) for work in crossing)
            free = all(other in moving for name in group for other in graph[name])
            whole = 1 < len(group) < len(names)
            if not (free and whole and crossing and all(map(_screwed, crossing))):
                continue
            if all(toward > _SAME_WAY for toward in opens) and (best is None or len(group) < len(best[0])):
                best = (tuple(name for name in names if name in moving), way)
    return best


def _screwed(work: JointWork) -> bool:
    """Whether a joint is held by screws and no glue."""
    return work.dry and any(one.kind is ConnectorKind.SCREW for one in work.connectors)


def _ways_of(work: JointWork, parts: Mapping[str, Part]) -> tuple[Vec, ...]:
    """Ways in which a joint's first part may leave: as it says, and along its grain where it enters so."""
    leaves, grain = unit(work.leaves), parts[work.first].frame.grain
    toward = dot(grain, leaves)
    enters = any(extension.part == work.first for extension in work.extensions)
    if not enters or not _LEANS < abs(toward) < _SAME_WAY:
        return (leaves,)
    return (leaves, grain if toward > 0.0 else scale(grain, -1.0))


def _ways(works: Iterable[JointWork], parts: Mapping[str, Part]) -> tuple[Vec, ...]:
    """Ways tried: of the joints, either way round, then the world's axes."""
    found: list[Vec] = []
    leaving = [way for work in works for way in _ways_of(work, parts)]
    for way in (*leaving, *(scale(way, -1.0) for way in leaving), *_AXES):
        if all(dot(way, other) < _SAME_WAY for other in found):
            found.append(way)
    return tuple(found)


class _Solids:
    """The parts as the kernel's solids in the world, their glued-in tenons with them; who stops whom."""

    def __init__(
        self, parts: Mapping[str, Part], meshes: Mapping[str, PartMesh], works: Iterable[JointWork]
    ) -> None:
        self._parts, self._meshes = parts, meshes
        self._pegs = _pegs(works)
        self._order = {name: number for number, name in enumerate(parts)}
        self._made: dict[str, manifold3d.Manifold] = {}
        self._stops: dict[tuple[str, str, Vec], bool] = {}
        self._near: dict[Vec, np.ndarray] = {}
        self._boxes = np.array([self._box(name) for name in parts])

    def volume_mm3(self, names: Iterable[str]) -> float:
        """Of several parts. [mm3]"""
        return sum(self._meshes[name].volume_mm3 for name in names)

    def stops(self, moving: str, names: Sequence[str], way: Vec) -> list[str]:
        """The parts that one part, moved a way, runs into."""
        row = np.any(self._within_reach(way)[:, self._order[moving], :], axis=0)
        near = (name for name in names if row[self._order[name]] and name != moving)
        return [name for name in near if self._stopped(moving, name, way)]

    def _within_reach(self, way: Vec) -> np.ndarray:
        """By step, part that moves and part that stays: whether their boxes come to overlap."""
        if way not in self._near:
            low, high = self._boxes[:, 0], self._boxes[:, 1]
            found = []
            for step in STEPS_MM:
                shift = step * np.array(way)
                common = np.minimum(high[:, None] + shift, high) - np.maximum(low[:, None] + shift, low)
                found.append((common > _THICK_MM).all(axis=2))
            self._near[way] = np.array(found)
        return self._near[way]

    def _stopped(self, moving: str, still: str, way: Vec) -> bool:
        key = (moving, still, way)
        if key not in self._stops:
            back = (still, moving, scale(way, -1.0))
            self._stops[key] = self._stops.get(back, None) or self._runs_into(moving, still, way)
        return self._stops[key]

    def _runs_into(self, moving: str, still: str, way: Vec) -> bool:
        near = self._within_reach(way)[:, self._order[moving], self._order[still]]
        for step, reaches in zip(STEPS_MM, near, strict=True):
            if not reaches:
                continue
            shift = (step * way[0], step * way[1], step * way[2])
            common = self._solid(moving).translate(shift) ^ self._solid(still)
            volume = common.volume()
            if volume > _LEAST_MM3 and 2.0 * volume / common.surface_area() > _THICK_MM:
                return True
        return False

    def _box(self, name: str) -> Floats:
        low, high = np.array(self._solid(name).bounding_box()).reshape(2, 3)
        return np.stack([low, high])

    def _solid(self, name: str) -> manifold3d.Manifold:
        if name not in self._made:
            part, mesh = self._parts[name], self._meshes[name]
            triangles = placed_triangles(part, mesh).astype(np.uint64)
            whole = manifold3d.Manifold(manifold3d.Mesh64(placed_vertices(part, mesh), triangles))
            for peg in self._pegs.get(name, ()):
                whole += peg
            self._made[name] = whole
        return self._made[name]


def _pegs(works: Iterable[JointWork]) -> dict[str, list[manifold3d.Manifold]]:
    """Loose tenons, dowels and splines, each taken to be glued into the second part of its joint."""
    found: dict[str, list[manifold3d.Manifold]] = {}
    for work in works:
        for connector in work.connectors:
            if connector.kind not in _GLUED_IN:
                continue
            solid = loose_solid(connector)
            for frame in connector.frames:
                matrix = matrix_of(frame)
                points = solid.vertices_mm @ matrix[:3, :3].T + matrix[:3, 3]
                triangles = solid.triangles[:, ::-1] if is_left_handed(frame) else solid.triangles
                mesh = manifold3d.Mesh64(points, triangles.astype(np.uint64))
                found.setdefault(work.second, []).append(manifold3d.Manifold(mesh))
    return found


def _first_off(names: Sequence[str], ways: Sequence[Vec], solids: _Solids) -> tuple[tuple[str, ...], Vec]:
    """A part that comes off by itself, the lightest of one way; else the fewest that do; else none."""
    best: tuple[str, ...] = ()
    best_way, best_size = ways[0], (len(names), float("inf"))
    for way in ways:
        graph = _held_by(names, way, solids)
        for group in _rings_of(graph):
            free = all(other in group for name in group for other in graph[name])
            size = (len(group), solids.volume_mm3(group))
            if free and len(group) < len(names) and size < best_size:
                best, best_way, best_size = group, way, size
        if len(best) == 1:
            break
    return tuple(name for name in names if name in best), best_way


def _own_way(
    off: Sequence[str], left: Sequence[str], works: Iterable[JointWork], solids: _Solids
) -> Vec | None:
    """The free way in which most joints of what comes off open: how a maker would do it."""
    moving, still = set(off), set(left)
    wanted: list[tuple[Vec, int]] = []
    for work in works:
        if (work.first in moving and work.second in still) or (work.second in moving and work.first in still):
            leaves = unit(work.leaves)
            way = leaves if work.first in moving else scale(leaves, -1.0)
            same = next((k for k, (other, _) in enumerate(wanted) if dot(way, other) > _SAME_WAY), None)
            if same is None:
                wanted.append((way, 1))
            else:
                wanted[same] = (wanted[same][0], wanted[same][1] + 1)
    for way, _ in sorted(wanted, key=lambda item: -item[1]):
        if not any(solids.stops(name, left, way) for name in off):
            return way
    return None


def _held_by(names: Sequence[str], way: Vec, solids: _Solids) -> dict[str, list[str]]:
    """For each part, the parts it would run into on that way."""
    return {name: solids.stops(name, names, way) for name in names}


def _rings_of(graph: Mapping[str, Sequence[str]]) -> list[tuple[str, ...]]:
    """Parts that hold each other in rings: strongly connected components, those held by nothing first.

    References
    ----------
    .. [1] R. Tarjan, *Depth-first search and linear graph algorithms*, SIAM Journal on Computing 1, 1972.
    """
    index: dict[str, int] = {}
    low: dict[str, int] = {}
    stack: list[str] = []
    found: list[tuple[str, ...]] = []

    def visit(name: str) -> None:
        index[name] = low[name] = len(index)
        stack.append(name)
        for other in graph[name]:
            if other not in index:
                visit(other)
                low[name] = min(low[name], low[other])
            elif other in stack:
                low[name] = min(low[name], index[other])
        if low[name] == index[name]:
            at = stack.index(name)
            found.append(tuple(stack[at:]))
            del stack[at:]

    for name in graph:
        if name not in index:
            visit(name)
    return found


def _ring(
    names: Sequence[str], works: Iterable[JointWork], parts: Mapping[str, Part], solids: _Solids
) -> tuple[str, ...]:
    """The shortest ring of a joint that cannot open: what stops its first part, and so on to its second.

    A joint that no more than its own two parts keep shut is left out where others tell more.
    """
    within, rings = set(names), []
    for work in works:
        if work.first in within and work.second in within:
            chains = [
                _way_to(_held_by(names, way, solids), work.first, work.second)
                for way in _ways_of(work, parts)
            ]
            rings.append(max(chains, key=len))
    found = [ring for ring in rings if ring]
    return min(found, key=lambda ring: (len(ring) < 3, len(ring)), default=tuple(names))


def _way_to(graph: Mapping[str, Sequence[str]], start: str, goal: str) -> tuple[str, ...]:
    """The shortest chain of parts from one to another, each held by the next; empty where there is none."""
    came: dict[str, str] = {start: start}
    waiting = deque([start])
    while waiting and goal not in came:
        name = waiting.popleft()
        for other in graph[name]:
            if other not in came:
                came[other] = name
                waiting.append(other)
    if goal not in came:
        return ()
    chain = [goal]
    while chain[-1] != start:
        chain.append(came[chain[-1]])
    return tuple(reversed(chain))
