"""What patterns leave wanting."""

from __future__ import annotations

from scantling.stock.handrules.fill import Demand
from scantling.stock.question.pattern import Pattern
from scantling.stock.question.problem import Problem

__all__ = ["demand_left"]


def demand_left(problem: Problem, patterns: list[Pattern]) -> Demand:
    """What patterns leave wanting."""
    demand = Demand.of(problem)
    base = len(problem.kinds)
    for pattern in patterns:
        for spot in pattern.spots():
            if spot.kind < base:
                demand.counts[spot.kind] -= 1
            else:
                panel = spot.kind - base
                width = spot.width - problem.panels[panel].loss
                demand.widths[panel] = max(0, demand.widths[panel] - width)
                demand.strips[panel] -= 1
    return demand
