"""A question with every size brought down to a grid: easier, and what no layout of it undercuts is a bound.

References
----------
.. [1] Fekete, Schepers, "A general framework for bounds for higher-dimensional bin packing problems",
   Mathematical Methods of Operations Research 60 (2004) 311-329: sizes mapped by functions that no sum
   outgrows leave bounds valid.
.. [2] Carlier, Clautiaux, Moukrim, "New reduction procedures and lower bounds for the two-dimensional bin
   packing problem with fixed orientation", Computers and Operations Research 34 (2007) 2223-2250.
"""

from __future__ import annotations

from dataclasses import replace

from scantling.stock.pricing.pricedboard import mirrored
from scantling.stock.question.problem import Kind, PanelNeed, Problem, Stock

__all__ = ["coarsened"]


def coarsened(problem: Problem, *, along: int, across: int) -> Problem:
    r"""The question with every size brought down to a grid.

    Parameters
    ----------
    problem
        The question.
    along, across
        Steps of the grid. [units] > 0.

    Returns
    -------
    Problem
        Every layout of ``problem`` has one like it here, cut from the same boards, so what no layout here
        undercuts, none of ``problem`` does. Boards and kinds keep their numbers.

    Notes
    -----
    Let :math:`f(v) = s \lfloor v / s \rfloor` for a step s. It rises with v, and :math:`f(a) + f(b) \le
    f(a + b)` for whole numbers of either sign. Take a layout, measure from the corner where a board may
    first be cut, and move every cut at v to f(v). A blank that is a long with its kerf lay from v to v
    + a; what comes next was at v + a or later, so it is now at f(v + a) or later, which leaves it f(a)
    at least: its length here, with its kerf. A board that is n long with a kerf ends at f(n). A mark
    from p to q stops a blank that lies neither before it (v + a at most p + kerf) nor behind it (v at
    least q). One before it now ends at f(p + kerf) at the latest, one behind it begins at f(q) at the
    earliest: a mark from f(p + kerf) less the kerf to f(q) stops neither, even where it has less than
    no length. Across it is the same. The far edge of a tapered board is left as it is, its wide end at
    the left: nothing moves right or up. A kind that may be turned takes a size that is right both ways.
    Where strips of free width are asked for, nothing is rounded across.
    """
    if problem.panels:
        across = 1
    grid = _Grid(along, across, problem.cross, problem.rip)
    return replace(
        problem,
        stocks=tuple(grid.stock(mirrored(s)) for s in problem.stocks),
        kinds=tuple(grid.kind(k) for k in problem.kinds),
        panels=tuple(grid.panel(n) for n in problem.panels),
    )


class _Grid:
    """Steps along and across, with the kerf that every size is rounded with."""

    def __init__(self, along: int, across: int, cross: int, rip: int) -> None:
        self._steps, self._kerfs = (along, across), (cross, rip)

    def size(self, value: int, axis: int) -> int:
        """A size, rounded down with its kerf."""
        step, kerf = self._steps[axis], self._kerfs[axis]
        return (value + kerf) // step * step - kerf

    def place(self, value: int, axis: int) -> int:
        """A place measured from where a board may first be cut."""
        step = self._steps[axis]
        return value // step * step

    def kind(self, kind: Kind) -> Kind:
        """A kind at its size on the grid."""
        length, width = self.size(kind.length, 0), self.size(kind.width, 1)
        if kind.turnable:
            length, width = min(length, self.size(kind.length, 1)), min(width, self.size(kind.width, 0))
        return replace(kind, length=max(1, length), width=max(1, width))

    def panel(self, need: PanelNeed) -> PanelNeed:
        """A panel whose strips have their length on the grid."""
        return replace(need, length=max(1, self.size(need.length, 0)))

    def stock(self, stock: Stock) -> Stock:
        """A board with its ends, its far edge and its marks on the grid."""
        x0, y0 = stock.x0, stock.y0
        straight = stock.top_left == stock.top_right
        top = y0 + self.size(stock.top_left - y0, 1)
        return replace(
            stock,
            x1=x0 + self.size(stock.x1 - x0, 0),
            top_left=top if straight else stock.top_left,
            top_right=top if straight else stock.top_right,
            defects=tuple(
                (
                    x0 + self.size(d[0] - x0, 0),
                    y0 + self.size(d[1] - y0, 1),
                    x0 + self.place(d[2] - x0, 0),
                    y0 + self.place(d[3] - y0, 1),
                    d[4],
                )
                for d in stock.defects
            ),
        )
