"""Laying out: better and better answers, each with a proven bound, stopped when the caller likes."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from random import Random

from scantling.errors import InputError
from scantling.stock.assemble import BlankNames, board_layout
from scantling.stock.blank import Blank, FreeWidthPanel
from scantling.stock.board import Board
from scantling.stock.bound import CostBound, area_bound
from scantling.stock.cutting import Cutting
from scantling.stock.layout import Layout, StripWidths
from scantling.stock.problem import UNITS_PER_MM, Problem, build_problem
from scantling.stock.search import Plan, build_plan, first_candidates, improve

__all__ = ["LayoutAnswer", "LayoutRequest", "StopRule", "lay_out", "solve"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutRequest:
    """What to cut from what.

    Parameters
    ----------
    boards
        The rack.
    blanks, panels
        What the piece asks for.
    cutting
        Kerfs, edges and what is worth keeping.
    """

    boards: tuple[Board, ...]
    blanks: tuple[Blank, ...]
    panels: tuple[FreeWidthPanel, ...] = ()
    cutting: Cutting = field(default_factory=Cutting)


@dataclass(frozen=True, slots=True, kw_only=True)
class StopRule:
    """When to stop; the first limit reached counts.

    Parameters
    ----------
    rounds
        Layouts tried. The same rounds and seed give the same bytes.
    seconds
        Wall-clock time. [s]
    gap_pct
        Stop once the gap is no larger. [%]
    """

    rounds: int | None = 300
    seconds: float | None = None
    gap_pct: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutAnswer:
    """The best layout so far.

    Parameters
    ----------
    layout
        The layout, with its bound.
    round
        Round in which it was found.
    proven
        Whether nothing cheaper exists.
    """

    layout: Layout
    round: int
    proven: bool


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
        bound_price=bound.cost if priced and not bound.short else None,
        gap_pct=gap,
        short_proven=bound.short,
        seed=seed,
    )


def _keep_going(stop: StopRule, *, done: int, started: float) -> bool:
    if stop.rounds is not None and done >= stop.rounds:
        return False
    return stop.seconds is None or time.monotonic() - started < stop.seconds


def solve(request: LayoutRequest, *, stop: StopRule, seed: int) -> Iterator[LayoutAnswer]:
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

    Yields
    ------
    LayoutAnswer
        The first answer at once, then each better one. The caller may stop at any time.

    Raises
    ------
    InputError
        ``name_twice``.
    """
    _unique_names(request)
    started = time.monotonic()
    problem = build_problem(request.boards, request.blanks, request.panels, cutting=request.cutting)
    bound = area_bound(problem)
    rng = Random(seed)
    firsts = list(first_candidates(problem))
    best = current = firsts[0]
    best_plan = current_plan = build_plan(problem, best)
    yield _answer(request, problem, best_plan, bound=bound, seed=seed, done=1)
    done = 1
    while _keep_going(stop, done=done, started=started) and not _proven(best_plan, bound, stop):
        candidate = firsts[done] if done < len(firsts) else improve(current, rng)
        plan = build_plan(problem, candidate)
        done += 1
        if plan.rank <= current_plan.rank:
            current, current_plan = candidate, plan
        if plan.rank < best_plan.rank:
            best_plan = plan
            yield _answer(request, problem, plan, bound=bound, seed=seed, done=done)


def _proven(plan: Plan, bound: CostBound, stop: StopRule) -> bool:
    return plan.cost - bound.cost <= max(1e-6, plan.cost * stop.gap_pct / 100.0)


def _answer(
    request: LayoutRequest, problem: Problem, plan: Plan, *, bound: CostBound, seed: int, done: int
) -> LayoutAnswer:
    layout = make_layout(request, problem, plan, bound=bound, seed=seed)
    return LayoutAnswer(layout=layout, round=done, proven=plan.cost <= bound.cost + 1e-6)


def lay_out(
    request: LayoutRequest, *, rounds: int | None = 300, seconds: float | None = None, seed: int = 1
) -> Layout:
    """The best layout found within a limit.

    Parameters
    ----------
    request
        Boards, blanks, panels and how the shop cuts.
    rounds
        Layouts tried at most; None for no such limit.
    seconds
        Time allowed; None for no such limit. [s]
    seed
        Seed of the search.

    Returns
    -------
    Layout
        The best answer of :func:`solve`.
    """
    last = None
    for answer in solve(request, stop=StopRule(rounds=rounds, seconds=seconds), seed=seed):
        last = answer
    assert last is not None, "solve always yields once"
    return last.layout
