"""The longest chain of tasks, with hands without number and no nights: it decides the date.

References
----------
.. [1] J. E. Kelley and M. R. Walker, "Critical-path planning and scheduling", *Proceedings of the Eastern
   Joint Computer Conference*, 1959, 160-173.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.schedule.task import Task, check_tasks, in_order

__all__ = ["CriticalPath", "TaskFloat", "critical_path"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskFloat:
    """Earliest start and finish (drying included) of a task, and how long it may be put off. [min]"""

    task: str
    start_min: int
    finish_min: int
    float_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CriticalPath:
    """The longest chain.

    Parameters
    ----------
    chain
        Its tasks in order.
    length_min
        From start to dry, round the clock. [min]
    hands_on_min
        Working time of all tasks. [min]
    """

    tasks: tuple[TaskFloat, ...]
    chain: tuple[str, ...]
    length_min: int
    hands_on_min: int


def critical_path(tasks: Sequence[Task]) -> CriticalPath:
    """Forward and backward pass, drying as a lag after each task.

    Raises
    ------
    FileFaults
        See :func:`~scantling.schedule.task.check_tasks`.
    """
    check_tasks(tasks)
    ordered = in_order(tasks)
    start: dict[str, int] = {}
    finish: dict[str, int] = {}
    for task in ordered:
        start[task.name] = max((finish[need] for need in task.needs), default=0)
        finish[task.name] = start[task.name] + task.hands_on_min + task.wait_min
    length = max(finish.values(), default=0)
    latest = {task.name: length for task in ordered}
    for task in reversed(ordered):
        begin = latest[task.name] - task.hands_on_min - task.wait_min
        for need in task.needs:
            latest[need] = min(latest[need], begin)
    return CriticalPath(
        tasks=tuple(
            TaskFloat(
                task=task.name,
                start_min=start[task.name],
                finish_min=finish[task.name],
                float_min=latest[task.name] - finish[task.name],
            )
            for task in ordered
        ),
        chain=_chain(ordered, start, finish),
        length_min=length,
        hands_on_min=sum(task.hands_on_min for task in ordered),
    )


def _chain(ordered: Sequence[Task], start: dict[str, int], finish: dict[str, int]) -> tuple[str, ...]:
    if not ordered:
        return ()
    by_name = {task.name: task for task in ordered}
    here = max(ordered, key=lambda task: finish[task.name])
    chain = [here.name]
    while here.needs:
        need = max(here.needs, key=lambda name: finish[name])
        if finish[need] < start[here.name]:
            break
        chain.append(need)
        here = by_name[need]
    return tuple(reversed(chain))
