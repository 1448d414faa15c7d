"""Parts that other joints hold already, so that a stiff joint between them would do harm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scantling.checks.grouping import groups
from scantling.joinery.work import JointWork
from scantling.piece.geometry import dot
from scantling.piece.model import Part, PartKind, Piece

__all__ = ["Holds"]

_PLAIN = "plain_screw"
"""Reckons with what its holes give, and is not made to let anything move."""
_ALIKE = 0.98
"""Cosine of the angle between two widths up to which both move the same way (11 deg). [1]"""
_NAMED = 2
"""Parts that hold another, told by name; of more, how many there are."""


class Holds:
    """What the joints of a piece hold together.

    Parameters
    ----------
    piece
        The piece.
    works
        What its joints answered.
    """

    def __init__(self, piece: Piece, works: Iterable[JointWork]) -> None:
        self._parts = tuple(piece.parts)
        self._works = tuple(works)
        fixed = [work for work in self._works if not work.passes]
        self._body = _numbered(self._parts, fixed)
        self._whole = _numbered(self._parts, self._works)
        self._without: dict[str, dict[str, int]] = {}

    def passing(self, one: Part, other: Part) -> str:
        """That one moves past the other in use, as a sentence; empty where neither does."""
        if self._body[one.name] == self._body[other.name] or self._whole[one.name] != self._whole[other.name]:
            return ""
        return f"{_words(one.name)} and {_words(other.name)} move past each other in use."

    def moving(self, one: Part, other: Part) -> str:
        """By what a panel is held already that lets it move, as a sentence; empty where it is not.

        Two panels whose widths lie the same way move alike, and nothing need give between them.
        """
        for panel, beside in ((one, other), (other, one)):
            if panel.kind is not PartKind.PANEL or _moves_alike(panel, beside):
                continue
            own = self._letting(panel.name)
            works = [work for work in own if self._reaches(panel.name, work, beside.name)]
            if works:
                return _told(panel.name, works)
        return ""

    def _letting(self, panel: str) -> list[JointWork]:
        return [
            work
            for work in self._works
            if panel in (work.first, work.second)
            and work.family != _PLAIN
            and not work.passes
            and any(freedom.part == panel for freedom in work.freedoms)
        ]

    def _reaches(self, panel: str, work: JointWork, beside: str) -> bool:
        """Whether what holds the panel is joined to the part beside it, the panel left out."""
        if panel not in self._without:
            parts = [name for name in self._parts if name != panel]
            works = [each for each in self._works if not each.passes]
            others = [each for each in works if panel not in (each.first, each.second)]
            self._without[panel] = _numbered(parts, others)
        body = self._without[panel]
        return body[work.second if work.first == panel else work.first] == body[beside]


def _numbered(parts: Sequence[str], works: Iterable[JointWork]) -> dict[str, int]:
    return {name: number for number, group in enumerate(groups(parts, works)) for name in group}


def _moves_alike(panel: Part, beside: Part) -> bool:
    both = beside.kind is PartKind.PANEL
    return both and abs(dot(panel.frame.width, beside.frame.width)) > _ALIKE


def _told(panel: str, works: Sequence[JointWork]) -> str:
    holders = list(dict.fromkeys(w.second if w.first == panel else w.first for w in works))
    families = " and ".join(dict.fromkeys(f"{_words(work.family)}s" for work in works))
    named = [_words(name) for name in holders[:_NAMED]]
    if len(holders) > _NAMED:
        named.append(f"{len(holders) - _NAMED} more")
    at = f"{', '.join(named[:-1])} and {named[-1]}" if len(named) > 1 else named[0]
    return f"{_words(panel)} is held already, free to move, by {families} at {at}."


def _words(name: str) -> str:
    return name.replace("_", " ")
