"""Names and sizes that are facts: they hold whatever the piece file computes for them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from scantling.piece.files.spec import PartSpec
from scantling.piece.geometry import Vec, add, scale, sub

__all__ = ["NOTHING_FIXED", "Fixed", "FixedSizes"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedSizes:
    """Sizes of one part that are facts, and what follows from them for its place.

    Parameters
    ----------
    width_mm, thickness_mm, length_mm
        None leaves a size to the file. [mm]
    trims_mm
        How far planes that trim it are moved outward, by their number. [mm]
    moved_mm
        How far it stands from where the file places it. [mm]
    """

    width_mm: float | None = None
    thickness_mm: float | None = None
    length_mm: float | None = None
    trims_mm: Mapping[int, float] = field(default_factory=dict)
    moved_mm: Vec = (0.0, 0.0, 0.0)

    def put_into(self, spec: PartSpec) -> PartSpec:
        """An entry with these sizes; its middle line stays where it is, and so does its middle."""
        width, thickness = spec.section
        section = (
            width if self.width_mm is None else self.width_mm,
            thickness if self.thickness_mm is None else self.thickness_mm,
        )
        update: dict[str, object] = {"section": section}
        grown = min(section) - min(spec.section)
        if spec.round is not None and grown:
            update["round"] = tuple(max(diameter + grown, 0.5) for diameter in spec.round)
        if self.length_mm is not None and spec.from_ is not None and spec.to is not None:
            update["from_"], update["to"] = _spread(spec.from_, spec.to, self.length_mm)
        elif self.length_mm is not None:
            update["length"] = self.length_mm
        return spec.model_copy(update=update)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """Facts about a piece.

    Parameters
    ----------
    names_mm
        Parameters and values, by name. [mm]
    sizes
        Sizes of parts, copies included, by the part's name.
    """

    names_mm: Mapping[str, float] = field(default_factory=dict)
    sizes: Mapping[str, FixedSizes] = field(default_factory=dict)

    def size_mm(self, part: str, size: str) -> float | None:
        """A part's length, width or thickness, if it is a fact. [mm]"""
        found = self.sizes.get(part)
        return None if found is None else getattr(found, f"{size}_mm")


NOTHING_FIXED = Fixed()


def _spread(begin: Vec, end: Vec, length_mm: float) -> tuple[Vec, Vec]:
    """Two points moved apart, or together, about their middle."""
    middle, axis = scale(add(begin, end), 0.5), sub(end, begin)
    long = sum(each * each for each in axis) ** 0.5
    half = scale(axis, 0.5 * length_mm / long) if long > 0.0 else axis
    return sub(middle, half), add(middle, half)
