"""Order of work on published instances: gap to the best known makespan, each answer checked independently.

Run ``python benchmarks/schedule/rcpsp.py [seconds] [seeds] [only]`` from the root; the seconds are of the
processor, so that what else the machine does changes nothing.
"""

from __future__ import annotations

import csv
import statistics
import sys
import time
from dataclasses import dataclass
from pathlib import Path

from scantling.schedule.calendar import Calendar
from scantling.schedule.project import Project, compile_project
from scantling.schedule.search import improve
from scantling.schedule.stopping import Stop
from scantling.schedule.task import Task

__all__ = ["Instance", "faults", "known", "main", "project_of", "read_instance"]

DATA = Path(__file__).parent / "data"


@dataclass(frozen=True, slots=True, kw_only=True)
class Instance:
    """One instance as printed: durations, demands, successors, capacities."""

    name: str
    capacity: tuple[int, ...]
    duration: tuple[int, ...]
    demand: tuple[tuple[int, ...], ...]
    successors: tuple[tuple[int, ...], ...]


def read_instance(path: Path) -> Instance:
    """Read Patterson's format; activities count from 0."""
    words = iter(int(word) for word in path.read_text(encoding="utf-8").split())
    count, resources = next(words), next(words)
    capacity = tuple(next(words) for _ in range(resources))
    duration, demand, successors = [], [], []
    for _ in range(count):
        duration.append(next(words))
        demand.append(tuple(next(words) for _ in range(resources)))
        successors.append(tuple(next(words) - 1 for _ in range(next(words))))
    return Instance(
        name=path.stem,
        capacity=capacity,
        duration=tuple(duration),
        demand=tuple(demand),
        successors=tuple(successors),
    )


def known() -> dict[str, tuple[int, int]]:
    """Lower bound and best known makespan by instance."""
    with (DATA / "known.csv").open(encoding="utf-8") as lines:
        return {
            row["name"]: (int(row["lower_bound"]), int(row["best_known"])) for row in csv.DictReader(lines)
        }


def project_of(instance: Instance) -> Project:
    """The instance as tasks of a minute a unit, with hands enough day and night."""
    needs: list[list[str]] = [[] for _ in instance.duration]
    for k, row in enumerate(instance.successors):
        for other in row:
            needs[other].append(str(k))
    tasks = [
        Task(name=str(k), hands_on_min=length, needs=tuple(needs[k]))
        for k, length in enumerate(instance.duration)
    ]
    resources = {f"r{k}": amount for k, amount in enumerate(instance.capacity)}
    calendar = Calendar.round_the_clock(people=len(tasks), resources=resources)
    extra = [{f"r{k}": amount for k, amount in enumerate(row)} for row in instance.demand]
    return compile_project(tasks, calendar, extra=extra)


def faults(instance: Instance, starts: dict[int, int]) -> list[str]:
    """What is wrong with start times, by the rules alone; it knows nothing of the search."""
    wrong = [f"{k} is missing" for k in range(len(instance.duration)) if k not in starts]
    if wrong:
        return wrong
    ends = {k: starts[k] + instance.duration[k] for k in starts}
    wrong += [f"{k} starts at {starts[k]}" for k in starts if starts[k] < 0]
    for k, row in enumerate(instance.successors):
        wrong += [f"{other} starts before {k} ends" for other in row if starts[other] < ends[k]]
    for moment in sorted(set(starts.values())):
        running = [k for k in starts if starts[k] <= moment < ends[k]]
        for r, capacity in enumerate(instance.capacity):
            used = sum(instance.demand[k][r] for k in running)
            if used > capacity:
                wrong.append(f"resource {r} is used {used} of {capacity} at {moment}")
    return wrong


def _solve(instance: Instance, *, seconds: float, seed: int) -> tuple[int, int, float, list[str]]:
    project = project_of(instance)
    began = time.process_time()
    for found in improve(
        project, stop=Stop(tries=10**9, seconds=seconds, clock=time.process_time), seed=seed
    ):
        plan, bound = found
    starts = {int(task.name): plan.start[k] for k, task in enumerate(project.tasks)}
    return plan.finish, bound, time.process_time() - began, faults(instance, starts)


def main(arguments: list[str]) -> int:
    """Run as a command; status 1 when an answer is wrong."""
    seconds = float(arguments[0]) if arguments else 5.0
    seeds = int(arguments[1]) if len(arguments) > 1 else 1
    only = arguments[2] if len(arguments) > 2 else ""
    print(f"{'instance':<12}{'best known':>11}{'ours':>7}{'gap %':>8}{'bound':>7}{'s':>7}")
    gaps, bad = [], 0
    for path in sorted(DATA.glob(f"{only}*.rcp")):
        instance = read_instance(path)
        _, best = known()[instance.name]
        for seed in range(1, seeds + 1):
            value, bound, took, wrong = _solve(instance, seconds=seconds, seed=seed)
            bad += bool(wrong) or value < known()[instance.name][0]
            gap = 100.0 * (value - best) / best
            gaps.append(gap)
            note = "  WRONG: " + "; ".join(wrong[:3]) if wrong else ""
            print(
                f"{instance.name:<12}{best:>11}{value:>7}{gap:>8.2f}{bound:>7}{took:>7.1f}{note}", flush=True
            )
    reached = sum(gap <= 0.0 for gap in gaps)
    print(f"{len(gaps)} runs, {reached} at the best known, mean gap {statistics.fmean(gaps):.2f} %")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
