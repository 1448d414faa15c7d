"""The bound of a large rack: boards are priced on a grid for worths that come from the grid as well.

On a grid (:mod:`scantling.stock.bounds.coarse`) a board of many sizes has few positions, so that all
boards of a
rack are priced exactly in seconds. Patterns priced there give worths of the blanks, as on the rack itself;
with the last of them boards are priced once more on a finer grid. For any worths, the boards that are cut
must together be worth what all blanks are: the cheapest boards that are, the last of them in part, are a
bound, which anyone can check by pricing each board for the worths told.

Hundreds of sizes take hundreds of patterns until their worths make sense. So sizes are first put into a few
classes that are alike in length and width: within a class worths go by face, and only the faces of classes
must add up, which few patterns settle. Then there are more classes, and last each size is one of its own.

References
----------
.. [1] Gilmore, Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9
   (1961) 849-859: patterns priced by worth.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from scantling.stock.bounds.boardsets import needed_worth
from scantling.stock.bounds.coarse import coarsened
from scantling.stock.choosing.columns import Generator
from scantling.stock.choosing.master import Master
from scantling.stock.choosing.packed import PackedColumns
from scantling.stock.choosing.rest import Pool
from scantling.stock.pricing.pricer import Pricer
from scantling.stock.question.axis import Rounding
from scantling.stock.question.problem import UNITS_PER_MM, PanelNeed, Problem

__all__ = ["GridState", "GridTask", "grid_worked", "least_cost", "panels_together", "size_classes"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
GRID_MM = ((24, 3), (12, 2))
"""Steps along and across: where worths come from, and where boards are priced for the last of them. [mm]"""
CAP, SUMS_CAP, ROWS_CAP = 1500, 6000, 300
"""Positions: more than a board has on either grid."""
CLASSES = (16, 64)
"""Classes at first, and then; in the end each size is one."""
QUICK_STEPS = 8
NEXT, CLOSE = 0.004, 0.001
"""Share of its value by which the linear program may lie above the bound, and classes are parted further; and
where nothing is left to part it counts as solved."""
BATCH = 8
"""Boards priced in one step on the finer grid."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GridState:
    """How far the bound has come.

    Parameters
    ----------
    columns
        What the patterns on the first grid yield; None before the first step.
    bound
        What no layout of all blanks undercuts. [money]
    level
        How often classes were parted further.
    solved
        Whether worths are as good as they get.
    fine
        Worths of the boards on the finer grid, as far as known; from above for boards not priced yet. [money]
    priced
        Boards priced there.
    ended
        Whether nothing raises the bound any more.
    """

    columns: PackedColumns | None = None
    bound: float = 0.0
    level: int = 0
    solved: bool = False
    fine: Floats | None = None
    priced: frozenset[int] = frozenset()
    ended: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GridTask:
    """Some steps for the bound.

    Parameters
    ----------
    problem
        The question.
    state
        How far the steps before came.
    steps
        Steps at most.
    seconds
        Time at most, by ``clock``; None for no such limit. [s]
    clock
        Of the process that works, in seconds.
    """

    problem: Problem
    state: GridState = field(default_factory=GridState)
    steps: int = 1
    seconds: float | None = None
    clock: Callable[[], float] = time.monotonic


def panels_together(problem: Problem) -> Problem:
    """The question with panels alike in all but their name asked for as one, as wide as all of them.

    Every layout of ``problem`` is one of what comes out, so what none of that undercuts, none of this does: a
    run of forty tables asks for one top forty times as wide.
    """
    alike: dict[tuple[object, ...], list[PanelNeed]] = {}
    for need in problem.panels:
        key = (need.length, need.least, need.greatest, need.loss, need.sides, need.boards)
        alike.setdefault(key, []).append(need)
    together = (
        replace(
            needs[0],
            total=sum(n.total for n in needs),
            most=sum(n.most for n in needs),
            penalty=sum(n.penalty for n in needs),
        )
        for needs in alike.values()
    )
    return replace(problem, panels=tuple(together))


def least_cost(costs: Sequence[float], worths: Floats, needed: float) -> float:
    """What the cheapest boards cost that are worth a sum, the last one in part; infinite where all are not.

    Examples
    --------
    >>> least_cost([10.0, 20.0, 30.0], np.array([10.0, 10.0, 60.0]), 65.0)
    35.0
    """
    price = np.array(costs)
    useful = np.flatnonzero(worths > 0.0)
    order = useful[np.argsort(price[useful] / worths[useful], kind="stable")]
    upto = np.cumsum(worths[order])
    last = int(np.searchsorted(upto, needed))
    if last == len(order):
        return float("inf") if not len(order) or needed > upto[-1] + 1e-9 else float(price[order].sum())
    before = float(upto[last - 1]) if last else 0.0
    share = (needed - before) / float(worths[order[last]])
    return float(price[order[:last]].sum() + max(0.0, share) * price[order[last]])


@lru_cache(maxsize=4)
def _on_grid(problem: Problem, level: int) -> tuple[Problem, Pricer]:
    along, across = (step * UNITS_PER_MM for step in GRID_MM[level])
    coarse = coarsened(problem, along=along, across=across)
    return coarse, Pricer.of(coarse, rounding=Rounding.BOUND, cap=CAP, sums_cap=SUMS_CAP, rows_cap=ROWS_CAP)


