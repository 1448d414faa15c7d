"""A large lot of boards laid out at once: patterns of all are priced, and settled a share of them at a time.

References
----------
.. [1] Sadykov, Vanderbeck, Pessoa, Tahiri, Uchoa, "Primal heuristics for branch and price: the assets of
   diving methods", INFORMS Journal on Computing 31 (2019) 251-267.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from random import Random

import numpy as np
from numpy.typing import NDArray

from scantling.stock.choosing.columns import Generator
from scantling.stock.choosing.renewal import Renewal
from scantling.stock.choosing.rest import Rest, RestAnswer
from scantling.stock.handrules.refill import kept
from scantling.stock.handrules.search import Plan, plan_of
from scantling.stock.handrules.wanting import demand_left
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem

__all__ = ["laid_at_once"]

QUICK_STEPS = 20
SHARE, SURE = 0.15, 0.95
"""Share of the boards still to cut whose patterns are settled at once; and those the program cuts as good as
whole are settled in any case."""
WHOLE = 0.9
"""Share of its blanks that must still be wanted for a pattern to be settled."""
FEW_BOARDS = 8
"""So many boards are chosen for at once."""
EPSILON = 1e-6


def laid_at_once(problem: Problem, rng: Random, best: Plan) -> Iterator[Plan | None]:
    """A plan of the whole rack, in many steps: None until it is there.

    Parameters
    ----------
    problem
        The question.
    rng
        Random numbers.
    best
        The best plan known.
    """
    generator = Generator.of(problem)
    generator.start()
    generator.learn(best)
    for _ in generator.quick_run(QUICK_STEPS):
        yield None
    renewal = Renewal(generator=generator, rng=rng, best=best, patience_s=math.inf)
    settled: list[Pattern] = []
    free = np.ones(len(problem.stocks), dtype=bool)
    while not (demand := demand_left(problem, settled)).met and free.any():
        found = renewal.priced(demand, free, below=math.inf, steps=3)
        yield None
        assert found is not None, "nothing costs more than all there is"
        rest, answer = found
        used = np.unique(rest.pool.stocks[rest.columns[answer.shares > EPSILON]])
        if len(used) <= FEW_BOARDS:
            plan = renewal.chosen(rest, answer, settled, below=math.inf, nodes=60)
            if plan is not None:
                yield plan
                return
        fresh = _settled(problem, rest, answer, settled, most=max(1, math.ceil(SHARE * len(used))))
        if not fresh:
            break
        settled += fresh
        free[[p.stock for p in fresh]] = False
    yield plan_of(problem, settled, demand_left(problem, settled))


def _settled(
    problem: Problem, rest: Rest, answer: RestAnswer, before: list[Pattern], *, most: int
) -> list[Pattern]:
    """Patterns to settle next: those the program cuts most of, as far as the ones before leave them whole."""
    demand, fresh, boards = demand_left(problem, before), list[Pattern](), set[int]()
    order: NDArray[np.int64] = np.argsort(-answer.shares, kind="stable")
    for n in order[: max(most, int((answer.shares > SURE).sum()))].tolist():
        column = rest.pool.columns[rest.columns[n]]
        if answer.shares[n] <= EPSILON or column.stock in boards:
            continue
        trial = demand.copy()
        pattern = kept(column.pattern, problem, trial)
        if pattern.segments and (not fresh or pattern.area >= WHOLE * column.pattern.area):
            fresh.append(pattern)
            boards.add(column.stock)
            demand = trial
    return fresh
