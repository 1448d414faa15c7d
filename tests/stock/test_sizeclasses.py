"""Sizes put into classes: a relaxation with worths by face, and a bound soon where there are many sizes."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import numpy as np
import pytest

from scantling.stock.bounds import gridbound
from scantling.stock.bounds.bound import area_bound
from scantling.stock.bounds.gridbound import GridState, GridTask, grid_worked, size_classes
from scantling.stock.choosing.columns import MOST_KINDS, Generator
from scantling.stock.choosing.master import Master
from scantling.stock.handrules.byworth import laid_by_worth
from scantling.stock.question.problem import Problem, build_problem
from scantling.stock.solving.engine import MANY_BOARDS, Engine, Method
from stock.test_waves import REQUEST


def _problem(sizes: int) -> Problem:
    """Blanks of many sizes on a rack of middling size."""
    rng = Random("sizes")
    blanks = tuple(
        replace(
            REQUEST.blanks[0],
            name=f"part {n}",
            length_mm=float(rng.randint(260, 1100)),
            width_mm=float(rng.randint(42, 120)),
        )
        for n in range(sizes)
    )
    return build_problem(REQUEST.boards[: MANY_BOARDS + 4], blanks, (), cutting=REQUEST.cutting)


@pytest.mark.parametrize("most", [1, 7, 16, 40, 90])
def test_classes_hold_like_sizes(most: int) -> None:
    """Each kind is in one class, there are as many as asked for, and they are narrower than the whole."""
    problem = _problem(40)
    classes = size_classes(problem, most)
    assert set(classes.tolist()) == set(range(min(most, len(problem.kinds))))
    sizes = np.log([[k.length, k.width] for k in problem.kinds])
    spreads = [np.ptp(sizes[classes == c], axis=0).max() for c in range(classes.max() + 1)]
    assert max(spreads) <= np.ptp(sizes, axis=0).max() * (1.0 if most == 1 else 0.9 if most == 7 else 0.6)


def test_worths_within_a_class_go_by_weight() -> None:
    """By classes the program asks for less, so it costs no more; and worths in a class keep its weights."""
    problem = _problem(40)
    faces = np.array([k.area * 1e-12 for k in problem.kinds])
    classes = size_classes(problem, 5)
    generator = Generator.of(problem)
    generator.start()
    merged = Master.of(problem, classes, faces)
    for _ in generator.quick_run(6):
        pass
    for column in generator.master.columns:
        merged.add(column)
    whole, (value, duals) = generator.master.solve()[0], merged.solve()
    assert 0.0 < value <= whole + 1e-6
    for number in range(5):
        rates = duals.kinds[classes == number] / faces[classes == number]
        assert np.allclose(rates, rates[0])


def test_classes_are_parted_until_each_size_is_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """Levels rise to the last, the bound never falls and never passes the cost of a layout."""
    monkeypatch.setattr(gridbound, "CLASSES", (3, 8))
    problem = _problem(14)
    *_, plan = laid_by_worth(problem, Generator.of(problem).quick)
    assert plan is not None
    state, levels, told = GridState(), [0], [0.0]
    for _ in range(40):
        state = grid_worked(GridTask(problem=problem, state=state))
        levels.append(state.level)
        told.append(state.bound)
        if state.solved:
            break
    assert state.solved
    assert sorted(set(levels)) == [0, 1, 2]
    assert levels == sorted(levels)
    assert told == sorted(told)
    assert area_bound(problem).cost < told[-1] <= plan.cost


def test_many_sizes_are_bounded_on_the_grid_first() -> None:
    """With a limit in seconds the first step for the bound already beats that of area; by rounds none is."""
    problem = _problem(MOST_KINDS + 5)
    engine = Engine(problem, Random(1), Method.THOROUGH, patience_s=1.0)
    assert engine.grid_first
    assert not replace(engine, patience_s=None).grid_first
    generator = Generator.of(problem)
    next(engine.bounding(generator))
    assert not generator.priced
    assert engine.bound.cost > area_bound(problem).cost
