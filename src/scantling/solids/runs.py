"""Straight pieces strung together into runs: a dashed circle needs one line, not fifty."""

from __future__ import annotations

import math
from collections import defaultdict

import numpy as np
import numpy.typing as npt

__all__ = ["strung"]

Floats = npt.NDArray[np.float64]
Node = tuple[int, int]

_NEAR_MM = 0.01
"""Ends in one cell of this size meet. [mm]"""
_SMOOTH_DEG = 30.0
"""A run turns less than this from one piece to the next; at a greater turn the line ends. [deg]"""


def strung(pieces: Floats) -> tuple[Floats, ...]:
    """Runs of pieces that follow one another smoothly.

    Where three or more pieces meet every run ends; where two meet at a corner both end.

    Parameters
    ----------
    pieces
        [mm] shape (n, 2, 2)

    Returns
    -------
    tuple[ndarray, ...]
        Points of each run, at least two; the first is the last of a closed one. [mm] shape (k, 2)
    """
    ends = [(_node(a), _node(b)) for a, b in pieces.tolist()]
    meeting: dict[Node, list[int]] = defaultdict(list)
    for number, nodes in enumerate(ends):
        for node in set(nodes):
            meeting[node].append(number)
    left = dict.fromkeys(range(len(ends)))
    runs: list[Floats] = []
    while left:
        number = next(iter(left))
        del left[number]
        run = [*pieces[number].tolist()]
        for _ in range(2):  # on from its end, then, turned round, on from its beginning
            _grow(run, pieces, meeting, left)
            run.reverse()
        runs.append(np.array(run))
    return tuple(runs)


def _grow(
    run: list[list[float]], pieces: Floats, meeting: dict[Node, list[int]], left: dict[int, None]
) -> None:
    """Add pieces at the end of a run while just one follows, smoothly."""
    while True:
        node = _node(run[-1])
        following = [number for number in meeting[node] if number in left]
        if len(meeting[node]) != 2 or len(following) != 1:
            return
        a, b = pieces[following[0]].tolist()
        onward = b if _node(a) == node else a
        if _turn_deg(run[-2], run[-1], onward) > _SMOOTH_DEG:
            return
        del left[following[0]]
        run.append(onward)


def _node(point: list[float]) -> Node:
    return round(point[0] / _NEAR_MM), round(point[1] / _NEAR_MM)


def _turn_deg(before: list[float], at: list[float], onward: list[float]) -> float:
    ax, ay = at[0] - before[0], at[1] - before[1]
    bx, by = onward[0] - at[0], onward[1] - at[1]
    return abs(math.degrees(math.atan2(ax * by - ay * bx, ax * bx + ay * by)))
