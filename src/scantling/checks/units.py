"""What of a piece moves in use: its doors and lids on their hinges, its drawers, and the case that stays."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.checks.loose import groups
from scantling.checks.subject import Subject
from scantling.joinery.work import ConnectorKind, JointWork
from scantling.piece.convex import body_of
from scantling.piece.geometry import Vec, add, cross, dot, scale, sub
from scantling.piece.model import Part

__all__ = ["Hung", "hung", "moving_units"]

_HINGES = (ConnectorKind.BUTT_HINGE, ConnectorKind.STRAP_HINGE)
_LEVEL = 0.7


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """A door or lid on its hinges.

    Parameters
    ----------
    work
        The joint it hangs by.
    parts
        All that swings.
    pin
        A point on the pin's axis. World. [mm]
    along, away, front
        Along the pin, from the pin to the closing edge, and out of the face at the knuckles. World. [1]
    width_mm, thickness_mm
        From the pin to the closing edge, and the thickness there. [mm]
    pin_out_mm
        From the face to the pin. [mm]
    apart_mm
        Between the outer hinges' middles. [mm]
    is_lid
        Whether it swings about a level pin.
    """

    work: JointWork
    parts: tuple[str, ...]
    pin: Vec
    along: Vec
    away: Vec
    front: Vec
    width_mm: float
    thickness_mm: float
    pin_out_mm: float
    apart_mm: float
    is_lid: bool


def moving_units(parts: Iterable[str], works: Iterable[JointWork]) -> dict[str, tuple[str, ...]]:
    """For every part, all parts that stay together with it when doors and drawers are moved."""
    fast = [work for work in works if not work.passes]
    return {name: group for group in groups(parts, fast) for name in group}


def hung(subject: Subject) -> list[Hung]:
    """Every door and lid on hinges."""
    units = moving_units(subject.piece.parts, subject.works)
    return [
        _hung(subject, work, units[work.first])
        for work in subject.works
        if any(one.kind in _HINGES for one in work.connectors) and work.second not in units[work.first]
    ]


def _hung(subject: Subject, work: JointWork, parts: tuple[str, ...]) -> Hung:
    hinges = next(one for one in work.connectors if one.kind in _HINGES)
    frames, frame = hinges.frames, hinges.frames[0]
    pin, along, front = frame.origin, frame.grain, frame.width
    if hinges.kind is ConnectorKind.STRAP_HINGE:  # shown by its leaf, which runs in from the pin
        along, front = frame.width, scale(frame.grain, -1.0)
        pin = add(pin, scale(front, hinges.size_mm[2] / 2.0))
    bodies = {name: body_of(subject.part(name)) for name in parts}
    beside = cross(along, front)
    ends = [body.extent(beside) for body in bodies.values()]
    low, high = min(end[0] for end in ends), max(end[1] for end in ends)
    base = dot(pin, beside)
    away = beside if high - base > base - low else scale(beside, -1.0)
    reach = {name: body.extent(away)[1] - dot(pin, away) for name, body in bodies.items()}
    closing = subject.part(max(reach, key=lambda name: reach[name]))
    at = [dot(sub(one.origin, pin), along) for one in frames]
    return Hung(
        work=work,
        parts=parts,
        pin=pin,
        along=along,
        away=away,
        front=front,
        width_mm=max(reach.values()),
        thickness_mm=_thick_mm(closing, front),
        pin_out_mm=dot(pin, front) - body_of(subject.part(work.first)).extent(front)[1],
        apart_mm=max(at) - min(at),
        is_lid=abs(along[2]) < _LEVEL,
    )


def _thick_mm(part: Part, way: Vec) -> float:
    low, high = body_of(part).extent(way)
    return high - low
