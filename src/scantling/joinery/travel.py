"""How far a spot on a part travels across the grain over the year, from the line where it is fixed."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.model import Part, PartKind
from scantling.wood.moisture import MoistureRange
from scantling.wood.movement import coefficient
from scantling.wood.species import find_species

__all__ = ["Travel", "travel", "width_coefficient"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Travel:
    """Travel toward the fixed line when the part dries, and away from it when it takes up water. [mm]"""

    shrink_mm: float
    swell_mm: float

    @property
    def bias_mm(self) -> float:
        """Shift of a slot's centre toward the fixed line, at build. [mm]"""
        return (self.swell_mm - self.shrink_mm) / 2.0


def width_coefficient(part: Part) -> float:
    """Movement of a part's width. [1 per % MC]; 0 for a sheet."""
    if part.kind is PartKind.SHEET:
        return 0.0
    return coefficient(find_species(part.species), part.ring)


def travel(part: Part, from_fixed_mm: float, moisture: MoistureRange) -> Travel:
    """Travel of a spot on a part's width.

    Linear coefficients from the state at build: ``y C (m0 - m_dry)`` and ``y C (m_wet - m0)``.

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
    .. [1] USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010, ch. 13, eq. 13-2.
    """
    distance = abs(from_fixed_mm)
    c = width_coefficient(part)
    return Travel(shrink_mm=distance * c * moisture.shrink_pct, swell_mm=distance * c * moisture.swell_pct)
