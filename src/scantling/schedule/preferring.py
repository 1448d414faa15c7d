"""An order that keeps what tasks prefer: one machine's set-ups in their turn, wherever that costs no day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from scantling.schedule.calendar import Calendar
from scantling.schedule.critical import critical_path
from scantling.schedule.project import compile_project
from scantling.schedule.search import improve
from scantling.schedule.stopping import Stop
from scantling.schedule.task import Task
from scantling.schedule.timetable import Timetable, day_of, timetable

__all__ = ["preferred"]


def preferred(
    tasks: Sequence[Task], calendar: Calendar, *, known: Timetable, stop: Stop, seed: int = 1
) -> Timetable:
    """An order with every preference kept that ends on the day of the known one, or else the known one.

    The bound stays that of all orders, those that keep no preference among them.

    Parameters
    ----------
    tasks, calendar
        The job.
    known
        The best order found without preferences.
    stop, seed
        Of the search, as of :func:`~scantling.schedule.solving.solve`.

    Raises
    ------
    FileFaults
        ``tasks_in_a_circle`` where preferences and needs together wait for each other.
    """
    strict = [replace(task, needs=tuple(dict.fromkeys((*task.needs, *task.prefers)))) for task in tasks]
    project = compile_project(strict, calendar)
    for plan, _ in improve(project, stop=stop, seed=seed):
        if day_of(plan.finish) <= known.last_day:
            return timetable(project, plan, bound=known.bound_min, path=critical_path(tasks))
    return known
