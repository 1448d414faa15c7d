"""How much of a user's file is read before it is refused, and the first look at its bytes."""

from __future__ import annotations

import re
from pathlib import Path

from scantling.errors import Fault, FileFaults

__all__ = [
    "MAX_BYTES",
    "MAX_DEPTH",
    "MAX_FAULTS",
    "MAX_NODES",
    "check_text",
    "control_sign",
    "read_text",
]

MAX_BYTES = 1_000_000
"""Largest file read; a piece of a hundred parts takes about 30 000. [bytes]"""
MAX_DEPTH = 24
"""Deepest nesting of blocks and lists; our own files need 8. [1]"""
MAX_NODES = 100_000
"""Most values in one file. [1]"""
MAX_FAULTS = 50
"""Most faults told of one file. [1]"""
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")


def read_text(path: str | Path) -> str:
    """Read a small text file in UTF-8, or say why not.

    The size is asked of the file system first, so a huge file is refused at once.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    str
        Its text without a byte order mark, line ends as they are.

    Raises
    ------
    FileFaults
        ``file_missing``, ``file_is_folder``, ``file_unreadable``, ``file_too_big``, ``not_text``,
        ``file_empty``.
    """
    file = str(path)
    target = Path(path)
    try:
        if target.is_dir():
            raise _refuse(file, "file_is_folder", "a folder", "must be a file", "Name the file inside it.")
        if not target.exists():
            raise _refuse(file, "file_missing", "nothing", "must exist", "Check the spelling of the path.")
        if not target.is_file():
            raise _refuse(file, "file_unreadable", "a device or pipe", "must be an ordinary file", "")
        size = target.stat().st_size
        if size > MAX_BYTES:
            raise _too_big(file, size)
        with target.open("rb") as stream:
            raw = stream.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        if isinstance(error, FileFaults):
            raise
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "not a usable path"
        raise _refuse(
            file, "file_unreadable", reason.lower(), "must be readable", "Check its path and permissions."
        ) from None
    if len(raw) > MAX_BYTES:
        raise _too_big(file, len(raw))
    return check_text(_decode(raw, file), file=file)


def _decode(raw: bytes, file: str) -> str:
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise _refuse(
            file,
            "not_text",
            f"byte 0x{raw[error.start]:02x}",
            "must be text in UTF-8",
            "Save it as plain text, encoding UTF-8.",
            place=(line, error.start - raw.rfind(b"\n", 0, error.start)),
        ) from None


def control_sign(text: str) -> str:
    r"""The first control character in a text as it is told, line ends and tabs aside; empty without one.

    Examples
    --------
    >>> control_sign("a\x07b"), control_sign("a\tb\n")
    ('character U+0007', '')
    """
    found = _CONTROL.search(text)
    return f"character U+{ord(found[0]):04X}" if found else ""


def check_text(text: str, *, file: str) -> str:
    """Refuse text that is too long, empty or holds control characters; give it back otherwise.

    Parameters
    ----------
    text
        The whole text of a file.
    file
        Its name, for the fault.

    Raises
    ------
    FileFaults
        ``file_too_big``, ``not_text``, ``file_empty``.
    """
    text = text.removeprefix("\ufeff")
    if len(text) > MAX_BYTES:
        raise _too_big(file, len(text))
    bad = _CONTROL.search(text)
    if bad:
        line = text.count("\n", 0, bad.start()) + 1
        raise _refuse(
            file,
            "not_text",
            f"character U+{ord(bad[0]):04X}",
            "must be plain text without control characters",
            "Delete that character, or save the file as plain text.",
            place=(line, bad.start() - text.rfind("\n", 0, bad.start())),
        )
    if not text.strip():
        raise _refuse(file, "file_empty", "nothing", "must hold something", "Is it the file you meant?")
    return text


def _too_big(file: str, size: int) -> FileFaults:
    return _refuse(
        file,
        "file_too_big",
        f"{size / 1e6:.1f} MB",
        f"must be at most {MAX_BYTES / 1e6:g} MB",
        "A piece, shop, rack or room is a few pages of text; is this the right file?",
    )


def _refuse(
    file: str, code: str, value: str, rule: str, remedy: str, *, place: tuple[int, int] = (0, 0)
) -> FileFaults:
    return FileFaults(
        [
            Fault(
                code=code,
                field="file",
                value=value,
                rule=rule,
                remedy=remedy,
                file=file,
                line=place[0],
                column=place[1],
            )
        ]
    )
