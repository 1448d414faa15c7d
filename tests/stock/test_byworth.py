"""The first layout of many boards, by what each gives for its price: sound, cheaper than hand rules."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice
from random import Random

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings

from scantling.stock import LayoutRequest, verify_layout
from scantling.stock.bounds.bound import CostBound
from scantling.stock.choosing.atonce import laid_at_once
from scantling.stock.handrules.byworth import laid_by_worth, worths_by_face
from scantling.stock.handrules.search import Plan, build_plan, first_candidates
from scantling.stock.pricing.quickpricer import QuickPricer
from scantling.stock.question.problem import Problem, build_problem
from scantling.stock.solving.engine import MANY_BOARDS, Engine, Method
from scantling.stock.solving.solve import make_layout
from scantling.stock.solving.waves import Waves
from stock.strategies import requests
from stock.test_waves import REQUEST

SLOW = (HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much)


def _problem(request: LayoutRequest) -> Problem:
    return build_problem(request.boards, request.blanks, request.panels, cutting=request.cutting)


def _laid(problem: Problem) -> Plan:
    plan = list(laid_by_worth(problem, QuickPricer.of(problem, cap=60)))[-1]
    assert plan is not None
    return plan


def test_cheaper_than_hand_rules() -> None:
    """On a rack of ninety boards it leaves nothing out and costs less than the best of the hand rules."""
    problem = _problem(REQUEST)
    plan, by_hand = _laid(problem), min(build_plan(problem, c).cost for c in first_candidates(problem))
    assert plan.missing.met
    assert plan.cost < 0.97 * by_hand


@settings(max_examples=40, deadline=None, suppress_health_check=SLOW)
@given(requests())
def test_sound(request_: LayoutRequest) -> None:
    """Whatever is asked for, with panels, tapered boards and boards ripped first, it can be cut."""
    problem = _problem(request_)
    if problem.groups:
        return
    plan = _laid(problem)
    layout = make_layout(request_, problem, plan, bound=CostBound(cost=0.0, short=False), seed=1)
    assert not verify_layout(
        layout,
        boards=request_.boards,
        blanks=request_.blanks,
        panels=request_.panels,
        cutting=request_.cutting,
    )
    assert len({p.stock for p in plan.patterns}) == len(plan.patterns)


def test_large_blanks_first() -> None:
    """A blank twice as large is worth 7 % more than two; the worths keep the order of the faces."""
    problem = _problem(REQUEST)
    faces = np.array([k.area for k in problem.kinds], dtype=float)
    worths = worths_by_face(problem).kinds
    assert (np.argsort(worths) == np.argsort(faces)).all()
    assert np.allclose((worths / faces) / (worths / faces)[0], (faces / faces[0]) ** 0.1)


@pytest.mark.parametrize("large", [False, True])
def test_first_within_seconds(large: bool) -> None:
    """With a limit in seconds it comes right after the hand rules, on middling racks and on large ones."""
    boards = len(REQUEST.boards) if large else MANY_BOARDS + 1
    request = replace(REQUEST, boards=REQUEST.boards[:boards], blanks=REQUEST.blanks[: boards // 2])
    problem, rng = _problem(request), Random(1)
    engine = (
        Waves(problem, rng, by_clock=True, whole=True)
        if large
        else Engine(problem, rng, Method.THOROUGH, patience_s=1.0)
    )
    expected = _laid(problem)
    for _ in islice(engine.rounds(), 1 + boards):
        if engine.best.rank <= expected.rank:
            return
    assert engine.best.rank <= expected.rank


def test_then_the_whole_at_once() -> None:
    """Where few boards are cut, the whole rack is laid out at once next: as cheap as that alone."""
    problem = _problem(REQUEST)
    *_, alone = laid_at_once(problem, Random(1), _laid(problem))
    waves = Waves(problem, Random(1), by_clock=True, whole=True)
    assert alone is not None
    assert alone.cost < _laid(problem).cost
    for _ in islice(waves.rounds(), 200):
        if waves.best.cost <= alone.cost:
            return
    assert waves.best.cost <= alone.cost
