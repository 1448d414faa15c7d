"""Sizes of a part on its way from the finished piece back to the rough board."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from scantling.piece.convex import face_direction
from scantling.piece.geometry import scale
from scantling.piece.model import Part, PartKind, SettledStrips
from scantling.remembering import remembered

__all__ = ["EndCut", "FinishedSize", "Section", "Size", "finished_size"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Length along the grain, width and thickness. [mm]"""

    length_mm: float
    width_mm: float
    thickness_mm: float

    def less(self, *, length_mm: float = 0.0, width_mm: float = 0.0, thickness_mm: float = 0.0) -> Size:
        """What is left when that much is taken off."""
        return Size(
            length_mm=self.length_mm - length_mm,
            width_mm=self.width_mm - width_mm,
            thickness_mm=self.thickness_mm - thickness_mm,
        )


class Section(StrEnum):
    """Shape across the grain."""

    RECTANGULAR = "rectangular"
    ROUND = "round"


class EndCut(StrEnum):
    """When a part is cut to its final length."""

    BEFORE_ASSEMBLY = "before assembly"
    FLUSH_AFTER = "flush after assembly"


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishedSize:
    """One finished part, as the shop sees it.

    Parameters
    ----------
    name, like
        The part, and the entry it shares with its copies.
    length_mm
        Long point to long point, with tenons and tongues. [mm]
    width_mm, thickness_mm
        Finished section. [mm]
    quarters
        Nominal stock asked for, or that it is cut from; None leaves it to the shop. [1/4 in]
    leaf_mm
        Thickness it has once it is resawn out of that stock; None where it is not resawn. [mm]
    strip_count, strip_least_mm, strip_most_mm
        Strips wanted of a panel and limits on one; None leaves it to the shop. [mm]
    strip_widths_mm
        Widths the strips really have, out of the boards at hand; empty leaves them to the shop. [mm]
    strips_to_buy
        How many of those, the last, the boards at hand do not give. [1]
    settled_strips
        Strips the joints are laid out for, since their rings differ; None where the shop is free.
    strip_rings
        Where the edge of negative v looks, then the growth rings of each strip from there on; empty where
        all are alike.
    layer_count, layer_quarters
        Layers wanted of a lamination, nominal thicknesses allowed; none leaves it to the shop.
    seam_avoid_mm
        Lines along the grain no seam should come near (fasteners, mortises), from the finished edge on
        the side of negative v. [mm]
    """

    name: str
    like: str
    kind: PartKind
    species: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    section: Section = Section.RECTANGULAR
    end_cut: EndCut = EndCut.BEFORE_ASSEMBLY
    quarters: int | None = None
    leaf_mm: float | None = None
    strip_count: int | None = None
    strip_widths_mm: tuple[float, ...] = ()
    strips_to_buy: int = 0
    settled_strips: SettledStrips | None = None
    strip_least_mm: float | None = None
    strip_most_mm: float | None = None
    strip_rings: tuple[str, ...] = ()
    layer_count: int | None = None
    layer_quarters: tuple[int, ...] = ()
    seam_avoid_mm: tuple[float, ...] = ()

    @property
    def size(self) -> Size:
        """Finished size."""
        return Size(length_mm=self.length_mm, width_mm=self.width_mm, thickness_mm=self.thickness_mm)


@remembered(limit=1024)
def finished_size(
    part: Part,
    extension_mm: float,
    *,
    end_cut: EndCut = EndCut.BEFORE_ASSEMBLY,
    seam_avoid_mm: tuple[float, ...] = (),
) -> FinishedSize:
    """A part of the piece, as the shop sees it.

    Parameters
    ----------
    part
        The part.
    extension_mm
        Wood its joints add beyond both trimmed ends together. [mm]
    end_cut
        When it is cut to length.
    seam_avoid_mm
        Lines no seam should come near, from the edge of negative v. [mm]
    """
    section = Section.RECTANGULAR
    width_mm, thickness_mm = part.width_mm, part.thickness_mm
    if part.round is not None:
        section = Section.ROUND
        width_mm = thickness_mm = max(part.round.start_mm, part.round.end_mm)
    return FinishedSize(
        name=part.name,
        like=part.like,
        kind=part.kind,
        species=part.species,
        length_mm=part.length_mm + extension_mm,
        width_mm=width_mm,
        thickness_mm=thickness_mm,
        section=section,
        end_cut=end_cut,
        quarters=part.quarters,
        strip_count=part.strips.count if part.strips else None,
        settled_strips=part.strips.settled if part.strips else None,
        strip_least_mm=part.strips.least_mm if part.strips else None,
        strip_most_mm=part.strips.most_mm if part.strips else None,
        strip_rings=_strip_rings(part),
        layer_count=part.layers.count if part.layers else None,
        layer_quarters=part.layers.quarters if part.layers else (),
        seam_avoid_mm=seam_avoid_mm,
    )


def _strip_rings(part: Part) -> tuple[str, ...]:
    """Rings of the strips in turn, the edge they are counted from first."""
    if part.strips is None or not part.strips.rings:
        return ()
    edge = face_direction(scale(part.frame.width, -1.0))
    return (edge.value, *(ring.word for ring in part.strips.rings))
