"""Straight pieces that lie in one line: joined where they meet, or taken from one another.

Edges of touching parts are drawn twice, and edges broken where something passes before them come in
pieces; a dashed line made of such pieces has dashes of any length.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

__all__ = ["joined", "without"]

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

_APART_MM = 2e-3
"""Lines and ends nearer than this are one: a pen draws a hundred times as wide. [mm]"""
_TURNED_RAD = 1e-5
"""Lines turned less than this against each other are one: 0.01 mm over a meter. [rad]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spans:
    """Pieces as spans of the lines they lie in.

    Parameters
    ----------
    line
        Number of the line of each piece. shape (n,)
    low, high
        Where it begins and ends along its line. [mm] shape (n,)
    row
        The piece it was. shape (n,)
    origin, way
        A point and the unit direction of each line. [mm] shape (lines, 2)
    """

    line: Ints
    low: Floats
    high: Floats
    row: Ints
    origin: Floats
    way: Floats

    def points(self) -> Floats:
        """Ends of the spans. [mm] shape (n, 2, 2)"""
        origin, way = self.origin[self.line], self.way[self.line]
        return np.stack([origin + way * self.low[:, None], origin + way * self.high[:, None]], axis=1)

    def where(self, keep: npt.NDArray[np.bool_]) -> _Spans:
        """Some of the spans."""
        return replace(
            self, line=self.line[keep], low=self.low[keep], high=self.high[keep], row=self.row[keep]
        )


def joined(pieces: Floats) -> Floats:
    """Pieces with overlapping and touching ones of one line made one.

    Parameters
    ----------
    pieces
        [mm] shape (n, 2, 2)

    Returns
    -------
    ndarray
        [mm] shape (m, 2, 2), m <= n; by direction, then place.
    """
    return _union(_spans(pieces)).points()


def without(pieces: Floats, covered: Floats) -> Floats:
    """Pieces less what lies under others, joined.

    Parameters
    ----------
    pieces, covered
        [mm] shape (n, 2, 2)

    Returns
    -------
    ndarray
        [mm] shape (m, 2, 2)
    """
    spans = _spans(np.concatenate([pieces, covered]))
    under = _union(spans.where(spans.row < len(pieces)))
    over = _union(spans.where(spans.row >= len(pieces)))
    shared = np.isin(under.line, over.line)
    kept = [under.where(~shared).points()]
    for number in np.unique(under.line[shared]):
        low, high = over.low[over.line == number], over.high[over.line == number]
        bare = [(float(a), float(b)) for a, b in zip(low, high, strict=True)]
        mine = under.where(under.line == number)
        left = [
            rest
            for a, b in zip(mine.low, mine.high, strict=True)
            for rest in _less((float(a), float(b)), bare)
        ]
        along = np.array(left, dtype=np.float64).reshape(-1, 2, 1)
        kept.append(under.origin[number] + along * under.way[number])
    return np.concatenate(kept)


def _spans(pieces: Floats) -> _Spans:
    """Pieces sorted by the line they lie in, those of no length left out."""
    run = pieces[:, 1] - pieces[:, 0]
    length = np.linalg.norm(run, axis=1)
    row = np.flatnonzero(length > 1e-6)
    run, length, start, end = run[row], length[row], pieces[row, 0], pieces[row, 1]
    angle = np.mod(np.arctan2(run[:, 1], run[:, 0]), np.pi)
    angle[angle > np.pi - _TURNED_RAD] -= np.pi
    way = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    offset = way[:, 0] * start[:, 1] - way[:, 1] * start[:, 0]
    turn = _steps(angle, np.zeros(len(row), dtype=np.int64), apart=_TURNED_RAD)
    line = _steps(offset, turn, apart=_APART_MM)
    longest = np.lexsort((-length, line))
    longest = longest[np.unique(line[longest], return_index=True)[1]]
    way = way[longest]
    origin = offset[longest, None] * np.stack([-way[:, 1], way[:, 0]], axis=1)
    ends = np.stack([np.einsum("ij,ij->i", p, way[line]) for p in (start, end)])
    return _Spans(line=line, low=ends.min(axis=0), high=ends.max(axis=0), row=row, origin=origin, way=way)


def _steps(values: Floats, within: Ints, *, apart: float) -> Ints:
    """Number of the cluster of each value: clusters of one class whose values step by at most ``apart``."""
    order = np.lexsort((values, within))
    fresh = np.ones(len(values), dtype=np.int64)
    fresh[1:] = (np.diff(values[order]) > apart) | (np.diff(within[order]) > 0)
    number = np.empty(len(values), dtype=np.int64)
    number[order] = np.cumsum(fresh) - 1
    return number


def _union(spans: _Spans) -> _Spans:
    """Overlapping and touching spans of one line made one."""
    if not len(spans.line):
        return spans
    order = np.lexsort((spans.low, spans.line))
    line, low, high = spans.line[order], spans.low[order], spans.high[order]
    # The farthest end so far on the same line: lines are set far enough apart not to mix.
    lift = line * (2.0 * float(np.abs([low, high]).max()) + 1.0)
    reached = np.maximum.accumulate(high + lift)
    fresh = np.ones(len(line), dtype=bool)
    fresh[1:] = (low[1:] + lift[1:] > reached[:-1] + _APART_MM) | (line[1:] > line[:-1])
    first = np.flatnonzero(fresh)
    return replace(
        spans,
        line=line[first],
        low=low[first],
        high=np.maximum.reduceat(high, first),
        row=spans.row[order][first],
    )


def _less(span: tuple[float, float], covered: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """What is left of a span; ends shorter than the width of a pen go with what covers them."""
    left: list[tuple[float, float]] = []
    at, end = span
    for low, high in covered:
        if low > at + _APART_MM and low < end:
            left.append((at, low))
        if low < end and high > at:
            at = max(at, high)
    if end > at + _APART_MM:
        left.append((at, end))
    return left
