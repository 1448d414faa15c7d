"""What a planner keeps is bounded by the memory it comes to, counted object by object."""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterable
from types import BuiltinFunctionType, FunctionType, MethodType, ModuleType

from scantling.plan.cache import MOST_MB
from scantling.plan.planner import Planner
from tests.plan.jobs import shipped_job

__all__: list[str] = []

_OF_THE_PROGRAM = (type, ModuleType, FunctionType, BuiltinFunctionType, MethodType)


def held_mb(roots: Iterable[object], seen: set[int]) -> float:
    """Memory of what is reached from some objects, but for what was seen before. [MB]"""
    waiting, total = list(roots), 0
    while waiting:
        one = waiting.pop()
        if id(one) in seen or isinstance(one, _OF_THE_PROGRAM):
            continue
        seen.add(id(one))
        total += sys.getsizeof(one)
        waiting.extend(gc.get_referents(one))
    return total / 1e6


def test_as_many_answers_as_are_kept_come_to_less_than_the_bound() -> None:
    """Three sizes of the chest: what an answer and a content hold on average, at the limits of both."""
    planner = Planner()
    for graded_by in ("25 mm", "24 mm", "23 mm"):
        planner.figures(shipped_job("five_drawer_chest", rack=False, given={"graded_by": graded_by}))
    cache, seen = planner.cache, set[int]()
    answers, contents = cache._answers, cache._contents
    assert len(answers) > 500
    each_mb = held_mb(answers.values(), seen) / len(answers)
    said_mb = held_mb(contents._kept.values(), seen) / len(contents._kept)
    assert each_mb > 1e-3
    assert cache.limit * each_mb + contents.limit * said_mb < MOST_MB


def test_the_oldest_go_when_there_are_as_many_as_are_kept() -> None:
    """Answers and contents alike stay at their limits however many sizes are asked after."""
    planner = Planner()
    cache = planner.cache
    cache.limit = cache._contents.limit = 20
    planner.figures(shipped_job("trestle_desk", rack=False))
    assert sum(cache.worked.values()) > 20
    assert len(cache._answers) == 20
    assert len(cache._contents._kept) == 20
