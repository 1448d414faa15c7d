"""Grooves and rabbets in a line: boards side by side stand in one, which is plowed in one go."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from scantling.joinery.panel_groove import GROOVE, PanelGroove
from scantling.joinery.rabbet import RABBET, Rabbet
from scantling.joinery.work import Box, Cut, JointWork, Mark, MarkKind
from scantling.piece.model import End, Part

__all__ = ["LEAST_WALL_MM", "plowed"]

LEAST_WALL_MM = 10.0
"""Wood between two grooves in a line that is less than this is not left standing: no plow stops and starts
again within it, and it would break out (common practice). [mm]"""
_SAME_MM = 0.01
_CUT_BY = {PanelGroove.name: MarkKind.GROOVE, Rabbet.name: MarkKind.RABBET}
"""Families whose grooves or rabbets may run on from part to part."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Groove:
    """One groove along the grain of a part.

    Parameters
    ----------
    work
        Which of the joints it is cut for.
    low_mm, high_mm
        Where it begins and ends along the grain, in the part's own frame. [mm]
    """

    work: int
    mark: Mark
    low_mm: float
    high_mm: float


def plowed(works: Sequence[JointWork], parts: Mapping[str, Part]) -> tuple[JointWork, ...]:
    """The joints with grooves that all but meet in a line cut and marked as one.

    Parameters
    ----------
    works
        Of all joints.
    parts
        Of the piece.

    Returns
    -------
    tuple of JointWork
        In the same order. The first joint of each row has the whole groove, the others have none.
    """
    rows: dict[tuple[object, ...], list[_Groove]] = {}
    for number, work in enumerate(works):
        for mark in work.marks:
            if _CUT_BY.get(work.family) is mark.kind and not mark.angle_deg:
                groove = _along(number, mark, parts[mark.part])
                rows.setdefault(_line(mark), []).append(groove)
    done = list(works)
    for row in rows.values():
        for run in _runs(sorted(row, key=lambda groove: groove.low_mm)):
            _join(done, run, parts[run[0].mark.part])
    return tuple(done)


def _line(mark: Mark) -> tuple[object, ...]:
    """What grooves in one line and of one set-up have in common."""
    sizes = (mark.from_face_mm, mark.width_mm, mark.depth_mm)
    return (mark.part, mark.face, mark.reference_face, mark.setup, *(round(s / _SAME_MM) for s in sizes))


def _along(number: int, mark: Mark, part: Part) -> _Groove:
    at = part.start_mm + mark.from_end_mm if mark.end is End.START else part.end_mm - mark.from_end_mm
    half = mark.length_mm / 2.0
    return _Groove(work=number, mark=mark, low_mm=at - half, high_mm=at + half)


def _runs(row: Sequence[_Groove]) -> list[list[_Groove]]:
    """Two or more that follow one another with next to no wood between."""
    runs = [[row[0]]]
    for one, following in pairwise(row):
        if following.low_mm - one.high_mm < LEAST_WALL_MM:
            runs[-1].append(following)
        else:
            runs.append([following])
    return [run for run in runs if len(run) > 1]


def _join(works: list[JointWork], run: Sequence[_Groove], part: Part) -> None:
    """The first joint takes the groove of the whole run; the others lose theirs."""
    first, low, high = run[0], run[0].low_mm, max(groove.high_mm for groove in run)
    middle = (low + high) / 2.0
    end = End.START if middle - part.start_mm <= part.end_mm - middle else End.END
    mark = replace(
        first.mark,
        end=end,
        from_end_mm=middle - part.start_mm if end is End.START else part.end_mm - middle,
        length_mm=high - low,
        note=f"one {first.mark.kind.value} for {len(run)} parts, {first.mark.note}",
    )
    spans = [_span(c) for groove in run for c in works[groove.work].cuts if _is_groove(c, part)]
    whole = min(low for low, _ in spans), max(high for _, high in spans)
    for groove in run:
        work = works[groove.work]
        cuts = [cut for cut in work.cuts if not _is_groove(cut, part)]
        marks = [one for one in work.marks if one is not groove.mark]
        if groove is first:
            cuts += [_longer(cut, whole) for cut in work.cuts if _is_groove(cut, part)]
            marks.insert(0, mark)
        works[groove.work] = replace(work, cuts=tuple(cuts), marks=tuple(marks))


def _is_groove(cut: Cut, part: Part) -> bool:
    return cut.part == part.name and cut.what in (GROOVE, RABBET)


def _span(cut: Cut) -> tuple[float, float]:
    """Where a groove's cutter begins and ends along the grain, its run-out too. [mm]"""
    assert isinstance(cut.tool, Box)
    middle, half = cut.tool.frame.origin[0], cut.tool.width_mm / 2.0
    return middle - half, middle + half


def _longer(cut: Cut, span_mm: tuple[float, float]) -> Cut:
    """The cut from one place along the grain to another."""
    assert isinstance(cut.tool, Box)
    _, v, w = cut.tool.frame.origin
    frame = replace(cut.tool.frame, origin=((span_mm[0] + span_mm[1]) / 2.0, v, w))
    return replace(cut, tool=replace(cut.tool, frame=frame, width_mm=span_mm[1] - span_mm[0]))
