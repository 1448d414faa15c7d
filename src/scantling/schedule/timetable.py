"""The order of work as a maker reads it: what is done each day, what dries, and what to do meanwhile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.schedule.calendar import DAY_MIN, Calendar
from scantling.schedule.critical import CriticalPath
from scantling.schedule.project import Plan, Project

__all__ = ["Block", "Day", "Entry", "Meanwhile", "Timetable", "day_of", "timetable"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One task in its place.

    Parameters
    ----------
    start_min, end_min, dry_min
        Hands begin, hands leave it, it is dry; from midnight of the first day. [min]
    float_min
        How long it may be put off by the critical path, hands without number. [min]
    """

    task: str
    start_min: int
    end_min: int
    dry_min: int
    hands_on_min: int
    float_min: int
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A stretch of work within a day, from midnight of that day. [min]"""

    task: str
    from_min: int
    until_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """A day with work or drying in it.

    Parameters
    ----------
    number
        From 1.
    weekday
        Its name.
    work
        Stretches of work in order.
    drying
        What dries at some time of the day.
    """

    number: int
    weekday: str
    work: tuple[Block, ...]
    drying: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Meanwhile:
    """What is done while something dries. [min]"""

    drying: str
    from_min: int
    until_min: int
    tasks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable:
    """A whole order of work.

    Parameters
    ----------
    entries
        In order of start.
    elapsed_days
        From the first minute of work to dry, round the clock; for computing, not for showing. [d]
    last_day
        Day, from 1, on which all is done and dry: the first and the last day count, and days off between.
    hands_on_h
        Working time of all tasks. [h]
    finish_min, bound_min
        When all is done and dry, and a time no order can beat, proven; from midnight of the first day. [min]
    critical
        Tasks of the longest chain.
    """

    entries: tuple[Entry, ...]
    days: tuple[Day, ...]
    meanwhile: tuple[Meanwhile, ...]
    elapsed_days: float
    last_day: int
    hands_on_h: float
    finish_min: int
    bound_min: int
    critical: tuple[str, ...]
    critical_min: int

    @property
    def bound_day(self) -> int:
        """Day, from 1, before which no order can be done and dry; counted as ``last_day`` is."""
        return day_of(self.bound_min)

    @property
    def gap_pct(self) -> float:
        """How much shorter it might be at most. [%]"""
        return 100.0 * (self.finish_min - self.bound_min) / self.finish_min if self.finish_min else 0.0


def day_of(finish_min: int) -> int:
    """Day, from 1, on which what is done at a time is done; midnight ends a day. [1]"""
    return max(finish_min - 1, 0) // DAY_MIN + 1


def timetable(project: Project, plan: Plan, *, bound: int, path: CriticalPath) -> Timetable:
    """A plan in the maker's terms."""
    slack = {row.task: row.float_min for row in path.tasks}
    order = sorted(range(project.size), key=lambda k: (plan.start[k], plan.dry[k], k))
    entries = tuple(
        Entry(
            task=project.tasks[k].name,
            start_min=plan.start[k],
            end_min=plan.dry[k] - project.wait[k],
            dry_min=plan.dry[k],
            hands_on_min=project.hands[k],
            float_min=slack[project.tasks[k].name],
            note=project.tasks[k].note,
        )
        for k in order
    )
    opening = min(plan.start, default=plan.finish)
    return Timetable(
        entries=entries,
        days=_days(project, plan, order),
        meanwhile=_meanwhile(entries),
        elapsed_days=(plan.finish - opening) / DAY_MIN,
        last_day=day_of(plan.finish),
        hands_on_h=sum(project.hands) / 60.0,
        finish_min=plan.finish,
        bound_min=min(bound, plan.finish),
        critical=path.chain,
        critical_min=path.length_min,
    )


def _blocks(calendar: Calendar, worked: int, hands: int) -> list[tuple[int, int, int]]:
    """Day, start and end within it of each stretch of a task."""
    found: list[tuple[int, int, int]] = []
    while hands > 0:
        count, rest = divmod(worked, calendar.hours_min)
        length = min(hands, calendar.hours_min - rest)
        begin = calendar.opens_min + rest
        found.append((calendar.day_of_work(count), begin, begin + length))
        worked, hands = worked + length, hands - length
    return found


def _days(project: Project, plan: Plan, order: Sequence[int]) -> tuple[Day, ...]:
    work: dict[int, list[Block]] = {}
    drying: dict[int, list[str]] = {}
    for k in order:
        name = project.tasks[k].name
        for day, begin, end in _blocks(project.calendar, plan.worked[k], project.hands[k]):
            work.setdefault(day, []).append(Block(task=name, from_min=begin, until_min=end))
        if project.wait[k]:
            first, last = (plan.dry[k] - project.wait[k]) // DAY_MIN, (plan.dry[k] - 1) // DAY_MIN
            for day in range(first, last + 1):
                drying.setdefault(day, []).append(name)
    return tuple(
        Day(
            number=day + 1,
            weekday=project.calendar.weekday(day).name.capitalize(),
            work=tuple(sorted(work.get(day, []), key=lambda block: (block.from_min, block.until_min))),
            drying=tuple(drying.get(day, [])),
        )
        for day in sorted(work.keys() | drying.keys())
    )


def _meanwhile(entries: Sequence[Entry]) -> tuple[Meanwhile, ...]:
    found: list[Meanwhile] = []
    for entry in entries:
        if entry.dry_min == entry.end_min:
            continue
        others = tuple(
            other.task
            for other in entries
            if other.hands_on_min and other.start_min < entry.dry_min and other.end_min > entry.end_min
        )
        found.append(
            Meanwhile(drying=entry.task, from_min=entry.end_min, until_min=entry.dry_min, tasks=others)
        )
    return tuple(found)
