"""What the year does to one part: its width, its length, and its cup from both causes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scantling.errors import InputError
from scantling.joinery.travel import ring_angles, width_coefficient
from scantling.piece.convex import face_direction
from scantling.piece.geometry import scale
from scantling.piece.model import Finish, Part
from scantling.remembering import remembered
from scantling.seasons.year import PartMonth, PartYear, WoodPart
from scantling.wood.cup import cup_from_rings_mm
from scantling.wood.moisture import MoistureRange
from scantling.wood.moisture_exclusion import BARE, Exclusion, find_exclusion
from scantling.wood.movement import length_change_mm, movement, strips_movement
from scantling.wood.ring import rings_in_words
from scantling.wood.species import Species, find_species

__all__ = ["PITH_MM", "RingCup", "SeasonPart", "face_coats", "ring_cup", "season_part", "wood_part"]

PITH_MM = 100.0
"""Where the pith of a board is taken to be, below the middle of its face. [mm] From memory: boards of saw
logs of 300 to 500 mm; nearer to the pith they cup more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RingCup:
    """Cup of a board, or of the strip of a panel that cups most, by the curve of its rings.

    Parameters
    ----------
    strip_mm
        Width of that board or strip. [mm]
    dry_mm, wet_mm
        Height of its middle against its edges when driest and when wettest, as a free board; positive: the
        bark side is hollow. [mm]
    alike_mm
        The larger of the two over the whole width, if all strips lay bark side up. [mm] by size
    """

    strip_mm: float
    dry_mm: float
    wet_mm: float
    alike_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonPart:
    """What the year does to the width of one part.

    Parameters
    ----------
    rings
        Growth rings in its section, strip by strip where they differ.
    strip_widths_mm, strip_rings_deg
        Width of each strip of unlike rings as planned, and the angle between its rings and the face; of a
        part that is alike throughout, its width and angle. [mm], [deg]
    coefficient
        Movement of its width, the mean of its strips. [1 per % MC]
    narrowest_mm, widest_mm
        Change of width since build if the wood came to rest with the driest and wettest month. [mm]
    narrowest_near_mm, narrowest_low_mm, widest_near_mm, widest_high_mm
        The same at the smaller and the larger edge of the species' spread. [mm]
    note
        Where the coefficients do not hold and what was used instead; empty where they hold.
    length_change_mm
        Along the grain, from the driest to the wettest. [mm] an estimate
    lag_days
        How long its moisture comes after the room's. [days]
    swing_share
        Its swing over that of a bare thin sheet. [1]
    months
        Month by month, late and damped by thickness and finish.
    largest_cup_mm
        From one face wetter than the other, the largest of any day, if it were free to bend. [mm]
    ring_cup
        From its rings, if it were free to bend; None where the wood's movement is published one way only.
    """

    part: str
    like: str
    width_mm: float
    rings: str
    strip_widths_mm: tuple[float, ...]
    strip_rings_deg: tuple[float, ...]
    coefficient: float
    narrowest_mm: float
    widest_mm: float
    narrowest_near_mm: float
    narrowest_low_mm: float
    widest_near_mm: float
    widest_high_mm: float
    note: str
    length_change_mm: float
    lag_days: float
    swing_share: float
    months: tuple[PartMonth, ...]
    largest_cup_mm: float
    ring_cup: RingCup | None


def face_coats(part: Part, finish: Finish) -> tuple[int, int]:
    """Coats on the two broad faces of a part, the better finished first: a face that shows gets them all."""
    if part.round is not None:
        return finish.coats, finish.coats
    faces = (part.frame.thickness, scale(part.frame.thickness, -1.0))
    coats = [finish.coats if face_direction(face) in part.show else finish.hidden_coats for face in faces]
    return max(coats), min(coats)


def wood_part(part: Part, finish: Finish) -> WoodPart:
    """A part as the seasons see it: the front is the better finished of its broad faces."""
    return _wood_part(part, finish.system, *face_coats(part, finish))


@remembered(limit=1024)
def _wood_part(part: Part, system: str, front_coats: int, back_coats: int) -> WoodPart:
    front, back = (_exclusion(system, coats) for coats in (front_coats, back_coats))
    return WoodPart(
        name=part.like,
        species=find_species(part.species),
        width_mm=part.width_mm,
        thickness_mm=part.thickness_mm,
        ring_angle_deg=part.ring.ring_angle_deg,
        strips=ring_angles(part) if len(part.rings_across) > 1 else (),
        front=front,
        back=back,
    )


