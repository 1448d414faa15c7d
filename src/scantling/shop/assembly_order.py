"""The order in which joints are closed: one direction together, short frames before long rails."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from scantling.joinery.work import JointWork
from scantling.piece.geometry import Vec, dot
from scantling.piece.model import Part

__all__ = ["Bodies", "JointGroup", "components", "groups_in_order", "parallel", "side_clusters"]

_PARALLEL = math.cos(math.radians(15.0))
"""Joints whose directions differ by less can be closed in one go (common practice: a little spring)."""


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


def groups_in_order(works: Sequence[JointWork], parts: Mapping[str, Part]) -> tuple[JointGroup, ...]:
    """Groups of one assembly: those with short rails first.

    Parts held by a single joint each enter by themselves, so those that enter one and the same part go
    together whatever their directions.

    Parameters
    ----------
    works
        Glued joints of one assembly.
    parts
        The parts.
    """
    degree = Counter(name for work in works for name in (work.first, work.second))
    hubs: dict[str, list[JointWork]] = {}
    directed: list[tuple[Vec, list[JointWork]]] = []
    for work in works:
        hub = _hub(work, degree)
        if hub:
            hubs.setdefault(hub, []).append(work)
            continue
        for direction, listed in directed:
            if parallel(direction, work.leaves):
                listed.append(work)
                break
        else:
            directed.append((work.leaves, [work]))
    groups = [JointGroup(direction=d, works=tuple(listed)) for d, listed in directed]
    groups += [JointGroup(direction=listed[0].leaves, works=tuple(listed)) for listed in hubs.values()]
    return tuple(sorted(groups, key=lambda group: _rail_mm(group, parts)))


def _hub(work: JointWork, degree: Counter[str]) -> str:
    """The part a loose one enters, where the other end of the joint holds nothing else."""
    if degree[work.first] == 1:
        return work.second
    return work.first if degree[work.second] == 1 else ""


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
