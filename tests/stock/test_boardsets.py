"""Sets of boards: no complete layout breaks a cover, and the bound is that of whole boards."""

from random import Random

import pytest
from hypothesis import HealthCheck, given, settings

from scantling.stock import Blank, Board, LayoutRequest, Price, StopRule, solve
from scantling.stock.bounds.boardsets import BoardSets
from scantling.stock.choosing.columns import Generator
from scantling.stock.handrules.search import build_plan, first_candidates, improve
from scantling.stock.question.problem import build_problem
from stock.strategies import SPECIES, requests


def board(name: str, price: float, length: float = 1000.0) -> Board:
    """A clear board 100 mm wide."""
    return Board(
        name=name,
        species=SPECIES,
        quarters=4.0,
        length_mm=length,
        width_mm=100.0,
        price=Price(amount=price),
    )


def blanks(count: int, length: float = 450.0) -> tuple[Blank, ...]:
    """Blanks of which one board of 1000 mm holds two, as wide as a board allows."""
    return tuple(
        Blank(
            name=f"rail {n}",
            part="rail",
            species=SPECIES,
            length_mm=length,
            width_mm=80.0,
            thickness_mm=20.0,
            quarters=(4.0,),
        )
        for n in range(count)
    )


def settled(request: LayoutRequest, *, steps: int = 50) -> BoardSets:
    """The sets of boards of a request, after so many steps or once they are settled."""
    problem = build_problem(request.boards, request.blanks, request.panels, cutting=request.cutting)
    generator = Generator.of(problem)
    generator.start()
    for _ in range(steps):
        if not generator.converged:
            generator.step()
    sets = BoardSets.of(generator)
    for _ in range(steps):
        if not sets.settled:
            sets.step()
    return sets


def test_boards_are_bought_whole() -> None:
    """Three blanks, two to a board: one board and a half by the linear program, two boards by the sets."""
    request = LayoutRequest(boards=tuple(board(f"B{n}", 10.0) for n in range(4)), blanks=blanks(3))
    sets = settled(request)
    assert sets.generator.bound == pytest.approx(15.0)
    assert sets.bound == pytest.approx(20.0)


def test_the_cheapest_set_may_be_of_dear_boards() -> None:
    """Five blanks: a long board for 18 and one for 10 beat three for 30 and do with 28."""
    boards = (*(board(f"B{n}", 10.0) for n in range(3)), board("long", 18.0, length=1500.0))
    sets = settled(LayoutRequest(boards=boards, blanks=blanks(5)))
    assert sets.bound == pytest.approx(28.0)


def test_too_little_wood_is_proven() -> None:
    """No set of boards holds five blanks where two boards hold two each."""
    sets = settled(LayoutRequest(boards=(board("A", 10.0), board("B", 10.0)), blanks=blanks(5)))
    assert sets.bound == float("inf")


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(requests())
def test_no_complete_layout_breaks_a_cover(request_: LayoutRequest) -> None:
    """Whatever hand rules lay out in full keeps to every cover and costs no less than the bound."""
    problem = build_problem(request_.boards, request_.blanks, request_.panels, cutting=request_.cutting)
    sets = settled(request_, steps=5)
    rng = Random(1)
    for first in first_candidates(problem):
        for candidate in (first, improve(first, rng)):
            plan = build_plan(problem, candidate)
            if not plan.missing.met:
                continue
            used = [p.stock for p in plan.patterns]
            assert plan.cost >= sets.bound - 1e-6
            assert all(cover.of(used) >= 1.0 - 1e-6 for cover in sets.covers)


def test_the_bound_of_a_search_is_that_of_the_sets() -> None:
    """The answer of the whole search is proven where the cheapest set holds everything."""
    request = LayoutRequest(boards=tuple(board(f"B{n}", 10.0 + n) for n in range(5)), blanks=blanks(3))
    *_, last = solve(request, stop=StopRule(rounds=12), seed=1)
    assert last.proven
    assert last.bound == pytest.approx(21.0)
