"""Pricing: the table's value is the pattern's, the pattern can be cut, and hand rules never beat it."""

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scantling.stock import LayoutRequest
from scantling.stock.axis import Rounding
from scantling.stock.pattern import Pattern
from scantling.stock.pricer import Pricer
from scantling.stock.problem import Problem, build_problem
from scantling.stock.search import build_plan, first_candidates
from scantling.stock.shapes import Duals
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


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(requests(), st.integers(0, 10**6))
def test_worth_is_read_back_and_bounds_hand_rules(request_: LayoutRequest, seed: int) -> None:
    """For the saw <= for the bound; a pattern is worth its table; no hand-made one beats the bound."""
    problem = build_problem(request_.boards, request_.blanks, request_.panels, cutting=request_.cutting)
    rng = np.random.default_rng(seed)
    duals = Duals(
        kinds=np.array([k.area * rng.uniform(0.5, 1.5) for k in problem.kinds]) * 1e-6,
        widths=np.array([n.length * rng.uniform(0.5, 1.5) for n in problem.panels]) * 1e-6,
        strips=np.zeros(len(problem.panels)),
    )
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
