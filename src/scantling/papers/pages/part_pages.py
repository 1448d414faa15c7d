"""The part list of the packet: parts alike in one line, numbered as in the pictures."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scantling.papers.packet.sections import PartRow
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.show import names_of
from scantling.papers.words.built_words import built_line, sizes_of
from scantling.piece.built import AsBuilt
from scantling.piece.model import PartKind
from scantling.plan.parts import PlannedPart

__all__ = ["PartGroup", "group_parts", "numbers_of", "part_rows"]

_GROUPS = {
    PartKind.STICK: "Solid",
    PartKind.LAMINATION: "Glued from layers",
    PartKind.PANEL: "Glued from strips",
    PartKind.SHEET: "From sheets",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PartGroup:
    """Parts of one wood and size from one entry of the file."""

    number: str
    parts: tuple[PlannedPart, ...]

    @property
    def first(self) -> PlannedPart:
        """The one shown."""
        return self.parts[0]

    @property
    def names(self) -> str:
        """All their names."""
        return names_of(part.name for part in self.parts)


def group_parts(parts: Iterable[PlannedPart], built: AsBuilt | None = None) -> tuple[PartGroup, ...]:
    """Parts alike together, numbered from 1, solid ones first.

    Parameters
    ----------
    parts
        Of the plan.
    built
        What is made already; None for nothing.

    Returns
    -------
    tuple of PartGroup
        In the order of the part list.
    """
    groups: dict[tuple[object, ...], list[PlannedPart]] = {}
    for part in parts:
        size = tuple(round(x, 1) for x in sizes_of(part, built))
        groups.setdefault((part.like, part.species, part.kind, size), []).append(part)
    kinds = list(_GROUPS)
    ordered = sorted(groups.values(), key=lambda members: kinds.index(members[0].kind))
    return tuple(PartGroup(number=str(i + 1), parts=tuple(members)) for i, members in enumerate(ordered))


def numbers_of(groups: Iterable[PartGroup]) -> Mapping[str, str]:
    """Number of every part."""
    return {part.name: group.number for group in groups for part in group.parts}


def part_rows(
    groups: Iterable[PartGroup], *, figures: Figures, built: AsBuilt | None = None
) -> tuple[PartRow, ...]:
    """The part list.

    Parameters
    ----------
    groups
        Parts alike.
    figures
        How lengths are written.
    built
        What is made already; None for nothing.

    Returns
    -------
    tuple of PartRow
        One line for each group.
    """
    return tuple(
        PartRow(
            number=group.number,
            name=group.names,
            count=len(group.parts),
            wood=group.first.species,
            length=length,
            width="Ø" if group.first.round else width,
            thickness=thickness,
            weight=figures.mass(group.first.mass_kg),
            group=_GROUPS[group.first.kind],
            made=built_line(built, (part.name for part in group.parts), figures.fine.bare),
        )
        for group in groups
        for length, width, thickness in [[figures.bare(mm) for mm in sizes_of(group.first, built)]]
    )
