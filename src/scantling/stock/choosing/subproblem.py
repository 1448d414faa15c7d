"""Parts of a layout question: independent woods, or a few boards with what they have to yield."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from scantling.stock.handrules.fill import Demand
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem

__all__ = ["Subproblem", "independent_parts", "restrict"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Subproblem:
    """A problem with the numbers its boards, kinds and panels have in the whole one."""

    problem: Problem
    stocks: tuple[int, ...]
    kinds: tuple[int, ...]
    panels: tuple[int, ...]
    whole_kinds: int

    def lower(self, pattern: Pattern) -> Pattern:
        """A copy of a pattern of the whole problem with this part's numbers."""
        kinds = {kind: n for n, kind in enumerate(self.kinds)}
        base = len(self.kinds)
        kinds |= {self.whole_kinds + panel: base + n for n, panel in enumerate(self.panels)}
        lowered = pattern.copy()
        lowered.stock = self.stocks.index(pattern.stock)
        for spot in lowered.spots():
            spot.kind = kinds[spot.kind]
        return lowered

    def lift(self, pattern: Pattern) -> Pattern:
        """The same pattern with the numbers of the whole problem. Changes and returns it."""
        base = len(self.kinds)
        pattern.stock = self.stocks[pattern.stock]
        for spot in pattern.spots():
            if spot.kind < base:
                spot.kind = self.kinds[spot.kind]
            else:
                spot.kind = self.whole_kinds + self.panels[spot.kind - base]
        return pattern


def restrict(problem: Problem, stocks: Sequence[int], demand: Demand) -> Subproblem:
    """Some boards, and what is wanted of them.

    Parameters
    ----------
    problem
        The whole question.
    stocks
        Numbers of the boards kept.
    demand
        Blanks and panel widths wanted; kinds and panels with none are left out.
    """
    number = {stock: n for n, stock in enumerate(stocks)}
    kinds = [k for k, count in enumerate(demand.counts) if count > 0]
    panels = [p for p, width in enumerate(demand.widths) if width > 0 and demand.strips[p] > 0]
    return Subproblem(
        problem=replace(
            problem,
            stocks=tuple(problem.stocks[s] for s in stocks),
            kinds=tuple(
                replace(
                    problem.kinds[k],
                    blanks=problem.kinds[k].blanks[: demand.counts[k]],
                    boards=frozenset(number[s] for s in problem.kinds[k].boards if s in number),
                )
                for k in kinds
            ),
            panels=tuple(
                replace(
                    problem.panels[p],
                    total=demand.widths[p],
                    most=demand.strips[p],
                    penalty=problem.panels[p].penalty * demand.widths[p] / problem.panels[p].total,
                    boards=frozenset(number[s] for s in problem.panels[p].boards if s in number),
                )
                for p in panels
            ),
        ),
        stocks=tuple(stocks),
        kinds=tuple(kinds),
        panels=tuple(panels),
        whole_kinds=len(problem.kinds),
    )


def independent_parts(problem: Problem) -> list[Subproblem]:
    """Split a problem into parts that share no board and no wish; boards nobody asks for are left out."""
    needs = [(k.boards, k.same_board, n, -1) for n, k in enumerate(problem.kinds)]
    needs += [(p.boards, p.panel.same_board, -1, n) for n, p in enumerate(problem.panels)]
    groups: list[tuple[set[int], set[str], list[int], list[int]]] = []
    for boards, wish, kind, panel in needs:
        joined: tuple[set[int], set[str], list[int], list[int]] = (set(boards), {wish} - {""}, [], [])
        joined[2].extend([kind] if kind >= 0 else [])
        joined[3].extend([panel] if panel >= 0 else [])
        apart = []
        for group in groups:
            if group[0] & joined[0] or group[1] & joined[1]:
                joined[0].update(group[0])
                joined[1].update(group[1])
                joined[2].extend(group[2])
                joined[3].extend(group[3])
            else:
                apart.append(group)
        groups = [*apart, joined]
    return [_part(problem, sorted(b), set(k), set(p)) for b, _, k, p in groups]


def _part(problem: Problem, stocks: list[int], kinds: set[int], panels: set[int]) -> Subproblem:
    whole = Demand.of(problem)
    demand = Demand(
        counts=[c if k in kinds else 0 for k, c in enumerate(whole.counts)],
        widths=[w if p in panels else 0 for p, w in enumerate(whole.widths)],
        strips=whole.strips,
    )
    return restrict(problem, stocks, demand)
