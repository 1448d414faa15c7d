"""Glue-ups inside one part: a panel from its strips, a lamination from its layers."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise

from scantling.shop.gluing.glueup import GlueUp, GlueUpKind
from scantling.shop.gluing.pressing import ClampPlan, plan_clamps, pressure_for, within_time
from scantling.shop.gluing.spreading import StageTime, glue_mass_g, stage_time, warm_first
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.operations.cautions import cautions_for
from scantling.shop.profile.glues import Glue
from scantling.shop.profile.profile import Shop

__all__ = ["inner_glueups", "lamination_glueups", "panel_glueups"]

_DAY_OF_GLUING = "joint the edges on the day of gluing, dry-fit, and check that the row lies flat"
_LAYER_FACES = "plane the glue faces on the day of gluing; mark which end and face is which"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """Pieces side by side, to be glued in one or more stages."""

    sizes_mm: tuple[float, ...]
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Job:
    """What is the same in every stage of one part."""

    ledger: MillingLedger
    kind: GlueUpKind
    line_mm2: float
    prepare: str
    shop: Shop
    glue: Glue


def inner_glueups(
    ledgers: Iterable[MillingLedger], shop: Shop, *, glue: str = ""
) -> dict[str, tuple[GlueUp, ...]]:
    """Glue-ups of every part that is glued up, by part, in order.

    Parameters
    ----------
    ledgers
        The parts as milled.
    shop
        Clamps, glues, pace.
    glue
        Name of the glue; empty takes the shop's.
    """
    return {
        ledger.part: stages
        for ledger in ledgers
        if (stages := panel_glueups(ledger, shop, glue=glue) or lamination_glueups(ledger, shop, glue=glue))
    }


def panel_glueups(ledger: MillingLedger, shop: Shop, *, glue: str = "") -> tuple[GlueUp, ...]:
    """Stages of a panel: its sub-panels first, each in as few stages as the glue's time allows.

    Arguments as of :func:`inner_glueups`, for one ledger; nothing for a part that is no panel.
    """
    plan = ledger.strips
    if plan is None or plan.count < 2:
        return ()
    job = _Job(
        ledger=ledger,
        kind=GlueUpKind.STRIPS,
        line_mm2=ledger.milled.length_mm * ledger.milled.thickness_mm,
        prepare=_DAY_OF_GLUING,
        shop=shop,
        glue=shop.glue_named(glue),
    )
    stages: list[GlueUp] = []
    bodies: list[tuple[float, str]] = []
    for number, group in enumerate(plan.sub_panels, start=1):
        widths = tuple(plan.widths_mm[i - 1] for i in group)
        row = _Row(sizes_mm=widths, names=tuple(f"strip {i}" for i in group))
        title = f"sub-panel {number}" if plan.last_joints else "strips"
        bodies.append(_glue_row(row, job, title, stages))
    last = _Row(sizes_mm=tuple(size for size, _ in bodies), names=tuple(name for _, name in bodies))
    _glue_row(last, job, "last joints", stages)
    return tuple(stages)


def lamination_glueups(ledger: MillingLedger, shop: Shop, *, glue: str = "") -> tuple[GlueUp, ...]:
    """Stages of a lamination; arguments as of :func:`inner_glueups`, for one ledger."""
    plan = ledger.lamination
    if plan is None or ledger.pieces < 2:
        return ()
    job = _Job(
        ledger=ledger,
        kind=GlueUpKind.LAYERS,
        line_mm2=ledger.milled.length_mm * ledger.milled.width_mm,
        prepare=_LAYER_FACES,
        shop=shop,
        glue=shop.glue_named(glue),
    )
    stages: list[GlueUp] = []
    count = ledger.pieces
    row = _Row(
        sizes_mm=(ledger.milled.thickness_mm,) * count,
        names=tuple(f"layer {i}" for i in range(1, count + 1)),
    )
    _glue_row(row, job, "layers", stages)
    return tuple(stages)


def _glue_row(row: _Row, job: _Job, title: str, stages: list[GlueUp]) -> tuple[float, str]:
    """Glue a row to one body, halving it until each stage is in time; returns its size and name."""
    size_mm = sum(row.sizes_mm)
    if len(row.names) == 1:
        return size_mm, row.names[0]
    clamps, time = _effort(row, job)
    if not time.in_time and len(row.names) > 2:
        groups = _groups(row, lambda part: _effort(part, job)[1].in_time)
        bodies = [_glue_row(group, job, f"group {i} of {title}", stages) for i, group in enumerate(groups, 1)]
        joined = _Row(sizes_mm=tuple(s for s, _ in bodies), names=tuple(n for _, n in bodies))
        return _glue_row(joined, job, _next_round(title), stages)
    if not time.in_time:
        clamps, time = _fewer(row, job, clamps=clamps, time=time)
    name = f"{job.ledger.part}: {title}"
    stages.append(_stage(name, row, job, clamps=clamps, time=time, before=stages))
    return size_mm, name


def _next_round(title: str) -> str:
    """What groups are glued up as: ``round 2 of layers``; no comma, for places are listed by commas."""
    turn, told, name = title.removeprefix("round ").partition(" of ")
    return f"round {int(turn) + 1} of {name}" if told and turn.isdigit() else f"round 2 of {title}"


def _fewer(row: _Row, job: _Job, *, clamps: ClampPlan, time: StageTime) -> tuple[ClampPlan, StageTime]:
    """One joint alone that still takes too long: as many clamps as there is time for, where those hold."""
    each_min = time.clamp_min / clamps.used if clamps.used else 0.0
    if each_min == 0.0:
        return clamps, time
    left_min = time.allowed_min - time.spread_min - time.place_min
    fewer = within_time(clamps, job.shop, most=math.floor(left_min / each_min + 1e-9))
    return fewer, _time(row, job, clamps=fewer.used)


def _groups(row: _Row, in_time: Callable[[_Row], bool]) -> list[_Row]:
    """The fewest even groups that are each glued in time; pairs at worst."""
    count = len(row.names)
    for parts in range(2, math.ceil(count / 2) + 1):
        cuts = [round(i * count / parts) for i in range(parts + 1)]
        groups = [_Row(sizes_mm=row.sizes_mm[a:b], names=row.names[a:b]) for a, b in pairwise(cuts)]
        if all(len(group.names) == 1 or in_time(group) for group in groups):
            return groups
    return groups


def _effort(row: _Row, job: _Job) -> tuple[ClampPlan, StageTime]:
    length_mm = job.ledger.milled.length_mm
    clamps = plan_clamps(
        job.line_mm2,
        job.shop,
        pressure=pressure_for(job.ledger.species, job.glue.kind),
        outside_mm=sum(row.sizes_mm),
        length_mm=length_mm,
        strip_mm=min(row.sizes_mm[0], row.sizes_mm[-1]),
    )
    return clamps, _time(row, job, clamps=clamps.used)


def _time(row: _Row, job: _Job, *, clamps: int) -> StageTime:
    lengths_mm = (job.ledger.milled.length_mm,) * (len(row.names) - 1)
    return stage_time(lengths_mm, job.shop, parts=len(row.names), clamps=clamps, glue=job.glue)


def _stage(
    name: str, row: _Row, job: _Job, *, clamps: ClampPlan, time: StageTime, before: list[GlueUp]
) -> GlueUp:
    area_mm2 = job.line_mm2 * (len(row.names) - 1)
    known = {stage.name for stage in before}
    return GlueUp(
        name=name,
        kind=job.kind,
        part=job.ledger.part,
        like=job.ledger.like,
        bodies=tuple((piece,) for piece in row.names),
        joints=(),
        dry_joints=(),
        glue=job.glue.name,
        area_mm2=area_mm2,
        glue_g=glue_mass_g(area_mm2, job.glue, job.shop),
        clamps=clamps,
        time=time,
        clamp_min=job.glue.clamp_min,
        cure_min=job.glue.cure_min,
        prepare=(job.prepare, *warm_first(job.glue, job.shop)),
        cautions=cautions_for("glue", "clamps"),
        after=tuple(piece for piece in row.names if piece in known),
    )
