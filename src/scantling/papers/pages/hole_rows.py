"""Rows of holes: holes alike and equally far apart along a face stand in one line of the list."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from scantling.joinery.work import Mark, MarkKind

__all__ = ["in_rows"]

_FEWEST = 3
"""Fewer holes in a line have a line of the list each. [1]"""
_EVEN_MM = 0.05
"""Holes whose distances differ by less are equally far apart. [mm]"""


def in_rows(marks: Iterable[Mark]) -> tuple[tuple[Mark, ...], ...]:
    """Marks in their order, those of a row together where its first one stands; the others alone.

    Parameters
    ----------
    marks
        Of one part.

    Returns
    -------
    tuple of tuple of Mark
        A row has three holes at least, along the part from the end they are measured from.
    """
    chosen = tuple(marks)
    lines: dict[tuple[object, ...], list[Mark]] = {}
    for mark in chosen:
        key = _line_of(mark)
        if key is not None:
            lines.setdefault(key, []).append(mark)
    row_of: dict[int, list[Mark]] = {}
    for line in lines.values():
        for row in _runs(line):
            row_of.update({id(mark): row for mark in row})
    found: list[tuple[Mark, ...]] = []
    told: set[int] = set()
    for mark in chosen:
        if id(mark) not in told:
            row = row_of.get(id(mark), [mark])
            told.update(map(id, row))
            found.append(tuple(row))
    return tuple(found)


def _line_of(mark: Mark) -> tuple[object, ...] | None:
    """What holes of one line have in common; None for what is bored in an end, leans, or is no hole."""
    if mark.kind is not MarkKind.HOLE or mark.on_end or mark.tilt_deg or mark.toward:
        return None
    return (
        mark.face,
        mark.end,
        mark.reference_face,
        round(mark.from_face_mm, 2),
        mark.length_mm,
        mark.depth_mm,
        mark.fit,
        mark.setup,
        mark.both_faces,
    )


def _runs(line: Iterable[Mark]) -> list[list[Mark]]:
    """Holes of one line cut up where their distance changes; runs that are too short are left out."""
    places = sorted(line, key=lambda mark: mark.from_end_mm)
    runs: list[list[Mark]] = []
    for mark in places:
        if not runs:
            runs.append([mark])
            continue
        run = runs[-1]
        steps = [b.from_end_mm - a.from_end_mm for a, b in pairwise(run)]
        if len(run) == 1 or (steps and abs(mark.from_end_mm - run[-1].from_end_mm - steps[0]) < _EVEN_MM):
            run.append(mark)
        elif len(run) == 2:
            runs[-1:] = [run[:1], [run[1], mark]]
        else:
            runs.append([mark])
    return [run for run in runs if len(run) >= _FEWEST]
