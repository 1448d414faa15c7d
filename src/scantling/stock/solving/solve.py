"""Laying out: better and better answers, each with a proven bound, stopped when the caller likes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from functools import partial
from random import Random

from scantling.errors import InputError
from scantling.stock.bounds.bound import CostBound
from scantling.stock.chalked.assemble import BlankNames, board_layout
from scantling.stock.choosing.subproblem import Subproblem, independent_parts
from scantling.stock.handrules.search import Plan, plan_of
from scantling.stock.handrules.wanting import demand_left
from scantling.stock.layouts.layout import Layout, StripWidths
from scantling.stock.question.problem import UNITS_PER_MM, Problem, build_problem
from scantling.stock.solving.doing import Doing
from scantling.stock.solving.engine import Engine, Method
from scantling.stock.solving.matching import solve_matched
from scantling.stock.solving.paired import PairedEngine
from scantling.stock.solving.request import LayoutAnswer, LayoutRequest, StopRule
from scantling.stock.solving.waves import LARGE_RACK, Waves

__all__ = ["LayoutAnswer", "LayoutRequest", "StopRule", "lay_out", "solve"]

SILENT_S = 5.0
"""After so long without news it is told that the search goes on. [s]"""


def _unique_names(request: LayoutRequest) -> None:
    for field_name, names in (
        ("boards", [b.name for b in request.boards]),
        ("blanks", [b.name for b in request.blanks] + [p.name for p in request.panels]),
    ):
        double = next((n for i, n in enumerate(names) if n in names[:i]), None)
        if double is not None:
            raise InputError(
                code="name_twice",
                field=field_name,
                value=double,
                rule="names must be unique",
                remedy="Give each its own name.",
            )


def make_layout(
    request: LayoutRequest, problem: Problem, plan: Plan, *, bound: CostBound, seed: int
) -> Layout:
    """Turn a plan of the search into a layout with names, cuts and price."""
    names = BlankNames.of(problem)
    patterns = sorted(plan.patterns, key=lambda p: p.stock)
    boards = tuple(board_layout(problem, p, cutting=request.cutting, names=names) for p in patterns)
    used = {b.board.name for b in boards}
    unused = tuple(b for b in request.boards if b.name not in used)
    unplaced = tuple(
        blank for kind, given in zip(problem.kinds, names.given, strict=True) for blank in kind.blanks[given:]
    )
    strips = tuple(
        StripWidths(
            panel=need.panel.name,
            widths_mm=tuple(s.width_mm - need.loss / UNITS_PER_MM for s in made),
            missing_mm=missing / UNITS_PER_MM,
        )
        for need, made, missing in zip(problem.panels, names.strips, plan.missing.widths, strict=True)
    )
    prices = [b.board.price_total for b in boards]
    price = None if any(p is None for p in prices) else sum(p for p in prices if p is not None)
    whole = sum(b.board.mean_width_mm * b.board.length_mm for b in boards)
    net = sum(p.length_mm * p.width_mm for b in boards for p in b.placed)
    priced = all(b.price_total is not None for b in request.boards)
    complete = not unplaced and all(s.missing_mm <= 1e-6 for s in strips)
    gap = None
    if complete and plan.cost > 0:
        gap = max(0.0, 100.0 * (plan.cost - bound.cost) / plan.cost)
    return Layout(
        boards=boards,
        unplaced=unplaced,
        strips=strips,
        unused=unused,
        price=price,
        waste_pct=100.0 * (1.0 - net / whole) if whole > 0 else 0.0,
        bound_price=bound.cost if priced and request.aim.price_alone and not bound.short else None,
        gap_pct=gap,
        short_proven=bound.short,
        seed=seed,
    )


def _keep_going(stop: StopRule, *, done: int, started: float) -> bool:
    if stop.rounds is not None and done >= stop.rounds:
        return False
    return stop.seconds is None or stop.clock() - started < stop.seconds


def _in_pairs(stop: StopRule, executor: Executor | None) -> bool:
    """Whether two hands work on one rack: where asked for, or by the clock with a hand to spare.

    By rounds alone the answer is that of one hand, whatever there is to spare.
    """
    by_clock = stop.rounds is None and stop.seconds is not None
    return stop.method is Method.PAIRED or (
        stop.method is Method.THOROUGH and by_clock and executor is not None
    )


@dataclass(slots=True)
class _Search:
    """The engines of the independent parts of a rack, taken together."""

    problem: Problem
    parts: list[Subproblem]
    engines: list[Engine | Waves]

    @classmethod
    def of(cls, problem: Problem, *, stop: StopRule, seed: int, executor: Executor | None) -> _Search:
        parts = independent_parts(problem)
        engines: list[Engine | Waves] = []
        for number, part in enumerate(parts):
            rng = Random(f"{seed} {number}")
            large = len(part.problem.stocks) > LARGE_RACK and not part.problem.groups
            if large and stop.method is not Method.QUICK:
                by_clock = stop.rounds is None and stop.seconds is not None
                whole = by_clock or stop.method is Method.PAIRED
                waves = Waves(part.problem, rng, executor, stop.clock, by_clock=by_clock, whole=whole)
                engines.append(waves)
                continue
            patience_s = None if stop.seconds is None else max(0.2, stop.seconds / 5)
            how = (part.problem, rng, stop.method, patience_s, stop.clock)
            engines.append(
                PairedEngine(*how, executor=executor) if _in_pairs(stop, executor) else Engine(*how)
            )
        return cls(problem=problem, parts=parts, engines=engines)

    def plan(self) -> Plan:
        """The best plans of all parts as one."""
        patterns = [
            part.lift(pattern.copy())
            for part, engine in zip(self.parts, self.engines, strict=True)
            for pattern in engine.best.patterns
        ]
        return plan_of(self.problem, patterns, demand_left(self.problem, patterns))

    def bound(self) -> CostBound:
        """The bounds of all parts as one."""
        bounds = [engine.bound for engine in self.engines]
        return CostBound(cost=sum(b.cost for b in bounds), short=any(b.short for b in bounds))

    @property
    def proven(self) -> bool:
        return all(engine.proven for engine in self.engines)

    @property
    def doing(self) -> Doing:
        """What is done on the largest part that is not yet proven."""
        open_ = [e for e in self.engines if not e.proven] or self.engines
        return max(open_, key=lambda e: len(e.problem.stocks)).doing if open_ else Doing.BOTH

    def state(self) -> tuple[object, ...]:
        """Changes whenever there is something to tell."""
        return tuple((e.best.rank, e.bound) for e in self.engines)

    def rounds(self) -> Iterator[None]:
        """One round of every part that is not yet proven, as long as there is one."""
        running = [engine.rounds() for engine in self.engines]
        while running:
            running = [engine for engine in running if next(engine, self) is not self]
            yield


def solve(
    request: LayoutRequest, *, stop: StopRule, seed: int, executor: Executor | None = None
) -> Iterator[LayoutAnswer]:
    """Lay blanks out on boards: an iterator of ever better answers.

    Whatever is asked for comes before price: no saving pays for leaving a blank out. Then the price of the
    boards cut counts (board feet where a board has no price), then the face left over.

    Parameters
    ----------
    request
        Boards, blanks, panels and how the shop cuts.
    stop
        When to stop. By rounds, the result depends on the request and the seed alone.
    seed
        Seed of the search.
    executor
        Where the lots of a rack of hundreds of boards are laid out; None for this process. The answer by
        rounds is the same with any.

    Yields
    ------
    LayoutAnswer
        The first answer at once, then one for each better layout or bound. With a limit in seconds alone, one
        without news after every few seconds of silence. The caller may stop at any time.

    Raises
    ------
    InputError
        ``name_twice``.
    """
    _unique_names(request)
    if request.wishes:
        yield from solve_matched(request, plain=partial(_solve, executor=executor), stop=stop, seed=seed)
    else:
        yield from _solve(request, stop=stop, seed=seed, executor=executor)


def _solve(
    request: LayoutRequest, *, stop: StopRule, seed: int, executor: Executor | None
) -> Iterator[LayoutAnswer]:
    """Lay out a request without wishes."""
    started = stop.clock()
    problem = build_problem(
        request.boards, request.blanks, request.panels, cutting=request.cutting, aim=request.aim
    )
    search = _Search.of(problem, stop=stop, seed=seed, executor=executor)
    told, told_s = search.state(), started
    yield (last := _answer(request, search, seed=seed, done=0))
    for done, _ in enumerate(search.rounds(), start=1):
        state = search.state()
        if state != told:
            told, told_s = state, stop.clock()
            yield (last := _answer(request, search, seed=seed, done=done))
        elif stop.rounds is None and stop.clock() - told_s >= SILENT_S:
            told_s = stop.clock()
            yield replace(last, round=done, news=False, doing=search.doing)
        if not _keep_going(stop, done=done, started=started) or _close(search, stop):
            return


def _close(search: _Search, stop: StopRule) -> bool:
    if stop.gap_pct <= 0:
        return search.proven
    cost = sum(engine.best.cost for engine in search.engines)
    return cost - search.bound().cost <= cost * stop.gap_pct / 100.0


def _answer(request: LayoutRequest, search: _Search, *, seed: int, done: int) -> LayoutAnswer:
    plan = search.plan()
    layout = make_layout(request, search.problem, plan, bound=search.bound(), seed=seed)
    return LayoutAnswer(
        layout=layout,
        round=done,
        proven=search.proven,
        cost=plan.cost,
        bound=search.bound().cost,
        doing=search.doing,
    )


def lay_out(
    request: LayoutRequest,
    *,
    rounds: int | None = 12,
    seconds: float | None = None,
    seed: int = 1,
    told: Callable[[LayoutAnswer], None] | None = None,
    executor: Executor | None = None,
) -> Layout:
    """The best layout found within a limit.

    Parameters
    ----------
    request
        Boards, blanks, panels and how the shop cuts.
    rounds
        Rounds of the search at most; None for no such limit.
    seconds
        Time allowed; None for no such limit. [s]
    seed
        Seed of the search.
    told
        Is told of every better answer. Who listens may interrupt: the best answer so far is then returned.
    executor
        Where the lots of a large rack are laid out; None for this process.

    Returns
    -------
    Layout
        The best answer of :func:`solve`.
    """
    last = None
    try:
        stop = StopRule(rounds=rounds, seconds=seconds)
        for answer in solve(request, stop=stop, seed=seed, executor=executor):
            last = answer
            if told is not None:
                told(answer)
    except KeyboardInterrupt:
        if told is None or last is None:
            raise
    assert last is not None, "solve always yields once"
    return last.layout
