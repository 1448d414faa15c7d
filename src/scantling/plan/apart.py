"""How a piece comes apart and goes together, by its solids, and what meets in it with no joint."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.checks.offers import Meets, unjoined
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.solids.taking_apart import Removal, take_apart

__all__ = ["Apart", "plan_apart"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """What the solids say of the order.

    Parameters
    ----------
    removals
        What comes off, in order; put together, it goes the other way round.
    rings
        Parts that hold each other, where no straight move parts anything.
    touching
        Parts that meet with no joint between them.
    """

    removals: tuple[Removal, ...]
    rings: tuple[tuple[str, ...], ...]
    touching: tuple[Meets, ...]


def plan_apart(job: Job, planner: Planner) -> Apart:
    """The order in which a piece comes apart, by its solids.

    Parameters
    ----------
    job
        The piece, in a shop and a room.
    planner
        Works out joints and solids, or has them at hand.
    """
    works, meshes = planner.works(job), planner.solids(job)
    found = take_apart(job.piece.parts, meshes, works)
    return Apart(removals=found.removals, rings=found.rings, touching=unjoined(job.piece, works))
