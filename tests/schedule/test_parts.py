"""Calendar, profiles and tasks: the pieces the search stands on."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import FileFaults, InputError
from scantling.schedule import Calendar, Split, Task, Weekday, solve
from scantling.schedule.profile import Profile
from scantling.schedule.task import in_order

calendars = st.builds(
    Calendar,
    opens_min=st.integers(0, 600),
    hours_min=st.integers(1, 800),
    workdays=st.sets(st.sampled_from(list(Weekday)), min_size=1).map(tuple),
    first_day=st.sampled_from(list(Weekday)),
)


@given(calendar=calendars, worked=st.integers(0, 30_000))
def test_worked_and_clock_time_agree(calendar: Calendar, worked: int) -> None:
    """A worked minute starts where so many worked minutes are over, and lies in working hours."""
    start = calendar.clock_at_start(worked)
    assert calendar.worked_before(start) == worked
    assert calendar.worked_before(start + 1) == worked + 1
    assert calendar.clock_at_end(worked + 1) == start + 1
    day, minute = divmod(start, 1440)
    assert calendar.opens_min <= minute < calendar.opens_min + calendar.hours_min
    assert calendar.weekday(day) in calendar.workdays


def test_a_week_of_work_ends_on_friday_evening() -> None:
    """Forty hours from Monday nine o'clock end on Friday at five; the next minute is Monday's."""
    calendar = Calendar()
    assert calendar.clock_at_end(40 * 60) == 4 * 1440 + 17 * 60
    assert calendar.clock_at_start(40 * 60) == 7 * 1440 + 9 * 60


uses = st.lists(st.tuples(st.integers(0, 30), st.integers(1, 8), st.integers(1, 3)), max_size=8)


@given(uses=uses, start=st.integers(0, 40), length=st.integers(1, 6), amount=st.integers(1, 3))
def test_first_and_last_room_are_those_of_a_minute_by_minute_search(
    uses: list[tuple[int, int, int]], start: int, length: int, amount: int
) -> None:
    """Profiles give the first and last stretch with room, as counting minutes does."""
    profile, count = Profile(3), [0] * 200
    for begin, size, much in uses:
        if all(count[50 + t] + much <= 3 for t in range(begin, begin + size)):
            profile.add(begin, begin + size, amount=much)
            for t in range(begin, begin + size):
                count[50 + t] += much

    def free(t: int) -> bool:
        return all(count[50 + k] + amount <= 3 for k in range(t, t + length))

    assert profile.earliest(start, length, amount=amount) == next(t for t in range(start, 149) if free(t))
    last = next(t for t in range(start - length, -50, -1) if free(t))
    assert profile.latest(start, length, amount=amount) == last + length


def test_all_faults_of_tasks_are_told_at_once() -> None:
    """A double name, an unknown need and a negative time, each with the value found."""
    tasks = [Task(name="a", hands_on_min=-5), Task(name="a", hands_on_min=1, needs=("z",))]
    with pytest.raises(FileFaults) as caught:
        solve(tasks)
    assert {fault.code for fault in caught.value.faults} == {
        "duplicate_task",
        "unknown_task",
        "negative_time",
    }
    assert {fault.value for fault in caught.value.faults} == {"a", "z", "-5"}


def test_a_circle_is_shown_as_a_chain() -> None:
    """Three tasks that wait for each other are named in order."""
    tasks = [Task(name=a, hands_on_min=1, needs=(b,)) for a, b in (("a", "c"), ("b", "a"), ("c", "b"))]
    with pytest.raises(FileFaults) as caught:
        solve([*tasks, Task(name="d", hands_on_min=1)])
    assert caught.value.faults[0].code == "tasks_in_a_circle"
    assert caught.value.faults[0].value.count("->") == 3


@pytest.mark.parametrize(
    ("task", "code"),
    [
        (Task(name="glue", hands_on_min=481, split=Split.UNBROKEN), "task_longer_than_day"),
        (Task(name="lift", hands_on_min=5, people=2), "too_few_for_task"),
        (Task(name="clamp", hands_on_min=5, resource="clamps", amount=9), "too_few_for_task"),
    ],
)
def test_what_can_never_be_done_is_refused(task: Task, code: str) -> None:
    """Longer than a day in one go, more people or more clamps than there are."""
    with pytest.raises(InputError, match=task.name) as caught:
        solve([task], Calendar(resources={"clamps": 8}))
    assert caught.value.code == code


@pytest.mark.parametrize(("hours", "days"), [(0, (Weekday.MONDAY,)), (1441, (Weekday.MONDAY,)), (60, ())])
def test_impossible_calendars_are_refused(hours: int, days: tuple[Weekday, ...]) -> None:
    """No hours, more than a day, or no day at all."""
    with pytest.raises(InputError, match="calendar"):
        Calendar(hours_min=hours, workdays=days)


def test_order_puts_needs_first_and_keeps_the_rest() -> None:
    """Tasks given backwards come out so that each follows its needs."""
    tasks = [Task(name="c", hands_on_min=1, needs=("b",)), Task(name="b", hands_on_min=1, needs=("a",))]
    assert [task.name for task in in_order([*tasks, Task(name="a", hands_on_min=1)])] == ["a", "b", "c"]
