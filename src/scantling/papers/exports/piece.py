"""Writing a piece out for other programs."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from scantling.errors import InputError
from scantling.joinery.work import JointWork
from scantling.papers.exports.tables import (
    hardware_csv,
    hardware_table,
    marks_csv,
    marks_table,
    parts_csv,
    parts_table,
)
from scantling.papers.exports.whole_file import write_whole
from scantling.papers.exports.workbook import workbook_bytes
from scantling.piece.model import Piece
from scantling.plan.result import Plan
from scantling.solids.gltf import glb_bytes
from scantling.solids.mesh import MeshCache, PartMesh, meshes_of
from scantling.solids.shape import PartShape, shapes_of
from scantling.solids.tones import colors_of

__all__ = ["AtHand", "ExportKind", "export_piece", "file_stem"]


class ExportKind(StrEnum):
    """What a piece can be written as."""

    STEP = "step"
    GLB = "glb"
    CSV = "csv"
    XLSX = "xlsx"
    DXF = "dxf"
    SVG = "svg"
    PDF = "pdf"
    STICKS = "sticks"

    @property
    def drawn(self) -> bool:
        """Whether it holds drawings, which tell of boards and joints and so need the plan."""
        return self in (ExportKind.SVG, ExportKind.PDF, ExportKind.STICKS)


@dataclass(frozen=True, slots=True, kw_only=True)
class AtHand:
    """What is worked out already.

    Parameters
    ----------
    cache
        Meshes.
    plan
        The plan; drawings are made from it, and a workbook holds its blanks and cuts as well.
    """

    cache: MeshCache | None = None
    plan: Plan | None = None


def export_piece(
    piece: Piece,
    works: Sequence[JointWork],
    *,
    folder: Path,
    kinds: Iterable[ExportKind],
    force: bool = True,
    at_hand: AtHand | None = None,
) -> tuple[Path, ...]:
    """Write a piece out, everything computed before the first file is touched.

    Parameters
    ----------
    piece
        The resolved piece.
    works
        What its joints answered.
    folder
        Where the files go; made if it is not there.
    kinds
        What to write; each once.
    force
        Whether files that are there may be written over.
    at_hand
        What is worked out already; drawings need the plan.

    Returns
    -------
    tuple[Path, ...]
        The files written. CSV tables are three: parts, hardware and marks; SVG is a file a drawing.

    Raises
    ------
    InputError
        ``not_writable``, ``file_is_there``, ``plan_missing``.
    """
    _refuse_no_folder(folder)
    have = at_hand or AtHand()
    made = _Made(
        piece=piece, works=tuple(works), plan=have.plan, shapes=shapes_of(piece, works), cache=have.cache
    )
    files: dict[str, bytes] = {}
    for kind in dict.fromkeys(kinds):
        files |= made.files(kind)
    there = [name for name in files if (folder / name).exists()]
    if there and not force:
        raise InputError(
            code="file_is_there",
            field="output",
            value=", ".join(str(folder / name) for name in there),
            rule="must not be there yet",
            remedy="Choose another folder, or say --force.",
        )
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError(
            code="not_writable",
            field="output",
            value=str(folder),
            rule=f"must be a folder that is there or can be made ({error.strerror})",
            remedy="Name a folder you may write into.",
        ) from error
    return tuple(write_whole(folder / name, data) for name, data in files.items())


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """A piece with what its files are made from."""

    piece: Piece
    works: tuple[JointWork, ...]
    plan: Plan | None
    shapes: Mapping[str, PartShape]
    cache: MeshCache | None

    def files(self, kind: ExportKind) -> dict[str, bytes]:
        """Files of one kind, by name."""
        stem = file_stem(self.piece.title)
        if kind.drawn:
            return self._drawn(kind, stem)
        if kind is ExportKind.CSV:
            return {
                f"{stem}-parts.csv": parts_csv(self.shapes, self._meshes()),
                f"{stem}-hardware.csv": hardware_csv(self.works),
                f"{stem}-marks.csv": marks_csv(self.works),
            }
        return {f"{stem}.{kind.value}": self._one(kind)}

    def _one(self, kind: ExportKind) -> bytes:
        shown = colors_of(self.piece.parts.values())
        if kind is ExportKind.STEP:
            from scantling.solids.step import step_bytes

            return step_bytes(self.shapes, title=self.piece.title, colors=shown)
        if kind is ExportKind.GLB:
            return glb_bytes(self.piece.parts, self._meshes(), colors=shown, works=self.works)
        if kind is ExportKind.DXF:
            from scantling.papers.exports.dxf import dxf_bytes

            return dxf_bytes(self.piece, self.works)
        tables = [
            parts_table(self.shapes, self._meshes()),
            hardware_table(self.works),
            marks_table(self.works),
        ]
        if self.plan is not None:
            from scantling.papers.exports.timber_tables import blanks_table, cuts_table

            tables += [blanks_table(self.plan), cuts_table(self.plan)]
        return workbook_bytes(tables, title=self.piece.title)

    def _drawn(self, kind: ExportKind, stem: str) -> dict[str, bytes]:
        if self.plan is None:
            raise InputError(
                code="plan_missing",
                field="plan",
                value="none",
                rule=f"must be given where {kind.value} is written",
                remedy="Plan the piece first; drawings show its joints and its boards.",
            )
        from scantling.papers.drawing import to_svg
        from scantling.papers.exports.drawings import (
            DrawingSource,
            drawings_of,
            drawings_pdf,
            story_sticks_pdf,
        )

        source = DrawingSource(plan=self.plan, piece=self.piece, shapes=self.shapes, meshes=self._meshes())
        if kind is ExportKind.STICKS:
            sticks = story_sticks_pdf(source)
            return {f"{stem}-story-sticks.pdf": sticks} if sticks else {}
        if kind is ExportKind.PDF:
            return {f"{stem}-drawings.pdf": drawings_pdf(source)}
        return {
            f"{stem}-{file_stem(drawing.name)}.svg": to_svg(drawing.sheet).encode()
            for drawing in drawings_of(source)
        }

    def _meshes(self) -> Mapping[str, PartMesh]:
        return meshes_of(self.shapes, self.cache)


def _refuse_no_folder(folder: Path) -> None:
    """Before anything is worked out: what is there of the folder's path must be folders."""
    standing = next((path for path in (folder, *folder.parents) if path.exists()), folder)
    if standing.exists() and not standing.is_dir():
        raise InputError(
            code="not_writable",
            field="output",
            value=str(folder),
            rule=f"must be a folder; {standing if standing != folder else 'it'} is a file",
            remedy="Name another folder to write into.",
        )


def file_stem(title: str) -> str:
    """A title as a file name that every system takes: letters without accents, figures and hyphens.

    Parameters
    ----------
    title
        Of the piece.

    Returns
    -------
    str
        At most 60 characters; ``piece`` if nothing is left of the title.

    Examples
    --------
    >>> file_stem("Étagère, 3 shelves / oak")
    'etagere-3-shelves-oak'
    """
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60].rstrip("-") or "piece"
