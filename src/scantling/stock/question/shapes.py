"""Shapes: the blanks and panel strips that may come from one set of boards, as columns of numbers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.stock.boards.looks import SIDES, spoils
from scantling.stock.question.problem import Problem, Stock

__all__ = ["Duals", "Shape", "distinct_sides", "shape_values", "shapes_for"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A kind in one direction, or a panel's strip; sizes in units without kerf.

    For a panel ``width`` is the least and ``greatest`` the greatest width with ``loss``.
    """

    kind: int
    length: int
    width: int
    side: int
    """How it lies, as a number of the :data:`~scantling.stock.boards.looks.SIDES`."""
    count: int
    panel: int = -1
    greatest: int = 0
    loss: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Duals:
    """What one more is worth: money per blank of each kind, per unit of width and per strip of panels."""

    kinds: NDArray[np.float64]
    widths: NDArray[np.float64]
    strips: NDArray[np.float64]


def shapes_for(problem: Problem, stock: int) -> tuple[Shape, ...]:
    """Every shape a board may give."""
    found = []
    for k, kind in enumerate(problem.kinds):
        if stock not in kind.boards:
            continue
        sizes = [(kind.length, kind.width)]
        if kind.turnable and kind.length != kind.width:
            sizes.append((kind.width, kind.length))
        found += [
            Shape(kind=k, length=length, width=width, side=side, count=len(kind.blanks))
            for length, width in sizes
            for side in distinct_sides(kind.sides, problem.stocks[stock])
        ]
    base = len(problem.kinds)
    for p, need in enumerate(problem.panels):
        if stock in need.boards and need.least <= need.greatest:
            most = min(need.most, -(-need.total // max(1, need.least - need.loss)))
            found += [
                Shape(
                    kind=base + p,
                    length=need.length,
                    width=need.least,
                    side=side,
                    count=most,
                    panel=p,
                    greatest=need.greatest,
                    loss=need.loss,
                )
                for side in distinct_sides(need.sides, problem.stocks[stock])
            ]
    return tuple(found)


def distinct_sides(sides: tuple[int, ...], stock: Stock) -> tuple[int, ...]:
    """The sides that make a difference on a board; of those that let in the same defects, the plainest."""
    found: dict[tuple[bool, ...], int] = {}
    for side in sides:
        mask = tuple(spoils(d[4], side) for d in stock.defects)
        plain = next(s for s in range(len(SIDES)) if tuple(spoils(d[4], s) for d in stock.defects) == mask)
        found.setdefault(mask, plain)
    return tuple(found.values())


def shape_values(shapes: tuple[Shape, ...], heights: NDArray[np.int64], duals: Duals) -> NDArray[np.float64]:
    """Worth of each shape in a strip or gap of each height; minus infinity where it does not fit.

    Returns
    -------
    array
        Shape (heights, shapes). [money]
    """
    values = np.full((len(heights), len(shapes)), -np.inf)
    for s, shape in enumerate(shapes):
        fits = heights >= shape.width
        if shape.panel < 0:
            values[fits, s] = duals.kinds[shape.kind]
        else:
            wide = np.minimum(heights, shape.greatest) - shape.loss
            worth = wide * duals.widths[shape.panel] - duals.strips[shape.panel]
            values[fits, s] = worth[fits]
    return values
