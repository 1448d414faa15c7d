"""Pieces of work on a rack of hundreds of boards: pure functions over values, run by any executor."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from random import Random

from scantling.stock.choosing.atonce import laid_at_once
from scantling.stock.choosing.columns import Generator
from scantling.stock.choosing.renewal import Renewal
from scantling.stock.handrules.search import Plan, build_plan, first_candidates
from scantling.stock.pricing.pricer import Pricer
from scantling.stock.question.axis import Rounding
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem
from scantling.stock.question.shapes import Duals

__all__ = [
    "BoundTask",
    "LotAnswer",
    "LotTask",
    "bound_worths",
    "lay_lot",
    "laying_lot",
    "renew_lot",
    "renewing_lot",
]

SHUFFLES = 10
STEPS = 25
ATTEMPTS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class LotTask:
    """Some boards, what they must yield, and the plan they have now.

    Parameters
    ----------
    problem
        Boards and needs.
    patterns
        What is cut now; may leave something out.
    seed
        Seed of the search.
    """

    problem: Problem
    patterns: tuple[Pattern, ...]
    seed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LotAnswer:
    """The best plan found, and patterns that say what the needs are worth."""

    plan: Plan
    useful: tuple[Pattern, ...]


def renew_lot(task: LotTask) -> LotAnswer:
    """A plan for a lot at least as good as the one it has: patterns priced quickly, chosen, renewed."""
    return _last(renewing_lot(task))


def lay_lot(task: LotTask) -> LotAnswer:
    """A plan for a large lot, laid out at once; the one it has, where that is better."""
    return _last(laying_lot(task))


def _last(steps: Iterator[LotAnswer | None]) -> LotAnswer:
    *_, answer = steps
    assert answer is not None, "the last step answers"
    return answer


def renewing_lot(task: LotTask) -> Iterator[LotAnswer | None]:
    """As :func:`renew_lot`, in steps: None until the answer is there."""
    from scantling.stock.handrules.search import improve, plan_of
    from scantling.stock.handrules.wanting import demand_left

    problem, rng = task.problem, Random(task.seed)
    now = list(task.patterns)
    best = plan_of(problem, now, demand_left(problem, now))
    generator = Generator.of(problem)
    generator.start()
    generator.learn(best)
    for candidate in first_candidates(problem):
        for order in (candidate, *(improve(candidate, rng) for _ in range(SHUFFLES))):
            plan = build_plan(problem, order)
            if plan.rank < best.rank:
                best = plan
        generator.learn(plan)
    generator.learn(best)
    for _ in generator.quick_run(STEPS):
        yield None
    if not best.missing.met:
        found = generator.choose(nodes=20, seconds=None, complete=False)
        best = found if found is not None and found.rank < best.rank else best
    if best.missing.met:
        for better in _renewed(generator, rng, best):
            yield None
            best = better
    generator.master.solve()
    yield LotAnswer(plan=best, useful=tuple(c.pattern for c in generator.master.used()))


def laying_lot(task: LotTask) -> Iterator[LotAnswer | None]:
    """As :func:`lay_lot`, in steps: None until the answer is there."""
    from scantling.stock.handrules.search import plan_of
    from scantling.stock.handrules.wanting import demand_left

    now = list(task.patterns)
    best = plan_of(task.problem, now, demand_left(task.problem, now))
    for plan in laid_at_once(task.problem, Random(task.seed), best):
        if plan is not None and plan.rank < best.rank:
            best = plan
        yield None
    yield LotAnswer(plan=best, useful=())


def _renewed(generator: Generator, rng: Random, best: Plan) -> Iterator[Plan]:
    """The best plan after each attempt."""
    renewal = Renewal(generator=generator, rng=rng, best=best)
    renewal.widen(steps=3)
    whole = renewal.whole(nodes=5)
    if whole is not None:
        renewal.take(whole)
    for _ in range(ATTEMPTS):
        renewal.attempt()
        yield renewal.best


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundTask:
    """Boards, and what each blank is worth.

    Parameters
    ----------
    problem
        Some boards with all the needs.
    duals
        Worths of the needs.
    cap
        Positions along a board at most.
    """

    problem: Problem
    duals: Duals
    cap: int


@lru_cache(maxsize=64)
def _bound_pricer(problem: Problem, cap: int) -> Pricer:
    return Pricer.of(problem, rounding=Rounding.BOUND, cap=cap, sums_cap=1000)


def bound_worths(task: BoundTask) -> tuple[float, ...]:
    """What no pattern of each board is worth more than. [money]"""
    worths, _ = _bound_pricer(task.problem, task.cap).price(task.duals, patterns=False)
    return tuple(float(w) for w in worths)
