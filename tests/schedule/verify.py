"""Reads a timetable minute by minute against the tasks and the calendar; knows nothing of the search."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from scantling.schedule import Calendar, Hold, Split, Task, Timetable, Weekday

__all__ = ["faults"]


def faults(tasks: Sequence[Task], calendar: Calendar, planned: Timetable) -> list[str]:
    """Everything wrong with a timetable."""
    entries = {entry.task: entry for entry in planned.entries}
    wrong = [f"{task.name} is missing" for task in tasks if task.name not in entries]
    if wrong:
        return wrong
    for task in tasks:
        wrong += [
            f"{task.name} starts before {need} is dry"
            for need in task.needs
            if entries[task.name].start_min < entries[need].dry_min
        ]
        if entries[task.name].dry_min - entries[task.name].end_min != task.wait_min:
            wrong.append(f"{task.name} does not dry {task.wait_min} min")
    wrong += _hands(tasks, calendar, planned)
    wrong += _resources(tasks, calendar, planned)
    if planned.finish_min != max((entry.dry_min for entry in planned.entries), default=0):
        wrong.append("the finish is not that of the last task")
    return wrong


def _hours(calendar: Calendar, planned: Timetable) -> list[str]:
    wrong: list[str] = []
    closes = calendar.opens_min + calendar.hours_min
    for day in planned.days:
        weekday = Weekday((calendar.first_day + day.number - 1) % 7)
        for block in day.work:
            if weekday not in calendar.workdays:
                wrong.append(f"{block.task} on a {weekday.name}")
            if not calendar.opens_min <= block.from_min < block.until_min <= closes:
                wrong.append(f"{block.task} outside working hours")
    return wrong


def _hands(tasks: Sequence[Task], calendar: Calendar, planned: Timetable) -> list[str]:
    wrong = _hours(calendar, planned)
    minutes: dict[str, list[int]] = {task.name: [] for task in tasks}
    for day in planned.days:
        for block in day.work:
            base = (day.number - 1) * 1440
            minutes[block.task] += range(base + block.from_min, base + block.until_min)
    people: Counter[int] = Counter()
    entries = {entry.task: entry for entry in planned.entries}
    for task in tasks:
        given, entry = minutes[task.name], entries[task.name]
        if len(given) != task.hands_on_min or len(set(given)) != len(given):
            wrong.append(f"{task.name} gets {len(given)} of {task.hands_on_min} min")
        if task.split is Split.UNBROKEN and len({minute // 1440 for minute in given}) > 1:
            wrong.append(f"{task.name} is broken over days")
        if given and (min(given), max(given) + 1) != (entry.start_min, entry.end_min):
            wrong.append(f"{task.name} is shown at another time than it is done")
        people.update(given * task.people)
    if people and max(people.values()) > calendar.people:
        wrong.append("more hands than there are")
    return wrong


def _resources(tasks: Sequence[Task], calendar: Calendar, planned: Timetable) -> list[str]:
    used: dict[str, Counter[int]] = {}
    entries = {entry.task: entry for entry in planned.entries}
    for task in tasks:
        if not task.resource:
            continue
        counter = used.setdefault(task.resource, Counter())
        entry = entries[task.name]
        if task.hold is Hold.DRYING:
            minutes = set(range(entry.start_min, entry.dry_min))
        else:
            minutes = {
                (day.number - 1) * 1440 + minute
                for day in planned.days
                for block in day.work
                if block.task == task.name
                for minute in range(block.from_min, block.until_min)
            }
        for minute in minutes:
            counter[minute] += task.amount
    return [
        f"more {name} than there is"
        for name, counter in used.items()
        if counter and max(counter.values()) > calendar.resources.get(name, 1)
    ]
