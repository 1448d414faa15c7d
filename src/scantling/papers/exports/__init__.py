"""The piece for other programs: exact solids (STEP), a picture to turn (glTF) and tables (CSV)."""

from scantling.papers.exports.piece import ExportKind, export_piece, file_stem

__all__ = ["ExportKind", "export_piece", "file_stem"]
