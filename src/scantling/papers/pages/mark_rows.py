"""Marks alike stand in one line of a sheet's list: rows of holes, tails of an end, what both ends have."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from scantling.joinery.work import Mark, MarkKind
from scantling.piece.model import Direction, End

__all__ = ["in_rows", "mirrored", "runs_of"]

_FEWEST = 3
"""Fewer holes equally far apart are no row. [1]"""
_EVEN_MM = 0.05
"""Holes whose distances differ by less are equally far apart; places that do are one. [mm]"""


def in_rows(marks: Iterable[Mark]) -> tuple[tuple[Mark, ...], ...]:
    """Marks in their order, those of a line together where its first one stands; the others alone.

    Parameters
    ----------
    marks
        Of one part.

    Returns
    -------
    tuple of tuple of Mark
        Marks of a line are alike but for where they are: measured along the part from one end of it, or on
        an end from one edge; three holes or more that are equally far apart have a line of their own. Two
        such lines at equal distances from either end, or either edge, are one, the one after the other.
    """
    chosen = tuple(marks)
    lines = _pairs(_lines(chosen))
    line_of = {id(mark): line for line in lines for mark in line}
    told: set[int] = set()
    found: list[tuple[Mark, ...]] = []
    for mark in chosen:
        if id(mark) not in told:
            line = line_of[id(mark)]
            told.update(map(id, line))
            found.append(tuple(line))
    return tuple(found)


def mirrored(line: Iterable[Mark]) -> bool:
    """Whether a line of :func:`in_rows` holds for both ends, or on an end for both of its edges."""
    return len({(mark.end, mark.face if mark.on_end else None) for mark in line}) > 1


def runs_of(marks: Iterable[Mark]) -> tuple[tuple[Mark, ...], ...]:
    """Rows of three holes or more, equally far apart along the part, from the end they are measured."""
    lines = _lines(tuple(marks))
    return tuple(tuple(line) for line in lines if _is_run(line))


def _is_run(line: Sequence[Mark]) -> bool:
    if len(line) < _FEWEST or line[0].on_end or line[0].kind is not MarkKind.HOLE:
        return False
    steps = [b.from_end_mm - a.from_end_mm for a, b in pairwise(line)]
    return max(steps) - min(steps) < 2.0 * _EVEN_MM


def _lines(marks: Iterable[Mark]) -> Iterator[list[Mark]]:
    """Marks measured from one end, or one edge of an end, that make a line; all others by themselves."""
    alike: dict[object, list[Mark]] = {}
    for mark in marks:
        alike.setdefault(_looks(mark) if _plain(mark) else id(mark), []).append(mark)
    for unsorted in alike.values():
        group = sorted(unsorted, key=lambda mark: mark.from_end_mm)
        if group[0].on_end or group[0].kind is not MarkKind.HOLE:
            yield group
        else:
            yield from _runs(group)


def _pairs(lines: Iterable[list[Mark]]) -> list[list[Mark]]:
    """Lines with those joined to them that lie alike from the other end or edge."""
    found: list[list[Mark]] = []
    open_lines: dict[object, list[Mark]] = {}
    for line in lines:
        first = line[0]
        twin = open_lines.pop(_seen_from_other(first), None) if _plain(first) else None
        if twin is not None and _places(twin) == _places(line) and _notes(twin) == _notes(line):
            twin += line
            continue
        open_lines[_looks(first)] = line
        found.append(line)
    return found


def _places(line: Iterable[Mark]) -> list[int]:
    return [round(mark.from_end_mm / _EVEN_MM) for mark in line]


def _notes(line: Iterable[Mark]) -> list[str]:
    return [mark.note for mark in line]


def _plain(mark: Mark) -> bool:
    """Whether one line can tell of several such marks: what leans is told by itself."""
    return not (mark.tilt_deg or mark.toward)


def _looks(mark: Mark) -> tuple[object, ...]:
    """What marks of one line have in common: all but where along the part, or the end, they are.

    Holes of a line may have notes of their own, which the list tells by their letters.
    """
    return (
        mark.kind,
        mark.on_end,
        mark.end,
        mark.face,
        mark.reference_face,
        round(mark.from_face_mm, 2),
        mark.length_mm,
        mark.width_mm,
        mark.depth_mm,
        mark.angle_deg,
        mark.fit,
        mark.setup,
        mark.both_faces,
        mark.note if mark.on_end or mark.kind is not MarkKind.HOLE else "",
    )


_ACROSS = {
    Direction.LEFT: Direction.RIGHT,
    Direction.FRONT: Direction.BACK,
    Direction.BOTTOM: Direction.TOP,
}
_OTHER = {**_ACROSS, **{there: here for here, there in _ACROSS.items()}}


def _seen_from_other(mark: Mark) -> tuple[object, ...]:
    """The look of what would lie alike from the other end; on an end, from its other edge."""
    if mark.on_end:
        return _looks(replace(mark, face=_OTHER[mark.face]))
    return _looks(replace(mark, end=End.START if mark.end is End.END else End.END))


def _runs(line: Iterable[Mark]) -> list[list[Mark]]:
    """Holes of one line, in order, cut up where their distance changes; what makes no row, by its notes."""
    runs: list[list[Mark]] = []
    for mark in line:
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
    others: dict[str, list[Mark]] = {}
    for mark in (mark for run in runs if len(run) < _FEWEST for mark in run):
        others.setdefault(mark.note, []).append(mark)
    return [*(run for run in runs if len(run) >= _FEWEST), *others.values()]
