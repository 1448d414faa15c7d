"""Parts that no joint connects with the rest of the piece: F72."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from scantling.checks.catalogue import finding
from scantling.checks.fitting import crossing_families, touching_families
from scantling.checks.grouping import groups
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.piece.apart import apart_mm
from scantling.piece.contact import Contact, contacts, nearest_gap_mm, overlap
from scantling.piece.convex import Body, body_of
from scantling.piece.geometry import Vec, dot
from scantling.piece.model import Part
from scantling.remembering import remembered
from scantling.units.show import show_number

__all__ = ["check", "groups"]

_NAMED = 6
"""Parts of a loose group told by name; of more, how many more there are."""
_CLOSE_MM = 1.0
"""Parts farther apart than this neither touch nor cross. [mm]"""
_GAP_MM = 5.0
"""Gap up to which a drawer or door may be meant: no other is built wider. [mm] (judgement)"""
_IN_USE = "; of a drawer or door that moves there in use, fit it in its opening with a gap (opening fit)"
_ROUNDING_MM = 1e-6
_ASIDE_MM = 1e-3
"""Pairs farther apart than the nearest by more than this are left out of a closer look. [mm]"""

_Box = tuple[Vec, Vec]
"""Least and greatest corner round a part, in the world. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Neighbor:
    """The part outside a group that is nearest to it, and the part of the group it is nearest to."""

    own: Part
    other: Part
    contact: Contact | None = None
    common: Body | None = None
    gap_mm: float = 0.0


def check(subject: Subject) -> list[Finding]:
    """A finding for each group of parts that no joint connects with the largest one."""
    parts = subject.piece.parts
    found = groups(parts, subject.works)
    if len(found) < 2:
        return []
    volumes = {name: body_of(part).volume_mm3 for name, part in parts.items()}
    body = max(found, key=lambda group: (len(group), sum(volumes[name] for name in group)))
    boxes = {name: _box_of(part) for name, part in parts.items()}
    return [
        _loose(subject, tuple(sorted(group, key=lambda name: -volumes[name])), boxes)
        for group in found
        if group is not body
    ]


def _loose(subject: Subject, group: tuple[str, ...], boxes: Mapping[str, _Box]) -> Finding:
    near = _nearest(subject, group, boxes)
    lead = group[0]
    aside = "If it is meant to be loose, say why under accept."
    numbers = {"parts": float(len(group)), "gap_mm": near.gap_mm}
    if near.contact is not None:
        long, wide = _size(near.contact, near.own)
        numbers |= {"contact_mm2": near.contact.area_mm2, "contact_long_mm": long, "contact_wide_mm": wide}
        where = (
            f"{near.other.name} touches {near.own.name} over {show_number(long)} mm by {show_number(wide)} mm"
        )
        fit = touching_families(near.own, near.other, near.contact)
        way = f"Join {near.own.name} and {near.other.name} where they touch; {fit}."
    elif near.common is not None:
        deep = min(high - low for low, high in map(near.common.extent, _axes(near.other)))
        numbers["overlap_mm"] = deep
        where = f"{near.own.name} stands {deep:.1f} mm deep in {near.other.name}"
        fit = crossing_families(near.own, near.other)
        way = f"Join {near.own.name} and {near.other.name} where they cross; {fit}."
    else:
        where = f"the nearest part, {near.other.name}, is {near.gap_mm:.1f} mm from {near.own.name}"
        way = (
            f"{near.own.name} stops {near.gap_mm:.1f} mm short of {near.other.name}: move or trim it until "
            f"they touch, then join them{_IN_USE if near.gap_mm <= _GAP_MM else ''}."
        )
    return finding(
        "F72",
        where=lead,
        message=f"no joint connects {_named(group)} with the rest of the piece; {where}",
        advice=f"{way} {aside}",
        numbers=numbers,
    )


def _named(group: tuple[str, ...]) -> str:
    if len(group) > _NAMED:
        return f"{', '.join(group[:_NAMED])} and {len(group) - _NAMED} more parts"
    return ", ".join(group)


