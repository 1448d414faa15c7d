"""What bends the wood that crosses a joint until it breaks, at clear strength."""

from __future__ import annotations

from scantling.piece.model import Part, PartKind
from scantling.wood.species import find_species

__all__ = ["bent_nmm", "rectangle_mm3"]


def rectangle_mm3(thickness_mm: float, width_mm: float) -> float:
    """Section modulus of a tenon bent over its width. [mm3]

    Examples
    --------
    >>> rectangle_mm3(8.0, 60.0)
    4800.0
    """
    return thickness_mm * width_mm**2 / 6.0


def bent_nmm(part: Part, modulus_mm3: float) -> float | None:
    """Moment that breaks a section of a part's wood; None for sheets and woods without a figure. [N mm]"""
    strength = None if part.kind is PartKind.SHEET else find_species(part.species).mor_mpa
    return None if strength is None else strength * modulus_mm3
