"""Handed parts and the sense of their angles: F60, F61."""

from __future__ import annotations

from scantling.checks.catalogue import finding
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.piece.model import End, Part

__all__ = ["check"]

_SQUARE = 1e-3
"""Slope below which an end counts as square, a twentieth of a degree. [1]"""


def check(subject: Subject) -> list[Finding]:
    """Findings on copies of one entry that should pair."""
    found: list[Finding] = []
    for like, parts in subject.piece.alike().items():
        found += _pairs(like, parts)
        found += _senses(like, parts)
    return found


def _pairs(like: str, parts: tuple[Part, ...]) -> list[Finding]:
    mirrored = sum(part.mirrored for part in parts)
    plain = len(parts) - mirrored
    if mirrored in (0, plain):
        return []
    return [
        finding(
            "F60",
            where=like,
            message=f"of {len(parts)} parts {like}, {plain} are of one hand and {mirrored} of the other",
            numbers={"ones": plain, "others": mirrored},
        )
    ]


def _slope(part: Part, end: End, axis: int) -> float | None:
    """Slope of an end's plane: how far it runs along the grain per mm across. [1]"""
    planes = [trim.plane for trim in part.trims if trim.end is end]
    if len(planes) != 1 or abs(planes[0].normal[0]) < _SQUARE:
        return None
    return -planes[0].normal[axis] / planes[0].normal[0]


def _sense(part: Part) -> str:
    """``parallel`` or ``mirrored`` where both ends slope alike in one view, else empty."""
    for axis in (1, 2):
        start, end = _slope(part, End.START, axis), _slope(part, End.END, axis)
        if start is None or end is None or abs(start) < _SQUARE or abs(end) < _SQUARE:
            continue
        if abs(abs(start) - abs(end)) < 5 * _SQUARE:
            return "parallel" if start * end > 0.0 else "mirrored"
    return ""


def _senses(like: str, parts: tuple[Part, ...]) -> list[Finding]:
    senses = {part.name: _sense(part) for part in parts}
    parallel = [name for name, sense in senses.items() if sense == "parallel"]
    mirrored = [name for name, sense in senses.items() if sense == "mirrored"]
    if not parallel or not mirrored:
        return []
    return [
        finding(
            "F61",
            where=like,
            message=f"the ends of {', '.join(parallel)} lean the same way and those of {', '.join(mirrored)} "
            "lean against each other, though they are made alike",
            numbers={"parallel": len(parallel), "mirrored": len(mirrored)},
        )
    ]
