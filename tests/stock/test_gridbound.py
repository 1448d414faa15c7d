"""A large rack on a grid: what is brought down to it bounds what is not; the whole rack laid out at once."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from random import Random

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scantling.stock import Cutting, FreeWidthPanel, LayoutRequest, StopRule, solve, verify_layout
from scantling.stock.boards.grades import FAS, NO_1_COMMON, draw_board
from scantling.stock.bounds.bound import area_bound
from scantling.stock.bounds.coarse import coarsened
from scantling.stock.bounds.gridbound import GridState, GridTask, grid_worked, least_cost, panels_together
from scantling.stock.choosing.atonce import laid_at_once
from scantling.stock.handrules.byworth import laid_by_worth
from scantling.stock.handrules.search import build_plan, first_candidates, improve
from scantling.stock.pricing.pricer import Pricer
from scantling.stock.pricing.quickpricer import QuickPricer
from scantling.stock.question.axis import Rounding
from scantling.stock.question.problem import build_problem
from scantling.stock.question.shapes import Duals
from scantling.stock.solving.engine import Method
from scantling.stock.solving.hands import hands
from scantling.stock.solving.request import LayoutAnswer
from stock.strategies import requests
from stock.test_waves import REQUEST

SLOW = (HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much)


@settings(max_examples=40, deadline=None, suppress_health_check=SLOW)
@given(requests(), st.integers(1, 40), st.integers(1, 9), st.integers(0, 9))
def test_no_layout_is_worth_more_than_its_board_on_the_grid(
    request_: LayoutRequest, along_mm: int, across_mm: int, seed: int
) -> None:
    """Whatever blanks are worth, a board on the grid is worth what hand rules cut from it at least."""
    problem = build_problem(request_.boards, request_.blanks, request_.panels, cutting=request_.cutting)
    coarse = coarsened(problem, along=1000 * along_mm, across=1000 * across_mm)
    pricer = Pricer.of(coarse, rounding=Rounding.BOUND, cap=300, sums_cap=2000)
    rng = Random(seed)
    duals = Duals(
        kinds=np.array([rng.uniform(0.5, 1.5) * k.area * 1e-10 for k in problem.kinds]),
        widths=np.array([rng.uniform(0.5, 1.5) * n.length * 1e-10 for n in problem.panels]),
        strips=np.zeros(len(problem.panels)),
    )
    worths, _ = pricer.price(duals, patterns=False, costs=[0.0] * len(problem.stocks))
    base = len(problem.kinds)
    for first in first_candidates(problem):
        for candidate in (first, improve(first, rng)):
            for pattern in build_plan(problem, candidate).patterns:
                worth = sum(
                    duals.kinds[s.kind]
                    if s.kind < base
                    else duals.widths[s.kind - base] * (s.width - problem.panels[s.kind - base].loss)
                    for s in pattern.spots()
                )
                assert worths[pattern.stock] >= worth - 1e-9


def test_sizes_come_down_to_the_grid() -> None:
    """On a grid of one step nothing changes; on another each size with its kerf loses less than a step."""
    problem = build_problem(REQUEST.boards, REQUEST.blanks, (), cutting=REQUEST.cutting)
    assert coarsened(problem, along=1, across=1) == problem
    coarse = coarsened(problem, along=30_000, across=5_000)
    for before, after in zip(problem.kinds, coarse.kinds, strict=True):
        assert (after.length + problem.cross) % 30_000 == 0
        assert (after.width + problem.rip) % 5_000 == 0
        assert 0 <= before.length - after.length < 30_000
        assert 0 <= before.width - after.width < 5_000


@given(st.lists(st.tuples(st.integers(1, 9), st.integers(0, 9)), min_size=1, max_size=6), st.integers(1, 30))
def test_least_cost_bounds_every_choice(boards: list[tuple[int, int]], needed: int) -> None:
    """No boards that are worth enough cost less; and where none are, no sum is enough."""
    costs, worths = [float(c) for c, _ in boards], np.array([float(w) for _, w in boards])
    least = least_cost(costs, worths, float(needed))
    numbers = range(len(boards))
    enough = [
        sum(costs[b] for b in chosen)
        for size in range(len(boards) + 1)
        for chosen in combinations(numbers, size)
        if worths[list(chosen)].sum() >= needed
    ]
    assert least <= min(enough, default=float("inf")) + 1e-9
    assert (least == float("inf")) == (not enough)


def test_the_bound_rises_with_every_step() -> None:
    """The grid's bound lies above that of area, rises, ends, and never passes the price of a layout."""
    problem = build_problem(REQUEST.boards, REQUEST.blanks, (), cutting=REQUEST.cutting)
    price = list(solve(REQUEST, stop=StopRule(rounds=6), seed=1))[-1].cost
    state, told = GridState(), [0.0]
    for _ in range(60):
        if state.ended:
            break
        state = grid_worked(GridTask(problem=problem, state=state))
        told.append(state.bound)
    assert state.ended
    assert told == sorted(told)
    assert 1.02 * area_bound(problem).cost < state.bound <= price


