"""Which boards to cut at all: branch and bound over the boards, every node bounded by column generation.

Most of what a linear bound leaves open on a small rack is that boards are bought whole. A node fixes some
boards as cut and some as left alone; its bound is the next sum of prices not below its linear bound.

References
----------
.. [1] Barnhart, Johnson, Nemhauser, Savelsbergh, Vance, "Branch-and-price: column generation for solving huge
   integer programs", Operations Research 46 (1998) 316-329.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator
from dataclasses import dataclass, field

from scantling.stock.bound import next_price_sum
from scantling.stock.columns import Generator

__all__ = ["MOST_BOARDS", "BoardTree"]

MOST_BOARDS = 16
"""Racks with more boards are not branched on."""
EPSILON = 1e-6


@dataclass(order=True, slots=True)
class _Node:
    bound: float
    number: int
    cut: frozenset[int] = field(compare=False)
    left: frozenset[int] = field(compare=False)


@dataclass(slots=True)
class BoardTree:
    """The tree over which boards are cut. Works on a generator that has converged and is exact."""

    generator: Generator
    open: list[_Node] = field(default_factory=list)
    settled: float = field(default=float("inf"))
    """Least bound of nodes with all boards decided whose layout is not found. [money]"""
    count: int = 0

    def __post_init__(self) -> None:
        root = _Node(bound=self.generator.bound, number=0, cut=frozenset(), left=frozenset())
        self.open = [root]

    def bound(self, best: float) -> float:
        """What no layout undercuts, given the cost of the best one. [money]"""
        least = self.open[0].bound if self.open else float("inf")
        return min(best, least, self.settled)

    def explore(self, best: float) -> Iterator[frozenset[int] | None]:
        """Open one node a time; yields a set of boards worth a choice of patterns, or None.

        Parameters
        ----------
        best
            Cost of the best layout known; nodes not below it are dropped. [money]
        """
        while self.open and self.open[0].bound < best - EPSILON:
            node = heapq.heappop(self.open)
            value, shares = self._solve(node, best)
            if value >= best - EPSILON:
                yield None
                continue
            free = [b for b, share in enumerate(shares) if b not in node.cut | node.left]
            doubtful = [b for b in free if EPSILON < shares[b] < 1.0 - EPSILON]
            if not doubtful:
                doubtful = free
            if not free:
                self.settled = min(self.settled, value)
                yield node.cut
                continue
            branch = min(doubtful, key=lambda b: (abs(shares[b] - 0.5), b))
            self._push(value, node.cut | {branch}, node.left, best)
            self._push(value, node.cut, node.left | {branch}, best)
            yield node.cut | {b for b in free if shares[b] > EPSILON}

    def _push(self, value: float, cut: frozenset[int], left: frozenset[int], best: float) -> None:
        costs = [s.cost for s in self.generator.problem.stocks]
        sunk = sum(costs[b] for b in cut)
        free = [c for b, c in enumerate(costs) if b not in cut | left]
        bound = sunk + next_price_sum(free, max(0.0, value - sunk))
        if bound < best - EPSILON and sunk + sum(free) >= value - EPSILON:
            self.count += 1
            heapq.heappush(self.open, _Node(bound=max(bound, value), number=self.count, cut=cut, left=left))

    def _solve(self, node: _Node, best: float) -> tuple[float, list[float]]:
        """Linear bound of a node, and the share of each board in it."""
        generator = self.generator
        master, problem = generator.master, generator.problem
        master.decide(node.cut, node.left)
        costs = [0.0 if b in node.cut else s.cost for b, s in enumerate(problem.stocks)]
        sunk = sum(problem.stocks[b].cost for b in node.cut)
        active = frozenset(range(len(costs))) - node.left
        bound = node.bound
        for _ in range(40):
            _, duals = master.solve()
            worths, patterns = generator.pricer.price(duals, patterns=True, only=active, costs=costs)
            lower = sunk + master.lagrangian_bound(duals, worths, costs=costs, only=active)
            bound = max(bound, lower)
            fresh = [
                generator.take(stock, pattern)
                for stock, pattern in patterns.items()
                if worths[stock] - costs[stock] > 1e-7
            ]
            if bound >= best - EPSILON or not any(fresh):
                break
        shares = master.shares()
        master.decide(frozenset(), frozenset())
        return bound, shares
