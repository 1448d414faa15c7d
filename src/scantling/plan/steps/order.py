"""Order of work: the steps laid out over days, drying time used for other work."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.plan.cache import Cache
from scantling.plan.steps.step import Step
from scantling.schedule.calendar import Calendar
from scantling.schedule.solving import solve
from scantling.schedule.stopping import Stop
from scantling.schedule.task import Hold, Task
from scantling.schedule.timetable import Timetable
from scantling.shop.profile.profile import Shop

__all__ = ["Order", "plan_order"]

CLAMPS = "clamps"
TRIES = 60
"""Orders tried for a plan; a longer search is asked for on its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """The order of work.

    Parameters
    ----------
    steps
        Every step, in an order that can be done.
    timetable
        When each is done; its bound says how much shorter it could be at most.
    hours_by_phase
        Hands-on hours. [h]
    shots
        Steps that happen once: what to photograph, in order.
    """

    steps: tuple[Step, ...]
    timetable: Timetable
    hours_by_phase: dict[str, float]
    shots: tuple[str, ...]

    @property
    def hours(self) -> float:
        """Hands-on hours in all. [h]"""
        return sum(self.hours_by_phase.values())


def plan_order(steps: tuple[Step, ...], shop: Shop, cache: Cache) -> Order:
    """Lay the steps out.

    Parameters
    ----------
    steps
        What is to be done.
    shop
        Hours, people, clamps.
    """
    owned = sum(clamp.count for clamp in shop.clamps)
    calendar = Calendar(
        hours_min=int(shop.people.hours_per_day * 60),
        people=shop.people.count,
        resources={CLAMPS: max(owned, max((step.clamps for step in steps), default=0))},
    )
    tasks = tuple(_task(step) for step in steps)
    found = cache.answer("order", (tasks, calendar), lambda: solve(tasks, calendar, stop=Stop(tries=TRIES)))
    hours: dict[str, float] = {}
    for step in steps:
        hours[step.phase] = hours.get(step.phase, 0.0) + step.hands_on_min / 60.0
    return Order(
        steps=steps,
        timetable=found,
        hours_by_phase=hours,
        shots=tuple(step.title for step in steps if step.once),
    )


def _task(step: Step) -> Task:
    return Task(
        name=step.title,
        hands_on_min=math.ceil(step.hands_on_min),
        wait_min=math.ceil(step.wait_min),
        needs=step.needs,
        resource=CLAMPS if step.clamps else "",
        amount=max(step.clamps, 1),
        hold=Hold.DRYING if step.clamps else Hold.WORKING,
        prefers=step.prefers,
    )
