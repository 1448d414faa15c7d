"""Tasks and calendar in numbers, as the search wants them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.errors import InputError
from scantling.schedule.calendar import Calendar
from scantling.schedule.task import Hold, Split, Task, check_tasks, in_order

__all__ = ["HANDS", "Plan", "Project", "compile_project"]

HANDS = "hands"
Uses = tuple[tuple[str, int], ...]
"""Resources and amounts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """Tasks by number, each after all it needs.

    Parameters
    ----------
    hands, wait
        Working time; drying after it. [min]
    working
        What each uses while worked on: resource and amount.
    kept
        What each keeps by the clock, nights too, of resources that some task keeps until it is dry.
    until_dry
        Whether it keeps that until it is dry, else until hands leave it.
    unbroken
        Whether each must be done within a day.
    capacity
        How much there is of each resource.
    """

    tasks: tuple[Task, ...]
    calendar: Calendar
    hands: tuple[int, ...]
    wait: tuple[int, ...]
    before: tuple[tuple[int, ...], ...]
    after: tuple[tuple[int, ...], ...]
    working: tuple[Uses, ...]
    kept: tuple[Uses, ...]
    until_dry: tuple[bool, ...]
    unbroken: tuple[bool, ...]
    capacity: dict[str, int]

    @property
    def size(self) -> int:
        """Number of tasks."""
        return len(self.tasks)

    def free_at(self, task: int, dry: int) -> int:
        """Clock time at which a task gives back what it keeps. [min]"""
        return dry if self.until_dry[task] else dry - self.wait[task]

    def dry_at(self, task: int, end_worked: int, start_clock: int) -> int:
        """Clock time at which a task is done and dry. [min]"""
        end = self.calendar.clock_at_end(end_worked) if self.hands[task] else start_clock
        return end + self.wait[task]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """When each task starts and is dry.

    Parameters
    ----------
    worked
        Start in worked minutes. [min]
    start, dry
        Clock times. [min]
    finish
        Clock time at which all is done and dry. [min]
    """

    worked: tuple[int, ...]
    start: tuple[int, ...]
    dry: tuple[int, ...]
    finish: int


def compile_project(
    tasks: Sequence[Task], calendar: Calendar, *, extra: Sequence[dict[str, int]] = ()
) -> Project:
    """Check tasks and put them in numbers.

    Parameters
    ----------
    extra
        More resources each task uses while worked on, in the order of ``tasks``.

    Raises
    ------
    FileFaults
        See :func:`~scantling.schedule.task.check_tasks`.
    InputError
        ``task_longer_than_day``, ``too_few_for_task``.
    """
    check_tasks(tasks)
    more = {task.name: used for task, used in zip(tasks, extra, strict=True)} if extra else {}
    ordered = in_order(tasks)
    number = {task.name: k for k, task in enumerate(ordered)}
    capacity = {HANDS: calendar.people, **calendar.resources}
    for task in ordered:
        _check(task, calendar)
        if task.resource:
            capacity.setdefault(task.resource, 1)
    kept = {task.resource for task in ordered if task.resource and task.hold is Hold.DRYING}
    before = tuple(tuple(sorted({number[name] for name in task.needs})) for task in ordered)
    after: list[list[int]] = [[] for _ in ordered]
    for k, needs in enumerate(before):
        for need in needs:
            after[need].append(k)
    return Project(
        tasks=ordered,
        calendar=calendar,
        hands=tuple(task.hands_on_min for task in ordered),
        wait=tuple(task.wait_min for task in ordered),
        before=before,
        after=tuple(tuple(row) for row in after),
        working=_scarce([_working(task, more.get(task.name, {}), kept) for task in ordered], capacity),
        kept=_scarce([_kept(task, kept) for task in ordered], capacity),
        until_dry=tuple(task.hold is Hold.DRYING for task in ordered),
        unbroken=tuple(task.split is Split.UNBROKEN for task in ordered),
        capacity=capacity,
    )


def _kept(task: Task, kept: set[str]) -> Uses:
    return ((task.resource, task.amount),) if task.resource in kept else ()


def _scarce(rows: Sequence[Uses], capacity: dict[str, int]) -> tuple[Uses, ...]:
    """Uses of what there is too little of for all tasks at once; the rest never matters."""
    total: dict[str, int] = {}
    for name, amount in (use for row in rows for use in row):
        total[name] = total.get(name, 0) + amount
    return tuple(tuple(use for use in row if total[use[0]] > capacity[use[0]]) for row in rows)


def _working(task: Task, more: dict[str, int], kept: set[str]) -> Uses:
    used = {HANDS: task.people if task.hands_on_min else 0, **more}
    if task.resource and task.resource not in kept:
        used[task.resource] = task.amount
    return tuple((name, amount) for name, amount in used.items() if amount)


def _check(task: Task, calendar: Calendar) -> None:
    if task.split is Split.UNBROKEN and task.hands_on_min > calendar.hours_min:
        raise InputError(
            code="task_longer_than_day",
            field=f"tasks.{task.name}.hands_on_min",
            value=task.hands_on_min,
            rule=f"must fit in a day of {calendar.hours_min} min, for it cannot pause",
            remedy="Split it into stages, get a helper, or plan a longer day.",
        )
    there = calendar.resources.get(task.resource, 1) if task.resource else task.amount
    if task.people > calendar.people or task.amount > there:
        raise InputError(
            code="too_few_for_task",
            field=f"tasks.{task.name}",
            value=f"{task.people} people, {task.amount} of {task.resource or 'nothing'}",
            rule=f"must not ask for more than the {calendar.people} people and {there} there are",
        )
