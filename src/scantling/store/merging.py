"""Bringing two changes of one text together, line by line, where they do not touch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

__all__ = ["Clash", "MergedText", "merge_lines", "merge_texts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Lines both sides changed, each otherwise.

    Parameters
    ----------
    line
        Line of the old text where they begin, from 1.
    old, theirs, yours
        The lines as they were, as they are kept now, and as they were to be saved.
    """

    line: int
    old: tuple[str, ...]
    theirs: tuple[str, ...]
    yours: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MergedText:
    """What came of it.

    Parameters
    ----------
    text
        Both changes in one text; None where they clash.
    clashes
        Where they do.
    """

    text: str | None
    clashes: tuple[Clash, ...] = ()


@dataclass(frozen=True, slots=True)
class _Change:
    """Lines ``start`` to ``end`` of the old text become ``lines``."""

    start: int
    end: int
    lines: tuple[str, ...]

    def meets(self, start: int, end: int) -> bool:
        """Whether it touches or overlaps a stretch: what stands side by side is seldom independent."""
        return self.start <= end and start <= self.end


def merge_texts(old: str, theirs: str, yours: str) -> MergedText:
    r"""Bring two changes of a text together; see :func:`merge_lines`.

    Examples
    --------
    >>> merge_texts("a\nb\nc\n", "A\nb\nc\n", "a\nb\nC\n").text
    'A\nb\nC\n'
    >>> merge_texts("a\n", "b\n", "c\n").clashes
    (Clash(line=1, old=('a\n',), theirs=('b\n',), yours=('c\n',)),)
    """
    merged = merge_lines(*(text.splitlines(keepends=True) for text in (old, theirs, yours)))
    if isinstance(merged, tuple):
        return MergedText(text=None, clashes=merged)
    return MergedText(text="".join(merged))


def merge_lines(
    old: Sequence[str], theirs: Sequence[str], yours: Sequence[str]
) -> list[str] | tuple[Clash, ...]:
    """Three-way merge of lines.

    A change both sides made alike is taken once. Changes that touch each other, also side by side without a
    line between them, clash unless they are alike.

    Parameters
    ----------
    old, theirs, yours
        The lines both began from, and what each made of them.

    Returns
    -------
    list or tuple
        The merged lines, or every clash.
    """
    left, right = _changes(old, theirs), _changes(old, yours)
    merged: list[str] = []
    clashes: list[Clash] = []
    at = 0
    while left or right:
        ours, others = _together(left, right)
        start = min(change.start for change in (*ours, *others))
        end = max(change.end for change in (*ours, *others))
        merged += old[at:start]
        at = end
        one, other = (_applied(old, start, end, changes) for changes in (ours, others))
        if not others or one == other:
            merged += one
        elif not ours:
            merged += other
        else:
            clashes.append(
                Clash(line=start + 1, old=tuple(old[start:end]), theirs=tuple(one), yours=tuple(other))
            )
    return tuple(clashes) if clashes else [*merged, *old[at:]]


def _changes(old: Sequence[str], new: Sequence[str]) -> list[_Change]:
    found = SequenceMatcher(a=old, b=new, autojunk=False).get_opcodes()
    return [_Change(a, b, tuple(new[c:d])) for kind, a, b, c, d in found if kind != "equal"]


def _together(left: list[_Change], right: list[_Change]) -> tuple[list[_Change], list[_Change]]:
    """The first change of either side with all that hang together with it, taken off their lists."""
    taken: tuple[list[_Change], list[_Change]] = ([], [])
    first = min((side[0] for side in (left, right) if side), key=lambda change: change.start)
    start, end = first.start, first.end
    growing = True
    while growing:
        growing = False
        for side, own in zip((left, right), taken, strict=True):
            while side and side[0].meets(start, end):
                own.append(side.pop(0))
                start, end = min(start, own[-1].start), max(end, own[-1].end)
                growing = True
    return taken


def _applied(old: Sequence[str], start: int, end: int, changes: Sequence[_Change]) -> list[str]:
    """A stretch of the old lines with the changes of one side."""
    lines: list[str] = []
    for change in changes:
        lines += [*old[start : change.start], *change.lines]
        start = change.end
    return [*lines, *old[start:end]]
