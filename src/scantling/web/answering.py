"""How the server answers: what a browser holds is not sent again, files have names, errors have one body."""

from __future__ import annotations

import logging
from collections.abc import Callable

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException
from starlette.routing import Match

from scantling.errors import Fault, FileFaults, InputError, ScantlingError
from scantling.store.stale import MovedOnError, StaleParentError
from scantling.web.bodies import moved_on_body
from scantling.web.refusing import faults_of, refusal
from scantling.web.taking import TakenFile
from scantling.web.views import as_json

__all__ = ["FRESH", "VERSION", "as_file", "given_of", "kept", "refuse_in_one_body"]

_LOG = logging.getLogger(__name__)
_LONGEST, _MOST = 200, 200
"""Characters of a value given, and values given."""
FRESH = {"cache-control": "no-cache"}
"""Header of what the browser asks for each time, to hear whether it is still the same."""
VERSION = "piece-version"
"""Header with the number of the version that is answered of, where a piece is asked for as it stands."""
_WAYS = ("GET", "POST", "PATCH")
"""Methods that any page of this server answers."""
_STATUS = {
    **dict.fromkeys(("unknown_piece", "unknown_version", "unknown_draft", "unknown_event"), 404),
    **dict.fromkeys(("unknown_board", "unknown_profile", "unknown_search"), 404),
    **dict.fromkeys(("moved_on", "name_taken", "nothing_to_undo", "nothing_to_redo", "file_changed"), 409),
    "begun_anew": 409,
    **dict.fromkeys(("nothing_to_take_back", "taken_back_already"), 409),
    **dict.fromkeys(("records_busy", "records_full", "records_closed", "driver_missing"), 503),
    **dict.fromkeys(("records_damaged", "records_newer", "records_foreign"), 503),
}
"""Status of a fault by its code; 422 for all others."""


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


def refuse_in_one_body(app: FastAPI) -> None:
    """Have everything an app refuses told in the one body of errors."""
    app.add_exception_handler(HTTPException, _not_served)
    app.add_exception_handler(RequestValidationError, _not_understood)
    app.add_exception_handler(ScantlingError, _refused)
    app.add_exception_handler(Exception, _broken)


def _refused_body(status: int, faults: list[Fault] | tuple[Fault, ...], **more: object) -> Response:
    """The one body of errors, with what else belongs to it."""
    told = as_json(refusal(status, faults))
    assert isinstance(told, dict)
    return JSONResponse({**told, **more}, status_code=status, headers={"cache-control": "no-store"})


def _refused(request: Request, error: Exception) -> Response:
    assert isinstance(error, ScantlingError)
    if isinstance(error, StaleParentError):
        return _refused_body(409, faults_of(error), current=error.current, **moved_on_body(error))
    if isinstance(error, MovedOnError):
        return _refused_body(409, faults_of(error), current=error.current)
    if not isinstance(error, InputError | FileFaults):
        return _broken(request, error)
    status = _STATUS.get(error.code, 422) if isinstance(error, InputError) else 422
    return _refused_body(status, faults_of(error))


def _not_served(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    asked = f"{request.method} {request.url.path[:_LONGEST]}"
    if error.status_code == 405:
        return _not_allowed(request, asked)
    if error.status_code == 400:
        fault = Fault(
            code="not_json",
            field="body",
            value="something else",
            rule="must be JSON that is not nested a thousand deep and has no numbers of a thousand digits",
            remedy="For programs: /api/openapi.json.",
        )
        return _refused_body(400, [fault])
    fault = Fault(
        code="not_found",
        field="path",
        value=asked,
        rule="must be a page of this server",
        remedy="Open the address that the command printed.",
    )
    return _refused_body(error.status_code, [fault])


def _not_allowed(request: Request, asked: str) -> Response:
    """A page that is there and was asked in a way that it does not answer; the others are in the header."""
    ways = ", ".join(way for way in _WAYS if _answered(request, way)) or "GET"
    fault = Fault(
        code="method_not_allowed",
        field="method",
        value=asked,
        rule=f"must be {ways}",
        remedy="For programs: /api/openapi.json.",
    )
    answer = _refused_body(405, [fault])
    answer.headers["allow"] = ways
    return answer


def _answered(request: Request, way: str) -> bool:
    scope = {**request.scope, "method": way}
    return any(route.matches(scope)[0] is Match.FULL for route in request.app.routes)


def _not_understood(_request: Request, error: Exception) -> Response:
    """A request that is not of the form asked for; every fault of it."""
    assert isinstance(error, RequestValidationError)
    faults = [
        Fault(
            code=f"{each['loc'][0]}_{each['type']}",
            field=".".join(str(step) for step in each["loc"])[:_LONGEST],
            value=_written(each.get("input")),
            rule=str(each["msg"]).removeprefix("Value error, ")[:300],
            remedy="Reload the page: it may be older than the server. For programs: /api/openapi.json.",
        )
        for each in error.errors()
    ]
    return _refused_body(422, faults[:50])


def _written(value: object) -> str:
    text = value if isinstance(value, str) else repr(value)
    text = text.encode("utf-8", "backslashreplace").decode()
    return text if len(text) <= 80 else f"{text[:77]}..."


def _broken(request: Request, error: Exception) -> Response:
    _LOG.error("%s %s", request.method, request.url.path, exc_info=error)
    return _refused_body(500, faults_of(ScantlingError(type(error).__name__)))
