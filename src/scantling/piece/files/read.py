"""Reading a piece file."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from pydantic import BaseModel

from scantling.errors import FileFaults
from scantling.piece.files.resolve import Form, Reading, Resolver
from scantling.piece.files.shape import piece_model
from scantling.piece.files.spec import PieceSpec
from scantling.piece.model import Piece
from scantling.reading import parse_on, read_text

__all__ = ["Reading", "look_at_piece", "look_at_piece_text", "parse_piece", "read_piece"]


def look_at_piece(
    path: str | Path, *, families: Mapping[str, type[BaseModel]], given: Mapping[str, str] | None = None
) -> Reading:
    """Read a piece file as far as it goes, to look for more faults in what could be read.

    Raises
    ------
    FileFaults
        What is wrong with a file nothing can be read from.
    """
    return _looked_at(read_text(path), str(path), families=families, given=given)


def look_at_piece_text(
    text: str,
    *,
    families: Mapping[str, type[BaseModel]],
    file: str = "piece.yaml",
    given: Mapping[str, str] | None = None,
) -> Reading:
    """As :func:`look_at_piece`, from a text."""
    return _looked_at(text, file, families=families, given=given)


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
    return _whole(look_at_piece(path, families=families, given=given))


def parse_piece(
    text: str,
    *,
    families: Mapping[str, type[BaseModel]],
    file: str = "piece.yaml",
    given: Mapping[str, str] | None = None,
) -> Piece:
    """As :func:`read_piece`, from a text."""
    return _whole(look_at_piece_text(text, families=families, file=file, given=given))


def _looked_at(
    text: str, file: str, *, families: Mapping[str, type[BaseModel]], given: Mapping[str, str] | None
) -> Reading:
    return Resolver(_form_of(text, file, piece_model(families)), given=given or {}).read()


@lru_cache(maxsize=8)
def _form_of(text: str, file: str, model: type[PieceSpec]) -> Form:
    """A file as far as its form goes; the same text is asked for again with every size that is tried."""
    return Form.of(parse_on(text, file=file), model)


def _whole(reading: Reading) -> Piece:
    if reading.faults:
        raise FileFaults(reading.faults)
    return reading.piece
