"""Reading a piece file."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from pydantic import BaseModel

from scantling.piece.files.resolve import Resolver
from scantling.piece.files.shape import piece_model
from scantling.piece.model import Piece
from scantling.reading import parse_document, read_document

__all__ = ["parse_piece", "read_piece"]


def read_piece(
    path: str | Path, *, families: Mapping[str, type[BaseModel]], given: Mapping[str, str] | None = None
) -> Piece:
    """Read and resolve a piece file.

    Parameters
    ----------
    path
        The file.
    families
        Options model of each joint family.
    given
        Parameter values instead of the defaults, as a maker writes them.

    Raises
    ------
    FileFaults
        Everything wrong with it, each with line, field, value, rule and remedy.
    """
    return Resolver(read_document(path), piece_model(families), given=given or {}).piece()


def parse_piece(
    text: str,
    *,
    families: Mapping[str, type[BaseModel]],
    file: str = "piece.yaml",
    given: Mapping[str, str] | None = None,
) -> Piece:
    """As :func:`read_piece`, from a text."""
    return Resolver(parse_document(text, file=file), piece_model(families), given=given or {}).piece()
