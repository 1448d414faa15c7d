"""How far a spot on a part travels across the grain over the year, from the line where it is fixed."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.model import Part, PartKind
from scantling.wood.moisture import MoistureRange
from scantling.wood.movement import Movement, panel_coefficient, strips_movement
from scantling.wood.species import find_species

__all__ = ["Travel", "ring_angles", "ring_spans", "travel", "width_coefficient"]


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
    """Movement of a part's width, the mean of its strips. [1 per % MC]; 0 for a sheet."""
    if part.kind is PartKind.SHEET:
        return 0.0
    return panel_coefficient(find_species(part.species), part.rings_across)


def ring_angles(part: Part) -> tuple[tuple[float, float], ...]:
    """Width of each strip [mm] and the angle between it and its rings [deg], from -v to +v."""
    return tuple((width, ring.ring_angle_deg) for width, ring in part.rings_across)


def ring_spans(part: Part, from_mm: float, to_mm: float) -> tuple[tuple[float, float], ...]:
    """What lies between two lines across a part's width: how much of each ring angle.

    Parameters
    ----------
    part
        The part.
    from_mm, to_mm
        Along its width, from its middle, in either order. [mm] Where they do not lie in it, as for a door of
        which more moves than this part, its strips stand for all of it in their proportion.

    Returns
    -------
    tuple of (float, float)
        Width [mm] and ring angle [deg].
    """
    low, high = min(from_mm, to_mm), max(from_mm, to_mm)
    half, strips = part.width_mm / 2.0, ring_angles(part)
    if low < -half - 1e-6 or high > half + 1e-6:
        return tuple((width / part.width_mm * (high - low), angle) for width, angle in strips)
    found, edge = [], -half
    for width, angle in strips:
        overlap = min(high, edge + width) - max(low, edge)
        if overlap > 1e-9:
            found.append((overlap, angle))
        edge += width
    return tuple(found)


def travel(
    part: Part,
    from_fixed_mm: float,
    moisture: MoistureRange,
    *,
    fixed_at_mm: float = 0.0,
    lively: bool = False,
) -> Travel:
    """Travel of a spot on a part's width: the sum of the strips between it and the line that is held.

    From the state at build, by linear coefficients inside 6 to 14 % moisture (``y C (m0 - m_dry)`` and
    ``y C (m_wet - m0)``) and by the full shrinkage outside, as :func:`scantling.wood.movement.movement`.

    Parameters
    ----------
    part
        The part that moves.
    from_fixed_mm
        Distance across the grain from where it is held, positive toward +v. [mm]
    moisture
        Build, driest and wettest.
    fixed_at_mm
        Where it is held, from the middle of its width. [mm]
    lively
        Whether of a board as lively as one in twenty of its wood, else of the usual one.

    References
    ----------
    .. [1] USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010, ch. 13, eq. 13-2, 13-3.
    """
    spans = ring_spans(part, fixed_at_mm, fixed_at_mm + from_fixed_mm)
    if part.kind is PartKind.SHEET or not spans:
        return Travel(shrink_mm=0.0, swell_mm=0.0)
    species = find_species(part.species)

    def change(to_pct: float) -> Movement:
        return strips_movement(spans, species=species, mc_from_pct=moisture.build_pct, mc_to_pct=to_pct)

    dry, wet = change(moisture.dry_pct), change(moisture.wet_pct)
    usual = Travel(shrink_mm=max(0.0, -dry.change_mm), swell_mm=max(0.0, wet.change_mm))
    if not lively:
        return usual
    return Travel(
        shrink_mm=max(usual.shrink_mm, -dry.high_mm, -dry.low_mm),
        swell_mm=max(usual.swell_mm, wet.high_mm, wet.low_mm),
    )
