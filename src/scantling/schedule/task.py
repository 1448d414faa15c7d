"""Tasks of the job: hands first, then drying that needs none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from scantling.errors import Fault, FileFaults

__all__ = ["Hold", "Split", "Task", "check_tasks", "in_order"]


class Split(StrEnum):
    """Whether the hands' part may stop in the evening and go on next day."""

    MAY_PAUSE = "may pause overnight"
    UNBROKEN = "in one go"


class Hold(StrEnum):
    """How long a task keeps its resource."""

    WORKING = "while hands are on it"
    DRYING = "until it is dry"


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One task.

    Parameters
    ----------
    name
        Unique.
    hands_on_min
        Working time. [min] >= 0
    wait_min
        Drying, curing or rest after it, by the clock, nights and weekends too. [min] >= 0
    needs
        Tasks that must be done and dry before it starts.
    people
        Hands it takes. [1]
    resource
        A bench, a set of clamps, a machine; empty for none.
    amount
        How much of the resource. [1]
    hold
        How long the resource is kept.
    split
        Whether it may pause overnight.
    prefers
        Tasks better done before it, where that costs no day: of one machine, set-ups in their order.
    """

    name: str
    hands_on_min: int
    wait_min: int = 0
    needs: tuple[str, ...] = ()
    people: int = 1
    resource: str = ""
    amount: int = 1
    hold: Hold = Hold.WORKING
    split: Split = Split.MAY_PAUSE
    note: str = ""
    prefers: tuple[str, ...] = ()


def check_tasks(tasks: Sequence[Task]) -> None:
    """Refuse tasks that cannot be planned; all faults at once.

    Raises
    ------
    FileFaults
        ``duplicate_task``, ``unknown_task``, ``negative_time``, ``tasks_in_a_circle``.
    """
    faults: list[Fault] = []
    names = {task.name for task in tasks}
    seen: set[str] = set()
    for task in tasks:
        if task.name in seen:
            faults.append(_fault(task, "duplicate_task", "name", task.name, rule="must be unique"))
        seen.add(task.name)
        for value, field in ((task.hands_on_min, "hands_on_min"), (task.wait_min, "wait_min")):
            if value < 0:
                faults.append(_fault(task, "negative_time", field, str(value), rule="must be 0 min or more"))
        faults += [
            _fault(task, "unknown_task", "needs", need, rule="must name a task of the job")
            for need in (*task.needs, *task.prefers)
            if need not in names
        ]
    if not faults:
        circle = _circle(tasks)
        if circle:
            chain = " -> ".join(circle)
            faults.append(
                Fault(
                    code="tasks_in_a_circle",
                    field="tasks.needs",
                    value=chain,
                    rule="must not wait for each other in a circle",
                    remedy="Take one of these needs away.",
                )
            )
    if faults:
        raise FileFaults(faults)


def _fault(task: Task, code: str, field: str, value: str, *, rule: str) -> Fault:
    return Fault(code=code, field=f"tasks.{task.name}.{field}", value=value, rule=rule)


def _circle(tasks: Sequence[Task]) -> list[str]:
    """Names along a circle of needs, first one repeated at the end; empty if there is none."""
    left = {task.name: set(task.needs) for task in tasks}
    while True:
        free = [name for name, needs in left.items() if not needs]
        if not free:
            break
        for name in free:
            del left[name]
        for needs in left.values():
            needs.difference_update(free)
    if not left:
        return []
    path = [min(left)]
    while path.count(path[-1]) == 1:
        path.append(min(left[path[-1]]))
    return path[path.index(path[-1]) :][::-1]


def in_order(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Tasks so that each comes after all it needs, otherwise as given."""
    done: set[str] = set()
    ordered: list[Task] = []
    left = list(tasks)
    while left:
        ready = [task for task in left if set(task.needs) <= done]
        ordered += ready
        done |= {task.name for task in ready}
        left = [task for task in left if task.name not in done]
    return tuple(ordered)
