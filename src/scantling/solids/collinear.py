"""Straight pieces that lie in one line: joined where they meet, or taken from one another.

Edges of touching parts are drawn twice, and edges broken where something passes before them come in
pieces; a dashed line made of such pieces has dashes of any length.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

__all__ = ["joined", "without"]

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Span = tuple[float, float]

_APART_MM = 2e-3
"""Lines and ends nearer than this are one: a pen draws a hundred times as wide. [mm]"""
_TURNED_RAD = 1e-5
"""Lines turned less than this against each other are one: 0.01 mm over a metre. [rad]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """Pieces in one line: as spans along it, with the rows they come from."""

    origin: Floats
    way: Floats
    spans: list[Span]
    rows: Ints

    def points(self, span: Span) -> Floats:
        """A span as two points. [mm] shape (2, 2)"""
        return self.origin + np.outer(span, self.way)


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
    return _stacked([line.points(span) for line in _lines(pieces) for span in _union(line.spans)])


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
    kept: list[Floats] = []
    for line in _lines(np.concatenate([pieces, covered])):
        under = [span for span, row in zip(line.spans, line.rows, strict=True) if row < len(pieces)]
        over = [span for span, row in zip(line.spans, line.rows, strict=True) if row >= len(pieces)]
        bare = _union(over)
        kept += [line.points(rest) for span in _union(under) for rest in _less(span, bare)]
    return _stacked(kept)


def _stacked(pieces: list[Floats]) -> Floats:
    return np.array(pieces, dtype=np.float64).reshape(-1, 2, 2)


def _lines(pieces: Floats) -> Iterator[_Line]:
    """Pieces by the line they lie in, those of no length left out."""
    run = pieces[:, 1] - pieces[:, 0]
    length = np.linalg.norm(run, axis=1)
    rows = np.flatnonzero(length > 1e-6)
    run, length, start = run[rows], length[rows], pieces[rows, 0]
    angle = np.mod(np.arctan2(run[:, 1], run[:, 0]), np.pi)
    angle[angle > np.pi - _TURNED_RAD] -= np.pi
    way = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    offset = way[:, 0] * start[:, 1] - way[:, 1] * start[:, 0]
    for same_way in _clusters(angle, np.arange(len(rows)), _TURNED_RAD):
        for one in _clusters(offset[same_way], same_way, _APART_MM):
            longest = one[np.argmax(length[one])]
            d = way[longest]
            ends = pieces[rows[one]] @ d
            spans = [(float(min(a, b)), float(max(a, b))) for a, b in ends]
            normal = np.array([-d[1], d[0]])
            yield _Line(origin=offset[longest] * normal, way=d, spans=spans, rows=rows[one])


def _clusters(values: Floats, rows: Ints, apart: float) -> list[Ints]:
    """Rows whose values follow one another in steps of at most ``apart``."""
    if not len(values):
        return []
    order = np.argsort(values, kind="stable")
    breaks = np.flatnonzero(np.diff(values[order]) > apart) + 1
    return np.split(rows[order], breaks)


def _union(spans: list[Span]) -> list[Span]:
    merged: list[Span] = []
    for low, high in sorted(spans):
        if merged and low <= merged[-1][1] + _APART_MM:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return merged


def _less(span: Span, covered: list[Span]) -> list[Span]:
    """What is left of a span; ends shorter than the width of a pen go with what covers them."""
    left: list[Span] = []
    at, end = span
    for low, high in covered:
        if low > at + _APART_MM and low < end:
            left.append((at, low))
        if low < end and high > at:
            at = max(at, high)
    if end > at + _APART_MM:
        left.append((at, end))
    return left
