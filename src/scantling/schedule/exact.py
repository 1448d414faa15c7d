"""The same question put to a constraint solver, for a proof or a better bound: heavy, so only on request."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from scantling.schedule.calendar import DAY_MIN
from scantling.schedule.project import Plan, Project

__all__ = ["Exact", "solve_exactly"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Exact:
    """What the solver says: a plan (None where it found none in time) and a proven bound. [min]"""

    plan: Plan | None
    bound: int
    proven: bool


def solve_exactly(
    project: Project, known: Plan, *, seconds: float = 10.0, workers: int = 1, seed: int = 1
) -> Exact:
    """Best plan by CP-SAT, starting from a known one.

    Each task has its working day and its minutes within it; hands and resources are cumulative in worked
    time, resources kept while drying in clock time.

    Parameters
    ----------
    known
        A plan; its finish limits the search.
    seconds
        Time limit. [s]
    """
    from ortools.sat.python import cp_model  # heavy: only when asked

    model = cp_model.CpModel()
    days = known.finish // DAY_MIN + 1
    places = [_Placed(model, project, k, days=days, latest=known.finish) for k in range(project.size)]
    for k, place in enumerate(places):
        for need in project.before[k]:
            model.add(place.start >= places[need].dry)
        model.add_hint(place.worked, known.worked[k])
    finish = model.new_int_var(0, known.finish, "finish")
    for place in places:
        model.add(finish >= place.dry)
    for name, capacity in project.capacity.items():
        _limit(model, project, places, name=name, capacity=capacity)
    model.minimize(finish)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = seed
    status = solver.solve(model)
    bound = max(round(solver.best_objective_bound), 0)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Exact(plan=None, bound=bound, proven=False)
    plan = Plan(
        worked=tuple(solver.value(place.worked) for place in places),
        start=tuple(solver.value(place.start) for place in places),
        dry=tuple(solver.value(place.dry) for place in places),
        finish=solver.value(finish),
    )
    return Exact(plan=plan, bound=bound, proven=status == cp_model.OPTIMAL)


class _Placed:
    """Variables of one task: worked and clock start, clock time when it is dry."""

    __slots__ = ("dry", "end_worked", "start", "worked")

    def __init__(self, model: Any, project: Project, task: int, *, days: int, latest: int) -> None:
        calendar, hands, wait = project.calendar, project.hands[task], project.wait[task]
        length, name = calendar.hours_min, str(task)
        if not hands:
            self.start = model.new_int_var(calendar.clock_at_start(0), latest, f"start {name}")
            self.dry = model.new_int_var(0, latest, f"dry {name}")
            model.add(self.dry == self.start + wait)
            self.worked = model.new_constant(0)
            self.end_worked = self.worked
            return
        opens = [calendar.day_of_work(d) * DAY_MIN + calendar.opens_min for d in range(days + 1)]
        first = model.new_int_var(0, days, f"day {name}")
        minute = model.new_int_var(0, length - 1, f"minute {name}")
        last = first if project.unbroken[task] else model.new_int_var(0, days, f"last day {name}")
        until = model.new_int_var(1, length, f"until {name}")
        self.worked = model.new_int_var(0, (days + 1) * length, f"worked {name}")
        self.end_worked = self.worked + hands
        model.add(self.worked == first * length + minute)
        model.add(self.end_worked == last * length + until)
        opening = model.new_int_var(0, opens[-1], f"opens {name}")
        closing = model.new_int_var(0, opens[-1], f"last opens {name}")
        model.add_element(first, opens, opening)
        model.add_element(last, opens, closing)
        self.start = model.new_int_var(0, latest, f"start {name}")
        self.dry = model.new_int_var(0, latest, f"dry {name}")
        model.add(self.start == opening + minute)
        model.add(self.dry == closing + until + wait)


def _limit(model: Any, project: Project, places: list[_Placed], *, name: str, capacity: int) -> None:
    working, kept = [], []
    for k, place in enumerate(places):
        for used, amount in project.working[k]:
            if used == name and project.hands[k]:
                span = model.new_fixed_size_interval_var(place.worked, project.hands[k], f"{name} {k}")
                working.append((span, amount))
        for used, amount in project.kept[k]:
            if used == name:
                size = model.new_int_var(0, 10**7, f"kept {name} {k}")
                free = place.dry if project.until_dry[k] else place.dry - project.wait[k]
                span = model.new_interval_var(place.start, size, free, f"kept {name} {k}")
                kept.append((span, amount))
    for spans in (working, kept):
        if spans:
            model.add_cumulative([span for span, _ in spans], [amount for _, amount in spans], capacity)
