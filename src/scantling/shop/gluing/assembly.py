"""Stages of putting the piece together: sub-assemblies in an order that can be entered, glued in time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from scantling.joinery.work import JointWork
from scantling.piece.geometry import Vec, dot
from scantling.piece.model import Part
from scantling.shop.gluing.assembly_order import (
    Bodies,
    blocked_joints,
    components,
    enterable_order,
    groups_of,
    side_clusters,
)
from scantling.shop.gluing.banding import corner_cauls, rings_of
from scantling.shop.gluing.glueup import GlueUp, GlueUpKind
from scantling.shop.gluing.pressing import ClampPlan
from scantling.shop.gluing.spreading import StageTime, glue_mass_g, stage_time, warm_first
from scantling.shop.gluing.squeezing import assembly_clamps, assembly_wedges
from scantling.shop.operations.cautions import cautions_for
from scantling.shop.profile.glues import Glue
from scantling.shop.profile.profile import Shop

__all__ = ["Assembly", "plan_assembly"]

_ONE_SIDE_MM = 1.0
"""Joints no farther apart along the way they close are all on one side. [mm]"""
_SAME_WAY = 0.97
"""Cosine within which dry joints leave the same way, so that the part can be put in last. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """How the piece goes together.

    Parameters
    ----------
    stages
        In order; each names those it comes after.
    blocked
        Joints with no straight way in when their turn comes.
    """

    stages: tuple[GlueUp, ...]
    blocked: tuple[str, ...] = ()


def plan_assembly(
    works: Iterable[JointWork],
    parts: Mapping[str, Part],
    shop: Shop,
    *,
    inner: Mapping[str, tuple[GlueUp, ...]] | None = None,
    glue: str = "",
) -> Assembly:
    """Stages of assembly, from what the joints say.

    Joints that close in parallel directions go together, frames with short rails first, long rails last
    (common practice). A stage that takes longer than the glue allows is split, one end first. Parts
    without glue that would be trapped go in with the stage that traps them, glued to each other before if
    they are; the rest come last.

    Parameters
    ----------
    works
        What every joint says.
    parts
        The parts.
    shop
        Glue, clamps, pace.
    inner
        Glue-ups of single parts, that come before.
    glue
        Name of the glue; empty takes the shop's.
    """
    listed = tuple(works)
    planner = _Planner(listed, parts, shop, inner=inner or {}, glue=shop.glue_named(glue))
    for component in planner.inner_first(components(planner.primary)):
        for group in enterable_order(groups_of(component, parts), parts):
            for cluster in planner.bodies.clusters(group.works):
                planner.close(cluster, group.direction)
    planner.finish()
    return Assembly(stages=tuple(planner.stages), blocked=tuple(planner.blocked))


