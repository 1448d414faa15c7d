"""Every place of a joint that must be free to move: the travel it needs, what it has, and the verdict."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from scantling.checks.catalogue import limit
from scantling.joinery.mid_travel import mid_travel_mc_pct
from scantling.joinery.travel import width_coefficient
from scantling.joinery.work import Freedom, GlueFace, JointWork
from scantling.piece.model import Part, PartKind
from scantling.plan.year.season_parts import SeasonPart
from scantling.remembering import remembered
from scantling.wood.moisture import MoistureRange
from scantling.wood.movement import SPREAD_SHARE

__all__ = ["JointTravel", "Verdict", "joint_travels"]

GLUE_LINE = "glue line across the grain"
_BINDS_MM = 1e-6
_BREADBOARD = "breadboard_end"
"""Its glued length is judged by itself, F04."""


class Verdict(StrEnum):
    """What the year does at a place.

    ``FREE``: there is room for every board of the wood but one in twenty. ``TIGHT``: there is room for the
    usual board, and not for one at the far end of the wood's spread. ``BINDS``: there is not room for the
    usual one.
    """

    FREE = "free"
    TIGHT = "tight"
    BINDS = "binds"


@dataclass(frozen=True, slots=True, kw_only=True)
class JointTravel:
    """One place that must be free to move: what it needs over the year and what it has.

    Parameters
    ----------
    spare_mm
        Room left on the tighter side. [mm] negative where it binds
    far_spare_mm
        The same for a board that moves as much as the far end of its wood's spread. [mm]
    tight_when
        ``dry`` or ``damp``: the season it is tightest in.
    verdict
        Of the two.
    mid_travel_mc_pct
        Moisture of the wood at which it would stand in the middle of its room. [%] None where nothing moves
        or no such moisture is likely
    """

    joint: str
    part: str
    what: str
    from_fixed_mm: float
    shrink_travel_mm: float
    swell_travel_mm: float
    shrink_room_mm: float
    swell_room_mm: float
    cut_to_mm: float
    bias_mm: float
    spare_mm: float
    far_spare_mm: float
    tight_when: str
    verdict: Verdict
    mid_travel_mc_pct: float | None = None

    @property
    def is_glue_line(self) -> bool:
        """Whether it is glue that holds wood across the grain, not a place that slides."""
        return self.what == GLUE_LINE


def joint_travels(
    works: Iterable[JointWork],
    moisture: MoistureRange,
    *,
    parts: Mapping[str, Part],
    seasons: Iterable[SeasonPart],
) -> list[JointTravel]:
    """Every place that moves, and every glue line that holds wood across the grain; the tightest first.

    Parameters
    ----------
    works
        The joints.
    moisture
        Build, driest and wettest. [%]
    parts
        Of the piece.
    seasons
        The year of those wide enough to be listed, whose spread is known.
    """
    spread = {season.part: _spread(season) for season in seasons}
    found: list[JointTravel] = []
    for work in works:
        held = tuple((name, parts.get(name), spread.get(name, _USUAL)) for name in _held(work))
        found += _travels(work, moisture, held)
    return sorted(found, key=lambda t: (t.verdict is not Verdict.BINDS, t.spare_mm, t.joint, t.what))


_Moving = tuple[str, Part | None, tuple[float, float]]
"""A part by its name, the part where the piece has it, and how far it may go past its usual travel."""


@remembered(limit=1024)
def _held(work: JointWork) -> tuple[str, ...]:
    """The parts that a joint lets move or glues."""
    glued = (name for face in work.glue for name in face.parts)
    return tuple(dict.fromkeys([*(freedom.part for freedom in work.freedoms), *glued]))


@remembered(limit=1024)
def _travels(work: JointWork, moisture: MoistureRange, held: tuple[_Moving, ...]) -> tuple[JointTravel, ...]:
    """The places of one joint."""
    parts = {name: part for name, part, _ in held if part is not None}
    spread = {name: far for name, _, far in held}
    free = (_travel(work.joint, f, moisture, spread[f.part]) for f in work.freedoms)
    return (*free, *_glued(work, moisture, parts=parts, spread=spread))


_USUAL = (1.0 + SPREAD_SHARE, 1.0 + SPREAD_SHARE)


def _spread(season: SeasonPart) -> tuple[float, float]:
    """How many times the usual travel the far end of the wood's spread is, drying and wetting. [1]"""
    return (
        season.narrowest_low_mm / season.narrowest_mm if abs(season.narrowest_mm) > 1e-9 else _USUAL[0],
        season.widest_high_mm / season.widest_mm if abs(season.widest_mm) > 1e-9 else _USUAL[1],
    )


def _travel(joint: str, f: Freedom, moisture: MoistureRange, spread: tuple[float, float]) -> JointTravel:
    dry, damp = f.shrink_room_mm - f.shrink_travel_mm, f.swell_room_mm - f.swell_travel_mm
    far = min(
        f.shrink_room_mm - spread[0] * f.shrink_travel_mm, f.swell_room_mm - spread[1] * f.swell_travel_mm
    )
    return JointTravel(
        joint=joint,
        part=f.part,
        what=f.what,
        from_fixed_mm=f.from_fixed_mm,
        shrink_travel_mm=f.shrink_travel_mm,
        swell_travel_mm=f.swell_travel_mm,
        shrink_room_mm=f.shrink_room_mm,
        swell_room_mm=f.swell_room_mm,
        cut_to_mm=f.cut_to_mm,
        bias_mm=f.bias_mm,
        spare_mm=min(dry, damp),
        far_spare_mm=far,
        tight_when="dry" if dry <= damp else "damp",
        verdict=_verdict(min(dry, damp), far),
        mid_travel_mc_pct=mid_travel_mc_pct(f, moisture),
    )


def _verdict(spare_mm: float, far_spare_mm: float) -> Verdict:
    if spare_mm < -_BINDS_MM:
        return Verdict.BINDS
    return Verdict.TIGHT if far_spare_mm < -_BINDS_MM else Verdict.FREE


def _glued(
    work: JointWork,
    moisture: MoistureRange,
    *,
    parts: Mapping[str, Part],
    spread: Mapping[str, tuple[float, float]],
) -> list[JointTravel]:
    """The widest glue line across the grain: it gives way by what glue and wood take without harm, F01."""
    least = limit("F01", "grain_angle_deg")
    crossing = [face for face in work.glue if face.grain_angle_deg >= least and face.cross_span_mm > 0.0]
    if work.dry or work.family == _BREADBOARD or not crossing:
        return []
    face = max(crossing, key=lambda one: one.cross_span_mm)
    part = _livelier(face, parts)
    if part is None:
        return []
    per_pct, slip = face.cross_span_mm * width_coefficient(part), limit("F01", "slip_mm")
    freedom = Freedom(
        part=part.name,
        what=GLUE_LINE,
        at=work.at,
        from_fixed_mm=face.cross_span_mm,
        shrink_travel_mm=per_pct * moisture.shrink_pct,
        swell_travel_mm=per_pct * moisture.swell_pct,
        shrink_room_mm=slip,
        swell_room_mm=slip,
    )
    travel = _travel(work.joint, freedom, moisture, spread.get(part.name, _USUAL))
    return [replace(travel, mid_travel_mc_pct=None)]


def _livelier(face: GlueFace, parts: Mapping[str, Part]) -> Part | None:
    """Of two parts glued across, the one that moves more."""
    woods = [parts[name] for name in face.parts if parts[name].kind is not PartKind.SHEET]
    return max(woods, key=width_coefficient, default=None)
