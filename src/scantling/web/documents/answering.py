"""How the server answers: what a browser holds is not sent again, files have names, questions have an end."""

from __future__ import annotations

from collections.abc import Callable

from fastapi import Request, Response

from scantling.errors import Fault, FileFaults
from scantling.web.sent.taken import TakenFile

__all__ = ["FRESH", "VERSION", "as_file", "given_of", "kept"]

_LONGEST, _MOST = 200, 200
"""Characters of a value given, and values given."""
FRESH = {"cache-control": "no-cache"}
"""Header of what the browser asks for each time, to hear whether it is still the same."""
VERSION = "piece-version"
"""Header with the number of the version that is answered of, where a piece is asked for as it stands."""


def given_of(request: Request, *, but: frozenset[str] = frozenset()) -> dict[str, str]:
    """Parameters asked for; each once, none endless.

    Raises
    ------
    FileFaults
        ``given_twice``, ``too_long``.
    """
    pairs = [(name, value) for name, value in request.query_params.multi_items() if name not in but]
    given, faults = dict(pairs), []
    if len(given) < len(pairs) or len(pairs) > _MOST:
        faults.append(
            Fault(
                code="given_twice",
                field="query",
                value=f"{len(pairs)} values",
                rule=f"must name each parameter once, and at most {_MOST}",
                remedy="Open the page without what stands behind the question mark.",
            )
        )
    faults += [
        Fault(
            code="too_long",
            field=name[:_LONGEST],
            value=f"{value[:20]}...",
            rule=f"must have at most {_LONGEST} characters",
            remedy="Write one length, such as 730 mm.",
        )
        for name, value in pairs
        if len(value) > _LONGEST or len(name) > _LONGEST
    ]
    if faults:
        raise FileFaults(faults)
    return given


def as_file(taken: TakenFile, shown: str) -> Response:
    """A file to take away, under its own name; ``shown`` is ``inline`` or ``attachment``."""
    headers = {"content-disposition": f'{shown}; filename="{taken.name}"'}
    return Response(taken.content, media_type=taken.media_type, headers=headers)


def kept(request: Request, key: str, answer: Callable[[], Response]) -> Response:
    """The answer, or word that what the browser holds is still right; with the version of a piece."""
    tag = f'"{key}"'
    version = getattr(request.state, "version", None)
    headers = {"etag": tag, **FRESH, **({} if version is None else {VERSION: str(version)})}
    if tag in request.headers.get("if-none-match", ""):
        return Response(status_code=304, headers=headers)
    response = answer()
    response.headers.update(headers)
    return response
