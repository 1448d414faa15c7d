"""The files of the page, held in memory: a page asks for some ninety of them before it draws."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from mimetypes import guess_type
from pathlib import Path

from starlette._utils import get_route_path
from starlette.exceptions import HTTPException
from starlette.responses import Response
from starlette.types import Receive, Scope, Send

__all__ = ["Files"]

_TYPES = {".js": "text/javascript; charset=utf-8", ".webmanifest": "application/manifest+json"}
_READING = {"GET", "HEAD"}


@dataclass(frozen=True, slots=True, kw_only=True)
class _File:
    """One file as it was when it was read."""

    stamp: tuple[int, int]
    content: bytes
    headers: Mapping[str, str]


class Files:
    """Answers with the files of a folder; one that has changed is read again.

    Parameters
    ----------
    folder
        The folder; nothing outside it is sent.
    headers
        Sent with each.
    beside
        More headers for some, by the path in the folder.
    """

    def __init__(
        self, folder: Path, headers: Mapping[str, str], beside: Mapping[str, Mapping[str, str]] | None = None
    ) -> None:
        self._folder, self._headers, self._beside = folder.resolve(), headers, beside or {}
        self._kept: dict[str, _File] = {}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["method"] not in _READING:
            raise HTTPException(405)
        found = self._file(get_route_path(scope).lstrip("/"))
        asked = dict(scope["headers"]).get(b"if-none-match", b"").decode("latin-1")
        known = found.headers["etag"] in asked
        response = Response(None if known else found.content, 304 if known else 200, dict(found.headers))
        if scope["method"] == "HEAD":
            response.body = b""
        await response(scope, receive, send)

    def _file(self, name: str) -> _File:
        try:
            path = (self._folder / name).resolve()
            if not path.is_relative_to(self._folder) or not path.is_file():
                raise HTTPException(404)
            status = path.stat()
        except (OSError, ValueError) as error:  # a name no file can have, or a file gone meanwhile
            raise HTTPException(404) from error
        name = path.relative_to(self._folder).as_posix()  # one copy of a file, however its path is written
        stamp = (status.st_mtime_ns, status.st_size)
        kept = self._kept.get(name)
        if kept is None or kept.stamp != stamp:
            self._kept[name] = kept = self._read(path, name, stamp)
        return kept

    def _read(self, path: Path, name: str, stamp: tuple[int, int]) -> _File:
        content = path.read_bytes()
        kind = _TYPES.get(path.suffix) or guess_type(path.name)[0] or "application/octet-stream"
        if kind.startswith("text/") and "charset" not in kind:
            kind += "; charset=utf-8"
        tag = f'"{hashlib.sha256(content).hexdigest()[:32]}"'
        headers = {**self._headers, **self._beside.get(name, {}), "content-type": kind, "etag": tag}
        return _File(stamp=stamp, content=content, headers=headers)
