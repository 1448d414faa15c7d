"""The server: routes, files of the page, and how what goes wrong is told."""

from __future__ import annotations

import logging
from importlib.resources import files
from pathlib import Path

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from fastapi.staticfiles import StaticFiles
from starlette.exceptions import HTTPException

from scantling import __version__
from scantling.errors import Fault, ScantlingError
from scantling.web.guarding import Guard
from scantling.web.pages import document, static_folder
from scantling.web.refusing import faults_of, refusal
from scantling.web.routes import FRESH, piece_routes
from scantling.web.session import Session
from scantling.web.views import as_json

__all__ = ["create_app"]

_LOG = logging.getLogger(__name__)
_LONGEST, _MOST = 200, 200
"""Characters of a value given, and values given."""


def create_app(session: Session) -> FastAPI:
    """The page's server.

    Parameters
    ----------
    session
        Whose piece it shows.
    """
    app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
    app.add_middleware(Guard, policy=document("index.html").policy)
    app.add_exception_handler(HTTPException, _not_served)
    app.add_exception_handler(ScantlingError, _refused)
    app.add_exception_handler(RequestValidationError, _misread)
    app.add_exception_handler(Exception, _broken)

    app.include_router(piece_routes(lambda _request: session))

    @app.get("/api/health")
    def show_health() -> JSONResponse:
        return JSONResponse({"ok": True, "version": __version__})

    fonts = files("scantling.papers") / "fonts"
    app.mount("/fonts", StaticFiles(directory=Path(str(fonts))))
    app.mount("/static", _Fresh(directory=static_folder()))
    return app


class _Fresh(StaticFiles):
    """Files of the page: the browser asks each time whether they are still the same."""

    def file_response(self, *args: object, **kwargs: object) -> Response:
        response = super().file_response(*args, **kwargs)  # type: ignore[arg-type]  # passed on as it came
        response.headers.update(FRESH)
        return response


def _refused(_request: Request, error: Exception) -> Response:
    assert isinstance(error, ScantlingError)
    return _body(422, faults_of(error))


def _misread(_request: Request, error: Exception) -> Response:
    """A body that is not of the form asked for; every fault of it."""
    assert isinstance(error, RequestValidationError)
    faults = [
        Fault(
            code=f"body_{each['type']}",
            field=".".join(str(step) for step in each["loc"])[:_LONGEST],
            value=str(each.get("input", ""))[:40],
            rule=each["msg"],
            remedy="Reload the page: it may be older than the server.",
        )
        for each in error.errors()
    ]
    return _body(422, faults)


def _not_served(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    fault = Fault(
        code="method_not_allowed" if error.status_code == 405 else "not_found",
        field="path",
        value=f"{request.method} {request.url.path[:_LONGEST]}",
        rule="must be a page of this server",
        remedy="Open the address that the command printed.",
    )
    return _body(error.status_code, [fault])


def _broken(request: Request, error: Exception) -> Response:
    _LOG.error("%s %s", request.method, request.url.path, exc_info=error)
    return _body(500, faults_of(ScantlingError(type(error).__name__)))


def _body(status: int, faults: list[Fault] | tuple[Fault, ...]) -> Response:
    return JSONResponse(
        as_json(refusal(status, faults)), status_code=status, headers={"cache-control": "no-store"}
    )
