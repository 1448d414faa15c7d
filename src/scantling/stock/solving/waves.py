"""Racks of hundreds of boards: lots of a dozen boards are laid out anew side by side, wave after wave.

A wave deals the boards that are cut, and those that are not, into lots at random. Each lot keeps to the needs
its boards hold now, so what one lot saves no other can lose, and lots may run anywhere at the same time.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, Executor, Future, wait
from dataclasses import dataclass, field, replace
from random import Random
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from scantling.stock.bounds.bound import CostBound, area_bound
from scantling.stock.choosing.subproblem import Subproblem, restrict
from scantling.stock.handrules.fill import Demand
from scantling.stock.handrules.search import Plan, build_plan, first_candidates, plan_of
from scantling.stock.handrules.wanting import demand_left
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem
from scantling.stock.solving.doing import Doing

if TYPE_CHECKING:
    from scantling.stock.bounds.gridbound import GridState, GridTask
    from scantling.stock.question.shapes import Duals
    from scantling.stock.solving.tasks import LotAnswer, LotTask

__all__ = ["LARGE_RACK", "Waves"]

LARGE_RACK = 80
"""Racks with more boards are laid out in lots."""
LOT_BOARDS = 12
"""Boards that are cut in a lot; about as many more are there to choose from."""
MOST_OTHERS = 24
LARGE_LOT = 40
"""Boards that are cut in a lot that is laid out at once."""
BATCH = 10
"""Boards priced for the bound in one task."""
BOUND_CAP, QUICK_CAP = 60, 60
"""Positions along a board, for the bound and for the first plan."""
EPSILON = 1e-6
BESIDE_S = 6.0
"""Time between two answers of the process that works on the bound. [s]"""
ALONE_STEPS = 8
"""Steps for the bound after each wave of lots, in one process."""
PAUSE_S = 0.5
"""Time after which a process that waits for another looks round. [s]"""
NO_LIMIT = 1 << 30

A = TypeVar("A")
B = TypeVar("B")


@dataclass(slots=True)
class _Beside:
    """The bound from a grid, worked out beside the layouts where there is a hand to spare."""

    waves: Waves
    problem: Problem
    """What the bound is worked out for: alike panels as one."""
    state: GridState | None = None
    future: Future[GridState] | None = None

    def take(self) -> None:
        """Take what is there, and ask for more; by rounds, wait for it."""
        waves = self.waves
        if waves.by_clock and waves.executor is None:
            return
        if self.future is not None:
            if waves.by_clock and not self.future.done():
                return
            self._told(waves.result_of(self.future, self._work, self._task()))
        self.future = None if self.state is not None and self.state.ended else self._asked()

    def _asked(self) -> Future[GridState]:
        if self.waves.executor is not None:
            return self.waves.executor.submit(self._work, self._task())
        there: Future[GridState] = Future()
        there.set_result(self._work(self._task()))
        return there

    def steps(self) -> Iterator[None]:
        """In this process alone: some steps."""
        for _ in range(ALONE_STEPS if self.waves.by_clock else 0):
            if self.state is not None and self.state.ended:
                return
            self._told(self._work(self._task()))
            yield

    def end(self) -> None:
        """Ask for no more."""
        if self.future is not None:
            self.future.cancel()

    @property
    def _work(self) -> Callable[[GridTask], GridState]:
        from scantling.stock.bounds.gridbound import grid_worked

        return grid_worked

    def _task(self) -> GridTask:
        from scantling.stock.bounds.gridbound import GridState, GridTask

        self.state = self.state or GridState()
        waves = self.waves
        beside = waves.by_clock and waves.executor is not None
        clock = time.monotonic if waves.clock is time.monotonic else time.process_time
        return GridTask(
            problem=self.problem,
            state=self.state,
            steps=NO_LIMIT if beside else 1,
            seconds=BESIDE_S if beside else None,
            clock=clock,
        )

    def _told(self, state: GridState) -> None:
        self.state, waves = state, self.waves
        if state.bound > waves.bound.cost:
            short = state.bound > sum(s.cost for s in waves.problem.stocks) + EPSILON
            waves.bound = CostBound(cost=state.bound, short=short)


@dataclass(slots=True)
class Waves:
    """State of the search on one large problem; answers to what the engine of a small one answers to."""

    problem: Problem
    rng: Random
    executor: Executor | None = None
    """Where lots are laid out; None for this process."""
    clock: Callable[[], float] = time.monotonic
    by_clock: bool = False
    """Whether seconds end the search; what was asked of other processes is then waited for by none."""
    best: Plan = field(init=False)
    bound: CostBound = field(init=False)
    whole: bool = False
    """Whether to lay large lots out at once first, with a bound from a grid beside it."""
    doing: Doing = Doing.BY_WORTH
    """What the search is at."""
    useful: list[Pattern] = field(default_factory=list)
    """Patterns of all lots, for what the needs are worth."""

    def __post_init__(self) -> None:
        self.bound = area_bound(self.problem)
        plans = [build_plan(self.problem, c) for c in first_candidates(self.problem)]
        self.best = min(plans, key=lambda p: p.rank)

    @property
    def proven(self) -> bool:
        """Whether nothing better exists."""
        return self.best.cost - self.bound.cost <= EPSILON * max(1.0, self.best.cost)

    def rounds(self) -> Iterator[None]:
        """One lot, or one batch of boards for the bound, a round."""
        yield
        if self.whole:
            yield from self._at_once()
        else:
            yield from self._by_lots()

    def _at_once(self) -> Iterator[None]:
        """Large lots laid out at once, then small ones renewed; the bound beside them."""
        from scantling.stock.bounds.gridbound import panels_together
        from scantling.stock.solving.tasks import lay_lot, laying_lot, renew_lot, renewing_lot

        beside, first = _Beside(self, panels_together(self.problem)), True
        beside.take()
        try:
            self.doing = Doing.BY_WORTH
            for _ in self._by_worth():
                beside.take()
                yield
            if self.by_clock and len(self.best.patterns) <= LARGE_RACK:
                first, self.doing = False, Doing.AT_ONCE
                for _ in self._whole_at_once():
                    beside.take()
                    yield
            while not self.proven:
                self.doing = Doing.AT_ONCE if first else Doing.LOTS
                lots = self._lots(LARGE_LOT, most_others=LARGE_RACK) if first else self._lots()
                work = (lay_lot, laying_lot) if first else (renew_lot, renewing_lot)
                for _ in self._wave(*work, lots):
                    beside.take()
                    yield
                first = False
                if self.executor is None:
                    yield from beside.steps()
        finally:
            beside.end()

    def _by_worth(self) -> Iterator[None]:
        """A first plan of the whole, board after board by what each gives for its price: one round."""
        from scantling.stock.handrules.byworth import laid_by_worth
        from scantling.stock.pricing.quickpricer import QuickPricer

        for plan in laid_by_worth(self.problem, QuickPricer.of(self.problem, cap=QUICK_CAP)):
            if plan is not None and plan.rank < self.best.rank:
                self.best = plan
            if self.by_clock or plan is not None:
                yield

    def _whole_at_once(self) -> Iterator[None]:
        """The whole rack laid out as one large lot, where few enough boards are cut."""
        from scantling.stock.choosing.atonce import laid_at_once

        for plan in laid_at_once(self.problem, self.rng, self.best):
            if plan is not None and plan.rank < self.best.rank:
                self.best = plan
            yield

    def _by_lots(self) -> Iterator[None]:
        """Lots, and the bound by what their patterns say, in turn."""
        from scantling.stock.solving.tasks import bound_worths, renew_lot, renewing_lot

        self.doing = Doing.LOTS
        while not self.proven:
            yield from self._wave(renew_lot, renewing_lot, self._lots())
            if not self.proven:
                yield from self._bounding(bound_worths)

    def _wave(
        self,
        work: Callable[[LotTask], LotAnswer],
        steps: Callable[[LotTask], Iterator[LotAnswer | None]],
        lots: list[Subproblem],
    ) -> Iterator[None]:
        """Every lot once; by the clock each counts as soon as it is there, with pauses between its steps."""
        tasks = [self._task(lot) for lot in lots]
        for told in self._soonest(work, steps, tasks) if self.by_clock else self._run(work, tasks):
            if told is not None:
                number, answer = told
                self._take(lots[number], answer)
            yield
            if self.proven:
                return

    def _run(self, work: Callable[[A], B], tasks: list[A]) -> Iterator[tuple[int, B]]:
        """Answers in the order of the tasks, so that it does not matter where they were worked out.

        This process works too: it takes the last tasks nobody has begun.
        """
        if self.executor is None:
            yield from enumerate(map(work, tasks))
            return
        waiting = [self.executor.submit(work, task) for task in tasks]
        mine: dict[int, B] = {}
        try:
            for number, there in enumerate(waiting):
                while number not in mine and not there.done() and (spare := _spared(waiting)) is not None:
                    mine[spare] = work(tasks[spare])
                yield number, mine[number] if number in mine else self.result_of(there, work, tasks[number])
        finally:
            for future in waiting:
                future.cancel()

    def _soonest(
        self, work: Callable[[A], B], steps: Callable[[A], Iterator[B | None]], tasks: list[A]
    ) -> Iterator[tuple[int, B] | None]:
        """The same as they come, and None now and then while none does: who asks can look round."""
        asked = (
            {} if self.executor is None else {n: self.executor.submit(work, t) for n, t in enumerate(tasks)}
        )
        left = dict(asked)
        try:
            for mine in reversed(range(len(tasks))):
                if asked and (mine not in left or not asked[mine].cancel()):
                    continue
                left.pop(mine, None)
                for answer in steps(tasks[mine]):
                    yield None if answer is None else (mine, answer)
                    yield from self._there(left, work, tasks)
            while left:
                yield from self._waited(left, work, tasks)
        finally:
            for future in asked.values():
                future.cancel()

    def _waited(
        self, left: dict[int, Future[B]], work: Callable[[A], B], tasks: list[A]
    ) -> Iterator[tuple[int, B] | None]:
        """What comes while there is nothing to do but wait."""
        if self.clock is time.monotonic:
            wait(left.values(), timeout=PAUSE_S, return_when=FIRST_COMPLETED)
            yield None
        else:  # time only goes by with work
            number = min(left)
            yield number, self.result_of(left.pop(number), work, tasks[number])
        yield from self._there(left, work, tasks)

    def _there(
        self, left: dict[int, Future[B]], work: Callable[[A], B], tasks: list[A]
    ) -> Iterator[tuple[int, B]]:
        """Answers that are there by now, which are then no longer waited for."""
        for number in [n for n, future in left.items() if future.done()]:
            yield number, self.result_of(left.pop(number), work, tasks[number])

    def result_of(self, there: Future[B], work: Callable[[A], B], task: A) -> B:
        """What comes of a task; worked out here where the process that had it was ended from outside."""
        try:
            return there.result()
        except BrokenExecutor:
            self.executor = None
            return work(task)

    def _lots(self, size: int = LOT_BOARDS, *, most_others: int = MOST_OTHERS) -> list[Subproblem]:
        """Boards dealt into lots, each with what it holds; what is missing goes round."""
        there = {p.stock for p in self.best.patterns}
        others = [s for s in range(len(self.problem.stocks)) if s not in there]
        self.rng.shuffle(others)
        groups = self._alike(size)
        lots = []
        for number, mine in enumerate(groups):
            demand = self._held(mine, number, len(groups))
            free = others[number :: len(groups)][:most_others]
            lots.append(restrict(self.problem, sorted([p.stock for p in mine] + free), demand))
        return lots

    def _alike(self, most: int) -> list[list[Pattern]]:
        """Patterns in groups that hold the same kinds as far as may be: more ways to swap, fewer sizes."""
        left = list(self.best.patterns)
        self.rng.shuffle(left)
        holds = {id(p): {s.kind for s in p.spots()} for p in left}
        count = max(1, round(len(left) / most))
        size = -(-len(left) // count)
        groups = []
        while left:
            group = [left.pop()]
            kinds = set(holds[id(group[0])])
            while left and len(group) < size:
                shared = [len(kinds & holds[id(p)]) / len(holds[id(p)]) + self.rng.random() / 4 for p in left]
                group.append(left.pop(int(np.argmax(shared))))
                kinds |= holds[id(group[-1])]
            groups.append(group)
        return groups

    def _held(self, patterns: list[Pattern], number: int, count: int) -> Demand:
        """What some boards hold, with this lot's share of what is missing."""
        left, whole, lacking = demand_left(self.problem, patterns), Demand.of(self.problem), self.best.missing
        held = Demand(
            counts=[a - b for a, b in zip(whole.counts, left.counts, strict=True)],
            widths=[a - b for a, b in zip(whole.widths, left.widths, strict=True)],
            strips=[a - b for a, b in zip(whole.strips, left.strips, strict=True)],
        )
        for kind, missing in enumerate(lacking.counts):
            held.counts[kind] += len(range(number, missing, count))
        if number == 0:
            held.widths = [a + b for a, b in zip(held.widths, lacking.widths, strict=True)]
            held.strips = [a + b for a, b in zip(held.strips, lacking.strips, strict=True)]
        return held

    def _task(self, lot: Subproblem) -> LotTask:
        from scantling.stock.solving.tasks import LotTask

        mine = set(lot.stocks)
        return LotTask(
            problem=lot.problem,
            patterns=tuple(lot.lower(p) for p in self.best.patterns if p.stock in mine),
            seed=self.rng.randrange(1 << 30),
        )

    def _take(self, lot: Subproblem, answer: LotAnswer) -> None:
        """Take a lot's plan in place of what its boards held."""
        self.useful += [lot.lift(p.copy()) for p in answer.useful]
        mine = set(lot.stocks)
        patterns = [p for p in self.best.patterns if p.stock not in mine]
        patterns += [lot.lift(p.copy()) for p in answer.plan.patterns]
        plan = plan_of(self.problem, patterns, demand_left(self.problem, patterns))
        if plan.rank < self.best.rank:
            self.best = plan

    def _worths(self) -> Duals:
        """What the needs are worth by the patterns of all lots together."""
        from scantling.stock.choosing.master import Master, column_of

        master = Master.of(self.problem)
        for pattern in [*self.useful, *self.best.patterns]:
            master.add(column_of(self.problem, pattern))
        return master.solve()[1]

    def _bounding(self, work: Callable[..., tuple[float, ...]]) -> Iterator[None]:
        """The bound for those worths: board by board, first as if it had no defects, then as it is."""
        from scantling.stock.choosing.master import lagrangian_bound
        from scantling.stock.solving.tasks import BoundTask

        duals = self._worths()
        count = len(self.problem.stocks)
        worths = np.full(count, np.inf)
        bare = tuple(replace(s, defects=()) for s in self.problem.stocks)
        for stocks in (bare, self.problem.stocks):
            batches = [range(low, min(count, low + BATCH)) for low in range(0, count, BATCH)]
            tasks = [
                BoundTask(
                    problem=_only(replace(self.problem, stocks=stocks), batch), duals=duals, cap=BOUND_CAP
                )
                for batch in batches
            ]
            for number, found in self._run(work, tasks):
                batch = batches[number]
                worths[batch.start : batch.stop] = np.minimum(worths[batch.start : batch.stop], found)
                value = lagrangian_bound(self.problem, duals, worths)
                if value > self.bound.cost:
                    self.bound = CostBound(cost=value, short=value > sum(s.cost for s in stocks) + EPSILON)
                yield


def _spared(waiting: list[Future[B]]) -> int | None:
    """Number of the last task nobody has begun, taken from those who might; None where all are begun."""
    free = (n for n in reversed(range(len(waiting))) if not waiting[n].cancelled())
    return next((n for n in free if waiting[n].cancel()), None)


def _only(problem: Problem, boards: range) -> Problem:
    """Some of the boards with all the needs."""
    return replace(
        problem,
        stocks=tuple(problem.stocks[b] for b in boards),
        kinds=tuple(
            replace(k, boards=frozenset(b - boards.start for b in boards if b in k.boards))
            for k in problem.kinds
        ),
        panels=tuple(
            replace(n, boards=frozenset(b - boards.start for b in boards if b in n.boards))
            for n in problem.panels
        ),
    )
