"""What each joint of a piece carries: boards on their ends, rails in legs, and the top on its fasteners."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from scantling.checks.legs import legs_of
from scantling.checks.subject import Subject
from scantling.joinery.work import JointWork
from scantling.piece.convex import body_of
from scantling.piece.model import Part
from scantling.plan.standing.racked import FLAT_SHARE
from scantling.plan.standing.supports import shares_of
from scantling.structure.carrying import Carried, CarriedKind, Fastened, Topped
from scantling.structure.mass import Mass

__all__ = ["carried_of", "topped_of"]

_UPRIGHT = 0.5
"""From here on the pull of a joint points up or down more than aside. [1]"""
_RAIL_SHARE = 0.25
"""Of what lies on a top, on each end of a rail under it: half of it on one rail. [1]"""
_SIDES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))

Carries = Callable[[Part, Part], bool]


def carried_of(
    subject: Subject, loads_kg: Mapping[Part, float], *, mass: Mass, carries: Carries
) -> tuple[Carried, ...]:
    """Joints pressed across by what lies on a board, and by what lies on a table, on its rails.

    Parameters
    ----------
    subject
        The piece and its joints.
    loads_kg
        What lies on each level board. [kg]
    mass
        Of every part.
    carries
        Whether a part carries a board.
    """
    weights = {one.part: one.mass_kg for one in mass.parts}
    found: list[Carried] = []
    for board, load in loads_kg.items():
        found += _board(subject, board, load_kg=load, own_kg=weights.get(board.name, 0.0), carries=carries)
    return tuple(found) + _rails(subject, loads_kg, weights)


def _board(
    subject: Subject, board: Part, *, load_kg: float, own_kg: float, carries: Carries
) -> list[Carried]:
    """Its ends, each with as much as may come on it; what lies on top of another part needs no joint."""
    held: dict[str, list[JointWork]] = {}
    for work in subject.works:
        if work.passes or board.name not in (work.first, work.second):
            continue
        other = subject.part(work.second if work.first == board.name else work.first)
        if carries(other, board):
            held.setdefault(other.name, []).append(work)
    shares = shares_of(board, [subject.part(other) for other in held])
    return [
        Carried(
            kind=CarriedKind.BOARD,
            joint=works[0].joint,
            part=board.name,
            by=other,
            load_kg=load_kg + own_kg,
            own_kg=own_kg,
            share=shares[other],
            may_n=_shear_n(works),
        )
        for other, works in held.items()
        if all(abs(work.leaves[2]) < _UPRIGHT for work in works)
    ]


def _shear_n(works: list[JointWork]) -> float | None:
    """What joints between the same two parts may carry: the one that may carry most. [N]"""
    known = [may for work in works if (may := work.strength.shear_n.may) is not None]
    return max(known, default=None)


def _rails(
    subject: Subject, loads_kg: Mapping[Part, float], weights: Mapping[str, float]
) -> tuple[Carried, ...]:
    """Rails under a top, each with half of what lies on it: a quarter of the whole at each end."""
    legs = {leg.name for leg in legs_of(subject)}
    if len(legs) < 3 or not loads_kg:
        return ()
    top = max(loads_kg, key=lambda board: board.middle[2])
    own = weights.get(top.name, 0.0)
    under = {
        work.second if work.first == top.name else work.first
        for work in subject.works
        if top.name in (work.first, work.second)
    } - legs
    return tuple(
        Carried(
            kind=CarriedKind.RAIL,
            joint=work.joint,
            part=work.first,
            by=work.second,
            load_kg=loads_kg[top] + own,
            own_kg=own,
            share=_RAIL_SHARE,
            may_n=work.strength.shear_n.may,
        )
        for work in subject.works
        if work.first in under and work.second in legs and abs(work.leaves[2]) < _UPRIGHT
    )


def topped_of(subject: Subject, *, mass: Mass, leaned_on: bool) -> Topped | None:
    """The highest level board and what holds it down, where fasteners alone do."""
    level = [
        part
        for part in subject.piece.parts.values()
        if abs(part.frame.thickness[2]) > FLAT_SHARE and part.species
    ]
    if not level:
        return None
    top = max(level, key=lambda part: (part.middle[2], part.length_mm * part.width_mm))
    whole = _glued_to(subject, top.name)
    rows, rests = [], set[str]()
    for work in subject.works:
        inside = [name in whole for name in (work.first, work.second)]
        if inside[0] == inside[1]:
            continue
        if work.passes:
            return None  # a lid: nothing is lifted by it
        if abs(work.leaves[2]) < _UPRIGHT or work.strength.pull_n.may is None or work.glue:
            return None  # held by more than fasteners from below, or by what nothing is published of
        rests.add(work.second if inside[0] else work.first)
        rows.append(
            Fastened(joint=work.joint, at_mm=(work.at[0], work.at[1]), may_n=work.strength.pull_n.may)
        )
    if not rows:
        return None
    weights = {one.part: one.mass_kg for one in mass.parts}
    top_kg = sum(weights.get(name, 0.0) for name in whole)
    return Topped(
        top=top.name,
        top_kg=top_kg,
        below_kg=mass.total_kg - top_kg,
        fasteners=tuple(rows),
        top_mm=_spread(subject, whole),
        rests_mm=_spread(subject, rests),
        leaned_on=leaned_on,
    )


def _glued_to(subject: Subject, name: str) -> set[str]:
    """A part and all that is glued to it. A top's ends go with it."""
    whole, more = {name}, True
    while more:
        more = False
        for work in subject.works:
            ends = {work.first, work.second}
            if work.glue and len(ends & whole) == 1:
                whole |= ends
                more = True
    return whole


def _spread(subject: Subject, names: set[str]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Least and greatest corner of some parts, seen from above. [mm]"""
    bodies = [body_of(subject.part(name)) for name in names]
    ways = [[body.extent(way) for body in bodies] for way in _SIDES]
    low = tuple(min(extent[0] for extent in way) for way in ways)
    high = tuple(max(extent[1] for extent in way) for way in ways)
    return ((low[0], low[1]), (high[0], high[1]))
