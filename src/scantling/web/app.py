"""The routes. Each answers from the session; none works anything out."""

from __future__ import annotations

import logging
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

from fastapi import FastAPI, Request, Response
from fastapi.responses import HTMLResponse, JSONResponse
from fastapi.staticfiles import StaticFiles
from starlette.exceptions import HTTPException

from scantling import __version__
from scantling.errors import Fault, FileFaults, ScantlingError
from scantling.web.guarding import Guard
from scantling.web.pages import document, static_folder
from scantling.web.refusing import faults_of, refusal
from scantling.web.session import Session
from scantling.web.taking import KINDS, TakenFile, paper_named
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
    page = document("index.html")
    app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
    app.add_middleware(Guard, policy=page.policy)
    app.add_exception_handler(HTTPException, _not_served)
    app.add_exception_handler(ScantlingError, _refused)
    app.add_exception_handler(Exception, _broken)

    @app.get("/")
    def show_page() -> HTMLResponse:
        title, about = session.heading()
        return HTMLResponse(page.filled(title=title, about=about), headers=_FRESH)

    @app.get("/api/health")
    def show_health() -> JSONResponse:
        return JSONResponse({"ok": True, "version": __version__})

    @app.get("/api/piece")
    def show_piece(request: Request) -> Response:
        return _kept(request, session.key({}), lambda: JSONResponse(as_json(session.piece())))

    @app.get("/api/shape")
    def show_shape(request: Request) -> Response:
        given = _given(request)
        return _kept(request, session.key(given), lambda: JSONResponse(as_json(session.shape_view(given))))

    @app.get("/api/plan")
    def show_plan(request: Request) -> Response:
        given = _given(request)
        return _kept(request, session.key(given), lambda: JSONResponse(as_json(session.plan_view(given))))

    @app.get("/api/scene.glb")
    def show_scene(request: Request) -> Response:
        given = _given(request)
        return _kept(
            request,
            session.key(given),
            lambda: Response(session.scene(given), media_type="model/gltf-binary"),
        )

    @app.get("/api/packet.pdf")
    def show_packet(request: Request) -> Response:
        given, paper = _given(request, but=frozenset({"paper"})), request.query_params.get("paper", "a4")
        key = f"{session.key(given)}-{paper_named(paper)}"
        return _kept(request, key, lambda: _file(session.packet(given, paper), "inline"))

    @app.get("/api/export/{kind}")
    def show_export(kind: str, request: Request) -> Response:
        given = _given(request)
        key = f"{session.key(given)}-{kind if kind in KINDS else 'none'}"
        return _kept(request, key, lambda: _file(session.export(given, kind), "attachment"))

    fonts = files("scantling.papers") / "fonts"
    app.mount("/fonts", StaticFiles(directory=Path(str(fonts))))
    app.mount("/static", _Fresh(directory=static_folder()))
    return app


_FRESH = {"cache-control": "no-cache"}


class _Fresh(StaticFiles):
    """Files of the page: the browser asks each time whether they are still the same."""

    def file_response(self, *args: object, **kwargs: object) -> Response:
        response = super().file_response(*args, **kwargs)  # type: ignore[arg-type]  # passed on as it came
        response.headers.update(_FRESH)
        return response


def _given(request: Request, *, but: frozenset[str] = frozenset()) -> dict[str, str]:
    """Parameters asked for; each once, none endless."""
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


def _file(taken: TakenFile, shown: str) -> Response:
    """A file to take away, under its own name."""
    headers = {"content-disposition": f'{shown}; filename="{taken.name}"'}
    return Response(taken.content, media_type=taken.media_type, headers=headers)


def _kept(request: Request, key: str, answer: Callable[[], Response]) -> Response:
    """The answer, or word that what the browser holds is still right."""
    tag = f'"{key}"'
    if tag in request.headers.get("if-none-match", ""):
        return Response(status_code=304, headers={"etag": tag, **_FRESH})
    response = answer()
    response.headers.update({"etag": tag, **_FRESH})
    return response


def _refused(_request: Request, error: Exception) -> Response:
    assert isinstance(error, ScantlingError)
    return _body(422, faults_of(error))


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
