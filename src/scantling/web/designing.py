"""One design, ready for the page: the piece as given, its solids, its sheets and what the rules found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from scantling.errors import Finding, Report
from scantling.joinery import join, load_piece
from scantling.papers.sheets import Sheet
from scantling.piece.geometry import Vec
from scantling.piece.model import Part, Piece
from scantling.solids.explode import explode
from scantling.solids.mesh import MeshCache, PartMesh, meshes_of
from scantling.solids.shape import PartShape, shapes_of
from scantling.units import LengthStyle, show_length
from scantling.wood.moisture import MoistureRange

__all__ = ["Design", "Designer", "PieceDesigner"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """All the page shows of one set of parameters.

    Parameters
    ----------
    sizes
        By part: label and shown value.
    offsets_mm
        Where each part goes when the piece is pulled apart. [mm]
    """

    piece: Piece
    shapes: Mapping[str, PartShape]
    meshes: Mapping[str, PartMesh]
    offsets_mm: Mapping[str, Vec]
    sizes: Mapping[str, tuple[tuple[str, str], ...]]
    sheets: tuple[Sheet, ...]
    findings: tuple[Finding, ...]


class Designer(Protocol):
    """Draws up designs of one piece."""

    @property
    def sources(self) -> tuple[Path, ...]:
        """Files it reads; a change of one makes every design new."""
        ...

    def __call__(self, given: Mapping[str, str]) -> Design:
        """The design for these parameters; raises FileFaults or InputError."""
        ...


class PieceDesigner:
    """Draws up designs from a piece file.

    Parameters
    ----------
    piece, rack, shop, room
        Files; None takes the one shipped.
    """

    def __init__(
        self, piece: Path, *, rack: Path | None = None, shop: Path | None = None, room: Path | None = None
    ) -> None:
        self._piece, self._rack, self._shop, self._room = piece, rack, shop, room
        self._meshes = MeshCache()

    @property
    def sources(self) -> tuple[Path, ...]:
        """The files given."""
        return tuple(p for p in (self._piece, self._rack, self._shop, self._room) if p is not None)

    def __call__(self, given: Mapping[str, str]) -> Design:
        """The design for these parameters."""
        piece = load_piece(self._piece, given=given)
        works = join(piece, moisture=MoistureRange(build_pct=8.49, dry_pct=4.51, wet_pct=8.49))
        shapes = shapes_of(piece, works)
        meshes = meshes_of(shapes, self._meshes)
        style = LengthStyle(inch=piece.units == "in")
        return Design(
            piece=piece,
            shapes=shapes,
            meshes=meshes,
            offsets_mm=explode(piece.parts, meshes, works).offsets_mm,
            sizes={name: _sizes(part, style) for name, part in piece.parts.items()},
            sheets=(),
            findings=Report.of(f for work in works for f in work.findings).findings,
        )


def _sizes(part: Part, style: LengthStyle) -> tuple[tuple[str, str], ...]:
    return (
        ("Length", show_length(part.length_mm, style)),
        ("Width", show_length(part.width_mm, style)),
        ("Thickness", show_length(part.thickness_mm, style)),
    )
