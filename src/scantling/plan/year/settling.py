"""Strips with unlike rings, settled together with the joints whose slots their movement decides.

Seams keep clear of slots and holes; how far a slot reaches is decided by the movement, and the movement by
how wide the strips are. So the joints are laid out for equal strips first, the strips for those joints, and
the joints again for those strips, until nothing changes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from scantling.joinery.work import JointWork
from scantling.piece.model import Part, SettledStrips
from scantling.plan.job import Job
from scantling.plan.parts import finished_parts
from scantling.shop.sizes.strips import plan_strips

__all__ = ["ROUNDS", "settled_strips"]

ROUNDS = 4
"""Rounds of strips after joints; a slot's reach changes by tenths of a millimeter, so one mostly does. The
last round's strips are kept even if another would move a seam: what is sawn is what the joints are for."""


def settled_strips(job: Job, joined: Callable[[Job], tuple[JointWork, ...]]) -> Job:
    """The job, with the strips of its panels of unlike rings as they will be sawn.

    Parameters
    ----------
    job
        The job, its strips settled or not.
    joined
        The work of its joints.
    """
    mixed = [name for name, part in job.piece.parts.items() if _mixed(part)]
    for _ in range(ROUNDS if mixed else 0):
        parts = dict(job.piece.parts)
        for size in finished_parts(job.piece, joined(job)):
            if size.name in mixed:
                plan = plan_strips(replace(size, settled_strips=None), job.shop)
                strips = SettledStrips(
                    glued_mm=plan.widths_mm,
                    trim_first_mm=plan.trim_first_mm,
                    trim_last_mm=plan.trim_mm - plan.trim_first_mm,
                )
                parts[size.name] = _with(parts[size.name], strips)
        if parts == job.piece.parts:
            break
        job = replace(job, piece=replace(job.piece, parts=parts))
    return job


def _mixed(part: Part) -> bool:
    return part.strips is not None and len(set(part.strips.rings)) > 1


def _with(part: Part, strips: SettledStrips) -> Part:
    assert part.strips is not None
    return replace(part, strips=replace(part.strips, settled=strips))
