"""Files that appear whole or not at all."""

from __future__ import annotations

import os
import secrets
from contextlib import suppress
from pathlib import Path

from scantling.errors import InputError

__all__ = ["write_whole"]


def write_whole(path: Path, data: bytes) -> Path:
    """Write a file beside its place and move it there when it is complete.

    A file already there stays as it is until then, and stays for good if anything goes wrong.

    Parameters
    ----------
    path
        Where to; folders on the way are made.
    data
        The whole content.

    Returns
    -------
    Path
        The same path.

    Raises
    ------
    InputError
        ``not_writable``.
    """
    beside = path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        _write(beside, data)
        beside.replace(path)
    except OSError as error:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        raise InputError(
            code="not_writable",
            field="output",
            value=str(path),
            rule=f"must be a file in a folder that can be written to ({error.strerror or error})",
            remedy="Name another folder, or free the place.",
        ) from error
    return path


def _write(path: Path, data: bytes) -> None:
    """On the disk before it gets its name, so that a power cut leaves the old file or the new one."""
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
