"""Working hours: when hands are there. Drying goes by the clock, hands by this calendar.

Two times are used. *Clock* minutes run from midnight of the first day, without a stop. *Worked* minutes
count only the minutes in which hands are there, so a task that pauses overnight is one stretch of them.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, field
from enum import IntEnum

from scantling.errors import InputError

__all__ = ["DAY_MIN", "Calendar", "Weekday"]

DAY_MIN = 1440


class Weekday(IntEnum):
    """Days of the week."""

    MONDAY = 0
    TUESDAY = 1
    WEDNESDAY = 2
    THURSDAY = 3
    FRIDAY = 4
    SATURDAY = 5
    SUNDAY = 6


_MON_TO_FRI = (Weekday.MONDAY, Weekday.TUESDAY, Weekday.WEDNESDAY, Weekday.THURSDAY, Weekday.FRIDAY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """Hours of the shop.

    Parameters
    ----------
    opens_min
        Start of work, from midnight. [min]
    hours_min
        Work in a day. [min]
    workdays
        Days of the week on which there is work.
    first_day
        Day of the week of the first day.
    people
        Hands there. [1]
    resources
        How much there is of each resource; one of any not named. [1]
    """

    opens_min: int = 9 * 60
    hours_min: int = 8 * 60
    workdays: tuple[Weekday, ...] = _MON_TO_FRI
    first_day: Weekday = Weekday.MONDAY
    people: int = 1
    resources: dict[str, int] = field(default_factory=dict)
    _offsets: tuple[int, ...] = field(init=False, repr=False, compare=False)
    """Days of the first week, from the first day, on which there is work."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "_offsets", tuple(sorted({(d - self.first_day) % 7 for d in self.workdays})))
        if not 0 < self.hours_min <= DAY_MIN - self.opens_min:
            raise InputError(
                code="hours_out_of_range",
                field="calendar.hours_min",
                value=self.hours_min,
                rule=f"must lie in 1..{DAY_MIN - self.opens_min} min after opening at {self.opens_min} min",
            )
        if not self.workdays or self.people < 1:
            raise InputError(
                code="nobody_works",
                field="calendar",
                value=f"{len(self.workdays)} days, {self.people} people",
                rule="must have at least one working day and one person",
            )

    @classmethod
    def round_the_clock(cls, *, people: int = 1, resources: dict[str, int] | None = None) -> Calendar:
        """Hands there day and night: worked time is clock time."""
        return cls(
            opens_min=0,
            hours_min=DAY_MIN,
            workdays=tuple(Weekday),
            people=people,
            resources=resources or {},
        )

    def day_of_work(self, count: int) -> int:
        """Day, from 0, of the working day of that number, from 0."""
        week, rest = divmod(count, len(self._offsets))
        return 7 * week + self._offsets[rest]

    def clock_at_start(self, worked: int) -> int:
        """Clock time at which a stretch of work starting at a worked minute starts. [min]"""
        days, rest = divmod(worked, self.hours_min)
        return self.day_of_work(days) * DAY_MIN + self.opens_min + rest

    def clock_at_end(self, worked: int) -> int:
        """Clock time at which a stretch of work ending at a worked minute ends: the same evening. [min]"""
        if worked == 0:
            return self.clock_at_start(0)
        return self.clock_at_start(worked - 1) + 1

    def worked_before(self, clock: int) -> int:
        """Worked minutes that are over at a clock time; work may go on from there. [min]"""
        day, minute = divmod(clock, DAY_MIN)
        offsets = self._offsets
        week, rest = divmod(day, 7)
        days = week * len(offsets) + bisect_left(offsets, rest)
        today = min(max(minute - self.opens_min, 0), self.hours_min) if rest in offsets else 0
        return days * self.hours_min + today

    def weekday(self, day: int) -> Weekday:
        """Day of the week of a day, from 0."""
        return Weekday((self.first_day + day) % 7)
