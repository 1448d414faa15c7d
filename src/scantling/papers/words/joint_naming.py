"""Joints in words: a maker knows a joint by its two parts, not by a running number."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache

from scantling.joinery.work import JointWork
from scantling.papers.words.naming import knowing, plain_words
from scantling.piece.model import Direction, End
from scantling.plan.parts import PlannedPart
from scantling.plan.result import Plan
from scantling.remembering import remembered

__all__ = ["joint_labels", "looks_of", "words_of"]

Looks = Mapping[tuple[str, End], str]


def looks_of(parts: Iterable[PlannedPart]) -> dict[tuple[str, End], str]:
    """Where each end of each part looks: ``left``, ``top``."""
    ends = tuple((part.name, part.start_looks, part.end_looks) for part in parts)
    return dict(_looks(ends))


@lru_cache(maxsize=16)
def _looks(ends: tuple[tuple[str, Direction, Direction], ...]) -> Looks:
    looks = {}
    for name, start, end in ends:
        looks[name, End.START] = start.value
        looks[name, End.END] = end.value
    return looks


def joint_labels(works: Iterable[JointWork], looks: Looks) -> Mapping[str, str]:
    """Each joint's identity with its words, no two alike.

    Parameters
    ----------
    works
        All joints of a piece.
    looks
        Where each end of each part looks.

    Returns
    -------
    Mapping
        As in ``apron left (front end) to front left leg``; the end is told where the part has the same
        joint at either end. Where several joints hold the same parts together, what they are called in
        the file is told too.
    """
    return _labels(map(_held, works), looks)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Held:
    """What a joint is told by: the parts it holds together, each with the end it is at, if it is at one."""

    joint: str
    parts: tuple[str, str]
    ends: tuple[End | None, End | None]


@remembered(limit=1024)
def _held(work: JointWork) -> _Held:
    parts = (work.first, work.second)
    return _Held(joint=work.joint, parts=parts, ends=(_end(work, parts[0]), _end(work, parts[1])))


def _labels(held: Iterable[_Held], looks: Looks) -> dict[str, str]:
    listed = tuple(held)
    ends = {(h.joint, part): end for h in listed for part, end in zip(h.parts, h.ends, strict=True)}
    both: dict[tuple[str, str], set[End | None]] = {}
    for (joint, part), end in ends.items():
        both.setdefault((_entry(joint), part), set()).add(end)

    def one(joint: str, part: str) -> str:
        end = ends[joint, part]
        if end is None or not {End.START, End.END} <= both[_entry(joint), part]:
            return plain_words(part)
        return f"{plain_words(part)} ({looks[part, end]} end)"

    told = {h.joint: " to ".join(one(h.joint, part) for part in h.parts) for h in listed}
    by_entry = Counter((label, _entry(joint)) for joint, label in told.items())
    count = Counter(told.values())
    for joint, label in told.items():
        if count[label] > 1:
            alone = by_entry[label, _entry(joint)] == 1
            told[joint] = f"{label}, {plain_words(_entry(joint) if alone else joint.replace('.', ' '))}"
    return told


def _entry(joint: str) -> str:
    return joint.partition(".")[0]


def _end(work: JointWork, part: str) -> End | None:
    """The end of a part that a joint is at; None where it is along the part."""
    ends = {mark.end for mark in work.marks if mark.part == part and mark.on_end}
    ends |= {more.end for more in work.extensions if more.part == part}
    return next(iter(ends)) if len(ends) == 1 else None


@contextmanager
def words_of(plan: Plan) -> Iterator[None]:
    """Tell names as those of this plan, until the block ends.

    Parameters
    ----------
    plan
        Its parts are read among their siblings, its joints told by their parts.
    """
    names = tuple(part.name for part in plan.parts)
    labels = _all_labels(names, tuple(looks_of(plan.parts).items()), tuple(map(_held, plan.joints)))
    with knowing(names, labels):
        yield


@lru_cache(maxsize=16)
def _all_labels(
    names: tuple[str, ...], looks: tuple[tuple[tuple[str, End], str], ...], held: tuple[_Held, ...]
) -> Mapping[str, str]:
    """Of parts, where each of their ends looks, and of joints; sizes alone do not change them."""
    with knowing(names):
        labels = {f"{part}.{end.value}": f"{plain_words(part)} ({way} end)" for (part, end), way in looks}
        return labels | _labels(held, dict(looks))
