"""A search by the clock tells what is there as soon as it is, and what it is at where nothing is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import BrokenExecutor, Executor, Future
from itertools import count, islice
from random import Random
from typing import Any

from scantling.stock import StopRule, solve
from scantling.stock.question.problem import build_problem
from scantling.stock.solving.doing import Doing
from scantling.stock.solving.solve import SILENT_S
from scantling.stock.solving.waves import Waves
from stock.test_waves import REQUEST


class Elsewhere(Executor):
    """Another process: what it has begun, and what came of it; None where it is still at it."""

    def __init__(self, begun: dict[int, BaseException | int | None]) -> None:
        self._begun, self._asked = begun, count()

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Take a task; it is as far as was said."""
        future, number = Future[Any](), next(self._asked)
        if number in self._begun:
            future.set_running_or_notify_cancel()
            end = self._begun[number]
            if isinstance(end, BaseException):
                future.set_exception(end)
            elif end is not None:
                future.set_result(end)
        return future


def tenfold(task: int) -> int:
    """Some work."""
    return 10 * task


def slowly(task: int) -> Iterator[int | None]:
    """The same in three steps."""
    yield None
    yield None
    yield tenfold(task)


def waves(executor: Executor | None) -> Waves:
    """A search with something to ask of other processes."""
    problem = build_problem(REQUEST.boards, REQUEST.blanks, (), cutting=REQUEST.cutting)
    return Waves(problem, Random(1), executor, count().__next__, by_clock=True)


def test_each_lot_counts_as_soon_as_it_is_there() -> None:
    """Lots nobody else has begun are worked out here, the last first, with pauses between their steps."""
    told = list(waves(Elsewhere({}))._soonest(tenfold, slowly, [1, 2, 3]))
    assert told == [None, None, (2, 30), None, None, (1, 20), None, None, (0, 10)]


def test_what_others_have_is_taken_once() -> None:
    """An answer from elsewhere comes at the next pause; a process that broke has its work done here."""
    gone = BrokenExecutor("ended from outside")
    told = list(waves(Elsewhere({0: 11, 1: gone}))._soonest(tenfold, slowly, [1, 2, 3]))
    assert told == [None, (0, 11), (1, 20), None, (2, 30)]


def test_alone_every_lot_is_worked_out_here() -> None:
    """Without other processes it is the same, step by step."""
    told = list(waves(None)._soonest(tenfold, slowly, [1, 2]))
    assert [t for t in told if t is not None] == [(1, 20), (0, 10)]


def test_it_is_told_that_a_silent_search_goes_on() -> None:
    """After some seconds without news there is an answer that says so, with the layout there was."""
    ticks = count()
    stop = StopRule(rounds=None, seconds=1e9, clock=lambda: next(ticks) * SILENT_S / 4)
    answers = list(islice(solve(REQUEST, stop=stop, seed=1), 40))
    silent = next(n for n, answer in enumerate(answers) if not answer.news)
    assert answers[silent].layout is answers[silent - 1].layout
    assert answers[silent].doing in (Doing.BY_WORTH, Doing.AT_ONCE)


def test_by_rounds_there_is_news_alone() -> None:
    """The answers by rounds depend on no clock."""
    assert all(answer.news for answer in solve(REQUEST, stop=StopRule(rounds=3), seed=1))
