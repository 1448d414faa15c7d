"""Quick pricing, refilling and renewal, against the exact pricing of the same boards."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.stock import Blank, Cutting, LayoutRequest
from scantling.stock.boards.grades import FAS, NO_1_COMMON, draw_board
from scantling.stock.choosing.columns import Generator
from scantling.stock.choosing.master import column_of
from scantling.stock.choosing.renewal import Renewal
from scantling.stock.handrules.fill import Demand
from scantling.stock.handrules.refill import kept, refilled
from scantling.stock.handrules.search import allowed_order, build_plan, first_candidates
from scantling.stock.pricing.pricer import Pricer
from scantling.stock.pricing.quickpricer import QuickPricer
from scantling.stock.question.axis import Rounding
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem, build_problem
from scantling.stock.question.shapes import Duals


def _request(seed: int, *, boards: int = 6, marked: bool = True) -> LayoutRequest:
    rng = Random(seed)
    rack = tuple(
        draw_board(rng, NO_1_COMMON if marked else FAS, name=f"B{n}", species="cherry", quarters=5.0)
        for n in range(boards)
    )
    sizes = [(rng.randint(250, 1200), rng.randint(40, 140), rng.randint(1, 4)) for _ in range(5)]
    blanks = tuple(
        Blank(
            name=f"{k} {n}",
            part=f"{k}",
            species="cherry",
            length_mm=float(length),
            width_mm=float(width),
            thickness_mm=27.0,
            quarters=(5.0,),
        )
        for k, (length, width, count) in enumerate(sizes)
        for n in range(count)
    )
    return LayoutRequest(boards=rack, blanks=blanks, cutting=Cutting())


def _problem(request: LayoutRequest) -> Problem:
    return build_problem(request.boards, request.blanks, (), cutting=request.cutting)


def _duals(problem: Problem, rng: Random) -> Duals:
    worths = [k.area * 1e-9 * rng.uniform(0.7, 1.3) for k in problem.kinds]
    return Duals(kinds=np.array(worths), widths=np.zeros(0), strips=np.zeros(0))


def _worth(problem: Problem, pattern: Pattern, duals: Duals) -> float:
    counts = column_of(problem, pattern).kinds
    return float(np.dot(counts, duals.kinds))


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_quick_is_cuttable_and_no_better(seed: int) -> None:
    """A quick pattern is worth what it says; of what is wanted it holds no more than the bound allows."""
    problem = _problem(_request(seed))
    duals = _duals(problem, Random(seed))
    quick = QuickPricer.of(problem, cap=60).price(duals)
    bounds, _ = Pricer.of(problem, rounding=Rounding.BOUND, cap=200).price(
        duals, patterns=False, costs=[0.0] * len(problem.stocks)
    )
    for stock, (worth, pattern) in quick.items():
        assert _worth(problem, pattern, duals) == pytest.approx(worth, rel=1e-9)
        wanted = kept(pattern, problem, Demand.of(problem))
        assert _worth(problem, wanted, duals) <= bounds[stock] + 1e-6


def test_no_strip_holds_more_than_is_wanted() -> None:
    """A blank wanted once stands once in a strip, though two of it would be worth more."""
    blank = Blank(
        name="long",
        part="long",
        species="cherry",
        length_mm=1000.0,
        width_mm=140.0,
        thickness_mm=27.0,
        quarters=(5.0,),
    )
    board = draw_board(Random(3), FAS, name="B", species="cherry", quarters=5.0)
    problem = build_problem((board,), (blank,), (), cutting=Cutting())
    duals = Duals(kinds=np.array([1000.0]), widths=np.zeros(0), strips=np.zeros(0))
    found = QuickPricer.of(problem, cap=60).price(duals)
    for _, pattern in found.values():
        for segment in pattern.segments:
            for strip in segment.strips:
                assert len(strip.spots) == 1


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10_000))
def test_refilled(seed: int) -> None:
    """Refilling keeps what is wanted, adds more of it at most, and spends just what it holds."""
    problem = _problem(_request(seed))
    rng = Random(seed)
    for stock, (_, pattern) in QuickPricer.of(problem, cap=60).price(_duals(problem, rng)).items():
        demand = Demand.of(problem)
        demand.counts = [rng.randint(0, c) for c in demand.counts]
        before = list(demand.counts)
        less = kept(pattern, problem, demand.copy())
        more = refilled(pattern, problem, demand, allowed_order(problem, stock, demand))
        low, high = column_of(problem, less).kinds, column_of(problem, more).kinds
        assert all(a <= b <= c for a, b, c in zip(low, high, before, strict=True))
        assert demand.counts == [b - h for b, h in zip(before, high, strict=True)]


def test_renewal_only_gets_better() -> None:
    """Every plan a renewal tells is complete and better than the one before."""
    problem = _problem(_request(11, boards=14))
    start = min((build_plan(problem, c) for c in first_candidates(problem)), key=lambda p: p.rank)
    assert start.missing.met
    generator = Generator.of(problem)
    generator.start()
    generator.learn(start)
    for _ in generator.quick_run(20):
        pass
    renewal = Renewal(generator=generator, rng=Random(1), best=start)
    renewal.widen(steps=3)
    ranks = [start.rank]
    for plan in [renewal.whole(nodes=20), *(renewal.attempt() for _ in range(25))]:
        if plan is not None:
            assert plan.missing.met
            renewal.take(plan)
            ranks.append(renewal.best.rank)
    assert ranks == sorted(ranks, reverse=True)
    assert ranks[-1] < ranks[0]


def test_boards_too_narrow() -> None:
    """Boards too narrow for anything are worth nothing, and break nothing."""
    request = _request(5, boards=2)
    wide = tuple(replace(b, width_mm=400.0) for b in request.blanks)
    problem = build_problem(request.boards, wide, (), cutting=request.cutting)
    assert QuickPricer.of(problem, cap=60).price(_duals(problem, Random(1))) == {}


def test_offers_are_what_is_priced() -> None:
    """A pattern worked out only once it is asked for is the one that pricing tells at once."""
    request = _request(5)
    tapered = replace(request.boards[0], name="T", far_width_mm=request.boards[0].width_mm - 20.0)
    problem = build_problem((*request.boards, tapered), request.blanks, (), cutting=request.cutting)
    quick = QuickPricer.of(problem, cap=60)
    duals = Duals(
        kinds=np.array([k.area * 1e-10 for k in problem.kinds]), widths=np.zeros(0), strips=np.zeros(0)
    )
    counts = [max(1, len(k.blanks) - 1) for k in problem.kinds]
    some, free = frozenset(range(1, len(problem.stocks))), [0.0] * len(problem.stocks)
    told = quick.price(duals, only=some, counts=counts, costs=free)
    offers = quick.offers(duals, only=some, counts=counts)
    assert len(told) == len(some)
    assert {b: (worth, pattern()) for b, (worth, pattern) in offers.items()} == told
