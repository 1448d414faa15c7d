"""How what is refused is told: one body for programs, a plain page for whoever opens one in a browser."""

from __future__ import annotations

import logging

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException
from starlette.routing import Match

from scantling.errors import Fault, FileFaults, InputError, ScantlingError
from scantling.store.stale import MovedOnError, StaleParentError
from scantling.web.documents.refusal_page import refusal_page, wants_page
from scantling.web.sent.bodies import moved_on_body
from scantling.web.sent.refusing import faults_of, refusal
from scantling.web.sent.views import as_json

__all__ = ["refuse_in_one_body"]

_LOG = logging.getLogger(__name__)
_LONGEST = 200
"""Characters of an address or a field that are told."""
_WAYS = ("GET", "POST", "PATCH")
"""Methods that any page of this server answers."""
_STATUS = {
    **dict.fromkeys(("unknown_piece", "unknown_version", "unknown_draft", "unknown_event"), 404),
    **dict.fromkeys(("unknown_board", "unknown_profile", "unknown_search"), 404),
    **dict.fromkeys(("moved_on", "name_taken", "nothing_to_undo", "nothing_to_redo", "file_changed"), 409),
    "begun_anew": 409,
    **dict.fromkeys(("nothing_to_take_back", "taken_back_already", "not_the_last"), 409),
    **dict.fromkeys(("records_busy", "records_full", "records_closed", "driver_missing"), 503),
    **dict.fromkeys(("records_damaged", "records_newer", "records_foreign"), 503),
}
"""Status of a fault by its code; 422 for all others."""


def refuse_in_one_body(app: FastAPI) -> None:
    """Have everything an app refuses told in the one body of errors."""
    app.add_exception_handler(HTTPException, _not_served)
    app.add_exception_handler(RequestValidationError, _not_understood)
    app.add_exception_handler(ScantlingError, _refused)
    app.add_exception_handler(Exception, _broken)


def _refused_body(
    request: Request, status: int, faults: list[Fault] | tuple[Fault, ...], **more: object
) -> Response:
    """The one body of errors, with what else belongs to it; a page for whoever opens it in a browser."""
    body = refusal(status, faults)
    if wants_page(request):
        return refusal_page(request, status, body.errors)
    told = as_json(body)
    assert isinstance(told, dict)
    return JSONResponse({**told, **more}, status_code=status, headers={"cache-control": "no-store"})


def _refused(request: Request, error: Exception) -> Response:
    assert isinstance(error, ScantlingError)
    if isinstance(error, StaleParentError):
        return _refused_body(request, 409, faults_of(error), current=error.current, **moved_on_body(error))
    if isinstance(error, MovedOnError):
        return _refused_body(request, 409, faults_of(error), current=error.current)
    if not isinstance(error, InputError | FileFaults):
        return _broken(request, error)
    status = _STATUS.get(error.code, 422) if isinstance(error, InputError) else 422
    return _refused_body(request, status, faults_of(error))


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
        return _refused_body(request, 400, [fault])
    fault = Fault(
        code="not_found",
        field="path",
        value=asked,
        rule="must be a page of this server",
        remedy="Open the address that the command printed.",
    )
    return _refused_body(request, error.status_code, [fault])


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
    answer = _refused_body(request, 405, [fault])
    answer.headers["allow"] = ways
    return answer


def _answered(request: Request, way: str) -> bool:
    scope = {**request.scope, "method": way}
    return any(route.matches(scope)[0] is Match.FULL for route in request.app.routes)


def _not_understood(request: Request, error: Exception) -> Response:
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
    return _refused_body(request, 422, faults[:50])


def _written(value: object) -> str:
    text = value if isinstance(value, str) else repr(value)
    text = text.encode("utf-8", "backslashreplace").decode()
    return text if len(text) <= 80 else f"{text[:77]}..."


def _broken(request: Request, error: Exception) -> Response:
    _LOG.error("%s %s", request.method, request.url.path, exc_info=error)
    return _refused_body(request, 500, faults_of(ScantlingError(type(error).__name__)))