@lru_cache(maxsize=2)
def _bare(problem: Problem) -> Generator:
    """A generator on the first grid without patterns, kept for its positions."""
    return Generator.of(_on_grid(problem, 0)[0])


def size_classes(problem: Problem, most: int) -> Ints:
    """The class of each kind, alike in length and width: halved by face where lengths or widths differ most.

    Parameters
    ----------
    problem
        The question.
    most
        Classes at most.
    """
    sizes = np.log([[k.length, k.width] for k in problem.kinds])
    faces = _faces(problem) * np.array([len(k.blanks) for k in problem.kinds])
    open_, done = [np.arange(len(faces))], list[Ints]()
    while open_ and len(open_) + len(done) < most:
        spread = [float(np.ptp(sizes[c], axis=0).max() * faces[c].sum()) for c in open_]
        widest = open_.pop(int(np.argmax(spread)))
        if max(spread) <= 0.0:
            done.append(widest)
            continue
        axis = int(np.argmax(np.ptp(sizes[widest], axis=0)))
        row = widest[np.argsort(sizes[widest, axis], kind="stable")]
        upto = np.cumsum(faces[row])
        half = min(int(np.searchsorted(upto, upto[-1] / 2.0)) + 1, len(row) - 1)
        open_ += [row[:half], row[half:]]
    classes = np.zeros(len(faces), dtype=np.int64)
    for number, members in enumerate([*open_, *done]):
        classes[members] = number
    return classes


def _faces(problem: Problem) -> Floats:
    """Face of one blank of each kind with its kerfs. [m2]"""
    kerfs = problem.cross, problem.rip
    return (
        np.array([(k.length + kerfs[0]) * (k.width + kerfs[1]) for k in problem.kinds], dtype=float) * 1e-12
    )


def _master(problem: Problem, level: int) -> Master:
    """The linear program on the first grid, by classes of sizes or, in the end, by sizes."""
    coarse, _ = _on_grid(problem, 0)
    if level >= len(CLASSES) or CLASSES[level] >= len(problem.kinds):
        return Master.of(coarse)
    return Master.of(coarse, size_classes(problem, CLASSES[level]), _faces(problem))


def grid_worked(task: GridTask) -> GridState:
    """Make some steps: first worths, then all boards for them until none helps, then on the finer grid."""
    begun, state = task.clock(), task.state
    generator = replace(_bare(task.problem), master=_master(task.problem, state.level), priced=[])
    for column in state.columns.columns() if state.columns else ():
        generator.master.add(column)
    for _ in range(task.steps):
        if state.ended or (task.seconds is not None and task.clock() - begun >= task.seconds):
            break
        if state.columns is None:
            generator.start()
            _quick_worths(generator)
        if not state.solved:
            state = _worths_step(task.problem, generator, state)
        else:
            state = _fine_step(task.problem, generator, state)
        state = replace(state, columns=PackedColumns.of(generator.master.columns, places=False))
    return state


def _quick_worths(generator: Generator) -> None:
    for _ in generator.quick_run(QUICK_STEPS):
        pass


def _worths_step(problem: Problem, generator: Generator, state: GridState) -> GridState:
    """Price all boards on the first grid for the worths its patterns give; part classes that are settled."""
    _, pricer = _on_grid(problem, 0)
    value, duals = generator.master.solve()
    costs = [s.cost for s in problem.stocks]
    worths, patterns = pricer.price(duals, patterns=True, floors=generator.floors(duals))
    bound = max(state.bound, least_cost(costs, worths, needed_worth(generator, duals)))
    fresh = sum(generator.take(stock, pattern) for stock, pattern in patterns.items())
    last = generator.master.needs == len(problem.kinds)
    settled = not fresh or value - bound <= (CLOSE if last else NEXT) * value
    if last or not settled:
        return replace(state, bound=bound, solved=settled)
    columns, generator.master = generator.master.columns, _master(problem, state.level + 1)
    for column in columns:
        generator.master.add(column)
    generator.pool = Pool(generator.problem, generator.master.columns)
    _quick_worths(generator)
    return replace(state, bound=bound, level=state.level + 1)


def _fine_step(problem: Problem, generator: Generator, state: GridState) -> GridState:
    """Price some boards on the finer grid for the last worths, those first that the bound now counts on."""
    _, pricer = _on_grid(problem, 1)
    _, duals = generator.master.solve()
    costs, needed = np.array([s.cost for s in problem.stocks]), needed_worth(generator, duals)
    fine = pricer.ceilings(duals) if state.fine is None else state.fine.copy()
    order = np.argsort(costs / np.maximum(fine, 1e-9), kind="stable")
    counted = order[: int(np.searchsorted(np.cumsum(fine[order]), needed)) + 1]
    batch = [int(b) for b in counted if int(b) not in state.priced][:BATCH]
    if batch:
        free = [0.0] * len(costs)
        worths, _ = pricer.price(duals, patterns=False, only=frozenset(batch), costs=free)
        fine[batch] = np.minimum(fine[batch], worths[batch])
    bound = max(state.bound, least_cost(costs.tolist(), fine, needed))
    return replace(state, bound=bound, fine=fine, priced=state.priced | set(batch), ended=not batch)
