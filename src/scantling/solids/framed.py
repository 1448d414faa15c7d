"""Frames with panels that are glued up by themselves and go into a piece whole, such as a back."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from scantling.joinery.work import JointWork
from scantling.piece.convex import body_of
from scantling.piece.geometry import Vec, add, norm, scale, unit
from scantling.piece.model import Part

__all__ = ["Framed", "framed_in"]

_FEWEST = 4
"""A frame has so many parts round its panels, at the least. [1]"""
_FLAT = 2.5
"""Thickness of a frame over that of its thickest part, at the most. [1]"""
_PANEL = "panel_groove"
_AGREE = 0.9
"""The joints that hold it must come apart one way: what is left of their ways, added up. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Framed:
    """A frame with its panels.

    Parameters
    ----------
    names
        Its parts, in the order they were asked in.
    rims
        What it is fixed to.
    way
        The way it leaves them. World, unit length.
    """

    names: tuple[str, ...]
    rims: tuple[str, ...]
    way: Vec


def framed_in(
    names: Sequence[str], parts: Mapping[str, Part], works: Iterable[JointWork], *, root: str
) -> tuple[Framed, ...]:
    """Flat frames with panels among some parts, each glued to nothing else and fixed one way.

    Parameters
    ----------
    names
        The parts: a case without its doors and drawers.
    parts
        All of the piece, by name.
    works
        What the joints of the piece answered.
    root
        The part that stays; what it is in is no frame.
    """
    among = set(names)
    inner = [w for w in works if {w.first, w.second} <= among and not w.passes]
    group = _glued(names, inner)
    _take_in(names, inner, group, root=root)
    found = []
    for key in dict.fromkeys(group.values()):
        members = {name for name in names if group[name] == key}
        if root in members or not _is_frame(members, inner):
            continue
        fixed = [w for w in inner if (w.first in members) is not (w.second in members)]
        way = _way(members, fixed)
        if way is not None and _is_flat([parts[name] for name in members], way):
            rims = dict.fromkeys(w.second if w.first in members else w.first for w in fixed)
            found.append(Framed(names=tuple(n for n in names if n in members), rims=tuple(rims), way=way))
    return tuple(found)


def _glued(names: Iterable[str], inner: Iterable[JointWork]) -> dict[str, str]:
    """The group each part is glued into, by the name of one of it."""
    group = {name: name for name in names}
    for work in inner:
        if not work.dry:
            one, other = group[work.first], group[work.second]
            group = {name: one if g == other else g for name, g in group.items()}
    return group


def _take_in(names: Sequence[str], inner: Sequence[JointWork], group: dict[str, str], *, root: str) -> None:
    """Panels and loose muntins go with the one glued group that all their joints lead to."""
    lone = {name for name in names if sum(g == group[name] for g in group.values()) == 1 and name != root}
    clusters = {name: name for name in lone}
    for work in inner:
        if work.first in lone and work.second in lone:
            one, other = clusters[work.first], clusters[work.second]
            clusters = {name: one if c == other else c for name, c in clusters.items()}
    for key in dict.fromkeys(clusters[name] for name in names if name in lone):
        members = {name for name in lone if clusters[name] == key}
        outer = {
            group[w.second if w.first in members else w.first]
            for w in inner
            if (w.first in members) is not (w.second in members)
        }
        if len(outer) == 1:
            group |= dict.fromkeys(members, outer.pop())


def _is_frame(members: Collection[str], inner: Iterable[JointWork]) -> bool:
    """Whether parts glued to each other hold a panel in their grooves."""
    own = [w for w in inner if w.first in members and w.second in members]
    glued = {name for w in own if not w.dry for name in (w.first, w.second)}
    return len(glued) >= _FEWEST and any(w.family == _PANEL for w in own)


def _is_flat(members: Iterable[Part], way: Vec) -> bool:
    """Whether parts lie in one plane square to the way they leave: a case is no frame, whatever it holds."""
    chosen = list(members)
    extents = [body_of(part).extent(way) for part in chosen]
    thick = max(high for _, high in extents) - min(low for low, _ in extents)
    return thick < _FLAT * max(part.thickness_mm for part in chosen)


def _way(members: Collection[str], fixed: Sequence[JointWork]) -> Vec | None:
    """The one way in which all that holds it comes apart; None where there is none."""
    total: Vec = (0.0, 0.0, 0.0)
    for work in fixed:
        total = add(total, scale(unit(work.leaves), 1.0 if work.first in members else -1.0))
    return unit(total) if fixed and norm(total) > _AGREE * len(fixed) else None
