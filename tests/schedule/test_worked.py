"""Worked and published values: the critical path of a table, and project scheduling instances.

The table's tasks are common practice, its path was worked by hand. Instances: R. Kolisch and A. Sprecher,
"PSPLIB: a project scheduling problem library", European Journal of Operational Research 96, 1996, 205-216.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from scantling.schedule import Stop, Task, critical_path
from scantling.schedule.search import improve

sys.path.append(str(Path(__file__).parents[2] / "benchmarks" / "schedule"))

import rcpsp

H = 60
TABLE = (
    Task(name="mill", hands_on_min=8 * H, wait_min=48 * H),
    Task(name="final mill", hands_on_min=6 * H, needs=("mill",)),
    Task(name="panel", hands_on_min=2 * H, wait_min=24 * H, needs=("final mill",)),
    Task(name="breadboard ends", hands_on_min=6 * H, needs=("panel",)),
    Task(name="joints", hands_on_min=10 * H, needs=("final mill",)),
    Task(name="glue sub-assemblies", hands_on_min=2 * H, wait_min=12 * H, needs=("joints",)),
    Task(name="glue base", hands_on_min=2 * H, wait_min=12 * H, needs=("glue sub-assemblies",)),
    Task(name="sand", hands_on_min=8 * H, needs=("glue base", "breadboard ends")),
    Task(name="coat 1", hands_on_min=1 * H, wait_min=24 * H, needs=("sand",)),
    Task(name="coat 2", hands_on_min=1 * H, wait_min=24 * H, needs=("coat 1",)),
    Task(name="coat 3", hands_on_min=1 * H, wait_min=72 * H, needs=("coat 2",)),
    Task(name="fit", hands_on_min=2 * H, needs=("coat 3",)),
)


def test_critical_path_of_a_table() -> None:
    """233 h (9.7 days) elapsed, 49 h of hands, the panel's branch with 6 h of float."""
    path = critical_path(TABLE)
    assert path.length_min == 233 * H
    assert path.hands_on_min == 49 * H
    rows = {row.task: row for row in path.tasks}
    assert rows["breadboard ends"].finish_min == 94 * H
    assert rows["glue base"].finish_min == 100 * H
    assert rows["panel"].float_min == rows["breadboard ends"].float_min == 6 * H
    assert path.chain[0] == "mill"
    assert path.chain[-1] == "fit"
    assert all(rows[name].float_min == 0 for name in path.chain)


@pytest.mark.parametrize("name", ["j30_1_1", "j30_19_3", "j30_2_10", "j60_5_1"])
def test_published_instances(name: str) -> None:
    """Never below the known lower bound, never a bound above it, and within 6 % of it in 250 tries.

    6 % is what a short run reaches; the benchmark runs longer and prints the gaps.
    """
    instance = rcpsp.read_instance(rcpsp.DATA / f"{name}.rcp")
    _, optimum = rcpsp.known()[name]
    project = rcpsp.project_of(instance)
    for found in improve(project, stop=Stop(tries=250)):
        plan, bound = found
    starts = {int(task.name): plan.start[k] for k, task in enumerate(project.tasks)}
    assert rcpsp.faults(instance, starts) == []
    assert bound <= optimum <= plan.finish <= 1.06 * optimum


def test_the_verifier_finds_what_is_wrong() -> None:
    """Everything at once breaks precedence and resources; a task left out is missed."""
    instance = rcpsp.read_instance(rcpsp.DATA / "j30_1_1.rcp")
    together = dict.fromkeys(range(32), 0)
    told = " ".join(rcpsp.faults(instance, together))
    assert "starts before" in told
    assert "resource" in told
    del together[5]
    assert rcpsp.faults(instance, together) == ["5 is missing"]
