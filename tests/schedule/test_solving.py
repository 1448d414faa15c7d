"""Orders of work: verified minute by minute, best on small jobs, never below the bound, the same "
"each time.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter

from scantling.schedule import (
    Calendar,
    Hold,
    Method,
    Split,
    Stop,
    Task,
    Timetable,
    Weekday,
    critical_path,
    solutions,
    solve,
)
from scantling.schedule.project import compile_project
from scantling.schedule.serial import as_early
from schedule.test_worked import TABLE, H
from schedule.verify import faults


@st.composite
def jobs(draw: st.DrawFn, *, most: int = 7) -> list[Task]:
    """A few tasks with needs, drying, clamps and pauses."""
    tasks: list[Task] = []
    for k in range(draw(st.integers(1, most))):
        needs = draw(st.sets(st.sampled_from(range(k)), max_size=2)) if k else set()
        tasks.append(
            Task(
                name=f"t{k}",
                hands_on_min=draw(st.sampled_from([0, 30, 60, 150, 300, 480])),
                wait_min=draw(st.sampled_from([0, 60, 720, 1440, 3000])),
                needs=tuple(f"t{n}" for n in needs),
                people=draw(st.integers(1, 2)),
                resource=draw(st.sampled_from(["", "clamps"])),
                hold=draw(st.sampled_from(list(Hold))),
                split=draw(st.sampled_from(list(Split))),
            )
        )
    return tasks


TWO = Calendar(people=2, first_day=Weekday.THURSDAY)


@settings(max_examples=60)
@given(tasks=jobs())
def test_every_timetable_stands_up_to_the_verifier(tasks: list[Task]) -> None:
    """Two people, one set of clamps, a weekend ahead: needs, hours, hands and clamps are kept."""
    planned = solve(tasks, TWO, stop=Stop(tries=15))
    assert faults(tasks, TWO, planned) == []
    assert planned.bound_min <= planned.finish_min


def brute_force(tasks: list[Task], calendar: Calendar) -> int:
    """Least finish over every order of the tasks."""
    project = compile_project(tasks, calendar)
    best = 1 << 60
    for order in permutations(range(project.size)):
        place = {k: i for i, k in enumerate(order)}
        if all(place[n] < place[k] for k in order for n in project.before[k]):
            best = min(best, as_early(project, order).finish)
    return best


@settings(max_examples=40)
@given(tasks=jobs(most=5))
def test_small_jobs_are_solved_to_the_best_and_the_bound_holds(tasks: list[Task]) -> None:
    """Trying every order finds nothing better than the search, and nothing below the bound."""
    best = brute_force(tasks, TWO)
    planned = solve(tasks, TWO, stop=Stop(tries=60))
    assert planned.finish_min == best
    assert planned.bound_min <= best


@settings(max_examples=8)
@given(tasks=jobs(most=4))
def test_the_constraint_solver_agrees(tasks: list[Task]) -> None:
    """On small jobs it proves the same finish, in a timetable that stands up too."""
    planned = solve(tasks, TWO, method=Method.EXACT, stop=Stop(tries=7, seconds=20.0))
    assert faults(tasks, TWO, planned) == []
    assert planned.finish_min == planned.bound_min == brute_force(tasks, TWO)


def test_a_table_in_one_makers_weeks() -> None:
    """49 hours of hands; other work is done while things dry, and drying runs over the weekend."""
    calendar = Calendar()
    planned = solve(TABLE, calendar)
    assert faults(TABLE, calendar, planned) == []
    assert planned.hands_on_h == 49.0
    assert planned.critical_min == 233 * H
    assert {row.drying for row in planned.meanwhile if row.tasks} & {
        "panel",
        "glue sub-assemblies",
        "glue base",
    }
    dried = {name for day in planned.days if day.weekday in ("Saturday", "Sunday") for name in day.drying}
    assert dried
    assert all(day.weekday not in ("Saturday", "Sunday") for day in planned.days if day.work)


def test_drying_costs_no_hands() -> None:
    """Two glue-ups that dry overnight take two days of the calendar, not two of work."""
    tasks = [Task(name=f"glue {k}", hands_on_min=60, wait_min=12 * H) for k in (1, 2)]
    planned = solve(tasks, Calendar())
    assert planned.elapsed_days == pytest.approx((2 * 60 + 12 * 60) / 1440)
    assert planned.bound_min == planned.finish_min


def test_clamps_kept_while_drying_put_the_next_glue_up_off() -> None:
    """With clamps for one glue-up at a time the second waits till the next morning."""
    tasks = [
        Task(name=f"glue {k}", hands_on_min=60, wait_min=12 * H, resource="clamps", hold=Hold.DRYING)
        for k in (1, 2)
    ]
    planned = solve(tasks, Calendar())
    second = max(planned.entries, key=lambda entry: entry.start_min)
    assert second.start_min == 1440 + 9 * 60
    together = solve(tasks, Calendar(resources={"clamps": 2}))
    assert together.finish_min < planned.finish_min


def test_a_helper_shortens_a_job_of_separate_tasks() -> None:
    """Four days of separate work take two with a helper, and the bound proves it."""
    tasks = [Task(name=f"t{k}", hands_on_min=480) for k in range(4)]
    alone, helped = solve(tasks, Calendar()), solve(tasks, Calendar(people=2))
    assert (alone.last_day, helped.last_day) == (4, 2)
    assert helped.bound_min == helped.finish_min


def test_what_is_preferred_is_kept_where_it_costs_no_day() -> None:
    """A saw is set in its order while that ends on the same day; a set-up that waits holds up no other."""
    saw = [
        Task(name="square", hands_on_min=10),
        Task(name="three degrees", hands_on_min=10, prefers=("square",)),
        Task(name="four degrees", hands_on_min=10, prefers=("three degrees",)),
    ]
    late = Task(name="long wait", hands_on_min=1, wait_min=48 * H, needs=("four degrees",))
    kept = solve([*saw, late])
    assert [entry.task for entry in kept.entries] == ["square", "three degrees", "four degrees", "long wait"]
    free = solve([replace(task, prefers=()) for task in (*saw, late)])
    assert free.entries[0].task == "four degrees"
    assert kept.last_day == free.last_day
    assert kept.bound_min == free.bound_min < kept.finish_min
    glued = Task(name="glue", hands_on_min=10, wait_min=72 * H)
    waiting = [replace(saw[0], needs=("glue",)), *saw[1:]]
    dear = solve([glued, *waiting, late])
    assert dear.last_day == solve([replace(task, prefers=()) for task in (glued, *waiting, late)]).last_day
    assert [entry.task for entry in dear.entries][-1] == "square"


def test_days_are_counted_from_the_first_to_the_last_with_days_off_between() -> None:
    """Work on Friday that is dry on Monday takes four days, and the bound is counted alike."""
    friday = Calendar(first_day=Weekday.FRIDAY)
    planned = solve([Task(name="coat", hands_on_min=60, wait_min=70 * H)], friday)
    assert (planned.last_day, planned.bound_day) == (4, 4)


def test_same_seed_same_answer() -> None:
    """The search by tries is the same on every run."""
    assert solve(TABLE, seed=3) == solve(TABLE, seed=3)


def test_answers_only_get_better() -> None:
    """Each yielded timetable ends no later than the one before."""
    finishes = [found.finish_min for found in solutions(TABLE, Calendar(), stop=Stop(tries=50))]
    assert finishes == sorted(finishes, reverse=True)


def test_no_tasks_take_no_time() -> None:
    """An empty job is planned, and done."""
    planned = solve([])
    assert (planned.elapsed_days, planned.hands_on_h) == (0.0, 0.0)
    assert critical_path([]).length_min == 0


def test_timetable_goes_to_json_and_back() -> None:
    """Plain values only."""
    adapter = TypeAdapter(Timetable)
    planned = solve(TABLE, stop=Stop(tries=6))
    assert adapter.validate_json(adapter.dump_json(planned)) == planned


def test_search_stops_by_the_clock() -> None:
    """With time up at once only the first plans are made."""
    ticks = iter(range(100))
    quick = Stop(tries=10**9, seconds=1.0, clock=lambda: float(next(ticks)))
    assert len(list(solutions(TABLE, Calendar(), stop=quick))) <= 3
