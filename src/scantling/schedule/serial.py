"""Serial scheduling: tasks placed one by one in a given order, each as early (or as late) as it fits.

References
----------
.. [1] R. Kolisch and S. Hartmann, "Heuristic algorithms for the resource-constrained project scheduling
   problem", in *Project Scheduling*, Kluwer, 1999, 147-178: the serial scheme and its active schedules.
.. [2] V. Valls, F. Ballestin, S. Quintanilla, "Justification and RCPSP: a technique that pays",
   *European Journal of Operational Research* 165, 2005, 375-386: back and forth.
"""

from __future__ import annotations

from collections.abc import Sequence

from scantling.schedule.profile import Profile
from scantling.schedule.project import Plan, Project

__all__ = ["as_early", "as_late", "justified"]


class _Board:
    """Profiles of all resources: by worked time while hands are on, by the clock where kept overnight."""

    __slots__ = ("clock", "project", "worked")

    def __init__(self, project: Project) -> None:
        self.project = project
        self.worked = {name: Profile(amount) for name, amount in project.capacity.items()}
        kept = {name for row in project.kept for name, _ in row}
        self.clock = {name: Profile(project.capacity[name]) for name in kept}

    def take(self, task: int, *, worked: int, start: int, dry: int) -> None:
        """Use what the task uses."""
        hands = self.project.hands[task]
        for name, amount in self.project.working[task]:
            self.worked[name].add(worked, worked + hands, amount=amount)
        for name, amount in self.project.kept[task]:
            self.clock[name].add(start, self.project.free_at(task, dry), amount=amount)


def as_early(project: Project, order: Sequence[int]) -> Plan:
    """Every task as early as it fits, in the order given; each must come after all it needs."""
    board = _Board(project)
    size = project.size
    worked, start, dry = [0] * size, [0] * size, [0] * size
    opening = project.calendar.clock_at_start(0)
    for task in order:
        ready = max((dry[need] for need in project.before[task]), default=opening)
        worked[task], start[task], dry[task] = _early(board, task, ready)
        board.take(task, worked=worked[task], start=start[task], dry=dry[task])
    return Plan(worked=tuple(worked), start=tuple(start), dry=tuple(dry), finish=max(dry, default=opening))


def _early(board: _Board, task: int, ready: int) -> tuple[int, int, int]:
    project = board.project
    calendar, hands = project.calendar, project.hands[task]
    at = calendar.worked_before(ready)
    while True:
        before = at
        if project.unbroken[task] and hands:
            at = _within_day(at, hands, calendar.hours_min)
        for name, amount in project.working[task]:
            at = board.worked[name].earliest(at, hands, amount=amount)
        if at != before:
            continue
        start = calendar.clock_at_start(at) if hands else ready
        dry = project.dry_at(task, at + hands, start)
        clear = start
        length = project.free_at(task, dry) - start
        for name, amount in project.kept[task]:
            clear = max(clear, board.clock[name].earliest(start, length, amount=amount))
        if clear == start:
            return at, start, dry
        ready = clear
        at = max(calendar.worked_before(clear), at + (1 if hands else 0))


def _within_day(at: int, hands: int, day: int) -> int:
    return at if at % day + hands <= day else (at // day + 1) * day


def as_late(project: Project, order: Sequence[int], deadline: int) -> Plan | None:
    """Every task as late as it fits before a clock time; the order must put each before all it needs.

    None where something would have to start before the first day.
    """
    board = _Board(project)
    size = project.size
    worked, start, dry = [0] * size, [0] * size, [0] * size
    opening = project.calendar.clock_at_start(0)
    for task in order:
        limit = min((start[other] for other in project.after[task]), default=deadline)
        place = _late(board, task, limit)
        if place is None or place[1] < opening:
            return None
        worked[task], start[task], dry[task] = place
        board.take(task, worked=worked[task], start=start[task], dry=dry[task])
    return Plan(worked=tuple(worked), start=tuple(start), dry=tuple(dry), finish=max(dry, default=opening))


def _late(board: _Board, task: int, limit: int) -> tuple[int, int, int] | None:
    project = board.project
    calendar, hands = project.calendar, project.hands[task]
    while True:
        last = limit - project.wait[task]
        end = calendar.worked_before(last)
        while True:
            before = end
            if project.unbroken[task] and hands:
                end = _ends_within_day(end, hands, calendar.hours_min)
            for name, amount in project.working[task]:
                end = board.worked[name].latest(end, hands, amount=amount)
            if end == before:
                break
        at = end - hands
        if at < 0:
            return None
        start = calendar.clock_at_start(at) if hands else last
        dry = project.dry_at(task, end, start)
        free = clear = project.free_at(task, dry)
        for name, amount in project.kept[task]:
            clear = min(clear, board.clock[name].latest(free, free - start, amount=amount))
        if clear == free:
            return at, start, dry
        limit = clear + dry - free


def _ends_within_day(end: int, hands: int, day: int) -> int:
    first = (end - 1) // day * day
    return end if end - hands >= first else first


def justified(project: Project, plan: Plan) -> Plan:
    """Push all tasks late and back again; never later than before, often earlier."""
    last_first = sorted(range(project.size), key=lambda k: (-plan.dry[k], -plan.start[k], -k))
    pushed = as_late(project, _reverse_feasible(project, last_first), plan.finish)
    if pushed is None:
        return plan
    first = sorted(range(project.size), key=lambda k: (pushed.start[k], k))
    back = as_early(project, _feasible(project, first))
    return back if back.finish <= plan.finish else plan


def _feasible(project: Project, wanted: Sequence[int]) -> list[int]:
    """The wanted order, a task put off until all it needs is there."""
    return _list(wanted, project.before)


def _reverse_feasible(project: Project, wanted: Sequence[int]) -> list[int]:
    return _list(wanted, project.after)


def _list(wanted: Sequence[int], before: Sequence[Sequence[int]]) -> list[int]:
    done: set[int] = set()
    order: list[int] = []

    def place(task: int) -> None:
        stack = [task]
        while stack:
            here = stack[-1]
            missing = [need for need in before[here] if need not in done]
            if missing:
                stack += missing
            else:
                stack.pop()
                if here not in done:
                    done.add(here)
                    order.append(here)

    for task in wanted:
        place(task)
    return order
