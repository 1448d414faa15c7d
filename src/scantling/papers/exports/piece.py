"""Writing a piece out for other programs."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from enum import StrEnum
from pathlib import Path

from scantling.errors import InputError
from scantling.joinery.work import JointWork
from scantling.papers.exports.tables import hardware_csv, marks_csv, parts_csv
from scantling.papers.exports.whole_file import write_whole
from scantling.piece.model import Piece
from scantling.solids.gltf import glb_bytes
from scantling.solids.mesh import MeshCache, meshes_of
from scantling.solids.shape import shapes_of
from scantling.solids.tones import colours_of

__all__ = ["ExportKind", "export_piece", "file_stem"]


class ExportKind(StrEnum):
    """What a piece can be written as."""

    STEP = "step"
    GLB = "glb"
    CSV = "csv"


def export_piece(
    piece: Piece,
    works: Sequence[JointWork],
    *,
    folder: Path,
    kinds: Iterable[ExportKind],
    cache: MeshCache | None = None,
    force: bool = True,
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
    cache
        Meshes at hand.
    force
        Whether files that are there may be written over.

    Returns
    -------
    tuple[Path, ...]
        The files written. Tables are three: parts, hardware and marks.

    Raises
    ------
    InputError
        ``not_writable``, ``file_is_there``.
    """
    _refuse_no_folder(folder)
    shapes, parts = shapes_of(piece, works), piece.parts
    shown = colours_of(parts.values())
    stem = file_stem(piece.title)
    files: dict[str, bytes] = {}
    for kind in dict.fromkeys(kinds):
        match kind:
            case ExportKind.STEP:
                from scantling.solids.step import step_bytes

                files[f"{stem}.step"] = step_bytes(shapes, title=piece.title, colours=shown)
            case ExportKind.GLB:
                meshes = meshes_of(shapes, cache)
                files[f"{stem}.glb"] = glb_bytes(parts, meshes, colours=shown, works=works)
            case ExportKind.CSV:
                files[f"{stem}-parts.csv"] = parts_csv(shapes, meshes_of(shapes, cache))
                files[f"{stem}-hardware.csv"] = hardware_csv(works)
                files[f"{stem}-marks.csv"] = marks_csv(works)
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
