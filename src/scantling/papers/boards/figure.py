"""The figure of a board's face: where growth rings meet it, drawn from how they stand in its end.

A trunk is taken as cones one inside the other. A plane beside the pith cuts them in hyperbolas, the
cathedrals of a flat-sawn board; a plane through the pith cuts them in straight lines. The rings drawn are a
sample: their number, taper and waver are a picture, no measurement.
"""

from __future__ import annotations

import math
import zlib
from collections.abc import Iterable, Iterator
from itertools import pairwise

from scantling.papers.boards.picture import BoardFlaw, BoardPicture
from scantling.papers.drawing import Point

__all__ = ["figure_lines"]

_PITH_MM = 150.0
"""From the pith to the middle of the face. [mm]"""
_STEP_MM = 7.0
"""From one ring drawn to the next. [mm]"""
_TAPER = 0.008
"""Radius a trunk loses along its length, about 1 in 120 (from memory)."""
_PLAIN_LINES = 5
"""Straight lines on a board whose rings nobody looked at."""
_STEPS = 22


def figure_lines(picture: BoardPicture) -> tuple[tuple[Point, ...], ...]:
    """Lines of the figure within the board's outline; the same board gives the same lines.

    Parameters
    ----------
    picture
        The board.

    Returns
    -------
    tuple
        Lines as points, x from the left end and y from the lower edge. [mm]
    """
    seed = zlib.crc32(picture.name.encode())
    knots = [flaw for flaw in picture.flaws if flaw.kind in ("knot", "pith", "hole")]
    raw = _plain(picture) if picture.ring_angle_deg is None else _rings(picture, seed)
    lines: list[tuple[Point, ...]] = []
    for number, line in enumerate(raw):
        wavy = [_parted(_wavered(point, seed + number), knots) for point in _finer(line, knots)]
        lines += _inside(wavy, picture)
    return tuple(lines)


def _plain(picture: BoardPicture) -> Iterator[list[Point]]:
    """A few lines along the grain."""
    for i in range(_PLAIN_LINES):
        share = (i + 0.5) / _PLAIN_LINES
        yield [
            (picture.length_mm * j / _STEPS, share * picture.width_at_mm(picture.length_mm * j / _STEPS))
            for j in range(_STEPS + 1)
        ]


def _rings(picture: BoardPicture, seed: int) -> Iterator[list[Point]]:
    """Where rings of radius ``r - taper x`` meet a plane at distance ``d`` from the pith."""
    angle = math.radians(picture.ring_angle_deg or 0.0)
    distance, aside = _PITH_MM * math.cos(angle), _PITH_MM * math.sin(angle)
    middle = picture.width_mm / 2.0 - aside
    reach = math.hypot(distance, aside + max(picture.width_mm, picture.far_width_mm) / 2.0)
    radius = distance + _STEP_MM * (0.2 + 0.6 * (seed % 97) / 97.0)
    while radius - _TAPER * picture.length_mm < reach:
        yield from _arms(radius, distance, middle, length_mm=picture.length_mm)
        radius += _STEP_MM


def _arms(radius: float, distance: float, middle: float, *, length_mm: float) -> Iterator[list[Point]]:
    """The two arms of one ring, joined where its tip lies on the board; points crowd toward the tip."""
    tip = (radius - distance) / _TAPER
    nearest = math.sqrt(max(tip - length_mm, 0.0))
    farthest = math.sqrt(tip)
    xs = [tip - (nearest + (farthest - nearest) * (j / _STEPS)) ** 2 for j in range(_STEPS + 1)]
    offs = [math.sqrt(max((radius - _TAPER * x) ** 2 - distance**2, 0.0)) for x in xs]
    upper = [(x, middle + off) for x, off in zip(xs, offs, strict=True)]
    lower = [(x, middle - off) for x, off in zip(xs, offs, strict=True)]
    if nearest > 0.0:
        yield upper
        yield lower
    else:
        yield [*reversed(upper), *lower[1:]]


def _wavered(point: Point, seed: int) -> Point:
    """A point moved aside a little, as wood never grows to a rule."""
    x, y = point
    phase = (seed % 613) / 613.0 * math.tau
    return (x, y + 1.3 * math.sin(x / 190.0 + phase) + 0.7 * math.sin(x / 67.0 + 2.1 * phase))


def _finer(line: list[Point], knots: Iterable[BoardFlaw]) -> list[Point]:
    """A line with points enough beside the knots it passes."""
    found = list(line)
    for knot in knots:
        center, half = knot.x_mm + knot.length_mm / 2.0, 0.8 * knot.length_mm + 30.0
        for share in (-2.0, -1.3, -0.8, -0.4, 0.0, 0.4, 0.8, 1.3, 2.0):
            found = _with_point_at(center + share * half, found)
    return found


def _with_point_at(x: float, line: list[Point]) -> list[Point]:
    """A line with one more point, at a distance along the board, where it passes there."""
    for i, (a, b) in enumerate(pairwise(line), start=1):
        if min(a[0], b[0]) < x < max(a[0], b[0]):
            y = a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0])
            return [*line[:i], (x, y), *line[i:]]
    return line


def _parted(point: Point, knots: Iterable[BoardFlaw]) -> Point:
    """A point pushed off the knots, round which the rings run."""
    x, y = point
    for knot in knots:
        cx, cy = knot.x_mm + knot.length_mm / 2.0, knot.y_mm + knot.width_mm / 2.0
        near = math.exp(-(((x - cx) / (0.8 * knot.length_mm + 30.0)) ** 2))
        off = y - cy
        y = cy + math.copysign(math.sqrt(off * off + near * (0.6 * knot.width_mm) ** 2), off)
    return (x, y)


def _inside(line: list[Point], picture: BoardPicture) -> Iterator[tuple[Point, ...]]:
    """The stretches of a line that lie on the board."""
    run: list[Point] = []
    before: Point | None = None
    for point in line:
        here = _on(point, picture)
        if before is not None and here is not _on(before, picture):
            run.append(_edge_between(before, point, picture))
        if here:
            run.append(point)
        elif len(run) > 1:
            yield tuple(run)
            run = []
        else:
            run = []
        before = point
    if len(run) > 1:
        yield tuple(run)


def _on(point: Point, picture: BoardPicture) -> bool:
    x, y = point
    return -1e-6 <= x <= picture.length_mm + 1e-6 and 0.0 <= y <= picture.width_at_mm(x)


def _edge_between(one: Point, other: Point, picture: BoardPicture) -> Point:
    """Where a line leaves the board, by halving."""
    inside, outside = (one, other) if _on(one, picture) else (other, one)
    for _ in range(12):
        middle = ((inside[0] + outside[0]) / 2.0, (inside[1] + outside[1]) / 2.0)
        inside, outside = (middle, outside) if _on(middle, picture) else (inside, middle)
    return inside
