"""Shapes: the blanks and panel strips that may come from one set of boards, as columns of numbers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.stock.problem import Problem

__all__ = ["Duals", "Shape", "shape_values", "shapes_for"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A kind in one direction, or a panel's strip; sizes in units without kerf.

    For a panel ``width`` is the least and ``greatest`` the greatest width with ``loss``.
    """

    kind: int
    length: int
    width: int
    clear: bool
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
            Shape(kind=k, length=length, width=width, clear=kind.clear, count=len(kind.blanks))
            for length, width in sizes
        ]
    base = len(problem.kinds)
    for p, need in enumerate(problem.panels):
        if stock in need.boards and need.least <= need.greatest:
            most = min(need.most, -(-need.total // max(1, need.least - need.loss)))
            found.append(
                Shape(
                    kind=base + p,
                    length=need.length,
                    width=need.least,
                    clear=need.panel.clear,
                    count=most,
                    panel=p,
                    greatest=need.greatest,
                    loss=need.loss,
                )
            )
    return tuple(found)


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