def _exclusion(system: str, coats: int) -> Exclusion:
    """Moisture-excluding effect of a finish; bare wood, the safe side, where none is published for it."""
    if coats < 1:
        return BARE
    try:
        return find_exclusion(system, coats=coats)
    except InputError:
        return BARE


@remembered(limit=1024)
def season_part(
    part: Part, year: PartYear, moisture: MoistureRange, *, strips_mm: tuple[float, ...] = ()
) -> SeasonPart:
    """The year of a part.

    Parameters
    ----------
    part
        The part.
    year
        How its moisture follows the room.
    moisture
        Build, driest and wettest, by which the joints are laid out. [%]
    strips_mm
        Widths of the strips it is glued from; empty for a board. [mm]
    """
    species, across = find_species(part.species), ring_angles(part)
    dry, wet = (
        strips_movement(across, species=species, mc_from_pct=moisture.build_pct, mc_to_pct=to)
        for to in (moisture.dry_pct, moisture.wet_pct)
    )
    return SeasonPart(
        part=part.name,
        like=part.like,
        width_mm=part.width_mm,
        rings=rings_in_words([ring for _, ring in part.rings_across]),
        strip_widths_mm=tuple(width for width, _ in across),
        strip_rings_deg=tuple(angle for _, angle in across),
        coefficient=width_coefficient(part),
        narrowest_mm=dry.change_mm,
        widest_mm=wet.change_mm,
        narrowest_near_mm=dry.low_mm,
        narrowest_low_mm=dry.high_mm,
        widest_near_mm=wet.low_mm,
        widest_high_mm=wet.high_mm,
        note=dry.note or wet.note,
        length_change_mm=length_change_mm(
            part.length_mm, mc_from_pct=moisture.dry_pct, mc_to_pct=moisture.wet_pct
        ),
        lag_days=year.lag_days,
        swing_share=year.swing_share,
        months=year.months,
        largest_cup_mm=year.largest_cup_mm,
        ring_cup=ring_cup(part, species, moisture, strips_mm=strips_mm),
    )


def ring_cup(
    part: Part, species: Species, moisture: MoistureRange, *, strips_mm: Sequence[float] = ()
) -> RingCup | None:
    """Cup of a part from its rings, a panel's by the strip that cups most; None where it is not known.

    Parameters
    ----------
    part, species
        The part and its wood.
    moisture
        Build, driest and wettest. [%]
    strips_mm
        Widths of the strips it is glued from; empty for a board. [mm]
    """
    across = ring_angles(part)
    glued = () if len(across) > 1 else tuple((width, across[0][1]) for width in strips_mm)
    boards = glued or across
    try:
        cups = [
            (
                width,
                _cup(width, angle, species, (moisture.build_pct, moisture.dry_pct)),
                _cup(width, angle, species, (moisture.build_pct, moisture.wet_pct)),
            )
            for width, angle in boards
        ]
    except InputError as error:
        if error.code != "movement_unknown":
            raise
        return None
    strip, dry, wet = max(cups, key=lambda cup: (max(abs(cup[1]), abs(cup[2])), cup[0]))
    alike = max((dry, wet), key=abs) * (part.width_mm / strip) ** 2
    return RingCup(strip_mm=strip, dry_mm=dry, wet_mm=wet, alike_mm=alike)


def _cup(width_mm: float, ring_angle_deg: float, species: Species, mc_pct: tuple[float, float]) -> float:
    """Of one board. A board that is not flat-sawn comes from beside the pith, not from across it. [mm]"""
    tangential, radial = (
        movement(
            1.0, species=species, ring_angle_deg=angle, mc_from_pct=mc_pct[0], mc_to_pct=mc_pct[1]
        ).change_mm
        for angle in (0.0, 90.0)
    )
    beside = width_mm * math.sin(math.radians(ring_angle_deg))
    return cup_from_rings_mm(
        width_mm,
        pith_distance_mm=max(PITH_MM, beside),
        tangential_strain=tangential,
        radial_strain=radial,
        ring_angle_deg=ring_angle_deg,
    )