class _Planner:
    """Keeps which parts are one body, and which stage made it, while stages are planned."""

    def __init__(
        self,
        works: tuple[JointWork, ...],
        parts: Mapping[str, Part],
        shop: Shop,
        *,
        inner: Mapping[str, tuple[GlueUp, ...]],
        glue: Glue,
    ) -> None:
        self.bodies = Bodies(parts)
        self.stages: list[GlueUp] = []
        self.blocked: list[str] = []
        self._parts, self._shop, self._glue = parts, shop, glue
        self.primary, self._with = _by_pair(work for work in works if not work.dry)
        self._dry = [work for work in works if work.dry]
        self._made: dict[frozenset[str], str] = {
            frozenset({name}): stages[-1].name for name, stages in inner.items() if stages
        }

    def inner_first(self, assemblies: Iterable[tuple[JointWork, ...]]) -> Iterator[tuple[JointWork, ...]]:
        """Assemblies in their order, but what another would shut in, as a till in its chest, before that."""
        rest = list(assemblies)
        while rest:
            shut_in = [set(self._trapped(frozenset(_names(one)))) for one in rest]
            free = (
                i
                for i, trapped in enumerate(shut_in)
                if not any(trapped & set(_names(other)) for other in rest if other is not rest[i])
            )
            yield rest.pop(next(free, 0))

    def close(self, works: Sequence[JointWork], direction: Vec, *, note: str = "") -> None:
        """Plan the stage that closes joints, split where it would take too long and can be split."""
        self.blocked += [work.joint for work in blocked_joints(works, self.bodies)]
        free = [work for work in works if self.bodies.of(work.first) != self.bodies.of(work.second)]
        if not free:
            return
        brought = self.bodies.joined(free)
        splits = len(brought) > 2 and not rings_of(free)  # a ring closes whole, or not at all
        if splits and not self._time(free, frozenset[str]().union(*brought)).in_time:
            for side in side_clusters(free, direction):
                for cluster in self.bodies.clusters(side):
                    self.close(cluster, direction, note="split to keep within the glue's time")
            return
        self._glue_stage(free, direction, note=note)

    def _glue_stage(self, closed: Sequence[JointWork], direction: Vec, *, note: str) -> None:
        works = [one for work in closed for one in (work, *self._with.get(work.joint, ()))]
        body = frozenset[str]().union(*self.bodies.joined(works))
        trapped = self._trapped(body)
        shut_in = (self.bodies.of(name) for name in trapped)
        brought = tuple(dict.fromkeys((*self.bodies.joined(works), *shut_in)))
        dry = [work for work in self._dry if {work.first, work.second} <= body | set(trapped)]
        self._dry = [work for work in self._dry if work not in dry]
        name = self._name(works)
        works, still_open = _last_side_last(works, direction) if dry else (works, 0)
        area_mm2 = sum(face.area_mm2 for work in works for face in work.glue)
        names = _in_order(brought, self._parts)
        clamps = self._clamps(works, body)
        stage = GlueUp(
            name=name,
            kind=GlueUpKind.ASSEMBLY,
            part="",
            like="",
            bodies=names,
            joints=tuple(work.joint for work in works),
            dry_joints=tuple(work.joint for work in dry),
            glue=self._glue.name,
            area_mm2=area_mm2,
            glue_g=glue_mass_g(area_mm2, self._glue, self._shop),
            clamps=clamps,
            time=self._time(works, body),
            clamp_min=self._glue.clamp_min if clamps else 0.0,
            cure_min=self._glue.cure_min,
            wedges=assembly_wedges(works),
            cauls=tuple(caul for ring in rings_of(works) for caul in corner_cauls(ring)),
            prepare=(
                *_prepare(names, works, clamped=clamps is not None),
                *warm_first(self._glue, self._shop),
            ),
            surface_first=tuple(one[0] for one in names if len(one) == 1),
            cautions=cautions_for("glue", "clamps", "lifting"),
            after=self._after(brought),
            direction=direction,
            note=note,
            open_joints=still_open,
        )
        self.stages.append(stage)
        self._made[self.bodies.join(works, trapped)] = stage.name

    def finish(self) -> None:
        """What is put together without glue, last."""
        for cluster in self.bodies.clusters(self._dry):
            brought = self.bodies.joined(cluster)
            self.stages.append(self._dry_stage(cluster, brought))
            self._made[self.bodies.join(cluster)] = self.stages[-1].name

    def _dry_stage(self, works: Sequence[JointWork], brought: tuple[frozenset[str], ...]) -> GlueUp:
        still = StageTime(
            spread_min=0.0, place_min=0.0, clamp_min=0.0, total_min=0.0, allowed_min=0.0, in_time=True
        )
        return GlueUp(
            name=self._name(works),
            kind=GlueUpKind.DRY,
            part="",
            like="",
            bodies=_in_order(brought, self._parts),
            joints=(),
            dry_joints=tuple(work.joint for work in works),
            glue="",
            area_mm2=0.0,
            glue_g=0.0,
            clamps=None,
            time=still,
            clamp_min=0.0,
            cure_min=0.0,
            cautions=cautions_for("lifting"),
            after=self._after(brought),
            direction=works[0].leaves,
        )

    def _clamps(self, works: Sequence[JointWork], body: frozenset[str]) -> ClampPlan | None:
        return assembly_clamps(works, body, parts=self._parts, shop=self._shop, glue=self._glue.kind)

    def _time(self, works: Sequence[JointWork], body: frozenset[str]) -> StageTime:
        clamps = self._clamps(works, body)
        lengths = tuple(max((f.length_mm for f in work.glue), default=0.0) for work in works)
        return stage_time(
            lengths,
            self._shop,
            parts=len(self.bodies.joined(works)),
            clamps=clamps.used if clamps else 0,
            glue=self._glue,
        )

    def _trapped(self, body: frozenset[str]) -> tuple[str, ...]:
        """Parts held without glue that could not be put in once the body is closed."""
        ways: dict[str, list[Vec]] = {}
        for work in self._dry:
            for name, other, sign in ((work.first, work.second, 1.0), (work.second, work.first, -1.0)):
                if other in body and name not in body:
                    away = (sign * work.leaves[0], sign * work.leaves[1], sign * work.leaves[2])
                    ways.setdefault(name, []).append(away)
        return tuple(name for name, found in ways.items() if any(dot(found[0], w) < _SAME_WAY for w in found))

    def _after(self, brought: Iterable[frozenset[str]]) -> tuple[str, ...]:
        """The stages that made what is brought, and those that made its parts."""
        return tuple(dict.fromkeys(self._made[body] for body in brought if body in self._made))

    def _name(self, works: Sequence[JointWork]) -> str:
        title = " + ".join(dict.fromkeys(name for work in works for name in (work.second, work.first)))
        taken = {stage.name for stage in self.stages}
        return title if title not in taken else f"{title} ({len(taken) + 1})"


