"""One search by two hands: the bound and better layouts side by side, what is found exchanged at intervals.

While this process looks for better layouts, the other half raises the bound; once nothing raises it further,
both look for layouts, from seeds of their own. New patterns, covers, the best plan and the bound are
exchanged whenever the other half answers. By rounds that is after one step and two attempts, so that the
answer depends on the problem and the seed alone, wherever the half was worked out; by seconds, whenever its
time is over, and the answer then depends on the clock as it does with one hand. Who stops has the best of all
that was exchanged: the other half's last seconds are lost.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from concurrent.futures import BrokenExecutor, Executor, Future
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from scantling.stock.solving.engine import Engine

if TYPE_CHECKING:
    from scantling.stock.bounds.boardsets import BoardSets
    from scantling.stock.bounds.gridbound import GridState
    from scantling.stock.choosing.columns import Generator
    from scantling.stock.solving.halves import HalfAnswer, HalfTask, Known

__all__ = ["PairedEngine"]

ATTEMPTS = 2
"""Attempts at a better layout in a round; the other half makes one step, or as many attempts."""
MOST_S, LEAST_S = 2.0, 0.5
"""Time between two exchanges. [s]"""
FIRST_S = 6.0
"""Time until the first bound from a grid is told. [s]"""
NO_LIMIT = 1 << 30


@dataclass(slots=True)
class PairedEngine(Engine):
    """The search on one problem with another half beside it."""

    executor: Executor | None = None
    """Where the other half is worked out; None for this process, in turn."""
    known: Known = field(init=False)
    """How far the bound has come."""
    first: Future[GridState] | None = None
    """The first bound from a grid, asked for before there are patterns."""

    @property
    def clock_there(self) -> Callable[[], float]:
        """The clock of another process that counts as this one does."""
        return time.monotonic if self.clock is time.monotonic else time.process_time

    def _generate(self) -> Iterator[None]:
        """As alone; the other half is told of the problem at once, or of its grid."""
        from scantling.stock.bounds.gridbound import GridTask, grid_worked
        from scantling.stock.solving.halves import Known, warmed

        self.known = Known()
        if self.executor is not None and self.grid_first:
            clock = self.clock_there
            task = GridTask(problem=self.problem, steps=NO_LIMIT, seconds=FIRST_S, clock=clock)
            self.first = self.executor.submit(grid_worked, task)
        elif self.executor is not None:
            self.executor.submit(warmed, self.problem)
        yield from Engine._generate(self)  # noqa: SLF001

    def _refine(self, generator: Generator) -> Iterator[None]:
        """The other half's steps beside attempts of this one, for as long as the caller likes."""
        finely = self.patience_s is not None
        bettering, number = self.bettering(generator, finely=finely), 0
        future: Future[HalfAnswer] | None = None
        try:
            if self.first is not None:
                yield from self._meanwhile(generator, bettering, future=self.first, number=0)
                self.take_grid(self.first.result())
                self.known = replace(self.known, grid=self.grid)
            while not self.proven:
                number += 1
                task = self._task(generator)
                future = None if task is None else self._begun(task)
                yield from self._meanwhile(generator, bettering, future=future, number=number)
                if future is not None and not self.proven:
                    self._take(generator, future.result(), sent=len(task.known.covers) if task else 0)
                yield
        except BrokenExecutor:
            self.executor = None
            yield from Engine._refine(self, generator)  # noqa: SLF001
        finally:
            for asked in (self.first, future):
                if asked is not None:
                    asked.cancel()
        yield

    def _meanwhile(
        self,
        generator: Generator,
        bettering: Iterator[None],
        *,
        future: Future[HalfAnswer] | Future[GridState] | None,
        number: int,
    ) -> Iterator[None]:
        """Attempts of this half until the other one is to be asked."""
        for tried in range(NO_LIMIT):
            by_clock = self.patience_s is not None and future is not None
            if self.proven or (future is not None and future.done() if by_clock else tried >= ATTEMPTS):
                return
            if self.complete:
                next(bettering)
            else:
                self._stir(generator, number)
            if by_clock:
                yield

    def _begun(self, task: HalfTask) -> Future[HalfAnswer]:
        """The other half's answer to come."""
        from scantling.stock.solving.halves import worked

        if self.executor is not None:
            return self.executor.submit(worked, task)
        there: Future[HalfAnswer] = Future()
        there.set_result(worked(task))
        return there

    def _task(self, generator: Generator) -> HalfTask | None:
        """What the other half is to do next; None where there is nothing."""
        from scantling.stock.choosing.packed import PackedColumns
        from scantling.stock.solving.halves import Half, HalfTask, Limit, known_of

        half = Half.LAYOUTS if self.known.ended else Half.BOUND
        if half is Half.LAYOUTS and not self.complete:
            return None
        seconds = None if self.patience_s is None else min(MOST_S, max(LEAST_S, self.patience_s / 4.0))
        steps = 1 if half is Half.BOUND else ATTEMPTS
        known = known_of(generator, self, ended=self.known.ended)
        return HalfTask(
            problem=self.problem,
            half=half,
            columns=PackedColumns.of(generator.master.columns, places=half is Half.LAYOUTS),
            best=self.best,
            bound=self.bound,
            known=replace(known, settled=self.known.settled, sets_bound=self.known.sets_bound),
            seed=self.rng.randrange(1 << 30),
            limit=Limit(
                steps=steps if seconds is None else NO_LIMIT,
                seconds=seconds,
                patience_s=self.patience_s,
                clock=self.clock_there,
            ),
        )

    def _take(self, generator: Generator, answer: HalfAnswer, *, sent: int) -> None:
        """Take in what the other half found; the first covers are those that were sent."""
        from scantling.stock.bounds.boardsets import BoardSets

        known = self.known = answer.known
        self.grid = known.grid
        for column in answer.fresh.columns():
            generator.master.add(column)
        generator.converged, generator.turn, generator.barren = known.converged, known.turn, known.barren
        generator.bound, generator.priced, self.priced = known.value, list(known.priced), known.steps
        if generator.bound_cap != known.bound_cap:
            generator.bound_cap, generator.for_bound = known.bound_cap, None
        self.offer(answer.best)
        if answer.bound.cost > self.bound.cost:
            self.bound = answer.bound
        if self.sets is None and known.covers:
            self.sets = BoardSets(generator=generator)
        if self.sets is not None:
            _join(self.sets, known, sent=sent)


def _join(sets: BoardSets, known: Known, *, sent: int) -> None:
    """The covers of both halves, each as sharp as either found it."""
    for mine, theirs in zip(sets.covers[:sent], known.covers[:sent], strict=True):
        np.minimum(mine.shares, theirs.shares, out=mine.shares)
        mine.exact |= theirs.exact
    sets.covers += known.covers[sent:]
    sets.likely |= known.likely
