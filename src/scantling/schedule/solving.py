"""Order of work: for one maker or several, with drying time used for other work."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum

from scantling.schedule.calendar import Calendar
from scantling.schedule.critical import critical_path
from scantling.schedule.preferring import preferred
from scantling.schedule.project import compile_project
from scantling.schedule.search import improve
from scantling.schedule.stopping import Stop
from scantling.schedule.task import Task
from scantling.schedule.timetable import Timetable, timetable

__all__ = ["Method", "solutions", "solve"]


class Method(StrEnum):
    """How the order is looked for."""

    SEARCH = "search"
    EXACT = "constraint solver"


def solve(
    tasks: Sequence[Task],
    calendar: Calendar | None = None,
    *,
    method: Method = Method.SEARCH,
    stop: Stop | None = None,
    seed: int = 1,
) -> Timetable:
    """The best order of work found, with a bound that none can beat; what tasks prefer where it costs no day.

    Parameters
    ----------
    tasks
        What is to be done.
    calendar
        Hours, people and resources; by default one maker, eight hours from Monday to Friday.
    method
        Own search, or a constraint solver after it (slower, and heavy to start).
    stop
        When to stop; by default 300 orders.
    seed
        Same seed and tries, same answer.

    Raises
    ------
    FileFaults
        Tasks that name unknown ones, wait for each other in a circle, or have negative times.
    InputError
        A task that cannot pause and is longer than a day, or asks for more than there is.
    """
    best: Timetable | None = None
    for found in solutions(tasks, calendar, method=method, stop=stop, seed=seed):
        best = found
    assert best is not None
    if any(task.prefers for task in tasks):
        return preferred(tasks, calendar or Calendar(), known=best, stop=stop or Stop(), seed=seed)
    return best


def solutions(
    tasks: Sequence[Task],
    calendar: Calendar | None = None,
    *,
    method: Method = Method.SEARCH,
    stop: Stop | None = None,
    seed: int = 1,
) -> Iterator[Timetable]:
    """Better and better orders of work; may be left at any moment."""
    project = compile_project(tasks, calendar or Calendar())
    path = critical_path(tasks)
    limits = stop or Stop()
    for found, proven in improve(project, stop=limits, seed=seed):
        plan, bound = found, proven
        yield timetable(project, plan, bound=bound, path=path)
    if method is Method.EXACT and plan.finish > bound:
        from scantling.schedule.exact import solve_exactly  # heavy: only when asked

        exact = solve_exactly(project, plan, seconds=limits.seconds or 10.0, seed=seed)
        better = exact.plan or plan
        yield timetable(project, better, bound=max(bound, exact.bound), path=path)