def _names(works: Iterable[JointWork]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for work in works for name in (work.first, work.second)))


def _last_side_last(works: list[JointWork], direction: Vec) -> tuple[list[JointWork], int]:
    """Joints with those of the side put on last at the end, and how many come before what goes in dry.

    Both ends of a board close in one go, so what stands in its groove goes in before the first of them. A
    ring closes whole, and keeps its order.
    """
    along = [dot(work.at, direction) for work in works]
    if len(works) < 2 or max(along) - min(along) < _ONE_SIDE_MM or rings_of(works):
        return works, len(works) - 1
    near, far = side_clusters(works, direction)
    begun, last = (near, far) if works[0] in near else (far, near)
    return [*begun, *last], len(begun)


def _by_pair(works: Iterable[JointWork]) -> tuple[tuple[JointWork, ...], dict[str, list[JointWork]]]:
    """One joint for each pair of parts, that of most glue; further ones (pins, a second tenon) go with it."""
    pairs: dict[frozenset[str], list[JointWork]] = {}
    for work in works:
        pairs.setdefault(frozenset((work.first, work.second)), []).append(work)
    primary: list[JointWork] = []
    others: dict[str, list[JointWork]] = {}
    for listed in pairs.values():
        main = max(listed, key=lambda work: sum(face.area_mm2 for face in work.glue))
        primary.append(main)
        others[main.joint] = [work for work in listed if work is not main]
    return tuple(primary), others


def _in_order(bodies: Iterable[frozenset[str]], parts: Mapping[str, Part]) -> tuple[tuple[str, ...], ...]:
    """Bodies as tuples of names, parts in the order of the piece."""
    return tuple(tuple(name for name in parts if name in body) for body in bodies)


def _prepare(
    bodies: tuple[tuple[str, ...], ...], works: Sequence[JointWork], *, clamped: bool
) -> tuple[str, ...]:
    fresh = [body[0] for body in bodies if len(body) == 1]
    words = ["dry-fit with every clamp, caul and wedge in place" if clamped else "dry-fit"]
    if fresh:
        words.append(
            f"sand {', '.join(fresh)} and finish what cannot be reached after; keep finish off the glue faces"
        )
    if any(work.family == "breadboard_end" for work in works):
        words.append("finish the tongue: its edge shows when the panel shrinks")
    return tuple(words)
