"""Racks of hundreds of boards: lots side by side, on any executor, checked from nothing."""

from __future__ import annotations

from concurrent.futures import Executor, ProcessPoolExecutor
from dataclasses import replace
from itertools import islice
from multiprocessing import get_context
from random import Random

import pytest
from distributed import LocalCluster

from scantling.errors import InputError
from scantling.stock import Blank, Cutting, LayoutRequest, StopRule, solve, verify_layout
from scantling.stock.boards.grades import FAS, NO_1_COMMON, draw_board
from scantling.stock.buying.simulate import ShortfallQuestion, shortfall_curve
from scantling.stock.layouts.layout import Layout
from scantling.stock.question.problem import build_problem
from scantling.stock.solving.hands import hands
from scantling.stock.solving.waves import LARGE_RACK, Waves


def _request(boards: int, copies: int) -> LayoutRequest:
    """A rack of a hundred boards, and several of one small piece."""
    rng = Random("waves")
    rack = tuple(
        draw_board(rng, NO_1_COMMON if n % 3 else FAS, name=f"B{n + 1}", species="cherry", quarters=5.0)
        for n in range(boards)
    )
    sizes = {"leg": (760.0, 60.0, 4), "rail": (480.0, 90.0, 3), "seat": (430.0, 120.0, 2)}
    blanks = tuple(
        Blank(
            name=f"stool {copy}: {part} {n}",
            part=part,
            species="cherry",
            length_mm=length,
            width_mm=width,
            thickness_mm=27.0,
            quarters=(5.0,),
        )
        for copy in range(1, copies + 1)
        for part, (length, width, count) in sizes.items()
        for n in range(1, count + 1)
    )
    return LayoutRequest(boards=rack, blanks=blanks, cutting=Cutting())


REQUEST = _request(LARGE_RACK + 10, 12)


def _laid(rounds: int, executor: Executor | None = None) -> Layout:
    answers = solve(REQUEST, stop=StopRule(rounds=rounds), seed=1, executor=executor)
    return list(answers)[-1].layout


@pytest.fixture(scope="module")
def here() -> Layout:
    """The layout after five rounds in this process."""
    return _laid(5)


def test_large_rack(here: Layout) -> None:
    """A large rack is laid out soundly, and at least 3 % cheaper than by hand rules."""
    broken = verify_layout(here, boards=REQUEST.boards, blanks=REQUEST.blanks, cutting=REQUEST.cutting)
    first = next(iter(solve(REQUEST, stop=StopRule(rounds=1), seed=1))).layout
    assert not broken
    assert here.complete
    assert here.price is not None
    assert first.price is not None
    assert here.price < 0.97 * first.price


def test_pool(here: Layout) -> None:
    """Two processes give the same layout as this one."""
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        assert _laid(5, pool) == here


def test_cluster(here: Layout) -> None:
    """A cluster gives the same layout, and the same curve of what to buy."""
    question = ShortfallQuestion(blanks=REQUEST.blanks[:9], grade=FAS, quarters=5.0)
    with (
        LocalCluster(n_workers=1, threads_per_worker=2, processes=False, dashboard_address=None) as cluster,
        hands(cluster=cluster.scheduler_address) as executor,
    ):
        assert _laid(5, executor) == here
        spread = shortfall_curve(question, draws=6, executor=executor)
    assert spread == shortfall_curve(question, draws=6)


def test_bound() -> None:
    """The bound rises above that of area alone, and never above the best price."""
    problem = build_problem(REQUEST.boards, REQUEST.blanks, (), cutting=REQUEST.cutting)
    waves = Waves(problem, Random(1))
    by_area = waves.bound.cost
    for _ in islice(waves.rounds(), 26):
        assert waves.bound.cost <= waves.best.cost + 1e-6
    assert waves.bound.cost > 1.02 * by_area


def test_short_rack() -> None:
    """Where wood is lacking every blank is placed or told, none lost between the lots."""
    short = replace(REQUEST, boards=REQUEST.boards[: LARGE_RACK + 1], blanks=_request(0, 90).blanks)
    layout = list(solve(short, stop=StopRule(rounds=4), seed=1))[-1].layout
    assert layout.unplaced
    assert not verify_layout(layout, boards=short.boards, blanks=short.blanks, cutting=short.cutting)


def test_silent_cluster() -> None:
    """A scheduler that does not answer is told as such."""
    with pytest.raises(InputError) as told, hands(cluster="nowhere:1"):
        pass
    assert told.value.code == "cluster_silent"
