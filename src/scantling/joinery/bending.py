"""What the wood that crosses a joint may carry in bending, a quarter of clear strength."""

from __future__ import annotations

from scantling.piece.model import Part, PartKind
from scantling.wood.species import find_species

__all__ = ["BENDING_FACTOR", "bent_nmm", "rectangle_mm3"]

BENDING_FACTOR = 4.0
"""Clear-wood bending strength over this is taken as what a tenon may carry for good (common practice). [1]"""


def rectangle_mm3(thickness_mm: float, width_mm: float) -> float:
    """Section modulus of a tenon bent over its width. [mm3]

    Examples
    --------
    >>> rectangle_mm3(8.0, 60.0)
    4800.0
    """
    return thickness_mm * width_mm**2 / 6.0


def bent_nmm(part: Part, modulus_mm3: float) -> float | None:
    """Moment that a section of a part's wood may carry; None for sheets and woods without a figure. [N mm]"""
    strength = None if part.kind is PartKind.SHEET else find_species(part.species).mor_mpa
    return None if strength is None else strength / BENDING_FACTOR * modulus_mm3
