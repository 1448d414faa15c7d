"""How far a spot on a part travels across the grain over the year, from the line where it is fixed."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.model import Part, PartKind
from scantling.wood.moisture import MoistureRange
from scantling.wood.movement import coefficient, movement
from scantling.wood.species import find_species

__all__ = ["Travel", "travel", "width_coefficient"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Travel:
    """Travel toward the fixed line when the part dries, and away from it when it takes up water. [mm]"""

    shrink_mm: float
    swell_mm: float

    @property
    def bias_mm(self) -> float:
        """Shift of a slot's center toward the fixed line, at build. [mm]"""
        return (self.swell_mm - self.shrink_mm) / 2.0


def width_coefficient(part: Part) -> float:
    """Movement of a part's width. [1 per % MC]; 0 for a sheet."""
    if part.kind is PartKind.SHEET:
        return 0.0
    return coefficient(find_species(part.species), part.ring)


def travel(part: Part, from_fixed_mm: float, moisture: MoistureRange) -> Travel:
    """Travel of a spot on a part's width.

    From the state at build, by linear coefficients inside 6 to 14 % moisture (``y C (m0 - m_dry)`` and
    ``y C (m_wet - m0)``) and by the full shrinkage outside, as :func:`scantling.wood.movement.movement`.

    Parameters
    ----------
    part
        The part that moves.
    from_fixed_mm
        Distance across the grain from where it is held. [mm] any sign
    moisture
        Build, driest and wettest.

    References
    ----------
    .. [1] USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010, ch. 13, eq. 13-2, 13-3.
    """
    distance = abs(from_fixed_mm)
    if part.kind is PartKind.SHEET or distance == 0.0:
        return Travel(shrink_mm=0.0, swell_mm=0.0)
    return Travel(
        shrink_mm=max(0.0, -_change(part, distance, moisture.build_pct, moisture.dry_pct)),
        swell_mm=max(0.0, _change(part, distance, moisture.build_pct, moisture.wet_pct)),
    )


def _change(part: Part, distance_mm: float, from_pct: float, to_pct: float) -> float:
    """Movement of a distance across the part, positive = larger. [mm]"""
    return movement(
        distance_mm,
        species=find_species(part.species),
        ring_angle_deg=part.ring.ring_angle_deg,
        mc_from_pct=from_pct,
        mc_to_pct=to_pct,
    ).change_mm
