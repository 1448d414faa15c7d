"""Whatever becomes of an example file, it is joined and planned or told its faults; nothing else."""

from __future__ import annotations

import copy
import random
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cli.job import job_from_files
from scantling.errors import Fault, FileFaults, InputError
from scantling.joinery import join, load_piece_text
from scantling.plan.job import Job
from scantling.plan.planner import make_plan
from tests.piece.files import EXAMPLES, YEAR, data_of, text_of

ODD: tuple[Any, ...] = (
    *(0, -1, 1, 3, 1e9, -5.5, 0.001, True, None, "", "x", "top", "leg_fl.start", "floor", "square", "all"),
    *("12 deg", "-3 mm", "1/0", "tan(90 deg)", "length", "1e99 mm", "left", "start", "loose_tenon", "*_*"),
    *([], {}, [0], [0, 0, 0], [1, 2], [["a", "b"]], {"start": "floor"}, [["top", "top"]]),
)


UNTOLD = Fault(code="untold", field="file", value="nothing", rule="must tell what is wrong")
"""What stands for a refusal without a reason."""


@cache
def _texts() -> tuple[str, ...]:
    return tuple(path.read_text(encoding="utf-8") for path in EXAMPLES)


def _places(data: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    found = [path] if path else []
    keys: Any = data if isinstance(data, dict) else range(len(data)) if isinstance(data, list) else ()
    for key in keys:
        found += _places(data[key], (*path, key))
    return found


def _changed(data: Any, rng: random.Random) -> None:
    """One value replaced by something odd, by another's value, or taken out."""
    path = rng.choice(_places(data))
    holder = data
    for step in path[:-1]:
        holder = holder[step]
    kind = rng.random()
    if kind < 0.15:
        del holder[path[-1]]
    elif kind < 0.4:
        other = data
        for step in rng.choice(_places(data)):
            other = other[step]
        holder[path[-1]] = copy.deepcopy(other)
    elif kind < 0.7 and isinstance(holder[path[-1]], int | float):
        holder[path[-1]] = holder[path[-1]] * rng.choice((-1, 0, 0.1, 3, 20))
    else:
        holder[path[-1]] = copy.deepcopy(rng.choice(ODD))


def mutant(seed: int) -> str:
    """An example with one to three things changed."""
    rng = random.Random(seed)
    data = data_of(rng.choice(_texts()))
    for _ in range(rng.randint(1, 3)):
        _changed(data, rng)
    return text_of(data)


def faults_of(text: str) -> tuple[Fault, ...]:
    """What is wrong with a file, read and joined; nothing where it is good. Anything else fails the test."""
    try:
        join(load_piece_text(text), moisture=YEAR)
    except FileFaults as error:
        return error.faults or (UNTOLD,)
    return ()


@settings(max_examples=100)
@given(seed=st.integers(0, 10**9))
def test_a_mutated_example_joins_or_is_told_its_faults(seed: int) -> None:
    """Only faults come out, each with code, field, value and rule; never a traceback."""
    text = mutant(seed)
    for fault in faults_of(text):
        assert fault.code not in ("depends_on_fault", "untold")
        assert fault.field
        assert fault.rule
        assert "\n" not in str(fault)
        assert 0 <= fault.line <= text.count("\n") + 1


@settings(max_examples=30)
@given(cut=st.integers(0, 4000), which=st.sampled_from(range(len(EXAMPLES))), noise=st.text(max_size=6))
def test_a_torn_example_is_told_its_faults(cut: int, which: int, noise: str) -> None:
    """A file that ends in the middle, or with noise in it, is refused or read."""
    text = _texts()[which]
    for torn in (text[:cut], text[:cut] + noise + text[cut + 2 :]):
        assert UNTOLD not in faults_of(torn)


@pytest.mark.parametrize("seed", [3, 11, 29, 47])
def test_a_mutated_example_that_joins_can_be_planned(seed: int) -> None:
    """Past the joints nothing but faults comes out either."""
    found = next(text for text in map(mutant, range(seed * 1000, seed * 1000 + 200)) if not faults_of(text))
    assert planned_or_told(found)


def planned_or_told(text: str) -> str:
    """The title of the plan, or what was told instead of it."""
    try:
        return make_plan(replace(_usual(), piece=load_piece_text(text))).title
    except (FileFaults, InputError) as error:
        return str(error)


@cache
def _usual() -> Job:
    return job_from_files(EXAMPLES[0])
