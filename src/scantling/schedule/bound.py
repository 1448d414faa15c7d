"""A finish that no order of work can beat, proven.

A finish date is refuted when, keeping it, a task's latest start comes before its earliest, or when between
two times more work must be done than hands (or a resource) can do. The least date not refuted is the bound.

References
----------
.. [1] R. Klein and A. Scholl, "Computing lower bounds by destructive improvement", *European Journal of
   Operational Research* 112, 1999, 322-346.
"""

from __future__ import annotations

from scantling.schedule.project import Project

__all__ = ["earliest_starts", "finish_bound", "latest_ends"]


def earliest_starts(project: Project) -> tuple[list[int], list[int]]:
    """Earliest start of every task with hands without number, worked and by the clock. [min]"""
    calendar = project.calendar
    opening = calendar.clock_at_start(0)
    worked, dry = [0] * project.size, [0] * project.size
    for task in range(project.size):
        ready = max((dry[need] for need in project.before[task]), default=opening)
        at = calendar.worked_before(ready)
        hands = project.hands[task]
        if project.unbroken[task] and hands and at % calendar.hours_min + hands > calendar.hours_min:
            at = (at // calendar.hours_min + 1) * calendar.hours_min
        worked[task] = at
        start = calendar.clock_at_start(at) if hands else ready
        dry[task] = project.dry_at(task, at + hands, start)
    return worked, dry


def latest_ends(project: Project, deadline: int) -> list[int]:
    """Latest end of the hands' part of every task for a finish by the deadline, worked. [min]"""
    calendar = project.calendar
    ends, starts = [0] * project.size, [0] * project.size
    for task in reversed(range(project.size)):
        limit = min((starts[other] for other in project.after[task]), default=deadline)
        last = limit - project.wait[task]
        hands = project.hands[task]
        end = calendar.worked_before(max(last, 0))
        if project.unbroken[task] and hands:
            first = (end - 1) // calendar.hours_min * calendar.hours_min
            end = end if end - hands >= first else first
        ends[task] = end
        at = end - hands
        if at < 0:
            starts[task] = -1
        else:
            starts[task] = calendar.clock_at_start(at) if hands else last
    return ends


def finish_bound(project: Project, known: int) -> int:
    """Least finish not refuted, at most the finish of a known plan. Clock time. [min]"""
    starts, dry = earliest_starts(project)
    low = max(dry, default=project.calendar.clock_at_start(0))
    high = known
    while low < high:
        middle = (low + high) // 2
        if _refuted(project, starts, deadline=middle):
            low = middle + 1
        else:
            high = middle
    return low


def _refuted(project: Project, starts: list[int], *, deadline: int) -> bool:
    ends = latest_ends(project, deadline)
    if any(ends[k] - project.hands[k] < starts[k] for k in range(project.size)):
        return True
    return any(_overfull(project, name, starts=starts, ends=ends) for name in project.capacity)


def _overfull(project: Project, name: str, *, starts: list[int], ends: list[int]) -> bool:
    """Whether between two times a resource would have to do more than it can."""
    rows = [
        (starts[k], ends[k], project.hands[k] * amount)
        for k in range(project.size)
        for used, amount in project.working[k]
        if used == name and project.hands[k]
    ]
    rows.sort(key=lambda row: row[1])
    capacity = project.capacity[name]
    return any(_too_much(rows, first, capacity) for first in {row[0] for row in rows})


def _too_much(rows: list[tuple[int, int, int]], first: int, capacity: int) -> bool:
    """Whether, from a time on, the work that must end by some later time exceeds what can be done."""
    work = 0
    for start, end, energy in rows:
        if start >= first:
            work += energy
            if work > capacity * (end - first):
                return True
    return False
