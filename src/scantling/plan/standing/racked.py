"""The legged frame of a piece, pushed along it and across it: legs, rails, and what each joint bears."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from scantling.checks.catalogue import limit
from scantling.checks.legs import legs_of
from scantling.checks.subject import Subject
from scantling.errors import InputError
from scantling.joinery.strength.figure import Figure
from scantling.joinery.work import JointWork
from scantling.piece.convex import body_of
from scantling.piece.model import End, Part, PartKind, Stands
from scantling.plan.standing.braced import braces
from scantling.structure.legged import Legged, Racked, Rail, RailJoint, Upright, rack_legged
from scantling.wood.species import find_species

__all__ = ["FrameCheck", "Unframed", "frames_of", "leg_section_mm"]

FLAT_SHARE = 0.9
_SLICES = 16
_UP = (0.0, 0.0, 1.0)
_WAYS = (("along the piece", 0), ("across the piece", 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameCheck:
    """The frame pushed one way: along the piece or across it."""

    direction: str
    frame: Legged
    racked: Racked


@dataclass(frozen=True, slots=True, kw_only=True)
class Unframed:
    """A way in which no frame was pushed, and why.

    Parameters
    ----------
    direction
        Along the piece or across it.
    reason
        Why, in words.
    loose
        Whether that is because nothing holds its legs upright that way.
    """

    direction: str
    reason: str
    loose: bool = False


def frames_of(subject: Subject) -> tuple[FrameCheck | Unframed, ...]:
    """Legs joined by rails, pushed along the piece and across it; for a way that is not, the reason."""
    legs = legs_of(subject)
    reason = _why_none(subject, legs)
    if reason:
        return tuple(Unframed(direction=direction, reason=reason) for direction, _ in _WAYS)
    return tuple(_pushed(subject, legs, direction, axis) for direction, axis in _WAYS)


def _why_none(subject: Subject, legs: Sequence[Part]) -> str:
    """Why no frame of the piece can be pushed either way; empty where it can."""
    if subject.piece.brief.stands is Stands.WALL:
        return "hung on the wall, which holds it upright"
    if any(leg.round is not None for leg in legs):
        return "sums for round legs in a seat are not made here; sit on it and rock it before it is sold"
    if any(leg.kind is PartKind.SHEET for leg in legs):
        return "legs of sheet material are not judged here"
    unknown = next((leg.species for leg in legs if find_species(leg.species).moe_mpa is None), None)
    if unknown:
        return f"no stiffness is published for {unknown}; give `moe_mpa` in a wood file of your own"
    if len(legs) < 3:
        return "the sum holds for legs joined by rails, and this piece has no such frame"
    return ""


def _pushed(subject: Subject, legs: Sequence[Part], direction: str, axis: int) -> FrameCheck | Unframed:
    """The frame pushed one way, or what is to be said of that way instead."""
    rails = _rails(subject, legs, axis)
    if not rails:
        held = braces(subject, legs, axis)
        if held:
            reason = f"{', '.join(held)} may hold it, and nothing published says how stiffly"
            return Unframed(direction=direction, reason=reason)
        way = direction.split()[0]
        return Unframed(direction=direction, reason=f"no rail holds it {way}", loose=True)
    frame = Legged(uprights=tuple(_upright(leg, axis) for leg in legs), rails=rails)
    try:
        racked = rack_legged(frame, push_n=limit("F47", "push_n"))
    except InputError as refused:
        if refused.code != "frame_moves":
            raise
        used = {rail.name.rsplit(" ", 1)[0] for rail in rails}
        held = tuple(name for name in braces(subject, legs, axis) if name not in used)
        reason = "its rails hold it as hinges do" + (f"; {', '.join(held)} may hold it" if held else "")
        return Unframed(direction=direction, reason=reason, loose=not held)
    return FrameCheck(direction=direction, frame=frame, racked=racked)


def _rails(subject: Subject, legs: Sequence[Part], axis: int) -> tuple[Rail, ...]:
    """Rails that run this way between two legs, with the joints that resist turning."""
    numbers = {leg.name: number for number, leg in enumerate(legs)}
    ends: dict[str, dict[int, JointWork]] = {}
    for work in subject.works:
        if work.second not in numbers or work.first in numbers or not _resists(work):
            continue
        if abs(subject.part(work.first).frame.grain[axis]) > FLAT_SHARE:
            ends.setdefault(work.first, {}).setdefault(numbers[work.second], work)
    rails: list[Rail] = []
    for name, held in ends.items():
        part = subject.part(name)
        moe = None if part.kind is PartKind.SHEET else find_species(part.species).moe_mpa
        if moe is None:
            continue
        upright = abs(part.frame.width[2]) > abs(part.frame.thickness[2])
        deep, thick = part.width_mm, part.thickness_mm
        if not upright:
            deep, thick = thick, deep
        placed = sorted(held.items(), key=lambda end: end[1].at[axis])
        for (one, first), (other, second) in pairwise(placed):
            rails.append(
                Rail(
                    name=f"{name} {len(rails)}",
                    legs=(one, other),
                    joints=(_joint(first), _joint(second)),
                    moe_mpa=moe,
                    inertia_mm4=thick * deep**3 / 12.0,
                    area_mm2=thick * deep,
                )
            )
    return tuple(rails)


def _resists(work: JointWork) -> bool:
    """Whether the joint resists turning by a published figure."""
    turning, stiff = work.strength.moment_nmm, work.strength.stiffness_nmm_rad
    return turning.may is not None or (stiff.likely is not None and not work.dry)


def _joint(work: JointWork) -> RailJoint:
    return RailJoint(
        joint=work.joint,
        up_mm=work.at[2],
        stiffness_nmm_rad=_range(work.strength.stiffness_nmm_rad),
        may_nmm=work.strength.moment_nmm.may,
    )


def _range(figure: Figure) -> tuple[float, float, float] | None:
    if figure.low is None or figure.likely is None or figure.high is None:
        return None
    return (figure.low, figure.likely, figure.high)


def _upright(leg: Part, axis: int) -> Upright:
    low, high = body_of(leg).extent(_UP)
    feet = [_axis_at(leg, up) for up in (low, high)]
    sections = [leg_section_mm(leg, low + (k + 0.5) * (high - low) / _SLICES) for k in range(_SLICES)]
    broad = abs(leg.frame.width[axis]) >= abs(leg.frame.thickness[axis])
    inertia = [b * d**3 / 12.0 for d, b in (sizes if broad else sizes[::-1] for sizes in sections)]
    return Upright(
        name=leg.name,
        foot_mm=(feet[0][axis], low),
        head_mm=(feet[1][axis], high),
        moe_mpa=find_species(leg.species).moe_mpa or 0.0,
        inertia_mm4=tuple(inertia),
        area_mm2=min(width * thick for width, thick in sections),
    )


def _along_mm(leg: Part, up_mm: float) -> float:
    """How far along the leg its axis is at a height. [mm]"""
    return (up_mm - leg.frame.origin[2]) / leg.frame.grain[2]


def _axis_at(leg: Part, up_mm: float) -> tuple[float, float]:
    along = _along_mm(leg, up_mm)
    return (
        leg.frame.origin[0] + along * leg.frame.grain[0],
        leg.frame.origin[1] + along * leg.frame.grain[1],
    )


def leg_section_mm(leg: Part, up_mm: float) -> tuple[float, float]:
    """Width and thickness of a leg at a height, its tapers taken off. [mm]"""
    width, thick = leg.width_mm, leg.thickness_mm
    along = min(max(_along_mm(leg, up_mm), 0.0), leg.length_mm)
    for taper in leg.tapers:
        gone = along if taper.toward is End.END else leg.length_mm - along
        run = leg.length_mm - taper.begin_mm
        loss = taper.loss_mm * min(max((gone - taper.begin_mm) / run, 0.0), 1.0)
        if abs(taper.plane.normal[1]) >= abs(taper.plane.normal[2]):
            width -= loss
        else:
            thick -= loss
    return (width, thick)
