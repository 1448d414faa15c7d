"""The order in which joints are closed: one direction together, short frames before long rails."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations

from scantling.joinery.work import JointWork
from scantling.piece.geometry import Vec, add, dot, norm, scale, unit
from scantling.piece.model import Part
from scantling.shop.gluing.banding import rings_of

__all__ = [
    "Bodies",
    "JointGroup",
    "blocked_joints",
    "components",
    "enterable_order",
    "groups_of",
    "parallel",
    "side_clusters",
]

_PARALLEL = math.cos(math.radians(15.0))
"""Joints whose directions differ by less can be closed in one go (common practice: a little spring)."""
_SPRINGS = math.cos(math.radians(20.0))
"""Splayed parts this near to their mean direction spring into one part (common practice)."""
_ENTERS = math.cos(math.radians(40.0))
"""Joints of two bodies that leave within this of each other can be entered together (two splayed parts)."""
_MOST_ORDERED = 6
"""Groups of which every order is tried; beyond, short rails first is kept but for what must come sooner."""


class Bodies:
    """Which parts are one body, as glue-ups join them."""

    def __init__(self, names: Iterable[str]) -> None:
        self._body: dict[str, frozenset[str]] = {name: frozenset({name}) for name in names}

    def of(self, name: str) -> frozenset[str]:
        """The body a part belongs to."""
        return self._body[name]

    def joined(self, works: Sequence[JointWork]) -> tuple[frozenset[str], ...]:
        """The bodies that joints bring together, in their order."""
        found = (self._body[name] for work in works for name in (work.first, work.second))
        return tuple(dict.fromkeys(found))

    def join(self, works: Sequence[JointWork], more: Iterable[str] = ()) -> frozenset[str]:
        """Make one body of all that joints touch, and of further parts."""
        names = {name for body in self.joined(works) for name in body}
        for name in more:
            names |= self._body[name]
        body = frozenset(names)
        for name in body:
            self._body[name] = body
        return body

    def clusters(self, works: Sequence[JointWork]) -> tuple[tuple[JointWork, ...], ...]:
        """Joints that touch, through bodies, sorted apart from those that do not."""
        groups: list[tuple[set[frozenset[str]], list[JointWork]]] = []
        for work in works:
            ends = {self._body[work.first], self._body[work.second]}
            touching = [group for group in groups if group[0] & ends]
            merged_bodies, merged_works = set(ends), [work]
            for bodies, listed in touching:
                merged_bodies |= bodies
                merged_works = listed + merged_works
            groups = [group for group in groups if group not in touching]
            groups.append((merged_bodies, merged_works))
        order = {id(work): number for number, work in enumerate(works)}
        return tuple(tuple(sorted(listed, key=lambda w: order[id(w)])) for _, listed in groups)


@dataclass(frozen=True, slots=True, kw_only=True)
class JointGroup:
    """Joints closed in one direction, or each by itself into one hub."""

    direction: Vec
    works: tuple[JointWork, ...]


def parallel(a: Vec, b: Vec) -> bool:
    """Whether two directions lie on one line, either way round."""
    return abs(dot(a, b)) >= _PARALLEL


def components(works: Sequence[JointWork]) -> tuple[tuple[JointWork, ...], ...]:
    """Joints sorted into separate assemblies."""
    names = dict.fromkeys(name for work in works for name in (work.first, work.second))
    return Bodies(names).clusters(works)


def groups_of(works: Sequence[JointWork], parts: Mapping[str, Part]) -> tuple[JointGroup, ...]:
    """Groups of one assembly, those with short rails first.

    Parts held by a single joint each enter by themselves, so those that enter one and the same part go
    together whatever their directions. So do the corners of a ring of miters, which a band closes; and
    splayed parts that enter one part within 20 degrees of their mean: they spring a little (common practice).

    Parameters
    ----------
    works
        Glued joints of one assembly.
    parts
        The parts.
    """
    rings = rings_of(works)
    ringed = {work.joint for ring in rings for work in ring}
    works = [work for work in works if work.joint not in ringed]
    degree = Counter(name for work in works for name in (work.first, work.second))
    hubs: dict[str, list[JointWork]] = {}
    rest: list[JointWork] = []
    for work in works:
        hub = _hub(work, degree)
        hubs.setdefault(hub, []).append(work) if hub else rest.append(work)
    groups = [JointGroup(direction=ring[0].leaves, works=ring) for ring in rings]
    groups += [JointGroup(direction=listed[0].leaves, works=tuple(listed)) for listed in hubs.values()]
    fans, rest = _fans(rest)
    groups += fans
    directed: list[tuple[Vec, list[JointWork]]] = []
    for work in rest:
        listed = next((found for direction, found in directed if parallel(direction, work.leaves)), None)
        if listed is None:
            directed.append((work.leaves, [work]))
        else:
            listed.append(work)
    groups += [JointGroup(direction=d, works=tuple(found)) for d, found in directed]
    return tuple(sorted(groups, key=lambda group: _rail_mm(group, parts)))


def _fans(works: Sequence[JointWork]) -> tuple[list[JointGroup], list[JointWork]]:
    """Splayed joints that enter one part, and the joints left over."""
    by_hub: dict[str, list[JointWork]] = {}
    for work in works:
        by_hub.setdefault(work.second, []).append(work)
    fans: list[JointGroup] = []
    taken: set[str] = set()
    for listed in by_hub.values():
        total: Vec = (0.0, 0.0, 0.0)
        for work in listed:
            total = add(total, work.leaves)
        straight = all(parallel(listed[0].leaves, work.leaves) for work in listed)
        if straight or norm(total) < 1e-6:
            continue
        mean = unit(total)
        if all(dot(work.leaves, mean) >= _SPRINGS for work in listed):
            fans.append(JointGroup(direction=mean, works=tuple(listed)))
            taken |= {work.joint for work in listed}
    return fans, [work for work in works if work.joint not in taken]


def _hub(work: JointWork, degree: Counter[str]) -> str:
    """The part a loose one enters, where the other end of the joint holds nothing else."""
    if degree[work.first] == 1:
        return work.second
    return work.first if degree[work.second] == 1 else ""


def enterable_order(groups: Sequence[JointGroup], parts: Mapping[str, Part]) -> tuple[JointGroup, ...]:
    """The order nearest to that given in which every joint can be entered; else that of fewest blocked.

    Parameters
    ----------
    groups
        Groups, in the order preferred.
    parts
        The parts.
    """
    if len(groups) > _MOST_ORDERED:
        return _by_moves(tuple(groups), parts)
    best, fewest = tuple(groups), len(groups) * 1000
    for order in permutations(groups):
        count = _blocked(order, parts)
        if count < fewest:
            best, fewest = order, count
        if count == 0:
            break
    return best


def _by_moves(groups: tuple[JointGroup, ...], parts: Mapping[str, Part]) -> tuple[JointGroup, ...]:
    """The order with groups moved, one at a time, to where fewer joints are blocked, while any helps."""
    best, fewest = groups, _blocked(groups, parts)
    while fewest > 0:
        tried = [(_blocked(order, parts), order) for order in _with_one_moved(best)]
        count, order = min(tried, key=lambda item: item[0])
        if count >= fewest:
            break
        best, fewest = order, count
    return best


def _with_one_moved(groups: tuple[JointGroup, ...]) -> Iterator[tuple[JointGroup, ...]]:
    """Every order that moves one group sooner."""
    for i, group in enumerate(groups):
        for j in range(i):
            yield (*groups[:j], group, *groups[j:i], *groups[i + 1 :])


def _blocked(order: Sequence[JointGroup], parts: Mapping[str, Part]) -> int:
    """Joints that cannot be entered in an order."""
    bodies = Bodies(parts)
    count = 0
    for group in order:
        for cluster in bodies.clusters(group.works):
            count += len(blocked_joints(cluster, bodies))
            bodies.join(cluster)
    return count


def blocked_joints(works: Sequence[JointWork], bodies: Bodies) -> tuple[JointWork, ...]:
    """Joints of one stage with no straight way in.

    Either both parts are one body already, or two bodies meet in joints that leave different ways.
    """
    found: list[JointWork] = []
    ways: dict[tuple[frozenset[str], frozenset[str]], Vec] = {}
    for work in works:
        first, second = bodies.of(work.first), bodies.of(work.second)
        if first == second:
            found.append(work)
            continue
        if (second, first) in ways:
            first, second, way = second, first, scale(work.leaves, -1.0)
        else:
            way = work.leaves
        if dot(ways.setdefault((first, second), way), way) < _ENTERS:
            found.append(work)
    return tuple(found)


def _rail_mm(group: JointGroup, parts: Mapping[str, Part]) -> float:
    """Mean length of the rails, the parts that run most along the direction in which joints close."""
    total = 0.0
    for work in group.works:
        pair = (parts[work.first], parts[work.second])
        rail = max(pair, key=lambda part: abs(dot(part.frame.grain, work.leaves)))
        total += rail.length_mm
    return total / len(group.works)


def side_clusters(works: Sequence[JointWork], direction: Vec) -> tuple[tuple[JointWork, ...], ...]:
    """Joints of one group by where they lie along its direction: one end first, then the other."""
    places = sorted(works, key=lambda work: dot(work.at, direction))
    low, high = dot(places[0].at, direction), dot(places[-1].at, direction)
    if high - low < 1.0:
        half = (len(places) + 1) // 2
        return (tuple(places[:half]), tuple(places[half:]))
    near = [work for work in places if dot(work.at, direction) < low + 0.5 * (high - low)]
    far = [work for work in places if work not in near]
    return (tuple(near), tuple(far))