def _nearest(subject: Subject, group: tuple[str, ...], boxes: Mapping[str, _Box]) -> _Neighbor:
    """The neighbor with the largest contact, else one that it crosses, else the nearest."""
    own = [subject.part(name) for name in group]
    rest = [part for name, part in subject.piece.parts.items() if name not in group]
    pairs = _nearest_pairs(own, rest, boxes)
    close = [(a, b) for at_least, a, b in pairs if at_least <= _CLOSE_MM]
    close = [(a, b) for a, b in close if nearest_gap_mm(a, b) <= _CLOSE_MM]
    touching = [_Neighbor(own=a, other=b, contact=where[0]) for a, b in close if (where := contacts(a, b))]
    if touching:
        return max(touching, key=lambda near: near.contact.area_mm2 if near.contact else 0.0)
    crossing = [
        _Neighbor(own=a, other=b, common=body) for a, b in close if (body := overlap(a, b)) is not None
    ]
    if crossing:
        return max(crossing, key=lambda near: near.common.volume_mm3 if near.common else 0.0)
    reach = _apart(pairs).gap_mm + _ROUNDING_MM
    left = [(nearest_gap_mm(a, b), a, b) for at_least, a, b in pairs if at_least <= reach]
    return _apart(left)


def _nearest_pairs(
    own: list[Part], rest: list[Part], boxes: Mapping[str, _Box]
) -> list[tuple[float, Part, Part]]:
    """The pairs that may be as near as the nearest or touch, each with a distance it does not fall below."""
    import numpy as np

    low, high = (np.array([[boxes[part.name][k] for part in own]]) for k in (0, 1))
    least, most = (np.array([[boxes[part.name][k] for part in rest]]) for k in (0, 1))
    between = np.maximum(least - high[0][:, None], low[0][:, None] - most)
    about_mm = np.linalg.norm(np.maximum(between, 0.0), axis=2)
    first = np.unravel_index(np.argmin(about_mm), about_mm.shape)
    reach = max(apart_mm(own[first[0]], rest[first[1]]), _CLOSE_MM) + _ASIDE_MM
    near = [(own[i], rest[j]) for i, j in zip(*np.nonzero(about_mm <= reach), strict=True)]
    return [(_boxes_apart_mm(boxes[a.name], boxes[b.name]), a, b) for a, b in near]


def _apart(pairs: list[tuple[float, Part, Part]]) -> _Neighbor:
    """The nearest of pairs, each with a distance that it does not fall below."""
    best: _Neighbor | None = None
    for at_least, own, other in sorted(pairs, key=lambda pair: pair[0]):
        if best is not None and at_least >= best.gap_mm:
            break
        gap = apart_mm(own, other)
        if best is None or gap < best.gap_mm:
            best = _Neighbor(own=own, other=other, gap_mm=gap)
    assert best is not None
    return best


@remembered(limit=1024)
def _box_of(part: Part) -> _Box:
    """The box round a part before its joints are cut."""
    xs, ys, zs = zip(*body_of(part).corners, strict=True)
    return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))


def _boxes_apart_mm(one: _Box, other: _Box) -> float:
    """Distance of two boxes: a quick look, never more than that of what is in them. [mm]"""
    (low, high), (least, most) = one, other
    return math.hypot(*(max(least[i] - high[i], low[i] - most[i], 0.0) for i in range(3)))


def _axes(part: Part) -> tuple[tuple[float, float, float], ...]:
    return (part.frame.grain, part.frame.width, part.frame.thickness)


def _size(contact: Contact, part: Part) -> tuple[float, float]:
    """Length and width of a contact along the part's own axes, the longer first. [mm]"""
    flat = sorted(_axes(part), key=lambda axis: abs(dot(axis, contact.normal)))[:2]
    long, wide = sorted((high - low for low, high in map(contact.extent, flat)), reverse=True)
    return long, wide
