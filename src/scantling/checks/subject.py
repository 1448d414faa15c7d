"""What the rules read: a piece, the work of its joints, the moisture of its year, and a few plain values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from scantling.joinery.work import JointWork
from scantling.piece.model import Part, Piece
from scantling.wood.moisture import MoistureRange

__all__ = ["Chain", "FaceCoats", "Subject"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceCoats:
    """Coats of the promised finish on the two broad faces of a part, and how far it cups for it. [mm]"""

    part: str
    one: float
    other: float
    cup_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """Sizes along one line that should add up to an overall size.

    Parameters
    ----------
    name
        What is measured (``length of the top``).
    sizes_mm
        Each size with what it is. [mm]
    overall_mm
        What they should come to. [mm]
    """

    name: str
    sizes_mm: tuple[tuple[str, float], ...]
    overall_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """All that the rules of this package look at.

    Parameters
    ----------
    piece
        The resolved piece.
    works
        What every joint does.
    moisture
        Build day to driest and wettest. [%]
    coats
        Coats on the broad faces, where they are known.
    seams_mm
        Across each panel, where its strips meet, from the middle of its width. [mm]
    chains
        Sizes that should add up.
    """

    piece: Piece
    works: tuple[JointWork, ...]
    moisture: MoistureRange
    coats: tuple[FaceCoats, ...] = ()
    seams_mm: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    chains: tuple[Chain, ...] = ()

    def part(self, name: str) -> Part:
        """The part of that name."""
        return self.piece.parts[name]

    def told(self, work: JointWork, code: str) -> bool:
        """Whether the joint's own family has already reported this rule, so that it is not said twice."""
        return any(found.code == code for found in work.findings)
