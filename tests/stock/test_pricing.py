"""Pricing: the table's value is the pattern's, the pattern can be cut, and hand rules never beat it."""

from random import Random

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scantling.stock import Blank, Cutting, LayoutRequest
from scantling.stock.boards.grades import NO_1_COMMON, draw_board
from scantling.stock.handrules.search import build_plan, first_candidates
from scantling.stock.pricing import pricedboard
from scantling.stock.pricing.pricer import Pricer
from scantling.stock.pricing.pricing import clean_tables
from scantling.stock.question.axis import Rounding
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem, build_problem
from scantling.stock.question.shapes import Duals
from stock.strategies import requests


def worth_of(pattern: Pattern, problem: Problem, duals: Duals) -> float:
    """What a pattern's blanks and strips are worth."""
    base = len(problem.kinds)
    total = 0.0
    for spot in pattern.spots():
        if spot.kind < base:
            total += float(duals.kinds[spot.kind])
        else:
            need = problem.panels[spot.kind - base]
            total += (spot.width - need.loss) * float(duals.widths[spot.kind - base])
    return total


def duals_of(problem: Problem, seed: int) -> Duals:
    """Worths about as the areas of the blanks."""
    rng = np.random.default_rng(seed)
    return Duals(
        kinds=np.array([k.area * rng.uniform(0.5, 1.5) for k in problem.kinds]) * 1e-6,
        widths=np.array([n.length * rng.uniform(0.5, 1.5) for n in problem.panels]) * 1e-6,
        strips=np.zeros(len(problem.panels)),
    )


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(requests(), st.integers(0, 10**6))
def test_worth_is_read_back_and_bounds_hand_rules(request_: LayoutRequest, seed: int) -> None:
    """For the saw <= for the bound; a pattern is worth its table; no hand-made one beats the bound."""
    problem = build_problem(request_.boards, request_.blanks, request_.panels, cutting=request_.cutting)
    duals = duals_of(problem, seed)
    free = [0.0] * len(problem.stocks)
    saw = Pricer.of(problem, rounding=Rounding.CUTTABLE, cap=120)
    worths, patterns = saw.price(duals, patterns=True, costs=free)
    bounds, _ = Pricer.of(problem, rounding=Rounding.BOUND, cap=120).price(duals, patterns=False, costs=free)
    for board, pattern in patterns.items():
        assert worth_of(pattern, problem, duals) >= worths[board] * (1 - 1e-9) - 1e-6
    assert (worths <= bounds * (1 + 1e-9) + 1e-6).all()
    for candidate in first_candidates(problem):
        for pattern in build_plan(problem, candidate).patterns:
            assert worth_of(pattern, problem, duals) <= bounds[pattern.stock] * (1 + 1e-9) + 1e-6


def pricer_of(problem: Problem, *, rough: int) -> Pricer:
    """A pricer for the bound, with so many positions for the rough look."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(pricedboard, "ROUGH", rough)
        return Pricer.of(problem, rounding=Rounding.BOUND, cap=400)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(requests(), st.integers(0, 10**6))
def test_a_rough_look_passes_no_layout_over(request_: LayoutRequest, seed: int) -> None:
    """A board is worth what a hand-made pattern on it is, if above what is known; and no more than before."""
    problem = build_problem(request_.boards, request_.blanks, request_.panels, cutting=request_.cutting)
    duals, free = duals_of(problem, seed), [0.0] * len(problem.stocks)
    made: dict[int, list[float]] = {}
    for candidate in first_candidates(problem):
        for pattern in build_plan(problem, candidate).patterns:
            made.setdefault(pattern.stock, []).append(worth_of(pattern, problem, duals))
    floors = np.array([min(made.get(board, [0.0])) for board in range(len(problem.stocks))])
    worths, _ = pricer_of(problem, rough=10**6).price(duals, patterns=False, costs=free)
    told, _ = pricer_of(problem, rough=4).price(duals, patterns=False, costs=free, floors=floors)
    assert (told <= worths * (1 + 1e-9) + 1e-6).all()
    for board, given_ in made.items():
        assert max(given_) <= told[board] * (1 + 1e-9) + 1e-6


def test_marked_boards_of_many_positions_get_a_rough_look() -> None:
    """It is there on boards as they come, the worth is the same, and few stretches are worked out."""
    rng = Random(3)
    sizes = [(round(rng.uniform(250, 900)), round(rng.uniform(40, 110))) for _ in range(9)]
    blanks = tuple(
        Blank(
            name=f"{part} {copy}",
            part=str(part),
            species="cherry",
            length_mm=length,
            width_mm=width,
            thickness_mm=27.0,
            quarters=(5.0,),
        )
        for part, (length, width) in enumerate(sizes)
        for copy in range(12)
    )
    board = draw_board(rng, NO_1_COMMON, name="B1", species="cherry", quarters=5.0)
    problem = build_problem((board,), blanks, (), cutting=Cutting())
    duals = duals_of(problem, 1)
    worths, _ = pricer_of(problem, rough=10**6).price(duals, patterns=False, costs=[0.0])
    looked = pricer_of(problem, rough=20)
    priced = looked.boards[0][0]
    assert priced.rough is not None
    assert priced.stock.defects
    found = priced.worth(duals, clean_tables(looked.families[0], duals), floor=0.995 * worths[0])
    assert found.whole[-1] == pytest.approx(worths[0])
    assert 0 < len(found.pairs) < 0.2 * len(priced.pairs)
