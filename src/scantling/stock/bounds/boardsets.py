"""Which boards to cut at all: the cheapest set of boards that no worths of the blanks rule out.

For any worths of the blanks, a layout of all of them is worth what they come to together, and no board gives
more than its best pattern is worth. So the boards that are cut must together be able to give that much: a
*cover*, which holds for every layout of all blanks, and for every choice of worths. The least price of whole
boards that keeps to some covers is therefore a bound. It is no lower than the linear one of the same worths,
and mostly well above it, because boards are bought whole. Its set of boards is then asked whether it could
hold everything if patterns could be cut in parts: if not, the worths by which it falls short make the next
cover.

References
----------
.. [1] Hooker, Ottosson, "Logic-based Benders decomposition", Mathematical Programming 96 (2003) 33-60: a
   master problem over one kind of decision, with cuts from what the rest proves about it.
.. [2] Gilmore, Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9
   (1961) 849-859: the linear program within a set of boards.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from scantling.stock.choosing.columns import Generator
from scantling.stock.choosing.master import quiet_solver
from scantling.stock.question.shapes import Duals

__all__ = ["BoardSets", "Cover", "cheapest_set", "needed_worth"]

Floats = NDArray[np.float64]
Boards = frozenset[int]
EPSILON = 1e-6
ROUNDING = 1e-9
"""Added to what a board may give, so that no rounding of a float rules a set out."""
MOST_NODES = 5000
CLOSE = 0.5
"""A cover is taken once it shows this share of what the linear program says is lacking."""


@dataclass(slots=True)
class Cover:
    """For some worths of the blanks: what share of their sum each board can give at most."""

    duals: Duals
    needed: float
    """What all blanks come to. [money]"""
    shares: Floats
    exact: set[int]
    """Boards whose share is the least that could be proven."""

    def of(self, boards: Iterable[int]) -> float:
        """What some boards can give together. [1]"""
        return float(sum(self.shares[b] for b in boards))


def needed_worth(generator: Generator, duals: Duals) -> float:
    """What everything that is wanted comes to, by worths; what strips cost taken off. [money]"""
    problem = generator.problem
    value = sum(len(k.blanks) * v for k, v in zip(problem.kinds, duals.kinds, strict=True))
    value += sum(n.total * v for n, v in zip(problem.panels, duals.widths, strict=True))
    return float(value - sum(n.most * v for n, v in zip(problem.panels, duals.strips, strict=True)))


def cheapest_set(
    costs: Sequence[float],
    covers: Sequence[Cover],
    *,
    excess: float = 0.0,
    passed: Iterable[Boards] = (),
) -> tuple[float, Boards | None]:
    """The cheapest boards that keep to covers.

    Parameters
    ----------
    costs
        Of each board. [money]
    covers
        What they must keep to.
    excess
        By how much more than needed they must be able to give. [1]
    passed
        Sets that do not count, nor parts of them.

    Returns
    -------
    tuple
        What no set that keeps to them undercuts, infinite where none does; and the set, None where none was
        found.
    """
    import highspy

    count = len(costs)
    model, none = quiet_solver(), (np.array([], dtype=np.int32), np.array([]))
    for cost in costs:
        model.addCol(cost, 0.0, 1.0, 0, *none)
    whole = np.full(count, int(highspy.HighsVarType.kInteger), dtype=np.uint8)
    model.changeColsIntegrality(count, np.arange(count, dtype=np.int32), whole)
    for cover in covers:
        some = np.flatnonzero(cover.shares > 0.0).astype(np.int32)
        shares = np.minimum(cover.shares[some] + ROUNDING, 1.0 + excess)
        model.addRow(1.0 + excess, highspy.kHighsInf, len(some), some, shares)
    for boards in passed:
        others = np.array([b for b in range(count) if b not in boards], dtype=np.int32)
        model.addRow(1.0, highspy.kHighsInf, len(others), others, np.ones(len(others)))
    model.setOptionValue("mip_rel_gap", 0.0)
    model.setOptionValue("mip_max_nodes", MOST_NODES)
    model.run()
    status = model.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return float("inf"), None
    value = max(0.0, float(model.getInfo().mip_dual_bound))
    if model.getInfo().primal_solution_status != highspy.kSolutionStatusFeasible:
        return value, None
    chosen = np.flatnonzero(np.array(model.getSolution().col_value) > 0.5)
    return value, frozenset(chosen.tolist())


@dataclass(slots=True)
class BoardSets:
    """Covers found so far, and the bound they give. Works on a generator with patterns of its own."""

    generator: Generator
    covers: list[Cover] = field(default_factory=list)
    bound: float = 0.0
    """What no layout of all blanks undercuts; infinite where the boards do not hold them. [money]"""
    settled: bool = False
    """Whether the cheapest set could hold everything in parts, or cannot be told from one that does."""
    likely: set[int] = field(default_factory=set)
    """Boards of the sets looked at: worked out exactly for every cover."""

    @classmethod
    def of(cls, generator: Generator) -> BoardSets:
        """With covers for the worths the generator has priced all boards for last."""
        sets = cls(generator=generator)
        sets.likely.update(b for b, share in enumerate(generator.master.shares()) if share > EPSILON)
        for duals, worths, exact in generator.priced[-2:]:
            sets._take(duals, worths, exact)
        return sets

    @property
    def costs(self) -> list[float]:
        """Of each board. [money]"""
        return [s.cost for s in self.generator.problem.stocks]

    def step(self) -> None:
        """Look at the cheapest set: sharpen what it keeps to, or rule it out, or settle."""
        value, boards = cheapest_set(self.costs, self.covers)
        self.bound = max(self.bound, value)
        self.settled = boards is None or self.judge(boards) is not False

    def judge(self, boards: Boards) -> bool | None:
        """Whether boards could hold everything in parts: False if a cover rules them out, None if unsure."""
        self.likely |= boards
        if self._sharpened(boards):
            return False
        lacking = self._lacking(boards)
        if lacking is None:
            return True
        duals, told = lacking
        worths = self.generator.bounder.ceilings(duals)
        worths[list(told)] = list(told.values())
        taken = self._take(duals, worths, set(told))
        return False if taken and self.covers[-1].of(boards) < 1.0 - EPSILON else None

    def _take(self, duals: Duals, worths: Floats, exact: set[int]) -> bool:
        """Take in a cover, sharp for the likely boards; False where the worths say nothing."""
        needed = needed_worth(self.generator, duals)
        if needed <= EPSILON:
            return False
        cover = Cover(duals=duals, needed=needed, shares=worths / needed, exact=set(exact))
        self._sharpen(cover, self.likely)
        self.covers.append(cover)
        return True

    def _sharpened(self, boards: Boards) -> bool:
        """Work covers out exactly for some boards; whether one now rules them out."""
        for cover in self.covers:
            self._sharpen(cover, boards)
        return any(cover.of(boards) < 1.0 - EPSILON for cover in self.covers)

    def _sharpen(self, cover: Cover, boards: Iterable[int]) -> None:
        vague = frozenset(boards) - cover.exact
        if not vague:
            return
        free = [0.0] * len(self.costs)
        worths, _ = self.generator.bounder.price(
            cover.duals, patterns=False, only=vague, costs=free, floors=self.generator.floors(cover.duals)
        )
        for board in vague:
            cover.shares[board] = min(cover.shares[board], worths[board] / cover.needed)
        cover.exact |= vague

    def _lacking(self, boards: Boards) -> tuple[Duals, dict[int, float]] | None:
        """Worths by which boards fall short, and what they give; None where they could hold it in parts."""
        generator, master = self.generator, self.generator.master
        master.decide(boards, frozenset(range(len(self.costs))) - boards)
        try:
            while True:
                lacking, duals = master.solve()
                if lacking <= EPSILON:
                    return None
                if self._priced_quickly(boards, lacking, duals):
                    continue
                fresh, told = self._priced(boards, duals)
                shown = needed_worth(generator, duals) - sum(told.values())
                if shown > CLOSE * lacking or not fresh:
                    return duals, told
        finally:
            master.decide(frozenset(), frozenset())

    def _priced_quickly(self, boards: Boards, lacking: float, duals: Duals) -> bool:
        """New patterns that lessen what is lacking by quick pricing; whether they may well do so by much."""
        free = [0.0] * len(self.costs)
        found = self.generator.quick.price(duals, only=boards, costs=free)
        given = sum(worth for worth, _ in found.values())
        fresh = [self.generator.take(b, pattern) for b, (_, pattern) in found.items()]
        return any(fresh) and needed_worth(self.generator, duals) - given < CLOSE * lacking

    def _priced(self, boards: Boards, duals: Duals) -> tuple[bool, dict[int, float]]:
        """Whether the best patterns bring any that is new; and what no pattern gives more than."""
        generator, free = self.generator, [0.0] * len(self.costs)
        worths, patterns = generator.best_patterns(duals, only=boards, costs=free)
        fresh = [generator.take(b, pattern) for b, pattern in patterns.items()]
        if not generator.bounds_exactly:
            worths, _ = generator.bounder.price(duals, patterns=False, only=boards, costs=free)
        return any(fresh), {b: float(worths[b]) for b in boards}