def test_at_once_is_cheaper_than_lot_by_lot() -> None:
    """All boards at once come to less than hand rules improved lot by lot, each lot once."""
    problem = build_problem(REQUEST.boards, REQUEST.blanks, (), cutting=REQUEST.cutting)
    by_hand = min((build_plan(problem, c) for c in first_candidates(problem)), key=lambda p: p.rank)
    *_, plan = laid_at_once(problem, Random(1), by_hand)
    by_lots = list(solve(REQUEST, stop=StopRule(rounds=4), seed=1))[-1].cost
    assert plan is not None
    assert plan.missing.met
    assert plan.cost < by_lots


def _paired(workers: int) -> list[LayoutAnswer]:
    rule = StopRule(rounds=9, method=Method.PAIRED)
    with hands(workers=workers) as executor:
        return list(solve(REQUEST, stop=rule, seed=1, executor=executor))


@pytest.fixture(scope="module")
def here() -> list[LayoutAnswer]:
    """All answers with the bound in this process as well."""
    return _paired(1)


def test_large_rack_by_two_hands(here: list[LayoutAnswer]) -> None:
    """Layouts and bound close in on each other, and every answer is sound."""
    boards, blanks = REQUEST.boards, REQUEST.blanks
    for answer in here:
        assert not verify_layout(answer.layout, boards=boards, blanks=blanks, cutting=REQUEST.cutting)
    assert here[-1].cost - here[-1].bound < 0.5 * (here[0].cost - here[0].bound)


def test_large_rack_by_any_number_of_workers(here: list[LayoutAnswer]) -> None:
    """By rounds the answers are the same, to the last digit, where another process works on the bound."""
    assert _paired(2) == here


def test_short_rack_at_once() -> None:
    """Where wood is lacking the whole rack is laid out all the same, and what is missing is told."""
    problem = build_problem(REQUEST.boards[:8], REQUEST.blanks, (), cutting=REQUEST.cutting)
    by_hand = min((build_plan(problem, c) for c in first_candidates(problem)), key=lambda p: p.rank)
    *_, plan = laid_at_once(problem, Random(1), by_hand)
    assert plan is not None
    assert not plan.missing.met
    assert plan.patterns


def tops(count: int) -> tuple[FreeWidthPanel, ...]:
    """Table tops alike in all but their name."""
    return tuple(
        FreeWidthPanel(
            name=f"table {n}: top",
            part="top",
            species="cherry",
            length_mm=1346.0,
            total_width_mm=672.7,
            thickness_mm=31.75,
            least_strip_mm=90.0,
            greatest_strip_mm=150.0,
            edge_loss_mm=8.0,
            quarters=(5.0,),
        )
        for n in range(count)
    )


def test_a_run_of_tops_is_bounded_by_more_than_its_face() -> None:
    """Strips of all tops count as those of one: no layout costs less, faces alone come to much less."""
    rng = Random(5)
    boards = tuple(
        draw_board(rng, NO_1_COMMON if n % 3 else FAS, name=f"B{n}", species="cherry", quarters=5.0)
        for n in range(60)
    )
    problem = build_problem(boards, (), tops(8), cutting=Cutting())
    together = panels_together(problem)
    (wide,) = together.panels
    assert wide.total == sum(n.total for n in problem.panels)
    assert wide.most == sum(n.most for n in problem.panels)
    state = GridState()
    while not state.ended:
        state = grid_worked(GridTask(problem=together, state=state))
    plan = list(laid_by_worth(problem, QuickPricer.of(problem, cap=60)))[-1]
    assert plan is not None
    assert plan.missing.met
    assert 1.2 * area_bound(problem).cost < state.bound <= plan.cost


def test_unlike_panels_stay_apart() -> None:
    """Only what may change places is counted together."""
    first, second, other = tops(3)
    request = (first, second, replace(other, length_mm=900.0))
    boards = (draw_board(Random(1), FAS, name="B", species="cherry", quarters=5.0),)
    assert len(panels_together(build_problem(boards, (), request, cutting=Cutting())).panels) == 2
