"""Piece files: their shape, and reading one into a resolved piece."""

from scantling.piece.files.fields import Angle, Count, Length, Name, Number
from scantling.piece.files.read import (
    BuiltSource,
    Reading,
    TriedJoints,
    lengths_of,
    look_at_piece,
    look_at_piece_text,
    parse_piece,
    read_piece,
)
from scantling.piece.files.shape import piece_model, piece_schema

__all__ = [
    "Angle",
    "BuiltSource",
    "Count",
    "Length",
    "Name",
    "Number",
    "Reading",
    "TriedJoints",
    "lengths_of",
    "look_at_piece",
    "look_at_piece_text",
    "parse_piece",
    "piece_model",
    "piece_schema",
    "read_piece",
]
