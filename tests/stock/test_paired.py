"""One search by two hands: the same answer wherever the other half is worked out, nothing lost on the way."""

from __future__ import annotations

import os
import pickle
import signal
import time
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, Executor, Future
from random import Random
from typing import Any

import numpy as np
import pytest

from scantling.stock import Blank, Cutting, LayoutRequest, StopRule, solve, verify_layout
from scantling.stock.boards.grades import FAS, NO_1_COMMON, draw_board
from scantling.stock.choosing.columns import Generator
from scantling.stock.choosing.packed import PackedColumns
from scantling.stock.question.problem import build_problem
from scantling.stock.solving.engine import Method
from scantling.stock.solving.hands import hands, usual_workers
from scantling.stock.solving.request import LayoutAnswer


def _request() -> LayoutRequest:
    """A rack of fourteen boards with defects, and thirty blanks of six sizes."""
    rng = Random("paired")
    rack = tuple(
        draw_board(rng, NO_1_COMMON if n % 2 else FAS, name=f"B{n + 1}", species="cherry", quarters=5.0)
        for n in range(14)
    )
    sizes = ((1180.0, 92.0), (860.0, 71.0), (640.0, 118.0), (512.0, 64.0), (433.0, 87.0), (377.0, 52.0))
    blanks = tuple(
        Blank(
            name=f"part {kind}.{copy}",
            part=f"part {kind}",
            species="cherry",
            length_mm=length,
            width_mm=width,
            thickness_mm=27.0,
            quarters=(5.0,),
        )
        for kind, (length, width) in enumerate(sizes)
        for copy in range(5)
    )
    return LayoutRequest(boards=rack, blanks=blanks, cutting=Cutting())


REQUEST = _request()


def _sound(answer: LayoutAnswer) -> bool:
    return not verify_layout(
        answer.layout, boards=REQUEST.boards, blanks=REQUEST.blanks, cutting=REQUEST.cutting
    )


def _by_rounds(executor: Executor | None, *, rounds: int = 6, seed: int = 1) -> list[LayoutAnswer]:
    rule = StopRule(rounds=rounds, method=Method.PAIRED)
    return list(solve(REQUEST, stop=rule, seed=seed, executor=executor))


@pytest.fixture(scope="module")
def here() -> list[LayoutAnswer]:
    """All answers of six rounds, both halves in this process."""
    return _by_rounds(None)


def test_halves_here(here: list[LayoutAnswer]) -> None:
    """Both halves do their part: layouts get cheaper, the bound rises, every answer is sound."""
    assert all(_sound(answer) for answer in here)
    assert here[-1].layout.complete
    assert here[-1].cost < here[0].cost
    assert here[-1].bound > 1.1 * here[0].bound
    assert all(answer.bound <= answer.cost + 1e-6 for answer in here)


@pytest.mark.parametrize("workers", [2, 3])
def test_any_number_of_workers(here: list[LayoutAnswer], workers: int) -> None:
    """By rounds every answer is the same whatever the number of processes, to the last digit."""
    with hands(workers=workers) as executor:
        assert _by_rounds(executor) == here


def test_plain_rounds_stay_as_they_are() -> None:
    """Who asks for rounds alone gets the answer of one hand, whatever there is to spare."""
    alone = list(solve(REQUEST, stop=StopRule(rounds=3), seed=1))
    with hands(workers=2) as executor:
        assert list(solve(REQUEST, stop=StopRule(rounds=3), seed=1, executor=executor)) == alone


def test_by_the_clock() -> None:
    """By seconds the other half's bound comes in as well; who stops has the best answer so far."""
    by_area = next(iter(solve(REQUEST, stop=StopRule(rounds=1), seed=1))).bound
    with hands(workers=2) as executor:
        last = None
        answers = solve(REQUEST, stop=StopRule(rounds=None, seconds=60.0), seed=1, executor=executor)
        for answer in answers:
            assert last is None or answer.cost <= last.cost + 1e-9
            assert last is None or answer.bound >= last.bound - 1e-9
            last = answer
            if answer.bound > 1.1 * by_area and answer.layout.complete:
                break
        answers.close()  # type: ignore[attr-defined]
    assert last is not None
    assert last.bound > 1.1 * by_area
    assert _sound(last)


class _Broken(Executor):
    """A pool whose process has died."""

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        gone: Future[Any] = Future()
        gone.set_exception(BrokenExecutor("a worker was ended"))
        return gone


def test_the_other_half_dies() -> None:
    """Where the other process is ended from outside, this one goes on alone and proves as much."""
    *_, last = _by_rounds(_Broken(), rounds=8)
    assert _sound(last)
    assert last.layout.complete
    assert last.bound > 1.1 * next(iter(solve(REQUEST, stop=StopRule(rounds=1), seed=1))).bound


def test_little_is_sent() -> None:
    """Packed patterns come out as they went in, in half of the bytes; without places, in a quarter."""
    problem = build_problem(REQUEST.boards, REQUEST.blanks, (), cutting=REQUEST.cutting)
    generator = Generator.of(problem)
    generator.start()
    for _ in generator.quick_run(5):
        pass
    columns = generator.master.columns
    packed = PackedColumns.of(columns, places=True)
    assert packed.columns() == columns
    bare = PackedColumns.of(columns, places=False)
    yields = [(c.kinds, c.cost, c.stock) for c in columns]
    assert [(c.kinds, c.cost, c.stock) for c in bare.columns()] == yields
    whole = len(pickle.dumps(columns))
    assert len(pickle.dumps(packed)) < whole / 2
    assert len(pickle.dumps(bare)) < whole / 4
    assert np.array_equal(PackedColumns.of([], places=True).stocks, [])


def _wait() -> int:
    time.sleep(0.1)
    return os.getpid()


def test_helpers_end_with_who_asked() -> None:
    """A process that helps ends when the one it helps is ended from outside, with no time to tell it."""
    from multiprocessing import get_context

    context = get_context("spawn")
    ours, theirs = context.Pipe()
    asker = context.Process(target=_ask, args=(theirs,))
    asker.start()
    helper = ours.recv()
    os.kill(asker.pid or 0, signal.SIGKILL)
    asker.join()
    for _ in range(200):
        if not _runs(helper):
            return
        time.sleep(0.1)
    os.kill(helper, signal.SIGKILL)
    pytest.fail("the helper outlives who asked it")


def _ask(told: Any) -> None:
    with hands(workers=2) as executor:
        assert executor is not None
        told.send(executor.submit(_wait).result())
        time.sleep(600)


def test_a_process_begun_by_another_ends_with_its_helpers() -> None:
    """As the search of the page does: it has its answer, and neither waits for the other."""
    from multiprocessing import get_context

    asker = get_context("spawn").Process(target=_ask_once)
    asker.start()
    asker.join(60.0)
    ended = asker.exitcode
    asker.kill()
    assert ended == 0


def _ask_once() -> None:
    with hands(workers=2) as executor:
        assert executor is not None
        assert executor.submit(pow, 2, 10).result() == 1024


def _runs(process: int) -> bool:
    try:
        with open(f"/proc/{process}/stat") as stat:
            return stat.read().rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False


def test_usual_workers() -> None:
    """Two processes search where there are two cores, never more unasked, never none."""
    assert usual_workers() in (1, 2)
    assert (usual_workers() == 2) == (len(os.sched_getaffinity(0)) >= 2)
