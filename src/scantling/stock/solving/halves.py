"""Half of a search: the bound, or better layouts, for a while from what is known so far.

A half is a pure function of its task, so it may run in any process. What it knows is sent as arrays: for the
bound only what each pattern yields, for layouts also where its blanks lie.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache
from random import Random

from scantling.stock.bounds.boardsets import BoardSets, Cover
from scantling.stock.bounds.bound import CostBound
from scantling.stock.bounds.gridbound import GridState
from scantling.stock.choosing.columns import Generator, PricedFor
from scantling.stock.choosing.master import Master
from scantling.stock.choosing.packed import PackedColumns
from scantling.stock.handrules.search import Plan
from scantling.stock.question.problem import Problem
from scantling.stock.solving.engine import Engine, Method

__all__ = ["Half", "HalfAnswer", "HalfTask", "Known", "Limit", "warmed", "worked"]


class Half(StrEnum):
    """What a half is for."""

    BOUND = "bound"
    LAYOUTS = "layouts"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """When a half answers; the first limit reached counts.

    Parameters
    ----------
    steps
        Steps for the bound, or attempts at a better layout.
    seconds
        By ``clock``; None for no such limit. [s]
    patience_s
        As of the engine: the time one choice of patterns may take. [s]
    clock
        In seconds, of the process that works.
    """

    steps: int
    seconds: float | None
    patience_s: float | None
    clock: Callable[[], float] = time.monotonic


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Known:
    """How far the bound has come: what its steps need of the ones before.

    Parameters
    ----------
    value, converged, turn, barren, bound_cap, priced
        As of the generator.
    steps
        Exact steps made so far.
    covers, likely, settled, sets_bound
        As of the sets of boards; no covers where they are not begun.
    ended
        Whether nothing raises the bound any more.
    grid
        How far the bound from a grid has come; None where it is not begun.
    """

    value: float = -math.inf
    converged: bool = False
    turn: int = 0
    barren: int = 0
    bound_cap: int = 0
    priced: tuple[PricedFor, ...] = ()
    steps: int = 0
    covers: tuple[Cover, ...] = ()
    likely: frozenset[int] = frozenset()
    settled: bool = False
    sets_bound: float = 0.0
    ended: bool = False
    grid: GridState | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HalfTask:
    """What one half is to do.

    Parameters
    ----------
    problem
        The question.
    half
        What for.
    columns
        All patterns known.
    best, bound
        The best plan and bound so far; layouts are only looked for once nothing is left out.
    known
        How far the bound has come.
    seed
        Seed of the attempts.
    limit
        When to answer.
    """

    problem: Problem
    half: Half
    columns: PackedColumns
    best: Plan
    bound: CostBound
    known: Known
    seed: int
    limit: Limit


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HalfAnswer:
    """What one half found.

    Parameters
    ----------
    fresh
        Patterns that are new, with their places.
    best
        The best plan; that of the task where none is better.
    bound
        The bound; that of the task where it was not raised.
    known
        How far the bound has come now.
    """

    fresh: PackedColumns
    best: Plan
    bound: CostBound
    known: Known


@lru_cache(maxsize=2)
def _generator_of(problem: Problem) -> Generator:
    """A generator without patterns, kept for its positions, which take long to find."""
    return Generator.of(problem)


def warmed(problem: Problem) -> None:
    """Find the positions a half works with, before its first task."""
    _ = _generator_of(problem).bounder


def worked(task: HalfTask) -> HalfAnswer:
    """Do one half."""
    bare, known, limit = _generator_of(task.problem), task.known, task.limit
    generator = replace(
        bare,
        master=Master.of(task.problem),
        bound_cap=known.bound_cap or bare.bound_cap,
        bound=known.value,
        converged=known.converged,
        turn=known.turn,
        barren=known.barren,
        priced=list(known.priced),
    )
    if generator.bound_cap != bare.bound_cap:
        generator.for_bound = None
    for column in task.columns.columns():
        generator.master.add(column)
    there = len(generator.master.columns)
    engine = Engine(task.problem, Random(task.seed), Method.THOROUGH, limit.patience_s, limit.clock)
    engine.best, engine.bound, engine.priced = task.best, task.bound, known.steps
    engine.sets, engine.grid = _sets_of(generator, known), known.grid
    walk = (
        engine.bounding(generator)
        if task.half is Half.BOUND
        else engine.bettering(generator, begun=True, finely=limit.seconds is not None)
    )
    begun, steps, ended = limit.clock(), 0, known.ended
    while steps < limit.steps and not engine.proven:
        if limit.seconds is not None and limit.clock() - begun >= limit.seconds:
            break
        if next(walk, walk) is walk:
            ended = task.half is Half.BOUND
            break
        steps += 1
    bare.exact, bare.for_bound, bare.bound_cap = generator.exact, generator.for_bound, generator.bound_cap
    return HalfAnswer(
        fresh=PackedColumns.of(generator.master.columns[there:], places=True),
        best=engine.best,
        bound=engine.bound,
        known=known_of(generator, engine, ended=ended),
    )


def known_of(generator: Generator, engine: Engine, *, ended: bool) -> Known:
    """How far the bound of a search has come."""
    sets = engine.sets
    return Known(
        value=generator.bound,
        converged=generator.converged,
        turn=generator.turn,
        barren=generator.barren,
        bound_cap=generator.bound_cap,
        priced=tuple(generator.priced[-2:]),
        steps=engine.priced,
        covers=tuple(sets.covers) if sets else (),
        likely=frozenset(sets.likely) if sets else frozenset(),
        settled=sets is not None and sets.settled,
        sets_bound=sets.bound if sets else 0.0,
        ended=ended,
        grid=engine.grid,
    )


def _sets_of(generator: Generator, known: Known) -> BoardSets | None:
    """The sets of boards with covers of their own; None where they are not begun."""
    if not known.covers:
        return None
    return BoardSets(
        generator=generator,
        covers=[replace(c, shares=c.shares.copy(), exact=set(c.exact)) for c in known.covers],
        bound=known.sets_bound,
        settled=known.settled,
        likely=set(known.likely),
    )
