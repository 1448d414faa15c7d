"""Writing files for the user: whole or not at all, and never over one that is there unasked."""

from __future__ import annotations

from pathlib import Path

from scantling.errors import InputError

__all__ = ["refuse_if_there", "write_bytes"]


def refuse_if_there(path: str | Path, *, force: bool) -> None:
    """Refuse to write over a file, unless asked to.

    Raises
    ------
    InputError
        ``file_is_there``.
    """
    if Path(path).exists() and not force:
        raise InputError(
            code="file_is_there",
            field="output",
            value=str(path),
            rule="must not be there yet",
            remedy="Choose another name, or say --force.",
        )


def write_bytes(path: str | Path, data: bytes) -> None:
    """Write a file that appears whole or not at all."""
    from scantling.papers.exports.whole_file import write_whole

    write_whole(Path(path), data)
