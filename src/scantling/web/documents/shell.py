"""What a browser keeps to open the page without its server: every file of the page, under one name."""

from __future__ import annotations

import hashlib
from functools import cache
from importlib.resources import files
from pathlib import Path

__all__ = ["SCOPE_HEADER", "WORKER", "shell_files", "shell_version", "static_folder"]

WORKER = "js/worker.js"
"""The module that answers when the server does not."""
SCOPE_HEADER = {"service-worker-allowed": "/"}
"""Lets that module answer for every address, not only for those beside it."""
_WORDS = frozenset({".md", ".html", ""})
"""Endings of what is no file of the page: notes, documents (which are kept as they are opened), licenses."""


def static_folder() -> Path:
    """Where the files of the page are."""
    return Path(str(files("scantling.web") / "static"))


@cache
def shell_files() -> tuple[str, ...]:
    """Addresses of all files of the page."""
    static = static_folder()
    fonts = Path(str(files("scantling.papers") / "fonts"))
    own = [path.relative_to(static).as_posix() for path in _files(static)]
    return (
        *(f"/static/{name}" for name in own if name != WORKER),
        *(f"/fonts/{path.name}" for path in _files(fonts)),
    )


@cache
def shell_version() -> str:
    """Name for all of them as they are now; another when one changes. 16 hexadecimal digits."""
    digest = hashlib.sha256()
    for path in sorted(static_folder().rglob("*")):
        if path.is_file():
            digest.update(f"\0{path.name}\0".encode() + path.read_bytes())
    return digest.hexdigest()[:16]


def _files(folder: Path) -> list[Path]:
    return sorted(
        path
        for path in folder.rglob("*")
        if path.is_file()
        and path.suffix not in _WORDS
        and path.name not in {"SHA256SUMS", "OFL.txt", "published.js", "published.css"}
    )
